/** Whole kits: against every combination of them, tried one by one. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cheapestKits } from '../../../../src/core/plan/shop/kits.ts';

/** The least price by trying every count of every size. */
function leastByTrying(needMl: number, sizes: readonly { kitMl: number; amount: number }[]): number {
  if (needMl <= 0) return 0;
  const [size, ...rest] = sizes;
  if (!size) return Infinity;
  let least = Infinity;
  for (let count = 0; count <= Math.ceil(needMl / size.kitMl); count++) least = Math.min(least, count * size.amount + leastByTrying(needMl - count * size.kitMl, rest));
  return least;
}

const size = fc.record({ kitMl: fc.integer({ min: 1, max: 60 }).map((steps) => steps * 25), amount: fc.integer({ min: 1, max: 9000 }).map((cents) => cents / 100) });

describe('kits to buy', () => {
  it('cost the least of all that hold enough', () => {
    fc.assert(fc.property(fc.integer({ min: 0, max: 250_000 }).map((hundredths) => hundredths / 100), fc.array(size, { minLength: 1, maxLength: 3 }), (needMl, sizes) => {
      const { kits, ml, amount } = cheapestKits(needMl, sizes);
      expect(ml).toBeGreaterThanOrEqual(needMl - 1e-6);
      expect(amount).toBeCloseTo(kits.reduce((sum, kit) => sum + kit.count * kit.amount, 0), 6);
      expect(amount).toBeCloseTo(leastByTrying(needMl, sizes), 6);
    }), { seed: 20261128, numRuns: 300 });
  });

  it('hold enough for a need beyond the search, and for none', () => {
    expect(cheapestKits(9e6, [{ kitMl: 1500.5, amount: 48 }, { kitMl: 333.3, amount: 13 }]).ml).toBeGreaterThanOrEqual(9e6);
    expect(cheapestKits(0, [{ kitMl: 1500, amount: 48 }])).toEqual({ kits: [], ml: 0, amount: 0 });
    expect(cheapestKits(3000, [{ kitMl: 1500, amount: 48 }]).kits).toEqual([{ kitMl: 1500, amount: 48, count: 2 }]);
    expect(cheapestKits(3000.2, [{ kitMl: 1500, amount: 48 }]).kits[0].count).toBe(3);
  });
});
