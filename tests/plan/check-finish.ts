/**
 * The finish: areas, coats and their cups, that hands are there in bench hours and one thing follows another, that nothing
 * is sanded before it is hard, and no coat turned before it is firm. Written from the contract and the trade's table alone.
 */

import { checkMix, checkParts, checkScaleStops } from './check-mixing.ts';
import type { SceneFacts } from './check-scene.ts';
import { benchHours, benchMinutes, CLOCK_MIN, insideBench, minutesOf, temperatureAt, whenProgressed } from './check-time.ts';
import { ARITHMETIC_REL, near, type CoatJson, type FinishingJson, type MoldJson, type PlanJson, type PourJson, type Report, type SceneJson, type StepJson } from './check-types.ts';

/** Trade §2 and §8, common practice: full cure by class, hours; and the days of rest before sanding. */
const FULL_CURE_H: Readonly<Record<string, number>> = { general: 120, 'low-viscosity': 180, coating: 120, 'deep-pour': 336, uv: 24 };
const LEAST_REST_H: Readonly<Record<string, number>> = { general: 72, 'low-viscosity': 168, coating: 72, 'deep-pour': 168, uv: 0 };
/** Trade §8: each face lies 12 to 24 h. */
const LYING_MIN = 720;
const HORIZON_MIN = 120 * 1440;
/** Slices of a wall; its length grows evenly with height, so that any number of them is exact. */
const SLICES = 16;
/** Minutes are rounded up to whole ones. */
const MINUTE = 1;
const AWAY = ['as-cast', 'hidden'];
/** What comes before what; a coat is followed by others and then by polish. */
const ORDER = ['begins', 'warm', 'demold', 'trim', 'rest', 'edges', 'sand', 'coat', 'polish', 'base', 'done'];

export function checkFinish(scene: SceneJson, facts: SceneFacts, plan: PlanJson, report: Report): void {
  const { finishing } = scene;
  const steps = plan.steps.filter((s) => s.finishing !== undefined);
  if (!finishing) {
    if (steps.length > 0 || plan.ready !== undefined || plan.finishing !== undefined) report('a scene that plans no finish has one');
    return;
  }
  if (!plan.finishing || plan.ready === undefined) {
    report('a scene that plans its finish has none');
    return;
  }
  const at = (work: string) => steps.filter((s) => s.finishing!.work === work);
  checkOrder(steps, plan, report);
  checkHours(facts, plan, steps, report);
  checkHard(scene, facts, plan, steps, report);
  checkCoats(scene, facts, plan, report);
  checkWarmRest(scene, facts, plan, report);
  const coats = at('coat').filter((s) => s.from !== s.to);
  if (coats.length !== plan.finishing.coats.length) report(`${plan.finishing.coats.length} coats have ${coats.length} steps`);
  const faces = wantedFaces(finishing, facts.mold);
  if (at('sand').length === 0 && faces.some(({ finish }) => finish === 'polished' || finish === 'sanded')) report('nothing is sanded');
  const polished = new Set(at('polish').map((s) => s.finishing!.face));
  if (polished.size !== new Set(faces.filter(({ finish }) => finish === 'polished').map(({ group }) => group)).size) report(`polished are ${[...polished].join(', ') || 'none'}`);
}

interface Face {
  readonly face: string;
  readonly group: string;
  readonly finish: string;
}

/** The faces of the piece by what the scene asks, a round side that can't be coated polished; only the top where it stays in its mold. */
function wantedFaces({ top = 'as-cast', sides = 'as-cast', bottom = 'as-cast' }: FinishingJson, mold: MoldJson): Face[] {
  const round = mold.shape === 'round';
  const walls = round ? ['side'] : ['front', 'right', 'back', 'left'];
  const all = [
    { face: 'top', group: 'top', finish: top },
    ...(mold.keep ? [] : [{ face: 'bottom', group: 'bottom', finish: bottom }, ...walls.map((face) => ({ face, group: 'sides', finish: round && sides === 'flood-coat' ? 'polished' : sides }))]),
  ];
  return all.filter(({ finish }) => !AWAY.includes(finish));
}

/** Of a wall by slices along its slant; of top and bottom in closed form. mm². */
function faceArea(mold: MoldJson, fillMm: number, face: string): number {
  const lean = Math.tan(((mold.draftDeg ?? 0) * Math.PI) / 180);
  const r = mold.cornerRadiusMm ?? 0;
  const wide = (size: number, z: number) => size + 2 * z * lean;
  if (face === 'top' || face === 'bottom') {
    const z = face === 'top' ? fillMm : 0;
    return mold.shape === 'round' ? Math.PI * (wide(mold.diameterMm!, z) / 2) ** 2 : wide(mold.lengthMm!, z) * wide(mold.widthMm!, z) - r * r * (4 - Math.PI);
  }
  let area = 0;
  for (let i = 0; i < SLICES; i++) {
    const z = ((i + 0.5) / SLICES) * fillMm;
    const straight = wide(face === 'front' || face === 'back' ? mold.lengthMm! : mold.widthMm!, z) - 2 * r;
    // Each wall has half of the quarter circle at either end.
    area += (mold.shape === 'round' ? Math.PI * wide(mold.diameterMm!, z) : straight + (Math.PI / 2) * r) * (fillMm / SLICES) * Math.sqrt(1 + lean * lean);
  }
  return area;
}

function checkCoats(scene: SceneJson, facts: SceneFacts, plan: PlanJson, report: Report): void {
  const { coats } = plan.finishing!;
  const wanted = wantedFaces(scene.finishing!, facts.mold).filter(({ finish }) => finish === 'flood-coat').map(({ face }) => face);
  if ([...wanted].sort().join() !== coats.map(({ face }) => face).sort().join()) report(`coated are ${coats.map(({ face }) => face).join(', ')} where ${wanted.join(', ')} are asked for`);
  const { formula: id = 'coating', mm = 2 } = scene.finishing!.coat ?? {};
  const formula = facts.formulas.get(id)!;
  let freeFrom = -Infinity;
  for (const coat of coats) {
    const name = `the coat of the ${coat.face}`;
    const netMl = (faceArea(facts.mold, facts.fillMm, coat.face) * mm) / 1000;
    if (!near(coat.netMl, netMl, ARITHMETIC_REL)) report(`${name} is ${coat.netMl} mL where ${netMl} is expected`);
    if (coat.thicknessMm > formula.maxDepthMm) report(`${name} is ${coat.thicknessMm} mm thick, over the label’s ${formula.maxDepthMm}`);
    checkMix(facts, formula, coat as unknown as PourJson, report);
    checkParts(formula, coat, name, report);
    for (const batch of coat.batches) {
      checkScaleStops(facts, formula, batch, name, report);
      const usable = 0.7 * formula.potLifeMin * 2 ** ((formula.atC - temperatureAt(facts.room, minutesOf(coat.starts))) / 10) * Math.cbrt(Math.min(1, formula.potLifeMassG / batch.mixG));
      if (!near(batch.usableMin, usable, ARITHMETIC_REL)) report(`${name} is usable for ${batch.usableMin} min where ${usable} is expected`);
    }
    freeFrom = checkCoatTimes(facts, coat, { name, freeFrom, fullCureH: fullCureOf(scene, id), report });
  }
}

/** When the next face can be turned up. */
function checkCoatTimes(facts: SceneFacts, coat: CoatJson, { name, freeFrom, fullCureH, report }: { readonly name: string; readonly freeFrom: number; readonly fullCureH: number; readonly report: Report }): number {
  const formula = facts.formulas.get(coat.formula)!;
  const [starts, ends] = [minutesOf(coat.starts), minutesOf(coat.ends)];
  const reach = (hours: number) => whenProgressed(facts.room, formula.atC, ends, hours);
  if (starts < freeFrom - CLOCK_MIN) report(`${name} is poured ${coat.starts}, before the one before it is firm`);
  const firm = Math.max(reach(formula.demoldH), ends + LYING_MIN);
  if (minutesOf(coat.firm) < firm - CLOCK_MIN || minutesOf(coat.firm) > firm + MINUTE) report(`${name} is firm ${coat.firm}`);
  const hard = Math.max(firm, reach(fullCureH));
  if (minutesOf(coat.hard) < hard - CLOCK_MIN || minutesOf(coat.hard) > hard + MINUTE) report(`${name} is hard ${coat.hard}`);
  if (minutesOf(coat.opens) < reach(formula.bondOpensH) - CLOCK_MIN) report(`${name} opens ${coat.opens}`);
  if (minutesOf(coat.closes) > whenProgressed(facts.room, formula.atC, starts, formula.bondClosesH) + CLOCK_MIN) report(`${name} closes ${coat.closes}`);
  if (minutesOf(coat.scuffable) < reach(formula.scuffableH) - CLOCK_MIN) report(`${name} is scuffable ${coat.scuffable}`);
  return firm;
}

/** Trade §3.3 and §8: what softens when, °C; PLA and wax are not warmed unless their own limit is known. */
const MOLD_LIMIT_C: Readonly<Record<string, number>> = { hdpe: 80, acrylic: 75, foam: 70 };
const NOT_WARMED = ['pla', 'wax'];
const USUAL_LIMIT_C = 50;
/** No warmer than anything bears, no quicker than 10 °C an hour, four hours at 40 °C on the way. */
function checkWarmRest(scene: SceneJson, facts: SceneFacts, plan: PlanJson, report: Report): void {
  const asked = scene.finishing!.postCure;
  const { warmRest } = plan.finishing!;
  if (!warmRest) return;
  if (!asked) {
    report('a warm rest that nobody asked for');
    return;
  }
  const solids = (scene.placements ?? []).filter(({ kind }) => kind !== 'plane');
  const limits = [asked.temperatureC, asked.labelC ?? USUAL_LIMIT_C, MOLD_LIMIT_C[facts.mold.material ?? 'silicone'] ?? Infinity, ...solids.map(({ limitC, material }) => limitC ?? (NOT_WARMED.includes(material ?? '') ? 0 : Infinity))];
  if (warmRest.temperatureC > Math.min(...limits)) report(`a warm rest at ${warmRest.temperatureC} °C, where ${Math.min(...limits)} are borne`);
  const [from, to] = [minutesOf(warmRest.from), minutesOf(warmRest.to)];
  const away = [from, to].map((at) => (warmRest.temperatureC - temperatureAt(facts.room, at)) / 10);
  const leastH = away[0] + away[1] + asked.hours + (warmRest.temperatureC > 40 ? 4 : 0);
  if ((to - from) / 60 < leastH - CLOCK_MIN) report(`a warm rest of ${(to - from) / 60} h where ${leastH} are needed`);
  if (from < Math.max(...plan.pours.map((p) => minutesOf(p.demold)))) report('a warm rest before the piece is strong');
}

/** All hands in bench hours, a coat with its watching at one stretch, and nothing at the same time as something else. */
function checkHours(facts: SceneFacts, plan: PlanJson, steps: readonly StepJson[], report: Report): void {
  const last = Math.max(...steps.map((s) => minutesOf(s.to)));
  const bench = benchHours(facts.hours, facts.startMin, last + HORIZON_MIN);
  const hands = steps.filter((s) => s.kind === 'finish' && s.from !== s.to);
  for (const step of hands) {
    const [from, to] = [minutesOf(step.from), minutesOf(step.to)];
    const watch = step.finishing!.work === 'coat' ? facts.watchMin : 0;
    if (!insideBench(bench, from, to + watch)) report(`the ${step.finishing!.work} from ${step.from} to ${step.to} is outside bench hours`);
  }
  let until = minutesOf(plan.finish);
  for (const step of steps) {
    const from = minutesOf(step.from);
    if (from < until - CLOCK_MIN) report(`the ${step.finishing!.work} at ${step.from} begins before what comes before it is done`);
    until = Math.max(until, minutesOf(step.to));
  }
  const handsH = hands.reduce((sum, s) => sum + benchMinutes(bench, minutesOf(s.from), minutesOf(s.to)), 0) / 60;
  if (!near(handsH, plan.finishing!.handsH, ARITHMETIC_REL)) report(`hands are at the finish for ${handsH} h and ${plan.finishing!.handsH} are told`);
  if (plan.ready !== plan.finishing!.ready || minutesOf(plan.ready!) !== last) report(`it is ready ${plan.ready}, and its last step ends otherwise`);
}

function checkOrder(steps: readonly StepJson[], plan: PlanJson, report: Report): void {
  let reached = 0;
  for (const { finishing, from } of steps) {
    // What hardens belongs to its coat.
    const at = ORDER.indexOf(finishing!.work === 'harden' ? 'coat' : finishing!.work);
    if (at < reached) report(`the ${finishing!.work} at ${from} comes after a ${ORDER[reached]}`);
    reached = Math.max(reached, at);
  }
  if (steps[0]?.from !== plan.finish) report(`the finish begins ${steps[0]?.from} where the piece is out ${plan.finish}`);
}

/** Sanding waits for full hardness, polish for that of the coats. */
function checkHard(scene: SceneJson, facts: SceneFacts, plan: PlanJson, steps: readonly StepJson[], report: Report): void {
  const first = (...works: string[]) => Math.min(Infinity, ...steps.filter((s) => s.kind === 'finish' && works.includes(s.finishing!.work)).map((s) => minutesOf(s.from)));
  const strong = Math.max(...plan.pours.map((p) => minutesOf(p.demold)));
  if (first('trim') < (facts.mold.keep ? minutesOf(plan.finish) : strong)) report('it is trimmed before it is out of its mold');
  if (!plan.finishing!.warmRest) {
    for (const pour of plan.pours) {
      const hard = whenProgressed(facts.room, facts.formulas.get(pour.formula)!.atC, minutesOf(pour.ends), Math.max(fullCureOf(scene, pour.formula), LEAST_REST_H[familyOf(scene, pour.formula)]));
      if (first('edges', 'sand', 'coat', 'polish', 'base') < hard - CLOCK_MIN) report(`pour ${pour.index} is worked on before it is fully hard`);
    }
  }
  const hard = Math.max(-Infinity, ...plan.finishing!.coats.map((coat) => minutesOf(coat.hard)));
  if (first('polish', 'base') < hard) report('a coat is worked on before it is hard');
}

const familyOf = (scene: SceneJson, id: string): string => scene.formulas?.find((f) => f.id === id)?.family ?? (id in FULL_CURE_H && id !== 'uv' ? id : 'general');
const fullCureOf = (scene: SceneJson, id: string): number => scene.formulas?.find((f) => f.id === id)?.fullCureH ?? FULL_CURE_H[familyOf(scene, id)];
