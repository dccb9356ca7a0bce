/** Quantities: mixes, parts, batches, scale stops, dye, usable minutes, fill marks, shopping, and what is wrong with a ratio or a scale. */

import { fillAt, type FormulaFacts, type SceneFacts } from './check-scene.ts';
import { levelOf } from './check-solids.ts';
import { minutesOf, temperatureAt } from './check-time.ts';
import { ARITHMETIC_REL, MERGE_MM, near, type AmountJson, type BatchJson, type PlanJson, type PourJson, type Report } from './check-types.ts';

/** Shares at which a scale's division against the smaller part is a caution and a halt (contract). */
const COARSE_CAUTION = 0.02;
const COARSE_HALT = 0.05;
/** Share by which the hardener of two ratios may differ (contract). */
const CONFLICT = 0.03;
/** Shares this close to a limit may fall either way. */
const EDGE = 1e-9;
/** Levels above a draft or a curved figure are found by halving, in the planner perhaps too, mm. */
const LEVEL_MM = 1e-6;
/** Levels over a bed that curved walls cut: 1e-5 of the volume over a depth of some 50 mm. */
const CLIPPED_LEVEL_MM = 5e-4;
/** Least distance from the rim without a caution, mm (contract). */
const FREEBOARD_MM = 3;

export function checkMixes(facts: SceneFacts, plan: PlanJson, report: Report): void {
  for (const pour of plan.pours) {
    const formula = facts.formulas.get(pour.formula)!;
    checkMix(facts, formula, pour, report);
    checkParts(formula, pour, `pour ${pour.index}`, report);
    pour.batches.forEach((batch, i) => checkBatch(facts, formula, pour, batch, `pour ${pour.index} cup ${i + 1}`, report));
  }
}

function mixFor(facts: SceneFacts, formula: FormulaFacts, netMl: number, cups: number): number {
  return (netMl / (1 - formula.shrinkageFraction)) * (1 + facts.allowance) + cups * facts.holdUpMl;
}

export function checkMix(facts: SceneFacts, formula: FormulaFacts, pour: PourJson, report: Report): void {
  const cupG = (n: number) => (mixFor(facts, formula, pour.netMl, n) * formula.mixedGPerMl) / n;
  const n = pour.batches.length;
  if (n === 0) {
    report(`pour ${pour.index} has no cup`);
    return;
  }
  if (cupG(n) > formula.maxBatchG * (1 + EDGE)) report(`pour ${pour.index} has ${n} cups of ${cupG(n)} g, over the ${formula.maxBatchG} g of ${formula.id}`);
  if (n > 1 && cupG(n - 1) <= formula.maxBatchG * (1 - EDGE)) report(`pour ${pour.index} has ${n} cups where ${n - 1} of ${cupG(n - 1)} g would do`);
  const expected = mixFor(facts, formula, pour.netMl, n);
  if (!near(pour.mixMl, expected, ARITHMETIC_REL)) report(`pour ${pour.index} mixes ${pour.mixMl} mL where ${expected} is expected`);
}

export function checkParts(formula: FormulaFacts, mix: { mixMl: number; mixG: number; partA: AmountJson; partB: AmountJson }, name: string, report: Report): void {
  const aMl = mix.mixMl / (1 + formula.byVolume);
  const bMl = mix.mixMl - aMl;
  const expected: [string, number, number][] = [
    ['mix g', mix.mixG, mix.mixMl * formula.mixedGPerMl],
    ['part A mL', mix.partA.ml, aMl],
    ['part A g', mix.partA.g, aMl * formula.densityAGPerMl],
    ['part B mL', mix.partB.ml, bMl],
    ['part B g', mix.partB.g, bMl * formula.densityBGPerMl],
  ];
  for (const [what, found, want] of expected) if (!near(found, want, ARITHMETIC_REL, mix.mixMl)) report(`${name} ${what} is ${found} where ${want} is expected`);
}

function checkBatch(facts: SceneFacts, formula: FormulaFacts, pour: PourJson, batch: BatchJson, name: string, report: Report): void {
  if (!near(batch.mixMl, pour.mixMl / pour.batches.length, ARITHMETIC_REL)) report(`${name} holds ${batch.mixMl} mL, not an equal share of ${pour.mixMl}`);
  checkParts(formula, batch, name, report);
  checkScaleStops(facts, formula, batch, name, report);
  const percent = fillAt(facts, (pour.fromMm + pour.toMm) / 2).tint?.percent ?? 0;
  if (!near(batch.tintG, (percent / 100) * batch.mixG, ARITHMETIC_REL)) report(`${name} takes ${batch.tintG} g of dye where ${(percent / 100) * batch.mixG} is expected`);
  const roomC = temperatureAt(facts.room, minutesOf(pour.starts));
  const usable = 0.7 * formula.potLifeMin * 2 ** ((formula.atC - roomC) / 10) * Math.cbrt(Math.min(1, formula.potLifeMassG / batch.mixG));
  const fewer = facts.simulated && batch.usableMin >= 0 && batch.usableMin < usable;
  if (!fewer && !near(batch.usableMin, usable, ARITHMETIC_REL)) report(`${name} is usable for ${batch.usableMin} min where ${usable} is expected`);
}

/** First A rounded to the scale, then that reading × (1 + B/A by mass), rounded. A tie may round either way. */
export function checkScaleStops(facts: SceneFacts, formula: FormulaFacts, batch: BatchJson, name: string, report: Report): void {
  const readings = batch.scaleStopsG;
  const wanted = formula.onePart ? 1 : 2;
  if (readings.length !== wanted) {
    report(`${name} has ${readings.length} scale stops where ${wanted} are expected`);
    return;
  }
  const exact = [batch.partA.g, readings[0] * (1 + formula.byMass)];
  readings.forEach((reading, i) => {
    const divisions = reading / facts.scaleG;
    if (Math.abs(divisions - Math.round(divisions)) > ARITHMETIC_REL * Math.max(1, divisions)) report(`${name} scale stop ${reading} g is not on a ${facts.scaleG} g scale`);
    if (Math.abs(reading - exact[i]) > facts.scaleG / 2 + ARITHMETIC_REL * Math.max(1, exact[i])) report(`${name} scale stop ${i + 1} is ${reading} g where ${exact[i]} g rounds elsewhere`);
  });
}

export function checkScaleFindings(facts: SceneFacts, plan: PlanJson, report: Report): void {
  const findings = plan.findings.filter((f) => f.code === 'scale-coarse');
  for (const pour of plan.pours) {
    const formula = facts.formulas.get(pour.formula)!;
    const least = Math.min(...pour.batches.map((b) => (formula.onePart ? b.partA.g : Math.min(b.partA.g, b.partB.g))));
    const error = facts.scaleG / least;
    const severity = error > COARSE_HALT ? 'halt' : error > COARSE_CAUTION ? 'caution' : null;
    if (Math.abs(error - COARSE_HALT) < EDGE || Math.abs(error - COARSE_CAUTION) < EDGE) continue;
    const own = findings.filter((f) => f.subject === `pour ${pour.index}` || f.pours?.includes(pour.index));
    const found = own.some((f) => f.severity === 'halt') ? 'halt' : (own[0]?.severity ?? null);
    if (found !== severity) report(`pour ${pour.index} weighs ${least} g on a ${facts.scaleG} g scale (${error * 100} %): ${found ?? 'nothing'} where ${severity ?? 'nothing'} is expected`);
  }
}

export function checkRatioFindings(facts: SceneFacts, plan: PlanJson, report: Report): void {
  for (const id of new Set(facts.fills.map((fill) => fill.formula))) {
    const formula = facts.formulas.get(id)!;
    const about = (code: string, severity: string) => plan.findings.some((f) => f.code === code && f.severity === severity && f.subject.includes(id));
    const off = Math.abs(formula.conflict ?? 0);
    if (Math.abs(off - CONFLICT) > EDGE && about('ratio-conflict', 'halt') !== off > CONFLICT) {
      report(`${id} has ${off * 100} % between its two ratios and ${off > CONFLICT ? 'no halt says so' : 'is called a conflict'}`);
    }
    if (about('ratio-unconfirmed', 'caution') !== formula.unconfirmed) report(`${id} ${formula.unconfirmed ? 'has a ratio that looks like one by volume and nothing says so' : 'is called unconfirmed'}`);
    if (about('typical-value', 'note') !== formula.hasTypical) report(`${id} ${formula.hasTypical ? 'takes values from its class and nothing says so' : 'is said to take values from its class'}`);
  }
}

/** The level at which net ÷ (1 − shrinkage) stands above the pour's bottom. A figure set down on it later is not in the way yet. */
export function checkFillMarks(facts: SceneFacts, plan: PlanJson, report: Report): void {
  let least = Infinity;
  for (const pour of plan.pours) {
    const formula = facts.formulas.get(pour.formula)!;
    const present = facts.solids.filter((s) => s.hold !== 'rests' || s.baseMm < pour.toMm - MERGE_MM);
    const expected = facts.mold.heightMm - levelOf(facts.mold, present, pour.fromMm, (pour.netMl * 1000) / (1 - formula.shrinkageFraction));
    least = Math.min(least, expected);
    const overRim = expected < 0 && pour.fillMarkFromRimMm <= 0;
    const tolerance = facts.solids.some((s) => s.clipped) ? CLIPPED_LEVEL_MM : LEVEL_MM;
    if (!overRim && Math.abs(pour.fillMarkFromRimMm - expected) > tolerance) {
      report(`pour ${pour.index} fill mark is ${pour.fillMarkFromRimMm} mm from the rim where ${expected} is expected`);
    }
  }
  checkRim(plan, least, report);
}

function checkRim(plan: PlanJson, spareMm: number, report: Report): void {
  const over = plan.findings.some((f) => f.code === 'overfull' && f.severity === 'halt');
  const close = plan.findings.some((f) => f.code === 'freeboard' && f.severity === 'caution');
  if (Math.abs(spareMm) > LEVEL_MM && over !== spareMm < 0) report(`the liquid stands ${spareMm} mm under the rim and ${over ? 'is called overfull' : 'nothing calls it overfull'}`);
  if (spareMm > LEVEL_MM && Math.abs(spareMm - FREEBOARD_MM) > LEVEL_MM && close !== spareMm < FREEBOARD_MM) {
    report(`the liquid stands ${spareMm} mm under the rim and ${close ? 'has a freeboard caution' : 'has no freeboard caution'}`);
  }
}

/** One row a formula: the sums of its pours and flood coats. */
export function checkShopping(plan: PlanJson, report: Report): void {
  const poured = [...plan.pours, ...(plan.finishing?.coats ?? [])];
  const used = new Set(poured.map((p) => p.formula));
  if (plan.shopping.length !== used.size) report(`shopping has ${plan.shopping.length} rows for ${used.size} formulas`);
  for (const formula of used) {
    const row = plan.shopping.find((r) => r.formula === formula);
    const sum = (of: (p: (typeof poured)[number]) => number) => poured.filter((p) => p.formula === formula).reduce((total, p) => total + of(p), 0);
    if (!row) {
      report(`shopping has no row for ${formula}`);
      continue;
    }
    const pairs: [string, number, number][] = [
      ['mL', row.mixMl, sum((p) => p.mixMl)],
      ['part A mL', row.partA.ml, sum((p) => p.partA.ml)],
      ['part A g', row.partA.g, sum((p) => p.partA.g)],
      ['part B mL', row.partB.ml, sum((p) => p.partB.ml)],
      ['part B g', row.partB.g, sum((p) => p.partB.g)],
    ];
    for (const [what, found, want] of pairs) if (!near(found, want, ARITHMETIC_REL)) report(`shopping of ${formula}: ${found} ${what} where the pours sum to ${want}`);
  }
}
