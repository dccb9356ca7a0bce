/** The mold sized by hand: by its own grips in the mold view and by its rim on the gauge. */
import type { Page } from '@playwright/test';
import { expect, openPage, test } from './served-page.ts';

test.use({ viewport: { width: 1440, height: 900 } });

const size = (page: Page, label: string) => page.getByRole('complementary', { name: 'Card' }).getByRole('textbox', { name: label });
const undo = (page: Page) => page.getByRole('button', { name: /^Undo: / });
/** px from a grip to the middle of the words beside it. */
const WORDS_AWAY = { x: 18, y: 14 };

/** Where a grip stands, by its words. */
async function gripAt(page: Page, words: string): Promise<{ x: number; y: number }> {
  const said = page.getByText(words, { exact: true });
  await expect(said).toBeVisible();
  const box = (await said.boundingBox())!;
  return { x: box.x - WORDS_AWAY.x, y: box.y + box.height / 2 + WORDS_AWAY.y };
}

test('a wall and the rim are dragged in the mold view, each in one step; Escape puts back', async ({ page, address }) => {
  await openPage(page, address, '#compose');
  const end = await gripAt(page, '200\u00a0mm long');
  await page.mouse.move(end.x, end.y);
  await page.mouse.down();
  await page.mouse.move(end.x - 20, end.y - 10, { steps: 4 });
  await page.mouse.move(end.x - 40, end.y - 20, { steps: 4 });
  await expect(page.locator('svg').getByText(/^\d+\u00a0mm long$/), 'told while it moves').not.toHaveText('200\u00a0mm long');
  await page.mouse.up();
  const done = await undo(page).textContent();
  const long = Number(/(\d+)\u00a0mm long$/.exec(done!)![1]);
  expect(long, 'outward is longer').toBeGreaterThan(200);
  await expect(size(page, 'Inside length')).toHaveValue(`${long}\u00a0mm`);
  await undo(page).click();
  await expect(size(page, 'Inside length')).toHaveValue('200\u00a0mm');
  await expect(undo(page)).toHaveCount(0);

  const rim = await gripAt(page, '60\u00a0mm high');
  await page.mouse.move(rim.x, rim.y);
  await page.mouse.down();
  await page.mouse.move(rim.x, rim.y - 60, { steps: 6 });
  await expect(size(page, 'Inside height')).not.toHaveValue('60\u00a0mm');
  await page.keyboard.press('Escape');
  await expect(size(page, 'Inside height')).toHaveValue('60\u00a0mm');
  await page.mouse.up();
  await expect(undo(page)).toHaveCount(0);
});

test('grips belong to the mold: gone while a thing is selected', async ({ page, address }) => {
  await openPage(page, address, '#compose');
  const long = page.getByText('200\u00a0mm long', { exact: true });
  await expect(long).toBeVisible();
  await page.getByRole('group', { name: 'Things on the gauge' }).getByRole('button', { name: 'Newt', exact: true }).click();
  await expect(long).toHaveCount(0);
  await page.keyboard.press('Escape');
  await expect(long).toBeVisible();
});

test('the rim is dragged on the gauge, by mouse and by keys', async ({ page, address }) => {
  await openPage(page, address, '#compose');
  const rim = page.getByRole('button', { name: /^Rim of the mold/ });
  const box = (await rim.boundingBox())!;
  const drawn = (await page.getByRole('img', { name: /^Section through the mold/ }).boundingBox())!;
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2 + 14, { steps: 4 });
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2 + 28, { steps: 4 });
  await expect.poll(async () => (await rim.boundingBox())!.y - box.y, { message: 'the rim follows the finger, to the millimeter' }).toBeGreaterThan(14);
  await page.mouse.up();
  await expect(undo(page)).toHaveText(/^Undo: mold 5[5-9]\u00a0mm high$/);
  await undo(page).click();
  await expect(size(page, 'Inside height')).toHaveValue('60\u00a0mm');
  expect((await page.getByRole('img', { name: /^Section through the mold/ }).boundingBox())!.height).toBe(drawn.height);
  await rim.focus();
  await page.keyboard.press('ArrowUp');
  await expect(size(page, 'Inside height')).toHaveValue('61\u00a0mm');
});

test('in inches the staff, tags and clip are in inches, and the clip stays on the page', async ({ page, address }) => {
  await openPage(page, address, '#compose');
  await page.getByRole('radio', { name: 'inches' }).check({ force: true });
  const gauge = page.getByRole('img', { name: /^Section through the mold, 2 3⁄8 in high/ });
  await expect(gauge.getByText('height, in')).toBeVisible();
  await expect(gauge.getByText('1\u00a01⁄2', { exact: true })).toHaveCount(2);
  await expect(page.getByRole('button', { name: /^Pour 1, 13⁄16\sin, from 0\sin to 13⁄16\sin up/ })).toBeVisible();
  await page.getByRole('group', { name: 'Things on the gauge' }).getByRole('button', { name: 'Lily pads', exact: true }).click();
  const deep = page.getByRole('button', { name: /^Lily pads: 1\s3⁄4\sin up, 7⁄16\sin deep\. Type how deep/ });
  expect((await deep.boundingBox())!.x).toBeGreaterThanOrEqual(0);
});
