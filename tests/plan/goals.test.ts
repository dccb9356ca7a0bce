/**
 * Random scenes planned for each goal, and every plan held against the contract by the independent checker: limits, locks,
 * windows, hours. By its own measure no goal does worse than the even plan. Seeds are in the titles.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { openBooleans } from '../../src/files/booleans.ts';
import type { Booleans } from '../../src/core/solid/solid.ts';
import type { PlanJson, SceneJson } from './check-types.ts';
import { minutesOf } from './check-time.ts';
import { checkPlan } from './checker.ts';
import { planJson } from './plan-json.ts';
import { randomScene } from './random-scenes.ts';

const FIRST_SEED = 26_000;
const SCENES = Number(process.env.STILLPOOL_GOAL_SCENES ?? 60);
const GOALS = ['fewest', 'soonest', 'coolest', 'cheapest'] as const;
const TOLD = 5;
/** Starts of a goal's plan are whole minutes; those of the even plan need not be. Minutes a pour. */
const WHOLE_MIN = 1;
const TIMEOUT_MS = 120_000;

let booleans: Booleans;
beforeAll(async () => {
  booleans = await openBooleans();
});

describe('random scenes for a goal', () => {
  for (const goal of GOALS) {
    it(`${goal}: seeds ${FIRST_SEED} to ${FIRST_SEED + SCENES - 1} within every limit, and no worse than even`, { timeout: TIMEOUT_MS }, () => {
      const broken: string[] = [];
      for (let seed = FIRST_SEED; seed < FIRST_SEED + SCENES && broken.length < TOLD; seed++) {
        const scene = randomScene(seed);
        const asked = { ...scene, plan: { goal } } as SceneJson;
        const plan = planJson(asked, booleans);
        const problems = [...checkPlan(asked, plan), ...worseThanEven(goal, plan, planJson(scene, booleans))];
        if (problems.length > 0) broken.push(`seed ${seed}: ${problems[0]}`);
      }
      expect(broken).toEqual([]);
    });
  }

  it('pins and avoided heights hold', { timeout: TIMEOUT_MS }, () => {
    const broken: string[] = [];
    for (let seed = FIRST_SEED; seed < FIRST_SEED + SCENES / 4; seed++) {
      const scene = randomScene(seed);
      const pin = Math.round(scene.fillMm * 0.37 * 10) / 10;
      const from = Math.round(scene.fillMm * 0.6 * 10) / 10;
      const asked = { ...scene, plan: { goal: 'fewest', pins: [pin], avoid: [{ fromMm: from, toMm: from + 0.7 }] } } as SceneJson;
      const problems = checkPlan(asked, planJson(asked, booleans));
      if (problems.length > 0) broken.push(`seed ${seed}: ${problems[0]}`);
    }
    expect(broken).toEqual([]);
  });
});

/** Measured from the plans' own JSON. A plan that keeps a lock, or the least depth, that the even one gives up is let be. */
function worseThanEven(goal: (typeof GOALS)[number], plan: PlanJson, even: PlanJson): string[] {
  const count = (p: PlanJson, code: string) => p.findings.filter((finding) => finding.code === code).length;
  if (['cannot-lock', 'layer-too-thin'].some((code) => count(plan, code) < count(even, code))) return [];
  const mixMl = (p: PlanJson) => p.pours.reduce((sum, pour) => sum + pour.mixMl, 0);
  if (goal === 'fewest' && plan.pours.length > even.pours.length) return [`${plan.pours.length} pours where the even plan has ${even.pours.length}`];
  if (goal === 'soonest' && minutesOf(plan.finish) > minutesOf(even.finish) + WHOLE_MIN * plan.pours.length) return [`done ${plan.finish}, the even plan ${even.finish}`];
  if (goal === 'cheapest' && plan.layers.every(({ formula }) => formula === plan.layers[0].formula) && mixMl(plan) > mixMl(even) * (1 + 1e-9)) return [`${mixMl(plan)} mL to mix, the even plan ${mixMl(even)}`];
  return [];
}
