/** Brute force on small stacks: for every goal the search finds what going through every plan finds. Seeds are in the titles. */
import { describe, expect, it } from 'vitest';
import { bestPlan, prepare, type BestPlan } from '../../../../src/core/plan/best/best-plan.ts';
import { GOALS } from '../../../../src/core/plan/best/problem.ts';
import { formatLocalTime } from '../../../../src/core/units/time.ts';
import { minutesOf } from '../../../plan/check-time.ts';
import { bruteForce, criteriaOf, judged, laidOut, mostPours, plansRoughly, type BrutePour } from './brute.ts';
import { heatedStack, problemFrom, randomStack, type Stack } from './stacks.ts';

const FIRST_SEED = 40_000;
const STACKS = Number(process.env.STILLPOOL_STACKS ?? 300);
/** Stacks with more plans than brute force has time for are left out (about one in fifty). */
const MOST_PLANS = 30_000;
/** A moment that falls on a minute but for arithmetic noise may be rounded to either. */
const ROUNDED_MIN = 1;
const PER_TEST = 50;
const HEATED = Number(process.env.STILLPOOL_STACKS ?? 80);
const CHANGING = Number(process.env.STILLPOOL_STACKS ?? 160);

describe('the best plan of small stacks is what brute force finds', () => {
  for (let first = FIRST_SEED; first < FIRST_SEED + STACKS; first += PER_TEST) {
    it(`seeds ${first} to ${first + PER_TEST - 1}, every goal`, { timeout: 120_000 }, () => {
      const wrong: string[] = [];
      for (let seed = first; seed < first + PER_TEST && wrong.length < 5; seed++) wrong.push(...differences(randomStack(seed)).map((text) => `seed ${seed}: ${text}`));
      expect(wrong).toEqual([]);
    });
  }
});

/** Less depth onto a tacky surface than onto a cured one, and a table of how warm pours get: what the search is given under heat. */
describe('the best plan of small stacks under a table of heat is what brute force finds', () => {
  const first = 90_000;
  it(`seeds ${first} to ${first + HEATED - 1}, every goal`, { timeout: 120_000 }, () => {
    const wrong: string[] = [];
    for (let seed = first; seed < first + HEATED && wrong.length < 5; seed++) wrong.push(...differences(heatedStack(seed)).map((text) => `seed ${seed}: ${text}`));
    expect(wrong).toEqual([]);
  });
});

/** Rooms that get warmer and colder, times in odd minutes: two pours, every minute of a week for the first. */
describe('the best plan in a changing room is what brute force finds minute by minute', () => {
  const first = 60_000;
  it(`of seeds ${first} to ${first + CHANGING - 1} those of at most two pours, every goal`, { timeout: 120_000 }, () => {
    const wrong: string[] = [];
    let compared = 0;
    for (let seed = first; seed < first + CHANGING && wrong.length < 5; seed++) {
      const stack = randomStack(seed, { changing: true, mostPlans: 900 });
      const laid = laidOut(stack);
      if (laid && mostPours(laid) > 2) continue;
      compared++;
      wrong.push(...differences(stack, 1).map((text) => `seed ${seed}: ${text}`));
    }
    expect(wrong).toEqual([]);
    expect(compared).toBeGreaterThan(CHANGING / 8);
  });
});

function differences(stack: Stack, stepMin = 60): string[] {
  const laid = laidOut(stack);
  const prepared = prepare(problemFrom(stack));
  if (!laid || !prepared.ok) return Boolean(laid) === prepared.ok ? [] : ['only one of the two finds lines'];
  if (stepMin === 60 && plansRoughly(laid) > MOST_PLANS) return [];
  const { best } = bruteForce(laid, { stepMin, lastFirst: stepMin === 1 });
  return GOALS.flatMap((goal) => {
    const found = bestPlan(prepared.found, goal);
    const expected = best[goal];
    if (!found.ok || !expected) return found.ok === Boolean(expected) ? [] : [`${goal}: only one of the two finds a plan`];
    const criteria = judged(laid, poursOf(found.found));
    if (typeof criteria === 'string') return [`${goal}: ${criteria}`];
    if (Math.abs(minutesOf(formatLocalTime(found.found.finishMin)) - criteria.finish) > ROUNDED_MIN) return [`${goal}: says it finishes ${formatLocalTime(found.found.finishMin)}`];
    const ours = criteriaOf(goal, criteria).join(' ');
    const theirs = criteriaOf(goal, expected).join(' ');
    return ours === theirs ? [] : [`${goal}: ${ours} where brute force has ${theirs}`];
  });
}

function poursOf({ pours }: BestPlan): BrutePour[] {
  return pours.map(({ layer, fromMm, toMm, formula, starts, route }) => ({ layer, fromMm, toMm, formula: formula.id, starts: minutesOf(formatLocalTime(starts)), route }));
}
