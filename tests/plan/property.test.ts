/**
 * Two thousand random scenes, each read and planned as the command does it, and every plan held against the contract
 * by a checker that shares nothing with the planner. Seeds are in the titles; one scene alone: `randomScene(seed)`.
 */

import { beforeAll, describe, expect, it } from 'vitest';
import { openBooleans } from '../../src/files/booleans.ts';
import type { Booleans } from '../../src/core/solid/solid.ts';
import type { PlanJson, SceneJson } from './check-types.ts';
import { checkPlan } from './checker.ts';
import { planJson } from './plan-json.ts';
import { randomScene } from './random-scenes.ts';

const FIRST_SEED = 20_000;
const SCENES = 2_000;
const PER_TEST = 250;
/** A run that found this many broken plans has said enough. */
const TOLD = 5;
/** Generous: two shared cores took 10 ms a scene, a bed cut by round walls half a second. */
const TIMEOUT_MS = 120_000;

let booleans: Booleans;
const seen = new Map<string, number>();

beforeAll(async () => {
  booleans = await openBooleans();
});

describe('random scenes', () => {
  for (let first = FIRST_SEED; first < FIRST_SEED + SCENES; first += PER_TEST) {
    it(`plans seeds ${first} to ${first + PER_TEST - 1} within every limit`, { timeout: TIMEOUT_MS }, () => {
      const broken: string[] = [];
      for (let seed = first; seed < first + PER_TEST && broken.length < TOLD; seed++) {
        const problem = firstProblem(seed);
        if (problem !== null) broken.push(`seed ${seed}: ${problem}`);
      }
      expect(broken).toEqual([]);
    });
  }

  it('among them every rule had something to do', () => {
    const least = 10;
    const idle = Object.keys(FEATURES).filter((name) => (seen.get(name) ?? 0) < least);
    expect(idle.map((name) => `${name}: ${seen.get(name) ?? 0} of at least ${least}`)).toEqual([]);
    expect((seen.get('has no halt') ?? 0) / SCENES).toBeGreaterThan(0.3);
  });

  it('gives the same scene and plan for the same seed', () => {
    for (const seed of [FIRST_SEED, FIRST_SEED + 1, FIRST_SEED + 2]) {
      expect(randomScene(seed)).toEqual(randomScene(seed));
      expect(planJson(randomScene(seed), booleans)).toEqual(planJson(randomScene(seed), booleans));
    }
  });
});

/** 40 mm in two pours of 20 but for the one that says three, from 2026-05-04T08:00 in daily hours 08:00 to 20:00, no watch; the second pour's start is worked out by hand. */
const EDGES: readonly [string, { f?: object; bench?: object; planes?: readonly object[] }, string][] = [
  ['a pour that ends at the minute the window closes', { f: { bondClosesH: 6 } }, '2026-05-04T13:30'],
  ['a window one minute too short', { f: { bondClosesH: 5.99 } }, '2026-05-05T08:30'],
  ['a window that opens when the last pour of the day just fits', { f: { bondOpensH: 11, bondClosesH: 12 } }, '2026-05-04T19:30'],
  ['a watch that ends with the day', { f: { bondOpensH: 10.5, bondClosesH: 14 }, bench: { watchH: 0.5 } }, '2026-05-04T19:00'],
  ['a watch that does not fit the day', { f: { bondOpensH: 10.75, bondClosesH: 14 }, bench: { watchH: 0.5 } }, '2026-05-05T08:30'],
  ['a start at the last minute of a day', { f: { bondClosesH: 6 }, bench: { start: '2026-05-04T20:00' } }, '2026-05-05T13:30'],
  ['scuffing and painting that fill a day', { planes: [{ atMm: 20, paintH: 11.5, dryH: 1 }] }, '2026-05-06T08:00'],
  ['painting that fills a day, so that the scuff is parted from it', { planes: [{ atMm: 20, paintH: 12, dryH: 1 }] }, '2026-05-07T08:00'],
  ['a layer a hair over two pours, so three of them', { f: { maxDepthMm: 19.995 } }, '2026-05-04T13:30'],
  ['painting longer than a day, gone on with the next morning', { planes: [{ atMm: 20, paintH: 12.25, dryH: 1 }] }, '2026-05-06T09:45'],
];

describe('edges', () => {
  it.each(EDGES)('%s', (_name, { f, bench, planes = [] }, second) => {
    const scene: SceneJson & { heat: object } = {
      format: 'stillpool.scene',
      version: 1,
      mold: { shape: 'box', lengthMm: 100, widthMm: 100, heightMm: 60 },
      fillMm: 40,
      fills: [{ toMm: 40, formula: 'f' }],
      placements: planes.map((plane, i) => ({ id: `p${i}`, kind: 'plane' as const, ...plane })),
      formulas: [{ id: 'f', ratioByVolume: [2, 1], maxDepthMm: 20, atC: 23, bondOpensH: 5, bondClosesH: 20, scuffableH: 20, paintableH: 20, ...f }],
      heat: { model: 'label' },
      bench: { start: '2026-05-04T08:00', hours: [{ days: 'Mon-Sun', from: '08:00', to: '20:00' }], pourH: 0.5, scuffH: 0.5, watchH: 0, ...bench },
    };
    const plan = planJson(scene, booleans);
    expect(plan.pours.map((pour) => pour.starts)[1]).toBe(second);
    expect(checkPlan(scene, plan)).toEqual([]);
  });
});

function firstProblem(seed: number): string | null {
  const scene = randomScene(seed);
  let plan: PlanJson;
  try {
    plan = planJson(scene, booleans);
  } catch (error) {
    return (error as Error).message;
  }
  for (const [name, has] of Object.entries(FEATURES)) if (has(plan, scene)) seen.set(name, (seen.get(name) ?? 0) + 1);
  return checkPlan(scene, plan)[0] ?? null;
}

const finding = (code: string, severity: string) => (plan: PlanJson) => plan.findings.some((f) => f.code === code && f.severity === severity);
const steps = (plan: PlanJson, kind: string) => plan.steps.filter((s) => s.kind === kind);
const solid = (test: (p: NonNullable<SceneJson['placements']>[number]) => boolean) => (_: PlanJson, scene: SceneJson) => (scene.placements ?? []).some(test);

/** What must occur among the scenes, so that no rule of the checker is idle. */
const FEATURES: Readonly<Record<string, (plan: PlanJson, scene: SceneJson) => boolean>> = {
  'has no halt': (plan) => !plan.findings.some((f) => f.severity === 'halt'),
  'joins wet on tacky': (plan) => plan.pours.some((p) => p.route === 'wet-on-tacky'),
  'cures and scuffs without paint': (plan) => steps(plan, 'scuff').length > steps(plan, 'dry').length,
  'paints a plane between pours': (plan) => steps(plan, 'dry').some((s) => s.pour !== null && s.pour < plan.pours.length),
  'paints the floor': (plan) => plan.layers.length > 0 && steps(plan, 'dry').some((s) => s.from < plan.pours[0].starts),
  'paints the top': (plan) => plan.layers[plan.layers.length - 1].stops.some((s) => s.kind === 'plane'),
  'merges stops': (plan) => plan.layers.some((l) => l.stops.length > 1),
  'merges three stops': (plan) => plan.layers.some((l) => l.stops.length > 2),
  'parts painting over bench intervals': (plan) => steps(plan, 'paint').some((s, i, all) => i > 0 && s.placements.join() === all[i - 1].placements.join()),
  'parts scuffing over bench intervals': (plan) => steps(plan, 'scuff').some((s, i, all) => i > 0 && s.pour === all[i - 1].pour),
  'parts a scuff from its work': (plan) => plan.steps.some((s, i) => s.kind === 'scuff' && plan.steps[i + 1]?.kind !== 'scuff' && plan.steps[i + 1]?.from > s.to),
  'divides a layer to lock': (plan) => plan.pours.some((p, i) => p.locks.length > 0 && plan.pours[i + 1]?.layer === p.layer && Math.abs(plan.pours[i + 1].depthMm - p.depthMm) > 1e-6),
  'locks two figures in one pour': (plan) => plan.pours.some((p) => p.locks.length > 1),
  'cannot lock': finding('cannot-lock', 'halt'),
  'is thin, caution': finding('layer-too-thin', 'caution'),
  'is thin, halt': finding('layer-too-thin', 'halt'),
  'is coarse, caution': finding('scale-coarse', 'caution'),
  'is coarse, halt': finding('scale-coarse', 'halt'),
  'has a ratio conflict': finding('ratio-conflict', 'halt'),
  'has an unconfirmed ratio': finding('ratio-unconfirmed', 'caution'),
  'does not know a weight': finding('weight-unknown', 'caution'),
  'is overfull': finding('overfull', 'halt'),
  'lacks freeboard': finding('freeboard', 'caution'),
  'stands over the fill': finding('above-fill', 'caution'),
  'cuts a figure': finding('plane-cuts-figure', 'caution'),
  'has an unknown field': finding('unknown-field', 'note'),
  'splits into several pours': (plan) => plan.pours.length > plan.layers.length,
  'mixes several cups': (plan) => plan.pours.some((p) => p.batches.length > 1),
  'has one part': (plan) => plan.pours.some((p) => p.batches[0].scaleStopsG.length === 1),
  'starts on a closed bed': (plan) => plan.layers[0].fromMm > 0,
  'has gravel': solid((p) => (p.voidFraction ?? 0) > 0),
  'has a slope': solid((p) => p.kind === 'bed' && p.shape?.type === 'wedge'),
  'stays in its mold': (_, scene) => scene.mold.keep === true,
  'leans': (_, scene) => (scene.mold.draftDeg ?? 0) > 0,
  'is round': (_, scene) => scene.mold.shape === 'round',
  'has four fills': (_, scene) => scene.fills.length === 4,
  'works over midnight': (plan) => plan.pours.some((p) => p.starts.slice(0, 10) !== p.ends.slice(0, 10)),
  'passes 29 February': (plan) => plan.pours.some((p) => p.demold.slice(4, 10) === '-02-29'),
  'lifts a thread': (plan, scene) => (scene.placements ?? []).some((p) => p.hold === 'thread' && plan.placements.find((x) => x.id === p.id)!.floats),
};
