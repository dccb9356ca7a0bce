/**
 * The search for other plans than the even one, in one piece. Planning is given it and never imports it: it is large,
 * and a page fetches it when a piece first asks for it.
 */
import type { Plane } from '../../scene/scene.ts';
import type { Pace } from '../schedule.ts';
import { bestPlan, type Prepared } from './best-plan.ts';
import { clockOf } from './clock.ts';
import { comparePlans } from './compare.ts';
import { layBest } from './lay-best.ts';
import { noPlanProblem } from './no-plan.ts';
import { remembering } from './remembering.ts';
import type { Goal } from './problem.ts';

export interface GoalSearch {
  readonly layBest: typeof layBest;
  readonly comparePlans: typeof comparePlans;
  readonly finishAgain: typeof finishAgain;
  readonly noPlanProblem: typeof noPlanProblem;
  readonly remembering: typeof remembering;
}

export const GOAL_SEARCH: GoalSearch = { layBest, comparePlans, finishAgain, noPlanProblem, remembering };

interface Again {
  readonly pace: Pace;
  readonly startMin: number;
  /** Planes as they would dry. */
  readonly dried: (planes: readonly Plane[]) => readonly Plane[];
}

/** The finish of the best plan when something is different, minutes; null: no plan. */
function finishAgain(prepared: Prepared, goal: Goal, { pace, startMin, dried }: Again): number | null {
  const layers = prepared.problem.layers.map((layer) => ({ ...layer, planes: dried(layer.planes) }));
  const problem = { ...prepared.problem, pace, startMin, floor: dried(prepared.problem.floor), layers };
  const again = bestPlan({ ...prepared, problem, clock: clockOf(pace), layers: prepared.layers.map((lined, i) => ({ ...lined, layer: layers[i] })) }, goal);
  return again.ok ? again.found.finishMin : null;
}
