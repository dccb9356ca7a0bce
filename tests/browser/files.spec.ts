/** Files: saving and opening again, folders, what is missing, meshes of the wrong unit, recents. */
import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { readBundle } from '../../src/files/bundle.ts';
import { writeStl } from '../bench/big-stl.ts';
import { torus } from '../core/solid/made-meshes.ts';
import { DEMO, drop, expect, headlessPlan, onDisk, openPage, ROCK_POOL, ROOT, test, text } from './served-page.ts';

test.use({ picture: false });

const NEWT = readFileSync(join(ROOT, 'assets', 'figures', 'newt.ply'));
const title = (page: Page) => page.getByRole('heading', { level: 1 });
const alert = (page: Page) => page.getByRole('alert', { name: 'What is in the way' });

/** Without the browser's own dialog, which no test can press; a download is what other browsers do. */
test.beforeEach(({ page }) => page.addInitScript(() => { Reflect.deleteProperty(window, 'showSaveFilePicker'); }));

function withMesh(name: string, file = 'assets/newt.ply'): string {
  const scene = JSON.parse(readFileSync(DEMO, 'utf8'));
  scene.name = name;
  scene.placements.find((placement: { id: string }) => placement.id === 'f1').shape = { type: 'mesh', file };
  return JSON.stringify(scene);
}

async function saved(page: Page, button: string): Promise<{ name: string; bytes: Buffer }> {
  await page.getByRole('button', { name: 'Files' }).click();
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: button, exact: true }).click();
  const download = await downloading;
  const bytes = readFileSync(await download.path());
  await page.getByRole('dialog', { name: 'Files' }).getByRole('button', { name: 'Close' }).click();
  return { name: download.suggestedFilename(), bytes };
}

test('saves the piece and opens it again, the same to the last field', async ({ page, address }) => {
  await openPage(page, address, '#pours');
  await drop(page, [text('pond.scene.json', withMesh('Round trip')), { name: 'newt.ply', bytes: NEWT }]);
  await expect(title(page)).toHaveText('Round trip');
  const { name, bytes } = await saved(page, 'Save the piece');
  expect(name).toBe('Round trip.stillpool');
  const bundle = readBundle(bytes);
  expect(JSON.parse(bundle.sceneText)).toEqual(JSON.parse(withMesh('Round trip')));
  expect(Buffer.from(bundle.file('assets/newt.ply')!)).toEqual(NEWT);
  await expect(page.getByRole('status', { name: 'Keeping' })).toContainText('in Round trip.stillpool');
  const scene = await saved(page, 'Save the scene alone');
  expect(scene.name).toBe('Round trip.scene.json');
  expect(JSON.parse(scene.bytes.toString())).toEqual(JSON.parse(withMesh('Round trip')));

  await drop(page, [onDisk(ROCK_POOL)]);
  await expect(title(page)).toHaveText(headlessPlan(ROCK_POOL).scene);
  await drop(page, [{ name, bytes }]);
  await expect(title(page)).toHaveText('Round trip');
  await expect(alert(page)).toBeEmpty();
});

/** The browser's own dialog to save with, as the page sees it: what it was asked, what was written, and what the person or the disk does. */
async function withDialog(page: Page, does: 'renames' | 'stops' | 'fails'): Promise<void> {
  await page.addInitScript((how) => {
    const seen = { asked: [] as object[], written: '', closed: false };
    const writable = {
      async write(blob: Blob) {
        if (how === 'fails') throw new DOMException('The disk is full.', 'QuotaExceededError');
        for (const byte of new Uint8Array(await blob.arrayBuffer())) seen.written += String.fromCharCode(byte);
      },
      async close() { seen.closed = true; },
    };
    const showSaveFilePicker = async (options: object) => {
      seen.asked.push(options);
      if (how === 'stops') throw new DOMException('The user aborted a request.', 'AbortError');
      return { name: 'my pond.stillpool', createWritable: async () => writable };
    };
    Object.assign(window, { showSaveFilePicker, dialogSeen: seen });
  }, does);
}

const dialogSeen = (page: Page) => page.evaluate(() => (window as unknown as { dialogSeen: { asked: unknown[]; written: string; closed: boolean } }).dialogSeen);

test('saves where the browser’s own dialog says, under the name given there', async ({ page, address }) => {
  await withDialog(page, 'renames');
  await openPage(page, address, '#pours');
  await drop(page, [text('pond.scene.json', withMesh('Pond: 2/3 "deep"')), { name: 'newt.ply', bytes: NEWT }]);
  await expect(title(page)).toHaveText('Pond: 2/3 "deep"');
  await page.getByRole('button', { name: 'Files' }).click();
  await page.getByRole('button', { name: 'Save the piece', exact: true }).click();
  await expect(page.getByText('Saved, with its meshes and pictures.')).toBeVisible();
  const { asked, written, closed } = await dialogSeen(page);
  // What no file system takes is left out of the name; an ending of two parts is more than the dialog takes.
  expect(asked).toEqual([{ suggestedName: 'Pond 2 3 deep.stillpool', types: [{ description: 'Stillpool piece', accept: { 'application/zip': ['.stillpool'] } }] }]);
  expect(closed).toBe(true);
  const bundle = readBundle(Buffer.from(written, 'latin1'));
  expect(JSON.parse(bundle.sceneText)).toEqual(JSON.parse(withMesh('Pond: 2/3 "deep"')));
  expect(Buffer.from(bundle.file('assets/newt.ply')!)).toEqual(NEWT);
  await page.getByRole('dialog', { name: 'Files' }).getByRole('button', { name: 'Close' }).click();
  await expect(page.getByRole('status', { name: 'Keeping' })).toContainText('in my pond.stillpool');
});

for (const does of ['stops', 'fails'] as const) {
  test(`a save that the ${does === 'stops' ? 'person stops says nothing' : 'disk fails says so'}, and the piece does not count as saved`, async ({ page, address }) => {
    await withDialog(page, does);
    await openPage(page, address);
    await page.getByRole('button', { name: 'a painted plane' }).click();
    await page.getByRole('button', { name: 'Files' }).click();
    await page.getByRole('button', { name: 'Save the piece', exact: true }).click();
    await expect.poll(async () => (await dialogSeen(page)).asked.length).toBe(1);
    await page.getByRole('dialog', { name: 'Files' }).getByRole('button', { name: 'Close' }).click();
    if (does === 'fails') await expect(alert(page)).toContainText('The disk is full.');
    else await expect(alert(page)).toBeEmpty();
    await expect(page.getByRole('status', { name: 'Keeping' })).toContainText('not saved to a file');
    expect((await dialogSeen(page)).closed).toBe(false);
  });
}

test('an STL that is cut off says by how much, and the piece stays as it was', async ({ page, address }) => {
  await openPage(page, address);
  // A header that counts 7 triangles of 50 bytes each, and room for 5 and a half.
  const bytes = new Uint8Array(84 + 275);
  new DataView(bytes.buffer).setUint32(80, 7, true);
  await drop(page, [{ name: 'half.stl', bytes }]);
  await expect(alert(page)).toContainText('half.stl can’t be added');
  await expect(alert(page)).toContainText('a header that counts 7 triangles before room for 5');
  await expect(page.getByRole('status', { name: 'Keeping' })).toContainText('Nothing changed yet');
  await expect(title(page)).toHaveText('Mill pond, evening');
});

test('after an edit the numbers are those of the headless plan of the saved scene', async ({ page, address }) => {
  await openPage(page, address);
  await page.getByRole('button', { name: 'a painted plane' }).click();
  await expect(page.getByRole('button', { name: /^Undo: .*added/i })).toBeVisible();
  const { bytes } = await saved(page, 'Save the scene alone');
  const file = join(mkdtempSync(join(tmpdir(), 'stillpool-')), 'edited.scene.json');
  writeFileSync(file, bytes);
  const plan = headlessPlan(file);
  expect(plan.finish).not.toBe(headlessPlan(DEMO).finish);
  await page.getByRole('link', { name: 'Pours' }).click();
  const rows = page.getByRole('main').getByRole('listitem').filter({ has: page.getByRole('button', { name: /^Pour \d+$/ }) });
  await expect(rows).toHaveCount(plan.pours.length);
  for (const [i, { netMl, mixMl, why }] of plan.pours.entries()) {
    await expect(rows.nth(i).getByRole('definition').nth(0)).toHaveText(new RegExp(`^${netMl.toFixed(1)}.*fl.oz$`));
    await expect(rows.nth(i).getByRole('definition').nth(1)).toHaveText(new RegExp(`^${mixMl.toFixed(1)}.*fl.oz$`));
    await expect(rows.nth(i)).toContainText(why);
  }
  // Undone from here, the demo's own finish is back.
  const finishes = page.getByText(/^then out of the mold: /);
  const after = await finishes.textContent();
  await page.keyboard.press('Control+z');
  await expect(finishes).not.toHaveText(after!);
  await page.keyboard.press('Control+Shift+z');
  await expect(finishes).toHaveText(after!);
});

test.describe('with the mold drawn', () => {
  test.use({ picture: true });
  test('saves a picture and a 3D model of the mold', async ({ page, address }) => {
    await openPage(page, address);
    await expect(page.getByRole('img', { name: 'The mold', exact: true })).toBeVisible();
    const picture = await saved(page, 'Save a picture');
    expect([...picture.bytes.subarray(1, 4)].map((byte) => String.fromCharCode(byte)).join('')).toBe('PNG');
    const model = await saved(page, 'Save a 3D model');
    expect(model.bytes.subarray(0, 4).toString()).toBe('glTF');
  });
});

test('opens a folder; names what is missing in one', async ({ page, address }) => {
  await openPage(page, address);
  const folder = join(mkdtempSync(join(tmpdir(), 'stillpool-')), 'pond');
  mkdirSync(join(folder, 'assets'), { recursive: true });
  writeFileSync(join(folder, 'pond.scene.json'), withMesh('From a folder'));
  const pick = async (): Promise<void> => {
    await page.getByRole('button', { name: 'Files' }).click();
    const choosing = page.waitForEvent('filechooser');
    await page.getByRole('button', { name: 'Open a folder' }).click();
    await (await choosing).setFiles(folder);
  };
  await pick();
  await expect(alert(page)).toContainText('pond.scene.json can’t be opened');
  await expect(alert(page)).toContainText('"assets/newt.ply"');
  await expect(title(page)).toHaveText('Mill pond, evening');
  writeFileSync(join(folder, 'assets', 'newt.ply'), NEWT);
  await pick();
  await expect(title(page)).toHaveText('From a folder');
});

test('a dropped folder is looked through', async ({ page, address }) => {
  await openPage(page, address);
  await page.evaluate(([scene, mesh]) => {
    const file = (name: string, content: string) => ({ name, isFile: true, isDirectory: false, file: (given: (file: File) => void) => given(new File([content], name)) });
    const directory = (name: string, entries: unknown[]) => ({
      name, isFile: false, isDirectory: true,
      createReader: () => ({ readEntries: (given: (entries: unknown[]) => void) => given(entries.splice(0, 1)) }),
    });
    const folder = directory('pond', [file('.DS_Store', 'x'), file('pond.scene.json', scene), directory('assets', [file('newt.ply', atob(mesh))])]);
    const drop = new DragEvent('drop', { bubbles: true, cancelable: true });
    // A page can't make a folder that is dropped; this is what one looks like to it.
    Object.defineProperty(drop, 'dataTransfer', { value: { types: ['Files'], files: [], items: [{ kind: 'file', webkitGetAsEntry: () => folder }] } });
    document.body.dispatchEvent(drop);
  }, [withMesh('Dropped folder', 'assets/newt.ply'), Buffer.from(asciiBall()).toString('base64')]);
  await expect(title(page)).toHaveText('Dropped folder');
});

test('a mesh in the wrong unit is noticed and mended with one press', async ({ page, address }) => {
  await openPage(page, address);
  await drop(page, [{ name: 'pebble.ply', bytes: Buffer.from(asciiBall(0.4)) }]);
  const notice = page.getByRole('region', { name: 'Unit of a file' });
  await expect(notice).toContainText('pebble would be 0.8 mm long');
  await notice.getByRole('button', { name: 'Read it in inches' }).click();
  await expect(notice).toBeHidden();
  await page.getByRole('button', { name: /^Undo/ }).click();
  await expect(notice).toBeVisible();
  await notice.getByRole('button', { name: 'It is that size' }).click();
  await expect(notice).toBeHidden();
});

test('of several meshes in the wrong unit each is noticed, one after the other', async ({ page, address }) => {
  await openPage(page, address);
  await drop(page, [{ name: 'pebble.ply', bytes: Buffer.from(asciiBall(0.4)) }, { name: 'acorn.ply', bytes: Buffer.from(asciiBall(0.5)) }]);
  const notice = page.getByRole('region', { name: 'Unit of a file' });
  await expect(notice).toContainText('pebble would be 0.8 mm long');
  await notice.getByRole('button', { name: 'Read it in inches' }).click();
  await expect(notice).toContainText('acorn would be 1 mm long');
  await notice.getByRole('button', { name: 'Read it in inches' }).click();
  await expect(notice).toBeHidden();
  await page.getByRole('button', { name: /^Undo/ }).click();
  await expect(notice).toContainText('acorn would be 1 mm long');
});

test('a mesh of 30 MB tells how far it has come, is shown as a lighter copy, then stands measured', async ({ page, address }, info) => {
  const file = info.outputPath('ring.stl');
  // 600,000 triangles.
  writeStl(file, torus(750, 400, 15, 4));
  await page.addInitScript(() => {
    const said: string[] = [];
    Object.assign(window, { said });
    new MutationObserver(() => {
      const words = document.querySelector('[aria-label="Opening"]')?.textContent ?? '';
      if (words !== said.at(-1)) said.push(words);
    }).observe(document, { subtree: true, childList: true, characterData: true });
  });
  await openPage(page, address);
  await page.getByRole('button', { name: 'Files' }).click();
  await page.getByLabel('Scene file, with the meshes it uses').setInputFiles(file);
  const onGauge = page.getByRole('group', { name: 'Things on the gauge' }).getByRole('button', { name: 'ring', exact: true });
  await expect(onGauge).toBeVisible({ timeout: 90_000 });
  await expect(page.getByRole('status', { name: 'Opening' })).toBeEmpty();
  const said = await page.evaluate(() => (window as unknown as { said: string[] }).said);
  for (const stage of ['taking it in', 'reading it', 'checking it']) {
    const shares = said.flatMap((words) => (words.startsWith(`ring.stl: ${stage}`) ? [Number(/(\d+) %/.exec(words)![1])] : []));
    expect(shares.length, stage).toBeGreaterThan(0);
    expect(shares, stage).toEqual([...shares].sort((a, b) => a - b));
    expect(Math.max(...shares), stage).toBeLessThanOrEqual(100);
  }
  expect(said.findIndex((words) => words.includes('A lighter copy is shown'))).toBeGreaterThan(said.findIndex((words) => words.includes('reading it')));
  await expect(alert(page)).toBeEmpty();
  await expect(page.getByText(/^about \d/)).toHaveCount(0);
});

test('a large mesh says what is being done, can be stopped, and leaves the piece as it was', async ({ page, address }) => {
  await openPage(page, address);
  await page.evaluate((triangles) => {
    // A tube of a million triangles, 50 MB: made here, as it is too much to send.
    const bytes = new Uint8Array(84 + 50 * triangles);
    const view = new DataView(bytes.buffer);
    view.setUint32(80, triangles, true);
    for (let t = 0; t < triangles; t++) {
      const corner = (k: number): number[] => [10 * Math.cos((t + k) / 200), 10 * Math.sin((t + k) / 200), (t + 400 * (k % 2)) / 50_000];
      [0, 1, 2].flatMap(corner).forEach((value, k) => view.setFloat32(84 + 50 * t + 12 + 4 * k, value, true));
    }
    const data = new DataTransfer();
    data.items.add(new File([bytes], 'tube.stl'));
    document.body.dispatchEvent(new DragEvent('drop', { bubbles: true, cancelable: true, dataTransfer: data }));
  }, 1_000_000);
  const opening = page.getByRole('status', { name: 'Opening' });
  await expect(opening).toContainText(/tube\.stl: (taking it in|(reading|checking) it)/);
  await opening.getByRole('button', { name: 'Stop' }).click();
  await expect(opening).toBeEmpty();
  await expect(alert(page)).toBeEmpty();
  await page.getByRole('button', { name: 'a painted plane' }).click();
  await expect(page.getByRole('region', { name: 'Gauge' }).getByText('Painted plane').first()).toBeVisible();
  await expect(page.getByRole('button', { name: /^Undo: .*added/i })).toBeVisible();
});

test('what was worked on is found again, forgotten, and brought back', async ({ page, address }) => {
  await openPage(page, address);
  await drop(page, [text('first.scene.json', withMesh('The first')), { name: 'newt.ply', bytes: NEWT }]);
  await expect(title(page)).toHaveText('The first');
  const files = page.getByRole('button', { name: 'Files' });
  await files.click();
  await page.getByRole('button', { name: 'Rock pool' }).click();
  await expect(title(page)).toHaveText(headlessPlan(ROCK_POOL).scene);
  await files.click();
  await page.getByRole('button', { name: 'Forget The first' }).click();
  await expect(page.getByRole('button', { name: 'Open The first' })).toHaveCount(0);
  await page.getByRole('button', { name: 'Bring it back' }).click();
  await page.getByRole('button', { name: 'Open The first' }).click();
  await expect(title(page)).toHaveText('The first');
});

/** An octahedron as ASCII PLY. */
function asciiBall(radius = 6): string {
  const points = [[radius, 0, 0], [-radius, 0, 0], [0, radius, 0], [0, -radius, 0], [0, 0, radius], [0, 0, -radius]];
  const faces = [[0, 2, 4], [2, 1, 4], [1, 3, 4], [3, 0, 4], [2, 0, 5], [1, 2, 5], [3, 1, 5], [0, 3, 5]];
  return `ply\nformat ascii 1.0\nelement vertex 6\nproperty float x\nproperty float y\nproperty float z\nelement face 8\nproperty list uchar int vertex_indices\nend_header\n${points.map((p) => p.join(' ')).join('\n')}\n${faces.map((f) => `3 ${f.join(' ')}`).join('\n')}\n`;
}
