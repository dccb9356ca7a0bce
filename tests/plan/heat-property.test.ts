/** Random scenes under random heat, held against the contract by the checker that shares nothing with the planner, and against the same scene by its label. */
import { beforeAll, describe, expect, it } from 'vitest';
import { openBooleans } from '../../src/files/booleans.ts';
import type { Booleans } from '../../src/core/solid/solid.ts';
import { minutesOf } from './check-time.ts';
import type { PlanJson } from './check-types.ts';
import { checkPlan } from './checker.ts';
import { randomHeat } from './made-heat.ts';
import { planJson } from './plan-json.ts';
import { randomScene } from './random-scenes.ts';

const FIRST_SEED = 40_000;
const SCENES = 300;
const TOLD = 5;
const TIMEOUT_MS = 120_000;

let booleans: Booleans;
beforeAll(async () => {
  booleans = await openBooleans();
});

describe('random scenes under random heat', () => {
  const seen = { finer: 0, hot: 0, near: 0, later: 0, rerouted: 0, judged: 0, pours: 0 };

  it(`keep every limit of heat and label, seeds ${FIRST_SEED} to ${FIRST_SEED + SCENES - 1}`, { timeout: TIMEOUT_MS }, () => {
    const broken: string[] = [];
    for (let seed = FIRST_SEED; seed < FIRST_SEED + SCENES && broken.length < TOLD; seed++) {
      const scene = { ...randomScene(seed), heat: { model: 'simulated' } };
      const label = planJson({ ...scene, heat: { model: 'label' } }, booleans);
      const heat = randomHeat(seed);
      const plan = planJson(scene, booleans, heat);
      broken.push(...[...checkPlan(scene, plan), ...looser(plan, label)].map((problem) => `seed ${seed}: ${problem}`));
      if (JSON.stringify(planJson(scene, booleans, randomHeat(seed))) !== JSON.stringify(plan)) broken.push(`seed ${seed}: another plan the second time`);
      seen.finer += Number(plan.pours.length > label.pours.length);
      seen.hot += Number(plan.findings.some(({ code }) => code === 'hot'));
      seen.near += Number(plan.findings.some(({ code }) => code === 'near-runaway'));
      seen.later += Number(minutesOf(plan.finish) > minutesOf(label.finish));
      seen.rerouted += Number(plan.pours.some(({ route }, i) => plan.pours.length === label.pours.length && route !== label.pours[i].route));
      seen.judged += heat.judged();
      seen.pours += plan.pours.length;
    }
    expect(broken).toEqual([]);
  });

  it('among them every rule had something to do, and pours were judged a few times each', () => {
    for (const rule of ['finer', 'hot', 'near', 'later', 'rerouted'] as const) expect(seen[rule], rule).toBeGreaterThan(20);
    expect(seen.judged / seen.pours).toBeLessThan(4);
  });
});

/** Where a plan under heat allows more than the one by the label. Fewer pours than the label's, or deeper ones, can't be. */
function looser(plan: PlanJson, label: PlanJson): string[] {
  const problems: string[] = [];
  for (const layer of label.layers) {
    const of = ({ pours }: PlanJson) => pours.filter((pour) => pour.layer === layer.index);
    if (of(plan).length < of(label).length) problems.push(`layer ${layer.index} has ${of(plan).length} pours, by the label ${of(label).length}`);
  }
  return problems;
}
