/** Which halts concern which pour. */
import type { Finding, Plan } from './plan.ts';

/** The halts that concern a pour: those that name it, and those that name none and so concern every one. */
export function haltsFor(findings: readonly Finding[], pour: number): Finding[] {
  return findings.filter(({ severity, pours }) => severity === 'halt' && (pours === undefined || pours.includes(pour)));
}

/** Numbers of the pours that a halt concerns. */
export function haltedPours({ findings, pours }: Pick<Plan, 'findings' | 'pours'>): ReadonlySet<number> {
  return new Set(pours.map(({ index }) => index).filter((index) => haltsFor(findings, index).length > 0));
}

/** What stands in place of a pour's amounts, or null where it may be poured. */
export function doNotPour(findings: readonly Finding[], pour: number): string | null {
  const halts = haltsFor(findings, pour);
  return halts.length === 0 ? null : `DO NOT POUR. ${halts.map(({ message }) => message).join(' ')}`;
}
