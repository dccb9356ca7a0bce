/** How long mixing and pouring out a cup takes, as it is told beside the minutes it stays usable. */
import type { Batch } from '../plan.ts';

/** Whole minutes, rounded up; where that alone would pass the usable minutes, which are rounded down, it is these: the plan fits. */
export function workShownMin({ workMin, usableMin }: Pick<Batch, 'workMin' | 'usableMin'>): number {
  const told = Math.ceil(workMin ?? 0);
  return (workMin ?? 0) <= usableMin ? Math.min(told, Math.floor(usableMin)) : told;
}
