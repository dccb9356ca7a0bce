/** A creature that brings its own colors, on the command line: in words, in JSON, on templates as other programs read them. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { main } from '../../src/cli/plan.ts';
import { readPdf } from '../files/pdf-lines.ts';
import { glb, gltfParts, utf8 } from '../files/mesh/writers.ts';
import { box } from '../core/solid/made-meshes.ts';
import { listening } from './said.ts';

const folder = mkdtempSync(join(tmpdir(), 'stillpool-colored-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const said = listening(folder);
const at = (name: string) => join(folder, name);

/** A roof 40 mm long, 24 mm deep and 12 mm high: from above both slopes show on every plane. */
function roof(): Uint8Array {
  const corners = [[-20, -12, 0], [20, -12, 0], [20, 12, 0], [-20, 12, 0], [-20, 0, 12], [20, 0, 12]];
  // Front slope, back slope, ends and bottom; each vertex once for each color.
  const faces = [['200 80 40', [0, 1, 5, 4]], ['40 110 160', [2, 3, 4, 5]], ['90 90 90', [0, 4, 3]], ['90 90 90', [1, 2, 5]], ['30 30 30', [0, 3, 2, 1]]] as const;
  const vertices = faces.flatMap(([rgb, of]) => of.map((v) => `${corners[v].join(' ')} ${rgb}`));
  let first = 0;
  const lines = faces.map(([, of]) => `${of.length} ${of.map(() => first++).join(' ')}`);
  return utf8(`ply\nformat ascii 1.0\nelement vertex ${vertices.length}\nproperty float x\nproperty float y\nproperty float z\nproperty uchar red\nproperty uchar green\nproperty uchar blue\nelement face ${faces.length}\nproperty list uchar int vertex_indices\nend_header\n${[...vertices, ...lines].join('\n')}\n`);
}

const plane = (n: number, atMm: number) => ({ id: `p${n}`, kind: 'plane', name: `Roof ${n}`, atMm, slices: ['c1'] });
const scene = (file: string) => ({
  format: 'stillpool.scene', version: 1, mold: { shape: 'box', lengthMm: 80, widthMm: 60, heightMm: 45 }, fillMm: 40, fills: [{ toMm: 40, formula: 'general' }], heat: { model: 'label' }, bench: { start: '2026-05-04T08:00' },
  placements: [plane(1, 13), plane(2, 17)], creatures: [{ id: 'c1', name: 'Roof', shape: { type: 'mesh', file }, baseMm: 10 }],
});

beforeAll(() => {
  writeFileSync(at('roof.ply'), roof());
  writeFileSync(at('a.scene.json'), JSON.stringify(scene('roof.ply')));
  // A material with a picture that is not there.
  const { document, binary } = gltfParts(box(20, 20, 20));
  writeFileSync(at('box.glb'), glb({ ...document, images: [{ uri: 'skin.png' }], textures: [{ source: 0 }], materials: [{ pbrMetallicRoughness: { baseColorTexture: { index: 0 } } }], meshes: [{ primitives: [{ attributes: { POSITION: 0, TEXCOORD_0: 0 }, indices: 1, material: 0 }] }] }, binary));
  writeFileSync(at('b.scene.json'), JSON.stringify(scene('box.glb')));
});

describe('a creature with its own colors', () => {
  it('is told on each plane in a few colors with their shares', async () => {
    expect(await main(['a.scene.json', '--json'])).toBe(0);
    const [{ planes }] = JSON.parse(said.out).creatures;
    for (const { colors } of planes) {
      expect(colors.map(({ hex }: { hex: string }) => hex).sort()).toEqual(['#286ea0', '#c85028']);
      for (const { share } of colors) expect(Math.abs(share - 0.5)).toBeLessThan(0.01);
    }
    await main(['a.scene.json']);
    expect(said.out).toMatch(/50\s% (orange|blue) \(#\w+\) and 50\s% (orange|blue) \(#\w+\)\./);
  });

  it('stands in its colors on the templates, to size: PDF by pdfjs-dist, SVG by libvips', async () => {
    expect(await main(['a.scene.json', '--templates', 'out'])).toBe(0);
    const pages = await readPdf(readFileSync(at('out/01-roof-1.pdf')));
    // The section 3 mm over the eaves: 40 mm long and 18 mm deep, with a pixel over its edge.
    const pixelMm = 25.4 / 300;
    const [corners] = pages[0].pictureCorners;
    expect(Math.abs(corners[1][0] - corners[0][0] - 40)).toBeLessThan(4 * pixelMm);
    expect(Math.abs(corners[2][1] - corners[0][1] - 18)).toBeLessThan(4 * pixelMm);
    // Its colors' patches, and their names for a print without them.
    expect(pages[1].pictures).toBe(2);
    expect(pages[1].text).toContain('#c85028');

    const svg = readFileSync(at('out/02-roof-2.svg'), 'utf8');
    const png = Buffer.from(/<image [^>]*href="data:image\/png;base64,([^"]+)"/.exec(svg)![1], 'base64');
    const { data, info } = await sharp(png).raw().toBuffer({ resolveWithObject: true });
    // On the upper plane all of its 40 × 10 mm shows: back slope up, front slope down.
    const pixel = (x: number, y: number) => [...data.subarray(4 * (y * info.width + x), 4 * (y * info.width + x) + 4)];
    const middle = Math.floor(info.width / 2);
    expect(pixel(middle, Math.floor(info.height * 0.25))).toEqual([40, 110, 160, 255]);
    expect(pixel(middle, Math.floor(info.height * 0.75))).toEqual([200, 80, 40, 255]);
  });

  it('whose picture can’t be read says so on its templates and in words; its outline stays', async () => {
    expect(await main(['b.scene.json', '--templates', 'other'])).toBe(0);
    expect(said.out).toContain('The colors of Roof can’t be read: box.glb: its data are in another file ("skin.png")');
    const [page] = await readPdf(readFileSync(at('other/01-roof-1.pdf')));
    expect(page.pictures).toBe(0);
    expect(page.text).toContain('The colors of Roof can’t be read');
    expect(page.paths.some((path) => path.length >= 5 && Math.abs(Math.max(...path.map(([x]) => x)) - Math.min(...path.map(([x]) => x)) - 20) < 0.01)).toBe(true);
  });
});
