/** Heat: under the simulated model every pour keeps its own safe depth or is halted, and nothing is looser than the label. */

import type { FormulaFacts, SceneFacts } from './check-scene.ts';
import { CLOCK_MIN } from './check-time.ts';
import { HEIGHT_MM, type HeatJson, type PlanJson, type PourJson, type Report } from './check-types.ts';

const WORDS = ['cool', 'warm', 'hot', "can't be told"];
const CAUSES = ['depth', 'room', 'narrow mold', 'warm layer below', 'insulating wall', 'cup', 'curing box', 'warm bottles'];
/** Warmth moves a label's time by at least this or not at all, min (contract). */
const LEAST_MOVE_MIN = 15;
/** Share of its safe depth from which a pour in a harsh place is near too much (contract). */
const NEAR_SHARE = 0.9;

export function checkHeat(facts: SceneFacts, plan: PlanJson, report: Report): void {
  for (const pour of plan.pours) {
    const about = (code: string, severity: string) => plan.findings.some((f) => f.code === code && f.severity === severity && f.pours?.includes(pour.index));
    const { heat } = pour;
    if (pour.batches.some((batch) => (batch.heat === null) === facts.simulated)) report(`a cup of pour ${pour.index} ${facts.simulated ? 'tells nothing of its heat' : 'tells of heat under the label model'}`);
    const hotCup = pour.batches.some((batch) => batch.heat?.hot);
    if (hotCup !== about('cup-hot', 'halt')) report(`a cup of pour ${pour.index} gets ${hotCup ? '' : 'not '}hot and is ${hotCup ? 'not ' : ''}called so`);
    if (pour.batches.some((batch) => batch.heat && !(batch.heat.endC[0] <= batch.heat.endC[1]))) report(`a cup of pour ${pour.index} ends in no range`);
    if ((heat === null) === facts.simulated) report(`pour ${pour.index} ${heat ? 'tells of heat under the label model' : 'tells nothing of its heat'}`);
    if (!heat) {
      if (about('hot', 'halt') || about('near-runaway', 'caution')) report(`pour ${pour.index} is called hot under the label model`);
      continue;
    }
    checkForm(facts, pour, heat, report);
    const depth = pour.toMm - pour.fromMm;
    const over = depth - heat.safeDepthMm;
    if (Math.abs(over) > HEIGHT_MM && over > 0 !== about('hot', 'halt')) {
      report(`pour ${pour.index} is ${depth} mm deep where ${heat.safeDepthMm} are safe and is ${over > 0 ? 'not ' : ''}called hot`);
    }
    const near = heat.harsher && over <= 0 && depth > NEAR_SHARE * heat.safeDepthMm;
    const edge = Math.abs(over) <= HEIGHT_MM || Math.abs(depth - NEAR_SHARE * heat.safeDepthMm) <= HEIGHT_MM;
    if (!edge && near !== about('near-runaway', 'caution')) {
      report(`pour ${pour.index} is ${depth} mm deep where ${heat.safeDepthMm} are safe and is ${near ? 'not ' : ''}called near to too much`);
    }
  }
}

function checkForm(facts: SceneFacts, pour: PourJson, heat: HeatJson, report: Report): void {
  const { maxDepthMm } = facts.formulas.get(pour.formula)!;
  const [low, high] = heat.rangeC;
  if (!(heat.safeDepthMm >= 0 && heat.safeDepthMm <= maxDepthMm)) report(`pour ${pour.index} is said to be safe to ${heat.safeDepthMm} mm, the label of ${pour.formula} allows ${maxDepthMm}`);
  if (!(low <= high && Number.isFinite(high))) report(`pour ${pour.index} gets ${low} to ${high} °C, which is no range`);
  if (!WORDS.includes(heat.words)) report(`pour ${pour.index} is called “${heat.words}”`);
  if (!CAUSES.includes(heat.cause)) report(`pour ${pour.index} is warm for “${heat.cause}”`);
  if (!(heat.afterH >= 0 && Number.isFinite(heat.afterH))) report(`pour ${pour.index} is warmest after ${heat.afterH} h`);
  if (!heat.model) report(`pour ${pour.index} does not say how its heat was judged`);
  if (heat.harsher !== heat.safeDepthMm < maxDepthMm) report(`pour ${pour.index} is safe to ${heat.safeDepthMm} of ${maxDepthMm} mm and ${heat.harsher ? 'called' : 'not called'} harsher than the label’s`);
}

/** Whether a time that may only come later is where it may be, given the exact label's. Minutes. */
export function laterOrSame(found: number, exact: number): boolean {
  return found >= Math.ceil(exact - CLOCK_MIN) + LEAST_MOVE_MIN;
}

/** The same for the end of a window, which may only come sooner. */
export function soonerOrSame(found: number, exact: number): boolean {
  return found <= Math.floor(exact + CLOCK_MIN) - LEAST_MOVE_MIN;
}

/** Limits a layer may have been split by: the label's, or a lower one that heat asks for. Heat never asks for none. */
export function limitsOf(facts: SceneFacts, plan: PlanJson, layer: number, formula: FormulaFacts): FormulaFacts[] {
  if (!facts.simulated) return [formula];
  const depths = plan.pours.filter((pour) => pour.layer === layer).map((pour) => pour.toMm - pour.fromMm);
  const whole = depths.reduce((sum, depth) => sum + depth, 0);
  const deepest = Math.max(...depths);
  const limits = [formula.maxDepthMm];
  for (let n = 1; whole / n >= deepest - HEIGHT_MM; n++) if (whole / n < formula.maxDepthMm) limits.push(whole / n);
  if (deepest < formula.maxDepthMm) limits.push(deepest);
  return limits.map((maxDepthMm) => ({ ...formula, maxDepthMm }));
}
