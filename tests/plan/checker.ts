/**
 * An independent checker of plans, written from the contract alone: it shares no line with the planner.
 * It works out again, from the scene file, what each number and time must be, and names every rule that a plan breaks.
 */

import { checkCalendar } from './check-calendar.ts';
import { checkFindingForm, checkHeightFindings, checkNotes } from './check-findings.ts';
import { checkFinishedMass, checkLocks, checkPlacements, checkSplits } from './check-floating.ts';
import { checkFinish } from './check-finish.ts';
import { checkHeat } from './check-heat.ts';
import { checkDepths, checkFormulas, checkStack, checkStops, checkThin, checkVolumes } from './check-layers.ts';
import { checkFillMarks, checkMixes, checkRatioFindings, checkScaleFindings, checkShopping } from './check-mixing.ts';
import { readFacts, type SceneFacts } from './check-scene.ts';
import type { PlanJson, Report, SceneJson } from './check-types.ts';

/** In this order, so that the first line is nearest the cause. */
const RULES: readonly ((facts: SceneFacts, plan: PlanJson, report: Report) => void)[] = [
  checkStops,
  checkFormulas,
  (_facts, plan, report) => checkStack(plan, report),
  checkVolumes,
  checkDepths,
  checkHeat,
  checkPlacements,
  checkSplits,
  checkLocks,
  checkThin,
  checkMixes,
  checkScaleFindings,
  checkRatioFindings,
  checkFillMarks,
  checkFinishedMass,
  (_facts, plan, report) => checkShopping(plan, report),
  checkCalendar,
  (_facts, plan, report) => checkFindingForm(plan, report),
  checkHeightFindings,
  checkNotes,
];

/** Every broken rule in plain words, with numbers; empty for a plan that keeps them all. Throws on a solid it has no closed form for. */
export function checkPlan(sceneJson: object, planJson: object): string[] {
  const facts = readFacts(sceneJson as SceneJson);
  const plan = planJson as PlanJson;
  const problems: string[] = [];
  const report: Report = (problem) => problems.push(problem);
  const unknown = plan.pours.find((p) => !facts.formulas.has(p.formula)) ?? plan.layers.find((l) => !facts.formulas.has(l.formula));
  if (unknown) return [`${unknown.formula} is no formula of the scene`];
  for (const rule of RULES) rule(facts, plan, report);
  checkFinish(sceneJson as SceneJson, facts, plan, report);
  return problems;
}
