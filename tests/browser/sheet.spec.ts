import { readFileSync } from 'node:fs';
import { drop, expect, openPage, test, text, DEMO } from './served-page.ts';

test.use({ picture: false });

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
  delete scene.bench.start;
  await drop(page, [text('other.scene.json', JSON.stringify(scene))]);
  await expect(page.getByRole('group', { name: /^Page 1: / })).toContainText('Another pond');
  await expect(page.getByRole('group', { name: /^Page 1: / })).toContainText('no first day set');
  await expect(page.getByRole('button', { name: 'Save a calendar' })).toHaveAccessibleDescription(/^No first day is set/);
});

test('saves the days for a calendar and the pours for a spreadsheet', async ({ page, address }) => {
  await openPage(page, address, '#sheet');
  await expect(page.getByRole('group', { name: /^Page 1: / })).toBeVisible();
  const saved = async (button: string) => {
    await expect(page.getByRole('button', { name: button })).toHaveAttribute('aria-disabled', 'false');
    const downloading = page.waitForEvent('download');
    await page.getByRole('button', { name: button }).click();
    const download = await downloading;
    return { name: download.suggestedFilename(), text: readFileSync(await download.path(), 'utf8') };
  };
  const calendar = await saved('Save a calendar');
  expect(calendar.name).toBe('Mill pond, evening.ics');
  const { default: ICAL } = await import('ical.js');
  const entries = new ICAL.Component(ICAL.parse(calendar.text)).getAllSubcomponents('vevent');
  const table = await saved('Save a table');
  expect(table.name).toBe('Mill pond, evening.csv');
  const pours = table.text.split('\r\n').length - 2;
  expect(pours).toBeGreaterThan(0);
  expect(entries.filter((entry) => /: pour \d+$/.test(String(entry.getFirstPropertyValue('summary'))))).toHaveLength(pours);
});
