/**
 * How much light a tint lets through, by the Beer–Lambert law from the person's own swatch: absorbance grows
 * with the share of dye and with the way through it. One way, straight down; the color itself is not told.
 */
import type { Swatch, TintTarget } from '../scene/scene.ts';

/** Napierian absorbance of 1 % of dye over 1 mm. */
function absorbanceOf({ percent, mm, passes }: Swatch): number {
  return -Math.log(passes) / (percent * mm);
}

/** Share of light that passes depths of water with their percents of dye. */
export function lightThrough(swatch: Swatch, water: readonly { readonly depthMm: number; readonly percent: number }[]): number {
  return Math.exp(-absorbanceOf(swatch) * water.reduce((sum, { depthMm, percent }) => sum + depthMm * percent, 0));
}

/** Percent of dye for each depth, mm, from the show face in, so that together they pass the target's share of light. */
export function percentsFor(target: TintTarget, swatch: Swatch, depthsMm: readonly number[]): number[] {
  const weights = depthsMm.map((_depth, i) => (target.how === 'deepening' ? target.ratio ** i : 1));
  const dyedMm = depthsMm.reduce((sum, depth, i) => sum + depth * weights[i], 0);
  const lightest = -Math.log(target.passes) / (absorbanceOf(swatch) * dyedMm);
  return weights.map((weight) => lightest * weight);
}
