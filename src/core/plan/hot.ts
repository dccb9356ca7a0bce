/** Whether a pour is deeper than is safe where it is poured, or near to it. */
import type { Judged } from './heat-judge.ts';
import type { PourHeat } from './plan.ts';
import type { Slice } from './slices.ts';

/** From this share of its safe depth on a pour in a harsh place is near too much (design). */
const NEAR_SHARE = 0.9;
/** Depths that were halved and added carry noise far below this, mm. */
const ROUNDING_MM = 1e-9;

/** Deeper than is safe there. */
export function isHot({ safeDepthMm }: Pick<PourHeat, 'safeDepthMm'>, depthMm: number): boolean {
  return depthMm > safeDepthMm + ROUNDING_MM;
}

/** The same of a pour as it was judged; by the label alone none is. */
export function tooDeep({ fromMm, toMm }: Pick<Slice, 'fromMm' | 'toMm'>, judged: Judged | null): boolean {
  return judged !== null && isHot(judged.verdict, toMm - fromMm);
}

/** Within its safe depth, but by little, where it is harsher than the label says. */
export function isNear({ safeDepthMm, harsher }: Pick<PourHeat, 'safeDepthMm' | 'harsher'>, depthMm: number): boolean {
  return harsher && depthMm <= safeDepthMm + ROUNDING_MM && depthMm > NEAR_SHARE * safeDepthMm + ROUNDING_MM;
}
