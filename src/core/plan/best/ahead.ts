/**
 * What the first criterion must still grow by above a height, times left aside: a bound below, so that the exact search may
 * leave out ways that can no longer be among the best.
 */
import type { LinedLayer } from './lines.ts';
import type { Rules } from './search.ts';

export interface Ahead {
  /** By layer, by its choice, by line: the least from there to the top of all. Infinity: no pours lead on. */
  readonly least: readonly (readonly (readonly number[])[])[];
  /** The least of all, and the most it comes to when every joint of those pours is cured and scuffed. */
  readonly total: number;
  readonly whenCured: number;
}

/** Linear in the number of pours that may be. */
export function aheadOf(layers: readonly LinedLayer[], rules: Rules): Ahead {
  const wet = rules.route('wet-on-tacky')[0];
  const cured = rules.route('cure-scuff-wipe')[0];
  const least: number[][][] = [];
  let total = 0;
  let curedMore = 0;
  for (let i = layers.length - 1; i >= 0; i--) {
    const { layer, choices, linesMm } = layers[i];
    const isLast = i === layers.length - 1;
    const overTop = isLast ? 0 : layer.planes.length > 0 ? cured : Math.min(wet, cured);
    const best = choices.map(({ reaches }) => {
      const up = new Array<number>(linesMm.length).fill(Infinity);
      const joints = new Array<number>(linesMm.length).fill(0);
      up[linesMm.length - 1] = total + overTop;
      for (let k = linesMm.length - 1; k > 0; k--) {
        const isTop = k === linesMm.length - 1;
        for (const reach of reaches[k]) {
          if (rules.mostWarmth !== undefined && Math.min(reach.warmth, reach.tackyWarmth) > rules.mostWarmth) continue;
          const through = up[k] + rules.pour(reach)[0] + (isTop ? 0 : Math.min(wet, cured));
          if (through >= up[reach.low]) continue;
          up[reach.low] = through;
          joints[reach.low] = joints[k] + (isTop ? 0 : 1);
        }
      }
      return { up, joints: joints[0] };
    });
    least.unshift(best.map(({ up }) => up));
    const cheapest = best.reduce((a, b) => (b.up[0] < a.up[0] ? b : a));
    total = cheapest.up[0];
    curedMore += cheapest.joints + (isLast || layer.planes.length > 0 ? 0 : 1);
  }
  return { least, total, whenCured: total + curedMore * Math.max(0, cured - wet) };
}
