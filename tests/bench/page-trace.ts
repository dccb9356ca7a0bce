/** What the page's main thread itself worked, from the browser's own trace: on a machine that is shared, time on the clock says little. */
import type { Browser, Page } from '@playwright/test';

interface TraceEvent {
  readonly ph: string;
  readonly name: string;
  readonly pid: number;
  readonly tid: number;
  /** Time of the thread itself, µs. */
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

/** Traces what is done meanwhile. Gives the most processor time that one task of a page's main thread took, ms. */
export async function mostWorked(browser: Browser, page: Page, doing: () => Promise<void>): Promise<number> {
  await browser.startTracing(page, { categories: ['toplevel'] });
  await doing();
  const trace = await browser.stopTracing();
  const { traceEvents } = JSON.parse(trace.toString()) as { traceEvents: TraceEvent[] };
  const mains = new Set(traceEvents.filter(({ name, args }) => name === 'thread_name' && args?.name === 'CrRendererMain').map(({ pid, tid }) => `${pid} ${tid}`));
  const tasks = traceEvents.filter(({ ph, name, pid, tid, tdur }) => ph === 'X' && name.endsWith('RunTask') && tdur !== undefined && mains.has(`${pid} ${tid}`));
  if (tasks.length === 0) throw new Error('The browser’s trace names no task of the page’s main thread.');
  return Math.max(...tasks.map(({ tdur }) => tdur!)) / 1000;
}
