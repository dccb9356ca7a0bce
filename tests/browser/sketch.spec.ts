/** A sketch on a plane: drawn with a pen that is pressed, a mouse and two fingers, rubbed out, taken back, kept in the file. */
import { readFileSync } from 'node:fs';
import AxeBuilder from '@axe-core/playwright';
import type { CDPSession, Page } from '@playwright/test';
import type { StrokeFile } from '../../src/core/scene/edit/file.ts';
import { expect, openPage, test } from './served-page.ts';

const LEAST_TARGET_PX = 44;
const onGauge = (page: Page, name: string) => page.getByRole('group', { name: 'Things on the gauge' }).getByRole('button', { name, exact: true });
const board = (page: Page, strokes: string) => page.getByRole('dialog').getByRole('img', { name: `The plane Lily pads with ${strokes}`, exact: true });

test.beforeEach(({ page }) => page.addInitScript(() => { Reflect.deleteProperty(window, 'showSaveFilePicker'); }));

async function openBoard(page: Page): Promise<void> {
  await onGauge(page, 'Lily pads').click();
  await page.getByRole('button', { name: 'Sketch on it' }).click();
  await expect(board(page, '0 strokes')).toBeVisible();
}

async function middleOf(page: Page): Promise<[number, number]> {
  const box = (await page.getByRole('dialog').getByRole('img').boundingBox())!;
  return [box.x + box.width / 2, box.y + box.height / 2];
}

/** Pressed harder and harder, or lighter and lighter. */
async function penStroke(pen: CDPSession, [x, y]: readonly [number, number], forces: readonly number[]): Promise<void> {
  const event = (type: 'mousePressed' | 'mouseMoved' | 'mouseReleased', i: number) => pen.send('Input.dispatchMouseEvent', { type, x: x + 15 * i, y: y + 4 * i, button: 'left', buttons: type === 'mouseReleased' ? 0 : 1, clickCount: 1, force: forces[i], pointerType: 'pen' });
  await event('mousePressed', 0);
  for (let i = 1; i < forces.length; i++) await event('mouseMoved', i);
  await event('mouseReleased', forces.length - 1);
}

async function savedStrokes(page: Page): Promise<readonly StrokeFile[]> {
  await page.getByRole('button', { name: 'Files' }).click();
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the scene alone' }).click();
  const saved = JSON.parse(readFileSync(await (await downloading).path(), 'utf8')) as { readonly strokes?: readonly StrokeFile[] };
  return saved.strokes ?? [];
}

test('a pen’s pressure makes the stroke swell; a mouse draws evenly; the eraser splits; undo takes back each', async ({ page, address, context }) => {
  await openPage(page, address, '#compose');
  await openBoard(page);
  const { violations } = await new AxeBuilder({ page }).include('dialog').withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa']).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ').slice(0, 300)}`)).toEqual([]);
  await page.getByRole('radio', { name: 'rust' }).check({ force: true });
  const [x, y] = await middleOf(page);
  await penStroke(await context.newCDPSession(page), [x - 60, y - 40], [0.1, 0.2, 0.35, 0.5, 0.7, 0.9, 1, 0.4]);
  await expect(board(page, 'one stroke')).toBeVisible();
  await page.getByRole('radio', { name: 'moss' }).check({ force: true });
  await page.mouse.move(x - 80, y + 60);
  await page.mouse.down();
  await page.mouse.move(x + 80, y + 60, { steps: 12 });
  await page.mouse.up();
  await expect(board(page, '2 strokes')).toBeVisible();
  await page.getByRole('radio', { name: 'eraser' }).check({ force: true });
  await page.mouse.move(x, y + 30);
  await page.mouse.down();
  await page.mouse.move(x, y + 90, { steps: 4 });
  await page.mouse.up();
  await expect(board(page, '3 strokes')).toBeVisible();
  await expect(page.getByRole('dialog').getByRole('button', { name: 'Undo: lily pads: rubbed out' })).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(board(page, '2 strokes')).toBeVisible();
  // Without drawing hands: the list, and out with the newest.
  await page.getByText('Strokes: 2').click();
  await expect(page.getByRole('listitem').filter({ hasText: 'moss, 2\u00a0mm wide' })).toBeVisible();
  await page.getByRole('button', { name: 'Take out stroke 2' }).click();
  await expect(board(page, 'one stroke')).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(board(page, '2 strokes')).toBeVisible();
  await page.getByRole('button', { name: 'Done' }).click();
  await expect(page.getByText('cm²').first()).toBeVisible();

  const [pen, mouse] = await savedStrokes(page);
  expect([pen.plane, pen.ink, mouse.ink]).toEqual(['p2', '#9c4a2b', '#47683f']);
  const pressures = pen.points.map(([, , pressure]) => pressure);
  expect(Math.min(...pressures)).toBeLessThan(0.15);
  expect(Math.max(...pressures)).toBe(1);
  expect(pressures.at(-1)).toBeCloseTo(0.4, 2);
  // An even straight line needs its ends alone.
  expect(mouse.points.map(([, , pressure]) => pressure)).toEqual([1, 1]);
});

test('by finger on a phone: one draws, two look closer and draw nothing', async ({ browser, address }) => {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  const page = await context.newPage();
  await openPage(page, address, '#compose');
  await onGauge(page, 'Lily pads').tap();
  await page.getByRole('button', { name: 'Sketch on it' }).tap();
  await expect(board(page, '0 strokes')).toBeVisible();
  const [x, y] = await middleOf(page);
  const hand = await context.newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', points: readonly (readonly [number, number])[]) =>
    hand.send('Input.dispatchTouchEvent', { type, touchPoints: points.map(([px, py], id) => ({ x: px, y: py, id })) });
  await touch('touchStart', [[x - 10, y]]);
  await touch('touchStart', [[x - 10, y], [x + 10, y]]);
  for (const apart of [20, 40, 60]) await touch('touchMove', [[x - apart, y], [x + apart, y]]);
  await touch('touchEnd', []);
  await touch('touchStart', [[x - 40, y]]);
  for (const along of [-20, 0, 20, 40]) await touch('touchMove', [[x + along, y]]);
  await touch('touchEnd', []);
  await expect(board(page, 'one stroke')).toBeVisible();
  for (const target of await page.getByRole('dialog').getByRole('button').all()) {
    expect((await target.boundingBox())!.height, (await target.textContent())!).toBeGreaterThanOrEqual(LEAST_TARGET_PX);
  }
  expect(await page.evaluate(() => document.documentElement.scrollWidth), 'nothing sticks out sideways').toBeLessThanOrEqual(390);
  // Six times as large as it was: 80 px are less than they were of the mold's 200 mm over 350 px.
  await page.getByText('Strokes: 1').tap();
  const said = await page.getByRole('listitem').filter({ hasText: 'wide' }).textContent();
  expect(Number(/([\d.]+)\u00a0mm long/.exec(said!)![1])).toBeLessThan(15);
  await context.close();
});
