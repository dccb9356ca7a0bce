/**
 * Finishes that a person could ask for, on random scenes, each planned as the command does it and held against a checker
 * that shares nothing with the planner; and faults planted in a good one. Seeds are in the titles.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Booleans } from '../../src/core/solid/solid.ts';
import { openBooleans } from '../../src/files/booleans.ts';
import type { CoatJson, FinishingJson, PlanJson, SceneJson, StepJson } from './check-types.ts';
import { checkPlan } from './checker.ts';
import { GOOD_SCENE } from './good-scene.ts';
import { planJson } from './plan-json.ts';
import { mulberry32, randomScene } from './random-scenes.ts';

const FIRST_SEED = 61_000;
const SCENES = Number(process.env.STILLPOOL_FINISHES ?? 60);
const FACES = ['as-cast', 'sanded', 'polished', 'flood-coat', 'hidden'];

let booleans: Booleans;
beforeAll(async () => {
  booleans = await openBooleans();
});

describe('random finishes', () => {
  const seen = { coats: 0, polished: 0, warm: 0, kept: 0, round: 0 };

  it(`plans seeds ${FIRST_SEED} to ${FIRST_SEED + SCENES - 1} in order, in bench hours, with what the coats take`, { timeout: 120_000 }, () => {
    const broken: string[] = [];
    for (let seed = FIRST_SEED; seed < FIRST_SEED + SCENES && broken.length < 5; seed++) {
      const scene = withFinish(randomScene(seed), seed);
      const plan = planJson(scene, booleans);
      seen.coats += plan.finishing!.coats.length;
      seen.polished += plan.steps.some(({ finishing }) => finishing?.work === 'polish') ? 1 : 0;
      seen.warm += plan.finishing!.warmRest ? 1 : 0;
      seen.kept += scene.mold.keep ? 1 : 0;
      seen.round += scene.mold.shape === 'round' ? 1 : 0;
      broken.push(...checkPlan(scene, plan).slice(0, 1).map((problem) => `seed ${seed}: ${problem}`));
    }
    expect(broken).toEqual([]);
  });

  it('among them there was something to do for every rule', () => {
    for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThan(5);
  });
});

type Open<T> = T extends readonly (infer U)[] ? Open<U>[] : T extends object ? { -readonly [K in keyof T]: Open<T[K]> } : T;
type OpenPlan = Open<PlanJson>;

describe('faults', () => {
  const scene = { ...GOOD_SCENE, placements: GOOD_SCENE.placements.filter(({ id }) => id !== 'p3'), finishing: { top: 'flood-coat', sides: 'flood-coat', bottom: 'polished', base: 'felt' } };
  let good: PlanJson;
  beforeAll(() => {
    good = planJson(scene, booleans);
  });

  it('finds none in a good plan', () => {
    expect(checkPlan(scene, good)).toEqual([]);
  });

  const steps = (plan: OpenPlan, work: string): Open<StepJson>[] => plan.steps.filter((step) => step.finishing?.work === work);
  const night = (plan: OpenPlan, work: string) => {
    const [step] = steps(plan, work);
    step.from = `${step.from.slice(0, 11)}03:00`;
    step.to = `${step.to.slice(0, 11)}03:15`;
  };
  it.each<[string, (plan: OpenPlan) => void, RegExp]>([
    ['sanding at night', (plan) => night(plan, 'sand'), /sand from .*03:00 .* outside bench hours/],
    ['polish at night', (plan) => night(plan, 'polish'), /polish from .*03:00 .* outside bench hours/],
    ['a coat without its watching', (plan) => { const [step] = steps(plan, 'coat'); step.from = `${step.from.slice(0, 11)}19:30`; step.to = `${step.to.slice(0, 11)}20:00`; }, /coat from .*19:30 to .*20:00 is outside bench hours/],
    ['a coat before the last is firm', (plan) => { const coats = plan.finishing!.coats; coats[1].starts = coats[0].ends; coats[1].ends = coats[0].firm; }, /coat of the right is poured .*, before the one before it is firm/],
    ['polish before the coat is hard', (plan) => { for (const coat of plan.finishing!.coats) coat.hard = coat.firm; }, /is hard/],
    ['sanding before the rest is over', (plan) => { const [step] = steps(plan, 'edges'); const [trim] = steps(plan, 'trim'); step.from = trim.to; step.to = trim.to; }, /is worked on before it is fully hard/],
    ['a face not coated', (plan) => { plan.finishing!.coats.pop(); }, /where .* are asked for/],
    ['an area without its lean', (plan) => { const coat: Open<CoatJson> = plan.finishing!.coats[0]; coat.netMl *= Math.cos((3 * Math.PI) / 180); }, /the coat of the front is .* mL where/],
    ['parts swapped', (plan) => { const [coat] = plan.finishing!.coats; [coat.partA, coat.partB] = [coat.partB, coat.partA]; }, /the coat of the front part A/],
    ['a scale stop off by a division', (plan) => { plan.finishing!.coats[0].batches[0].scaleStopsG[1] += 0.1; }, /the coat of the front scale stop 2/],
    ['coats left out of the shopping', (plan) => { plan.shopping.pop(); }, /shopping/],
    ['a warm rest that nobody asked for', (plan) => { plan.finishing!.warmRest = { temperatureC: 45, from: plan.ready!, to: plan.ready! }; }, /a warm rest that nobody asked for/],
    ['hours left out', (plan) => { plan.finishing!.handsH -= 0.25; }, /hands are at the finish for/],
    ['polish before the coats', (plan) => { const polish = plan.steps.findIndex(({ finishing }) => finishing?.work === 'polish'); const coat = plan.steps.findIndex(({ finishing }) => finishing?.work === 'coat'); plan.steps.splice(coat, 0, ...plan.steps.splice(polish, 1)); }, /the coat at .* comes after a polish/],
  ])('sees %s', (_what, plant, says) => {
    const plan = JSON.parse(JSON.stringify(good)) as OpenPlan;
    plant(plan);
    expect(checkPlan(scene, plan as PlanJson).join('\n')).toMatch(says);
  });
});

/** Any finish; a coat of a formula of the scene’s now and then, where its label allows the thickness. */
function withFinish(scene: SceneJson, seed: number): SceneJson {
  const next = mulberry32(seed ^ 0x5f1d);
  const pick = <T>(from: readonly T[]): T => from[Math.floor(next() * from.length)];
  const own = (scene.formulas ?? []).find((formula) => (formula.maxDepthMm ?? 0) >= 3);
  const finishing: FinishingJson = {
    top: pick(FACES), sides: pick(FACES), bottom: pick(FACES), edgeMm: pick([0, 0.5, 1]), base: pick(['none', 'felt', 'wood', 'light']),
    coat: own && next() < 0.3 ? { formula: own.id, mm: 3 } : pick([{}, { mm: 1.5 }, { formula: 'general', mm: 3 }]),
    ...(next() < 0.3 ? { postCure: { temperatureC: pick([40, 45, 50, 60]), hours: pick([4, 8]), ...(next() < 0.3 ? { labelC: 55 } : {}) } } : {}),
    ...(next() < 0.3 ? { hours: pick([{ sand: 2.5, polish: 1 }, { trim: 0, edges: 1.2 }, { sand: 20 }]) } : {}),
  };
  return { ...scene, finishing };
}
