/**
 * The built page in a browser, worked by mouse: a figure of 500,000 triangles pulled up and down on the gauge, a file of
 * 200 MB begun and stopped, then set in. Times are the browser's own entries (long tasks begin at 50 ms; a row of 0 has none). The
 * baseline is the same on the demo scene in the same run: its newt, of 12,000 triangles, pulled in the same way.
 *
 * There is no graphics card on most test machines: the picture then is computed on the same cores, and every number on
 * screen waits for it. The worker's row says what the numbers themselves take, the row of work what the page's thread took
 * of a processor. What the page draws beside the picture is drawn without WebGL, as a browser without a card does it.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { chromium, type Browser, type Page } from '@playwright/test';
import { findBrowser } from '../../src/cli/browser.ts';
import { builtPage, listenOn, pageServer, type PageFiles } from '../../src/cli/start.ts';
import { ring, writeStl } from './big-stl.ts';
import { mostWorked } from './page-trace.ts';
import { clock, followed, longestEvent, longestTask, noticed, watchPage, type Noticed } from './page-watch.ts';
import type { BenchRow } from './rows.ts';

const SEED = 2004;
/** Vertices around and across the ring: 500,000 and 4,000,000 triangles, the second a file of 200 MB. */
const HEAVY = [500, 500] as const;
const HUGE = [2000, 1000] as const;
/** A hand that goes on: px up and back, moves, ms between them. */
const FLOWING = { px: 60, moves: 40, ms: 16 } as const;
/** One that waits for the numbers after each move; the pause is short of a rest, so nothing is united meanwhile. */
const WAITING = { px: 6, moves: 8, ms: 200 } as const;
/** By keys on the clip: presses, ms between them. */
const KEYS = { presses: 8, ms: 200 } as const;
/** ms without any change on screen after which the numbers count as settled. */
const SETTLED_MS = 2500;
/** ms after which a page that is still busy is given up. */
const WAIT_MS = 180_000;
/** ms into the reading of the large file at which it is stopped. */
const STOPPED_AFTER_MS = 400;
const AIM = { taskMs: 50, followMs: 100, unitedMs: 1000, lookedMs: 5000, gaugeMs: 15_000, firstLoadBytes: 400e3, workerBytes: 60e3 } as const;

export async function pageBench(): Promise<BenchRow[]> {
  const found = await findBrowser();
  if (!found) throw new Error('No browser was found for the page’s bench; expected one of the Chromium kind. Install one (Debian: apt-get install -y chromium) or set CHROME_PATH.');
  const files = await builtPage();
  const server = pageServer(files);
  const address = `http://127.0.0.1:${await listenOn(server, 0)}/`;
  const folder = mkdtempSync(join(tmpdir(), 'stillpool-bench-'));
  const browser = await chromium.launch({
    executablePath: found.path,
    env: { ...process.env, ...found.env } as Record<string, string>,
    args: ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--disable-gpu-rasterization', '--disable-background-networking', '--no-first-run'],
  });
  try {
    return [...(await sizes(browser, address, files)), ...(await dragging(browser, address, folder)), ...(await opening(browser, address, folder))];
  } finally {
    await browser.close();
    server.closeAllConnections();
    server.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What is loaded until the gauge can be used, each file packed as a server would; typefaces are packed already. */
async function sizes(browser: Browser, address: string, files: PageFiles): Promise<BenchRow[]> {
  const page = await browser.newPage();
  const asked = new Set<string>();
  page.context().on('request', (request) => asked.add(new URL(request.url()).pathname.slice(1) || 'index.html'));
  await page.goto(address);
  await page.getByRole('group', { name: 'Things on the gauge' }).getByRole('button').first().waitFor({ timeout: WAIT_MS });
  // The picture's part is asked for when the gauge is there.
  const names = [...asked].filter((name) => files.has(name) && !/\/(three|mold-view)[^/]*\.js$/.test(name));
  await page.close();
  const packed = (wanted: (name: string) => boolean) => names.filter(wanted).reduce((sum, name) => sum + (name.endsWith('.woff2') ? files.get(name)!.length : gzipSync(files.get(name)!, { level: 9 }).length), 0);
  const isWorker = (name: string) => /\.worker-/.test(name);
  const isDemand = (name: string) => /\.(wasm|figure|json)$/.test(name) || /\/(booleans|read)-[^/]*\.js$/.test(name);
  const all = packed(() => true);
  const row = (name: string, ours: number, aim: number): BenchRow => ({ name, ours, baseline: all, ratio: ours / all, aim, unit: 'bytes' });
  return [
    row('first load: page, script, style, typefaces, worker, packed (aim: bytes; baseline: with the solid library and the demo’s figures)', packed((name) => !isDemand(name)), AIM.firstLoadBytes),
    row('the worker, packed (aim: bytes; same baseline)', packed(isWorker), AIM.workerBytes),
  ];
}

interface Dragged {
  readonly taskMs: number;
  readonly workMs: number;
  readonly eventMs: number;
  readonly followMs: number;
  readonly workerMs: number;
  readonly unitedMs: number;
  readonly restTaskMs: number;
}

async function dragging(browser: Browser, address: string, folder: string): Promise<BenchRow[]> {
  const file = join(folder, 'heavy.stl');
  writeStl(file, ring(...HEAVY, SEED));
  const page = await openedPage(browser, address);
  const plain = await dragged(browser, page, 'Newt');
  const from = await clock(page);
  await pick(page, file);
  await page.getByRole('group', { name: 'Height of heavy' }).getByRole('button').first().waitFor({ timeout: WAIT_MS });
  const openedTaskMs = longestTask(await quiet(page), from);
  const heavy = await dragged(browser, page, 'heavy');
  await page.close();
  const row = (name: string, key: keyof Dragged, aim: number): BenchRow => ({ name: `500,000 triangles, ${name}: ms (aim: ms; baseline: the demo’s newt)`, ours: heavy[key], baseline: plain[key], ratio: heavy[key] / plain[key], aim, unit: 'ms' });
  return [
    row('pulled on the gauge: longest main-thread task', 'taskMs', AIM.taskMs),
    row('pulled on the gauge: most processor time of one main-thread task', 'workMs', AIM.taskMs),
    row('from press, release and keys to the next frame: longest event-timing entry', 'eventMs', AIM.followMs),
    row('from a move to shifted numbers on screen, median', 'followMs', AIM.followMs),
    row('from what the page asks of its worker to the answer while pulled, median', 'workerMs', AIM.followMs),
    row('from letting go to united numbers on screen', 'unitedMs', AIM.unitedMs),
    row('after letting go: longest main-thread task', 'restTaskMs', AIM.taskMs),
    { name: '500,000 triangles, set into the piece: longest main-thread task: ms (aim: ms; baseline: that of pulling the newt)', ours: openedTaskMs, baseline: plain.taskMs, ratio: openedTaskMs / plain.taskMs, aim: AIM.taskMs, unit: 'ms' },
  ];
}

async function opening(browser: Browser, address: string, folder: string): Promise<BenchRow[]> {
  const file = join(folder, 'huge.stl');
  writeStl(file, ring(...HUGE, SEED));
  const page = await openedPage(browser, address);
  const thing = page.getByRole('group', { name: 'Things on the gauge' }).getByRole('button', { name: 'huge', exact: true });
  const stop = page.getByRole('status', { name: 'Opening' }).getByRole('button', { name: 'Stop' });

  const before = await clock(page);
  await pick(page, file);
  await stop.waitFor({ timeout: WAIT_MS });
  await page.waitForTimeout(STOPPED_AFTER_MS);
  const asked = await clock(page);
  await stop.click();
  await stop.waitFor({ state: 'hidden', timeout: WAIT_MS });
  const stoppedMs = (await clock(page)) - asked;
  const afterStop = await quiet(page);
  if ((await thing.count()) > 0 || (await page.getByRole('heading', { level: 1, name: 'Mill pond, evening' }).count()) === 0) throw new Error('The piece is not as it was after the large file was stopped.');

  const stages = new Set(afterStop.said.filter((words) => words.includes('huge')));
  if (stages.size === 0) throw new Error('Nothing was told of the large file while it was read.');
  const plainMs = longestTask(afterStop, 0, before);
  const row = (name: string, ours: number, aim: number): BenchRow => ({ name: `200 MB STL, ${name}: ms (aim: ms; baseline: longest main-thread task of opening the page)`, ours, baseline: plainMs, ratio: ours / plainMs, aim, unit: 'ms' });

  const huge = await set(browser, page, file);
  await page.close();
  const lightFile = join(folder, 'light.stl');
  writeStl(lightFile, ring(...HEAVY, SEED));
  const lightPage = await openedPage(browser, address);
  const light = await set(browser, lightPage, lightFile);
  await lightPage.close();
  const against = (name: string, key: keyof SetIn, aim: number): BenchRow => ({ name: `200 MB STL, ${name}: ms (aim: ms; baseline: one of 25 MB)`, ours: huge[key], baseline: light[key], ratio: huge[key] / light[key], aim, unit: 'ms' });
  return [
    row('read and stopped: longest main-thread task', longestTask(afterStop, before), AIM.taskMs),
    row('from the press on Stop to its end', stoppedMs, AIM.followMs),
    against('from the pick to a lighter copy in the picture', 'lookedMs', AIM.lookedMs),
    against('from the pick to exact numbers on the gauge', 'gaugeMs', AIM.gaugeMs),
    against('set into the piece: most processor time of one main-thread task', 'workMs', AIM.taskMs),
  ];
}

interface SetIn {
  readonly lookedMs: number;
  readonly gaugeMs: number;
  readonly workMs: number;
}

/** Picks a mesh and waits until it stands on the gauge, measured. */
async function set(browser: Browser, page: Page, file: string): Promise<SetIn> {
  const thing = page.getByRole('group', { name: 'Things on the gauge' }).getByRole('button', { name: basename(file, '.stl'), exact: true });
  let from = 0, looked = 0, shown = 0;
  const workMs = await mostWorked(browser, page, async () => {
    from = await clock(page);
    await pick(page, file);
    await page.getByRole('status', { name: 'Opening' }).getByText('A lighter copy is shown').waitFor({ timeout: WAIT_MS });
    looked = await clock(page);
    await thing.waitFor({ timeout: WAIT_MS });
    shown = await clock(page);
    await quiet(page);
  });
  return { lookedMs: looked - from, gaugeMs: shown - from, workMs };
}

async function openedPage(browser: Browser, address: string): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await watchPage(page);
  await page.goto(`${address}#compose`);
  await page.getByRole('img', { name: 'The mold', exact: true }).waitFor({ timeout: WAIT_MS });
  await quiet(page);
  return page;
}

async function pick(page: Page, file: string): Promise<void> {
  await page.getByRole('button', { name: 'Files' }).click();
  await page.getByLabel('Scene file, with the meshes it uses').setInputFiles(file);
}

/** Waits until nothing on screen has changed for a while and no number is rough any more. */
async function quiet(page: Page): Promise<Noticed> {
  const until = Date.now() + WAIT_MS;
  for (let before = await noticed(page); ; ) {
    await page.waitForTimeout(SETTLED_MS);
    const now = await noticed(page);
    if (before.painted.length === now.painted.length && before.tasks.length === now.tasks.length && !now.about && !now.waiting) return now;
    if (Date.now() > until) throw new Error(`The page was still busy after ${WAIT_MS / 1000} s.`);
    before = now;
  }
}

/** Pulls a thing by its clip on the gauge: on and on, then move by move, then lets go; then once more by keys. */
async function dragged(browser: Browser, page: Page, name: string): Promise<Dragged> {
  const half = page.getByRole('group', { name: `Height of ${name}` }).getByRole('button').last();
  if (!(await half.isVisible())) await page.getByRole('group', { name: 'Things on the gauge' }).getByRole('button', { name, exact: true }).click();
  await quiet(page);
  const box = (await half.boundingBox())!;
  const x = box.x + box.width / 2;
  const y = box.y + box.height / 2;
  const from = await clock(page);
  let waitingFrom = from;
  const workMs = await mostWorked(browser, page, async () => {
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let k = 0; k <= FLOWING.moves; k++) {
      await page.mouse.move(x, y - FLOWING.px * Math.sin((Math.PI * k) / FLOWING.moves));
      await page.waitForTimeout(FLOWING.ms);
    }
    waitingFrom = await clock(page);
    for (let k = 1; k <= WAITING.moves; k++) {
      await page.mouse.move(x, y - WAITING.px * k);
      await page.waitForTimeout(WAITING.ms);
    }
    await page.mouse.up();
  });
  const settled = await quiet(page);
  const release = settled.releases.at(-1)!;
  await half.focus();
  for (let k = 0; k < KEYS.presses; k++) {
    await page.keyboard.press(k < KEYS.presses / 2 ? 'ArrowUp' : 'ArrowDown');
    await page.waitForTimeout(KEYS.ms);
  }
  const end = await clock(page);
  return {
    taskMs: longestTask(settled, from, release),
    workMs,
    eventMs: longestEvent(await quiet(page), from, end),
    followMs: median(followed(settled, waitingFrom, release)),
    workerMs: median(settled.answers.filter(({ start, live }) => live && start > from).map(({ ms }) => ms)),
    // Where everything was united before, in a pause of the hand, the answer brings nothing new to paint.
    unitedMs: Math.max(release, settled.painted.at(-1)!.at, ...settled.answers.filter(({ live }) => !live).map(({ start, ms }) => start + ms)) - release,
    restTaskMs: longestTask(settled, release),
  };
}

function median(values: number[]): number {
  return values.sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Infinity;
}
