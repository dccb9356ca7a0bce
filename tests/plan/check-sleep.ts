/** Sleep: nothing is liquid, from its start until it can be poured on, in hours in which someone sleeps in the room. */

import type { SceneFacts } from './check-scene.ts';
import { benchHours, CLOCK_MIN, firstFit, insideBench, minutesOf, textOf, whenProgressed, type BenchHours, type Interval } from './check-time.ts';
import type { PourJson, Report } from './check-types.ts';

export function nightsBetween({ sleep }: Pick<SceneFacts, 'sleep'>, from: number, to: number): readonly Interval[] {
  return sleep.length > 0 ? benchHours(sleep, from, to).intervals : [];
}

export function checkSleep(nights: readonly Interval[], pours: readonly Pick<PourJson, 'index' | 'starts' | 'opens'>[], report: Report): void {
  for (const { index, starts, opens } of pours) {
    const night = nights.find(({ from, to }) => from < minutesOf(opens) && to > minutesOf(starts));
    if (night) report(`pour ${index} is liquid from ${starts} to ${opens} while someone sleeps from ${textOf(night.from)} to ${textOf(night.to)}`);
  }
}

export interface AwakeStart {
  readonly facts: SceneFacts;
  readonly bench: BenchHours;
  readonly nights: readonly Interval[];
  /** Of the pour, a formula's id. */
  readonly formula: string;
  /** Work right before the pour, min. */
  readonly leadMin?: number;
}

/**
 * The first moment at or after `at` from which the work before a pour, the pour and its watch lie in one interval and the
 * pour is tacky by its label before anyone sleeps: one of `at`, the moments when the bench opens and those when someone gets
 * up, since every other limit is an upper one. NaN where there is none in the horizon.
 */
export function firstAwake(at: number, { facts, bench, nights, formula, leadMin = 0 }: AwakeStart): number {
  const whole = leadMin + facts.pourMin + facts.watchMin;
  if (nights.length === 0) return firstFit(bench, at, whole);
  const { atC, bondOpensH } = facts.formulas.get(formula)!;
  const moments = [at, ...bench.intervals.map(({ from }) => from), ...nights.map(({ to }) => to - leadMin)].filter((moment) => moment >= at).sort((a, b) => a - b);
  return moments.find((moment) => {
    const starts = moment + leadMin;
    const opens = Math.ceil(whenProgressed(facts.room, atC, starts + facts.pourMin, bondOpensH) - CLOCK_MIN);
    return insideBench(bench, moment, moment + whole) && nights.every(({ from, to }) => from >= opens || to <= starts);
  }) ?? NaN;
}
