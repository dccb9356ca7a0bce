/**
 * Plans by the simulated heat itself. Shares of the label's depth in warmer rooms and on other walls: common practice,
 * no source (the trade's rules of thumb, ±0.05; walls ±0.1). Everything else is held against the label by the checker
 * that shares nothing with the planner.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import type { CureFamily } from '../../src/core/cure/family-types.ts';
import { simulatedHeat } from '../../src/core/plan/heat-simulated.ts';
import type { TestCup } from '../../src/core/cure/test-cup.ts';
import { openBooleans } from '../../src/files/booleans.ts';
import type { Booleans } from '../../src/core/solid/solid.ts';
import { minutesOf } from './check-time.ts';
import type { PlanJson } from './check-types.ts';
import { checkPlan } from './checker.ts';
import { planJson } from './plan-json.ts';
import { NO_BOOLEANS, scene, TL, type SceneParts } from './planning.ts';
import { holdScenes } from './random-heat.ts';

/** A family takes tenths of a second to make and is the same every time. */
const families = new Map<string, CureFamily>();
const CLASSES = ['general', 'low-viscosity', 'coating', 'deep-pour'] as const;
const LABEL_DEPTH = { general: 10, 'low-viscosity': 25, coating: 4.5, 'deep-pour': 60 } as const;

type Parts = SceneParts & { testCups?: readonly TestCup[]; heat?: object };
const document = ({ testCups, heat, ...parts }: Parts) => ({ ...scene(parts), heat: heat ?? { model: 'simulated' }, ...(testCups ? { testCups } : {}) });

function planned(parts: Parts, members: 'all' | 'mean' = 'all'): PlanJson {
  const plan = planJson(document(parts), NO_BOOLEANS, simulatedHeat(parts.testCups ?? [], { members, families }));
  expect(checkPlan(document(parts), plan)).toEqual([]);
  return plan;
}

const poured = (formula: string, fillMm: number, more: SceneParts = {}): Parts => ({ fillMm, fills: [{ toMm: fillMm, formula }], ...more, mold: { heightMm: 300, ...more.mold } });
/** The rules of thumb are of a slab: nothing is lost to the sides of a mold this wide. */
const WIDE = { lengthMm: 2000, widthMm: 2000 };
const depths = (plan: PlanJson) => plan.pours.map(({ depthMm }) => Number(depthMm.toFixed(6)));
const safeShare = (plan: PlanJson, maxDepthMm: number) => plan.pours[0].heat!.safeDepthMm / maxDepthMm;

describe('in the label’s own place', () => {
  it.each(CLASSES)('%s is poured to its label’s full depth, and nothing is hot', (formula) => {
    const plan = planned(poured(formula, LABEL_DEPTH[formula]));
    expect(depths(plan)).toEqual([LABEL_DEPTH[formula]]);
    expect(plan.pours[0].heat).toMatchObject({ safeDepthMm: LABEL_DEPTH[formula], harsher: false });
    expect(plan.findings.filter(({ code }) => ['hot', 'near-runaway', 'cup-hot'].includes(code))).toEqual([]);
  });

  it('what is not near its label’s depth is poured as the label alone has it', () => {
    const parts = poured('TL', 54, { fills: [{ toMm: 36, formula: 'TL' }, { toMm: 54, formula: 'TG' }] });
    expect(depths(planned(parts))).toEqual([18, 18, 9, 9]);
    expect(depths(planJson({ ...document(parts), heat: { model: 'label' } }, NO_BOOLEANS))).toEqual([18, 18, 9, 9]);
  });
});

describe('in a harsher place', () => {
  const SHARES: readonly [number, number][] = [[28, 0.75], [33, 0.55]];
  it.each(CLASSES.flatMap((formula) => SHARES.map(([roomC, share]) => [formula, roomC, share] as const)))('%s in a room of %d °C: about %f of the label’s depth', (formula, temperatureC, share) => {
    const plan = planned(poured(formula, LABEL_DEPTH[formula], { room: { temperatureC }, mold: WIDE }));
    expect(Math.abs(safeShare(plan, LABEL_DEPTH[formula]) - share), String(safeShare(plan, LABEL_DEPTH[formula]))).toBeLessThanOrEqual(0.05);
    expect(plan.pours.length).toBeGreaterThan(1);
    expect(plan.pours[0].heat!.cause).toBe('room');
    expect(plan.pours[0].why).toContain('would be too warm');
  });

  it.each([['foam', 20, 0.62], ['wood', 19, 0.8]] as const)('on %s, %d mm: about %f of it', (material, wallMm, share) => {
    const plan = planned(poured('TL', 25, { mold: { ...WIDE, material, wallMm } }));
    expect(Math.abs(safeShare(plan, 25) - share), String(safeShare(plan, 25))).toBeLessThanOrEqual(0.1);
    expect(plan.pours[0].heat!.cause).toBe('insulating wall');
  });

  it('a pour soon onto a warm one is safe to less than one that waits', () => {
    // The same label, but for when it may be poured on.
    const onto = (bondOpensH: number) => planned(poured('TL', 40, { formulas: [{ ...TL, bondOpensH, maxDepthMm: 20 }], bench: { hours: [{ days: 'Mon-Sun', from: '00:00', to: '00:00' }] } }));
    const [soon, late] = [onto(4), onto(22)];
    expect(soon.pours[1].heat!.safeDepthMm).toBeLessThan(late.pours[1].heat!.safeDepthMm);
    expect(minutesOf(soon.pours[1].starts)).toBeLessThan(minutesOf(late.pours[1].starts));
  });

  it('a room that warms after the pour counts too', () => {
    const warmsAt = (from: string) => planned(poured('TL', 24, { room: { temperatureC: 23, profile: [{ from, temperatureC: 34 }] } })).pours[0].heat!.safeDepthMm;
    expect(warmsAt('2026-05-04T10:00')).toBeLessThan(25);
    expect(warmsAt('2026-05-09T10:00')).toBe(25);
  });
});

describe('a hand that is moving things', () => {
  it('gets the middle member, who allows no more than the label either', () => {
    const mean = planned(poured('TL', 50, { room: { temperatureC: 30 } }), 'mean');
    expect(mean.pours[0].heat!.model).toContain('middle');
  });
});

describe('test cups', () => {
  /** A cup of the label's pot life, warm at 40 min; or that much faster. Invented. */
  const readings = (faster: number) => [[0, 23], [10, 26], [20, 31], [30, 40], [40, 56], [46, 80]].map(([min, temperatureC]) => ({ min: min / faster, temperatureC }));
  const cup = (faster: number): TestCup => ({ formula: 'TG', massG: 100, cup: 'plastic', roomC: 23, readings: readings(faster) });

  it('are told of, and never allow more depth', () => {
    for (const faster of [0.5, 1, 2]) {
      const parts = { ...poured('TG', 12), testCups: [cup(faster)] };
      const plan = planned(parts);
      expect(plan.findings.find(({ code }) => code === 'test-cup'), `${faster}`).toMatchObject({ severity: 'note', subject: 'formula TG' });
      for (const pour of plan.pours) expect(pour.heat!.safeDepthMm).toBeLessThanOrEqual(12);
    }
    expect(planned(poured('TG', 12)).findings.find(({ code }) => code === 'test-cup')).toBeUndefined();
  });

  it('that went faster than the label says allow less', () => {
    expect(planned({ ...poured('TG', 12), testCups: [cup(3)] }).pours[0].heat!.safeDepthMm).toBeLessThan(12);
  });
});

describe('random scenes', () => {
  const FIRST_SEED = 60_000;
  /** A thousand in the bench `scenes`. */
  const SCENES = Number(process.env.STILLPOOL_SCENES ?? 30);
  /** Generous: half a second of processor a scene, on cores that others share. */
  const TIMEOUT_MS = 300_000;
  let booleans: Booleans;
  beforeAll(async () => {
    booleans = await openBooleans();
  });

  it(`allow nothing that the label does not, seeds ${FIRST_SEED} to ${FIRST_SEED + SCENES - 1}`, { timeout: TIMEOUT_MS }, () => {
    const { broken, pours, meanMs, mostMs } = holdScenes(booleans, FIRST_SEED, SCENES);
    process.stdout.write(`simulated heat: ${SCENES} scenes, ${pours} pours, ${Math.round(meanMs)} ms of processor a scene, at most ${Math.round(mostMs)}\n`);
    expect(broken).toEqual([]);
  });
});
