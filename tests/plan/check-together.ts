/**
 * A checker of pieces planned together, written from the contract's words: it replays the bench from the scenes and the plans
 * alone and shares no line with the planner. Label model, no curing box.
 */

import { readFacts, type FormulaFacts, type SceneFacts } from './check-scene.ts';
import { checkSleep, nightsBetween } from './check-sleep.ts';
import { benchHours, benchMinutes, CLOCK_MIN, insideBench, minutesOf, temperatureAt, whenProgressed, type BenchHours, type Interval } from './check-time.ts';
import { ARITHMETIC_REL, near, type BatchJson, type PlanJson, type PourJson, type Report, type SceneJson } from './check-types.ts';

export interface SharedJson {
  readonly pouring: number;
  readonly with: readonly string[];
  readonly molds: number;
  readonly mixMl: number;
  readonly mixG: number;
}

interface TotalsJson {
  readonly finish: string;
  readonly pours: number;
  readonly cups: number;
  readonly mixG: number;
  readonly benchH: number;
}

export interface TogetherJson extends TotalsJson {
  readonly poured: readonly { readonly index: number; readonly starts: string; readonly ends: string; readonly of: readonly { readonly piece: number; readonly pour: number; readonly molds: number }[]; readonly mixMl: number; readonly mixG: number; readonly batches: readonly BatchJson[] }[];
  readonly oneAfterTheOther: TotalsJson;
  readonly buys: { readonly days: number; readonly pours: number; readonly cups: number; readonly mixG: number; readonly benchH: number };
}

export interface TogetherPlans {
  readonly together: TogetherJson;
  readonly plans: readonly (Omit<PlanJson, 'pours'> & { readonly pours: readonly (PourJson & { readonly shared?: SharedJson; readonly tint?: { readonly percent: number } | null })[] })[];
}

/** Minutes to mix a cup and to pour one mold where a scene says nothing (common practice, no source). */
const MIX_MIN = 6;
const MOLD_MIN = 2.5;
const MINUTES_A_DAY = 1440;

type SceneFile = SceneJson & { readonly copies?: number };

interface Work extends Interval {
  readonly piece: number;
  readonly what: string;
  readonly shared: number | null;
}

/** Every broken rule in plain words; empty for plans that keep them all. */
export function checkTogether(scenes: readonly object[], { together, plans }: TogetherPlans): string[] {
  const problems: string[] = [];
  const report: Report = (problem) => problems.push(problem);
  const facts = scenes.map((scene) => readFacts(scene as SceneJson));
  const all = plans.flatMap((plan) => plan.steps.flatMap(({ from, to }) => [minutesOf(from), minutesOf(to)]));
  const bench = benchHours(facts[0].hours, Math.min(...all), Math.max(...all) + 60 * MINUTES_A_DAY);
  plans.forEach((plan, piece) => {
    checkClocks(facts[piece], plan.pours, `piece ${piece + 1}`, report);
    checkJoints(facts[piece], plan, `piece ${piece + 1}`, report);
    checkSleep(nightsBetween(facts[piece], Math.min(...all), Math.max(...all)), plan.pours, (problem) => report(`piece ${piece + 1} ${problem}`));
    const first = Math.min(...plan.steps.filter(({ kind }) => kind === 'pour' || kind === 'paint').map(({ from }) => minutesOf(from)));
    if (first < facts[piece].startMin) report(`piece ${piece + 1} begins before its start`);
  });
  const work = plans.flatMap((plan, piece) => workOf(plan, piece, facts[piece]));
  checkHours(work, bench, report);
  checkOneAtATime(work, report);
  checkCups(scenes as readonly SceneFile[], facts, { together, plans }, report);
  checkTotals({ together, plans }, report);
  return problems;
}

function checkClocks(facts: SceneFacts, pours: readonly PourJson[], name: string, report: Report): void {
  for (const pour of pours) {
    const formula = facts.formulas.get(pour.formula)!;
    const reach = (from: string, hours: number) => whenProgressed(facts.room, formula.atC, minutesOf(from), hours);
    const due: [string, string, number][] = [['opens', pour.opens, reach(pour.ends, formula.bondOpensH)], ['scuffable', pour.scuffable, reach(pour.ends, formula.scuffableH)], ['paintable', pour.paintable, reach(pour.ends, formula.paintableH)], ['demold', pour.demold, reach(pour.ends, formula.demoldH)]];
    for (const [what, found, exact] of due) if (Math.abs(minutesOf(found) - exact) > 1 || minutesOf(found) < exact - CLOCK_MIN) report(`${name} pour ${pour.index} ${what} ${found}, not ${exact - minutesOf(found)} min later`);
    const closes = reach(pour.starts, formula.bondClosesH);
    if (Math.abs(minutesOf(pour.closes) - closes) > 1 || minutesOf(pour.closes) > closes + CLOCK_MIN) report(`${name} pour ${pour.index} closes ${pour.closes}`);
  }
}

/** Every joint by its window or by cure and scuff; what is painted is dry. */
function checkJoints(facts: SceneFacts, plan: TogetherPlans['plans'][number], name: string, report: Report): void {
  const stepsOn = (kind: string, pour: number) => plan.steps.filter((step) => step.kind === kind && step.pour === pour);
  plan.pours.slice(1).forEach((pour, i) => {
    const below = plan.pours[i];
    const planes = facts.planes.filter(({ atMm }) => Math.abs(atMm - below.toMm) < 0.051);
    const about = `${name} pour ${pour.index}`;
    const [scuff] = stepsOn('scuff', below.index);
    if (pour.route === 'wet-on-tacky') {
      if (planes.length > 0) report(`${about} goes onto wet resin over a painted plane`);
      if (minutesOf(pour.starts) < minutesOf(below.opens) || minutesOf(pour.ends) > minutesOf(below.closes)) report(`${about} is outside the window below`);
      return;
    }
    if (!scuff || minutesOf(scuff.from) < minutesOf(below.scuffable)) report(`${about} is not scuffed after cure`);
    else if (minutesOf(scuff.to) > minutesOf(pour.starts)) report(`${about} is poured before its scuff is done`);
    if (planes.length === 0) return;
    const painting = stepsOn('paint', below.index);
    if (painting.length === 0 || painting.some(({ from }) => minutesOf(from) < minutesOf(below.paintable))) report(`${about}: painted before the surface can take it`);
    const painted = Math.max(...painting.map(({ to }) => minutesOf(to)));
    if (minutesOf(pour.starts) < painted + Math.max(...planes.map(({ dryMin }) => dryMin)) - CLOCK_MIN) report(`${about} is poured before the paint is dry`);
  });
}

function workOf(plan: TogetherPlans['plans'][number], piece: number, { watchMin }: SceneFacts): Work[] {
  return plan.steps.filter(({ kind }) => kind === 'pour' || kind === 'scuff' || kind === 'paint').map(({ kind, pour, from, to }): Work => {
    const shared = kind === 'pour' ? (plan.pours.find(({ index }) => index === pour)!.shared?.pouring ?? null) : null;
    return { piece, what: `${kind} of piece ${piece + 1} at ${from}`, from: minutesOf(from), to: minutesOf(to) + (kind === 'pour' ? watchMin : 0), shared };
  });
}

function checkHours(work: readonly Work[], bench: BenchHours, report: Report): void {
  for (const { what, from, to } of work) {
    const within = what.startsWith('pour') ? insideBench(bench, from, to) : Math.abs(benchMinutes(bench, from, to) - (to - from)) <= CLOCK_MIN;
    if (!within) report(`${what} is outside bench hours`);
  }
}

/** A pour's watch is work too; those from shared cups are one. */
function checkOneAtATime(work: readonly Work[], report: Report): void {
  work.forEach((one, i) => work.slice(i + 1).forEach((other) => {
    const together = one.shared !== null && one.shared === other.shared;
    if (together && one.from !== other.from) report(`${one.what} and ${other.what} share cups and do not begin at once`);
    if (!together && one.from < other.to - CLOCK_MIN && other.from < one.to - CLOCK_MIN) report(`${one.what} and ${other.what} overlap`);
  }));
}

function checkCups(scenes: readonly SceneFile[], facts: readonly SceneFacts[], { together, plans }: TogetherPlans, report: Report): void {
  for (const { index, of, batches, mixMl, mixG, starts, ends } of together.poured) {
    const members = of.map(({ piece, pour }) => ({ piece: piece - 1, pour: plans[piece - 1].pours[pour - 1] }));
    const [{ piece: first, pour: lead }] = members;
    const formula = facts[first].formulas.get(lead.formula)!;
    if (members.length === 1) continue;
    const name = `pour ${index} at the bench`;
    for (const { piece, pour } of members) {
      if (!alike(formula, facts[piece].formulas.get(pour.formula)!)) report(`${name} shares cups of two formulas`);
      if ((pour.tint?.percent ?? 0) !== (lead.tint?.percent ?? 0)) report(`${name} shares cups of two tints`);
      if (pour.starts !== starts || pour.ends !== ends) report(`${name} is poured at two times`);
      if (JSON.stringify(pour.batches) !== JSON.stringify(batches)) report(`${name} has other cups in the plan of piece ${piece + 1}`);
      if (pour.shared?.pouring !== index) report(`${name} is not named in the plan of piece ${piece + 1}`);
    }
    const copies = members.map(({ piece }) => scenes[piece].copies ?? 1);
    const molds = copies.reduce((sum, count) => sum + count, 0);
    const needed = members.map(({ piece, pour }, i) => copies[i] * (pour.netMl / (1 - formula.shrinkageFraction)) * (1 + facts[piece].allowance));
    const expected = needed.reduce((sum, ml) => sum + ml, 0) + batches.length * facts[first].holdUpMl;
    if (!near(mixMl, expected, ARITHMETIC_REL)) report(`${name} mixes ${mixMl} mL where ${expected} is expected`);
    if (!near(mixG, expected * formula.mixedGPerMl, ARITHMETIC_REL)) report(`${name} mixes ${mixG} g`);
    const shares = members.reduce((sum, { pour }) => sum + pour.mixMl, 0);
    if (!near(shares, mixMl, ARITHMETIC_REL)) report(`${name}: the shares sum to ${shares} of ${mixMl} mL`);
    members.forEach(({ pour }, i) => {
      if (!near(pour.mixMl / mixMl, needed[i] / needed.reduce((sum, ml) => sum + ml, 0), ARITHMETIC_REL)) report(`${name}: a share is not what its piece needs`);
    });
    const workMin = MIX_MIN + MOLD_MIN * Math.ceil(molds / batches.length - ARITHMETIC_REL);
    const roomC = temperatureAt(facts[first].room, minutesOf(starts));
    for (const cup of batches) {
      if (cup.mixG > formula.maxBatchG * (1 + ARITHMETIC_REL)) report(`${name} has a cup of ${cup.mixG} g, over ${formula.maxBatchG}`);
      if (!near(cup.mixMl, mixMl / batches.length, ARITHMETIC_REL)) report(`${name} has unequal cups`);
      const usable = 0.7 * formula.potLifeMin * 2 ** ((formula.atC - roomC) / 10) * Math.cbrt(Math.min(1, formula.potLifeMassG / cup.mixG));
      if (!near(cup.usableMin, usable, ARITHMETIC_REL)) report(`${name}: a cup is usable for ${cup.usableMin} min where ${usable} is expected`);
      if (workMin > usable + CLOCK_MIN) report(`${name}: a cup takes ${workMin} min and is usable for ${usable}`);
      if (formula.byMass > 0 && !near(cup.partB.g / cup.partA.g, formula.byMass, ARITHMETIC_REL)) report(`${name}: hardener in a cup is ${cup.partB.g / cup.partA.g} of the resin where ${formula.byMass} is expected`);
      const [a, ab] = cup.scaleStopsG;
      if (Math.abs(a - cup.partA.g) > facts[first].scaleG / 2 + 1e-9 || (ab !== undefined && Math.abs(ab - a * (1 + formula.byMass)) > facts[first].scaleG / 2 + 1e-9)) report(`${name}: scale stops ${cup.scaleStopsG.join(', ')}`);
    }
    if (minutesOf(ends) - minutesOf(starts) < batches.length * workMin - CLOCK_MIN) report(`${name} takes ${minutesOf(ends) - minutesOf(starts)} min for ${batches.length} cups of ${workMin}`);
  }
}

function alike(a: FormulaFacts, b: FormulaFacts): boolean {
  return JSON.stringify({ ...a, id: '' }) === JSON.stringify({ ...b, id: '' });
}

function checkTotals({ together, plans }: TogetherPlans, report: Report): void {
  const finish = plans.map((plan) => plan.finish).sort().at(-1);
  if (together.finish !== finish) report(`the end is ${together.finish} where ${finish} is expected`);
  if (together.finish > together.oneAfterTheOther.finish) report(`it ends later than one after the other, ${together.finish}`);
  const pours = new Set(plans.flatMap((plan, piece) => plan.pours.map(({ index, shared }) => (shared ? `s${shared.pouring}` : `${piece} ${index}`))));
  if (together.pours !== pours.size || together.poured.length !== pours.size) report(`${together.pours} pours at the bench where ${pours.size} are expected`);
  if (together.pours > together.oneAfterTheOther.pours) report('more pours at the bench than one after the other');
  const cups = together.poured.reduce((sum, { batches }) => sum + batches.length, 0);
  if (together.cups !== cups) report(`${together.cups} cups where ${cups} are poured`);
  const { buys, oneAfterTheOther: before } = together;
  if (buys.pours !== before.pours - together.pours || buys.cups !== before.cups - together.cups) report('what it wins is not the difference');
  if (Math.abs(buys.days - (minutesOf(before.finish) - minutesOf(together.finish)) / MINUTES_A_DAY) > 1e-9) report('the days it wins are not the difference');
}
