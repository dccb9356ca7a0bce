/** A drawing that comes with a piece is shown in the mold, cleaned; the file system and the zip tell the page no type for it. */
import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { zipSync, strToU8 } from 'fflate';
import { expect, openPage, test } from './served-page.ts';

test.use({ viewport: { width: 1440, height: 900 } });
test.beforeEach(({ page }) => page.addInitScript(() => { Reflect.deleteProperty(window, 'showSaveFilePicker'); }));

const SCENE = {
  format: 'stillpool.scene', version: 1, name: 'Red ground',
  mold: { shape: 'box', lengthMm: 100, widthMm: 80, heightMm: 30 },
  fillMm: 20, fills: [{ toMm: 20, formula: 'general' }],
  placements: [{ id: 'p1', kind: 'plane', name: 'Ground', atMm: 10, art: { file: 'assets/ground.svg', widthMm: 100 } }],
};
const DRAWING = '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="80mm" viewBox="0 0 100 80" onload="console.error(\'alive\')"><script>console.error("alive")</script><rect width="100" height="80" fill="#ff0000"/></svg>';

test('an SVG inside a .stillpool is drawn on its plane', async ({ page, address }) => {
  await openPage(page, address, '#compose');
  await page.getByRole('button', { name: 'Files' }).click();
  const choosing = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Open a file' }).click();
  const buffer = Buffer.from(zipSync({ 'scene.json': strToU8(JSON.stringify(SCENE)), 'assets/ground.svg': strToU8(DRAWING) }));
  await (await choosing).setFiles({ name: 'ground.stillpool', mimeType: 'application/zip', buffer });
  await expect(page.getByRole('heading', { name: 'Red ground', level: 1 })).toBeVisible();
  await page.getByRole('button', { name: 'above', exact: true }).click();
  await expect.poll(() => redShare(page), { timeout: 60_000 }).toBeGreaterThan(0.1);
});

/** Which share of the saved picture is plainly red. Nothing else in this piece is: a wash is gray, `halt` has nothing to say here. */
async function redShare(page: Page): Promise<number> {
  await page.getByRole('button', { name: 'Files' }).click();
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save a picture' }).click();
  const png = readFileSync(await (await downloading).path()).toString('base64');
  await page.getByRole('button', { name: 'Close', exact: true }).click();
  return page.evaluate(async (data) => {
    const picture = new Image();
    picture.src = `data:image/png;base64,${data}`;
    await picture.decode();
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [picture.naturalWidth, picture.naturalHeight];
    const paint = canvas.getContext('2d')!;
    paint.drawImage(picture, 0, 0);
    const { data: pixels } = paint.getImageData(0, 0, canvas.width, canvas.height);
    let red = 0;
    for (let i = 0; i < pixels.length; i += 4) if (pixels[i] > 120 && pixels[i] > 1.6 * pixels[i + 1] && pixels[i] > 1.6 * pixels[i + 2]) red++;
    return red / (pixels.length / 4);
  }, png);
}
