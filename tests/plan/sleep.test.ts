/**
 * Someone sleeps in the room: random scenes, by their labels and under random heat, held against the contract by the checker
 * that shares nothing with the planner; where the planner finds no hours, the checker has to find none either.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { openBooleans } from '../../src/files/booleans.ts';
import type { Booleans } from '../../src/core/solid/solid.ts';
import type { HeatJudge } from '../../src/core/plan/heat-judge.ts';
import { readFacts } from './check-scene.ts';
import { firstAwake, nightsBetween } from './check-sleep.ts';
import { benchHours, minutesOf, whenProgressed } from './check-time.ts';
import type { PlanJson, SceneJson } from './check-types.ts';
import { checkPlan } from './checker.ts';
import { randomHeat } from './made-heat.ts';
import { planJson } from './plan-json.ts';
import { randomScene, withSleep } from './random-scenes.ts';

const FIRST_SEED = 60_000;
const SCENES = 120;
const HEAT_SCENES = 80;
const GOAL_SCENES = 24;
const TOLD = 5;
const TIMEOUT_MS = 120_000;
const WEEK_MIN = 7 * 1440;

let booleans: Booleans;
beforeAll(async () => {
  booleans = await openBooleans();
});

/** Null: refused for want of hours. */
function planned(scene: SceneJson, heat: HeatJudge | null = null): PlanJson | null {
  try {
    return planJson(scene, booleans, heat);
  } catch (error) {
    if ((error as Error).message.startsWith('refused on planning: room.sleep: ')) return null;
    throw error;
  }
}

/** Whether some resin of the scene can never be poured, in the week that repeats. */
function hasNoHours(scene: SceneJson): boolean {
  const facts = readFacts(scene);
  const from = Math.max(facts.startMin, facts.room[facts.room.length - 1].from) + WEEK_MIN;
  const [bench, nights] = [benchHours(facts.hours, from, from + 2 * WEEK_MIN), nightsBetween(facts, from, from + 3 * WEEK_MIN)];
  return facts.fills.some(({ formula }) => Number.isNaN(firstAwake(from, { facts, bench, nights, formula })));
}

describe('hours of sleep', () => {
  it(`are kept by the label, seeds ${FIRST_SEED} to ${FIRST_SEED + SCENES - 1}`, { timeout: TIMEOUT_MS }, () => {
    const broken: string[] = [];
    const seen = { refused: 0, waited: 0, rerouted: 0 };
    for (let seed = FIRST_SEED; seed < FIRST_SEED + SCENES && broken.length < TOLD; seed++) {
      const awake = randomScene(seed);
      const scene = withSleep(awake, seed);
      const plan = planned(scene);
      const heedless = planJson(awake, booleans);
      const sees = checkPlan(scene, heedless).some((problem) => problem.includes('while someone sleeps'));
      if (plan) broken.push(...checkPlan(scene, plan).map((problem) => `seed ${seed}: ${problem}`));
      else if (!hasNoHours(scene)) broken.push(`seed ${seed}: refused, though every resin has its hours`);
      // What is planned as if nobody slept there is no other plan, or a fault that has to be seen.
      if (plan && !sees && plan.finish !== heedless.finish) broken.push(`seed ${seed}: waits, though nothing is liquid in anyone's sleep`);
      seen.refused += Number(plan === null);
      seen.waited += Number(plan !== null && sees);
      seen.rerouted += Number(plan !== null && plan.pours.some(({ route }, i) => route !== heedless.pours[i].route));
    }
    expect(broken).toEqual([]);
    expect(seen.waited).toBeGreaterThan(30);
    expect(seen.refused).toBeGreaterThan(10);
    expect(seen.rerouted).toBeGreaterThan(10);
  });

  it(`are kept under random heat, seeds ${FIRST_SEED} to ${FIRST_SEED + HEAT_SCENES - 1}`, { timeout: TIMEOUT_MS }, () => {
    const broken: string[] = [];
    let warm = 0;
    for (let seed = FIRST_SEED; seed < FIRST_SEED + HEAT_SCENES && broken.length < TOLD; seed++) {
      const scene = { ...withSleep(randomScene(seed), seed), heat: { model: 'simulated' } };
      const plan = planned(scene, randomHeat(seed));
      if (plan) broken.push(...checkPlan(scene, plan).map((problem) => `seed ${seed}: ${problem}`));
      warm += Number(plan?.pours.some((pour) => opensLater(scene, pour)) ?? false);
    }
    expect(broken).toEqual([]);
    expect(warm).toBeGreaterThan(10);
  });

  it(`are kept for other goals, by the label and under heat, seeds ${FIRST_SEED} to ${FIRST_SEED + GOAL_SCENES - 1} that have no bed`, { timeout: TIMEOUT_MS }, () => {
    const broken: string[] = [];
    for (let seed = FIRST_SEED; seed < FIRST_SEED + GOAL_SCENES; seed++) {
      const scene = withSleep(randomScene(seed), seed);
      if (scene.placements!.some(({ kind }) => kind === 'bed')) continue;
      const even = planned(scene);
      for (const goal of ['fewest', 'soonest']) {
        const asked = { ...scene, plan: { goal } };
        const plan = planned(asked);
        if (plan) broken.push(...checkPlan(asked, plan).map((problem) => `seed ${seed}, ${goal}: ${problem}`));
        if (plan && even && goal === 'soonest' && minutesOf(plan.finish) > minutesOf(even.finish) + plan.pours.length) broken.push(`seed ${seed}: soonest is done ${plan.finish}, even ${even.finish}`);
        if ((plan === null) !== (even === null)) broken.push(`seed ${seed}: ${goal} ${plan ? 'has' : 'has no'} hours, even ${even ? 'has' : 'has none'}`);
        const warm = { ...asked, heat: { model: 'simulated' } };
        const judged = planned(warm, randomHeat(seed));
        if (judged) broken.push(...checkPlan(warm, judged).map((problem) => `seed ${seed}, ${goal} under heat: ${problem}`));
      }
    }
    expect(broken).toEqual([]);
  });
});

/** Its warmth keeps it from being poured on for longer than its label says. */
function opensLater(scene: SceneJson, { formula, ends, opens }: PlanJson['pours'][number]): boolean {
  const facts = readFacts(scene);
  const { atC, bondOpensH } = facts.formulas.get(formula)!;
  return minutesOf(opens) > whenProgressed(facts.room, atC, minutesOf(ends), bondOpensH) + 1;
}
