/**
 * The cup a batch is mixed in: how warm it gets before it is poured out. The same kinetics as in the mold, at the speed
 * that makes the label's own cup thick at its pot life; more resin keeps its heat longer, so a big cup runs away.
 */
import type { Formula } from '../scene/scene.ts';
import { runInCup } from './cup-run.ts';
import { CUP_HOT_C, weightedQuantile, type CureFamily, type Member } from './family-types.ts';
import { thickAlpha } from './label-times.ts';

const LOW = 0.05;
const HIGH = 0.95;
/** A cup over this is warm to the hand (from memory), °C. */
const WARM_C = 32;

export interface CupAsked {
  readonly batchG: number;
  readonly roomC: number;
  /** As it is mixed; the room's where none is given. */
  readonly mixC?: number;
  /** By the label's rule. */
  readonly usableMin: number;
  /** Minutes until its pour is done, where they are known. */
  readonly workMin?: number;
}

export interface CupVerdict {
  /** 5–95 % of its middle over the family when its usable minutes end, °C. */
  readonly endC: readonly [number, number];
  /** Over 50 °C before its usable minutes end, at the cautious end; or a measured one no larger was. */
  readonly hot: boolean;
  /** When it passes 50 °C, at the cautious end; null: not before its pour is done. */
  readonly passesMin: number | null;
  /** Never over what was given: sooner where the mix would be thick or hot. */
  readonly usableMin: number;
  readonly words: string;
}

/** Light-cured resin makes no heat before the lamp: its minutes stay. */
export function cupVerdict(formula: Formula, family: CureFamily, { batchG, roomC, mixC = roomC, usableMin, workMin = 0 }: CupAsked): CupVerdict {
  if (formula.family === 'uv') return { endC: [Math.min(mixC, roomC), Math.max(mixC, roomC)], hot: false, passesMin: null, usableMin, words: 'Stays liquid until it is lit: keep it covered.' };
  const { members, weights, hastenedBy, hotCups } = family;
  const over = (values: readonly number[], share: number) => weightedQuantile(values, weights, share);
  const standing = { batchG, roomC, mixC, hastenedBy };
  const runs = members.map((member) => cupOf(member, standing, { endMin: usableMin, untilMin: Math.max(usableMin, workMin) }));
  const measured = hotCups.filter(({ massG }) => batchG >= massG).map(({ afterMin }) => afterMin);
  const passes = runs.map(({ passesMin }) => passesMin);
  const passesMin = Math.min(over(passes, LOW), ...measured);
  const hot = measured.length > 0 || passesMin < usableMin;
  const endC: [number, number] = [over(runs.map((run) => run.endC), LOW), over(runs.map((run) => run.endC), HIGH)];
  const spentMin = Math.min(over(runs.map((run) => run.spentMin), LOW), ...measured);
  const told = { endC, hot, passesMin: passesMin < Infinity ? passesMin : null };
  return { ...told, usableMin: Math.min(usableMin, spentMin), words: wordsFor(told) };
}

/** One member's cup: °C when its minutes end, when it passes 50 °C, and the last moment at which it was still good. Never: Infinity. */
function cupOf(member: Member, { batchG, roomC, mixC, hastenedBy }: { readonly batchG: number; readonly roomC: number; readonly mixC: number; readonly hastenedBy: number }, { endMin, untilMin }: { readonly endMin: number; readonly untilMin: number }) {
  const thick = thickAlpha(member.kinetics.gelAlpha);
  let [beforeMin, beforeC, endC] = [0, mixC, mixC];
  let passesMin = mixC > CUP_HOT_C ? 0 : Infinity;
  let spentMin = passesMin;
  runInCup(member, { massG: batchG, kind: 'plastic', roomC, mixC, rate: member.cupRate * hastenedBy, untilS: untilMin * 60 }, (timeS, middleC, alpha) => {
    const min = timeS / 60;
    const between = (share: number) => beforeMin + share * (min - beforeMin);
    if (beforeMin < endMin) endC = min <= endMin ? middleC : beforeC + ((endMin - beforeMin) / (min - beforeMin)) * (middleC - beforeC);
    if (passesMin === Infinity && middleC > CUP_HOT_C) passesMin = between((CUP_HOT_C - beforeC) / (middleC - beforeC));
    if (spentMin === Infinity && (middleC > CUP_HOT_C || alpha >= thick)) spentMin = beforeMin;
    [beforeMin, beforeC] = [min, middleC];
    return passesMin < Infinity && min >= endMin;
  });
  return { endC, passesMin, spentMin };
}

function wordsFor({ endC, hot, passesMin }: Pick<CupVerdict, 'endC' | 'hot' | 'passesMin'>): string {
  const passes = passesMin === null ? '' : `${CUP_HOT_C} °C after ${Math.floor(passesMin)} min`;
  if (hot) return `Too much for one cup here: it can pass ${passes}.`;
  if (passes) return `The cup can pass ${passes}: pour it out by then and spread it.`;
  if (endC[1] > WARM_C) return `The cup gets warm, up to ${Math.round(endC[1])} °C: pour it out promptly.`;
  return 'The cup stays cool while it is poured.';
}
