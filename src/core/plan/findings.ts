/** Everything worth telling before resin is touched, halts first, each with what to do. */
import type { Planned } from './context.ts';
import { formulaFindings } from './findings-formulas.ts';
import { pourFindings } from './findings-pours.ts';
import { solidFindings } from './findings-solids.ts';
import { runFindings } from './runs/run.ts';
import { tintFindings } from './findings-tint.ts';
import type { Finding, Severity } from './plan.ts';

const RANK: Readonly<Record<Severity, number>> = { halt: 0, caution: 1, note: 2 };

/** All findings of a plan; `heat` and `calendar` are what telling.ts makes of them, `notes` those of reading the file. */
export function findingsOf(planned: Planned, { heat, calendar, notes }: Readonly<Record<'heat' | 'calendar' | 'notes', readonly Finding[]>>): Finding[] {
  const findings = [...solidFindings(planned), ...heat, ...pourFindings(planned, calendar), ...formulaFindings(planned), ...tintFindings(planned), ...runFindings(planned.scene, planned.pours), ...notes];
  return findings.sort((a, b) => RANK[a.severity] - RANK[b.severity]);
}
