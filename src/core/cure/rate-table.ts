/**
 * A Kinetics made fast: what depends on conversion alone is looked up, over √α, because powers cost more than all
 * the rest of a step (measured: 2.5 times). Cubic between the entries, with the exact derivative of that cubic, so
 * that an implicit step sees the derivative of the very law it integrates.
 */
import { GAS_J_PER_MOL_K, ZERO_C_IN_K, type Kinetics } from './kinetics.ts';
import type { RateCells, RateLaw } from './stack-types.ts';

/** Against the powers: within 1e-5 of the largest rate; 1e-3 in the first of them, α under 4e-6, where m is near ½. */
const INTERVALS = 512;
/** √α below which the derivative by α is that of here: it has no bound at 0 where m < 1. */
const LEAST_ROOT = 1e-3;
/** A brake weaker than e⁻³⁰ is none. */
const NO_BRAKE = -30;

/** The law of a Kinetics, for whole ranges of cells. Conversion outside 0 to 1 counts as the nearer end. */
export function tabulated(kinetics: Kinetics): RateLaw {
  const { heatJPerKg, gelAlpha, activationJPerMol, k2PerS, atC } = kinetics;
  const table = tableOf(kinetics);
  const slopeK = activationJPerMol / GAS_J_PER_MOL_K;
  const inverseAtK = 1 / (atC + ZERO_C_IN_K);
  // Without a brake its argument is far below every bound.
  const { c, alpha0, alphaPerK, atC: brakeAtC } = kinetics.brake ?? { c: 0, alpha0: 0, alphaPerK: 0, atC: 0 };
  const braked = kinetics.brake !== undefined;

  function rate({ from, to, conversion, temperatureC, ratePerS }: RateCells): void {
    for (let i = from; i < to; i++) {
      const t = temperatureC[i];
      let alpha = conversion[i];
      alpha = alpha < 0 ? 0 : alpha > 1 ? 1 : alpha;
      const x = Math.sqrt(alpha) * INTERVALS;
      let k = x | 0;
      if (k === INTERVALS) k = INTERVALS - 1;
      const u = x - k;
      const at = 4 * k;
      let r = k2PerS * Math.exp(slopeK * (inverseAtK - 1 / (t + ZERO_C_IN_K))) * (table[at] + u * (table[at + 1] + u * (table[at + 2] + u * table[at + 3])));
      if (braked) {
        const z = c * (alpha - alpha0 - alphaPerK * (t - brakeAtC));
        if (z > NO_BRAKE) r /= 1 + Math.exp(z);
      }
      ratePerS[i] = r;
    }
  }

  function slopes({ from, to, conversion, temperatureC, ratePerS, byConversion, byKelvin }: RateCells): void {
    for (let i = from; i < to; i++) {
      const t = temperatureC[i];
      let alpha = conversion[i];
      alpha = alpha < 0 ? 0 : alpha > 1 ? 1 : alpha;
      const root = Math.sqrt(alpha);
      const x = root * INTERVALS;
      let k = x | 0;
      if (k === INTERVALS) k = INTERVALS - 1;
      const u = x - k;
      const at = 4 * k;
      const inverseK = 1 / (t + ZERO_C_IN_K);
      const arrhenius = k2PerS * Math.exp(slopeK * (inverseAtK - inverseK));
      let r = arrhenius * (table[at] + u * (table[at + 1] + u * (table[at + 2] + u * table[at + 3])));
      const byRoot = INTERVALS * (table[at + 1] + u * (2 * table[at + 2] + u * 3 * table[at + 3]));
      let byAlpha = (arrhenius * byRoot) / (2 * (root < LEAST_ROOT ? LEAST_ROOT : root));
      let perK = r * slopeK * inverseK * inverseK;
      if (braked) {
        const z = c * (alpha - alpha0 - alphaPerK * (t - brakeAtC));
        if (z > NO_BRAKE) {
          const e = Math.exp(z);
          const left = 1 / (1 + e);
          r *= left;
          const held = r * e * left * c; // e may overflow: then left is 0 and r is 0
          byAlpha = byAlpha * left - (Number.isFinite(held) ? held : 0);
          perK = perK * left + (Number.isFinite(held) ? held * alphaPerK : 0);
        }
      }
      ratePerS[i] = r;
      byConversion[i] = byAlpha;
      byKelvin[i] = perK;
    }
  }

  return { heatJPerKg, gelAlpha, rate, slopes };
}

/** Four coefficients of the cubic in each interval of √α, one interval after the other. */
function tableOf({ k1OverK2, m, n }: Kinetics): Float64Array {
  const value = (x: number) => (k1OverK2 + x ** (2 * m)) * (1 - x * x) ** n;
  const slope = (x: number) =>
    (m === 0 ? 0 : 2 * m * x ** (2 * m - 1) * (1 - x * x) ** n) - (n === 0 ? 0 : (k1OverK2 + x ** (2 * m)) * n * (1 - x * x) ** (n - 1) * 2 * x);
  const width = 1 / INTERVALS;
  const table = new Float64Array(4 * INTERVALS);
  for (let k = 0; k < INTERVALS; k++) {
    const [left, right] = [value(k * width), value((k + 1) * width)];
    const rise = right - left;
    // A slope without bound (m < ½ at 0, n < 1 at 1) becomes that of the chord.
    const finite = (s: number) => (Number.isFinite(s) ? s * width : rise);
    const [from, to] = [finite(slope(k * width)), finite(slope((k + 1) * width))];
    table.set([left, from, 3 * rise - 2 * from - to, from + to - 2 * rise], 4 * k);
  }
  return table;
}
