/** What is different between two plans of one piece, in one sentence: what must not be poured first, then days, pours, grams, money, then joints. */
import type { Scene } from '../scene/scene.ts';
import { STOP_TOLERANCE_MM } from '../scene/tolerance.ts';
import { fixed, listed, plain, span } from '../units/format.ts';
import { MINUTES_PER_DAY, parseLocalTime } from '../units/time.ts';
import { clockOf, dayAndTime, weekdayAndTime } from '../units/when.ts';
import { latestOnTacky } from './best/latest.ts';
import { NUMBER_WORDS } from './number-words.ts';
import type { Finding, Plan, Pour } from './plan.ts';
import { poursNamed } from './pours-named.ts';
import { paceOf, pouringFor, type PourTimes } from './schedule.ts';

export interface PlannedPiece {
  readonly scene: Scene;
  readonly plan: Plan;
}

/** Differences under these are not told: a minute, half a gram, a cent, half a degree. */
const TOLD = { min: 1, g: 0.5, money: 0.01, degrees: 0.5 } as const;
/** Grams from here on are told without decimals. */
const WHOLE_G = 10;
/** From when to when a window that closes is one that nobody is up for (common practice, no source), minutes after midnight. */
const NIGHT = { fromMin: 22 * 60, toMin: 6 * 60 } as const;
/** More joints than this are counted. */
const JOINTS_TOLD = 2;

/** `At 20 °C: 2 d later, one more pour, 12 g more hardener; the window of pour 3 now closes at night, 02:10.` */
export function differenceSentence(lead: string, before: PlannedPiece, after: PlannedPiece): string {
  const halts = haltClauses(before.plan, after.plan);
  const figures = figureWords(before.plan, after.plan).join(', ');
  const clauses = [...halts.appear, ...warningClauses(before.plan, after.plan), figures, ...wantedClauses(before, after), ...jointClauses(before, after), ...halts.go, ...halts.stay].filter((clause) => clause !== '');
  return `${lead}: ${clauses.length > 0 ? clauses.join('; ') : unchanged(before.plan, after.plan)}.`;
}

function unchanged(before: Plan, after: Plan): string {
  const times = ({ pours }: Plan) => pours.map(({ starts, toMm }) => `${starts} ${toMm}`).join();
  return times(before) === times(after) ? 'the plan stays as it is' : 'done at the same time, with pours at other hours';
}

function figureWords(before: Plan, after: Plan): string[] {
  const told: string[] = [];
  const later = parseLocalTime(after.finish)! - parseLocalTime(before.finish)!;
  if (Math.abs(later) >= TOLD.min) told.push(`${span(Math.abs(later))} ${later > 0 ? 'later' : 'sooner'}`);
  const pours = after.pours.length - before.pours.length;
  if (pours !== 0) told.push(`${NUMBER_WORDS[Math.abs(pours)] ?? plain(Math.abs(pours), 0)} ${pours > 0 ? 'more' : 'fewer'} ${Math.abs(pours) === 1 ? 'pour' : 'pours'}`);
  for (const [part, words] of [['partA', 'resin'], ['partB', 'hardener']] as const) {
    const g = sum(after.pours, (pour) => pour[part].g) - sum(before.pours, (pour) => pour[part].g);
    if (Math.abs(g) >= TOLD.g) told.push(`${plain(Math.abs(g), Math.abs(g) < WHOLE_G ? 1 : 0)}\u00a0g ${g > 0 ? 'more' : 'less'} ${words}`);
  }
  return [...told, ...moneyWords(before, after), ...degreeWords(before, after)];
}

function moneyWords({ cost: before }: Plan, { cost: after }: Plan): string[] {
  if (!before || !after || before.currency !== after.currency) return [];
  const told = (was: number | null, is: number | null, words: string): string[] => {
    if (was === null || is === null || Math.abs(is - was) < TOLD.money) return [];
    return [`${fixed(Math.abs(is - was), 2)}${after.currency ? `\u00a0${after.currency}` : ''} ${is > was ? 'more' : 'less'} ${words}`];
  };
  return [...told(before.total, after.total, 'in all'), ...told(before.toSpend, after.toSpend, 'to pay out')];
}

function degreeWords(before: Plan, after: Plan): string[] {
  const warmest = ({ pours }: Plan) => (pours.every(({ heat }) => heat !== null) ? Math.max(...pours.map(({ heat }) => heat!.rangeC[1])) : null);
  const [was, is] = [warmest(before), warmest(after)];
  if (was === null || is === null || Math.abs(is - was) < TOLD.degrees) return [];
  return [`the warmest pour ${plain(Math.abs(is - was), 0)}\u00a0°C ${is > was ? 'warmer' : 'cooler'}`];
}

/** The day the piece is wanted by, missed or met anew. */
function wantedClauses(before: PlannedPiece, after: PlannedPiece): string[] {
  const by = after.scene.bench.readyByMin;
  if (by === undefined) return [];
  const inTime = ({ plan }: PlannedPiece) => parseLocalTime(plan.finish)! <= by;
  if (inTime(before) === inTime(after)) return beginClauses(before.plan, after.plan);
  return [inTime(after) ? 'done by when you want it' : `too late for when you want it, done ${dayAndTime(after.plan.finish)}`];
}

/** Plans that begin as late as they can (wanted-start.ts) differ by when that is. */
function beginClauses(before: Plan, after: Plan): string[] {
  const begins = ({ findings, pours }: Plan) => (findings.some(({ code }) => code === 'start-latest') ? parseLocalTime(pours[0].starts) : null);
  const [was, is] = [begins(before), begins(after)];
  if (was === null || is === null || Math.abs(is - was) < TOLD.min) return [];
  return [`to be begun by ${dayAndTime(after.pours[0].starts)}, ${span(Math.abs(is - was))} ${is < was ? 'sooner' : 'later'}`];
}

interface Joint {
  readonly below: Pour;
  readonly above: Pour;
}

/** How pours are joined, at heights where both plans have a line; then which windows come to close at night. */
function jointClauses(before: PlannedPiece, after: PlannedPiece): string[] {
  const pairs = jointsOf(after.plan).flatMap((joint) => {
    const was = jointsOf(before.plan).find(({ below }) => Math.abs(below.toMm - joint.below.toMm) <= STOP_TOLERANCE_MM);
    return was ? [{ was, joint }] : [];
  });
  const told = pairs.flatMap(({ was, joint }) => routeClause(was, joint, after.scene));
  const more = told.length - JOINTS_TOLD;
  const counted = more > 0 ? [`${NUMBER_WORDS[more] ?? plain(more, 0)} more ${more === 1 ? 'joint changes' : 'joints change'} too`] : [];
  return [...told.slice(0, JOINTS_TOLD), ...counted, ...nightClause(pairs)];
}

function nightClause(pairs: readonly { readonly was: Joint; readonly joint: Joint }[]): string[] {
  const late = pairs.filter(({ was, joint }) => joint.above.route === 'wet-on-tacky' && was.above.route === 'wet-on-tacky' && atNight(joint.below.closes) && !atNight(was.below.closes)).map(({ joint: { below } }) => below);
  if (late.length === 0) return [];
  if (late.length === 1) return [`the window of pour ${late[0].index} now closes at night, ${clockOf(late[0].closes)}`];
  return [`the windows of ${poursNamed(late)} now close at night`];
}

function jointsOf({ pours }: Plan): Joint[] {
  return pours.slice(1).map((above, i) => ({ below: pours[i], above }));
}

function routeClause(was: Joint, { below, above }: Joint, scene: Scene): string[] {
  if (above.route === was.above.route) return [];
  if (above.route === 'wet-on-tacky') return [`pour ${above.index} now goes onto the tacky surface of pour ${below.index}, with no scuffing`];
  const scuffed = `pour ${below.index} now has to cure and be scuffed before pour ${above.index}`;
  if (below.opens >= below.closes) return [`${scuffed}, as it sets too soon to be poured on tacky`];
  const window = `${weekdayAndTime(below.opens)} to ${weekdayAndTime(below.closes)}`;
  return [fitsNoHours(below, above, scene) ? `${scuffed}, as its window, ${window}, leaves no hour of yours for a pour` : scuffed];
}

function fitsNoHours(below: Pour, above: Pour, scene: Scene): boolean {
  const minutes = (time: string) => parseLocalTime(time)!;
  const pourMin = minutes(above.ends) - minutes(above.starts);
  const times: PourTimes = { starts: minutes(below.starts), ends: minutes(below.ends), opens: minutes(below.opens), closes: minutes(below.closes), scuffable: 0, paintable: 0, demold: 0 };
  return latestOnTacky(pouringFor(paceOf(scene), pourMin), times) === null;
}

function atNight(time: string): boolean {
  const clock = parseLocalTime(time)! % MINUTES_PER_DAY;
  const within = clock < 0 ? clock + MINUTES_PER_DAY : clock;
  return within > NIGHT.fromMin || within < NIGHT.toMin;
}

/** A reason not to pour and where it holds: a pour by its heights, which its number may change under, or anything else by its name. */
interface HaltAt {
  readonly finding: Finding;
  readonly pour: Pour | null;
}

/** Cautions that a change may bring and nobody should miss, after “would be”. */
const WARNING_WORDS: Readonly<Record<string, string>> = {
  'near-runaway': 'close to too hot',
  'cures-in-sleep': 'left to set while someone sleeps there',
  'mold-too-warm': 'warmer than it bears',
  'figure-too-warm': 'warmer than it bears',
};

/** What a pour, a layer or a thing would be, after “would be” and “is no longer”. */
const HALT_WORDS: Readonly<Record<string, string>> = {
  hot: 'too hot',
  'cup-hot': 'too hot in the cup',
  'pour-too-deep': 'too deep',
  'layer-too-thin': 'too thin',
  overfull: 'over the rim',
  'scale-coarse': 'too little for the scale',
  'dye-heavy': 'too full of color',
  'cup-too-slow': 'too slow to pour out',
  'cannot-lock': 'loose and float up',
};

/** Halts of a plan that the other does not have: one of the same kind where pours overlap is the same one. */
export function newHalts(before: Plan, after: Plan): Finding[] {
  return [...new Set(haltsOnlyIn(after, before).map(({ finding }) => finding))];
}

function haltsOnlyIn(plan: Plan, other: Plan): HaltAt[] {
  return onlyIn(haltsOf(plan), haltsOf(other));
}

function onlyIn(found: readonly HaltAt[], known: readonly HaltAt[]): HaltAt[] {
  return found.filter((halt) => !known.some((one) => sameHalt(one, halt)));
}

function haltsOf(plan: Plan): HaltAt[] {
  return placed(plan, ({ severity }) => severity === 'halt');
}

/** Of cautions, the few that are told. */
function warningClauses(before: Plan, after: Plan): string[] {
  const warns = ({ severity, code }: Finding) => severity === 'caution' && WARNING_WORDS[code] !== undefined;
  return byCode(onlyIn(placed(after, warns), placed(before, warns))).map((warnings) => haltWords(warnings, after, 'would be', WARNING_WORDS));
}

function placed({ findings, pours }: Plan, which: (finding: Finding) => boolean): HaltAt[] {
  return findings.filter(which).flatMap((finding): HaltAt[] => {
    const [, kind, number] = /^(pour|layer) (\d+)$/.exec(finding.subject) ?? [];
    if (kind === undefined && finding.subject !== 'pours' && finding.subject !== 'room') return [{ finding, pour: null }];
    const own = pours.filter(({ index, layer }) => finding.pours?.includes(index) ?? (kind === 'pour' ? index : layer) === Number(number));
    return own.length === 0 ? [{ finding, pour: null }] : own.map((pour) => ({ finding, pour }));
  });
}

function sameHalt(a: HaltAt, b: HaltAt): boolean {
  if (a.finding.code !== b.finding.code || (a.pour === null) !== (b.pour === null)) return false;
  if (a.pour === null || b.pour === null) return a.finding.subject === b.finding.subject;
  return a.pour.fromMm < b.pour.toMm - STOP_TOLERANCE_MM && b.pour.fromMm < a.pour.toMm - STOP_TOLERANCE_MM;
}

function haltClauses(before: Plan, after: Plan): { readonly appear: string[]; readonly go: string[]; readonly stay: string[] } {
  const appearing = haltsOnlyIn(after, before);
  const going = haltsOnlyIn(before, after);
  return {
    appear: byCode(appearing).map((halts) => `do not pour then, ${haltWords(halts, after, 'would be')}`),
    go: byCode(going).map((halts) => haltWords(halts, before, halts.length === 1 ? 'is no longer' : 'are no longer')),
    stay: haltsOf(after).length > appearing.length ? ['what must not be poured now must not be poured then either'] : [],
  };
}

function byCode(halts: readonly HaltAt[]): HaltAt[][] {
  return [...new Set(halts.map(({ finding }) => finding.code))].map((code) => halts.filter(({ finding }) => finding.code === code));
}

function haltWords(halts: readonly HaltAt[], plan: Plan, verb: string, known = HALT_WORDS): string {
  const [{ finding: { code, message } }] = halts;
  const words = known[code];
  const shown = message.replace(/\.$/, '');
  if (words === undefined) return verb === 'would be' ? shown : `no longer: ${shown}`;
  const pours = halts.flatMap(({ pour }) => (pour ? [pour] : []));
  const names = halts.flatMap(({ pour, finding }) => (pour ? [] : [plan.placements.find(({ id }) => id === finding.subject)?.name ?? (finding.subject === 'mold' ? 'the mold' : finding.subject)]));
  const who = [...(pours.length > 0 ? [poursNamed(pours)] : []), ...names];
  return `${listed(who)} ${verb} ${verb === 'would be' ? words : words.replace(' and float up', '')}`;
}

function sum(pours: readonly Pour[], of: (pour: Pour) => number): number {
  return pours.reduce((total, pour) => total + of(pour), 0);
}
