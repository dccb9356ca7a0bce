/** Colors by their standards: IEC 61966-2-1, CIE L*a*b*, CIEDE2000 by all pairs of its published test table. */
import { describe, expect, it } from 'vitest';
import { colorDifference } from '../../../src/core/sight/color-difference.ts';
import { differenceWords } from '../../../src/core/sight/color-words.ts';
import { decoded, encoded, hexOf, labOf, lightOf, type Lab } from '../../../src/core/sight/color.ts';
import { seeded } from '../solid/oracle.ts';
import { SHARMA_PAIRS } from '../../reference/sharma-pairs.ts';

describe('sRGB (IEC 61966-2-1)', () => {
  it('writes and reads light by the standard’s curve', () => {
    // The standard's formula, evaluated by hand.
    expect(encoded(0.5)).toBeCloseTo(0.735357, 6);
    expect(encoded(0.001)).toBeCloseTo(0.01292, 8);
    expect(decoded(0.5)).toBeCloseTo(0.214041, 6);
  });

  it('every step of 256 comes back', () => {
    for (let step = 0; step < 256; step++) {
      const hex = `#${step.toString(16).padStart(2, '0').repeat(3)}`;
      expect(hexOf(lightOf(hex))).toBe(hex);
    }
  });

  it('cuts light off that no screen has', () => {
    expect(hexOf([1.4, -0.2, 0.5])).toBe('#ff00bc');
  });
});

describe('L*a*b* under D65', () => {
  it.each([
    // The primaries as they are commonly tabulated for sRGB under D65; four digits of the matrix leave 0.02.
    ['#ffffff', 100, 0, 0], ['#000000', 0, 0, 0], ['#ff0000', 53.24, 80.09, 67.2], ['#00ff00', 87.73, -86.18, 83.18], ['#0000ff', 32.3, 79.19, -107.86],
    // Middle gray by the formula: L* 116 ∛(0.215861) − 16, by hand.
    ['#808080', 53.585, 0, 0],
  ])('%s', (hex, L, a, b) => {
    const [l, A, B] = labOf(lightOf(hex));
    expect(Math.abs(l - L)).toBeLessThan(0.02);
    expect(Math.abs(A - a)).toBeLessThan(0.03);
    expect(Math.abs(B - b)).toBeLessThan(0.03);
  });
});

describe('CIEDE2000', () => {
  it.each(SHARMA_PAIRS.map((pair, i) => ({ n: i + 1, pair })))('pair $n of Sharma, Wu & Dalal 2005, table 1, both ways round', ({ pair }) => {
    const [L1, a1, b1, L2, a2, b2, expected] = pair;
    expect(Math.abs(colorDifference([L1, a1, b1], [L2, a2, b2]) - expected)).toBeLessThan(1e-4);
    expect(Math.abs(colorDifference([L2, a2, b2], [L1, a1, b1]) - expected)).toBeLessThan(1e-4);
  });

  it('there are all 34', () => {
    expect(SHARMA_PAIRS).toHaveLength(34);
  });

  it('is 0 of a color with itself and above it of others, seed 5', () => {
    const random = seeded(5);
    for (let i = 0; i < 200; i++) {
      const lab: Lab = [100 * random(), 200 * random() - 100, 200 * random() - 100];
      expect(colorDifference(lab, lab)).toBe(0);
      expect(colorDifference(lab, [lab[0], lab[1] + 3, lab[2]])).toBeGreaterThan(0);
    }
  });
});

describe('in a painter’s words', () => {
  const lab = (hex: string): Lab => labOf(lightOf(hex));

  it.each([
    ['#808080', '#818181', null],
    ['#808080', '#303030', 'much darker'],
    ['#c03030', '#8a2222', 'much darker'],
    ['#808080', '#808060', 'much yellower'],
    ['#3060c0', '#30a0a0', 'much greener and lighter'],
  ])('from %s to %s', (from, to, words) => {
    expect(differenceWords(lab(from), lab(to))).toBe(words);
  });
});
