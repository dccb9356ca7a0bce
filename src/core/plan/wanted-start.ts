/** A plan for a piece that has a day it is wanted by and none it begins on: it begins as late as still has it done. */
import { MINUTES_PER_DAY, parseLocalTime } from '../units/time.ts';
import type { PlanResult } from './plan.ts';

/** How long before it is wanted a first plan begins, from which the latest start follows: enough for most, then for any, days. */
const LOOK_BACK_DAYS: readonly number[] = [60, 365];
/** Heat or the finish may ask for more time than the latest start leaves; so often an earlier one is tried. */
const TRIES = 8;
/** At least so much earlier, minutes. */
const EARLIER_MIN = 60;

export interface StartedPlan {
  readonly result: PlanResult;
  /** The latest start by which its pours would be done in time; null: not even this one is. */
  readonly latestStartMin: number | null;
}

/** Null where a year is not enough: then nothing is known of when to begin. */
export function startingInTime(readyByMin: number, planFrom: (startMin: number) => StartedPlan): PlanResult | null {
  for (const days of LOOK_BACK_DAYS) {
    const first = planFrom(readyByMin - days * MINUTES_PER_DAY);
    if (!first.result.ok) return first.result;
    if (first.latestStartMin === null) continue;
    let startMin = first.latestStartMin;
    for (let tried = 0; tried < TRIES; tried++) {
      const { result } = planFrom(startMin);
      if (!result.ok) return result;
      const late = parseLocalTime(result.plan.ready ?? result.plan.finish)! - readyByMin;
      if (late <= 0) return result;
      startMin -= Math.max(late, EARLIER_MIN);
    }
  }
  return null;
}
