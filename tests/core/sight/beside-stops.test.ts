/** Planes beside other stops: by hand, and against the rule itself at random (a pour under 0.6 of the least depth may not be poured: design). */
import { describe, expect, it } from 'vitest';
import { besideStops, countBesideStops, gapBesideStops } from '../../../src/core/sight/beside-stops.ts';
import { seeded } from '../../view/seeded.ts';

const MIN = 5;
const span = { minDepthMm: MIN, bottomMm: 20, topMm: 42 };

describe('planes beside other stops', () => {
  it('move alike, no farther than helps: 0.93 mm down onto 20, and so onto 30 as well', () => {
    const heights = besideStops([20.93, 25.93, 30.93, 35.93, 40.93], { ...span, stopsMm: [0, 20, 30, 55] });
    expect(heights.map((z) => z.toFixed(6))).toEqual(['20.000000', '25.000000', '30.000000', '35.000000', '40.000000']);
  });

  it('where all can’t, one goes onto the stop it lies too near', () => {
    expect(besideStops([22, 27, 32, 37], { minDepthMm: MIN, bottomMm: 22, topMm: 37.5, stopsMm: [0, 28, 60] })).toEqual([22, 28, 32, 37]);
  });

  it('that lie well stay as they are', () => {
    expect(besideStops([22, 27, 32], { ...span, stopsMm: [0, 17, 37, 60] })).toEqual([22, 27, 32]);
    expect(besideStops([20, 25], { ...span, stopsMm: [] })).toEqual([20, 25]);
  });

  it('a gap apart, one that comes to lie at the creature’s end is left out; so many stay so many, within it', () => {
    const options = { ...span, stopsMm: [0, 20, 30, 55] };
    const even = [20.93, 25.93, 30.93, 35.93, 40.93];
    expect(gapBesideStops(even, options).map((z) => z.toFixed(6))).toEqual(['25.000000', '30.000000', '35.000000', '40.000000']);
    const counted = countBesideStops(even, options);
    expect(counted.length).toBe(5);
    // 0.15 of a fifth of 22 mm is 0.66.
    expect(Math.min(...counted)).toBeGreaterThanOrEqual(20.66 - 1e-9);
    expect(counted).toContain(30);
    expect([gapBesideStops([], options), countBesideStops([], options)]).toEqual([[], []]);
  });

  it('at random never make more pours too thin than there were, and stay within the creature', () => {
    const random = seeded(31);
    const tooThin = (heights: readonly number[], stops: readonly number[]): number => {
      const all = [...heights, ...stops].sort((a, b) => a - b);
      return all.filter((z, i) => i > 0 && z - all[i - 1] > 0.05 && z - all[i - 1] < 0.6 * MIN - 1e-6).length;
    };
    let better = 0;
    for (let n = 0; n < 200; n++) {
      const gap = MIN + 3 * random();
      const heights = Array.from({ length: 1 + Math.floor(5 * random()) }, (_, i) => 20 + gap / 2 + i * gap);
      const topMm = heights[heights.length - 1] + gap / 2;
      const stopsMm = [0, 20 + 30 * random(), 60 + 5 * random(), 90];
      const moved = besideStops(heights, { minDepthMm: MIN, bottomMm: 20, topMm, stopsMm });
      expect(moved.length).toBe(heights.length);
      expect(moved.every((z, i) => z >= 20 - 1e-9 && z < topMm && (i === 0 || z > moved[i - 1]))).toBe(true);
      expect(tooThin(moved, stopsMm)).toBeLessThanOrEqual(tooThin(heights, stopsMm));
      if (tooThin(moved, stopsMm) < tooThin(heights, stopsMm)) better++;
    }
    expect(better).toBeGreaterThan(50);
  });
});
