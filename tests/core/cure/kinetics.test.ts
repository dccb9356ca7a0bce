/** The rate and its table: the published values themselves are in tests/reference/rows-heat-cure.ts. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cureRate, type Kinetics } from '../../../src/core/cure/kinetics.ts';
import { tabulated } from '../../../src/core/cure/rate-table.ts';
import type { RateCells } from '../../../src/core/cure/stack-types.ts';

const SHAPE: Kinetics = {
  heatJPerKg: 370_000, activationJPerMol: 52_000, k2PerS: 5.3e-5, atC: 23, k1OverK2: 0.03, m: 0.7, n: 1.7,
  brake: { c: 30, alpha0: 0.773, alphaPerK: 0.0045, atC: 25 }, gelAlpha: 0.58,
};

function cellsAt(alpha: number, temperatureC: number): RateCells {
  const one = (value: number) => Float64Array.of(value);
  return { from: 0, to: 1, conversion: one(alpha), temperatureC: one(temperatureC), ratePerS: one(NaN), byConversion: one(NaN), byKelvin: one(NaN) };
}

function slopesAt(kinetics: Kinetics, alpha: number, temperatureC: number): { rate: number; byConversion: number; byKelvin: number } {
  const cells = cellsAt(alpha, temperatureC);
  tabulated(kinetics).slopes(cells);
  return { rate: cells.ratePerS[0], byConversion: cells.byConversion[0], byKelvin: cells.byKelvin[0] };
}

const anyKinetics = fc.record({
  heatJPerKg: fc.constant(350_000), activationJPerMol: fc.double({ min: 40_000, max: 70_000, noNaN: true }), k2PerS: fc.double({ min: 1e-6, max: 1e-2, noNaN: true }), atC: fc.constant(23),
  k1OverK2: fc.double({ min: 0.005, max: 0.3, noNaN: true }), m: fc.double({ min: 0.5, max: 1.5, noNaN: true }), n: fc.double({ min: 1, max: 2.5, noNaN: true }),
  brake: fc.option(fc.record({ c: fc.double({ min: 10, max: 50, noNaN: true }), alpha0: fc.double({ min: 0.6, max: 0.95, noNaN: true }), alphaPerK: fc.constant(0.0045), atC: fc.constant(25) }), { nil: undefined }),
  gelAlpha: fc.constant(0.58),
}) as fc.Arbitrary<Kinetics>;

describe('the rate of cure', () => {
  it('doubles for 10 °C near room temperature with E 52 kJ/mol (common practice, no source: arithmetic of physics §4)', () => {
    const { brake: _, ...plain } = SHAPE;
    expect(cureRate(plain, 0.2, 33) / cureRate(plain, 0.2, 23)).toBeCloseTo(2, 1);
  });

  it('takes conversion outside 0 to 1 for the nearer end', () => {
    expect(cureRate(SHAPE, -0.1, 23)).toBe(cureRate(SHAPE, 0, 23));
    expect(cureRate(SHAPE, 1.1, 23)).toBe(0);
    for (const alpha of [-0.1, 1.1]) expect(slopesAt(SHAPE, alpha, 23).rate).toBeCloseTo(cureRate(SHAPE, alpha, 23), 15);
  });
});

describe('its table', () => {
  it.each([[1e-5, 1, 1e-5], [0, 1e-5, 1e-3]])('from α %d to %d gives the formula within %d of the largest rate, seed 11', (min, max, share) => {
    fc.assert(
      fc.property(anyKinetics, fc.double({ min, max, noNaN: true }), fc.double({ min: 0, max: 220, noNaN: true }), (kinetics, alpha, temperatureC) => {
        const { brake: _, ...plain } = kinetics;
        const largest = Math.max(...Array.from({ length: 50 }, (__, k) => cureRate(plain, k / 50, temperatureC)));
        const cells = cellsAt(alpha, temperatureC);
        tabulated(kinetics).rate(cells);
        expect(Math.abs(cells.ratePerS[0] - cureRate(kinetics, alpha, temperatureC))).toBeLessThanOrEqual(share * largest);
      }),
      { seed: 11, numRuns: 300 },
    );
  });

  it('gives the derivatives of what it gives, by differences, seed 12', () => {
    const [stepAlpha, stepK] = [1e-6, 1e-4];
    fc.assert(
      fc.property(anyKinetics, fc.double({ min: 0.01, max: 0.99, noNaN: true }), fc.double({ min: 0, max: 220, noNaN: true }), (kinetics, alpha, temperatureC) => {
        const here = slopesAt(kinetics, alpha, temperatureC);
        const rate = (a: number, t: number) => slopesAt(kinetics, a, t).rate;
        const byConversion = (rate(alpha + stepAlpha, temperatureC) - rate(alpha - stepAlpha, temperatureC)) / (2 * stepAlpha);
        const byKelvin = (rate(alpha, temperatureC + stepK) - rate(alpha, temperatureC - stepK)) / (2 * stepK);
        // Differences of doubles: 1e-5 of the slope's own scale.
        expect(Math.abs(here.byConversion - byConversion)).toBeLessThanOrEqual(1e-5 * (Math.abs(byConversion) + here.rate / alpha) + 1e-14);
        expect(Math.abs(here.byKelvin - byKelvin)).toBeLessThanOrEqual(1e-5 * (Math.abs(byKelvin) + here.rate * 0.1) + 1e-14);
      }),
      { seed: 12, numRuns: 300 },
    );
  });

  it('gives the formula at the ends of what it looks up, beyond them, and for steep Arrhenius', () => {
    for (const kinetics of [SHAPE, { ...SHAPE, activationJPerMol: 119_000 }, { ...SHAPE, activationJPerMol: 300_000 }]) {
      for (const temperatureC of [-80, 0.5, 23.37, 151.5, 339.99, 340, 341.5, 800]) {
        for (const alpha of [0.1, 0.5, 0.9]) {
          const { rate } = slopesAt(kinetics, alpha, temperatureC);
          const expected = cureRate(kinetics, alpha, temperatureC);
          // Where the brake leaves under 2e-9 of the rate the table calls it none.
          const { brake: _, ...plain } = kinetics;
          expect(Math.abs(rate - expected), `${temperatureC} °C, α ${alpha}`).toBeLessThanOrEqual(5e-6 * expected + 1e-8 * cureRate(plain, alpha, temperatureC));
        }
      }
    }
  });

  it('stays finite at both ends, and where the brake holds everything', () => {
    for (const kinetics of [SHAPE, { ...SHAPE, m: 0.3, n: 0.5 }, { ...SHAPE, m: 0, n: 0 }, { ...SHAPE, brake: { c: 1000, alpha0: -1, alphaPerK: 0, atC: 25 } }]) {
      for (const alpha of [0, 1e-12, 0.5, 1 - 1e-12, 1]) for (const value of Object.values(slopesAt(kinetics, alpha, 25))) expect(value).toSatisfy(Number.isFinite);
    }
  });
});
