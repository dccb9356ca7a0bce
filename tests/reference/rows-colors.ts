/** Colors that creatures bring: what shows of each on a plane in closed form, light between two pixels, pictures as other libraries read them. */
import sharp from 'sharp';
import { encoded } from '../../src/core/sight/color.ts';
import { lookUp, textureOf } from '../../src/core/sight/colors/texture.ts';
import { meshFail } from '../../src/files/fail.ts';
import { readPicture } from '../../src/files/picture/read.ts';
import { openRegions } from '../../src/files/regions.ts';
import { coloredGuides, painted, rod, sharesOf } from '../core/sight/colors/made-colors.ts';
import { box } from '../core/solid/made-meshes.ts';
import { printed, type EvidenceRow } from './evidence-row.ts';

const STRIPES = [[20, '#d04030'], [40, '#f0e0a0'], [70, '#305090'], [180, '#202020']] as const;
const SIDES = ['#7a4a21', '#e0c040', '#c02020', '#2060c0', '#208040', '#f0f0f0'];
/** Of a band 4 mm wide, edges half a pixel of 0.085 mm off. */
const BAND_EDGES = 0.02;

async function stripe(hex: string): Promise<number> {
  const { mesh, degrees } = rod(20, 60, 720);
  const guides = coloredGuides(mesh, painted(mesh, (t) => STRIPES.find(([to]) => degrees(t) < to)![1]), await openRegions(), { heights: [33, 37] });
  return sharesOf(guides[0])[hex];
}

async function side(hex: string, turnDeg: readonly [number, number, number], atMm: number): Promise<number> {
  const cube = box(30, 30, 30);
  return sharesOf(coloredGuides(cube, painted(cube, (t) => SIDES[t >> 1]), await openRegions(), { heights: [atMm], turnDeg })[0])[hex];
}

function between(): number {
  const light = new Float64Array(3);
  lookUp(textureOf({ width: 2, height: 1, rgb: Uint8Array.of(0, 0, 0, 255, 255, 255) }, 'clamp', 'clamp'), 0, 0.5, 0.5, light);
  return 255 * encoded(light[0]);
}

/** Pixels of a picture of 61 × 43 from a fixed seed that we read otherwise than libvips does, by more than `step` of 256. */
async function unlike(form: 'png' | 'jpeg', step: number): Promise<number> {
  let seed = 91;
  const raw = Uint8Array.from({ length: 61 * 43 * 3 }, (_, i) => (3 * (i % 183) + ((seed = (seed * 16807) % 2147483647) % 11)) % 256);
  const image = sharp(raw, { raw: { width: 61, height: 43, channels: 3 } });
  const bytes = new Uint8Array(await (form === 'png' ? image.png({ progressive: true }) : image.jpeg({ quality: 95, chromaSubsampling: '4:4:4', progressive: true })).toBuffer());
  const other = await sharp(bytes).raw().toBuffer();
  return readPicture(bytes, meshFail('a.glb')).rgb.filter((value, i) => Math.abs(value - other[i]) > step).length;
}

export const rows: readonly EvidenceRow[] = [
  { subject: 'rod r 20 lying, striped by its angle, planes 12 and 16 mm over its axis: share of the stripe from 40° to 70° that newly shows on the lower', source: '(0.8 − sin 40°)/(0.8 − 0.6), by hand, seen in pixels', expected: 0.7860620, tolerance: BAND_EDGES, got: () => stripe('#305090') },
  { subject: 'cube on its edge, its top plane from above: share of each of the two sides that show', source: 'mirror symmetry, seen in pixels', expected: 0.5, tolerance: 0.005, got: () => side('#e0c040', [45, 0, 0], 36) },
  { subject: 'cube on its corner: share of each of three', source: 'threefold symmetry about the diagonal, seen in pixels', expected: 1 / 3, tolerance: 0.01, got: () => side('#e0c040', [45, -(Math.atan(Math.SQRT1_2) * 180) / Math.PI, 0], 40) },
  { subject: 'halfway between a black and a white pixel of a creature’s picture, of 255', source: 'IEC 61966-2-1: half the light is written 187.5', ...printed('187.5'), got: between },
  { subject: 'samples of an interlaced PNG of 61 × 43 read otherwise, seed 91', source: 'sharp 0.35.5 (libpng), same run', expected: 0, tolerance: 0, got: () => unlike('png', 0) },
  { subject: 'samples of a progressive JPEG of 61 × 43 off by more than 3 of 256, seed 91', source: 'sharp 0.35.5 (libjpeg-turbo), same run', expected: 0, tolerance: 0, got: () => unlike('jpeg', 3) },
];
