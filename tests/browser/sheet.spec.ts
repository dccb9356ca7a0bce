import { readFileSync } from 'node:fs';
import { drop, expect, openPage, test, text, DEMO } from './served-page.ts';

test('shows the sheet’s pages and saves a PDF of as many', async ({ page, address }) => {
  await openPage(page, address);
  await page.getByRole('link', { name: 'Sheet' }).focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'Build sheet', exact: true })).toBeVisible();
  const pages = page.getByRole('group', { name: /^Page \d+: / });
  await expect(pages.first()).toBeVisible();
  const count = await pages.count();
  await expect(page.getByRole('status').filter({ hasText: `${count}\u00a0pages` })).toBeVisible();
  await expect(pages.first()).toContainText('Mill pond, evening');
  await page.getByRole('radio', { name: 'Letter' }).check();
  await expect(page.getByRole('status').filter({ hasText: /\d+\spages/ })).toBeVisible();
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save the PDF' }).click();
  const download = await downloading;
  expect(download.suggestedFilename()).toBe('Mill pond, evening.pdf');
  const { getDocument } = await import('pdfjs-dist/legacy/build/pdf.mjs');
  const pdf = await getDocument({ data: new Uint8Array(readFileSync(await download.path())) }).promise;
  expect(pdf.numPages).toBe(await pages.count());
  const [, , width, height] = (await pdf.getPage(1)).view;
  // US Letter, landscape: 11 × 8½ in at 72 points an inch.
  expect([Math.round(width), Math.round(height)]).toEqual([792, 612]);
});

test('lays the sheet out anew for another scene', async ({ page, address }) => {
  await openPage(page, address, '#sheet');
  await expect(page.getByRole('group', { name: /^Page 1: / })).toBeVisible();
  const scene = JSON.parse(readFileSync(DEMO, 'utf8'));
  scene.name = 'Another pond';
  await drop(page, [text('other.scene.json', JSON.stringify(scene))]);
  await expect(page.getByRole('group', { name: /^Page 1: / })).toContainText('Another pond');
});
