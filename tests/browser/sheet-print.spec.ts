/** The browser's own print of the sheet: pages of the chosen paper, as many as the sheet has, drawn 1:1 as they say. */
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { expect, openPage, test } from './served-page.ts';

/** ISO 216 A4 and ANSI/ASME Y14.1 A (Letter), landscape, in points of 1/72 in. */
const PAPERS = [
  { title: 'A4', widthPt: (297 / 25.4) * 72, heightPt: (210 / 25.4) * 72 },
  { title: 'Letter', widthPt: 11 * 72, heightPt: 8.5 * 72 },
];
/** pt. A browser's page sizes are whole CSS pixels of 0.75 pt. */
const PIXEL_PT = 0.75;

for (const { title, widthPt, heightPt } of PAPERS) {
  test(`the sheet prints 1:1 on ${title}`, async ({ page, address }) => {
    await openPage(page, address, '#sheet');
    await page.getByRole('radio', { name: title }).check();
    const pages = page.getByRole('group', { name: /^Page \d+:/ });
    await expect(page.getByRole('status').filter({ hasText: /^\d+\spages\./ })).toBeVisible({ timeout: 90_000 });
    await expect.poll(async () => (await pages.first().getAttribute('viewBox'))?.split(' ')[2]).toBe(title === 'A4' ? '297' : '279.4');
    const count = await pages.count();
    const printed = await getDocument({ data: new Uint8Array(await page.pdf({ preferCSSPageSize: true })) }).promise;
    expect(printed.numPages).toBe(count);
    for (let n = 1; n <= count; n++) {
      const { width, height } = (await printed.getPage(n)).getViewport({ scale: 1 });
      expect(Math.abs(width - widthPt)).toBeLessThan(PIXEL_PT);
      expect(Math.abs(height - heightPt)).toBeLessThan(PIXEL_PT);
    }
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: Math.ceil((widthPt / 72) * 96), height: 800 });
    const box = (await pages.first().boundingBox())!;
    // CSS Values 4: 96 px are an inch.
    expect(Math.abs(box.width - (widthPt / 72) * 96)).toBeLessThan(1);
    expect(Math.abs(box.height - (heightPt / 72) * 96)).toBeLessThan(1);
    expect(box.x).toBe(0);
  });
}
