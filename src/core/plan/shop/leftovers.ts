/** What is left in the bottles could fill small rounds: something to have ready beside the mold. */
import type { Bench, Formula } from '../../scene/scene.ts';
import { mixOf } from '../../resin/formula.ts';
import { fewestBatches } from '../mix.ts';

/** A mold that many have: a round of 100 mm, poured 10 mm deep (common practice, no source). */
const ROUND_MM = 100;
const DEPTH_MM = 10;
/** Sums of mL carry noise far below this. */
const ROUNDING_ML = 1e-9;

export interface LeftoverUse {
  readonly diameterMm: number;
  /** Within the formula's own least and greatest depth. */
  readonly depthMm: number;
  readonly count: number;
}

/** How many rounds a leftover of unmixed resin fills, each mixed by itself as every pour is; null: not one. */
export function leftoverUse(leftoverMl: number, formula: Formula, bench: Pick<Bench, 'allowanceFraction' | 'holdUpMl'>): LeftoverUse | null {
  if (formula.minDepthMm > formula.maxDepthMm) return null;
  const depthMm = Math.min(formula.maxDepthMm, Math.max(formula.minDepthMm, DEPTH_MM));
  const netMl = (Math.PI * ROUND_MM ** 2 * depthMm) / 4 / 1000;
  const neededMl = (netMl / (1 - formula.shrinkageFraction)) * (1 + bench.allowanceFraction);
  const cups = fewestBatches(neededMl, bench.holdUpMl, mixOf(formula).densityGPerMl, formula.maxBatchG);
  const count = Math.floor((leftoverMl + ROUNDING_ML) / (neededMl + cups * bench.holdUpMl));
  return count > 0 ? { diameterMm: ROUND_MM, depthMm, count } : null;
}
