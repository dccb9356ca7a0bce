/** Findings that follow from heights alone, and that every finding is one a person can act on. */

import type { SceneFacts } from './check-scene.ts';
import { MERGE_MM, type PlanJson, type Report } from './check-types.ts';

const SEVERITIES = ['halt', 'caution', 'note'];
/** Never called for by a scene whose solids are apart and inside, in a plan that keeps its depth limits. */
const NEVER = ['outside-mold', 'figures-overlap', 'pour-too-deep', 'not-watertight'];
/** A touch this small may be called a cut or not, mm. */
const TOUCH_MM = 2 * MERGE_MM;

export function checkFindingForm(plan: PlanJson, report: Report): void {
  for (const f of plan.findings) {
    if (!SEVERITIES.includes(f.severity)) report(`${f.code} has the severity ${f.severity}`);
    if (!f.code || !f.subject || !f.message || !f.remedy) report(`${f.code} lacks its subject, message or remedy`);
    if (NEVER.includes(f.code)) report(`${f.code} is reported of ${f.subject} (${f.message}); nothing here calls for it`);
  }
}

export function checkHeightFindings(facts: SceneFacts, plan: PlanJson, report: Report): void {
  const about = (code: string, severity: string, id: string) => plan.findings.some((f) => f.code === code && f.severity === severity && f.subject.split(/[^\w-]+/).includes(id));
  for (const solid of facts.solids.filter((s) => s.kind === 'figure')) {
    const over = solid.topMm - facts.fillMm;
    if (Math.abs(over) > TOUCH_MM && about('above-fill', 'caution', solid.id) !== over > 0) {
      report(`${solid.id} stands ${over} mm over the fill and is ${over > 0 ? 'not ' : ''}called so`);
    }
    const cut = facts.planes.some((p) => p.atMm > solid.baseMm + TOUCH_MM && p.atMm < solid.topMm - TOUCH_MM);
    const touched = facts.planes.some((p) => p.atMm > solid.baseMm - TOUCH_MM && p.atMm < solid.topMm + TOUCH_MM);
    const told = about('plane-cuts-figure', 'caution', solid.id);
    if ((cut && !told) || (!touched && told)) report(`${solid.id} from ${solid.baseMm} to ${solid.topMm} mm ${told ? 'is called cut by a plane and is not' : 'is cut by a plane and nothing says so'}`);
  }
}

export function checkStartNote(facts: SceneFacts, plan: PlanJson, report: Report): void {
  const told = plan.findings.some((f) => f.severity === 'note' && /start/i.test(f.subject + f.message));
  if (!facts.startGiven && !told) report('the scene names no start, a date was assumed, and no note says so');
}
