/** Spacing of planes by Snell's law, and where they go. */
import { describe, expect, it } from 'vitest';
import { readScene } from '../../../src/core/scene/read.ts';
import { planeCycleH, spacingAdvice } from '../../../src/core/sight/advice.ts';
import { evenHeights, planeHeights } from '../../../src/core/sight/propose.ts';
import { insideTan, largestGapMm, seenStepMm, showsFromDeg } from '../../../src/core/sight/spacing.ts';

describe('steps by Snell’s law, sin θ = n sin θ′', () => {
  it('a feather of 1.5 mm at 45° in n 1.55 hides gaps up to 2.926 mm (1.5/tan asin(sin 45°/1.55), by hand)', () => {
    expect(insideTan(45, 1.55)).toBeCloseTo(0.512652, 5);
    expect(largestGapMm(1.5, 45, 1.55)).toBeCloseTo(2.92596, 4);
  });

  it('without resin between, a step is gap × tan θ', () => {
    expect(seenStepMm(3, 45, 1)).toBeCloseTo(3, 12);
    expect(seenStepMm(3, 60, 1)).toBeCloseTo(3 * Math.sqrt(3), 12);
    expect(seenStepMm(3, 0, 1.55)).toBe(0);
  });

  it.each([[2, 1.5], [5, 1.5], [3, 0.4]])('a gap of %f mm and a feather of %f: at the look from which it shows, it is the largest gap', (gap, feather) => {
    const from = showsFromDeg(gap, feather, 1.55);
    if (from === null) expect(seenStepMm(gap, 89.999, 1.55)).toBeLessThanOrEqual(feather);
    else expect(largestGapMm(feather, from, 1.55)).toBeCloseTo(gap, 9);
  });

  it('no step shows where the resin’s greatest angle, asin(1/n), is too small', () => {
    expect(showsFromDeg(1, 1.5, 1.55)).toBeNull();
    expect(showsFromDeg(0, 1.5, 1.55)).toBeNull();
  });
});

describe('where planes go', () => {
  const resin = { fillMm: 60, minDepthMm: 3 };

  it('a gap apart, centered, at most half a gap left at the ends', () => {
    expect(planeHeights(10, 22, 3, resin)).toEqual([11.5, 14.5, 17.5, 20.5]);
    expect(planeHeights(10, 23, 3, resin)).toEqual([10.5, 13.5, 16.5, 19.5, 22.5]);
    expect(planeHeights(10, 12, 3, resin)).toEqual([11]);
  });

  it('so many evenly, half a gap left at the ends', () => {
    expect(evenHeights(10, 22, 4, resin)).toEqual([11.5, 14.5, 17.5, 20.5]);
    expect(evenHeights(0, 30, 1, resin)).toEqual([15]);
  });

  it('off the floor and the top by what a pour needs, where the creature lets them; never out of the resin', () => {
    expect(planeHeights(1, 21, 5, { fillMm: 60, minDepthMm: 4 })).toEqual([4, 9, 14, 19]);
    expect(planeHeights(40, 58, 6, { fillMm: 60, minDepthMm: 6 })).toEqual([42, 48, 54]);
    expect(planeHeights(-20, 10, 5, resin).every((z) => z >= 0)).toBe(true);
    expect(planeHeights(50, 90, 5, resin).every((z) => z <= 60)).toBe(true);
    expect(planeHeights(70, 80, 5, resin)).toEqual([]);
  });
});

describe('advice', () => {
  const reading = readScene({ format: 'stillpool.scene', version: 1, mold: { shape: 'box', lengthMm: 100, widthMm: 80, heightMm: 60 }, fillMm: 50, fills: [{ toMm: 50, formula: 'g' }], formulas: [{ id: 'g', name: 'Casting', ratioByVolume: [2, 1], maxDepthMm: 20, minDepthMm: 3, refractiveIndex: 1.55 }] });
  if (!reading.ok) throw new Error('the scene was refused');
  const { scene } = reading;
  const advice = (gapMm: number) => spacingAdvice(scene, { featherMm: 1.5, viewDeg: 45 }, { gapMm, fromMm: 10, toMm: 40 });

  it('a plane takes 36 h to harden, ½ to scuff, 3 to paint, 8 to dry, ½ to pour: 48 h (cases.md 9), and hardening half as long 10 °C warmer', () => {
    const slow = { ...scene, formulas: new Map([['g', { ...scene.formulas.get('g')!, scuffableH: 36, paintableH: 36, atC: 23 }]]) };
    expect(planeCycleH(slow, { paintH: 3, dryH: 8 }, { fromMm: 10, toMm: 14 })).toBe(48);
    expect(planeCycleH({ ...slow, room: { ...scene.room, temperatureC: 33 } }, { paintH: 3, dryH: 8 }, { fromMm: 10, toMm: 14 })).toBe(30);
  });

  it('says what shows and what to do', () => {
    expect(advice(2.9)).toMatchObject({ hidden: true, pours: 'thin' });
    expect(advice(2.9).words).toBe('Planes 2.9\u00a0mm apart slide 1.5\u00a0mm over each other, seen at 45°: a feather of 1.5\u00a0mm hides it. Casting needs 3\u00a0mm to level: no closer than that.');
    expect(advice(3)).toMatchObject({ hidden: false, pours: 'well' });
    expect(advice(6).words).toBe('Planes 6\u00a0mm apart slide 3.1\u00a0mm over each other, seen at 45°, more than the feather of 1.5\u00a0mm. Set them 2.9\u00a0mm apart, or feather over 3.1\u00a0mm.');
    expect(advice(1.7).pours).toBe('not');
    // 0.7 mm hides under 1.3 mm apart at n 1.55 (tan asin(sin 45°/1.55) = 0.5127), less than 0.6 × 3 mm: it can't be poured.
    expect(spacingAdvice(scene, { featherMm: 0.7, viewDeg: 45 }, { gapMm: 6, fromMm: 10, toMm: 40 }).words).toMatch(/Feather over 3.1\u00a0mm: Casting needs 3\u00a0mm to level, so they can’t stand close enough for this one\.$/);
    // Already closer than levels well: no closer is asked for.
    expect(spacingAdvice(scene, { featherMm: 1, viewDeg: 45 }, { gapMm: 2.8, fromMm: 10, toMm: 40 }).words).not.toContain('Set them');
  });
});
