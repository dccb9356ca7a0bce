/**
 * A cup of mixed resin as one warm lump: m c dT/dt = m H dα/dt − UA (T − room), the conversion beside it, and how much
 * hotter its middle is. Integrated by Bogacki & Shampine's pair of order 3(2) (1989, Appl. Math. Lett. 2:321).
 */
import type { Member } from './family-types.ts';
import { cureRate, type Kinetics, type ThermalMaterial } from './kinetics.ts';

/** What the resin stands in. `bare`: as if its wall were not there. */
export type CupKind = 'plastic' | 'paper' | 'glass' | 'metal' | 'foam';

/** Wall and what it conducts, m²K/W: 1 mm of plastic, 0.5 mm of paper, 3 mm of glass, thin metal, 3 mm of foam (conductivities from handbooks; thicknesses from memory). */
const CUP_WALL: Readonly<Record<CupKind, number>> = { plastic: 0.001 / 0.22, paper: 0.0005 / 0.1, glass: 0.003 / 1, metal: 0, foam: 0.003 / 0.035 };

/** Of a cup's floor, what the air is let to: it stands on a bench (from memory). */
const FLOOR_SHARE = 0.5;
/** From a round body's mean to its skin, for evenly made heat: rise/(mean flux × radius/k) of a long cylinder (Carslaw & Jaeger). The middle is as much hotter again. */
const MEAN_TO_SKIN = 1 / 4;

/** Of a step: together they leave a peak 0.005 K off and a moment a thousandth (evidence holds it). */
const TOLERANCE_K = 0.001;
const TOLERANCE_ALPHA = 1e-5;
const FIRST_STEP_S = 5;
const MOST_STEPS = 20_000;

export interface CupCooling {
  /** UA over m c, 1/s. */
  readonly perS: number;
  /** How much more the middle is over the mean, as a share of what the mean is over the room. */
  readonly middleShare: number;
}

export interface CupSetUp {
  readonly massG: number;
  readonly kind: CupKind;
  readonly filmHWPerM2K: number;
}

/** A cup filled as high as it is wide. */
export function cupCooling({ massG, kind, filmHWPerM2K }: CupSetUp, material: ThermalMaterial): CupCooling {
  const { densityKgPerM3, heatCapacityJPerKgK, conductivityWPerMK } = material;
  const volumeM3 = massG / 1000 / densityKgPerM3;
  const widthM = ((4 * volumeM3) / Math.PI) ** (1 / 3);
  const face = (Math.PI * widthM * widthM) / 4;
  const outside = 1 / filmHWPerM2K + CUP_WALL[kind];
  const inside = (MEAN_TO_SKIN * (widthM / 2)) / conductivityWPerMK;
  const conducts = face / (1 / filmHWPerM2K + inside) + (4 * face + FLOOR_SHARE * face) / (outside + inside);
  return { perS: conducts / ((massG / 1000) * heatCapacityJPerKgK), middleShare: inside / (outside + inside) };
}

export interface CupRun {
  readonly kinetics: Kinetics;
  /** Times faster than the kinetics. */
  readonly rate: number;
  readonly heatCapacityJPerKgK: number;
  readonly cooling: CupCooling;
  readonly roomC: number;
  readonly mixC: number;
}

/** After every step: seconds, middle °C, conversion. Returning true ends the run. */
export type CupWatch = (timeS: number, middleC: number, alpha: number) => boolean;

/** Runs to `untilS`, or until `watch` has seen enough. */
export function runCup(run: CupRun, untilS: number, watch: CupWatch): void {
  const { kinetics, rate, heatCapacityJPerKgK, cooling, roomC, mixC } = run;
  const riseK = kinetics.heatJPerKg / heatCapacityJPerKgK;
  const cure = (c: number, alpha: number) => rate * cureRate(kinetics, alpha, c);
  const warm = (c: number, made: number) => riseK * made - cooling.perS * (c - roomC);
  let [t, c, alpha, h] = [0, mixC, 0, FIRST_STEP_S];
  let [a1, c1] = [cure(c, alpha), 0];
  c1 = warm(c, a1);
  for (let step = 0; step < MOST_STEPS && t < untilS; step++) {
    h = Math.min(h, untilS - t);
    const a2 = cure(c + (h / 2) * c1, alpha + (h / 2) * a1);
    const c2 = warm(c + (h / 2) * c1, a2);
    const a3 = cure(c + 0.75 * h * c2, alpha + 0.75 * h * a2);
    const c3 = warm(c + 0.75 * h * c2, a3);
    const toC = c + (h / 9) * (2 * c1 + 3 * c2 + 4 * c3);
    const toAlpha = alpha + (h / 9) * (2 * a1 + 3 * a2 + 4 * a3);
    const a4 = cure(toC, toAlpha);
    const c4 = warm(toC, a4);
    const error = Math.max(
      Math.abs(h * ((-5 / 72) * c1 + c2 / 12 + c3 / 9 - c4 / 8)) / TOLERANCE_K,
      Math.abs(h * ((-5 / 72) * a1 + a2 / 12 + a3 / 9 - a4 / 8)) / TOLERANCE_ALPHA,
    );
    if (error <= 1) {
      [t, c, alpha, a1, c1] = [t + h, toC, toAlpha, a4, c4];
      // No warmer than it would be if nothing had been lost.
      const middleC = Math.min(c + cooling.middleShare * Math.max(0, c - roomC), Math.max(c, mixC + riseK * alpha));
      if (watch(t, middleC, alpha)) return;
    }
    h *= Math.min(4, Math.max(0.2, 0.9 * Math.max(error, 1e-6) ** (-1 / 3)));
  }
}

export interface InCup {
  readonly massG: number;
  readonly kind: CupKind;
  readonly roomC: number;
  readonly mixC: number;
  /** Times faster than the member's kinetics. */
  readonly rate: number;
  readonly untilS: number;
}

/** A member's resin in a cup: `runCup` with what the member is made of and the air it stands in. */
export function runInCup({ kinetics, material, topHWPerM2K }: Omit<Member, 'cupRate'>, { massG, kind, untilS, ...run }: InCup, watch: CupWatch): void {
  const cooling = cupCooling({ massG, kind, filmHWPerM2K: topHWPerM2K }, material);
  runCup({ kinetics, heatCapacityJPerKgK: material.heatCapacityJPerKgK, cooling, ...run }, untilS, watch);
}
