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

/** mm³ that two boxes share. */
function sharedMm3(a: Bounds, b: Bounds): number {
  return [0, 1, 2].reduce((room, k) => room * Math.max(0, Math.min(a.max[k], b.max[k]) - Math.max(a.min[k], b.min[k])), 1);
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

  it('is in the corner, sharing least, where nothing is free', () => {
    const mold = { ...BOX, lengthMm: 152, widthMm: 102 };
    const star: Bounds = { min: [-26, -25.5, 0], max: [26, 25.5, 10] };
    const { xMm, yMm, baseMm } = freeSpot({ mold, sizeMm: [91, 33, 15], taken: [star], groundAt: FLOOR });
    // The walls leave 30.5 and 34.5 mm to the right and back; places are tried 152 / 48 = 3.17 mm apart.
    expect(baseMm).toBe(0);
    for (const [at, most] of [[xMm, 30.5], [yMm, 34.5]]) {
      expect(at).toBeLessThanOrEqual(most);
      expect(at).toBeGreaterThan(most - 152 / 48);
    }
  });

  it('lies in a round mold and clear of the rest, or shares no more with it than anywhere tried (seed 11)', () => {
    const size = fc.tuple(fc.integer({ min: 4, max: 70 }), fc.integer({ min: 4, max: 70 }), fc.integer({ min: 2, max: 30 }));
    fc.assert(
      fc.property(fc.array(size, { maxLength: 5 }), size, (others, sizeMm) => {
        const taken: Bounds[] = [];
        for (const other of others) taken.push(boxOf(freeSpot({ mold: ROUND, sizeMm: other, taken, groundAt: FLOOR }), other));
        const spot = freeSpot({ mold: ROUND, sizeMm, taken, groundAt: FLOOR });
        const box = boxOf(spot, sizeMm);
        // The corner farthest out, in a circle of 75 mm.
        const inside = ({ xMm, yMm }: Spot): boolean => Math.hypot(Math.abs(xMm) + sizeMm[0] / 2, Math.abs(yMm) + sizeMm[1] / 2) <= 75 + 1e-9;
        const sharedAt = (at: Bounds): number => taken.reduce((sum, other) => sum + sharedMm3(at, other), 0);
        if (!inside(spot)) expect(spot).toEqual({ xMm: 0, yMm: 0, baseMm: 0 });
        // The steps of the search: 150 mm / 48.
        let leastMm3 = Infinity;
        for (let xMm = -75; xMm <= 75; xMm += 3.125) {
          for (let yMm = -75; yMm <= 75; yMm += 3.125) {
            const other = { xMm, yMm, baseMm: 0 };
            if (inside(other)) leastMm3 = Math.min(leastMm3, sharedAt(boxOf(other, sizeMm)));
          }
        }
        expect(sharedAt(box)).toBeLessThanOrEqual(leastMm3 + 0.01);
      }),
      { seed: 11, numRuns: 60 },
    );
  });
});
