/**
 * How much faster than its label a test cup shows a resin to be, at the least. Asked of every member alike: how fast
 * must it go to be as warm, as soon, as was read? Readings that are hotter or sooner can only ask for more; so a faster
 * cup never makes anything looser, whatever else is read before or after.
 */
import { runInCup } from './cup-run.ts';
import { CUP_HOT_C, type HotCup, type Member } from './family-types.ts';
import { MIX_READ_MIN, READING_K, READING_SHARE } from './family-narrow.ts';
import { TIME_SPREAD } from './label-times.ts';
import type { Formula } from '../scene/scene.ts';
import type { CupReading, TestCup } from './test-cup.ts';
import { usableMinutes } from './usable-minutes.ts';

/** Faster than this no cup is told apart; by then no depth is safe. As a logarithm. */
const MOST = Math.log(100);
/** Speeds are found to this, as a logarithm. */
const APART = 1e-3;
/** A rise over this says no more than "it ran away": how hot in the end depends on the cup, not on the speed. K. */
const MOST_RISE_K = 50;
/** No bottle is warmed over this: a hotter first reading is the resin's own heat (common practice, no source). °C. */
const MOST_MIX_C = 40;

/** 1 where the cup bears its label out within what a label's times are known to; else how many times faster, by half of the members. */
export function hasteOf(cup: TestCup, members: readonly Member[]): number {
  const asked = askedOf(cup);
  const speeds = members.map((member) => leastSpeed(cup, member, asked)).sort((a, b) => a - b);
  return speeds[Math.floor(speeds.length / 2)];
}

/** A cup that passed 50 °C while its label still had it poured; null: it did not. */
export function hotCupOf(cup: TestCup, formula: Formula): HotCup | null {
  const { massG, roomC, readings } = cup;
  const at = readings.findIndex(({ temperatureC }) => temperatureC > CUP_HOT_C);
  if (at < 0) return null;
  const { min, temperatureC } = readings[at];
  const before = readings[at - 1] ?? { min: 0, temperatureC: Math.min(roomC, CUP_HOT_C) };
  const afterMin = before.min + ((CUP_HOT_C - before.temperatureC) / (temperatureC - before.temperatureC)) * (min - before.min);
  return afterMin < usableMinutes(formula, massG, roomC) ? { massG, afterMin } : null;
}

interface Asked {
  readonly mixC: number;
  /** Ascending in both. */
  readonly atLeast: readonly CupReading[];
}

/** What it was at least, with a thermometer's error taken off; readings under an earlier one ask for nothing more. */
function askedOf({ readings, roomC }: TestCup): Asked {
  const [first] = readings;
  const mixC = first.min <= MIX_READ_MIN ? Math.min(MOST_MIX_C, first.temperatureC) : roomC;
  const baseC = Math.max(mixC, roomC);
  let hottestC = baseC;
  const atLeast: CupReading[] = [];
  for (const { min, temperatureC } of readings) {
    const rise = temperatureC - baseC;
    const leastC = baseC + Math.min(MOST_RISE_K, rise - READING_K - READING_SHARE * rise);
    if (leastC <= hottestC) continue;
    hottestC = leastC;
    atLeast.push({ min, temperatureC: leastC });
  }
  return { mixC, atLeast };
}

function leastSpeed(cup: TestCup, member: Member, asked: Asked): number {
  if (isAsWarm(cup, member, { ...asked, speed: Math.exp(TIME_SPREAD) })) return 1;
  let [low, high] = [TIME_SPREAD, MOST];
  while (high - low > APART) {
    const middle = (low + high) / 2;
    if (isAsWarm(cup, member, { ...asked, speed: Math.exp(middle) })) high = middle;
    else low = middle;
  }
  return Math.exp(high);
}

function isAsWarm({ massG, cup: kind, roomC }: TestCup, member: Member, { mixC, atLeast, speed }: Asked & { readonly speed: number }): boolean {
  if (atLeast.length === 0) return true;
  let [next, beforeMin, beforeC, hottestC] = [0, 0, mixC, mixC];
  runInCup(member, { massG, kind, roomC, mixC, rate: member.cupRate * speed, untilS: atLeast[atLeast.length - 1].min * 60 + 1 }, (timeS, middleC) => {
    const min = timeS / 60;
    for (; next < atLeast.length && atLeast[next].min <= min; next++) {
      const share = min > beforeMin ? (atLeast[next].min - beforeMin) / (min - beforeMin) : 1;
      if (Math.max(hottestC, beforeC + share * (middleC - beforeC)) < atLeast[next].temperatureC) return true;
    }
    [beforeMin, beforeC, hottestC] = [min, middleC, Math.max(hottestC, middleC)];
    return next === atLeast.length;
  });
  return next === atLeast.length;
}
