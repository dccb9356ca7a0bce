/** A creature that brings its own colors: its plane's card draws them and names what to mix. */
import { zipSync, strToU8 } from 'fflate';
import { expect, openPage, test } from './served-page.ts';

test.use({ picture: false });

test.use({ viewport: { width: 1440, height: 900 } });

/** A roof 40 mm long, 24 mm deep and 12 mm high, its front slope red, its back slope blue, the rest gray. */
function roof(): string {
  const corners = ['-20 -12 0', '20 -12 0', '20 12 0', '-20 12 0', '-20 0 12', '20 0 12'];
  const faces = [['200 80 40', [0, 1, 5, 4]], ['40 110 160', [2, 3, 4, 5]], ['90 90 90', [0, 4, 3]], ['90 90 90', [1, 2, 5]], ['30 30 30', [0, 3, 2, 1]]] as const;
  const vertices = faces.flatMap(([rgb, of]) => of.map((v) => `${corners[v]} ${rgb}`));
  let first = 0;
  const lines = faces.map(([, of]) => `${of.length} ${of.map(() => first++).join(' ')}`);
  return `ply\nformat ascii 1.0\nelement vertex ${vertices.length}\nproperty float x\nproperty float y\nproperty float z\nproperty uchar red\nproperty uchar green\nproperty uchar blue\nelement face ${faces.length}\nproperty list uchar int vertex_indices\nend_header\n${[...vertices, ...lines].join('\n')}\n`;
}

const SCENE = {
  format: 'stillpool.scene', version: 1, name: 'Boat house', mold: { shape: 'box', lengthMm: 80, widthMm: 60, heightMm: 45 }, fillMm: 40, fills: [{ toMm: 40, formula: 'general' }], heat: { model: 'label' },
  placements: [{ id: 'p1', kind: 'plane', name: 'Eaves', atMm: 13, slices: ['c1'] }, { id: 'p2', kind: 'plane', name: 'Ridge', atMm: 17, slices: ['c1'] }],
  creatures: [{ id: 'c1', name: 'Roof', shape: { type: 'mesh', file: 'assets/roof.ply' }, baseMm: 10 }],
};

test('a plane’s card draws the colors that newly show and says how much of each, and what to paint', async ({ page, address }) => {
  await page.addInitScript(() => { Reflect.deleteProperty(window, 'showSaveFilePicker'); });
  await openPage(page, address, '#compose');
  await page.getByRole('button', { name: 'Files' }).click();
  const choosing = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Open a file' }).click();
  await (await choosing).setFiles({ name: 'boat-house.stillpool', mimeType: 'application/zip', buffer: Buffer.from(zipSync({ 'scene.json': strToU8(JSON.stringify(SCENE)), 'assets/roof.ply': strToU8(roof()) })) });
  await page.getByRole('group', { name: 'Things on the gauge' }).getByRole('button', { name: 'Eaves', exact: true }).click();
  const rows = page.getByRole('list', { name: 'Colors that newly show here' }).getByRole('listitem');
  await expect(rows).toHaveCount(2);
  for (const [hex, row] of [['#c85028', rows.filter({ hasText: 'orange' })], ['#286ea0', rows.filter({ hasText: 'blue' })]] as const) {
    await expect(row).toContainText(hex);
    await expect(row).toContainText(/(49|50|51)\s%/);
  }
  // Clear resin: paint as it is to look. The picture in the drawing has both colors, the red one at the front.
  await expect(rows.first()).toContainText(/as it is to look/);
  const drawing = page.getByRole('img', { name: 'Eaves, as it is painted, looking down into the mold' });
  const seen = await drawing.locator('image').evaluate(async (image) => {
    const picture = new Image();
    picture.src = image.getAttribute('href')!;
    await picture.decode();
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [picture.naturalWidth, picture.naturalHeight];
    const pen = canvas.getContext('2d', { willReadFrequently: true })!;
    pen.drawImage(picture, 0, 0);
    return [0.05, 0.5, 0.95].map((share) => [...pen.getImageData(canvas.width / 2, Math.floor(share * canvas.height), 1, 1).data]);
  });
  expect(seen).toEqual([[40, 110, 160, 255], [0, 0, 0, 0], [200, 80, 40, 255]]);
});
