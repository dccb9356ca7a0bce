/**
 * Fields that were kept before this version used them may hold what somebody else meant by them. What is plainly not in
 * our form is left aside and told, and stays in the file; a value in our form that can't be is refused like any other.
 */
import type { Finding } from '../plan/plan.ts';
import { isObject } from '../units/object.ts';
import { shown } from './schema-problem.ts';

type Json = Record<string, unknown>;

interface Form {
  /** Keys an object of ours always has, and others it may have. */
  readonly always: readonly string[];
  readonly maybe: readonly string[];
}

const SWATCH: Form = { always: ['percent', 'mm', 'passes'], maybe: [] };
const TARGET: Form = { always: ['passes'], maybe: ['how', 'ratio'] };
const BOX: Form = { always: ['temperatureC'], maybe: ['hours'] };
const LISTS: readonly (readonly [inside: string | null, key: string, form: Form])[] = [
  [null, 'stock', { always: ['formula'], maybe: ['ml', 'partAMl', 'partBMl', 'opened', 'keepsDays', 'bestBefore', 'price'] }],
  [null, 'testCups', { always: ['formula', 'massG', 'readings'], maybe: ['cup', 'roomC'] }],
  [null, 'strokes', { always: ['plane', 'ink', 'points'], maybe: ['widthMm', 'softMm'] }],
  ['bench', 'exceptions', { always: ['on'], maybe: ['until', 'hours'] }],
];

/** The document without what is not in our form, and a word on each. */
export function setAside(document: unknown): { readonly document: unknown; readonly notes: Finding[] } {
  if (!isObject(document)) return { document, notes: [] };
  const notes: Finding[] = [];
  let kept: Json = document;
  const drop = (path: string, found: unknown, expected: string) => notes.push(noteOf(path, found, expected));
  if (kept.labor !== undefined && !isObject(kept.labor)) {
    drop('labor', kept.labor, 'an object, like { "perHour": 25 }');
    kept = without(kept, 'labor');
  }
  if (isObject(kept.room)) kept = { ...kept, room: plainRoom(kept.room, drop) };
  for (const [inside, key, form] of LISTS) {
    const holder = inside === null ? kept : kept[inside];
    const list = isObject(holder) ? holder[key] : undefined;
    if (!isObject(holder) || !Array.isArray(list) || !list.some((entry) => isObject(entry) && isForeign(entry, form))) continue;
    drop(inside === null ? key : `${inside}.${key}`, list, `a list of objects with ${named(form)}`);
    kept = inside === null ? without(kept, key) : { ...kept, [inside]: without(holder, key) };
  }
  if (Array.isArray(kept.fills)) kept = { ...kept, fills: kept.fills.map((fill: unknown, i) => plainTint(fill, `fills[${i}].tint`, drop)) };
  return { document: kept, notes };
}

function plainRoom(given: Json, drop: (path: string, found: unknown, expected: string) => void): Json {
  let room = given;
  if (room.humidity !== undefined && typeof room.humidity !== 'number') {
    drop('room.humidity', room.humidity, 'a number of percent, like 55');
    room = without(room, 'humidity');
  }
  if (room.box !== undefined && isForeign(room.box, BOX)) {
    drop('room.box', room.box, `an object with ${named(BOX)}`);
    room = without(room, 'box');
  }
  return room;
}

function plainTint(fill: unknown, path: string, drop: (path: string, found: unknown, expected: string) => void): unknown {
  if (!isObject(fill) || !isObject(fill.tint)) return fill;
  let tint = fill.tint;
  for (const [key, form] of [['swatch', SWATCH], ['target', TARGET]] as const) {
    if (tint[key] === undefined || !isForeign(tint[key], form)) continue;
    drop(`${path}.${key}`, tint[key], `an object with ${named(form)}`);
    tint = without(tint, key);
  }
  return tint === fill.tint ? fill : { ...fill, tint };
}

/** Not an object, or one that lacks what ours have and has what ours don't. */
function isForeign(value: unknown, { always, maybe }: Form): boolean {
  if (!isObject(value)) return true;
  return always.some((key) => !(key in value)) && Object.keys(value).some((key) => !always.includes(key) && !maybe.includes(key));
}

function noteOf(path: string, found: unknown, expected: string): Finding {
  return {
    code: 'unknown-field',
    severity: 'note',
    subject: path,
    message: `${path} is not in a form this version knows: found ${shown(found)}; expected ${expected}. It is kept, and nothing is made of it.`,
    remedy: 'Write it as expected, and it counts.',
  };
}

function named({ always, maybe }: Form): string {
  return `${always.map((key) => `"${key}"`).join(', ')}${maybe.length > 0 ? ` (and, if you like, ${maybe.map((key) => `"${key}"`).join(', ')})` : ''}`;
}

function without(object: Json, key: string): Json {
  return Object.fromEntries(Object.entries(object).filter(([name]) => name !== key));
}
