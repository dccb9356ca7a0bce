/**
 * Kills the browser while a piece is being edited, and looks what was kept: SIGKILL to its whole process group at random
 * moments, then the same profile again. Zero edits older than a second may be missing.
 */
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Browser } from '@playwright/test';
import { build } from 'rolldown';
import { installedBrowser } from '../../../src/cli/browser.ts';
import { mulberry32 } from '../../plan/random-scenes.ts';

/** ms. The promise: an edit this old is on the disk. */
const OLDEST_LOSS_MS = 1000;
/** ms after the first edit in which the kill comes. */
const KILL_WITHIN_MS: readonly [number, number] = [50, 1800];
/** ms. A start on a busy machine. */
const START_LIMIT_MS = 60_000;

export interface KillsReport {
  readonly kills: number;
  readonly editsMade: number;
  /** Edits that were made before a kill and not there after it, of any age. */
  readonly editsLost: number;
  /** Of those, edits older than a second: the promise broken. */
  readonly lostOlderThanASecond: number;
  /** Edits that were said to be kept and were not there. */
  readonly keptButLost: number;
  /** Openings with a damaged document, file or undo list. */
  readonly torn: number;
  /** ms from an edit to its being on the disk, over all kills. */
  readonly keptMs: { readonly median: number; readonly p99: number; readonly max: number };
  /** ms. Age of the oldest edit that was lost. */
  readonly oldestLossMs: number;
}

type Message =
  | { readonly kind: 'opened'; readonly count: number; readonly undo: string | null; readonly whole: boolean }
  | { readonly kind: 'made'; readonly count: number; readonly at: number }
  | { readonly kind: 'kept'; readonly count: number; readonly tookMs: number };

/** `onKill` is told the number of each kill that is done. */
export async function kills(count: number, seed: number, onKill: (kill: number) => void = () => undefined): Promise<KillsReport> {
  const random = mulberry32(seed);
  const profile = mkdtempSync(join(tmpdir(), 'stillpool-kills-'));
  const server = await serve();
  const address = `http://localhost:${(server.address() as AddressInfo).port}/`;
  const tookMs: number[] = [];
  let editsMade = 0;
  let editsLost = 0;
  let lostOlderThanASecond = 0;
  let keptButLost = 0;
  let torn = 0;
  let oldestLossMs = 0;
  /** What the last life had done when it was killed. */
  let made = new Map<number, number>();
  let lastKept = 0;
  let killedAt = 0;
  try {
    for (let life = 0; life <= count; life++) {
      const killAfterMs = KILL_WITHIN_MS[0] + random() * (KILL_WITHIN_MS[1] - KILL_WITHIN_MS[0]);
      const tab = await open(profile, address);
      try {
        const opened = await tab.opened;
        const found = opened.count;
        if (!opened.whole || (found > 0 && opened.undo !== `Edit ${found}`)) torn++;
        if (found < lastKept) keptButLost++;
        for (const [edit, at] of made) {
          if (edit <= found) continue;
          editsLost++;
          oldestLossMs = Math.max(oldestLossMs, killedAt - at);
          if (killedAt - at > OLDEST_LOSS_MS) lostOlderThanASecond++;
        }
        if (life === count) break;
        await tab.editing;
        await new Promise((resolve) => setTimeout(resolve, killAfterMs));
      } finally {
        killedAt = Date.now();
        await tab.kill();
      }
      made = tab.made;
      lastKept = Math.max(lastKept, tab.lastKept());
      editsMade += made.size;
      tookMs.push(...tab.tookMs);
      onKill(life + 1);
    }
  } finally {
    server.closeAllConnections();
    server.close();
    rmSync(profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  }
  tookMs.sort((a, b) => a - b);
  const share = (part: number): number => tookMs[Math.min(tookMs.length - 1, Math.floor(part * tookMs.length))];
  return { kills: count, editsMade, editsLost, lostOlderThanASecond, keptButLost, torn, keptMs: { median: share(0.5), p99: share(0.99), max: share(1) }, oldestLossMs };
}

interface Tab {
  readonly opened: Promise<Extract<Message, { kind: 'opened' }>>;
  /** The first edit was made. */
  readonly editing: Promise<void>;
  /** Edit → when it was made, ms since 1970. */
  readonly made: Map<number, number>;
  readonly tookMs: number[];
  lastKept(): number;
  /** SIGKILL to the browser and all its processes; answers when it is dead. */
  kill(): Promise<void>;
}

/** A browser of its own process group, so that one signal ends all its processes at once. */
async function open(profile: string, address: string): Promise<Tab> {
  const path = installedBrowser();
  if (!path) throw new Error('No browser found for the kill test; set CHROME_PATH to a Chromium.');
  const args = ['--headless=new', '--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking', '--no-default-browser-check'];
  const process_ = spawn(path, [...args, `--user-data-dir=${profile}`, '--remote-debugging-port=0', 'about:blank'], { detached: true, stdio: ['ignore', 'ignore', 'pipe'] });
  const died = new Promise<void>((resolve) => process_.once('exit', () => resolve()));
  let browser: Browser | null = null;
  const kill = async (): Promise<void> => {
    try {
      process.kill(-process_.pid!, 'SIGKILL');
    } catch {
      // It is dead already.
    }
    await died;
    await browser?.close().catch(() => undefined);
  };
  try {
    browser = await chromium.connectOverCDP(await debuggerAddress(process_), { timeout: START_LIMIT_MS });
    const page = await browser.contexts()[0].newPage();
    const made = new Map<number, number>();
    const tookMs: number[] = [];
    let lastKept = 0;
    let tellOpened!: (message: Extract<Message, { kind: 'opened' }>) => void;
    let tellEditing!: () => void;
    let failOpened!: (error: Error) => void;
    const opened = new Promise<Extract<Message, { kind: 'opened' }>>((resolve, reject) => {
      tellOpened = resolve;
      failOpened = reject;
    });
    const editing = new Promise<void>((resolve) => (tellEditing = resolve));
    page.on('pageerror', failOpened);
    setTimeout(() => failOpened(new Error(`the page did not open its piece in ${START_LIMIT_MS} ms`)), START_LIMIT_MS).unref();
    page.on('console', (line) => {
      if (line.type() !== 'info') return;
      const message = JSON.parse(line.text()) as Message;
      if (message.kind === 'opened') tellOpened(message);
      if (message.kind === 'made') {
        made.set(message.count, message.at);
        tellEditing();
      }
      if (message.kind === 'kept') {
        lastKept = Math.max(lastKept, message.count);
        tookMs.push(message.tookMs);
      }
    });
    await page.goto(address);
    return { opened, editing, made, tookMs, lastKept: () => lastKept, kill };
  } catch (error) {
    await kill();
    throw error;
  }
}

function debuggerAddress(browser: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = '';
    const timer = setTimeout(() => reject(new Error(`the browser did not start in ${START_LIMIT_MS} ms: ${said}`)), START_LIMIT_MS);
    browser.once('error', reject);
    browser.once('exit', (code) => reject(new Error(`the browser ended with ${code}: ${said}`)));
    browser.stderr!.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      const found = /DevTools listening on (ws:\S+)/.exec(said);
      if (!found) return;
      clearTimeout(timer);
      resolve(found[1]);
    });
  });
}

/** The page with the real module, bundled. Always on the same port: another would be another origin with another storage. */
async function serve(): Promise<Server> {
  const { output } = await build({ input: join(import.meta.dirname, 'page.ts'), write: false, output: { format: 'esm', codeSplitting: false } });
  const script = output[0].code;
  const server = createServer((request, response) => {
    const isScript = request.url === '/page.js';
    response.setHeader('content-type', isScript ? 'text/javascript' : 'text/html; charset=utf-8');
    response.end(isScript ? script : '<!doctype html><title>kills</title><script type="module" src="page.js"></script>');
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return server;
}
