/** A piece poured together with another that is kept here, as the command plans them; then made by a class. */
import { readFileSync, writeFileSync } from 'node:fs';
import AxeBuilder from '@axe-core/playwright';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import type { Together } from '../../src/core/plan/runs/together-plan.ts';
import { scene } from '../plan/planning.ts';
import { drop, expect, headlessPlan, openPage, test, text } from './served-page.ts';

test.use({ picture: false });

/** ms. Sheets of two pieces, laid out and written beside another worker's tests. */
const SAVED_MS = 60_000;
const REEF = { ...scene({ fillMm: 24 }), name: 'Reef' };
/** Without a first day: it takes Reef’s. */
const POND = { ...scene({ fillMm: 12, placements: [{ id: 'p', kind: 'plane', name: 'Lilies', atMm: 6 }] }), name: 'Pond' };
const UNDATED = { ...POND, bench: { watchH: 0 } };

test('two pieces from shared cups, told and saved as one; the start is taken up by one press; a class has a day of its own', async ({ page, address }, info) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await openPage(page, address, '#pours');
  const together = page.locator('details.pour-together');
  await together.getByText('Pour together with …').click();
  await expect(together).toContainText('No other piece is kept here.');
  for (const document of [REEF, UNDATED]) {
    await drop(page, [text(`${document.name}.scene.json`, JSON.stringify(document))]);
    await expect(page.getByRole('heading', { level: 1, name: document.name })).toBeVisible();
  }
  await together.getByLabel('Reef').check();
  const [reef, pond] = [REEF, UNDATED].map((document) => info.outputPath(`${document.name}.scene.json`));
  writeFileSync(reef, JSON.stringify(REEF));
  writeFileSync(pond, JSON.stringify(UNDATED));
  const commanded = (headlessPlan(pond, reef) as unknown as { together: Together }).together;
  await expect(together.locator('.together-won')).toHaveText(commanded.words);
  expect(commanded.buys.pours).toBeGreaterThan(0);
  await expect(together.locator('.bench-order > li')).toHaveCount(commanded.bench.length);
  await expect(together.locator('.bench-order')).toContainText(/mixed once: .* Of it [\d.,]+\sg for Pond and [\d.,]+\sg for Reef/);
  await expect(together).toContainText('The others are not changed');

  const { violations } = await new AxeBuilder({ page }).include('main').analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`)).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
  for (const control of await together.locator('label:visible, button:visible, summary:visible').all()) expect((await control.boundingBox())!.height, await control.evaluate((node) => node.outerHTML)).toBeGreaterThanOrEqual(44);

  const saved = async (name: string): Promise<string> => {
    const [download] = await Promise.all([page.waitForEvent('download', { timeout: SAVED_MS }), together.getByRole('button', { name }).click()]);
    return readFileSync(await download.path(), 'latin1');
  };
  expect(await saved('Save one calendar')).toMatch(/SUMMARY:Pond: pour 1[\s\S]*SUMMARY:Reef: pour 1/);
  expect((await saved('Save one table')).trim().split('\r\n').map((row) => row.split(',')[0])).toEqual(['scene', 'Pond', 'Pond', 'Reef']);
  const sheets = await getDocument({ data: Uint8Array.from(Buffer.from(await saved('Save all sheets in one PDF'), 'latin1')), verbosity: 0 }).promise;
  const order = (await (await sheets.getPage(1)).getTextContent()).items.map((item) => ('str' in item ? item.str : '')).join('');
  expect(order).toContain('At the bench');
  expect(order).toMatch(/Of it [\d.]+\s*g for\s*Pond and [\d.]+\s*g for\s*Reef/);

  await together.getByRole('button', { name: 'Use these starts' }).click();
  await expect(together).toContainText('This piece begins so already.');
  await page.getByRole('link', { name: 'Compose' }).click();
  await expect(page.getByLabel('First day and hour')).toHaveValue(commanded.pieces[0].starts);
  await expect(page.getByRole('button', { name: /^Undo: begin 2026-05-04/ })).toBeVisible();

  const card = page.locator('details', { has: page.getByText('A class', { exact: true }) });
  await card.getByText('A class', { exact: true }).click();
  await card.getByLabel('They meet').fill('2026-05-16T10:00');
  await card.getByLabel('They meet').press('Enter');
  await card.getByLabel('The youngest, years').fill('12');
  await card.getByLabel('The youngest, years').press('Enter');
  await expect(card).toContainText('Nobody under 18 mixes resin');
  for (const control of await card.locator('label.yes-no:visible, input:not([type=checkbox]):visible, button:visible').all()) expect((await control.boundingBox())!.height).toBeGreaterThanOrEqual(44);
  await page.getByRole('link', { name: 'Pours' }).click();
  const meeting = page.getByRole('region', { name: 'The class' });
  await expect(meeting).toContainText(/Sat\s16\sMay, 10:00 to 12:00, 6\sstudents: nothing is ready for them/);
  await page.getByRole('link', { name: 'Compose' }).click();
  await page.getByLabel('It lasts').fill('4');
  await page.getByLabel('It lasts').press('Enter');
  await page.getByRole('link', { name: 'Pours' }).click();
  await expect(meeting).toContainText('each paints Lilies');
  await expect(page.locator('.pour-row').first()).toContainText(/before the class[\s\S]*in the class, Sat\s16\sMay, 10:00: each student paints Lilies/);
  await expect(page.locator('.pour-row').last()).toContainText('after the class');
  await together.getByText('Pour together with …').click();
  await together.getByLabel('Reef').check();
  await expect(together.getByRole('alert')).toHaveText('Pond is made by a class, and a class has a day of its own. Plan it by itself, or take the class out of its card.');
});
