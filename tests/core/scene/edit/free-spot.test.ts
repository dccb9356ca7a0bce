/** A new figure lies inside the mold, on the highest ground under it, clear of what stands there: checked by plain geometry. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { freeSpot, type Spot } from '../../../../src/core/scene/edit/free-spot.ts';
import type { Bounds } from '../../../../src/core/solid/solid.ts';

const BOX = { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60 } as const;
const ROUND = { shape: 'round', diameterMm: 150, heightMm: 60 } as const;
const FLOOR = (): number => 0;

function boxOf({ xMm, yMm, baseMm }: Spot, [l, w, h]: readonly [number, number, number]): Bounds {
  return { min: [xMm - l / 2, yMm - w / 2, baseMm], max: [xMm + l / 2, yMm + w / 2, baseMm + h] };
}

function share(a: Bounds, b: Bounds): boolean {
  return [0, 1, 2].every((k) => a.min[k] < b.max[k] && b.min[k] < a.max[k]);
}

describe('where a new figure lands', () => {
  it('is the middle of an empty mold, on the floor', () => {
    expect(freeSpot({ mold: BOX, sizeMm: [30, 20, 15], taken: [], groundAt: FLOOR })).toEqual({ xMm: 0, yMm: 0, baseMm: 0 });
  });

  it('is beside what stands in the middle', () => {
    const sizeMm = [30, 20, 15] as const;
    const taken: Bounds[] = [];
    for (let count = 0; count < 12; count++) {
      const box = boxOf(freeSpot({ mold: BOX, sizeMm, taken, groundAt: FLOOR }), sizeMm);
      expect(taken.some((other) => share(box, other)), `figure ${count + 1}`).toBe(false);
      taken.push(box);
    }
  });

  it('is over what lies well below it, where a bed carries it', () => {
    const low: Bounds = { min: [-10, -10, 0], max: [10, 10, 8] };
    expect(freeSpot({ mold: BOX, sizeMm: [20, 20, 10], taken: [low], groundAt: () => 12 })).toEqual({ xMm: 0, yMm: 0, baseMm: 12 });
  });

  it('rests on the highest ground under it', () => {
    // A slope 0 → 30 mm over 200: under a figure 40 mm long in the middle it reaches 18 mm, at its right end.
    const slope = (xMm: number): number => ((xMm + 100) / 200) * 30;
    const { xMm, baseMm } = freeSpot({ mold: BOX, sizeMm: [40, 10, 10], taken: [], groundAt: slope });
    expect(xMm).toBe(0);
    // Ground is asked for in steps of 200 / 48 mm: within one of them, rising 0.15 a mm.
    expect(baseMm).toBeGreaterThanOrEqual(18);
    expect(baseMm).toBeLessThanOrEqual(18 + (200 / 48) * 0.15 + 0.1);
  });

  it('is the middle where there is no room', () => {
    expect(freeSpot({ mold: BOX, sizeMm: [300, 20, 15], taken: [], groundAt: FLOOR })).toEqual({ xMm: 0, yMm: 0, baseMm: 0 });
    const all: Bounds = { min: [-100, -60, 0], max: [100, 60, 60] };
    expect(freeSpot({ mold: BOX, sizeMm: [20, 20, 10], taken: [all], groundAt: FLOOR })).toEqual({ xMm: 0, yMm: 0, baseMm: 0 });
  });

  it('lies in a round mold and clear of the rest, or the middle (seed 11)', () => {
    const size = fc.tuple(fc.integer({ min: 4, max: 70 }), fc.integer({ min: 4, max: 70 }), fc.integer({ min: 2, max: 30 }));
    fc.assert(
      fc.property(fc.array(size, { maxLength: 5 }), size, (others, sizeMm) => {
        const taken: Bounds[] = [];
        for (const other of others) taken.push(boxOf(freeSpot({ mold: ROUND, sizeMm: other, taken, groundAt: FLOOR }), other));
        const spot = freeSpot({ mold: ROUND, sizeMm, taken, groundAt: FLOOR });
        const box = boxOf(spot, sizeMm);
        const clear = !taken.some((other) => share(box, other));
        if (spot.xMm !== 0 || spot.yMm !== 0) {
          expect(clear).toBe(true);
          // The corner farthest out, in a circle of 75 mm.
          expect(Math.hypot(Math.abs(spot.xMm) + sizeMm[0] / 2, Math.abs(spot.yMm) + sizeMm[1] / 2)).toBeLessThanOrEqual(75 + 1e-9);
        }
      }),
      { seed: 11, numRuns: 60 },
    );
  });
});
