/** Templates saved from the page: true to size after the printer's bars were measured, all of them in one zip. */
import { readFileSync } from 'node:fs';
import { unzipSync } from 'fflate';
import { expect, openPage, test } from './served-page.ts';

test.use({ picture: false });

/** Points to mm (ISO 32000-1 §8.3.2.3). */
const MM_PER_POINT = 25.4 / 72;

test('saves a plane’s template as PDF and SVG, drawn to fit the printer, and all in one zip', async ({ page, address }) => {
  await openPage(page, address, '#sheet');
  await page.getByRole('radio', { name: 'A4' }).check();
  const part = page.getByRole('region', { name: 'Templates' });
  await expect(part.getByText('Lily shadows, 20\u00a0mm up')).toBeVisible();
  const saved = async (button: string) => {
    await expect(part.getByRole('button', { name: button })).toHaveAttribute('aria-disabled', 'false');
    const downloading = page.waitForEvent('download');
    await part.getByRole('button', { name: button }).click();
    const download = await downloading;
    return { name: download.suggestedFilename(), bytes: new Uint8Array(readFileSync(await download.path())) };
  };
  const across = part.getByRole('textbox', { name: 'Bar across, mm' });
  await across.fill('120');
  await across.press('Enter');
  await expect(part.getByRole('alert')).toContainText('expected a number from 90 to 110 mm');
  await across.fill('99.5');
  await across.press('Enter');

  const pdf = await saved('Lily shadows as PDF');
  expect(pdf.name).toBe('01-lily-shadows.pdf');
  const { getDocument } = await import('pdfjs-dist/legacy/build/pdf.mjs');
  const first = await (await getDocument({ data: pdf.bytes, verbosity: 0 }).promise).getPage(1);
  expect(first.view.slice(2).map((points) => Math.round(points * MM_PER_POINT * 10) / 10)).toEqual([297, 210]);
  const words = (await first.getTextContent()).items.map((item) => ('str' in item ? item.str : '')).join(' ');
  expect(words).toContain('99.5');

  const svg = await saved('Lily shadows as SVG');
  expect(svg.name).toBe('01-lily-shadows.svg');
  expect(new TextDecoder().decode(svg.bytes)).toContain('back of the mold');

  const zip = await saved('Save all in one zip');
  expect(zip.name).toBe('Mill pond, evening templates.zip');
  expect(Object.keys(unzipSync(zip.bytes))).toEqual(['01-lily-shadows.pdf', '01-lily-shadows.svg', '02-lily-pads.pdf', '02-lily-pads.svg', 'stencils.pdf', 'stencils.svg']);
});
