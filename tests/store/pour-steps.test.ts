import { beforeAll, describe, expect, it } from 'vitest';
import { beforePour, laterThan } from '../../src/store/pour-steps.ts';
import type { DerivedScene } from '../../src/work/protocol.ts';
import { changedDemo, derivedFrom } from './in-process.ts';

/** ms. Two demos planned on a machine that others use too. */
const PLANNING_MS = 60_000;

describe('what the layers hold', () => {
  let demo: DerivedScene;
  let thread: DerivedScene;
  beforeAll(async () => {
    demo = await derivedFrom(null);
    thread = await derivedFrom([changedDemo((scene) => void (scene.placements.find(({ id }) => id === 'f1')!.hold = 'thread'))]);
  }, PLANNING_MS);

  it('sets and paints everything once, before the pour that goes over it', () => {
    const { plan, scene } = demo;
    const each = plan.pours.map(({ index }) => beforePour(plan, index));
    const solids = scene.placements.filter(({ kind }) => kind !== 'plane').map(({ id }) => id);
    expect(each.flatMap(({ set }) => set).sort()).toEqual([...solids].sort());
    for (const placement of scene.placements) {
      if (placement.kind !== 'plane') continue;
      const over = plan.pours.find(({ fromMm }) => fromMm === placement.atMm)!;
      expect(beforePour(plan, over.index).painted).toContain(placement.id);
    }
  });

  it('holds a floater down in the pour that the plan says locks it', () => {
    const { plan } = demo;
    for (const pour of plan.pours) expect(beforePour(plan, pour.index).holds).toEqual(pour.locks);
    expect(plan.pours.flatMap(({ locks }) => locks)).toContain('f1');
  });

  it('says what floats where nothing holds it', () => {
    const { plan } = thread;
    expect(plan.findings.some(({ code, subject }) => code === 'cannot-lock' && subject === 'f1')).toBe(true);
    const newt = plan.placements.find(({ id }) => id === 'f1')!;
    for (const pour of plan.pours) {
      expect(beforePour(plan, pour.index).floats.includes('f1')).toBe(newt.baseMm < pour.toMm && newt.topMm > pour.fromMm);
    }
  });

  it('has nothing for pours that are not there', () => {
    expect(beforePour(demo.plan, 0)).toEqual({ painted: [], set: [], holds: [], floats: [] });
    expect(beforePour(demo.plan, 99)).toEqual({ painted: [], set: [], holds: [], floats: [] });
  });

  it('leaves less and less for later, and nothing after the last pour', () => {
    const { plan } = demo;
    const left = [0, ...plan.pours.map(({ index }) => index)].map((pour) => laterThan(plan, pour));
    for (let i = 1; i < left.length; i++) for (const id of left[i]) expect(left[i - 1].has(id)).toBe(true);
    expect([...left[left.length - 1]]).toEqual([]);
    const { set, painted } = beforePour(plan, 2);
    for (const id of [...set, ...painted]) expect([left[1].has(id), left[2].has(id)]).toEqual([true, false]);
  });
});
