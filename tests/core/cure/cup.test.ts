/** The cup before it is poured: more resin is hotter and sooner, and no label's own cup is too hot in its own minutes. */
import { describe, expect, it } from 'vitest';
import { familyOf } from '../../../src/core/cure/family.ts';
import { cupVerdict } from '../../../src/core/cure/cup.ts';
import { cupCooling, runCup } from '../../../src/core/cure/cup-run.ts';
import { usableMinutes } from '../../../src/core/plan/mix.ts';
import { RESIN_CLASSES } from '../../../src/core/resin/classes.ts';
import type { Family } from '../../../src/core/scene/scene.ts';
import { classFamily, classFormula } from './member-depths.ts';

const CLASSES = Object.keys(RESIN_CLASSES) as Family[];
const GENERAL = classFormula('general');
const asked = (batchG: number, usableMin: number, roomC = 23, mixC?: number) => cupVerdict(GENERAL, classFamily('general'), { batchG, roomC, mixC, usableMin });

/** Middle of a cup of the family’s middle member: how hot it gets, and when it passes 35 °C. */
function cupOf(massG: number, hours = 3) {
  const family = classFamily('general');
  const member = family.members[family.meanIndex];
  let [peakC, passesMin] = [0, Infinity];
  let [beforeS, beforeC] = [0, 23];
  const cooling = cupCooling({ massG, kind: 'plastic', filmHWPerM2K: member.topHWPerM2K }, member.material);
  runCup({ kinetics: member.kinetics, rate: member.cupRate, heatCapacityJPerKgK: member.material.heatCapacityJPerKgK, cooling, roomC: 23, mixC: 23 }, hours * 3600, (s, c) => {
    if (c > 35) passesMin = Math.min(passesMin, (beforeS + ((35 - beforeC) / (c - beforeC)) * (s - beforeS)) / 60);
    [beforeS, beforeC] = [s, c];
    peakC = Math.max(peakC, c);
    return false;
  });
  return { peakC, passesMin };
}

describe('a cup', () => {
  it.each(CLASSES)('%s: the most in one cup is not too hot within its usable minutes at the label’s temperature', (name) => {
    const formula = classFormula(name);
    const usableMin = usableMinutes(formula, formula.maxBatchG, formula.atC);
    const verdict = cupVerdict(formula, classFamily(name), { batchG: formula.maxBatchG, roomC: formula.atC, usableMin });
    expect(verdict.hot).toBe(false);
    expect(verdict.usableMin).toBe(usableMin);
  });

  it('with more mass runs hotter and sooner (common practice, no source)', () => {
    const cups = [100, 200, 400, 800, 1600].map((grams) => cupOf(grams));
    for (let i = 1; i < cups.length; i++) {
      expect(cups[i].peakC).toBeGreaterThan(cups[i - 1].peakC);
      expect(cups[i].passesMin).toBeLessThan(cups[i - 1].passesMin);
    }
  });

  it('left too long is hot, and its minutes end before it is', () => {
    const verdict = asked(400, 60);
    expect(verdict.hot).toBe(true);
    expect(verdict.usableMin).toBeLessThan(60);
    expect(verdict.usableMin).toBeGreaterThan(10);
    expect(verdict.words).toMatch(/can pass 50 °C after \d+ min/);
    expect(verdict.passesMin!).toBeGreaterThan(verdict.usableMin);
    expect(asked(400, usableMinutes(GENERAL, 400, 23)).hot).toBe(false);
  });

  it('mixed from warm bottles in a warm room is hotter, and never given more minutes', () => {
    const plain = asked(300, 18);
    const warm = asked(300, 18, 30, 38);
    expect(warm.endC[0]).toBeGreaterThan(plain.endC[1]);
    expect(warm.usableMin).toBeLessThanOrEqual(18);
    expect(asked(300, 1).usableMin).toBe(1);
  });

  it('mixed at over 50 °C is hot at once', () => {
    expect(asked(100, 10, 23, 55)).toMatchObject({ hot: true, usableMin: 0 });
  });

  it.each(['general', 'low-viscosity', 'coating', 'deep-pour'] as const)('%s: with more in it passes 50 °C sooner, and what is too much stays too much in a warmer room', (name) => {
    const [formula, family] = [classFormula(name), classFamily(name)];
    const asked = (batchG: number, roomC: number) => cupVerdict(formula, family, { batchG, roomC, usableMin: usableMinutes(formula, batchG, roomC), workMin: 2000 });
    const hot = (batchG: number, roomC: number) => asked(batchG, roomC).hot;
    const masses = [30, 68, 120, 218, 319, 600, 847, 1700, 3360, 4969];
    for (const roomC of [26, 29, 31, 33, 35]) {
      const hots = masses.map((grams) => hot(grams, roomC));
      const passes = masses.map((grams) => asked(grams, roomC).passesMin ?? Infinity);
      expect([...passes].sort((a, b) => b - a), `${roomC} °C`).toEqual(passes);
      masses.forEach((grams, i) => expect(!hots[i] || hot(grams, roomC + 2), `${grams} g at ${roomC} °C`).toBe(true));
    }
  });

  it('whose minutes end in time but whose pour goes on says when it passes 50 °C', () => {
    const usableMin = usableMinutes(GENERAL, 400, 23);
    const verdict = cupVerdict(GENERAL, classFamily('general'), { batchG: 400, roomC: 23, usableMin, workMin: 60 });
    expect(verdict.hot).toBe(false);
    expect(verdict.passesMin!).toBeGreaterThan(usableMin);
    expect(verdict.passesMin!).toBeLessThan(60);
    expect(verdict.words).toBe(`The cup can pass 50 °C after ${Math.floor(verdict.passesMin!)} min: pour it out by then and spread it.`);
  });

  it('of a label whose long pot life its small depth does not bear out goes by the depth', () => {
    // 3 mm at most, thick after ten hours: a resin that nears 60 °C in 3 mm is no resin that stays cool in a cup.
    const formula = { ...GENERAL, maxDepthMm: 3, minDepthMm: 1, potLifeMin: 600 };
    const usableMin = usableMinutes(formula, 100, 23);
    const verdict = cupVerdict(formula, familyOf(formula), { batchG: 100, roomC: 23, usableMin });
    expect(usableMin).toBe(420);
    expect(verdict.hot).toBe(true);
    expect(verdict.usableMin).toBeLessThan(60);
  });

  it('is called by how warm it is to the hand, not by how much it rose', () => {
    const words = (roomC: number) => cupVerdict(GENERAL, classFamily('general'), { batchG: 60, roomC, usableMin: 12 }).words;
    expect(words(10)).toMatch(/stays cool/);
    expect(words(36)).not.toMatch(/stays cool/);
  });

  it('of light-cured resin makes no heat', () => {
    const verdict = cupVerdict(classFormula('uv'), classFamily('uv'), { batchG: 5000, roomC: 23, usableMin: 300 });
    expect(verdict).toMatchObject({ endC: [23, 23], hot: false, usableMin: 300 });
  });
});
