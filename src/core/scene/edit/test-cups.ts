/** Test cups of a formula: measured, mended, taken out. What they tell is for the plan to say. */
import type { CupReading, TestCup } from '../../cure/test-cup.ts';
import { capital, counted, plain } from '../../units/format.ts';
import { done, refused, type EditResult, type SceneFile } from './file.ts';
import { formulaIn } from './formulas.ts';
import { patched, replacedAt, unlessEmpty } from './replace.ts';

/** A cup of a formula with its place among all of the scene's. */
export interface PlacedCup {
  readonly at: number;
  readonly cup: TestCup;
}

export function testCupsOf(file: SceneFile, formula: string): readonly PlacedCup[] {
  return (file.testCups ?? []).flatMap((cup, at) => (cup.formula === formula ? [{ at, cup }] : []));
}

/** Readings in any order; they are put in order of time. */
export function addTestCup(file: SceneFile, cup: TestCup): EditResult {
  if (!formulaIn(file, cup.formula)) return refused('That formula is no longer in the scene.');
  return withCups(file, [...(file.testCups ?? []), inOrder(cup)], `test cup of ${plain(cup.massG, 1)}\u00a0g with ${counted(cup.readings.length, 'reading')}`);
}

/** Of a cup as it was read from the scene, at its place. */
export function changeTestCup(file: SceneFile, at: number, patch: Partial<Omit<TestCup, 'formula'>>): EditResult {
  const cup = file.testCups?.[at];
  if (!cup) return refused('That test cup is no longer in the scene.');
  return withCups(file, replacedAt(file.testCups!, at, inOrder({ ...cup, ...patch })), 'test cup changed');
}

export function removeTestCup(file: SceneFile, at: number): EditResult {
  if (!file.testCups?.[at]) return refused('That test cup is no longer in the scene.');
  return withCups(file, file.testCups.filter((_, i) => i !== at), 'test cup taken out');
}

function inOrder(cup: TestCup): TestCup {
  return { ...cup, readings: [...cup.readings].sort((a: CupReading, b: CupReading) => a.min - b.min) };
}

/** The reader names the place in the file; a person has only this one cup in mind. */
function withCups(file: SceneFile, testCups: readonly TestCup[], label: string): EditResult {
  const result = done(patched(file, { testCups: unlessEmpty(testCups) }), label);
  if (result.ok) return result;
  const field = /^testCups\[\d+\](?:\.readings(?:\[(\d+)\])?)?\.?(\w*):? (.*)$/.exec(result.reason);
  if (!field) return result;
  const [, reading, name, message] = field;
  return refused(`${capital(reading === undefined ? (FIELD_WORDS[name] ?? 'test cup') : `reading ${Number(reading) + 1}`)}: ${message}`);
}

const FIELD_WORDS: Readonly<Record<string, string>> = { massG: 'grams', roomC: 'room', cup: 'cup', formula: 'formula' };
