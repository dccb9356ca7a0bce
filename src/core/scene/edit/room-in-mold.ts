/** Whether a box around a thing lies inside the mold, and where to move it so that it does. */
import type { Bounds } from '../../solid/solid.ts';
import type { MoldFile } from './file.ts';
import { tidy } from './things.ts';

/** Left between a thing and the wall when it is moved in, mm: drawn and real sizes differ by about that. */
const CLEAR_MM = 0.5;
/** Halvings of the way to the middle: 2⁻⁴⁰ of a meter is far below what is stored. */
const HALVINGS = 40;

export interface Shift {
  readonly dxMm: number;
  readonly dyMm: number;
  readonly dzMm: number;
}

/**
 * The short way in: off the walls sideways and up off the floor; null where it is too large for that.
 * Judged by the box around the thing, so a round thing in a round mold may be moved a little further than it needs.
 */
export function wayInside(mold: MoldFile, bounds: Bounds): Shift | null {
  const { min, max } = bounds;
  const dzMm = Math.max(0, -min[2]);
  const half: Half = { x: (max[0] - min[0]) / 2 + CLEAR_MM, y: (max[1] - min[1]) / 2 + CLEAR_MM };
  const section = sectionAt(mold, min[2] + dzMm);
  const from = { x: (min[0] + max[0]) / 2, y: (min[1] + max[1]) / 2 };
  const clamp = (at: number, most: number) => Math.min(Math.max(at, -most), most);
  const near = section.round ? from : { x: clamp(from.x, Math.max(0, section.hx - half.x)), y: clamp(from.y, Math.max(0, section.hy - half.y)) };
  if (!fits(section, 0, 0, half)) return null;
  let out = fits(section, near.x, near.y, half) ? 1 : 0;
  if (out === 0) {
    let low = 0;
    let high = 1;
    for (let i = 0; i < HALVINGS; i++) {
      const middle = (low + high) / 2;
      if (fits(section, near.x * middle, near.y * middle, half)) low = middle;
      else high = middle;
    }
    out = low;
  }
  return { dxMm: tidy(near.x * out - from.x), dyMm: tidy(near.y * out - from.y), dzMm: tidy(dzMm) };
}

/** Whether a box lies inside the mold, walls and floor, but for `withinMm`; how high it reaches does not count. Walls only lean out. */
export function liesInside(mold: MoldFile, { min, max }: Bounds, withinMm = 0): boolean {
  if (min[2] < -withinMm) return false;
  return fits(sectionAt(mold, min[2]), (min[0] + max[0]) / 2, (min[1] + max[1]) / 2, { x: (max[0] - min[0]) / 2 - withinMm, y: (max[1] - min[1]) / 2 - withinMm });
}

interface Half {
  readonly x: number;
  readonly y: number;
}

interface Section {
  readonly round: boolean;
  readonly hx: number;
  readonly hy: number;
  readonly corner: number;
}

/** The mold's inside at a height; walls only lean out, so where a thing's foot fits the rest does. */
function sectionAt(mold: MoldFile, zMm: number): Section {
  const growth = zMm * Math.tan(((mold.draftDeg ?? 0) * Math.PI) / 180);
  if (mold.shape === 'round') return { round: true, hx: mold.diameterMm / 2 + growth, hy: mold.diameterMm / 2 + growth, corner: 0 };
  return { round: false, hx: mold.lengthMm / 2 + growth, hy: mold.widthMm / 2 + growth, corner: mold.cornerRadiusMm ?? 0 };
}

function fits({ round, hx, hy, corner }: Section, x: number, y: number, half: Half): boolean {
  const farX = Math.abs(x) + half.x;
  const farY = Math.abs(y) + half.y;
  if (round) return Math.hypot(farX, farY) <= hx;
  if (farX > hx || farY > hy) return false;
  const inX = farX - (hx - corner);
  const inY = farY - (hy - corner);
  return inX <= 0 || inY <= 0 || Math.hypot(inX, inY) <= corner;
}
