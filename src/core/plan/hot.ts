/** Whether a pour is deeper than is safe where it is poured, or near to it. */
import type { PourHeat } from './plan.ts';

/** From this share of its safe depth on a pour in a harsh place is near too much (design). */
const NEAR_SHARE = 0.9;
/** Depths that were halved and added carry noise far below this, mm. */
const ROUNDING_MM = 1e-9;

/** Deeper than is safe there. */
export function isHot({ safeDepthMm }: Pick<PourHeat, 'safeDepthMm'>, depthMm: number): boolean {
  return depthMm > safeDepthMm + ROUNDING_MM;
}

/** Within its safe depth, but by little, where it is harsher than the label says. */
export function isNear({ safeDepthMm, harsher }: Pick<PourHeat, 'safeDepthMm' | 'harsher'>, depthMm: number): boolean {
  return harsher && depthMm <= safeDepthMm + ROUNDING_MM && depthMm > NEAR_SHARE * safeDepthMm + ROUNDING_MM;
}
