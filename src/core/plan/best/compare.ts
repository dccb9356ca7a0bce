/**
 * What each goal's plan would come to: pours, finish, cost, how full the pours are. The chosen plan and the even one are
 * judged by the heat model where there is one; the others keep the limits and moments learned so far.
 */
import type { PlanGoal, Scene } from '../../scene/scene.ts';
import { formatLocalTime } from '../../units/time.ts';
import { layPours, type Laid } from '../heat-rounds.ts';
import type { GoalRow } from '../plan.ts';
import { bestPlan, prepare, type Prepared } from './best-plan.ts';
import { awake, problemOf } from './from-scene.ts';
import type { BestRequest } from './lay-best.ts';
import { spent } from './lines.ts';
import { GOALS } from './problem.ts';

export interface Chosen {
  readonly goal: PlanGoal;
  readonly laid: Laid;
  /** As the search had it; null for the even plan. */
  readonly prepared: Prepared | null;
}

/** In the order even, fewest, soonest, coolest, cheapest; a goal that no plan reaches is left out. */
export function comparePlans(scene: Scene, request: BestRequest, chosen: Chosen): GoalRow[] {
  const ready = chosen.prepared ?? readyFor(scene, request);
  const even = chosen.goal === 'even' ? chosen.laid : layPours(scene, request);
  const rows: GoalRow[] = even && ready ? [rowOf(scene, ready, 'even', even)] : [];
  if (!ready) return rows;
  for (const goal of GOALS) {
    if (goal === chosen.goal) {
      rows.push(rowOf(scene, ready, goal, chosen.laid));
      continue;
    }
    const found = bestPlan(ready, goal);
    if (!found.ok) continue;
    const { pours, finishMin } = found.found;
    rows.push({ ...expenses(scene, ready, pours), goal, pours: pours.length, finish: formatLocalTime(finishMin), fullest: fullestOf(scene, pours), warmestC: null });
  }
  return rows;
}

function readyFor(scene: Scene, request: BestRequest): Prepared | null {
  const ready = prepare(problemOf(scene, { ...request, lessons: new Map() }), awake(scene));
  return ready.ok ? ready.found : null;
}

function rowOf(scene: Scene, ready: Prepared, goal: PlanGoal, { pours, schedule }: Laid): GoalRow {
  const slices = pours.map(({ slice }, i) => ({ ...slice, route: schedule.pours[i].route }));
  const warmest = pours.map(({ judged }) => judged?.verdict.rangeC[1] ?? null);
  return {
    ...expenses(scene, ready, slices),
    goal,
    pours: slices.length,
    finish: formatLocalTime(schedule.finish),
    fullest: fullestOf(scene, slices),
    warmestC: warmest.includes(null) ? null : Math.max(...warmest.map(Number)),
  };
}

/** Of the label's depth, so that plans judged by heat and others can be compared. */
function fullestOf({ formulas }: Scene, pours: Parameters<typeof spent>[1]): number {
  return Math.max(...pours.map(({ fromMm, toMm, formula }) => (toMm - fromMm) / formulas.get(formula.id)!.maxDepthMm));
}

function expenses(scene: Scene, { problem }: Prepared, pours: Parameters<typeof spent>[1]): Pick<GoalRow, 'cost' | 'currency' | 'mixG'> {
  const { money, grams } = spent(problem, pours);
  // An even plan may use a formula that the search may not choose; then its price is not among the problem's.
  const cost = pours.every(({ formula }) => problem.expenses.perMl?.has(formula.id)) ? money : null;
  return { cost, currency: cost === null ? null : (scene.formulas.get(pours[0].formula.id)!.price?.currency ?? null), mixG: grams };
}
