/**
 * The cup a batch is mixed in: how warm it gets before it is poured out. The same kinetics as in the mold, at the speed
 * that makes the label's own cup thick at its pot life; more resin keeps its heat longer, so a big cup runs away.
 */
import type { Formula } from '../scene/scene.ts';
import { cupCooling, runCup } from './cup-run.ts';
import { weightedQuantile, type CureFamily } from './family-types.ts';
import { thickAlpha } from './label-times.ts';

/** A cup over this before its usable minutes end is too hot (design), °C. */
export const CUP_HOT_C = 50;
const LOW = 0.05;
const HIGH = 0.95;
/** A cup this much over its room is warm to the hand, K. */
const WARM_K = 8;

export interface CupAsked {
  readonly batchG: number;
  readonly roomC: number;
  /** As it is mixed; the room's where none is given. */
  readonly mixC?: number;
  /** By the label's rule. */
  readonly usableMin: number;
}

export interface CupVerdict {
  /** 5–95 % of its middle over the family when its usable minutes end, °C. */
  readonly endC: readonly [number, number];
  /** Over 50 °C before its usable minutes end, at the cautious end. */
  readonly hot: boolean;
  /** Never over what was given: sooner where the mix would be thick or hot. */
  readonly usableMin: number;
  readonly words: string;
}

/** Light-cured resin makes no heat before the lamp: its minutes stay. */
export function cupVerdict(formula: Formula, family: CureFamily, { batchG, roomC, mixC = roomC, usableMin }: CupAsked): CupVerdict {
  if (formula.family === 'uv') return { endC: [Math.min(mixC, roomC), Math.max(mixC, roomC)], hot: false, usableMin, words: 'Stays liquid until it is lit: keep it covered.' };
  const runs = family.members.map((member) => {
    const { kinetics, material, topHWPerM2K, cupRate } = member;
    const thick = thickAlpha(kinetics.gelAlpha);
    let endC = mixC;
    let spentS = mixC > CUP_HOT_C ? 0 : Infinity;
    let hot = mixC > CUP_HOT_C;
    let goodS = 0;
    const cooling = cupCooling({ massG: batchG, kind: 'plastic', filmHWPerM2K: topHWPerM2K }, material);
    runCup({ kinetics, rate: cupRate * family.hastenedBy, heatCapacityJPerKgK: material.heatCapacityJPerKgK, cooling, roomC, mixC }, usableMin * 60, (timeS, middleC, alpha) => {
      endC = middleC;
      if (middleC > CUP_HOT_C) hot = true;
      // The last moment at which it was still good.
      if (spentS === Infinity && (middleC > CUP_HOT_C || alpha >= thick)) spentS = goodS;
      goodS = timeS;
      return false;
    });
    return { endC, hot, spentMin: spentS / 60 };
  });
  const over = (values: readonly number[], share: number) => weightedQuantile(values, family.weights, share);
  const ends = runs.map((run) => run.endC);
  const endC: [number, number] = [over(ends, LOW), over(ends, HIGH)];
  const hotWeight = runs.reduce((sum, run, i) => sum + (run.hot ? family.weights[i] : 0), 0);
  const hot = hotWeight > LOW;
  const usable = Math.min(usableMin, over(runs.map(({ spentMin }) => spentMin), LOW));
  return { endC, hot, usableMin: usable, words: wordsFor({ endC, hot, roomC }) };
}

function wordsFor({ endC, hot, roomC }: { endC: readonly [number, number]; hot: boolean; roomC: number }): string {
  if (hot) return `This much in one cup can pass ${CUP_HOT_C} °C before it is poured. Mix it in smaller cups, or cool the bottles first.`;
  if (endC[1] > roomC + WARM_K) return `The cup gets warm, up to ${Math.round(endC[1])} °C: pour it out promptly.`;
  return 'The cup stays cool while it is poured.';
}
