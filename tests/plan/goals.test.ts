/**
 * Random scenes planned for each goal, and every plan held against the contract by the independent checker: limits, locks,
 * windows, hours. By its own measure no goal does worse than the even plan. Seeds are in the titles.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { simulatedHeat } from '../../src/core/plan/heat-simulated.ts';
import { openBooleans } from '../../src/files/booleans.ts';
import type { Booleans } from '../../src/core/solid/solid.ts';
import type { PlanJson, SceneJson } from './check-types.ts';
import { minutesOf } from './check-time.ts';
import { checkPlan } from './checker.ts';
import { planJson } from './plan-json.ts';
import { scene } from './planning.ts';
import { randomScene } from './random-scenes.ts';

const FIRST_SEED = 26_000;
const SCENES = Number(process.env.STILLPOOL_GOAL_SCENES ?? 40);
/** Judging heat takes some tenths of a second a plan. */
const HEATED = 4;
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
        const drawn = randomScene(seed);
        const asked = { ...drawn, plan: { goal } } as SceneJson;
        const plan = planJson(asked, booleans);
        const problems = [...checkPlan(asked, plan), ...worseThanEven(goal, plan, planJson(drawn, booleans))];
        if (problems.length > 0) broken.push(`seed ${seed}: ${problems[0]}`);
      }
      expect(broken).toEqual([]);
    });
  }

  it(`with heat simulated by the middle of each family: seeds ${FIRST_SEED} to ${FIRST_SEED + HEATED - 1} that have no bed`, { timeout: TIMEOUT_MS }, () => {
    const broken: string[] = [];
    for (let seed = FIRST_SEED; seed < FIRST_SEED + HEATED; seed++) {
      const drawn = { ...randomScene(seed), heat: { model: 'simulated' } };
      if (drawn.placements!.some(({ kind }) => kind === 'bed')) continue;
      for (const goal of GOALS) {
        const asked = { ...drawn, plan: { goal } } as SceneJson;
        const problems = checkPlan(asked, planJson(asked, booleans, simulatedHeat([], { members: 'mean' })));
        if (problems.length > 0) broken.push(`seed ${seed}, ${goal}: ${problems[0]}`);
      }
    }
    expect(broken).toEqual([]);
  });

  it('pins and avoided heights hold', { timeout: TIMEOUT_MS }, () => {
    const broken: string[] = [];
    for (let seed = FIRST_SEED; seed < FIRST_SEED + SCENES / 4; seed++) {
      const drawn = randomScene(seed);
      const pin = Math.round(drawn.fillMm * 0.37 * 10) / 10;
      const from = Math.round(drawn.fillMm * 0.6 * 10) / 10;
      const asked = { ...drawn, plan: { goal: 'fewest', pins: [pin], avoid: [{ fromMm: from, toMm: from + 0.7 }] } } as SceneJson;
      const problems = checkPlan(asked, planJson(asked, booleans));
      if (problems.length > 0) broken.push(`seed ${seed}: ${problems[0]}`);
    }
    expect(broken).toEqual([]);
  });
});

describe('a goal’s plan with a planted fault', () => {
  const asked = { ...scene({ fillMm: 55 }), plan: { goal: 'fewest', pins: [12], avoid: [20] } } as unknown as SceneJson;
  const planted = (change: (plan: { pours: Record<string, unknown>[]; finish: string }) => void) => {
    const plan = structuredClone(planJson(asked, booleans));
    change(plan as never);
    return checkPlan(asked, plan);
  };

  it('is whole without one', () => {
    expect(planted(() => undefined)).toEqual([]);
  });

  it.each<[string, (plan: { pours: Record<string, unknown>[] }) => void, RegExp]>([
    ['a start before the window', ({ pours }) => (pours[1].starts = '2026-05-04T17:00'), /outside the window/],
    ['a pin that no line keeps', ({ pours }) => { pours[0].toMm = 13; pours[0].depthMm = 13; pours[1].fromMm = 13; }, /no line is at 12 mm/],
    ['a line where none may be', ({ pours }) => { pours[1].toMm = 20; pours[2].fromMm = 20; }, /a line is at 20 mm/],
    ['a pour deeper than its label', ({ pours }) => { pours[1].toMm = 40; pours[1].depthMm = 28; pours[2].fromMm = 40; }, /28 mm deep, over the 25 mm/],
    ['a route that is none of the two', ({ pours }) => (pours[1].route = null), /joins by null/],
    ['a start outside bench hours', ({ pours }) => (pours[2].starts = '2026-05-05T03:00'), /outside bench hours/],
  ])('%s turns the checker red', (_name, change, said) => {
    expect(planted(change).join('\n')).toMatch(said);
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
