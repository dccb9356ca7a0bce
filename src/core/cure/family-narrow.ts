/**
 * What a test cup says of a family's members: each is run in the cup, at the speed that explains the readings best, and
 * weighed by how well it does (Bayes, with normal errors). Each cup is fitted alone: a dangerous one is not outvoted.
 */
import { runInCup } from './cup-run.ts';
import type { Member } from './family-types.ts';
import { TIME_SPREAD } from './label-times.ts';
import type { TestCup } from './test-cup.ts';

/** A thermometer in a cup of nobody's exact shape: K, and a share of the rise. */
export const READING_K = 2;
export const READING_SHARE = 0.08;
/** Readings of one cup err together: they count as at most this many. */
const READINGS_COUNT = 6;
/** A reading in the first minutes is that of the mix. */
export const MIX_READ_MIN = 3;
/** Speeds tried around the label's, as factors: evenly in their logarithm. */
const SPEEDS = Array.from({ length: 17 }, (_, i) => Math.exp((i - 8) * 0.2));
/** Mean square of a reading's error, in its own spread, from which no member explains it. */
const UNEXPLAINED = 6;

/** What one member makes of a cup. */
export interface Seen {
  /** −2 ln of the likelihood and of the speed it took, together. */
  readonly misfit: number;
  /** Logarithm of the speed that explains the readings best, against the pot life's. */
  readonly speed: number;
  /** Mean square error of a reading, in spreads. */
  readonly perReading: number;
}

export interface Told {
  readonly weights: readonly number[];
  /** How many times faster than its label it went, by the best fit. */
  readonly speed: number;
  readonly leftFraction: number;
  /** No member explains the readings. */
  readonly unexplained: boolean;
}

export function seenBy(member: Member, cup: TestCup): Seen {
  const { length } = cup.readings;
  return SPEEDS.map((speed): Seen => {
    const sum = squaresOf(cup, member, speed);
    return { misfit: (Math.log(speed) / TIME_SPREAD) ** 2 + (sum * Math.min(READINGS_COUNT, length)) / length, speed: Math.log(speed), perReading: sum / length };
  }).reduce((a, b) => (b.misfit < a.misfit ? b : a));
}

/** What all members together make of a cup. */
export function toldBy(seen: readonly Seen[]): Told {
  const least = Math.min(...seen.map(({ misfit }) => misfit));
  const raw = seen.map(({ misfit }) => Math.exp((least - misfit) / 2));
  const sum = raw.reduce((a, b) => a + b, 0);
  const weights = raw.map((weight) => weight / sum);
  return {
    weights,
    speed: Math.exp(seen.reduce((total, one, i) => total + weights[i] * one.speed, 0)),
    leftFraction: 1 / weights.reduce((total, weight) => total + weight * weight, 0) / weights.length,
    unexplained: Math.min(...seen.map(({ perReading }) => perReading)) > UNEXPLAINED,
  };
}

/** Σ of the squares of what the readings differ by, each in its own spread. */
function squaresOf(cup: TestCup, member: Member, speed: number): number {
  const { readings, roomC, massG, cup: kind } = cup;
  const mixC = readings[0].min <= MIX_READ_MIN ? readings[0].temperatureC : roomC;
  let [sum, next] = [0, 0];
  let [beforeMin, beforeC] = [0, mixC];
  const take = (timeMin: number, middleC: number) => {
    for (; next < readings.length && readings[next].min <= timeMin; next++) {
      const { min, temperatureC } = readings[next];
      const share = timeMin > beforeMin ? (min - beforeMin) / (timeMin - beforeMin) : 1;
      const expectedC = beforeC + share * (middleC - beforeC);
      sum += ((temperatureC - expectedC) / (READING_K + READING_SHARE * Math.abs(temperatureC - roomC))) ** 2;
    }
    [beforeMin, beforeC] = [timeMin, middleC];
    return next === readings.length;
  };
  runInCup(member, { massG, kind, roomC, mixC, rate: member.cupRate * speed, untilS: readings[readings.length - 1].min * 60 + 1 }, (timeS, middleC) => take(timeS / 60, middleC));
  return sum;
}
