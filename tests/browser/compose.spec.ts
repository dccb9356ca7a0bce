/** Composing like a person: set things, drag them on the gauge and in the mold, type them, undo; numbers are the headless plan's. */
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { mm } from '../../src/core/units/format.ts';
import { expect, headlessPlan, openPage, test } from './served-page.ts';

/** Without the browser's own dialog, which no test can press; a download is what other browsers do. */
test.beforeEach(({ page }) => page.addInitScript(() => { Reflect.deleteProperty(window, 'showSaveFilePicker'); }));
test.use({ viewport: { width: 1440, height: 900 } });

const card = (page: Page) => page.getByRole('complementary', { name: 'Card' });
const onGauge = (page: Page, name: string) => page.getByRole('group', { name: 'Things on the gauge' }).getByRole('button', { name, exact: true });
const clip = (page: Page, name: string) => page.getByRole('group', { name: `Height of ${name}` });
const up = (page: Page) => card(page).getByRole('textbox', { name: /^(Up from the floor|Feet, up from the floor)$/ });
const undo = (page: Page) => page.getByRole('button', { name: /^Undo: / });
/** The mold view comes after the rest of the page. */
const picture = (page: Page) => page.getByRole('img', { name: 'The mold', exact: true });

async function compose(page: Page, address: string): Promise<void> {
  await openPage(page, address, '#compose');
  await expect(onGauge(page, 'Lily pads')).toBeVisible();
}

/** What `npm run plan` says of the piece as it is saved now. */
async function planOfSaved(page: Page) {
  await page.getByRole('button', { name: 'Files' }).click();
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the scene alone' }).click();
  const file = join(mkdtempSync(join(tmpdir(), 'composed-')), 'piece.scene.json');
  await (await downloading).saveAs(file);
  await page.getByRole('dialog', { name: 'Files' }).getByRole('button', { name: 'Close' }).click();
  return { plan: headlessPlan(file), scene: JSON.parse(readFileSync(file, 'utf8')) };
}

async function tagsAreOf(page: Page, pours: readonly { index: number; depthMm: number; fromMm: number; toMm: number }[]): Promise<void> {
  const tags = page.getByRole('group', { name: 'Pours on the gauge' });
  await expect(tags.getByRole('button')).toHaveCount(pours.length);
  for (const { index, depthMm, fromMm, toMm } of pours) await expect(tags.getByRole('button', { name: `Pour ${index}, ${mm(depthMm)}, from ${mm(fromMm)} to ${mm(toMm)} up` })).toBeVisible();
}

test('a plane is dragged on the gauge, with what rests on it, in one step', async ({ page, address }) => {
  await compose(page, address);
  const box = (await onGauge(page, 'Lily pads').boundingBox())!;
  const x = box.x + box.width - 20;
  const y = box.y + box.height / 2;
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y + 20, { steps: 4 });
  await page.mouse.move(x, y + 36, { steps: 4 });
  await expect(page.getByText('same gap again')).toBeVisible();
  await page.mouse.up();
  await expect(up(page)).toHaveValue('40\u00a0mm');
  await expect(undo(page)).toHaveText('Undo: lily pads down to 40\u00a0mm');
  const { plan, scene } = await planOfSaved(page);
  expect(scene.placements.find(({ id }: { id: string }) => id === 'f3').baseMm, 'the lily rests on the pads').toBe(40);
  await tagsAreOf(page, plan.pours);
  await undo(page).click();
  await expect(up(page)).toHaveValue('44\u00a0mm');
  await expect(page.getByRole('button', { name: /^Redo: / })).toHaveText('Redo: lily pads down to 40\u00a0mm');
});

test('Escape in the middle of a drag puts everything back', async ({ page, address }) => {
  await compose(page, address);
  const box = (await onGauge(page, 'Lily pads').boundingBox())!;
  await page.mouse.move(box.x + 40, box.y + 12);
  await page.mouse.down();
  await page.mouse.move(box.x + 40, box.y + 60, { steps: 5 });
  await expect(up(page)).not.toHaveValue('44\u00a0mm');
  await page.keyboard.press('Escape');
  await expect(up(page)).toHaveValue('44\u00a0mm');
  await page.mouse.up();
  await expect(up(page)).toHaveValue('44\u00a0mm');
  await expect(undo(page)).toHaveCount(0);
});

test('Alt suspends snapping; Escape in a field puts back', async ({ page, address }) => {
  await compose(page, address);
  const box = (await onGauge(page, 'Lily pads').boundingBox())!;
  const x = box.x + box.width - 20;
  const y = box.y + box.height / 2;
  await page.keyboard.down('Alt');
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y + 36, { steps: 6 });
  await page.mouse.up();
  await page.keyboard.up('Alt');
  await expect(up(page)).not.toHaveValue('44\u00a0mm');
  await expect(up(page)).not.toHaveValue('40\u00a0mm');
  const now = await up(page).inputValue();
  await up(page).fill('12');
  await up(page).press('Escape');
  await expect(up(page)).toHaveValue(now);
});

test('the clip is typed in any unit, moved by arrow keys, and keeps what was typed', async ({ page, address }) => {
  await compose(page, address);
  await onGauge(page, 'Lily pads').click();
  const half = clip(page, 'Lily pads').getByRole('button', { name: /far up/ });
  await half.focus();
  await page.keyboard.press('ArrowUp');
  await page.keyboard.press('Shift+ArrowDown');
  await page.keyboard.press('Alt+ArrowDown');
  await expect(up(page)).toHaveValue('39.9\u00a0mm');
  await page.keyboard.press('Enter');
  await page.keyboard.type('1 5/8 in');
  await page.keyboard.press('Enter');
  await expect(half).toBeFocused();
  await expect(up(page)).toHaveValue('41.28\u00a0mm');
  await page.keyboard.press('Enter');
  await page.keyboard.type('half way');
  await page.keyboard.press('Enter');
  await expect(clip(page, 'Lily pads').getByRole('alert')).toContainText('expected a length like 9.5 mm or 3/8 in');
  await page.keyboard.press('Escape');
  await expect(half).toBeFocused();
  await expect(up(page)).toHaveValue('41.28\u00a0mm');

  await up(page).fill('1 3/4"');
  await up(page).press('Enter');
  await expect(up(page)).toHaveValue('1 3/4"');
  await expect(half).toHaveText('44.45 up');
});

test('bad input says what is expected and keeps the text', async ({ page, address }) => {
  await compose(page, address);
  await onGauge(page, 'Newt').click();
  const left = card(page).getByRole('textbox', { name: 'From the left wall' });
  await left.fill('about there');
  await left.press('Enter');
  await expect(card(page).getByRole('alert')).toContainText('expected a length like 9.5 mm or 3/8 in');
  await expect(left).toHaveValue('about there');
  await left.press('Escape');
  await expect(left).toHaveValue('108\u00a0mm');
  const length = card(page).getByRole('textbox', { name: 'Inside length' });
  await page.getByRole('button', { name: /^Box mold/ }).click();
  await length.fill('-5');
  await length.press('Enter');
  await expect(card(page).getByRole('alert')).toContainText('Inside length');
  await expect(length).toHaveValue('-5');
});

test('keys move, raise, turn, copy and take out what is selected', async ({ page, address }) => {
  await compose(page, address);
  await onGauge(page, 'Newt').click();
  await page.getByRole('group', { name: /^Mold view/ }).focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Shift+ArrowUp');
  await page.keyboard.press('[');
  await expect(card(page).getByRole('textbox', { name: 'From the left wall' })).toHaveValue('109\u00a0mm');
  await expect(card(page).getByRole('textbox', { name: 'From the front wall' })).toHaveValue('59\u00a0mm');
  await expect(card(page).getByRole('textbox', { name: 'Turned' })).toHaveValue('13°');
  await page.keyboard.press('PageUp');
  await expect(up(page)).toHaveValue('21\u00a0mm');
  await page.keyboard.press('Control+d');
  await expect(card(page).getByRole('textbox', { name: 'Name' })).toHaveValue('Newt 2');
  await page.keyboard.press('Delete');
  await expect(onGauge(page, 'Newt 2')).toHaveCount(0);
  await page.keyboard.press('Control+z');
  await expect(onGauge(page, 'Newt 2')).toBeVisible();
  await page.keyboard.press('Control+Shift+z');
  await expect(onGauge(page, 'Newt 2')).toHaveCount(0);
  await expect(card(page).getByRole('textbox', { name: 'Name' })).toHaveValue('Mill pond, evening');
});

test('a figure is slid in the mold by mouse, in one step', async ({ page, address }) => {
  await compose(page, address);
  await expect(picture(page)).toBeVisible();
  await page.getByRole('button', { name: 'above', exact: true }).click();
  await onGauge(page, 'Water lily').click();
  await expect(card(page).getByRole('textbox', { name: 'From the left wall' })).toHaveValue('166\u00a0mm');
  await page.waitForTimeout(800); // the eye has come to rest above
  const box = (await picture(page).boundingBox())!;
  // Seen from above the lily's place in the mold is its place in the picture, near enough to take hold of it.
  const width = box.width * 0.78;
  const x = box.x + box.width / 2 + (66 / 200) * width;
  const y = box.y + box.height / 2 - (33 / 200) * width;
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x - 40, y + 10, { steps: 5 });
  await page.mouse.move(x - 80, y + 20, { steps: 5 });
  await page.mouse.up();
  await expect(undo(page)).toHaveText(/^Undo: water lily moved/);
  await expect(card(page).getByRole('textbox', { name: 'From the left wall' })).not.toHaveValue('166\u00a0mm');
  await expect(up(page), 'it stays on its plane').toHaveValue('44\u00a0mm');
  await undo(page).click();
  await expect(card(page).getByRole('textbox', { name: 'From the left wall' })).toHaveValue('166\u00a0mm');
  await expect(undo(page)).toHaveCount(0);
});

test('a new piece: three questions, then an empty mold that says what to do first', async ({ page, address }) => {
  await compose(page, address);
  await page.getByRole('button', { name: 'Files' }).click();
  await page.getByRole('button', { name: 'Start a new piece' }).click();
  const asked = page.getByRole('dialog', { name: 'A new piece' });
  await expect(asked.getByText('stays kept')).toBeVisible();
  await asked.getByText('round', { exact: true }).click();
  await asked.getByRole('textbox', { name: 'Across' }).fill('6 in');
  await asked.getByRole('textbox', { name: 'Its name, if it has one' }).fill('Tide pool');
  await asked.getByRole('textbox', { name: 'High' }).fill('4o');
  await asked.getByRole('button', { name: 'Begin' }).press('Enter');
  await expect(asked.getByRole('textbox', { name: 'High' }), 'nothing begins with another size than was typed').toBeFocused();
  await expect(asked.getByRole('alert')).toContainText('which is no unit known here');
  await asked.getByRole('textbox', { name: 'High' }).fill('40');
  await asked.getByRole('button', { name: 'Begin' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Tide pool' })).toBeVisible();
  await expect(page.getByText('An empty mold. Set something in it: a figure, a painted plane or a bed.')).toBeVisible();
  await expect(page.getByRole('region', { name: 'Findings' }), 'nothing nags before there is something to check').toHaveCount(0);

  await page.getByRole('button', { name: 'a bed' }).click();
  await page.getByRole('button', { name: 'a slope, rising to the right' }).click();
  await expect(card(page).getByRole('textbox', { name: 'Name' })).toHaveValue('Slope');
  await page.getByRole('button', { name: 'a figure' }).click();
  await page.getByRole('dialog', { name: 'A figure' }).getByRole('button', { name: /^Shore crab/ }).click();
  await expect(card(page).getByRole('textbox', { name: 'Name' })).toHaveValue('Shore crab');
  await expect(up(page), 'set down on the slope').not.toHaveValue('0\u00a0mm');
  await page.getByRole('button', { name: 'a painted plane' }).click();
  await expect(card(page).getByRole('textbox', { name: 'Name' })).toHaveValue('Painted plane');
  const { plan, scene } = await planOfSaved(page);
  expect(scene.mold).toMatchObject({ shape: 'round', diameterMm: 152.4, heightMm: 40 });
  expect(scene.placements.map(({ kind }: { kind: string }) => kind)).toEqual(['bed', 'figure', 'plane']);
  await tagsAreOf(page, plan.pours);
  await page.getByRole('link', { name: 'Pours' }).click();
  await page.getByLabel('First day and hour').fill('2026-05-04T08:00');
  await page.getByLabel('First day and hour').press('Enter');
  await expect(page.getByRole('heading', { name: 'First pour Mon 4 May, 08:00' })).toBeVisible();
});

test('a figure without a weight is weighed, measured in water or called a material', async ({ page, address }) => {
  await compose(page, address);
  await onGauge(page, 'Newt').click();
  await card(page).getByRole('button', { name: 'Leave the weight out' }).click();
  const water = card(page).getByRole('textbox', { name: 'The water rose by' });
  await water.fill('2 fl oz');
  await water.press('Enter');
  await expect(water).toHaveValue('2 fl oz');
  const weighed = card(page).getByRole('textbox', { name: 'and it weighed' });
  await weighed.fill('50');
  await weighed.press('Enter');
  const { scene } = await planOfSaved(page);
  const newt = scene.placements.find(({ id }: { id: string }) => id === 'f1');
  expect(newt.massG).toBeUndefined();
  expect(newt.densityGPerMl).toBeCloseTo(50 / (2 * 29.5735295625), 9);
  await card(page).getByRole('combobox', { name: 'Typical material' }).selectOption('cork');
  await card(page).getByRole('button', { name: 'Go by this' }).click();
  await expect(card(page).getByText('if it is solid cork')).toBeVisible();
});

test('a finding shows its place, and its remedy is one press', async ({ page, address }) => {
  await compose(page, address);
  const findings = page.getByRole('region', { name: 'Findings' });
  await expect(findings).toContainText('Newt is lighter than the resin');
  await findings.getByRole('button', { name: 'Show it' }).click();
  await expect(card(page).getByRole('textbox', { name: 'Name' })).toHaveValue('Newt');
  await expect(page.getByRole('group', { name: 'Pours on the gauge' }).getByRole('button', { pressed: true })).toHaveCount(1);
  await findings.getByRole('button', { name: 'Set Newt on a rod' }).click();
  await expect(card(page).getByRole('combobox', { name: 'How it is held' })).toHaveValue('rod');
  await expect(findings).not.toContainText('Newt is lighter than the resin');
});

test('fills are parted, dragged, tinted and given a formula whose label is typed', async ({ page, address }) => {
  await compose(page, address);
  await onGauge(page, 'Change of fill at 30 mm').click();
  const half = clip(page, 'Change of fill').getByRole('button', { name: /how deep/ });
  await half.focus();
  await page.keyboard.press('Enter');
  await page.keyboard.type('27');
  await page.keyboard.press('Enter');
  const lower = card(page).getByRole('group', { name: 'Fill from 0\u00a0mm to 28\u00a0mm' });
  await expect(lower).toBeVisible();
  await lower.getByRole('button', { name: 'Leave it clear' }).click();
  await expect(lower.getByRole('button', { name: 'Tint it' })).toBeVisible();
  await lower.getByRole('button', { name: 'What its label says' }).click();
  const depth = card(page).getByRole('textbox', { name: 'Greatest depth of one pour' });
  await depth.fill('3/4 in');
  await depth.press('Enter');
  const ratio = card(page).getByRole('textbox', { name: /by volume$/ });
  await ratio.fill('3 to 1');
  await ratio.press('Enter');
  await card(page).getByRole('button', { name: 'Keep this on my shelf' }).click();
  await expect(card(page).getByRole('button', { name: 'Pour Low-viscosity casting' })).toBeVisible();
  const { plan, scene } = await planOfSaved(page);
  expect(scene.fills[0]).toEqual({ toMm: 28, formula: 'low' });
  expect(scene.formulas[0]).toMatchObject({ maxDepthMm: 19.05, ratioByVolume: [3, 1] });
  await tagsAreOf(page, plan.pours);
});

test('a picture is put on a plane at its true size, and nothing in it lives', async ({ page, address }) => {
  await compose(page, address);
  await onGauge(page, 'Lily pads').click();
  const svg = '<svg xmlns="http://www.w3.org/2000/svg" width="8cm" height="40mm" viewBox="0 0 80 40" onload="console.error(\'alive\')"><script>console.error("alive")</script><style>@import "http://elsewhere.invalid/a.css"; .a{fill:green}</style><image href="http://elsewhere.invalid/b.png" width="9" height="9"/><a href="http://elsewhere.invalid/"><circle class="a" cx="20" cy="20" r="15"/></a></svg>';
  await card(page).getByLabel('Picture for Lily pads').setInputFiles({ name: 'pads.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(svg) });
  await expect(card(page).getByRole('textbox', { name: 'Wide' })).toHaveValue('80\u00a0mm');
  await card(page).getByRole('checkbox', { name: 'Mirrored' }).check();
  await page.getByRole('button', { name: 'Files' }).click();
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the piece', exact: true }).click();
  const { readBundle } = await import('../../src/files/bundle.ts');
  const bundle = readBundle(readFileSync(await (await downloading).path()));
  const { art } = JSON.parse(bundle.sceneText).placements.find(({ id }: { id: string }) => id === 'p2');
  expect(art).toMatchObject({ widthMm: 80, mirror: true });
  const kept = new TextDecoder().decode(bundle.file(art.file)!);
  expect(kept).toContain('circle');
  expect(kept).toContain('fill:green');
  expect(kept).not.toMatch(/script|onload|elsewhere|<a[\s>]/);
});

test('what is no picture is refused with what was found', async ({ page, address }) => {
  await compose(page, address);
  await onGauge(page, 'Lily pads').click();
  await card(page).getByLabel('Picture for Lily pads').setInputFiles({ name: 'pads.png', mimeType: 'image/png', buffer: Buffer.from('not a picture') });
  await expect(card(page).getByRole('alert')).toContainText('pads.png does not hold a PNG, JPEG, WebP or SVG picture');
});

test('the outline changes the piece by keys alone', async ({ page, address }) => {
  await compose(page, address);
  await page.getByRole('button', { name: /^Go to the outline/ }).focus();
  await page.keyboard.press('Enter');
  const outline = page.getByRole('region', { name: 'Outline' });
  await expect(outline).toBeFocused();
  await outline.getByText('Change it: Lily pads').focus();
  await page.keyboard.press('Enter');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Tab');
  await page.keyboard.type('41');
  await page.keyboard.press('Enter');
  await expect(outline.getByRole('button', { name: /^Lily pads, painted plane, 41\smm up, 14\smm deep/ })).toBeVisible();
  await expect(undo(page)).toHaveText(/lily pads down to 41/);
});

test('several are lined up, copied and taken out together', async ({ page, address }) => {
  await compose(page, address);
  await onGauge(page, 'Newt').click();
  await onGauge(page, 'Pond snail').click({ modifiers: ['Shift'] });
  await expect(card(page).getByText('2\u00a0things')).toBeVisible();
  await card(page).getByRole('button', { name: 'centers, front to back' }).click();
  await expect(undo(page)).toHaveText(/pond snail and newt lined up in the middle/);
  await card(page).getByRole('button', { name: 'Copy' }).click();
  await expect(onGauge(page, 'Newt 2')).toBeVisible();
  await card(page).getByRole('button', { name: 'Lock' }).click();
  await card(page).getByRole('button', { name: 'Take out' }).click();
  await expect(onGauge(page, 'Newt 2'), 'locked things stay').toBeVisible();
  await card(page).getByRole('button', { name: 'Unlock' }).click();
  await card(page).getByRole('button', { name: 'Take out' }).click();
  await expect(onGauge(page, 'Newt 2')).toHaveCount(0);
});

test('inches and ounces by one switch', async ({ page, address }) => {
  await compose(page, address);
  await card(page).getByRole('radio', { name: 'inches' }).check({ force: true });
  await card(page).getByRole('radio', { name: 'fl oz' }).check({ force: true });
  await expect(card(page).getByRole('textbox', { name: 'Inside height' })).toHaveValue('2\u00a03⁄8\u00a0in');
  await expect(card(page).getByRole('textbox', { name: 'What stays in the cup' })).toHaveValue('0.27\u00a0fl\u00a0oz');
  await onGauge(page, 'Newt').click();
  await expect(clip(page, 'Newt').getByRole('button', { name: /far up/ })).toHaveText(/13⁄16″ up/);
});
