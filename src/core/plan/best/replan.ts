/** When a plan would be done if one thing were different: planned again for the same goal, with what heat moved left as it is. */
import type { Plane, Scene } from '../../scene/scene.ts';
import { movedBy, movesOf } from '../heat-of-pour.ts';
import type { Laid } from '../heat-rounds.ts';
import { paceOf, scheduleOf, type Pace, type PourJob } from '../schedule.ts';
import { planesOn } from '../slices.ts';
import type { Prepared } from './best-plan.ts';
import type { GoalSearch } from './goal-search.ts';

/** What is different; what is left out stays. */
export interface Change {
  readonly pace?: Pace;
  readonly startMin?: number;
  /** No plane dries longer than this. */
  readonly dryH?: number;
}

/** The finish, minutes; null: no plan. */
export type Replan = (change: Change) => number | null;

export interface ReplanOf {
  readonly laid: Laid;
  readonly floor: readonly Plane[];
  readonly startMin: number;
  /** As the search had it; null: the even plan. */
  readonly prepared: Prepared | null;
  /** What found it; needed only with `prepared`. */
  readonly search: GoalSearch | null;
}

export function replanning(scene: Scene, { laid, floor, startMin, prepared, search }: ReplanOf): Replan {
  const { goal } = scene.plan;
  return (change) => {
    const dried = (planes: readonly Plane[]) => planes.map((plane) => ({ ...plane, dryH: Math.min(plane.dryH, change.dryH ?? Infinity) }));
    const pace = change.pace ?? prepared?.problem.pace ?? paceOf(scene);
    const from = change.startMin ?? startMin;
    if (prepared && search && goal !== 'even') return search.finishAgain(prepared, goal, { pace, startMin: from, dried });
    const jobs = laid.pours.map(({ slice }): PourJob => ({ formula: slice.formula, planesAbove: dried(planesOn(scene, slice)) }));
    return scheduleOf(pace, jobs, dried(floor), { startMin: from, moved: (label, i) => movedBy(label, movesOf(laid.schedule.pours[i])) })?.finish ?? null;
  };
}
