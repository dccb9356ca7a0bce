/** What the planner makes of heat, with heat that is known exactly (made-heat.ts). Expected numbers are hand arithmetic on the invented formulas of cases.md. */
import { describe, expect, it } from 'vitest';
import { minutesOf, textOf } from './check-time.ts';
import type { PlanJson } from './check-types.ts';
import { checkPlan } from './checker.ts';
import { madeHeat, type Say } from './made-heat.ts';
import { planJson } from './plan-json.ts';
import { NO_BOOLEANS, scene, TG, TL, type SceneParts } from './planning.ts';

const MIN_2000 = minutesOf('2000-01-01T00:00');
/** Scene minutes of a plan's time. */
const sceneMinutes = (text: string) => minutesOf(text) - MIN_2000;
const simulated = (parts: SceneParts) => ({ ...scene(parts), heat: { model: 'simulated' } });
const general = (fillMm: number, parts: SceneParts = {}) => ({ fillMm, fills: [{ toMm: fillMm, formula: 'TG' }], ...parts });

function planned(parts: SceneParts, say: Say): PlanJson {
  const plan = planJson(simulated(parts), NO_BOOLEANS, madeHeat(say));
  expect(checkPlan(simulated(parts), plan)).toEqual([]);
  return plan;
}

const byLabel = (parts: SceneParts) => planJson(scene(parts), NO_BOOLEANS);
const withoutHeat = (pour: PlanJson['pours'][number]) => ({ ...pour, heat: null, batches: pour.batches.map((batch) => ({ ...batch, heat: null })) });
const depths = (plan: PlanJson) => plan.pours.map(({ depthMm }) => Number(depthMm.toFixed(6)));
const finding = (plan: PlanJson, code: string) => plan.findings.find((one) => one.code === code);

describe('splitting by safe depth', () => {
  it('pours as the label says where nothing is harsher than the label', () => {
    const plan = planned(general(36), () => ({}));
    const label = byLabel(general(36));
    expect(plan.pours.map(withoutHeat)).toEqual(label.pours);
    expect(plan.findings).toEqual(label.findings);
    expect(plan.pours[0].heat).toMatchObject({ safeDepthMm: 12, harsher: false, model: 'made for a test', rangeC: [30, 40] });
  });

  it('pours 24 mm in four where 0.55 of the label’s 12 mm are safe (24 / 6.6 = 3.6)', () => {
    const plan = planned(general(24), () => ({ share: 0.55 }));
    expect(depths(plan)).toEqual([6, 6, 6, 6]);
    expect(depths(byLabel(general(24)))).toEqual([12, 12]);
    expect(finding(plan, 'hot')).toBeUndefined();
    // 6 of 6.6 is 0.909: near.
    expect(finding(plan, 'near-runaway')).toMatchObject({ severity: 'caution', subject: 'pour 1', pours: [1] });
    expect(finding(plan, 'near-runaway')!.message).toContain('31\u00a0°C');
    expect(plan.pours[0].why).toBe('24\u00a0mm at once would be too warm here, where 6.6\u00a0mm are safe and the label’s 12\u00a0mm are not: the room is warmer than the label’s. So it is four pours of 6\u00a0mm.');
    expect(plan.pours[1].why).toBe('Second of four.');
  });

  it('says near-runaway over 0.9 of the safe depth, not at it', () => {
    const near = (share: number) => finding(planned(general(9), () => ({ share })), 'near-runaway') !== undefined;
    // 9 mm is 0.9 of 10 mm = 12 × 0.8333…
    expect(near(10 / 12)).toBe(false);
    expect(near(9.99 / 12)).toBe(true);
  });

  it('gives a layer the fewest pours when pours cool as they get thinner', () => {
    // On top of anything 0.8 of 12 mm less a quarter of what lies right below; the first pour is free.
    const plan = planned(general(36), ({ formula }, below) => ({ share: below.length === 0 ? 1 : 0.8 - (0.25 * below[below.length - 1].depthMm) / formula.maxDepthMm }));
    // n pours of 36/n: safe 9.6 − 9/n. n = 4: 9 against 7.35; n = 5: 7.2 against 7.8.
    expect(depths(plan)).toEqual([7.2, 7.2, 7.2, 7.2, 7.2]);
  });

  it('thins a layer on where nothing is safe on thick pours, but all is on thin ones', () => {
    // 60 mm in five of 12 mm, then one more at a time up to nine of 6.67 mm, then by a quarter: twelve of 5 mm.
    const plan = planned(general(60), (_pour, below) => ({ share: below.length > 0 && below[below.length - 1].depthMm > 5.1 ? 0 : 1 }));
    expect(depths(plan)).toEqual(Array.from({ length: 12 }, () => 5));
    expect(finding(plan, 'hot')).toBeUndefined();
  });

  it('says which pour asks for thinner ones where it is not the first', () => {
    const plan = planned(general(24), (_pour, below) => ({ share: below.length === 0 ? 1 : 0.6, cause: 'warm layer below' }));
    expect(plan.pours[0].why).toBe('24\u00a0mm in fewer pours would be too warm: for pour 2 only 7.2\u00a0mm are safe, because what lies below is still warm. So it is four pours of 6\u00a0mm.');
  });

  it('says what heat forbids where it leaves pours too thin to level', () => {
    const plan = planned(general(24), () => ({ share: 0.2 }));
    expect(finding(plan, 'layer-too-thin')!.remedy).toBe('Deeper pours would be too warm here, and thinner than 3\u00a0mm it does not level: cool the room, or choose a slower resin for the layer up to 24.');
  });

  it('never calls the room it is in too much for a pour that it bears', () => {
    const near = (temperatureC: number) => finding(planned({ ...general(9), room: { temperatureC } }, () => ({ share: 0.8 })), 'near-runaway')!.message;
    expect(near(30)).toContain('A room of 31\u00a0°C would be too much for it.');
    expect(near(31)).toContain('A room any warmer would be too much for it.');
  });

  it('goes straight to what the first pour of a layer asks for', () => {
    const heat = madeHeat(() => ({ share: 0.35 }));
    const plan = planJson(simulated(general(60)), NO_BOOLEANS, heat);
    expect(plan.pours).toHaveLength(15); // 60 / 4.2 = 14.3
    expect(heat.judged()).toBe(1 + 15); // what lies on a pour that is too deep is not judged
  });

  it('tightens only the layer that asks for it', () => {
    const plan = planned({ fillMm: 48, fills: [{ toMm: 24, formula: 'TG' }, { toMm: 48, formula: 'TL' }] }, ({ formula }) => ({ share: formula.id === 'TG' ? 0.6 : 1 }));
    expect(depths(plan)).toEqual([6, 6, 6, 6, 24]);
  });

  it('halts as hot where thinner pours would not level, as thin as they may be', () => {
    // 3 mm least: no pour under 1.8; 12 × 0.14 = 1.68 is not to be had.
    const plan = planned(general(6), () => ({ share: 0.14, fixes: [{ kind: 'cool', amount: 23, words: 'Keep the room at 23 °C until it has cooled.', after: { safeDepthMm: 12, rangeC: [30, 40], words: 'warm' } }] }));
    expect(depths(plan)).toEqual([6]);
    const hot = finding(plan, 'hot')!;
    expect(hot).toMatchObject({ severity: 'halt', subject: 'pour 1', pours: [1] });
    expect(hot.message).toBe('Pour 1 is 6\u00a0mm deep, and only 1.6\u00a0mm is safe there: the room is warmer than the label’s. It could run away with its own heat.');
    expect(hot.remedy).toContain('Thinner pours would no longer level. Keep the room at 23 °C until it has cooled. Then 12\u00a0mm are safe, and it gets 30 to 40\u00a0°C.');
    expect(plan.steps.find(({ kind }) => kind === 'pour')!.text).toContain('DO NOT POUR');
    expect(finding(planned(general(6), () => ({ share: 0 })), 'hot')!.message).toContain('Pour 1 is 6\u00a0mm deep, and no depth is safe there');
    // With 0.5, 12 × 0.5 = 6 is enough as it is; with 0.16 three pours of 2 mm would be needed, and 1.92 is safe: too thin again.
    expect(depths(planned(general(6), () => ({ share: 0.5 })))).toEqual([6]);
    expect(depths(planned(general(5.7), () => ({ share: 0.16 })))).toEqual([1.9, 1.9, 1.9]);
  });

  it('does not give up a lock for the heat', () => {
    // Rises at 1.188 / (1.08 × 0.4) = 2.75 mm, safe lock 2.2: two pours of 8 mm lock it 2 mm over its base, three of 5.33 leave it 4.67, and no line fits between 8.5 mm parts.
    const floater = { id: 'f', kind: 'figure', hold: 'stands', baseMm: 6, massG: 1.188, shape: { type: 'box', lengthMm: 20, widthMm: 20, heightMm: 9 } };
    const plan = planned({ ...general(16), placements: [floater], formulas: [{ ...TG, minDepthMm: 8.5 }] }, () => ({ share: 0.5 }));
    expect(depths(plan)).toEqual([8, 8]);
    expect(plan.pours[0].locks).toEqual(['f']);
    expect(finding(plan, 'cannot-lock')).toBeUndefined();
    expect(finding(plan, 'hot')!.remedy).toContain('Thinner pours would no longer hold down what floats there.');
  });
});

describe('times moved by warmth', () => {
  const two = (say: Say) => planned(general(24), say);

  it('waits for a surface that is still warm, and says so', () => {
    const label = byLabel(general(24));
    const opens = sceneMinutes(label.pours[0].opens) + 90;
    const plan = two((_pour, below) => ({ windows: below.length === 0 ? { opensMin: opens - 0.4 } : {} }));
    expect(plan.pours[0].opens).toBe(textOf(minutesOf(label.pours[0].opens) + 90));
    expect(minutesOf(plan.pours[1].starts)).toBe(minutesOf(label.pours[1].starts) + 90);
    expect(plan.steps.find(({ kind, pour }) => kind === 'wait' && pour === 1)!.text).toContain('and its surface is within 5\u00a0°C of the room');
    expect(plan.steps.find(({ kind, pour }) => kind === 'wait' && pour === 2)!.text).not.toContain('within 5');
  });

  it('leaves the label’s times alone under 15 minutes, and never loosens them', () => {
    const label = byLabel(general(24));
    const same = (windows: (pour: PlanJson['pours'][number]) => object) => {
      const plan = two((_pour, below) => ({ windows: windows(label.pours[below.length]) }));
      expect(plan.pours.map(withoutHeat)).toEqual(label.pours);
    };
    same((pour) => ({ opensMin: sceneMinutes(pour.opens) + 14, closesMin: sceneMinutes(pour.closes) - 14, demoldMin: sceneMinutes(pour.demold) + 14 }));
    same((pour) => ({ opensMin: sceneMinutes(pour.opens) - 200, closesMin: sceneMinutes(pour.closes) + 200, scuffableMin: sceneMinutes(pour.scuffable) - 200, paintableMin: sceneMinutes(pour.paintable) - 200, demoldMin: sceneMinutes(pour.demold) - 200 }));
  });

  it('scuffs where the window is gone before it opens', () => {
    const label = byLabel(general(24));
    const plan = two((_pour, below) => ({ windows: below.length === 0 ? { opensMin: sceneMinutes(label.pours[0].opens) + 300, closesMin: sceneMinutes(label.pours[0].opens) + 60, scuffableMin: sceneMinutes(label.pours[0].scuffable) + 45 } : {} }));
    expect(label.pours[1].route).toBe('wet-on-tacky');
    expect(plan.pours[1].route).toBe('cure-scuff-wipe');
    expect(plan.pours[0].scuffable).toBe(textOf(minutesOf(label.pours[0].scuffable) + 45));
    expect(plan.steps.find(({ kind, pour }) => kind === 'wait' && pour === 1)!.text).toContain('sands to powder and its surface is within 5\u00a0°C of the room');
    expect(finding(plan, 'route-changed')).toMatchObject({ message: 'Pour 1 warms itself and sets too soon to be poured on while it is tacky. Pour 2 waits until it can be scuffed.', remedy: expect.stringContaining('Pour it thinner, or cool the room') });
  });

  it('judges a pour at the time it is really poured', () => {
    const asked: number[] = [];
    const plan = planned(general(24), (pour, below) => {
      asked.push(pour.fromMin);
      return { windows: below.length === 0 ? { opensMin: pour.fromMin + 8 * 60 } : {} };
    });
    expect(asked).toEqual(plan.pours.map(({ starts }) => sceneMinutes(starts)));
  });
});

describe('what can’t bear the warmth', () => {
  const figure = (more: object) => ({ id: 'f', kind: 'figure', name: 'Newt', hold: 'fixed', baseMm: 0, massG: 60, shape: { type: 'box', lengthMm: 20, widthMm: 20, heightMm: 10 }, ...more });

  it.each([
    ['a stated limit under the cautious end', figure({ limitC: 55 }), ['f']],
    ['a stated limit at the cautious end', figure({ limitC: 56 }), []],
    ['printed in PLA, no limit stated', figure({ material: 'pla' }), ['f']],
    ['printed in PLA, limit stated', figure({ material: 'pla', limitC: 60 }), []],
    ['of stone', figure({ material: 'stone' }), []],
  ])('a figure: %s', (_name, placement, told) => {
    const plan = planned({ ...general(24), placements: [placement] }, () => ({ rangeC: [41, 56] }));
    const cautions = plan.findings.filter(({ code }) => code === 'figure-too-warm');
    expect(cautions.map(({ subject }) => subject)).toEqual(told);
    for (const caution of cautions) expect(caution).toMatchObject({ severity: 'caution', pours: [1] });
  });

  it.each([['foam', true], ['hdpe', false], ['silicone', false]])('a mold of %s at 72 °C', (material, told) => {
    const plan = planned({ ...general(12), mold: { material } }, () => ({ rangeC: [41, 72] }));
    expect(finding(plan, 'mold-too-warm') !== undefined).toBe(told);
  });

  it('tells where a label contradicts itself, by what factor, once for a formula', () => {
    const heat = madeHeat(() => ({}), { contradictions: [{ field: 'potLifeMin', words: 'its pot life is half of what its depth makes one expect.', factor: 0.5 }] });
    const notes = planJson(simulated(general(36)), NO_BOOLEANS, heat).findings.filter(({ code }) => code === 'label-contradiction');
    expect(notes).toHaveLength(1);
    expect(notes[0]).toMatchObject({ severity: 'note', subject: 'formula TG' });
    expect(notes[0].remedy).toContain('factor of 2');
  });
});

it('a class that is typically apart contradicts no label', () => {
  const heat = madeHeat(() => ({}), { contradictions: [{ field: 'potLifeMin', words: 'apart.', factor: 0.5 }] });
  const notes = (formula: string) => planJson(simulated({ fillMm: 9, fills: [{ toMm: 9, formula }] }), NO_BOOLEANS, heat).findings.filter(({ code }) => code === 'label-contradiction').length;
  expect([notes('general'), notes('TG')]).toEqual([0, 1]);
});

describe('hot cups', () => {
  // 12 mm of 200 × 120: 288 mL, × 1.05 + 8 = 310.4 mL, × 1.08 = 335.2 g in a cup; in two 167.6 + 4.3 = 171.9 g each.
  const parts = general(12);
  const plan = (hotOverG: number) => planJson(simulated(parts), NO_BOOLEANS, madeHeat(() => ({}), { hotOverG }));

  it('halt their pour, say how many cups would do, and leave fewer minutes', () => {
    const hot = plan(200);
    expect(checkPlan(simulated(parts), hot)).toEqual([]);
    const halt = finding(hot, 'cup-hot')!;
    expect(halt).toMatchObject({ severity: 'halt', subject: 'pour 1', pours: [1] });
    expect(halt.message).toBe('A cup of 335.2\u00a0g for pour 1 may pass 50\u00a0°C after 9\u00a0min: too much in one cup here.');
    expect(halt.remedy).toContain('Mix it in 2\u00a0cups of 171.9\u00a0g, one after the other: set the most in one cup to 172\u00a0g. Or cool the room and the bottles to 20\u00a0°C.');
    expect(hot.steps.find(({ kind }) => kind === 'pour')!.text).toContain('DO NOT POUR');
    expect(hot.pours[0].batches[0].usableMin).toBeCloseTo(plan(Infinity).pours[0].batches[0].usableMin / 2, 9);
  });

  it('are none under their limit, and follow the remedy', () => {
    expect(finding(plan(340), 'cup-hot')).toBeUndefined();
    const followed = { ...simulated(parts), formulas: [{ ...TG, maxBatchG: 172 }] };
    expect(finding(planJson(followed, NO_BOOLEANS, madeHeat(() => ({}), { hotOverG: 200 })), 'cup-hot')).toBeUndefined();
  });

  it('of many pours are one finding, as hot as the worst of them', () => {
    // 36 mm in three pours of 12 mm, each as above.
    const hot = planJson(simulated(general(36)), NO_BOOLEANS, madeHeat(() => ({}), { hotOverG: 200 }));
    expect(checkPlan(simulated(general(36)), hot)).toEqual([]);
    const halts = hot.findings.filter(({ code }) => code === 'cup-hot');
    expect(halts).toHaveLength(1);
    expect(halts[0].pours).toEqual(hot.pours.map(({ index }) => index));
    expect(halts[0].message).toBe('Cups of up to 335.2\u00a0g for pours 1 to 3 may pass 50\u00a0°C after 9\u00a0min: too much in one cup here.');
  });

  it('that were measured are told with what was measured', () => {
    const hot = planJson(simulated(parts), NO_BOOLEANS, madeHeat(() => ({}), { hotOverG: 200, hotCups: [{ massG: 100, afterMin: 16.7 }] }));
    expect(finding(hot, 'cup-hot')!.message).toBe('A test cup of 100\u00a0g passed 50\u00a0°C after 16\u00a0min, while its label still had it poured. A cup of 335.2\u00a0g for pour 1, as large or larger, can do so too.');
  });

  it('that no few cups would cool name the room that does', () => {
    expect(finding(plan(100), 'cup-hot')!.remedy).toBe('Cool the room and the bottles to 20\u00a0°C.');
  });
});

describe('a model there is none of', () => {
  it('has no heat under the label', () => {
    const plan = planJson(scene(general(24)), NO_BOOLEANS, madeHeat(() => ({ share: 0.1 })));
    expect(plan.pours.map(({ heat, depthMm }) => [heat, depthMm])).toEqual([[null, 12], [null, 12]]);
    expect(plan.cautions.some((text) => text.startsWith('Heat is judged here by the label’s greatest depth alone.'))).toBe(true);
    expect(planned(general(24), () => ({})).cautions.some((text) => text.startsWith('Heat is simulated here'))).toBe(true);
  });

  it('knows its formulas', () => expect([TL.maxDepthMm, TG.maxDepthMm, TG.minDepthMm]).toEqual([25, 12, 3]));
});
