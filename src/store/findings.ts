/** Which pours a finding concerns, which must not be poured, and which finding is read after a change. */
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

const GRAVITY: Readonly<Record<Severity, number>> = { halt: 2, caution: 1, note: 0 };

/**
 * Index of the finding to show once `now` takes the place of `before`, of which `at` was shown: the same one, but a halt
 * before anything lighter, a caution that was not there before a note, and of those as grave one that the change brought.
 * `known`: what the last answer with its heat checked found; null: there was none, so nobody knows what is new.
 */
export function findingShown(now: readonly Finding[], before: readonly Finding[], at: number, known: readonly Finding[] | null = before): number {
  const shown = before[at] as Finding | undefined;
  const is = (other: Finding | undefined) => ({ code, subject }: Finding): boolean => code === other?.code && subject === other.subject;
  const graver = now.findIndex((finding) => {
    if (!shown || GRAVITY[finding.severity] <= GRAVITY[shown.severity]) return false;
    return finding.severity === 'halt' || !before.some(is(finding));
  });
  if (graver >= 0) return graver;
  // A pour that only got another number brings no more of its kind.
  const many = (findings: readonly Finding[], kind: string): number => findings.filter(({ code }) => code === kind).length;
  const brought = now.findIndex((finding) => finding.severity === shown?.severity && known && [before, known].every((old) => !old.some(is(finding)) && many(old, finding.code) < many(now, finding.code)));
  return brought >= 0 ? brought : Math.max(0, now.findIndex(is(shown)));
}

export function countOf(plan: Plan, severity: Severity): number {
  return plan.findings.filter((finding) => finding.severity === severity).length;
}
