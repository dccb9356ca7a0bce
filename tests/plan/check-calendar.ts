/** Times: clocks of each pour, how each joint is made, bench hours, and that the steps tell the same story in order. */

import { laterOrSame, soonerOrSame } from './check-heat.ts';
import { stopsOf } from './check-layers.ts';
import type { FormulaFacts, PlaneFacts, SceneFacts } from './check-scene.ts';
import { checkSleep, firstAwake, nightsBetween } from './check-sleep.ts';
import { benchHours, benchMinutes, CLOCK_MIN, firstFit, insideBench, minutesOf, placeWork, textOf, whenProgressed, type BenchHours, type Interval } from './check-time.ts';
import { HEIGHT_MM, MERGE_MM, type PlanJson, type PourJson, type Report, type StepJson } from './check-types.ts';

const DAY_MIN = 1440;
/** Noise of sums of some 1e7 minutes; a whole minute plus this is that minute. A planner may forgive up to CLOCK_MIN. Minutes. */
const ROUND_MIN = 1e-6;
/** Longest gap that weekly hours and one pour can leave after the last known time, min. */
const HORIZON_MIN = 60 * DAY_MIN;

/** Work that the plan must show as steps. */
interface Work extends Interval {
  readonly kind: 'scuff' | 'paint' | 'dry';
  readonly lengthMin: number;
  readonly planes: readonly string[];
}

interface Calendar {
  readonly facts: SceneFacts;
  readonly plan: PlanJson;
  readonly bench: BenchHours;
  readonly nights: readonly Interval[];
}

export function checkCalendar(facts: SceneFacts, plan: PlanJson, report: Report): void {
  const times = [...plan.pours.flatMap((p) => [p.starts, p.ends, p.opens, p.closes, p.scuffable, p.paintable, p.demold]), ...plan.steps.flatMap((s) => [s.from, s.to]), plan.finish];
  const wrong = times.filter((t) => Number.isNaN(minutesOf(t)));
  if (wrong.length > 0) {
    report(`${wrong[0]} is no local time`);
    return;
  }
  const last = Math.max(...times.map(minutesOf));
  const first = Math.min(facts.startMin, ...times.map(minutesOf));
  const calendar: Calendar = { facts, plan, bench: benchHours(facts.hours, first, last + HORIZON_MIN), nights: nightsBetween(facts, first, last + HORIZON_MIN) };
  checkSleep(calendar.nights, plan.pours, report);
  for (const pour of plan.pours) {
    checkClocks(facts, pour, report);
    checkPourInHours(calendar, pour, report);
  }
  const work = [...firstPourWork(calendar, report), ...plan.pours.slice(1).flatMap((pour, i) => checkJoint(calendar, plan.pours[i], pour, report))];
  const finishing = topWork(calendar);
  checkWorkSteps(calendar, [...work, ...finishing], report);
  checkFinish(calendar, finishing, report);
  checkStepOrder(plan, report);
  checkPourSteps(calendar, report);
  checkTestCup(plan, report);
  checkPlaceSteps(facts, plan, report);
}

function checkClocks(facts: SceneFacts, pour: PourJson, report: Report): void {
  const formula: FormulaFacts = facts.formulas.get(pour.formula)!;
  const starts = minutesOf(pour.starts);
  const ends = starts + facts.pourMin;
  if (minutesOf(pour.ends) !== ends) report(`pour ${pour.index} ends ${pour.ends} where ${textOf(ends)} is expected`);
  const reach = (from: number, hours: number) => whenProgressed(facts.room, formula.atC, from, hours);
  const up: [string, string, number][] = [
    ['opens', pour.opens, reach(ends, formula.bondOpensH)],
    ['is scuffable', pour.scuffable, reach(ends, formula.scuffableH)],
    ['is paintable', pour.paintable, reach(ends, formula.paintableH)],
    ['comes out', pour.demold, reach(ends, formula.demoldH)],
  ];
  for (const [what, text, exact] of up) {
    const allowed = [ROUND_MIN, CLOCK_MIN].map((slack) => Math.ceil(exact - slack));
    if (facts.simulated && laterOrSame(minutesOf(text), exact)) continue;
    if (!allowed.includes(minutesOf(text))) report(`pour ${pour.index} ${what} ${text} where ${textOf(allowed[0])} is expected`);
  }
  const closes = reach(starts, formula.bondClosesH);
  const allowed = [ROUND_MIN, CLOCK_MIN].map((slack) => Math.floor(closes + slack));
  if (facts.simulated && soonerOrSame(minutesOf(pour.closes), closes)) return;
  if (!allowed.includes(minutesOf(pour.closes))) report(`pour ${pour.index} closes ${pour.closes} where ${textOf(allowed[0])} is expected`);
}

function checkPourInHours(c: Calendar, pour: PourJson, report: Report): void {
  const starts = minutesOf(pour.starts);
  if (!insideBench(c.bench, starts, starts + c.facts.pourMin + c.facts.watchMin)) report(`pour ${pour.index} at ${pour.starts} with its watch is outside bench hours`);
}

/** The first pour is at the first bench moment where it fits, after planes on the floor are painted and dry. */
function firstPourWork(c: Calendar, report: Report): Work[] {
  const first = c.plan.pours[0];
  if (!first) return [];
  const planes = c.facts.planes.filter((p) => p.atMm <= MERGE_MM + HEIGHT_MM);
  const expected = (at: number) => firstAwake(at, { ...c, formula: first.formula });
  if (planes.length === 0) {
    expectStart(first, expected(c.facts.startMin), { facts: c.facts, report });
    return [];
  }
  const paint = placeWork(c.bench, c.facts.startMin, paintMinutes(planes));
  const work = paintAndDry(planes, paint);
  expectStart(first, expected(work[1].to), { facts: c.facts, report });
  return work;
}

/** The even plan starts as early as it may; a goal's may wait, and what its own warmth keeps liquid into a night must. */
function mayWait({ goal, simulated, sleep }: SceneFacts): boolean {
  return goal !== 'even' || (simulated && sleep.length > 0);
}

function expectStart(pour: PourJson, expected: number, { facts, report }: { readonly facts: SceneFacts; readonly report: Report }): void {
  if (mayWait(facts) && minutesOf(pour.starts) >= expected - 1) return;
  if (minutesOf(pour.starts) !== expected) report(`pour ${pour.index} starts ${pour.starts} where ${textOf(expected)} is expected`);
}

function paintMinutes(planes: readonly PlaneFacts[]): number {
  return planes.reduce((sum, p) => sum + p.paintMin, 0);
}

/** Painting times add, drying is the longest and goes on the clock. */
function paintAndDry(planes: readonly PlaneFacts[], paint: Interval): Work[] {
  const ids = planes.map((p) => p.id);
  const dryMin = Math.max(...planes.map((p) => p.dryMin));
  return [
    { kind: 'paint', ...paint, lengthMin: paintMinutes(planes), planes: ids },
    { kind: 'dry', from: paint.to, to: paint.to + dryMin, lengthMin: dryMin, planes: ids },
  ];
}

/** The one joint a pour and the one below it must have, and the work that goes with it. */
function checkJoint(c: Calendar, below: PourJson, pour: PourJson, report: Report): Work[] {
  const { facts } = c;
  const planes = planesAt(facts, below.toMm);
  if (planes.length > 0) {
    expectRoute(pour, 'cure-scuff-wipe', report);
    const work = planeCycle(c, below, planes);
    expectStart(pour, firstAwake(work[work.length - 1].to, { ...c, formula: pour.formula }), { facts, report });
    return work;
  }
  if (mayWait(facts)) return checkChosenJoint(c, below, pour, report);
  const wet = wetStart(c, below, pour);
  if (!Number.isNaN(wet)) {
    expectRoute(pour, 'wet-on-tacky', report);
    expectStart(pour, wet, { facts, report });
    return [];
  }
  expectRoute(pour, 'cure-scuff-wipe', report);
  const block = scuffThenPour(c, minutesOf(below.scuffable), pour);
  expectStart(pour, block.work.from, { facts, report });
  return [{ kind: 'scuff', ...block.scuff, lengthMin: facts.scuffMin, planes: [] }];
}

/** Either route, whenever it holds: in the window, or scuffed right before it where an interval holds both. */
function checkChosenJoint(c: Calendar, below: PourJson, pour: PourJson, report: Report): Work[] {
  const { bench, facts, plan } = c;
  const starts = minutesOf(pour.starts);
  if (pour.route === 'wet-on-tacky') {
    if (starts < minutesOf(below.opens) || starts + facts.pourMin > minutesOf(below.closes)) report(`pour ${pour.index} starts ${pour.starts}, outside the window of ${below.opens} to ${below.closes} below`);
    return [];
  }
  expectRoute(pour, 'cure-scuff-wipe', report);
  if (facts.goal === 'even') {
    // Which starts its warmth forbids is not known here, nor whether the scuff could stand beside the pour.
    const own = plan.steps.filter(({ kind, pour: on }) => kind === 'scuff' && on === below.index);
    const scuff = { from: Math.min(...own.map(({ from }) => minutesOf(from))), to: Math.max(...own.map(({ to }) => minutesOf(to))) };
    if (scuff.from < minutesOf(below.scuffable) || scuff.to > starts) report(`pour ${pour.index} starts ${pour.starts} on a scuff from ${textOf(scuff.from)} to ${textOf(scuff.to)}`);
    return [{ kind: 'scuff', ...scuff, lengthMin: facts.scuffMin, planes: [] }];
  }
  const together = facts.scuffMin + facts.pourMin + facts.watchMin <= bench.longest + CLOCK_MIN;
  const from = together ? Math.max(minutesOf(below.scuffable), starts - facts.scuffMin) : minutesOf(below.scuffable);
  const block = scuffThenPour(c, from, pour);
  expectStart(pour, block.work.from, { facts, report });
  if (together && starts !== block.work.from) report(`pour ${pour.index} starts ${pour.starts}, not right after its scuff that may begin ${textOf(block.scuff.from)}`);
  return [{ kind: 'scuff', ...block.scuff, lengthMin: facts.scuffMin, planes: [] }];
}

function expectRoute(pour: PourJson, route: string, report: Report): void {
  if (pour.route !== route) report(`pour ${pour.index} joins by ${pour.route} where ${route} is expected`);
}

function planesAt(facts: SceneFacts, zMm: number): PlaneFacts[] {
  const stop = stopsOf(facts).find((s) => Math.abs(s.atMm - zMm) <= HEIGHT_MM);
  return facts.planes.filter((p) => stop?.causes.includes(`plane:${p.id}`));
}

/** Earliest start in the window, NaN if the pour can't end in it. */
function wetStart(c: Calendar, below: PourJson, pour: PourJson): number {
  const starts = firstAwake(minutesOf(below.opens), { ...c, formula: pour.formula });
  return starts + c.facts.pourMin <= minutesOf(below.closes) ? starts : NaN;
}

/** Scuff and paint stand together once the surface can take both, then it dries. */
function planeCycle(c: Calendar, below: PourJson, planes: readonly PlaneFacts[]): Work[] {
  const ready = Math.max(minutesOf(below.paintable), minutesOf(below.scuffable));
  const block = scuffThen(c.bench, ready, c.facts.scuffMin, paintMinutes(planes));
  return [{ kind: 'scuff', ...block.scuff, lengthMin: c.facts.scuffMin, planes: [] }, ...paintAndDry(planes, block.work)];
}

/** A scuff with its work, together where an interval can hold both, else parted. */
function scuffThen(bench: BenchHours, at: number, scuffMin: number, workMin: number): { scuff: Interval; work: Interval } {
  if (scuffMin + workMin <= bench.longest + CLOCK_MIN) {
    const from = firstFit(bench, at, scuffMin + workMin);
    return { scuff: { from, to: from + scuffMin }, work: { from: from + scuffMin, to: from + scuffMin + workMin } };
  }
  const scuff = placeWork(bench, at, scuffMin);
  return { scuff, work: placeWork(bench, scuff.to, workMin) };
}

/** The same of a scuff with its pour; parted too where no night leaves both a place. */
function scuffThenPour(c: Calendar, at: number, { formula }: PourJson): { scuff: Interval; work: Interval } {
  const { scuffMin, pourMin, watchMin } = c.facts;
  const together = firstAwake(at, { ...c, formula, leadMin: scuffMin });
  const scuff = Number.isNaN(together) ? placeWork(c.bench, at, scuffMin) : { from: together, to: together + scuffMin };
  const from = Number.isNaN(together) ? firstAwake(scuff.to, { ...c, formula }) : scuff.to;
  return { scuff, work: { from, to: from + pourMin + watchMin } };
}

/** Planes on the cured top, after the last pour. */
function topWork(c: Calendar): Work[] {
  const last = c.plan.pours[c.plan.pours.length - 1];
  const planes = last ? planesAt(c.facts, last.toMm) : [];
  return planes.length > 0 ? planeCycle(c, last, planes) : [];
}

/** Each piece of work is in the steps at its time, no longer than it takes, and no other scuff, paint or dry step is there. */
function checkWorkSteps(c: Calendar, work: readonly Work[], report: Report): void {
  const steps = c.plan.steps.filter((s) => ['scuff', 'paint', 'dry'].includes(s.kind));
  const told = new Set<StepJson>();
  for (const w of work) {
    const own = steps.filter((s) => s.kind === w.kind && minutesOf(s.from) >= w.from && minutesOf(s.to) <= w.to);
    own.forEach((s) => told.add(s));
    const from = Math.min(...own.map((s) => minutesOf(s.from)));
    const to = Math.max(...own.map((s) => minutesOf(s.to)));
    const about = `${w.kind}${w.planes.length > 0 ? ` of ${w.planes.join(', ')}` : ''} from ${textOf(w.from)} to ${textOf(w.to)}`;
    if (own.length === 0 || from !== w.from || to !== w.to) {
      report(`${about} is not in the steps`);
      continue;
    }
    const missing = w.planes.filter((id) => !own.some((s) => s.placements.includes(id)));
    if (missing.length > 0) report(`${about} does not name ${missing.join(', ')}`);
    if (w.kind !== 'dry') checkWorkHours(c, w, own, about, report);
  }
  for (const s of steps) if (!told.has(s)) report(`the ${s.kind} step from ${s.from} to ${s.to} belongs to no joint`);
}

function checkWorkHours(c: Calendar, w: Work, own: readonly StepJson[], about: string, report: Report): void {
  const worked = own.reduce((sum, s) => sum + benchMinutes(c.bench, minutesOf(s.from), minutesOf(s.to)), 0);
  if (Math.abs(worked - w.lengthMin) > CLOCK_MIN) report(`${about} takes ${worked} min of bench hours where ${w.lengthMin} are needed`);
  const whole = insideBench(c.bench, w.from, w.to);
  if (!whole && w.lengthMin <= c.bench.longest) report(`${about} is split though ${w.lengthMin} min fit the longest interval of ${c.bench.longest}`);
}

/** The latest demold (of the last pour when the piece stays in), or when the picture on the top is dry. */
function checkFinish(c: Calendar, finishing: readonly Work[], report: Report): void {
  const { pours } = c.plan;
  const keep = c.facts.mold.keep === true;
  const demolds = (keep ? pours.slice(-1) : pours).map((p) => minutesOf(p.demold));
  const expected = Math.max(...demolds, ...finishing.map((w) => w.to));
  if (minutesOf(c.plan.finish) !== expected) report(`finish is ${c.plan.finish} where ${textOf(expected)} is expected`);
  const out = c.plan.steps.filter((s) => s.kind === 'demold');
  if (!c.plan.steps.some((s) => s.kind === 'finish' && (s.from === c.plan.finish || s.to === c.plan.finish))) report(`no finish step at ${c.plan.finish}`);
  if (keep && out.length > 0) report('a piece that stays in its mold has a demold step');
  if (!keep && !out.some((s) => minutesOf(s.to) >= Math.max(...demolds))) report('there is no demold step at or after the latest demold time');
}

function checkStepOrder(plan: PlanJson, report: Report): void {
  let latest = -Infinity;
  let busyUntil = -Infinity;
  for (const step of plan.steps) {
    const from = minutesOf(step.from);
    const to = minutesOf(step.to);
    if (to < from) report(`the ${step.kind} step from ${step.from} ends before it starts, ${step.to}`);
    if (from < latest) report(`the ${step.kind} step at ${step.from} comes after one at ${textOf(latest)}`);
    latest = Math.max(latest, from);
    if (step.kind !== 'pour' && step.kind !== 'scuff' && step.kind !== 'paint') continue;
    if (from < busyUntil) report(`the ${step.kind} step at ${step.from} overlaps work that lasts until ${textOf(busyUntil)}`);
    busyUntil = Math.max(busyUntil, to);
  }
}

function checkPourSteps(c: Calendar, report: Report): void {
  for (const pour of c.plan.pours) {
    const steps = c.plan.steps.filter((s) => s.kind === 'pour' && s.pour === pour.index);
    const ends = minutesOf(pour.ends);
    if (steps.length !== 1) report(`pour ${pour.index} has ${steps.length} pour steps`);
    else if (steps[0].from !== pour.starts || ![ends, ends + c.facts.watchMin].includes(minutesOf(steps[0].to))) {
      report(`the step of pour ${pour.index} is from ${steps[0].from} to ${steps[0].to}, the pour from ${pour.starts} to ${pour.ends}`);
    }
  }
}

function checkTestCup(plan: PlanJson, report: Report): void {
  const first = plan.pours[0];
  if (!first) return;
  const at = textOf(minutesOf(first.starts) - DAY_MIN);
  if (!plan.steps.some((s) => s.kind === 'prepare' && s.from === at)) report(`no prepare step at ${at}, 24 h before the first pour, for the test cup`);
}

/** Each figure is placed after the pour it rests on and before the pour that covers its base. */
function checkPlaceSteps(facts: SceneFacts, plan: PlanJson, report: Report): void {
  for (const solid of facts.solids) {
    const cover = plan.pours.find((p) => p.toMm > solid.baseMm + MERGE_MM + HEIGHT_MM);
    if (!cover || solid.kind === 'bed') continue;
    const below = solid.hold === 'rests' ? plan.pours[cover.index - 2] : undefined;
    const placed = plan.steps.filter((s) => s.kind === 'place' && s.placements.includes(solid.id));
    const good = placed.some((s) => minutesOf(s.to) <= minutesOf(cover.starts) && (!below || minutesOf(s.from) >= minutesOf(below.ends)));
    if (!good) report(`${solid.id} has no place step ${below ? `between the end of pour ${below.index} and` : 'before'} the start of pour ${cover.index}`);
  }
}
