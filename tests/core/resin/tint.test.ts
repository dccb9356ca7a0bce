/** Tint through the whole planner: case 12 of cases.md (hand arithmetic), and the law it rests on. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { premixFor } from '../../../src/core/resin/premix.ts';
import { lightThrough, percentsFor } from '../../../src/core/resin/tint.ts';
import { planOf, problemsOf, scene, TL } from '../../plan/planning.ts';

const SWATCH = { percent: 0.1, mm: 10, passes: 0.9 };
/** Four pours of 240 mL, 261.6 g, nothing lost. */
const four = (tint: object, more: { bench?: object; cast?: string } = {}) => ({
  ...scene({ fillMm: 40, fills: [{ toMm: 40, formula: 'TL', tint }], formulas: [{ ...TL, maxDepthMm: 10 }], bench: { holdUpMl: 0, allowanceFraction: 0, ...more.bench } }),
  cast: more.cast ?? 'face-up',
});
const DEEPENING = { swatch: SWATCH, target: { passes: 0.5, how: 'deepening' } };

describe('a target of clarity', () => {
  it('lets its share of light through, whatever the depths, evenly or deepening', () => {
    const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });
    const depths = fc.array(fc.double({ min: 0.5, max: 50, noNaN: true }), { minLength: 1, maxLength: 12 });
    fc.assert(fc.property(share, share, depths, fc.constantFrom('even' as const, 'deepening' as const), fc.double({ min: 1, max: 3, noNaN: true }), (passes, chip, depthsMm, how, ratio) => {
      const swatch = { ...SWATCH, passes: chip };
      const percents = percentsFor({ passes, how, ratio }, swatch, depthsMm);
      expect(lightThrough(swatch, depthsMm.map((depthMm, i) => ({ depthMm, percent: percents[i] })))).toBeCloseTo(passes, 9);
      percents.slice(1).forEach((percent, i) => expect(percent / percents[i]).toBeCloseTo(how === 'even' ? 1 : ratio, 9));
    }), { seed: 12, numRuns: 300 });
  });

  it('is darkest farthest from the show face, also face down', () => {
    const grams = (cast: string) => planOf(four(DEEPENING, { cast })).pours.map(({ batches: [batch] }) => batch.tintG);
    const up = grams('face-up');
    expect([...up].sort((a, b) => b - a)).toEqual(up);
    grams('face-down').reverse().forEach((g, i) => expect(g).toBeCloseTo(up[i], 9));
  });

  it('says how much light each pour passes', () => {
    const pours = planOf(four(DEEPENING)).pours;
    expect(pours.reduce((all, { tint }) => all * tint!.passes!, 1)).toBeCloseTo(0.5, 9);
    expect(planOf(four({ percent: 0.1, swatch: SWATCH })).pours[0].tint).toMatchObject({ percent: 0.1, aimed: false });
    expect(planOf(four({ percent: 0.1, swatch: SWATCH })).pours[0].tint!.passes).toBeCloseTo(0.9, 9);
    expect(planOf(four({ percent: 0 })).pours[0].tint).toBeNull();
  });

  it.each([
    [{ target: { passes: 0.5 } }, 'fills[0].tint.target'],
    [{ swatch: { ...SWATCH, passes: 1 } }, 'fills[0].tint.swatch.passes'],
    [{ swatch: { ...SWATCH, mm: 0 } }, 'fills[0].tint.swatch.mm'],
    [{ swatch: SWATCH, target: { passes: 0 } }, 'fills[0].tint.target.passes'],
    [{ swatch: SWATCH, target: { passes: 0.5, how: 'darker' } }, 'fills[0].tint.target.how'],
  ])('refuses %j with its path', (tint, path) => {
    expect(problemsOf(four(tint)).map((problem) => problem.split(':')[0])).toEqual([path]);
  });

  it('stops where resin can’t take the dye it would need', () => {
    const codes = (passes: number) => planOf(four({ swatch: SWATCH, target: { passes } })).findings.filter(({ code }) => code === 'dye-heavy').map(({ severity }) => severity);
    // k = 0.10536 for 0.1 % and 10 mm: 40 mm at 1 % pass e^−4.214 = 0.0148; at 2 % 0.00022.
    expect(codes(0.02)).toEqual([]);
    expect(codes(0.01)).toEqual(['caution']);
    expect(codes(0.0002)).toEqual(['halt']);
  });

  it('knows what was typed for dye by its swatch; without one it may be mica', () => {
    const said = (tint: object) => planOf(four(tint)).findings.filter(({ code }) => code === 'dye-heavy').map(({ severity, message, pours }) => ({ severity, message, pours }));
    expect(said({ swatch: SWATCH, percent: 1 })).toEqual([]);
    expect(said({ swatch: SWATCH, percent: 4 })).toEqual([{ severity: 'caution', message: 'Pours 1 to 4 would take up to 4\u00a0% of their weight in dye. Over 1 to 2\u00a0% of dye resin can stay soft and turn cloudy.', pours: [1, 2, 3, 4] }]);
    expect(said({ percent: 2 })).toEqual([]);
    expect(said({ percent: 4 })[0].message).toContain('Mica and paste go to 5\u00a0%, dye only to 1 to 2\u00a0%');
    expect(said({ percent: 6 })[0].message).toContain('Over 5\u00a0% of mica or paste');
  });
});

describe('a premix', () => {
  it('brings the dye and keeps the hardener right', () => {
    // 0.43 g in 1:10 is 4.73 g, 4.3 g of it part A; 183.98 g of part A and 77.59 g of B in the cup.
    const premix = premixFor({ dyeG: 0.43, partAG: 183.98, bPerAByMass: 0.4217, dyeScaleG: 0.1, scaleG: 0.1 })!;
    expect(premix.partsA).toBe(10);
    expect(premix.g).toBeCloseTo(4.73, 9);
    const [a, withPremix, all] = premix.scaleStopsG;
    expect(a).toBeCloseTo(179.7, 9);
    expect(withPremix).toBeCloseTo(184.4, 9);
    expect((all - withPremix) / (a + premix.partAG)).toBeCloseTo(0.4217, 3);
    expect(all - withPremix).toBeCloseTo(77.6, 1);
  });

  it('is there only where the scale is too coarse, and a finer scale needs none', () => {
    const coarse = (bench: object) => planOf(four({ percent: 0.1 }, { bench })).findings.filter(({ code, subject }) => code === 'scale-coarse' && subject === 'tint');
    expect(coarse({})).toHaveLength(1);
    expect(coarse({ dyeScaleG: 0.01 })).toHaveLength(0);
    expect(planOf(four({ percent: 0.1 }, { bench: { dyeScaleG: 0.01 } })).pours[0].batches[0].premix).toBeNull();
    // A crumb of dye in a small cup: the premix would be most of its part A.
    expect(premixFor({ dyeG: 0.002, partAG: 0.1, bPerAByMass: 0.4, dyeScaleG: 0.1, scaleG: 0.1 })).toBeNull();
  });
});
