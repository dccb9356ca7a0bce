/** Rate laws that only checks use: a point's own function over ranges of cells, and the published ones. */
import type { RateCells, RateLaw } from '../../../src/core/cure/stack-types.ts';

/** dα/dt in 1/s and its derivatives at one point. */
export interface PointLaw {
  rate(alpha: number, temperatureC: number): number;
  byConversion(alpha: number, temperatureC: number): number;
  byKelvin(alpha: number, temperatureC: number): number;
}

export function lawOf(point: PointLaw, { heatJPerKg, gelAlpha = 0.99 }: { heatJPerKg: number; gelAlpha?: number }): RateLaw {
  const rate = ({ from, to, conversion, temperatureC, ratePerS }: RateCells) => {
    for (let i = from; i < to; i++) ratePerS[i] = point.rate(conversion[i], temperatureC[i]);
  };
  return {
    heatJPerKg,
    gelAlpha,
    rate,
    slopes(cells) {
      rate(cells);
      for (let i = cells.from; i < cells.to; i++) {
        cells.byConversion[i] = point.byConversion(cells.conversion[i], cells.temperatureC[i]);
        cells.byKelvin[i] = point.byKelvin(cells.conversion[i], cells.temperatureC[i]);
      }
    },
  };
}

/** Gives no heat. */
export const INERT: RateLaw = lawOf({ rate: () => 0, byConversion: () => 0, byKelvin: () => 0 }, { heatJPerKg: 0 });

/** Heat at a steady rate whatever the temperature, W/m³, in a material of a density. */
export function steadyHeat(wattPerM3: number, densityKgPerM3: number): RateLaw {
  // So much heat a kilogram that no conversion to speak of comes of it.
  const heatJPerKg = 1e12;
  return lawOf({ rate: () => wattPerM3 / densityKgPerM3 / heatJPerKg, byConversion: () => 0, byKelvin: () => 0 }, { heatJPerKg });
}

/** Zero order, with Frank-Kamenetskii's exponential for Arrhenius: δ e^θ in a body of unit constants. */
export function selfHeating(delta: number): RateLaw {
  const heatJPerKg = 1e12;
  const rate = (theta: number) => (delta / heatJPerKg) * Math.exp(theta);
  return lawOf({ rate: (_, theta) => rate(theta), byConversion: () => 0, byKelvin: (_, theta) => rate(theta) }, { heatJPerKg });
}

const GAS = 8.314462618;
const ZERO_C = 273.15;

/** Lee, Loos & Springer 1982, J. Compos. Mater. 16:510, turned from minutes into seconds. */
export function leeLoosSpringer(heatJPerKg: number): RateLaw {
  const k = (perMin: number, joule: number) => (temperatureC: number) => {
    const kelvin = temperatureC + ZERO_C;
    const value = (perMin / 60) * Math.exp(-joule / (GAS * kelvin));
    return { value, slope: (value * joule) / (GAS * kelvin * kelvin) };
  };
  const [k1, k2, k3] = [k(2.101e9, 80_700), k(-2.014e9, 77_800), k(1.96e5, 56_600)];
  const early = (a: number) => (1 - a) * (0.47 - a);
  return lawOf(
    {
      rate: (a, t) => (a <= 0.3 ? (k1(t).value + k2(t).value * a) * early(a) : k3(t).value * (1 - a)),
      byConversion: (a, t) => (a <= 0.3 ? k2(t).value * early(a) + (k1(t).value + k2(t).value * a) * (2 * a - 1.47) : -k3(t).value),
      byKelvin: (a, t) => (a <= 0.3 ? (k1(t).slope + k2(t).slope * a) * early(a) : k3(t).slope * (1 - a)),
    },
    { heatJPerKg },
  );
}

/** The source of the textbook's reacting slab: 2 e^(−1000/T) × 0.5 (1−α)², with its 0 °C at 273.2 K. */
export function textbookSlab(heatJPerKg: number): RateLaw {
  const arrhenius = (t: number) => Math.exp(-1000 / (t + 273.2));
  return lawOf(
    {
      rate: (a, t) => arrhenius(t) * (1 - a) ** 2,
      byConversion: (a, t) => -2 * arrhenius(t) * (1 - a),
      byKelvin: (a, t) => ((arrhenius(t) * 1000) / (t + 273.2) ** 2) * (1 - a) ** 2,
    },
    { heatJPerKg },
  );
}

/** Rate of any law at one point, 1/s. */
export function rateOf(law: RateLaw, alpha: number, temperatureC: number): number {
  const one = (value: number) => Float64Array.of(value);
  const cells: RateCells = { from: 0, to: 1, conversion: one(alpha), temperatureC: one(temperatureC), ratePerS: one(0), byConversion: one(0), byKelvin: one(0) };
  law.rate(cells);
  return cells.ratePerS[0];
}
