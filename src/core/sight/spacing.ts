/**
 * How far apart planes may stand. Looked at from the side, a plane nearer the viewer slides over the one behind it: by
 * gap × tan θ′, where θ′ is the look's angle inside the resin (Snell's law, sin θ = n sin θ′). A feather as wide hides it.
 * Angles are off the straight look at the show face, in air, degrees.
 */

const RADIAN = Math.PI / 180;

/** tan θ′ inside resin of an index, for a look of `viewDeg` in air, 0 ≤ viewDeg < 90, index ≥ 1. */
export function insideTan(viewDeg: number, index: number): number {
  const sin = Math.sin(viewDeg * RADIAN) / index;
  return sin / Math.sqrt((1 - sin) * (1 + sin));
}

/** How far two planes `gapMm` apart slide over each other, mm. */
export function seenStepMm(gapMm: number, viewDeg: number, index: number): number {
  return gapMm * insideTan(viewDeg, index);
}

/** The widest gap whose step a feather still hides, mm; infinite looking straight down. */
export function largestGapMm(featherMm: number, viewDeg: number, index: number): number {
  return featherMm / insideTan(viewDeg, index);
}

/** The look in air from which the step is wider than the feather; null: at no angle, the resin bends it in too far. */
export function showsFromDeg(gapMm: number, featherMm: number, index: number): number | null {
  if (!(gapMm > 0)) return null;
  const sin = (index * featherMm) / Math.hypot(gapMm, featherMm);
  return sin >= 1 ? null : Math.asin(sin) / RADIAN;
}
