/** The dye of each pour: the percent the person typed, or what lets their target's share of light through the fill. */
import { lightThrough, percentsFor } from '../resin/tint.ts';
import type { Scene } from '../scene/scene.ts';
import { fillAt } from './layers.ts';
import type { PourTint } from './plan.ts';

interface Span {
  readonly fromMm: number;
  readonly toMm: number;
}

/** One for each pour, from the floor up; null where the water is clear. */
export function tintsOf(scene: Scene, pours: readonly Span[]): (PourTint | null)[] {
  const tints = pours.map(({ fromMm, toMm }) => fillAt(scene, (fromMm + toMm) / 2).tint);
  return pours.map(({ fromMm, toMm }, i) => {
    const tint = tints[i];
    if (!tint) return null;
    const { swatch, target } = tint;
    let { percent } = tint;
    if (swatch && target) {
      // A fill that is parted by formulas keeps its one tint.
      const inFill = pours.map((_pour, at) => at).filter((at) => tints[at] === tint);
      const inward = scene.cast === 'face-up' ? inFill.reverse() : inFill;
      percent = percentsFor(target, swatch, inward.map((at) => pours[at].toMm - pours[at].fromMm))[inward.indexOf(i)];
    }
    if (percent === 0) return null;
    return { percent, passes: swatch ? lightThrough(swatch, [{ depthMm: toMm - fromMm, percent }]) : null, aimed: swatch !== undefined && target !== undefined };
  });
}
