/** Which things a finding is about, to select them. */
import type { Finding, Plan } from '../../core/plan/plan.ts';

/** Ids it names (one, or several joined by commas); of a layer or pour, the things whose stop it ends at. */
export function subjectIds(finding: Finding, plan: Plan, known: (id: string) => boolean): readonly string[] {
  if (known(finding.subject)) return [finding.subject];
  const named = finding.subject.split(', ').filter(known);
  if (named.length > 0) return named;
  const [, kind, number] = /^(layer|pour) (\d+)$/.exec(finding.subject) ?? [];
  if (!kind) return [];
  const layer = kind === 'layer' ? Number(number) : plan.pours.find(({ index }) => index === Number(number))?.layer;
  const stops = plan.layers.find(({ index }) => index === layer)?.stops ?? [];
  return stops.flatMap(({ id }) => (id !== undefined && known(id) ? [id] : []));
}
