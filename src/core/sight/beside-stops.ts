/**
 * Where pouring stops for other reasons (planes that are there, a figure set down, a change of fill), a creature's plane goes
 * either on that stop or far enough from it for a pour that levels: first by moving all its planes alike, as little as
 * helps, then by moving single ones onto a stop they would still lie too near.
 */
import { LEVELS_SHARE } from '../plan/thinnest.ts';
import { STOP_TOLERANCE_MM } from '../scene/tolerance.ts';

export interface BesideOptions {
  /** Heights of the other stops, the floor and the top among them. */
  readonly stopsMm: readonly number[];
  readonly minDepthMm: number;
  /** The creature's own span, which its planes are not moved out of. */
  readonly bottomMm: number;
  readonly topMm: number;
}

/** A pour that may not be poured outweighs any number that only levels barely. */
const TOO_THIN = 1000;
const THIN = 1;
/** mm. Computed heights that should be one. */
const SAME_MM = 1e-9;

/** Of the gap between planes: what so many planes keep off the creature's ends, where nearly nothing of it is cut. */
const END_SHARE = 0.15;
/** Of its height: a plane nearer to its ends shows nothing. */
const EMPTY_SHARE = 0.02;

/** As many heights, each cutting the creature well within its ends. */
export function countBesideStops(heights: readonly number[], options: BesideOptions): number[] {
  const { bottomMm, topMm } = options;
  const end = (END_SHARE * (topMm - bottomMm)) / Math.max(1, heights.length);
  return besideStops(heights, { ...options, bottomMm: bottomMm + end, topMm: topMm - end });
}

/** Heights a gap apart: one that comes to lie at the creature's very end, on a stop that is there anyway, is left out. */
export function gapBesideStops(heights: readonly number[], options: BesideOptions): number[] {
  const { bottomMm, topMm } = options;
  const empty = EMPTY_SHARE * (topMm - bottomMm);
  const moved = besideStops(heights, options);
  const telling = moved.filter((z) => z > bottomMm + empty && z < topMm - empty);
  return telling.length > 0 ? telling : moved;
}

/** As many heights, in their order; unchanged where they lie well. */
export function besideStops(heights: readonly number[], { stopsMm, minDepthMm, bottomMm, topMm }: BesideOptions): number[] {
  if (heights.length === 0) return [];
  const empty = EMPTY_SHARE * (topMm - bottomMm);
  const beside = (z: number): number => stopsMm.reduce((sum, stop) => sum + weight(Math.abs(z - stop), minDepthMm), 0);
  // Moved to the very end a plane shows nothing: worth it only on a stop, where it costs nothing.
  const wasted = (z: number): number => (z > bottomMm + empty && z < topMm - empty) || stopsMm.some((stop) => Math.abs(z - stop) <= STOP_TOLERANCE_MM) ? 0 : TOO_THIN;
  const weigh = (by: number): number => heights.reduce((sum, z) => sum + beside(z + by) + wasted(z + by), 0);
  const [down, up] = [Math.min(0, bottomMm - Math.min(...heights)), Math.max(0, topMm - Math.max(...heights))];
  const offsets = heights.flatMap((z) => stopsMm.flatMap((stop) => [stop - z, stop - minDepthMm - z, stop + minDepthMm - z]));
  let best = { by: 0, weight: weigh(0) };
  for (const by of offsets) {
    if (by < down - SAME_MM || by > up - SAME_MM) continue;
    const here = weigh(by);
    if (here < best.weight || (here === best.weight && Math.abs(by) < Math.abs(best.by))) best = { by, weight: here };
  }
  const moved = heights.map((z) => z + best.by);
  return moved.map((z, i) => {
    const [nearest] = [...stopsMm].sort((a, b) => Math.abs(a - z) - Math.abs(b - z));
    if (nearest === undefined || weight(Math.abs(z - nearest), minDepthMm) < TOO_THIN) return z;
    const alone = moved.every((other, k) => k === i || Math.abs(other - nearest) >= LEVELS_SHARE * minDepthMm);
    return alone && nearest >= bottomMm && nearest < topMm ? nearest : z;
  });
}

function weight(apartMm: number, minDepthMm: number): number {
  if (apartMm <= STOP_TOLERANCE_MM || apartMm >= minDepthMm - SAME_MM) return 0;
  return apartMm < LEVELS_SHARE * minDepthMm ? TOO_THIN : THIN;
}
