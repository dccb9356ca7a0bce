/** The browser's own print of Pours: the list with its strips over the paper's width, under the piece's name. */
import { expect, openPage, test } from './served-page.ts';

test.use({ picture: false });

/** CSS Values 4: 96 px are an inch. ISO 216 A4 upright less margins of 10 mm. */
const LINE_PX = ((210 - 20) / 25.4) * 96;

test('pours print over the whole paper, in ink, also from a dark screen', async ({ page, address }) => {
  await page.emulateMedia({ colorScheme: 'dark' });
  await openPage(page, address, '#pours');
  await page.emulateMedia({ colorScheme: 'dark', media: 'print' });
  await page.setViewportSize({ width: Math.floor(LINE_PX), height: 1000 });
  const row = page.getByRole('listitem').filter({ has: page.getByRole('button', { name: 'Pour 1', exact: true }) });
  expect((await row.boundingBox())!.width).toBeGreaterThan(LINE_PX * 0.95);
  await expect(page.getByText('Mill pond, evening').first()).toBeVisible();
  await expect(page.getByRole('button', { name: 'Next finding' })).toBeHidden();
  const [ink, ground] = await page.evaluate(() => [getComputedStyle(document.body).color, getComputedStyle(document.documentElement).backgroundColor].map((color) => Math.max(...color.match(/\d+/g)!.slice(0, 3).map(Number))));
  expect(ink).toBeLessThan(64);
  expect(ground).toBe(255);
});
