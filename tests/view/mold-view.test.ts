/**
 * The mold view in a browser, by mouse and finger: three handles, choosing, Escape, turning; an idle page draws nothing;
 * a lost picture says so and comes back. The page beside this file is its parent.
 */
import { createServer, type Server } from 'node:http';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { chromium, type Browser, type Page } from '@playwright/test';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findBrowser } from '../../src/cli/browser.ts';
import { lookFrom, seenAt, type Frame } from '../../src/view/eye.ts';

/** px: the finger grabs a point of the body, the foot of the float's line is another one; perspective parts them a little. */
const UNDER_FINGER_PX = 4;
/** The page's picture. */
const FRAME: Frame = { width: 640, height: 560, margin: { left: 24, right: 46, top: 52, bottom: 28 } };
/** Where the page's mold is seen from. */
const CORNER = lookFrom('corner', { min: [-88, -58, -8], max: [88, 58, 50] }, FRAME);
/** Points, normals and triangles of the lighter copies drawn while something moves, sent once: of the large figure and of the pebble. */
const LIGHTER_COPY_UPLOADS = 2 * 3;
/** Long enough for everything that was going to be drawn, ms. */
const REST_MS = 700;
const TYPES: Record<string, string> = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css' };

type Said = [string, ...unknown[]];
type Change = { id: string; xMm?: number; yMm?: number; baseMm?: number; turnZDeg?: number };

let folder = '';
let server: Server;
let browser: Browser;
let address = '';

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'mold-view-'));
  await build({ root: join(import.meta.dirname, 'page'), configFile: false, logLevel: 'error', build: { outDir: folder, emptyOutDir: true } });
  server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://x').pathname;
    try {
      const body = readFileSync(join(folder, path === '/' ? 'index.html' : path));
      response.writeHead(200, { 'content-type': TYPES[extname(path)] ?? 'text/html' }).end(body);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
  const found = await findBrowser();
  if (!found) throw new Error('No browser of the Chromium kind was found. Install one, or name it in CHROME_PATH.');
  browser = await chromium.launch({ executablePath: found.path, env: { ...process.env, ...found.env } as Record<string, string>, args: ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--webgl-antialiasing-mode=none'] });
}, 120_000);

afterAll(async () => {
  await browser?.close();
  server?.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Opens the page and waits until it rests. Draws and uploads are counted from the first one on. */
async function opened(query = '', touch = false): Promise<Page> {
  const page = await (await browser.newContext({ viewport: { width: 700, height: 600 }, hasTouch: touch })).newPage();
  page.on('pageerror', (error) => {
    throw error;
  });
  await page.addInitScript(() => {
    const counts = { draws: 0, uploads: 0, uploadedBytes: 0 };
    Object.assign(window, { counts });
    const gl = WebGL2RenderingContext.prototype as unknown as Record<string, (...args: unknown[]) => unknown>;
    for (const [name, count] of [['drawArrays', 'draws'], ['drawElements', 'draws'], ['drawArraysInstanced', 'draws'], ['drawElementsInstanced', 'draws'], ['bufferData', 'uploads']] as const) {
      const own = gl[name];
      gl[name] = function (...args) {
        counts[count]++;
        if (count === 'uploads') counts.uploadedBytes += ArrayBuffer.isView(args[1]) ? args[1].byteLength : 0;
        return own.apply(this, args);
      };
    }
  });
  await page.goto(`${address}?still&${query}`);
  await page.locator('[data-handle=float]').waitFor();
  await page.waitForTimeout(REST_MS);
  return page;
}

interface Counts {
  draws: number;
  uploads: number;
  uploadedBytes: number;
}

const counts = (page: Page): Promise<Counts> => page.evaluate(() => ({ ...(window as unknown as { counts: Counts }).counts }));
const said = (page: Page): Promise<Said[]> => page.evaluate(() => (window as unknown as { view: { said: Said[] } }).view.said);
const changes = async (page: Page, phase: string): Promise<Change[]> => (await said(page)).filter(([what]) => what === phase).map(([, change]) => change as Change);

/** Middle of a handle, page px. */
async function handle(page: Page, name: 'float' | 'bead'): Promise<[number, number]> {
  await page.locator(`[data-handle=${name}]`).waitFor();
  // Found and measured in one go: every frame draws it anew.
  return page.evaluate((name) => {
    const box = document.querySelector(`[data-handle=${name}]`)!.getBoundingClientRect();
    return [box.x + box.width / 2, box.y + box.height / 2] as [number, number];
  }, name);
}

/** The foot of the float's line: the middle of the chosen thing. */
async function foot(page: Page): Promise<[number, number]> {
  const at = await page.evaluate(() => {
    const dot = document.querySelector('circle[r="3.2"]');
    return [Number(dot?.getAttribute('cx')), Number(dot?.getAttribute('cy'))];
  });
  return [at[0], at[1]];
}

async function drag(page: Page, from: readonly [number, number], by: readonly [number, number]): Promise<void> {
  await page.mouse.move(...from);
  await page.mouse.down();
  for (let i = 1; i <= 6; i++) await page.mouse.move(from[0] + (by[0] * i) / 6, from[1] + (by[1] * i) / 6);
  await page.mouse.up();
  await page.waitForTimeout(250);
}

/** Where a point of the mold is seen from the corner, page px. */
function px(x: number, y: number, z: number): [number, number] {
  const seen = seenAt(CORNER, [x, y, z], FRAME);
  return [seen.x, seen.y];
}

/** Whether the creature's guide is seen at a px of the picture. */
function isPatch(page: Page, [x, y]: readonly [number, number]): Promise<boolean> {
  return page.evaluate(async ([x, y]) => {
    const bitmap = await createImageBitmap(await (window as unknown as { view: { viewPicture(): Promise<Blob> } }).view.viewPicture());
    const pen = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d')!;
    pen.drawImage(bitmap, 0, 0);
    const [red, green, blue] = pen.getImageData(Math.round(x), Math.round(y), 1, 1).data;
    return red > 2 * green && blue > 1.5 * green;
  }, [x, y] as const);
}

describe('the mold view', () => {
  it('draws nothing while nothing changes; the body goes with the finger, told while it moves and once at the end', async () => {
    const page = await opened();
    const before = await counts(page);
    expect(before.draws).toBeGreaterThan(10);
    await page.waitForTimeout(REST_MS);
    expect(await counts(page)).toEqual(before);
    const from = await foot(page);
    await drag(page, from, [60, 24]);
    const to = await foot(page);
    expect(Math.hypot(to[0] - from[0] - 60, to[1] - from[1] - 24)).toBeLessThan(UNDER_FINGER_PX);
    const moves = await changes(page, 'move');
    const ends = await changes(page, 'end');
    expect(moves.length).toBeGreaterThan(3);
    expect(ends).toEqual([moves.at(-1)]);
    expect(Object.keys(ends[0]).sort()).toEqual(['id', 'xMm', 'yMm']);
    expect((await said(page)).filter(([what]) => what === 'select' || what === 'cancel')).toEqual([]);
    await page.waitForTimeout(REST_MS);
    const after = await counts(page);
    expect(after.draws).toBeGreaterThan(before.draws);
    await page.waitForTimeout(REST_MS);
    expect(await counts(page)).toEqual(after);
    await page.context().close();
  });

  it('the float changes the height alone, the bead the turn alone; a painted creature goes with the hand, its guides with it', async () => {
    const page = await opened('creature');
    const from = await foot(page);
    await drag(page, await handle(page, 'float'), [0, -40]);
    const [raised] = await changes(page, 'end');
    expect(Object.keys(raised).sort()).toEqual(['baseMm', 'id']);
    expect(raised.baseMm).toBeGreaterThan(24);
    expect(Math.abs((await foot(page))[1] - from[1] + 40)).toBeLessThan(UNDER_FINGER_PX);
    await drag(page, await handle(page, 'bead'), [-50, -34]);
    const [, turned] = await changes(page, 'end');
    expect(Object.keys(turned).sort()).toEqual(['id', 'turnZDeg']);
    expect(turned.turnZDeg).toBeGreaterThan(45);
    expect(turned.turnZDeg).toBeLessThan(160);

    // A painted creature is taken by what is painted of it, beside its form, and that goes with the hand as it was drawn.
    const before = (await said(page)).length;
    await drag(page, px(30, -24, 28), [px(10, -24, 28)[0] - px(30, -24, 28)[0], px(10, -24, 28)[1] - px(30, -24, 28)[1]]);
    const [, , slid] = await changes(page, 'end');
    expect((await said(page))[before]).toEqual(['select', 'c1', 'replace']);
    expect(slid).toEqual({ id: 'c1', xMm: expect.closeTo(32, 0), yMm: expect.closeTo(-24, 0) });
    expect(await isPatch(page, px(10, -24, 28))).toBe(true);
    expect(await isPatch(page, px(30, -24, 28))).toBe(false);
    await drag(page, await handle(page, 'float'), [0, -30]);
    await drag(page, await handle(page, 'bead'), [-50, -34]);
    const told = (await changes(page, 'end')).slice(3);
    expect(told.map((change) => Object.keys(change).sort())).toEqual([['baseMm', 'id'], ['id', 'turnZDeg']]);
    // 22 mm from its middle, about which a box turns.
    const turn = (told[1].turnZDeg! * Math.PI) / 180;
    expect(Math.abs(turn)).toBeGreaterThan(0.8);
    expect(await isPatch(page, px(slid.xMm! - 22 * Math.cos(turn), slid.yMm! - 22 * Math.sin(turn), 28))).toBe(true);
    expect(await isPatch(page, px(10, -24, 28))).toBe(false);
    await page.context().close();
  });

  it('Escape gives a drag back; a click chooses what is under it, the ground lets go; what is locked stays', async () => {
    const page = await opened();
    const from = await foot(page);
    await page.mouse.move(...from);
    await page.mouse.down();
    await page.mouse.move(from[0] + 30, from[1] + 20);
    await page.mouse.move(from[0] + 60, from[1] + 30);
    await page.keyboard.press('Escape');
    const after = (await said(page)).length;
    await page.mouse.move(from[0] + 90, from[1] + 30);
    await page.mouse.up();
    await page.waitForTimeout(200);
    expect((await said(page)).length).toBe(after);
    expect(await changes(page, 'cancel')).toEqual([{ id: 'f1', xMm: 0, yMm: 0 }]);
    expect(await changes(page, 'end')).toEqual([]);
    expect(await foot(page)).toEqual(from);

    await page.mouse.click(620, 540);
    await page.waitForTimeout(150);
    await page.mouse.click(...from);
    await page.waitForTimeout(150);
    const pebble = px(-50, 30, 28);
    await drag(page, pebble, [40, 0]);
    await page.mouse.click(...pebble);
    expect((await said(page)).slice(after, after + 2)).toEqual([['select', 'replace'], ['select', 'f1', 'replace']]);
    expect((await said(page)).filter(([what]) => what === 'move').every(([, change]) => (change as Change).id === 'f1')).toBe(true);
    await page.context().close();
  });

  it('the ground turns the piece, the wheel takes it farther, a double press looks from the word again; from above no height can be pulled', async () => {
    const page = await opened();
    const before = await foot(page);
    await drag(page, [600, 500], [-80, 0]);
    const turned = await foot(page);
    await page.mouse.move(320, 280);
    await page.mouse.wheel(0, 200);
    await page.waitForTimeout(200);
    expect(await foot(page)).not.toEqual(turned);
    expect(await changes(page, 'move')).toEqual([]);
    await page.mouse.click(620, 540);
    await page.mouse.click(620, 540);
    await page.locator('[data-handle=float]').waitFor({ state: 'detached' }); // the ground let go of the thing
    await page.waitForTimeout(200);
    await page.mouse.click(...before);
    await page.locator('[data-handle=float]').waitFor();
    expect(await foot(page)).toEqual(before);
    await page.evaluate(() => (window as unknown as { view: { setSeenFrom(from: string): void } }).view.setSeenFrom('above'));
    await page.locator('[data-handle=float]').waitFor({ state: 'detached' });
    expect(await page.locator('[data-handle=bead]').count()).toBe(1);
    await page.context().close();
  });

  it('a finger moves what was tapped before and else turns the piece; two bring it nearer and slide it', async () => {
    const page = await opened('creature', true);
    const fingers = await page.context().newCDPSession(page);
    const touch = (type: string, points: [number, number][]): Promise<unknown> => fingers.send('Input.dispatchTouchEvent', { type: type as 'touchStart', touchPoints: points.map(([x, y], id) => ({ x, y, id })) });
    const swipe = async ([x, y]: [number, number], to: [number, number]): Promise<void> => {
      await touch('touchStart', [[x, y]]);
      for (let i = 1; i <= 5; i++) await touch('touchMove', [[x + ((to[0] - x) * i) / 5, y + ((to[1] - y) * i) / 5]]);
      await touch('touchEnd', []);
      await page.waitForTimeout(250);
    };
    await touch('touchStart', [px(30, -24, 28)]);
    await touch('touchEnd', []);
    await page.locator('text=22 up').waitFor();
    await swipe(px(30, -24, 28), px(14, -24, 28));
    expect(await changes(page, 'end')).toEqual([{ id: 'c1', xMm: expect.closeTo(36, 0), yMm: expect.closeTo(-24, 0) }]);
    const before = await said(page);

    const from = await foot(page);
    const ring = async (): Promise<number> => (await handle(page, 'bead'))[0] - (await foot(page))[0];
    const wide = await ring();
    await touch('touchStart', [[200, 400]]);
    await touch('touchStart', [[200, 400], [400, 400]]);
    for (let i = 1; i <= 5; i++) await touch('touchMove', [[200 - 10 * i, 400], [400 + 10 * i, 400]]);
    await touch('touchEnd', []);
    await page.waitForTimeout(250);
    expect((await ring()) / wide).toBeGreaterThan(1.3);
    expect((await ring()) / wide).toBeLessThan(1.75);
    const nearer = await foot(page);
    expect(nearer).not.toEqual(from);
    await swipe(px(-50, 30, 28), [260, 500]); // on a figure that was not tapped
    expect(await foot(page)).not.toEqual(nearer);
    expect(new Set((await said(page)).slice(before.length).map(([what]) => what))).toEqual(new Set(['turned']));
    await page.context().close();
  });

  it('a figure of 500,000 triangles moves without its form being sent again', async () => {
    const page = await opened('triangles=500000');
    await page.waitForTimeout(2500); // its pick tree grows between frames
    const before = await counts(page);
    await drag(page, await handle(page, 'float'), [0, -60]);
    const after = await counts(page);
    expect((await changes(page, 'end')).length).toBe(1);
    expect(after.draws).toBeGreaterThan(before.draws);
    expect(after.uploads - before.uploads).toBeLessThanOrEqual(LIGHTER_COPY_UPLOADS);
    expect(after.uploadedBytes - before.uploadedBytes).toBeLessThan(2_000_000);
    await drag(page, await handle(page, 'float'), [0, 30]);
    expect((await counts(page)).uploads).toBe(after.uploads);
    await page.context().close();
  });

  it('the picture keeps its size under a moving hand, whatever the page does about it, and takes the new one when it rests', async () => {
    const page = await opened();
    const size = (): Promise<number[]> => page.evaluate(() => [document.querySelector('canvas')!.height, document.querySelector('svg')!.clientHeight]);
    const from = await foot(page);
    await page.mouse.move(...from);
    await page.mouse.down();
    await page.mouse.move(from[0] + 20, from[1], { steps: 3 });
    await page.evaluate(() => {
      (document.querySelector('canvas')!.closest('div[style*="560"]') as HTMLElement).style.height = '500px';
    });
    await page.waitForTimeout(REST_MS); // held still
    await page.mouse.move(from[0] + 40, from[1], { steps: 3 });
    expect(await size()).toEqual([560, 560]);
    await page.mouse.up();
    await expect.poll(size, { timeout: 10_000 }).toEqual([500, 500]);
    await page.context().close();
  });

  it('asks for the next frame when the last one is done, and then for one', async () => {
    const page = await opened();
    await page.evaluate(() => {
      const gl = WebGL2RenderingContext.prototype;
      const own = gl.getSyncParameter;
      gl.getSyncParameter = function (sync, name) {
        return (window as unknown as { behind: boolean }).behind ? this.UNSIGNALED : own.call(this, sync, name);
      };
      Object.assign(window, { behind: true });
    });
    const wheel = async (): Promise<void> => {
      await page.mouse.wheel(0, 40);
      await page.waitForTimeout(100);
    };
    await page.mouse.move(320, 500);
    const { draws: before } = await counts(page);
    await wheel();
    const { draws: one } = await counts(page);
    for (let k = 0; k < 4; k++) await wheel();
    const { draws: still } = await counts(page);
    await page.evaluate(() => Object.assign(window, { behind: false }));
    await page.waitForTimeout(REST_MS);
    const { draws: after } = await counts(page);
    expect(one - before).toBeGreaterThan(0);
    expect(still).toBe(one);
    expect(after).toBeGreaterThan(still);
    await page.context().close();
  });

  it('a lost picture says so in words and comes back', async () => {
    const page = await opened();
    await page.evaluate(() => {
      const lose = document.querySelector('canvas')!.getContext('webgl2')!.getExtension('WEBGL_lose_context')!;
      Object.assign(window, { lose });
      lose.loseContext();
    });
    await page.getByRole('status').waitFor();
    expect(await page.getByRole('status').textContent()).toContain('nothing in the scene is lost');
    const { draws } = await counts(page);
    await page.evaluate(() => (window as unknown as { lose: WEBGL_lose_context }).lose.restoreContext());
    await page.getByRole('status').waitFor({ state: 'detached' });
    await page.waitForTimeout(REST_MS);
    expect((await counts(page)).draws).toBeGreaterThan(draws);
    expect((await said(page)).filter(([what]) => what === 'context')).toEqual([['context', true], ['context', false]]);
    await page.context().close();
  });

  it('gives a picture of what is seen and a model in meters with y up', async () => {
    const page = await opened();
    const { kinds, dark, json } = await page.evaluate(async () => {
      const { viewPicture, viewModel } = (window as unknown as { view: { viewPicture(): Promise<Blob>; viewModel(): Promise<Blob> } }).view;
      const [picture, model] = [await viewPicture(), await viewModel()];
      const bitmap = await createImageBitmap(picture);
      const pen = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d')!;
      pen.drawImage(bitmap, 0, 0);
      const { data } = pen.getImageData(0, 0, bitmap.width, bitmap.height);
      let inked = 0;
      for (let i = 0; i < data.length; i += 4) if (data[i] < 90) inked++;
      const bytes = new DataView(await model.arrayBuffer());
      const text = new TextDecoder().decode(new Uint8Array(bytes.buffer, 20, bytes.getUint32(12, true)));
      return { kinds: [picture.type, bitmap.width, bitmap.height, bytes.getUint32(0, true)], dark: inked / (data.length / 4), json: text };
    });
    expect(kinds).toEqual(['image/png', 640, 560, 0x46546c67]); // "glTF" (glTF 2.0 specification, §4.4.2)
    expect(dark).toBeGreaterThan(0.005);
    expect(dark).toBeLessThan(0.3);
    const file = JSON.parse(json) as { nodes: { name?: string; matrix?: number[]; scale?: number[]; rotation?: number[] }[]; accessors: { min?: number[]; max?: number[] }[] };
    expect(file.nodes.map((node) => node.name)).toEqual(expect.arrayContaining(['Stone', 'Pebble', 'Sand', 'Mold', 'Water']));
    const root = file.nodes.find((node) => node.name === 'Stillpool')!;
    // z up to y up is a quarter turn about x (−90°), mm to m a thousandth: column-major in glTF.
    const matrix = root.matrix ?? [0.001, 0, 0, 0, 0, 0, -0.001, 0, 0, 0.001, 0, 0, 0, 0, 0, 1];
    expect(matrix[0]).toBeCloseTo(0.001, 9);
    if (root.scale) expect(root.scale).toEqual([0.001, 0.001, 0.001]);
    if (root.rotation) expect(root.rotation[0]).toBeCloseTo(-Math.SQRT1_2, 6);
    expect(root.matrix !== undefined || root.rotation !== undefined).toBe(true);
    await page.context().close();
  });

  it('lives through being mounted twice, as React does when it looks for faults; what is let go rests where the parent has it', async () => {
    const page = await opened('strict&snaps');
    expect(await page.locator('canvas').count()).toBe(1);
    const [x, y] = await foot(page);
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 60, y + 10, { steps: 3 });
    await page.waitForTimeout(200);
    await page.mouse.move(x + 62, y + 10); // the parent has answered, and answers the same again
    await page.mouse.up();
    await page.waitForTimeout(250);
    const [told] = await changes(page, 'end');
    const [xMm, yMm] = [told.xMm!, told.yMm!].map((mm) => 20 * Math.round(mm / 20));
    expect(Math.hypot(told.xMm! - xMm, told.yMm! - yMm)).toBeGreaterThan(1);
    const [at, there] = [await foot(page), px(xMm, yMm, 28)];
    expect(Math.hypot(at[0] - there[0], at[1] - there[1])).toBeLessThan(0.2); // px, as the mark is rounded
    await page.context().close();
  });
});
