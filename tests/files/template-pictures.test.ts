/** Pictures of pixels on templates, read by pdfjs-dist: at their place to 0.01 mm, turned as a phone wrote them, or told. */
import { zlibSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { readScene } from '../../src/core/scene/read.ts';
import { crc32 } from '../../src/files/crc32.ts';
import { fontsOnDisk } from '../../src/files/fonts-disk.ts';
import { imageMatrix } from '../../src/files/pdf-picture.ts';
import { openRegions } from '../../src/files/regions.ts';
import { templateFiles } from '../../src/files/template-files.ts';
import { planOf, scene } from '../plan/planning.ts';
import { readPdf } from './pdf-lines.ts';

const readFont = fontsOnDisk(new URL('../..', import.meta.url).pathname);
const regions = await openRegions();
const DRAWN_MM = 0.01;

/** 6 × 4 gray pixels, made with ImageMagick. */
const JPEG = Uint8Array.from(Buffer.from('/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDABALDA4MChAODQ4SERATGCgaGBYWGDEjJR0oOjM9PDkzODdASFxOQERXRTc4UG1RV19iZ2hnPk1xeXBkeFxlZ2P/wAALCAAEAAYBAREA/8QAFAABAAAAAAAAAAAAAAAAAAAABv/EAB4QAAIBBAMBAAAAAAAAAAAAAAECBAMFESEAEhNR/9oACAEBAAA/AGlstcK0R2jwKPjSZy5XsW3gDOyfg5//2Q==', 'base64'));

/** The same with an Exif orientation (Exif 2.3 §4.6.4), big-endian. */
function turned(orientation: number): Uint8Array {
  const exif = [...'Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0'].map((letter) => letter.charCodeAt(0)).concat(orientation, 0, 0, 0, 0, 0, 0);
  return Uint8Array.from([0xff, 0xd8, 0xff, 0xe1, 0, exif.length + 2, ...exif, ...JPEG.subarray(2)]);
}

/** RGBA rows (W3C PNG §5 and §10), opaque black. */
function png(wide: number, high: number): Uint8Array {
  const chunk = (name: string, body: Uint8Array): number[] => {
    const named = Uint8Array.from([...[...name].map((letter) => letter.charCodeAt(0)), ...body]);
    const view = new DataView(new ArrayBuffer(8));
    view.setUint32(0, body.length);
    view.setUint32(4, crc32(named));
    return [...new Uint8Array(view.buffer, 0, 4), ...named, ...new Uint8Array(view.buffer, 4, 4)];
  };
  const rows = Uint8Array.from({ length: high * (4 * wide + 1) }, (_, i) => (i % (4 * wide + 1) % 4 === 0 && i % (4 * wide + 1) > 0 ? 255 : 0));
  return Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, ...chunk('IHDR', Uint8Array.from([0, 0, 0, wide, 0, 0, 0, high, 8, 6, 0, 0, 0])), ...chunk('IDAT', zlibSync(rows)), ...chunk('IEND', new Uint8Array())]);
}

async function page(picture: Uint8Array, change: { cast?: string; art?: object } = {}) {
  const input = { ...scene({ fillMm: 44, mold: { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60 }, placements: [{ id: 'p1', kind: 'plane', name: 'Ground', atMm: 20, art: { file: 'a.jpg', widthMm: 60, ...change.art } }] }), cast: change.cast ?? 'face-up' };
  const reading = readScene(input);
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  const files = await templateFiles({ scene: reading.scene, plan: planOf(input), meshes: new Map(), paper: 'a4', readFont, regions, file: () => picture });
  const [read] = await readPdf(files[0].bytes);
  // The middle of the mold: of its wall of 200 mm.
  const wall = read.paths.find((path) => path.length === 5 && Math.abs(Math.max(...path.map(([x]) => x)) - Math.min(...path.map(([x]) => x)) - 200) < DRAWN_MM)!;
  const middle = [0, 1].map((axis) => (Math.max(...wall.map((point) => point[axis])) + Math.min(...wall.map((point) => point[axis]))) / 2);
  return { read, svg: new TextDecoder().decode(files[1].bytes), corners: read.pictureCorners.map((corners) => corners.map(([x, y]) => [x - middle[0], y - middle[1]])) };
}

function expectAt(corners: readonly (readonly number[])[], expected: readonly (readonly number[])[]): void {
  corners.forEach((corner, i) => expect(Math.hypot(corner[0] - expected[i][0], corner[1] - expected[i][1]), `${corner} and ${expected[i]}`).toBeLessThan(DRAWN_MM));
}

describe('a picture of pixels', () => {
  // 6 × 4 pixels at 60 mm: 60 × 40; on its side 60 × 90. Down is positive; from the middle of the mold.
  const [tl, tr, bl, br] = [[-30, -20], [30, -20], [-30, 20], [30, 20]];
  const [TL, TR, BL, BR] = [[-30, -45], [30, -45], [-30, 45], [30, 45]];
  it.each([[2, [tr, tl, br]], [3, [br, bl, tr]], [4, [bl, br, tl]], [5, [TL, BL, TR]], [7, [BR, TR, BL]], [8, [BL, TL, BR]]])('of orientation %d is set with its stored corners where they are looked at', (orientation, expected) => {
    const [a, b, c, d, e, f] = imageMatrix(turned(orientation), (orientation < 5 ? [tl, tr, bl] : [TL, TR, BL]) as unknown as Parameters<typeof imageMatrix>[1]);
    // The unit square's top left, top right and bottom left.
    expect([[0, 1], [1, 1], [0, 0]].map(([x, y]) => [a * x + c * y + e, b * x + d * y + f])).toEqual(expected);
  });

  it.each([[1, [tl, tr, bl]], [6, [TR, BR, TL]]])('of orientation %d lies as it is looked at', async (orientation, expected) => {
    const { corners, read } = await page(turned(orientation));
    expect(read.pictures).toBe(1);
    expectAt(corners[0], expected);
    expect(read.text).toContain('printed lightly');
  });

  it('is mirrored face-down, moved and turned with its edge', async () => {
    const { corners } = await page(JPEG, { cast: 'face-down', art: { xMm: 10, yMm: 5, turnDeg: 90 } });
    // Mirrored, its left is at the right; turned 90° clockwise then, for the turn is mirrored too.
    expectAt(corners[0], [[10 + 20, -5 + 30], [10 + 20, -5 - 30], [10 - 20, -5 + 30]]);
  });

  it('is not in the SVG, its edge is', async () => {
    const { svg } = await page(png(6, 4));
    expect(svg).not.toContain('<image');
    expect(svg).toContain('stroke-dasharray="3 1.5"');
  });

  it('that can’t be printed is its edge, and told', async () => {
    const webp = Uint8Array.from([...'RIFF\0\0\0\0WEBPVP8X\0\0\0\0\0\0\0\0'].map((letter) => letter.charCodeAt(0)).concat(5, 0, 0, 3, 0, 0));
    for (const picture of [webp, png(6, 4).subarray(0, 40)]) {
      const { read } = await page(picture);
      expect(read.pictures).toBe(0);
      expect(read.text).toContain('only its edge and middle are drawn');
    }
  });
});
