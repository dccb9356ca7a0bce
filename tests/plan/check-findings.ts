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
    const stray = f.pours?.find((index) => !plan.pours.some((p) => p.index === index));
    if (stray !== undefined) report(`${f.code} concerns pour ${stray}, which is not in the plan`);
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

export function checkNotes(facts: SceneFacts, plan: PlanJson, report: Report): void {
  const notes = plan.findings.filter((f) => f.severity === 'note');
  const assumed = notes.some((f) => /2000|3 Jan/.test(f.message) && /start/.test(f.subject + f.message));
  if (assumed === facts.startGiven) report(facts.startGiven ? 'the scene names its start and a note says that one was assumed' : 'the scene names no start, a date was assumed, and no note says so');
  const told = notes.filter((f) => f.code === 'unknown-field').map((f) => f.subject);
  for (const field of facts.unknownFields) if (!told.some((subject) => subject.includes(field))) report(`the scene's ${field} is no field of ours and no note says so`);
  if (told.length > 0 && facts.unknownFields.length === 0) report(`${told.join(', ')} is called an unknown field`);
}
