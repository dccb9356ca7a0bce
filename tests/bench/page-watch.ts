/** What the page's own browser noticed: long tasks, event timing, answers of the worker, and when what is on screen had followed the hand. */
import type { Page } from '@playwright/test';

/** Marks on the page's clock, ms. */
export interface Noticed {
  /** Tasks over 50 ms of the main thread, as the browser's long-task entries have them. */
  readonly tasks: readonly { readonly start: number; readonly ms: number }[];
  /** From a press, a release or a key to the next frame, as the browser's event-timing entries have them (8 ms apart; moves of a pointer have none). */
  readonly events: readonly { readonly start: number; readonly ms: number }[];
  readonly moves: readonly number[];
  readonly releases: readonly number[];
  /** When a number changed in the page and when that was painted: pours on the gauge, the summary, what the card has from the plan. */
  readonly painted: readonly { readonly changed: number; readonly at: number }[];
  /** Plannings: from the question to the worker to its answer. `live`: while something is dragged. */
  readonly answers: readonly { readonly start: number; readonly ms: number; readonly live: boolean }[];
  /** What was said while a file was on its way in. */
  readonly said: readonly string[];
  /** Whether the last painted numbers were marked as rough. */
  readonly about: boolean;
  /** Whether the worker owes an answer. */
  readonly waiting: boolean;
}

/** Installs the watch; call before the page is opened. */
export async function watchPage(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const asked = new Map<number, { start: number; live: boolean }>();
    const seen = { tasks: [] as object[], events: [] as object[], moves: [] as number[], releases: [] as number[], painted: [] as object[], answers: [] as object[], said: [] as string[], about: false };
    Object.defineProperty(window, 'noticed', { get: () => ({ ...seen, waiting: asked.size > 0 }) });
    new PerformanceObserver((list) => {
      for (const { startTime, duration } of list.getEntries()) seen.tasks.push({ start: startTime, ms: duration });
    }).observe({ type: 'longtask', buffered: true });
    new PerformanceObserver((list) => {
      for (const { startTime, duration } of list.getEntries()) seen.events.push({ start: startTime, ms: duration });
    }).observe({ type: 'event', buffered: true, durationThreshold: 16 } as PerformanceObserverInit);
    addEventListener('pointermove', (event) => seen.moves.push(event.timeStamp), true);
    addEventListener('pointerup', (event) => seen.releases.push(event.timeStamp), true);

    const { Worker: BrowserWorker } = window;
    window.Worker = class extends BrowserWorker {
      constructor(script: string | URL, options?: WorkerOptions) {
        super(script, options);
        asked.clear();
        this.addEventListener('message', ({ data }: MessageEvent<{ id?: number }>) => {
          const question = data.id === undefined ? undefined : asked.get(data.id);
          if (!question) return;
          asked.delete(data.id!);
          seen.answers.push({ ...question, ms: performance.now() - question.start });
        });
      }
      override postMessage(message: unknown, options?: StructuredSerializeOptions | Transferable[]): void {
        // Other threads are asked other things.
        const { id, request } = message as { id: number; request?: { kind: string; live?: boolean } };
        if (request?.kind === 'derive') asked.set(id, { start: performance.now(), live: request.live === true });
        super.postMessage(message, options as StructuredSerializeOptions);
      }
    };

    const fromPlan = (target: Node): boolean => {
      const element = target instanceof Element ? target : target.parentElement;
      return !!element?.closest('[aria-label="Pours on the gauge"], .summary:not([role]), [aria-label="What the plan says about it"], .sums');
    };
    new MutationObserver((changes) => {
      const words = document.querySelector('[aria-label="Opening"]')?.textContent;
      if (words && seen.said.at(-1) !== words) seen.said.push(words);
      if (!changes.some(({ target }) => fromPlan(target))) return;
      seen.about = document.querySelector('.summary')?.textContent?.startsWith('about') ?? false;
      const changed = performance.now();
      // After the frame that shows it has been made.
      requestAnimationFrame(() => setTimeout(() => seen.painted.push({ changed, at: performance.now() })));
    }).observe(document, { subtree: true, childList: true, characterData: true, attributes: true });
  });
}

export function noticed(page: Page): Promise<Noticed> {
  return page.evaluate(() => (window as unknown as { noticed: Noticed }).noticed);
}

/** The page's clock now, ms. */
export function clock(page: Page): Promise<number> {
  return page.evaluate(() => performance.now());
}

/** The longest task that ran between two times, ms; 0: none took over 50 ms. */
export function longestTask({ tasks }: Noticed, from: number, to = Infinity): number {
  return Math.max(0, ...tasks.filter(({ start, ms }) => start + ms > from && start < to).map(({ ms }) => ms));
}

/** The longest event-timing entry that began between two times, ms; 0: every one was answered by a frame within 16. */
export function longestEvent({ events }: Noticed, from: number, to: number): number {
  return Math.max(0, ...events.filter(({ start }) => start >= from && start < to).map(({ ms }) => ms));
}

/**
 * From a move to the painting of the numbers that came of it, ms: of the first answer to a question asked after it. Moves
 * whose answer changed no number that is on screen are left out.
 */
export function followed({ moves, answers, painted }: Noticed, from: number, to: number): number[] {
  const ends = answers.map(({ start, ms }) => start + ms);
  return moves.filter((move) => move >= from && move < to).flatMap((move) => {
    const first = answers.findIndex(({ start, live }) => live && start >= move);
    const next = ends[first + 1] ?? Infinity;
    const shown = first < 0 ? undefined : painted.find(({ changed }) => changed >= ends[first] && changed < next);
    return shown === undefined ? [] : [shown.at - move];
  });
}
