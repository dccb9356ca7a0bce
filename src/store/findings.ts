/** Which pours a finding concerns, and which must not be poured. */
import type { Finding, Plan, Severity } from '../core/plan/plan.ts';

export { haltedPours } from '../core/plan/halts.ts';

/**
 * Pours to mark for a finding: those it names, else those of the layer, pour or placement it is about (of a figure that a pour
 * locks, that pour). One about the whole plan marks none.
 */
export function markedPours(plan: Plan, finding: Finding | undefined): ReadonlySet<number> {
  if (!finding) return new Set();
  if (finding.pours) return new Set(finding.pours);
  const [, kind, number] = /^(layer|pour) (\d+)$/.exec(finding.subject) ?? [];
  const solid = plan.placements.find(({ id }) => id === finding.subject);
  const locking = plan.pours.filter(({ locks }) => locks.includes(finding.subject));
  if (locking.length > 0) return new Set(locking.map(({ index }) => index));
  const concerned = plan.pours.filter((pour) => {
    if (kind) return (kind === 'layer' ? pour.layer : pour.index) === Number(number);
    return solid !== undefined && pour.fromMm < solid.topMm && pour.toMm > solid.baseMm;
  });
  return new Set(concerned.map(({ index }) => index));
}

export function countOf(plan: Plan, severity: Severity): number {
  return plan.findings.filter((finding) => finding.severity === severity).length;
}
