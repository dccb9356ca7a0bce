/** Where planes through a creature go: a gap apart, centered in it, inside the resin. */

export interface ProposeOptions {
  readonly fillMm: number;
  /** The thinnest pour that levels: the first plane keeps this far off the floor, and the last off the top, where the creature lets it. */
  readonly minDepthMm: number;
}

/** mm. A height divided by a gap is a whole number up to the rounding of both. */
const SAME_MM = 1e-9;

/**
 * Heights of planes `gapMm` apart through a creature from `bottomMm` to `topMm`, lowest first: as few as leave at most half a
 * gap above and below them. Those outside the resin are left out; none where all of it is.
 */
export function planeHeights(bottomMm: number, topMm: number, gapMm: number, { fillMm, minDepthMm }: ProposeOptions): number[] {
  const count = Math.max(1, Math.ceil((topMm - bottomMm) / gapMm - SAME_MM));
  return heightsOf(bottomMm, topMm, { count, gapMm, fillMm, minDepthMm });
}

/** Heights of so many planes, evenly through a creature: half a gap above and below them. */
export function evenHeights(bottomMm: number, topMm: number, count: number, { fillMm, minDepthMm }: ProposeOptions): number[] {
  return heightsOf(bottomMm, topMm, { count, gapMm: (topMm - bottomMm) / count, fillMm, minDepthMm });
}

function heightsOf(bottomMm: number, topMm: number, { count, gapMm, fillMm, minDepthMm }: ProposeOptions & { readonly count: number; readonly gapMm: number }): number[] {
  const spare = (topMm - bottomMm - (count - 1) * gapMm) / 2;
  const first = bottomMm + spare;
  const last = topMm - spare;
  const up = first > 0 && first < minDepthMm ? minDepthMm - first : 0;
  const down = last < fillMm && fillMm - last < minDepthMm ? minDepthMm - (fillMm - last) : 0;
  // Within the creature still, so by less than what is spare.
  const by = Math.abs(up - down) < spare ? up - down : 0;
  return Array.from({ length: count }, (_, n) => first + by + n * gapMm).filter((z) => z > -SAME_MM && z < fillMm + SAME_MM);
}
