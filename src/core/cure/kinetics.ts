/**
 * How fast a pour cures and how much heat that gives: autocatalytic (Kamal & Sourour 1973, Polym. Eng. Sci. 13:59),
 * with Arrhenius' temperature and a brake for what no longer diffuses (the form of Khanna & Chanda).
 * dα/dt = k2 e^(−(E/R)(1/T − 1/T0)) (k1/k2 + αᵐ)(1−α)ⁿ / (1 + e^(c(α − α0 − αT (T − atC)))).
 */

export const GAS_J_PER_MOL_K = 8.314462618;
export const ZERO_C_IN_K = 273.15;

/** Slows the cure as the pour hardens. */
export interface Brake {
  /** How suddenly it takes hold, per unit of conversion. */
  readonly c: number;
  /** Conversion at which it has halved the rate, at `atC`. */
  readonly alpha0: number;
  /** How much later that conversion lies for every kelvin over `atC`. */
  readonly alphaPerK: number;
  readonly atC: number;
}

export interface Kinetics {
  readonly heatJPerKg: number;
  readonly activationJPerMol: number;
  /** Rate constant of the autocatalytic path at `atC`, 1/s. */
  readonly k2PerS: number;
  readonly atC: number;
  readonly k1OverK2: number;
  readonly m: number;
  readonly n: number;
  readonly brake?: Brake;
  /** Conversion at which the pour no longer flows. */
  readonly gelAlpha: number;
}

export interface ThermalMaterial {
  readonly densityKgPerM3: number;
  readonly heatCapacityJPerKgK: number;
  readonly conductivityWPerMK: number;
}

/** dα/dt in 1/s. Conversion outside 0 to 1 counts as the nearer end. */
export function cureRate(kinetics: Kinetics, alpha: number, temperatureC: number): number {
  const { activationJPerMol, k2PerS, atC, k1OverK2, m, n, brake } = kinetics;
  const a = Math.min(1, Math.max(0, alpha));
  const arrhenius = Math.exp((-activationJPerMol / GAS_J_PER_MOL_K) * (1 / (temperatureC + ZERO_C_IN_K) - 1 / (atC + ZERO_C_IN_K)));
  const chemical = k2PerS * arrhenius * (k1OverK2 + a ** m) * (1 - a) ** n;
  if (!brake) return chemical;
  return chemical / (1 + Math.exp(brake.c * (a - brake.alpha0 - brake.alphaPerK * (temperatureC - brake.atC))));
}
