/** Pieces poured together, replayed by an independent checker (tests/plan/check-together.ts), with faults planted in good plans. */
import { describe, expect, it } from 'vitest';
import { planTogether } from '../../../../src/core/plan/runs/together.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import { simulatedHeat } from '../../../../src/core/plan/heat-simulated.ts';
import { GOAL_SEARCH } from '../../../../src/core/plan/best/goal-search.ts';
import type { HeatJudge } from '../../../../src/core/plan/heat-judge.ts';
import { checkTogether, type TogetherPlans } from '../../../plan/check-together.ts';
import { NO_BOOLEANS, scene, TG, TL } from '../../../plan/planning.ts';
import { mulberry32 } from '../../../plan/random-scenes.ts';

const SEEDS = Number(process.env.STILLPOOL_TOGETHER ?? 25);

function planned(documents: readonly object[], heat: HeatJudge | null = null): TogetherPlans & { together: { words: string; findings: { code: string }[] } } {
  const result = planTogether(documents.map((document) => {
    const reading = readScene(document);
    if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
    return { scene: reading.scene, given: { meshes: new Map(), booleans: NO_BOOLEANS, heat, search: GOAL_SEARCH } };
  }));
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return JSON.parse(JSON.stringify(result));
}

const refusedBy = (documents: readonly object[]): string => {
  try {
    planned(documents);
  } catch (error) {
    return (error as Error).message;
  }
  return '';
};

/** Two or three pieces with everything that may differ between them, at one bench. */
function drawn(seed: number): object[] {
  const next = mulberry32(Math.imul(seed + 7, 0x9e3779b1));
  const whole = (low: number, high: number) => low + Math.floor(next() * (high - low + 1));
  const pick = <T>(from: readonly T[]): T => from[Math.floor(next() * from.length)];
  const bench = {
    start: '2026-05-04T08:00', scaleG: pick([0.1, 0.5, 1]), holdUpMl: whole(3, 12),
    hours: pick([[{ days: 'Mon-Sun', from: '08:00', to: '20:00' }], [{ days: 'Mon-Fri', from: '17:30', to: '22:00' }, { days: 'Sat-Sun', from: '09:00', to: '18:00' }], [{ days: 'Mon,Wed,Fri,Sat', from: '09:00', to: '15:30' }]]),
  };
  const room = pick([{ temperatureC: 23 }, { temperatureC: 20, profile: [{ from: '2026-05-06T20:00', temperatureC: 17 }, { from: '2026-05-08T09:00', temperatureC: 24 }] }, { temperatureC: 24, sleep: [{ days: 'Mon-Sun', from: '22:30', to: '07:00' }] }, { temperatureC: 23, sleep: [{ days: 'Fri,Sat', from: '21:00', to: '10:00' }] }]);
  return Array.from({ length: whole(2, 3) }, (_none, i) => {
    const layers = Array.from({ length: whole(1, 3) }, () => ({ depthMm: whole(6, 11), formula: pick(['TL', 'TG']), plane: next() < 0.35 }));
    const tops = layers.map((_layer, k) => layers.slice(0, k + 1).reduce((sum, { depthMm }) => sum + depthMm, 0));
    return {
      ...scene({
        mold: { lengthMm: whole(80, 160), widthMm: whole(60, 120) }, fillMm: tops[tops.length - 1], room,
        fills: layers.map(({ formula }, k) => ({ toMm: tops[k], formula, ...(next() < 0.3 ? { tint: { color: '#2f6f73', percent: pick([0.1, 0.2]) } } : {}) })),
        placements: layers.flatMap(({ plane }, k) => (plane && k < layers.length - 1 ? [{ id: `p${k}`, kind: 'plane', atMm: tops[k], paintH: pick([0.5, 1.25, 3]), dryH: whole(4, 12) }] : [])),
        bench: { ...bench, allowanceFraction: pick([0.05, 0.1]), watchH: pick([0, 0.5]) },
      }),
      name: `Piece ${i + 1}`,
      ...(next() < 0.25 ? { copies: whole(2, 3) } : {}),
    };
  });
}

describe('pieces together', () => {
  it(`keep every rule, seeds 0 to ${SEEDS - 1}`, () => {
    let shared = 0;
    for (let seed = 0; seed < SEEDS; seed++) {
      const scenes = drawn(seed);
      const made = planned(scenes);
      expect(checkTogether(scenes, made), `seed ${seed}`).toEqual([]);
      shared += made.together.buys.pours;
    }
    expect(shared).toBeGreaterThan(SEEDS / 2);
  }, 60_000 + 2_000 * SEEDS);

  /** 200 × 120 × 6 mm of TL: 144 mL net. Two from one cup: 288 × 1.05 + 8 = 310.4 mL (hand arithmetic on case 1). */
  const box = (name: string) => ({ ...scene({ fillMm: 6 }), name });

  it('two boxes of case 1 from one cup: 310.4 mL, half each', () => {
    const { together, plans } = planned([box('One'), box('Two')]);
    expect(together.pours).toBe(1);
    expect(together.poured[0].mixMl).toBeCloseTo(310.4, 9);
    expect(together.poured[0].batches).toHaveLength(1);
    expect(plans.map(({ pours: [pour] }) => pour.mixMl)).toEqual([155.2, 155.2].map((ml) => expect.closeTo(ml, 9)));
    expect(together.buys).toMatchObject({ pours: 1, cups: 1, mixG: expect.closeTo(8 * 1.09, 6) });
  });

  it('shares no cups of two tints, two labels or a halted pour', () => {
    const tinted = { ...scene({ fillMm: 6, fills: [{ toMm: 6, formula: 'TL', tint: { color: '#2f6f73', percent: 0.1 } }] }), name: 'Two' };
    const other = { ...scene({ fillMm: 6, formulas: [{ ...TL, potLifeMin: 80 }, TG] }), name: 'Two' };
    const thin = { ...scene({ fillMm: 2 }), name: 'Two' };
    for (const second of [tinted, other, thin]) expect(planned([box('One'), second]).together.pours).toBe(2);
  });

  it('keeps its times under the heat model, each pour judged where it now is', () => {
    const warm = (name: string, fillMm: number) => {
      const { heat: _label, ...document } = scene({ fillMm });
      return { ...document, name } as object;
    };
    const { together, plans } = planned([warm('One', 20), warm('Two', 40)], simulatedHeat([]));
    expect(together.buys.pours).toBeGreaterThan(0);
    for (const { pours } of plans) {
      for (const [i, pour] of pours.entries()) {
        expect(pour.heat!.safeDepthMm).toBeGreaterThanOrEqual(pour.depthMm);
        if (pour.route === 'wet-on-tacky') expect(pour.starts >= pours[i - 1].opens && pour.ends <= pours[i - 1].closes).toBe(true);
      }
    }
  });

  it.each([
    ['two rooms', { ...box('Two'), room: { temperatureC: 18 } }, 'room.temperatureC'],
    ['two benches', { ...box('Two'), bench: { start: '2026-05-04T08:00', hours: [{ days: 'Sat', from: '08:00', to: '12:00' }] } }, 'bench.hours'],
    ['two scales', { ...box('Two'), bench: { start: '2026-05-04T08:00', scaleG: 1 } }, 'bench.scaleG'],
    ['a class', { ...box('Two'), class: { students: 4, at: '2026-05-08T10:00', hours: 2 } }, 'class'],
  ])('refuses %s', (_what, second, path) => {
    expect(refusedBy([box('One'), second])).toContain(`"path":"${path}"`);
  });
});

type Open<T> = T extends readonly (infer U)[] ? Open<U>[] : T extends object ? { -readonly [K in keyof T]: Open<T[K]> } : T;

describe('the checker of pieces together sees faults', () => {
  const scenes = ['One', 'Two'].map((name) => ({ ...scene({ fillMm: 18, placements: [{ id: 'p', kind: 'plane', atMm: 6 }] }), name }));
  const good = planned(scenes);
  const later = (time: string, minutes: number) => new Date(Date.parse(`${time}:00Z`) + minutes * 60_000).toISOString().slice(0, 16);
  const FAULTS: readonly [string, (made: Open<TogetherPlans>) => void, RegExp][] = [
    ['two paintings at once', (m) => { const own = m.plans[0].steps.find(({ kind }) => kind === 'paint')!; const other = m.plans[1].steps.find(({ kind }) => kind === 'paint')!; [other.from, other.to] = [own.from, own.to]; }, /overlap/],
    ['a pour outside hours', (m) => { for (const { steps } of m.plans) { const step = steps.find(({ kind }) => kind === 'pour')!; [step.from, step.to] = ['2026-05-04T22:00', '2026-05-04T22:30']; } }, /outside bench hours/],
    ['paint that is still wet', (m) => { const step = m.plans[0].steps.find(({ kind }) => kind === 'paint')!; step.to = m.plans[0].pours[1].starts; }, /before the paint is dry/],
    ['a share too small', (m) => { m.plans[0].pours[0].mixMl *= 0.9; }, /shares sum to/],
    ['a cup too heavy', (m) => { m.together.poured[0].batches[0].mixG = 1600; }, /over 1500/],
    ['too little hardener', (m) => { m.together.poured[0].batches[0].partB.g *= 0.97; }, /hardener in a cup/],
    ['a cup left out', (m) => { m.together.cups -= 1; }, /cups where/],
    ['an end that is later', (m) => { m.together.oneAfterTheOther.finish = '2026-05-05T08:00'; }, /later than one after the other/],
    ['a window that opens early', (m) => { m.plans[0].pours[0].opens = later(m.plans[0].pours[0].opens, -30); }, /opens/],
    ['two times for shared cups', (m) => { m.plans[1].pours[0].starts = later(m.plans[1].pours[0].starts, 5); }, /two times/],
    ['a pour over its window', (m) => { m.plans[0].pours[1].route = 'wet-on-tacky'; }, /over a painted plane/],
  ];

  it('and none in the good plans', () => {
    expect(good.together.buys.pours).toBeGreaterThan(0);
    expect(checkTogether(scenes, good)).toEqual([]);
  });

  it.each(FAULTS)('%s', (_what, plant, told) => {
    const made = structuredClone(good) as unknown as Open<TogetherPlans>;
    plant(made);
    expect(checkTogether(scenes, made as unknown as TogetherPlans).join('\n')).toMatch(told);
  });
});
