import { beforeAll, describe, expect, it } from 'vitest';
import type { BodyHeat } from '../../../src/core/cure/body/body.ts';
import type { Plan } from '../../../src/core/plan/plan.ts';
import { readScene } from '../../../src/core/scene/read.ts';
import type { Scene } from '../../../src/core/scene/scene.ts';
import type { HeatJudge } from '../../../src/core/plan/heat-judge.ts';
import { simulatedHeat } from '../../../src/core/plan/heat-simulated.ts';
import { planScene } from '../../../src/core/plan/plan-scene.ts';
import { remedyFor } from '../../../src/core/scene/edit/remedies.ts';
import { sceneFile } from '../../../src/core/scene/edit/file.ts';
import { safeShare, safeWords } from '../../../src/screens/gauge/SafeMarks.tsx';
import { closerFigures, closerPours } from '../../../src/screens/heat/closer-words.ts';
import { nearness, safeLine, verdictLine } from '../../../src/screens/heat/heat-words.ts';
import { madeHeat } from '../../plan/made-heat.ts';
import { planOf, scene, TG } from '../../plan/planning.ts';

const NBSP = '\u00a0';
const NO_BOOLEANS = { union: () => { throw new Error('none'); }, intersect: () => { throw new Error('none'); }, subtract: () => { throw new Error('none'); }, repair: () => { throw new Error('none'); } } as never;

function simulated(document: object, heat: HeatJudge = simulatedHeat([])): { plan: Plan; scene: Scene } {
  const reading = readScene(document);
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  const result = planScene(reading.scene, { meshes: new Map(), booleans: NO_BOOLEANS, heat });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return { plan: result.plan, scene: reading.scene };
}

/** A thick pour that its least depth holds in one piece; one in a room it only just stands; a cup that warms itself. */
const DOCUMENTS = {
  hot: scene({ fillMm: 10, fills: [{ toMm: 10, formula: 'TG' }], formulas: [{ ...TG, minDepthMm: 10 }], room: { temperatureC: 33 } }),
  'near-runaway': scene({ fillMm: 24, fills: [{ toMm: 24, formula: 'TG' }], formulas: [{ ...TG, maxBatchG: 3000 }], room: { temperatureC: 30 } }),
  'cup-hot': scene({ fillMm: 10, fills: [{ toMm: 10, formula: 'TL' }] }),
};
const WARM = { ...scene({ fills: [{ toMm: 55, formula: 'TG' }], room: { temperatureC: 33 } }), heat: { model: 'simulated' } };

describe('a pour’s heat in words', () => {
  let warm: { plan: Plan; scene: Scene };
  beforeAll(() => { warm = simulated(WARM); }, 60_000);

  it('never says more is safe than is', () => {
    for (const pour of warm.plan.pours) {
      const heat = pour.heat!;
      const line = safeLine({ heat, why: '' }, warm.scene.formulas.get(pour.formula)!, warm.scene.mold);
      const said = Number(/([\d.]+)\s(?:mm are safe here|mm\. A room)/.exec(line)?.[1]);
      expect(said).toBeLessThanOrEqual(heat.safeDepthMm + 1e-9);
      expect(line).toMatch(/A room (of [\d.]+|any warmer)/);
      expect(verdictLine(heat)).toMatch(/^(Cool|Warm|Hot|Can’t be told), \d+/);
      expect(nearness(pour) === 'over').toBe(pour.depthMm > heat.safeDepthMm + 1e-9);
    }
  });

  it('says the cause once', () => {
    const { plan, scene: read } = warm;
    const heat = plan.pours.find((pour) => pour.heat!.harsher)!.heat!;
    const formula = read.formulas.get('TG')!;
    expect(safeLine({ heat, why: '' }, formula, read.mold)).toContain('the room is warmer than the label’s');
    expect(safeLine({ heat, why: 'Thin, for the room is warmer than the label’s.' }, formula, read.mold)).not.toContain('warmer');
  });

  it('reads aloud with the gauge, an inch value no larger than it is', () => {
    expect(safeWords(7, 9.27, 'mm')).toBe(`, safe to 9.2${NBSP}mm`);
    expect(safeWords(9.5, 9.27, 'mm')).toBe(`, deeper than the 9.2${NBSP}mm that are safe`);
    expect(safeWords(7, undefined, 'mm')).toBe('');
    expect(safeShare(5, 10)).toBe(0.5);
    expect(safeShare(10, 10)).toBe(1);
    expect(safeShare(10.1, 10)).toBeGreaterThan(1);
    expect(safeShare(3, 0)).toBeGreaterThan(1);
  });
});

describe('a closer look', () => {
  const pours = (hottestC: number): Pick<BodyHeat, 'pours'> => ({ pours: [{ hottest: { temperatureC: hottestC, atS: 7200, place: [0, 0, 6] }, hottestEver: { temperatureC: hottestC, atS: 7200, place: [0, 0, 6] }, slice: null }] });
  const one = (hottestC: number) => {
    const { plan, scene: read } = simulated({ ...scene({ fillMm: 10, fills: [{ toMm: 10, formula: 'TG' }] }), heat: { model: 'simulated' } });
    return { heat: plan.pours[0].heat!, told: closerPours(read, plan, pours(hottestC), [40])[0] };
  };

  it('moves the range up where three dimensions are warmer, by the share of the rise', () => {
    const { heat, told } = one(23 + 1.5 * 17);
    // The rise over the 23 °C room is half as much again: 17 K to 25.5 K.
    expect(told.rangeC[1]).toBeCloseTo(23 + 1.5 * (heat.rangeC[1] - 23), 9);
    expect(told.words).toContain(`8.5${NBSP}°C warmer`);
    expect(told.words).toContain(`Warmest 6${NBSP}mm up, after about 2${NBSP}h.`);
  });

  it('never loosens it where they are cooler', () => {
    const { heat, told } = one(30);
    expect(told.rangeC).toEqual(heat.rangeC);
    expect(told.words).toContain('stays as careful as it is');
  });

  it('holds figures against what they stand', () => {
    const read = readScene(scene({ placements: [{ id: 'f1', kind: 'figure', name: 'Newt', shape: { type: 'sphere', radiusMm: 5 }, baseMm: 10, massG: 5, limitC: 50 }] }));
    if (!read.ok) throw new Error('unreadable');
    const solids = (c: number): Pick<BodyHeat, 'solids'> => ({ solids: [{ solid: 0, hottest: { temperatureC: c, atS: 0, place: [0, 0, 0] }, surfaceC: c }] });
    expect(closerFigures(read.scene, solids(49))[0]).toMatchObject({ name: 'Newt', over: false });
    expect(closerFigures(read.scene, solids(53))[0]).toMatchObject({ over: true, words: expect.stringContaining(`it stands 50${NBSP}°C`) });
  });
});

describe('one press', () => {
  it.each(['hot', 'near-runaway', 'cup-hot'] as const)('helps %s as the plan has judged it would', (code) => {
    const document = { ...DOCUMENTS[code], heat: { model: 'simulated' } };
    // How warm a real cup gets is not asked here, so one is made that is hot over 200 g.
    const heat = code === 'cup-hot' ? madeHeat(() => ({}), { hotOverG: 200 }) : undefined;
    const before = simulated(document, heat).plan;
    const finding = before.findings.find((each) => each.code === code);
    expect(finding, before.findings.map((each) => each.code).join(', ')).toBeDefined();
    const file = sceneFile(document);
    if (!file.ok) throw new Error('unreadable');
    const remedy = remedyFor(finding!, file.file, before)!;
    expect(remedy.words).toMatch(/^(Set the room to|Set the most in one cup to|Pour a deep-pour)/);
    const made = remedy.apply(file.file);
    if (!made.ok) throw new Error(made.reason);
    const after = simulated(made.file, heat).plan;
    if (code !== 'near-runaway') expect(after.findings.filter((each) => each.code === code && each.subject === finding!.subject)).toEqual([]);
    else {
      // A little cooler it may still be near; it bears more than it did.
      const at = finding!.pours![0] - 1;
      expect(after.pours[at].heat!.safeDepthMm).toBeGreaterThan(before.pours[at].heat!.safeDepthMm);
      expect(after.findings.filter((each) => each.code === 'hot')).toEqual([]);
    }
  }, 60_000);

  it('is not offered under the label model, where nothing is hot', () => {
    expect(planOf(scene({ room: { temperatureC: 33 } })).findings.filter(({ code }) => /hot|runaway/.test(code))).toEqual([]);
  });
});

