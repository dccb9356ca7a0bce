/**
 * What if: changes of the room, the hours, a formula or the drying, tried on a scene without changing it. Each is made
 * by the same edits as on the cards, so taking one up gives the plan that was shown, to the last digit.
 */
import { setBench, setHours, benchHours } from '../scene/edit/bench.ts';
import { addException, exceptionsOf, setExceptionHours } from '../scene/edit/calendar.ts';
import { done, refused, type EditResult, type HoursFile, type SceneFile } from '../scene/edit/file.ts';
import { setFormula } from '../scene/edit/fills.ts';
import { setPlaneHours } from '../scene/edit/hold.ts';
import { patched } from '../scene/edit/replace.ts';
import { roomProfile, setRoomC } from '../scene/edit/room.ts';
import { nameOf, thing, thingsOf } from '../scene/edit/things.ts';
import { readScene, problemLine, type Problem } from '../scene/read.ts';
import type { Scene } from '../scene/scene.ts';
import { parseDays } from '../scene/schema.ts';
import { capital, listed, mm, plain, span } from '../units/format.ts';
import { parseLocalTime } from '../units/time.ts';
import { dayName } from '../units/when.ts';
import type { Finding, Plan, PlanResult } from './plan.ts';
import { differenceSentence, newHalts, type PlannedPiece } from './what-if-sentence.ts';

export type Trial =
  /** Held from beginning to end; what the scene says of other times is left out. */
  | { readonly kind: 'room'; readonly temperatureC: number }
  /** On all days with hands at the bench, on some weekdays (`Wed`, `Sat,Sun`), or on one date. */
  | { readonly kind: 'hours'; readonly on: { readonly days: string } | { readonly date: string } | null; readonly from: string; readonly to: string }
  /** Nobody at the bench on some weekdays or on one date. */
  | { readonly kind: 'shut'; readonly on: { readonly days: string } | { readonly date: string } }
  /** Fill `at`, counted from 0 at the floor. */
  | { readonly kind: 'fill'; readonly at: number; readonly formula: string }
  /** Wherever a formula is poured or may be chosen. */
  | { readonly kind: 'formula'; readonly of: string; readonly to: string }
  /** One plane by its id, or all of them. */
  | { readonly kind: 'dry'; readonly plane: string | null; readonly hours: number }
  | { readonly kind: 'watch'; readonly hours: number };

/** What a trial comes to; null where there is no plan. */
export interface WhatIf {
  readonly change: string;
  readonly sentence: string;
  readonly finish: string | null;
  /** Below 0: sooner. */
  readonly laterMin: number | null;
  readonly pours: number | null;
  /** In the person's currency. */
  readonly costTotal: number | null;
  /** Those that the plan as it is does not have. */
  readonly newHalts: readonly Finding[];
}

export interface Trying {
  /** As the person wrote it, for what comes out. */
  readonly change: string;
  readonly trials: readonly Trial[];
  /** Plans as the scene was planned. */
  readonly plan: (scene: Scene, notes: readonly Finding[]) => PlanResult;
}

/** An undo label stays short. */
const LABELS_LISTED = 3;

/** The scene with the changes made, as one edit. */
export function tried(file: SceneFile, trials: readonly Trial[]): EditResult {
  let now = file;
  const labels: string[] = [];
  for (const trial of trials) {
    const step = made(now, trial);
    if (!step.ok) return step;
    now = step.file;
    labels.push(step.label);
  }
  return { ok: true, file: now, label: labels.length > LABELS_LISTED ? `${labels.length} changes` : listed(labels) };
}

/** Compares the plan of a scene with that of the scene changed. Refused: the change can't be made, with words for the person. */
export function whatIf(file: SceneFile, before: PlannedPiece, { change, trials, plan }: Trying): { readonly ok: true; readonly answer: WhatIf } | { readonly ok: false; readonly reason: string } {
  const edit = tried(file, trials);
  if (!edit.ok) return edit;
  const lead = leadOf(file, trials);
  const reading = readScene(edit.file);
  const result = reading.ok ? plan(reading.scene, reading.notes) : reading;
  if (!reading.ok || !result.ok) return { ok: true, answer: { change, sentence: noPlanSentence(lead, (result as { problems: readonly Problem[] }).problems), finish: null, laterMin: null, pours: null, costTotal: null, newHalts: [] } };
  const after = { scene: reading.scene, plan: result.plan };
  return { ok: true, answer: { change, sentence: differenceSentence(lead, before, after), ...figuresOf(before.plan, after.plan), newHalts: newHalts(before.plan, after.plan) } };
}

export function noPlanSentence(lead: string, problems: readonly Problem[]): string {
  return `${lead}: there is no plan then. ${problemLine(problems[0])}`;
}

/** `At 20 °C, with hands there 08:00 to 22:00`: how the sentence begins. */
export function leadOf(file: SceneFile, trials: readonly Trial[]): string {
  const words = dryingTogether(trials).map((trial) => (typeof trial === 'string' ? trial : leadWords(file, trial)));
  const first = words.filter((each) => each.startsWith('at '));
  const rest = words.filter((each) => !each.startsWith('at '));
  const together = [...first, ...(rest.length > 0 ? [`with ${listed(rest)}`] : [])].join(', ');
  return capital(together);
}

/** More planes than this that come to dry alike are counted. */
const PLANES_NAMED = 2;

/** Planes by their ids that come to dry as long as each other, in one word. */
function dryingTogether(trials: readonly Trial[]): (Trial | string)[] {
  const drying = trials.filter((trial) => trial.kind === 'dry' && trial.plane !== null) as Extract<Trial, { kind: 'dry' }>[];
  if (drying.length <= PLANES_NAMED || drying.some(({ hours }) => hours !== drying[0].hours)) return [...trials];
  return [...trials.filter((trial) => !(drying as readonly Trial[]).includes(trial)), `${drying.length} planes drying ${plain(drying[0].hours, 2)}\u00a0h`];
}

function leadWords(file: SceneFile, trial: Trial): string {
  switch (trial.kind) {
    case 'room':
      return `at ${plain(trial.temperatureC, 1)}\u00a0°C${roomProfile(file).length > 0 ? ' throughout' : ''}`;
    case 'hours': {
      const { on, from, to } = trial;
      return `hands there ${from} to ${to}${on === null ? '' : ` on ${'date' in on ? dayName(`${on.date}T00:00`) : on.days}`}`;
    }
    case 'shut':
      return `nobody at the bench on ${'date' in trial.on ? dayName(`${trial.on.date}T00:00`) : trial.on.days}`;
    case 'fill':
      return `${formulaName(file, trial.formula)}${file.fills.length > 1 ? ` in the fill to ${mm(file.fills[trial.at]?.toMm ?? 0)}` : ''}`;
    case 'formula':
      return `${formulaName(file, trial.to)} in place of ${formulaName(file, trial.of)}`;
    case 'dry': {
      const plane = trial.plane === null ? undefined : thing(file, trial.plane);
      return `${plane ? nameOf(plane) : 'planes'} drying ${plain(trial.hours, 2)}\u00a0h`;
    }
    case 'watch':
      return `${trial.hours === 0 ? 'no' : `${span(trial.hours * 60)} of`} watching after a pour`;
  }
}

function made(file: SceneFile, trial: Trial): EditResult {
  switch (trial.kind) {
    case 'room':
      return roomProfile(file).length === 0 ? setRoomC(file, trial.temperatureC) : setRoomC(patched(file, { room: patched(file.room!, { profile: undefined }) }), trial.temperatureC);
    case 'hours':
      return withHours(file, trial);
    case 'shut':
      return 'date' in trial.on ? addException(file, trial.on.date) : withDays(file, trial.on.days, []);
    case 'fill':
      return setFormula(file, trial.at, trial.formula);
    case 'formula':
      return replaceFormula(file, trial.of, trial.to);
    case 'dry':
      return setPlaneHours(file, trial.plane === null ? thingsOf(file).map(({ id }) => id) : [trial.plane], { dryH: trial.hours });
    case 'watch':
      return setBench(file, 'watchH', trial.hours);
  }
}

function withHours(file: SceneFile, { on, from, to }: Extract<Trial, { kind: 'hours' }>): EditResult {
  if (on === null) return setHours(file, benchHours(file).map((row) => ({ ...row, from, to })));
  if ('date' in on) {
    const day = addException(file, on.date);
    return day.ok ? setExceptionHours(day.file, exceptionsOf(day.file).length - 1, { from, to }) : day;
  }
  return withDays(file, on.days, [{ from, to }]);
}

function withDays(file: SceneFile, named: string, hours: readonly Pick<HoursFile, 'from' | 'to'>[]): EditResult {
  const days = parseDays(named);
  if (days === null) return refused(`Found the days “${named}”; expected days like Wed, Mon-Fri or Sat,Sun.`);
  // Their old hours make room; other days keep theirs.
  const others = benchHours(file).flatMap((row): HoursFile[] => {
    const left = (parseDays(row.days) ?? []).filter((day) => !days.includes(day));
    return left.length === 0 ? [] : [left.length === (parseDays(row.days) ?? []).length ? row : { ...row, days: left.map((day) => DAY_NAMES[day]).join(',') }];
  });
  const week = [...others, ...hours.map((each) => ({ days: named, ...each }))];
  return week.length === 0 ? refused('Found no day left at the bench; expected one at least.') : setHours(file, week);
}

const DAY_NAMES = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** In every fill that is poured with it, and among the formulas to choose from. */
function replaceFormula(file: SceneFile, of: string, to: string): EditResult {
  const uses = file.fills.flatMap((fill, at) => (fill.formula === of ? [at] : []));
  const choice = file.plan?.formulas;
  if (uses.length === 0 && !choice?.includes(of)) return refused(`No fill is poured with “${of}”. These are: ${[...new Set(file.fills.map(({ formula }) => formula))].join(', ')}.`);
  const chosen = choice?.includes(of) ? patched(file, { plan: patched(file.plan!, { formulas: [...new Set(choice.map((id) => (id === of ? to : id)))] }) }) : file;
  return uses.reduce<EditResult>((step, at) => (step.ok ? setFormula(step.file, at, to) : step), done(chosen, 'formula', 'formula'));
}

function formulaName(file: SceneFile, id: string): string {
  const reading = readScene({ ...file, plan: undefined, fills: [{ toMm: file.fillMm, formula: id }] });
  return (reading.ok ? reading.scene.formulas.get(id)?.name.replace(' (typical)', '') : undefined) ?? id;
}

function figuresOf(before: Plan, after: Plan): Pick<WhatIf, 'finish' | 'laterMin' | 'pours' | 'costTotal'> {
  return { finish: after.finish, laterMin: parseLocalTime(after.finish)! - parseLocalTime(before.finish)!, pours: after.pours.length, costTotal: after.cost?.total ?? null };
}
