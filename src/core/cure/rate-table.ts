/**
 * A Kinetics made fast: powers and exponentials are looked up, because they cost more than all the rest of a step
 * (measured: powers 2.5 times). What depends on conversion lies over √α, Arrhenius over °C, the brake over its
 * argument. Cubic between the entries, with the exact derivatives of those cubics, so that an implicit step sees the
 * derivative of the very law it integrates.
 */
import { GAS_J_PER_MOL_K, ZERO_C_IN_K, type Kinetics } from './kinetics.ts';
import type { RateCells, RateLaw } from './stack-types.ts';

/** Of √α. Against the powers: within 1e-5 of the largest rate; 1e-3 in the first, α under 4e-6, where m is near ½. */
const INTERVALS = 512;
/** √α below which the derivative by α is that of here: it has no bound at 0 where m < 1. */
const LEAST_ROOT = 1e-3;
/** Arrhenius every kelvin over this span, within 4e-6 from 0 °C on; outside it, or where it is steeper, the formula itself. */
const [COLDEST_C, HOTTEST_C] = [-60, 340];
const STEEPEST_J_PER_MOL = 120_000;
/** A brake's share 1/(1 + eᶻ) sixteen times a unit of z, within 1e-8; beyond ±20 it is all or (within 2e-9) nothing. */
const [PER_Z, MOST_Z] = [16, 20];

const BRAKE = cubics(2 * MOST_Z * PER_Z, 1 / PER_Z, (k) => {
  const share = 1 / (1 + Math.exp(k / PER_Z - MOST_Z));
  return [share, -share * (1 - share)];
});

/** The law of a Kinetics, for whole ranges of cells. Conversion outside 0 to 1 counts as the nearer end. */
export function tabulated(kinetics: Kinetics): RateLaw {
  const { heatJPerKg, gelAlpha, activationJPerMol, k2PerS, atC } = kinetics;
  const powers = powersOf(kinetics);
  const slopeK = activationJPerMol / GAS_J_PER_MOL_K;
  const inverseAtK = 1 / (atC + ZERO_C_IN_K);
  const arrheniusAt = (t: number) => k2PerS * Math.exp(slopeK * (inverseAtK - 1 / (t + ZERO_C_IN_K)));
  const endC = activationJPerMol > STEEPEST_J_PER_MOL ? COLDEST_C : HOTTEST_C;
  const arrhenius = cubics(HOTTEST_C - COLDEST_C, 1, (k) => {
    const value = arrheniusAt(COLDEST_C + k);
    return [value, (value * slopeK) / (COLDEST_C + k + ZERO_C_IN_K) ** 2];
  });
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
      let r = powers[at] + u * (powers[at + 1] + u * (powers[at + 2] + u * powers[at + 3]));
      if (t >= COLDEST_C && t < endC) {
        const w = t - COLDEST_C;
        const j = w | 0;
        const s = w - j;
        const by = 4 * j;
        r *= arrhenius[by] + s * (arrhenius[by + 1] + s * (arrhenius[by + 2] + s * arrhenius[by + 3]));
      } else {
        r *= arrheniusAt(t);
      }
      if (braked) {
        const z = c * (alpha - alpha0 - alphaPerK * (t - brakeAtC));
        if (z >= MOST_Z) r = 0;
        else if (z > -MOST_Z) {
          const w = (z + MOST_Z) * PER_Z;
          const j = w | 0;
          const s = w - j;
          const by = 4 * j;
          r *= BRAKE[by] + s * (BRAKE[by + 1] + s * (BRAKE[by + 2] + s * BRAKE[by + 3]));
        }
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
      const shape = powers[at] + u * (powers[at + 1] + u * (powers[at + 2] + u * powers[at + 3]));
      const shapeByRoot = INTERVALS * (powers[at + 1] + u * (2 * powers[at + 2] + u * 3 * powers[at + 3]));
      let [speed, speedPerK] = [0, 0];
      if (t >= COLDEST_C && t < endC) {
        const w = t - COLDEST_C;
        const j = w | 0;
        const s = w - j;
        const by = 4 * j;
        speed = arrhenius[by] + s * (arrhenius[by + 1] + s * (arrhenius[by + 2] + s * arrhenius[by + 3]));
        speedPerK = arrhenius[by + 1] + s * (2 * arrhenius[by + 2] + s * 3 * arrhenius[by + 3]);
      } else {
        speed = arrheniusAt(t);
        speedPerK = (speed * slopeK) / (t + ZERO_C_IN_K) ** 2;
      }
      let r = speed * shape;
      let byAlpha = (speed * shapeByRoot) / (2 * (root < LEAST_ROOT ? LEAST_ROOT : root));
      let perK = speedPerK * shape;
      if (braked) {
        const z = c * (alpha - alpha0 - alphaPerK * (t - brakeAtC));
        let [left, leftPerZ] = [1, 0];
        if (z >= MOST_Z) left = 0;
        else if (z > -MOST_Z) {
          const w = (z + MOST_Z) * PER_Z;
          const j = w | 0;
          const s = w - j;
          const by = 4 * j;
          left = BRAKE[by] + s * (BRAKE[by + 1] + s * (BRAKE[by + 2] + s * BRAKE[by + 3]));
          leftPerZ = PER_Z * (BRAKE[by + 1] + s * (2 * BRAKE[by + 2] + s * 3 * BRAKE[by + 3]));
        }
        byAlpha = byAlpha * left + r * leftPerZ * c;
        perK = perK * left - r * leftPerZ * c * alphaPerK;
        r *= left;
      }
      ratePerS[i] = r;
      byConversion[i] = byAlpha;
      byKelvin[i] = perK;
    }
  }

  return { heatJPerKg, gelAlpha, rate, slopes };
}

function powersOf({ k1OverK2, m, n }: Kinetics): Float64Array {
  return cubics(INTERVALS, 1 / INTERVALS, (k) => {
    const x = k / INTERVALS;
    const [alpha, left] = [x * x, 1 - x * x];
    const [rising, falling] = [alpha ** m, left ** n];
    // Without bound for m < ½ at no conversion and n < 1 at all of it.
    const risingSlope = m === 0 ? 0 : x > 0 ? (2 * m * rising) / x : m > 0.5 ? 0 : m === 0.5 ? 1 : Infinity;
    const fallingSlope = n === 0 ? 0 : left > 0 ? (2 * n * x * falling) / left : n > 1 ? 0 : n === 1 ? 2 : Infinity;
    return [(k1OverK2 + rising) * falling, risingSlope * falling - (k1OverK2 + rising) * fallingSlope];
  });
}

/** Four coefficients of the cubic in each interval, by 0 to 1 across it, one interval after the other. */
function cubics(count: number, width: number, nodeAt: (k: number) => readonly [value: number, slope: number]): Float64Array {
  const table = new Float64Array(4 * count);
  let [value, slope] = nodeAt(0);
  for (let k = 0; k < count; k++) {
    const [nextValue, nextSlope] = nodeAt(k + 1);
    const rise = nextValue - value;
    // A slope without bound becomes that of the chord.
    const starts = Number.isFinite(slope) ? slope * width : rise;
    const ends = Number.isFinite(nextSlope) ? nextSlope * width : rise;
    const at = 4 * k;
    table[at] = value;
    table[at + 1] = starts;
    table[at + 2] = 3 * rise - 2 * starts - ends;
    table[at + 3] = starts + ends - 2 * rise;
    [value, slope] = [nextValue, nextSlope];
  }
  return table;
}
