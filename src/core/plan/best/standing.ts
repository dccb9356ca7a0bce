/**
 * How a laid plan stands by a goal, as it was judged: pours that stay too hot first, then which rules gave way, then the
 * goal's own criteria in the order of best-plan.ts; the warmest pour by the label alone is the fullest. Compared in
 * order (in-order.ts).
 */
import type { Formula } from '../../scene/scene.ts';
import { tooDeep } from '../hot.ts';
import { LEVELS_SHARE } from '../thinnest.ts';
import type { BestLaid } from './lay-plan.ts';
import { spent } from './lines.ts';
import type { Goal } from './problem.ts';
import { warmthStep } from './warmth.ts';

/** Depths that were halved and added carry noise far below this, mm. */
const ROUNDING_MM = 1e-9;
/** Less than this nobody weighs or pays: a tenth of a gram, a cent. */
const WORTH = { grams: 0.1, money: 0.01 } as const;
const BILLION = 1e9;

type Criterion = 'pours' | 'finish' | 'warmest' | 'cost' | 'uneven' | 'shows';

const ORDER: Readonly<Record<Goal, readonly Criterion[]>> = {
  fewest: ['pours', 'finish', 'shows', 'uneven'],
  soonest: ['finish', 'pours', 'shows', 'uneven'],
  coolest: ['warmest', 'finish', 'pours', 'shows', 'uneven'],
  cheapest: ['cost', 'pours', 'finish', 'shows', 'uneven'],
};

export function standingOf(goal: Goal, laid: BestLaid): number[] {
  const { pours, schedule, unlockable, prepared: { problem } } = laid;
  const slices = pours.map(({ slice }, i) => ({ ...slice, route: schedule.pours[i].route }));
  const criteria: Record<Criterion, () => number> = {
    pours: () => pours.length,
    finish: () => schedule.finish,
    warmest: () => Math.max(...pours.map(({ slice, judged }) => (judged ? warmthStep(judged.verdict.rangeC[1]) : Math.round(((slice.toMm - slice.fromMm) / slice.formula.maxDepthMm) * BILLION)))),
    cost: () => {
      const { money, grams } = spent(problem, slices);
      return money === null ? Math.round(grams / WORTH.grams) : Math.round(money / WORTH.money);
    },
    uneven: () => slices.reduce((sum, { fromMm, toMm }) => sum + Math.round((toMm - fromMm) * 1000) ** 2, 0),
    shows: () => slices.reduce((sum, { toMm, layerAt }) => sum + (toMm === layerAt.toMm ? 0 : problem.shows(toMm)), 0),
  };
  const hot = pours.filter(({ slice, judged }) => tooDeep(slice, judged)).length;
  return [hot, gaveWay(slices, unlockable.length), ...ORDER[goal].map((name) => criteria[name]())];
}

/** As the search's rules give way: thin pours, then loose floaters, then pours that would not level. */
function gaveWay(slices: readonly { readonly fromMm: number; readonly toMm: number; readonly formula: Formula }[], loose: number): number {
  const thin = (share: number) => slices.some(({ fromMm, toMm, formula }) => toMm - fromMm < share * formula.minDepthMm - ROUNDING_MM);
  if (thin(LEVELS_SHARE)) return 4;
  return (loose > 0 ? 2 : 0) + (thin(1) ? 1 : 0);
}
