/**
 * A test cup: some grams left to cure in a cup, with its temperature read a few times. Reading it from a scene, and
 * what a formula's family makes of it (family-narrow.ts).
 */
import { isObject } from '../units/object.ts';
import type { CupKind } from './cup-run.ts';

export interface CupReading {
  /** Since it was mixed. */
  readonly min: number;
  readonly temperatureC: number;
}

export interface TestCup {
  /** A formula's id. */
  readonly formula: string;
  readonly massG: number;
  readonly cup: CupKind;
  readonly roomC: number;
  /** Ascending. */
  readonly readings: readonly CupReading[];
}

export interface TestCupProblem {
  /** `testCups[0].readings[2].min`. */
  readonly path: string;
  readonly message: string;
}

export const CUP_KINDS: readonly CupKind[] = ['plastic', 'paper', 'glass', 'metal', 'foam'];
/** Few enough that a logger's night at one reading a second fits. */
export const MOST_READINGS = 100_000;
export const MOST_CUPS = 200;
const CUP_FIELDS = ['formula', 'massG', 'cup', 'roomC', 'readings'];
const READING_FIELDS = ['min', 'temperatureC'];
const MOST_G = 100_000;
/** Two months. */
const MOST_MIN = 90_000;
/** Nothing in a cup is colder or hotter and still resin. */
const TEMPERATURES_C = [-40, 400] as const;

/** A scene's `testCups`: those that can be used, and what is wrong with the others. `undefined` is none. Never throws. */
export function readTestCups(given: unknown): { cups: TestCup[]; problems: TestCupProblem[] } {
  const problems: TestCupProblem[] = [];
  const cups: TestCup[] = [];
  if (given === undefined) return { cups, problems };
  if (!Array.isArray(given) || given.length > MOST_CUPS) {
    problems.push({ path: 'testCups', message: `found ${told(given)}; expected a list of at most ${MOST_CUPS} test cups.` });
    return { cups, problems };
  }
  for (const [i, entry] of given.entries()) {
    const before = problems.length;
    const cup = cupFrom(entry, `testCups[${i}]`, problems);
    if (cup && problems.length === before) cups.push(cup);
  }
  return { cups, problems };
}

function cupFrom(entry: unknown, path: string, problems: TestCupProblem[]): TestCup | null {
  const refuse = (at: string, message: string) => problems.push({ path: at, message });
  if (!isObject(entry)) {
    refuse(path, `found ${told(entry)}; expected an object { … }.`);
    return null;
  }
  const number = (key: string, low: number, high: number, unit: string): number => {
    const value = entry[key];
    if (inSpan(value, low, high)) return value;
    refuse(`${path}.${key}`, `${value === undefined ? 'is missing' : `found ${told(value)}`}; expected a number from ${low} to ${high} ${unit}.${value === undefined ? unknownIn(entry, CUP_FIELDS) : ''}`);
    return Number.NaN;
  };
  const formula = typeof entry.formula === 'string' && entry.formula !== '' ? entry.formula : '';
  if (formula === '') refuse(`${path}.formula`, `${entry.formula === undefined ? 'is missing' : `found ${told(entry.formula)}`}; expected the id of a formula.${entry.formula === undefined ? unknownIn(entry, CUP_FIELDS) : ''}`);
  const cup = (entry.cup === undefined ? 'plastic' : entry.cup) as CupKind;
  if (!CUP_KINDS.includes(cup)) refuse(`${path}.cup`, `found ${told(cup)}; expected one of ${CUP_KINDS.map((kind) => `"${kind}"`).join(', ')}.`);
  return { formula, cup, massG: number('massG', 1, MOST_G, 'g'), roomC: number('roomC', -20, 60, '°C'), readings: readingsFrom(entry.readings, `${path}.readings`, problems) };
}

function readingsFrom(given: unknown, path: string, problems: TestCupProblem[]): CupReading[] {
  if (!Array.isArray(given) || given.length < 1 || given.length > MOST_READINGS) {
    problems.push({ path, message: `${given === undefined ? 'is missing' : `found ${told(given)}`}; expected a list of 1 to ${MOST_READINGS} readings { min, temperatureC }.` });
    return [];
  }
  const readings: CupReading[] = [];
  for (const [i, entry] of given.entries()) {
    const flaw = flawOf(entry, readings[readings.length - 1]);
    if (flaw) {
      problems.push({ path: `${path}[${i}]${flaw.field}`, message: flaw.message });
      return [];
    }
    readings.push({ min: entry.min, temperatureC: entry.temperatureC });
  }
  return readings;
}

/** What keeps a reading from following the one before it; null: nothing. */
export function flawOf(entry: unknown, before: CupReading | undefined): { field: '' | '.min' | '.temperatureC'; message: string } | null {
  if (!isObject(entry)) return { field: '', message: `found ${told(entry)}; expected { min, temperatureC }.` };
  const { min, temperatureC } = entry;
  if (!inSpan(min, 0, MOST_MIN)) return { field: '.min', message: `${min === undefined ? 'is missing' : `found ${told(min)}`}; expected minutes since mixing, from 0 to ${MOST_MIN}.${min === undefined ? unknownIn(entry, READING_FIELDS) : ''}` };
  if (before && min <= before.min) return { field: '.min', message: `found ${min} after ${before.min}; expected readings one after the other. Put them in order.` };
  const [low, high] = TEMPERATURES_C;
  if (!inSpan(temperatureC, low, high)) return { field: '.temperatureC', message: `${temperatureC === undefined ? 'is missing' : `found ${told(temperatureC)}`}; expected ${low} to ${high} °C.${temperatureC === undefined ? unknownIn(entry, READING_FIELDS) : ''}` };
  return null;
}

/** What stands there instead of a missing field: mostly that field, spelled otherwise. */
function unknownIn(entry: Record<string, unknown>, known: readonly string[]): string {
  const [other] = Object.keys(entry).filter((key) => !known.includes(key));
  return other === undefined ? '' : ` There is ${told(other)}, which is not known: spell the fields ${known.join(', ')}.`;
}

function inSpan(value: unknown, low: number, high: number): value is number {
  return typeof value === 'number' && Number.isFinite(value) && value >= low && value <= high;
}

function told(value: unknown): string {
  if (Array.isArray(value)) return `a list of ${value.length}`;
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}
