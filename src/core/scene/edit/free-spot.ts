/** Where a new figure comes to stand: nearest the middle, on the ground, beside what already stands there. */
import type { Bounds } from '../../solid/solid.ts';
import type { MoldFile } from './file.ts';
import { liesInside } from './room-in-mold.ts';
import { tidy } from './things.ts';

/** Left free between the new figure and what stands there, mm: a brush gets between them. */
const APART_MM = 2;
/** Places are tried this far apart at least, mm, and at most this many of them across the mold. */
const STEP_MM = 2;
const PLACES_ACROSS = 48;
/** Rooms that differ by less are alike, mm³: far above rounding, far below a grain of sand. */
const SAME_MM3 = 0.001;
/** The height it is set to is read to this, mm. */
const HEIGHT_STEP_MM = 0.1;

export interface SpotQuestion {
  readonly mold: MoldFile;
  /** Length, width and height of the new figure as it stands, mm. */
  readonly sizeMm: readonly [number, number, number];
  /** Boxes around what already stands in the mold; the ground is not among it. */
  readonly taken: readonly Bounds[];
  /** Height of the floor or a bed at a place, mm up. */
  groundAt(xMm: number, yMm: number): number;
}

export interface Spot {
  readonly xMm: number;
  readonly yMm: number;
  /** Highest ground under it, so that no part of it lies inside a bed. */
  readonly baseMm: number;
}

/**
 * The free place nearest the middle; where none is free the one that shares least room with what stands there, of those
 * the nearest; the middle where the figure is too large for the mold. Judged by boxes.
 * Asks for the ground at each place once: O(places · (taken + places under the figure)).
 */
export function freeSpot({ mold, sizeMm: [length, width, height], taken, groundAt }: SpotQuestion): Spot {
  const [halfX, halfY] = mold.shape === 'round' ? [mold.diameterMm / 2, mold.diameterMm / 2] : [mold.lengthMm / 2, mold.widthMm / 2];
  const step = Math.max(STEP_MM, (2 * Math.max(halfX, halfY)) / PLACES_ACROSS);
  const grounds = new Map<string, number>();
  const ground = (i: number, j: number): number => {
    const key = `${i} ${j}`;
    const known = grounds.get(key) ?? groundAt(i * step, j * step);
    grounds.set(key, known);
    return known;
  };
  const [reachI, reachJ] = [length, width].map((size) => Math.ceil(size / 2 / step));
  const baseAt = (i: number, j: number): number => {
    let highest = 0;
    for (let di = -reachI; di <= reachI; di++) for (let dj = -reachJ; dj <= reachJ; dj++) highest = Math.max(highest, ground(i + di, j + dj));
    return tidy(Math.ceil(highest / HEIGHT_STEP_MM - 1e-6) * HEIGHT_STEP_MM);
  };
  const boxAt = (i: number, j: number): Bounds => {
    const [x, y, z] = [i * step, j * step, baseAt(i, j)];
    return { min: [x - length / 2, y - width / 2, z], max: [x + length / 2, y + width / 2, z + height] };
  };
  let least: Spot | null = null;
  let leastMm3 = Infinity;
  for (const [i, j] of outward(Math.ceil(halfX / step), Math.ceil(halfY / step))) {
    const flat = { min: [i * step - length / 2, j * step - width / 2, 0], max: [i * step + length / 2, j * step + width / 2, 0] } as const;
    if (!liesInside(mold, flat)) continue;
    const box = boxAt(i, j);
    const spot = { xMm: tidy(i * step), yMm: tidy(j * step), baseMm: box.min[2] };
    if (taken.every((other) => apart(box, other))) return spot;
    const sharedMm3 = taken.reduce((sum, other) => sum + shared(box, other), 0);
    if (sharedMm3 > leastMm3 - SAME_MM3) continue;
    least = spot;
    leastMm3 = sharedMm3;
  }
  return least ?? { xMm: 0, yMm: 0, baseMm: baseAt(0, 0) };
}

/** Places by their distance from the middle; of those as far, the right before the left, the back before the front. */
function outward(mostI: number, mostJ: number): readonly (readonly [number, number])[] {
  const places: (readonly [number, number])[] = [];
  for (let i = mostI; i >= -mostI; i--) for (let j = mostJ; j >= -mostJ; j--) places.push([i, j]);
  return places.sort(([a, b], [c, d]) => a * a + b * b - (c * c + d * d));
}

function apart(a: Bounds, b: Bounds): boolean {
  const between = (axis: 0 | 1 | 2): number => Math.max(a.min[axis] - b.max[axis], b.min[axis] - a.max[axis]);
  return between(0) >= APART_MM || between(1) >= APART_MM || between(2) >= 0;
}

/** Room that two boxes share, mm³. */
function shared(a: Bounds, b: Bounds): number {
  const along = (axis: 0 | 1 | 2): number => Math.max(0, Math.min(a.max[axis], b.max[axis]) - Math.max(a.min[axis], b.min[axis]));
  return along(0) * along(1) * along(2);
}
