/**
 * What each goal's plan would come to: pours, finish, cost, how warm. Every one is laid and judged as it would be if it were
 * chosen, and stands for a goal only where none of the others does better by that goal's own measure.
 */
import type { PlanGoal, Scene } from '../../scene/scene.ts';
import { formatLocalTime } from '../../units/time.ts';
import type { Laid } from '../heat-rounds.ts';
import { compareInOrder } from '../in-order.ts';
import type { GoalRow } from '../plan.ts';
import type { Prepared } from './best-plan.ts';
import { layBest } from './lay-best.ts';
import type { BestLaid, BestRequest } from './lay-plan.ts';
import { spent } from './lines.ts';
import { GOALS, type Goal } from './problem.ts';
import { standingOf } from './standing.ts';
import { keepsWishes } from './wishes-kept.ts';

export interface Chosen {
  readonly goal: PlanGoal;
  readonly laid: Laid;
  /** As the search had it; null for the even plan. */
  readonly prepared: Prepared | null;
}

/** In the order even, fewest, soonest, coolest, cheapest; a goal that no plan reaches is left out. */
export function comparePlans(scene: Scene, request: BestRequest, chosen: Chosen): GoalRow[] {
  const found = new Map<Goal, BestLaid>();
  for (const goal of GOALS) {
    const best = goal === chosen.goal ? null : layBest(scene, goal, request);
    if (best?.ok) found.set(goal, best.laid);
  }
  const ready = chosen.prepared ?? [...found.values()][0]?.prepared ?? null;
  if (!ready) return [];
  const even = request.even();
  const row = (goal: PlanGoal, laid: Laid) => rowOf(scene, ready, goal, laid);
  const best = (goal: Goal, own: BestLaid) => [...found.values()].reduce((a, b) => (compareInOrder(standingOf(goal, b), standingOf(goal, a)) < 0 ? b : a), own);
  return [
    ...(even ? [{ ...row('even', even), ...(!keepsWishes(scene, even.pours) && { keeps: false as const }) }] : []),
    ...GOALS.flatMap((goal) => {
      const own = found.get(goal);
      if (goal === chosen.goal) return [row(goal, chosen.laid)];
      return own ? [row(goal, best(goal, own))] : [];
    }),
  ];
}

function rowOf(scene: Scene, ready: Prepared, goal: PlanGoal, { pours, schedule }: Laid): GoalRow {
  const slices = pours.map(({ slice }, i) => ({ ...slice, route: schedule.pours[i].route }));
  const warmest = pours.map(({ judged }) => judged?.verdict.rangeC[1] ?? null);
  return {
    ...expenses(scene, ready, slices),
    goal,
    pours: slices.length,
    finish: formatLocalTime(schedule.finish),
    fullest: Math.max(...slices.map(({ fromMm, toMm, formula }) => (toMm - fromMm) / scene.formulas.get(formula.id)!.maxDepthMm)),
    warmestC: warmest.includes(null) ? null : Math.max(...warmest.map(Number)),
  };
}

function expenses(scene: Scene, { problem }: Prepared, pours: Parameters<typeof spent>[1]): Pick<GoalRow, 'cost' | 'currency' | 'mixG'> {
  const { money, grams } = spent(problem, pours);
  // An even plan may use a formula that the search may not choose; then its price is not among the problem's.
  const cost = pours.every(({ formula }) => problem.expenses.perMl?.has(formula.id)) ? money : null;
  return { cost, currency: cost === null ? null : (scene.formulas.get(pours[0].formula.id)!.price?.currency ?? null), mixG: grams };
}
