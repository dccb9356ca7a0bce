/**
 * What test cups say of a family's members: each is run in the cup, at the speed that explains the readings best, and
 * weighed by how well it does (Bayes, with normal errors). A cup never makes a depth greater than the label's; one that
 * ran faster than its label says makes it smaller.
 */
import { cupCooling, runCup } from './cup-run.ts';
import type { Contradiction, Member, Narrowed } from './family-types.ts';
import { TIME_SPREAD } from './label-times.ts';
import type { TestCup } from './test-cup.ts';

/** A thermometer in a cup of nobody's exact shape: K, and a share of the rise. */
const READING_K = 2;
const READING_SHARE = 0.08;
/** Readings of one cup err together: they count as at most this many. */
const READINGS_COUNT = 6;
/** A reading in the first minutes is that of the mix. */
const MIX_READ_MIN = 3;
/** Speeds tried around the label's, as factors: evenly in their logarithm. */
const SPEEDS = Array.from({ length: 17 }, (_, i) => Math.exp((i - 8) * 0.2));
/** Mean square of a reading's error, in its own spread, from which no member explains it. */
const UNEXPLAINED = 6;

/** What one member makes of all cups. */
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
  readonly hastenedBy: number;
  readonly leftFraction: number;
  readonly contradictions: readonly Contradiction[];
}

export interface Narrowing {
  see(member: Member): Seen;
  tell(seen: readonly Seen[]): Told;
  describe(told: Told & { readonly before: readonly [number, number]; readonly after: readonly [number, number] }): Narrowed;
}

/** For cups of one formula, at least one. */
export function narrowing(cups: readonly TestCup[]): Narrowing {
  const readings = cups.reduce((sum, cup) => sum + cup.readings.length, 0);
  return {
    see: (member) =>
      SPEEDS.map((speed): Seen => {
        let [misfit, square] = [(Math.log(speed) / TIME_SPREAD) ** 2, 0];
        for (const cup of cups) {
          const sum = squaresOf(cup, member, speed);
          square += sum / readings;
          misfit += (sum * Math.min(READINGS_COUNT, cup.readings.length)) / cup.readings.length;
        }
        return { misfit, speed: Math.log(speed), perReading: square };
      }).reduce((a, b) => (b.misfit < a.misfit ? b : a)),
    tell(seen) {
      const least = Math.min(...seen.map(({ misfit }) => misfit));
      const raw = seen.map(({ misfit }) => Math.exp((least - misfit) / 2));
      const sum = raw.reduce((a, b) => a + b, 0);
      const weights = raw.map((weight) => weight / sum);
      const speed = Math.exp(seen.reduce((total, one, i) => total + weights[i] * one.speed, 0));
      const leftFraction = 1 / weights.reduce((total, weight) => total + weight * weight, 0) / weights.length;
      const unexplained = Math.min(...seen.map(({ perReading }) => perReading)) > UNEXPLAINED;
      const contradictions: Contradiction[] = [];
      const off = Math.abs(Math.log(speed)) > TIME_SPREAD;
      if (off) contradictions.push({ field: 'testCup', factor: speed, words: `The test cup went ${times(speed)} than the label’s pot life says. ${speed > 1 ? 'The safe depth is less by that.' : 'The label’s depth stands.'} Check the mixing ratio and the room’s temperature.` });
      if (unexplained) contradictions.push({ field: 'testCup', factor: speed, words: 'The test cup’s readings fit no resin with this label. Check grams, cup, room and the times typed; the label’s depth stands at most.' });
      return { weights, hastenedBy: off && speed > 1 ? speed : 1, leftFraction, contradictions };
    },
    describe({ before, after, leftFraction }) {
      const span = ([low, high]: readonly [number, number]) => `${Math.round(low)} to ${Math.round(high)} °C`;
      return {
        cups: cups.length,
        readings,
        beforeC: before,
        afterC: after,
        leftFraction,
        words: `At three quarters of the label’s depth the peak was expected at ${span(before)}; with the test cup at ${span(after)}.`,
      };
    },
  };
}

function times(speed: number): string {
  return speed > 1 ? `${Number(speed.toPrecision(2))} times faster` : `${Number((1 / speed).toPrecision(2))} times slower`;
}

/** Σ of the squares of what the readings differ by, each in its own spread. */
function squaresOf(cup: TestCup, member: Member, speed: number): number {
  const { readings, roomC, massG, cup: kind } = cup;
  const { kinetics, material, topHWPerM2K, cupRate } = member;
  const mixC = readings[0].min <= MIX_READ_MIN ? readings[0].temperatureC : roomC;
  let [sum, next] = [0, 0];
  let [beforeMin, beforeC] = [0, mixC];
  const cooling = cupCooling({ massG, kind, filmHWPerM2K: topHWPerM2K }, material);
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
  runCup({ kinetics, rate: cupRate * speed, heatCapacityJPerKgK: material.heatCapacityJPerKgK, cooling, roomC, mixC }, readings[readings.length - 1].min * 60 + 1, (timeS, middleC) => take(timeS / 60, middleC));
  return sum;
}
