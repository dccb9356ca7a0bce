/** The cup before it is poured: more resin is hotter and sooner, and no label's own cup is too hot in its own minutes. */
import { describe, expect, it } from 'vitest';
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
    expect(verdict.words).toMatch(/smaller cups/);
    expect(asked(400, verdict.usableMin).hot).toBe(false);
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

  it('of light-cured resin makes no heat', () => {
    const verdict = cupVerdict(classFormula('uv'), classFamily('uv'), { batchG: 5000, roomC: 23, usableMin: 300 });
    expect(verdict).toMatchObject({ endC: [23, 23], hot: false, usableMin: 300 });
  });
});
