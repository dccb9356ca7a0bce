/** How the layers stack: what is painted and set before each pour, what it holds down, what would float. */
import type { Plan } from '../core/plan/plan.ts';

export interface BeforePour {
  /** Ids of planes painted on the surface it goes onto. */
  readonly painted: readonly string[];
  /** Ids of figures and beds set down or fastened before it. */
  readonly set: readonly string[];
  /** Ids of figures that it holds down. */
  readonly holds: readonly string[];
  /** Ids of figures that rise in it and that nothing holds. */
  readonly floats: readonly string[];
}

/** Ids of what is set down or painted only after a pour; 0: after nothing but what the empty mold begins with. */
export function laterThan({ steps }: Pick<Plan, 'steps'>, pour: number): ReadonlySet<string> {
  const later = steps.filter((step) => (step.kind === 'place' && (step.pour ?? 0) > pour) || (step.kind === 'paint' && (step.pour ?? 0) >= pour));
  return new Set(later.flatMap(({ placements }) => placements));
}

/** For pour 1 … n; other numbers have nothing. */
export function beforePour(plan: Plan, pour: number): BeforePour {
  const one = plan.pours.find(({ index }) => index === pour);
  if (!one) return { painted: [], set: [], holds: [], floats: [] };
  // A paint step names the pour it is painted on, a place step the pour it is set down for.
  const done = (kind: 'place' | 'paint', on: number): string[] => [
    ...new Set(plan.steps.filter((step) => step.kind === kind && (step.pour ?? 0) === on).flatMap((step) => step.placements)),
  ];
  const stuck = new Set(plan.findings.filter(({ code }) => code === 'cannot-lock').map(({ subject }) => subject));
  const covers = ({ baseMm, topMm }: { baseMm: number; topMm: number }): boolean => baseMm < one.toMm && topMm > one.fromMm;
  return {
    painted: done('paint', pour - 1),
    set: done('place', pour),
    holds: one.locks.filter((id) => !stuck.has(id)),
    floats: plan.placements.filter((placement) => placement.floats && stuck.has(placement.id) && covers(placement)).map(({ id }) => id),
  };
}
