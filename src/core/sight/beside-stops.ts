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

/** As many heights, in their order; unchanged where they lie well. */
export function besideStops(heights: readonly number[], { stopsMm, minDepthMm, bottomMm, topMm }: BesideOptions): number[] {
  const weigh = (by: number): number => heights.reduce((sum, z) => sum + stopsMm.reduce((own, stop) => own + weight(Math.abs(z + by - stop), minDepthMm), 0), 0);
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
