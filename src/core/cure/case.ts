/**
 * A case of heat and cure as a file holds it: one material, one kinetics, a room, pours on one another.
 * Read with the path of whatever is wrong; a field that is not known is refused, because a misspelled `mixC` would
 * give another answer without a word.
 */
import * as v from 'valibot';
import { problemOf, shown, type Problem } from '../scene/schema-problem.ts';
import type { Walkable } from '../scene/schema-walk.ts';
import { isObject } from '../units/object.ts';

/** Far beyond any casting; they keep hostile numbers out of the arithmetic. */
const MOST = { depthMm: 1000, pours: 100, spans: 10_000, hours: 87_600 } as const;

/** Under this the cure comes to its end as at a wall, and the steps before it become endless. */
const LEAST_N = 0.05;
/** What a file may say of its case beside it. */
const BESIDE = ['case', 'name', 'expect', 'source', 'comment'];

/** A finite number from `min` (or above it) to `max`. */
function number(min: number, max: number, { unit = '', above = false, below = false } = {}) {
  const suffix = unit && ` ${unit}`;
  const expected = `a number ${above ? 'above' : 'from'} ${min}${suffix}${above ? ',' : ''} ${below ? 'below' : above ? 'at most' : 'to'} ${max}${suffix}`;
  return v.custom<number>(
    (input) => typeof input === 'number' && Number.isFinite(input) && (above ? input > min : input >= min) && (below ? input < max : input <= max),
    expected,
  );
}

const list = <const S extends v.GenericSchema>(item: S, most: number) =>
  v.pipe(v.custom<unknown[]>((input) => Array.isArray(input) && input.length >= 1 && input.length <= most, `a list of 1 to ${most}`), v.array(item));

const temperature = () => number(-60, 300, { unit: '°C' });
const hour = () => number(0, MOST.hours, { unit: 'h' });
const film = () => v.strictObject({ hWPerM2K: number(0, 1e9, { unit: 'W/m²K' }) });

const CASE_SCHEMA = v.looseObject({
  material: v.strictObject({
    densityKgPerM3: number(0, 30_000, { unit: 'kg/m³', above: true }),
    heatCapacityJPerKgK: number(0, 100_000, { unit: 'J/kgK', above: true }),
    conductivityWPerMK: number(0, 1000, { unit: 'W/mK', above: true }),
  }),
  kinetics: v.strictObject({
    heatJPerKg: number(0, 2e6, { unit: 'J/kg' }),
    activationJPerMol: number(0, 500_000, { unit: 'J/mol' }),
    k2PerS: number(0, 1e3, { unit: '1/s' }),
    atC: temperature(),
    k1OverK2: number(0, 1e3),
    m: number(0, 10),
    n: number(LEAST_N, 10),
    brake: v.optional(v.strictObject({ c: number(0, 1000), alpha0: number(-10, 10), alphaPerK: number(-1, 1, { unit: '1/K' }), atC: temperature() })),
    gelAlpha: number(0, 1, { above: true, below: true }),
  }),
  room: list(v.strictObject({ fromH: number(-MOST.hours, MOST.hours, { unit: 'h' }), temperatureC: temperature() }), MOST.spans),
  top: film(),
  bottom: film(),
  side: v.strictObject({ wPerM3K: number(0, 1e9, { unit: 'W/m³K' }) }),
  pours: list(v.strictObject({ depthMm: number(0, MOST.depthMm, { unit: 'mm', above: true }), atH: hour(), mixC: v.optional(temperature()) }), MOST.pours),
  endH: hour(),
});

/** Times in hours from the case's own zero; heights from the floor up. A pour without `mixC` is as warm as the room. */
export type CureCase = v.InferOutput<typeof CASE_SCHEMA>;

/** `aside`: paths of fields that say nothing to us, and were left aside. */
export type CaseReading = { readonly ok: true; readonly case: CureCase; readonly aside: readonly string[] } | { readonly ok: false; readonly problems: readonly Problem[] };

/** Reads a parsed file: a case, or an object that holds one as `case`. Never throws on any JSON value. */
export function readCase(document: unknown): CaseReading {
  const holder = document as { readonly case?: unknown; readonly cases?: unknown } | null;
  const wrapped = isObject(document) && holder!.case !== undefined;
  const at = wrapped ? 'case' : '';
  const content = wrapped ? holder!.case : document;
  if (!isObject(content)) return refused(at, `found ${shown(content)}; expected a case { "material": …, "kinetics": …, "room": …, "pours": … }.`);
  if (!wrapped && Array.isArray(holder!.cases)) return refused('cases', `found a list of ${(holder!.cases as unknown[]).length} cases; expected one. Give the file with one of them.`);
  const parsed = v.safeParse(CASE_SCHEMA, content, { abortPipeEarly: true });
  if (!parsed.success) return { ok: false, problems: parsed.issues.map((issue) => under(at, caseProblem(issue))) };
  const problems = orderProblems(parsed.output).map((problem) => under(at, problem));
  if (problems.length > 0) return { ok: false, problems };
  const known = [...Object.keys(CASE_SCHEMA.entries), ...BESIDE];
  const aside = [...(wrapped ? unknownIn(holder!, BESIDE) : []), ...unknownIn(content as object, known).map((key) => (at ? `${at}.${key}` : key))];
  return { ok: true, case: parsed.output, aside };
}

function unknownIn(value: object, known: readonly string[]): string[] {
  return Object.keys(value).filter((key) => !known.includes(key));
}

function refused(path: string, message: string): CaseReading {
  return { ok: false, problems: [{ path, message }] };
}

function under(at: string, { path, message }: Problem): Problem {
  return { path: at && path ? `${at}.${path}` : at || path, message };
}

function caseProblem(issue: v.BaseIssue<unknown>): Problem {
  const problem = problemOf(issue, CASE_SCHEMA as unknown as Walkable);
  if (issue.type !== 'strict_object' || issue.expected !== 'never') return problem;
  return { path: problem.path, message: 'is not a field of a case; expected it spelled as in the format, or left out.' };
}

/** What no single field can say: the order of moments. */
function orderProblems({ room, pours, endH }: CureCase): Problem[] {
  const problems: Problem[] = [];
  if (room[0].fromH > 0) problems.push({ path: 'room[0].fromH', message: `found ${room[0].fromH} h; expected 0 or earlier, so that the room is known from the start.` });
  ascending(problems, room.map(({ fromH }) => fromH), (k) => `room[${k}].fromH`);
  ascending(problems, pours.map(({ atH }) => atH), (k) => `pours[${k}].atH`);
  const lastH = pours[pours.length - 1].atH;
  if (endH <= lastH) problems.push({ path: 'endH', message: `found ${endH} h; expected more than ${lastH} h, when the last pour is made.` });
  return problems;
}

function ascending(problems: Problem[], hours: readonly number[], pathOf: (k: number) => string): void {
  for (let k = 1; k < hours.length; k++) {
    if (hours[k] <= hours[k - 1]) problems.push({ path: pathOf(k), message: `found ${hours[k]} h; expected more than ${hours[k - 1]} h, the one before it. List them in order of time.` });
  }
}
