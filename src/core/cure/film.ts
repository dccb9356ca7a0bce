/**
 * How still air and radiation cool a warm face: natural convection (Incropera & DeWitt ch. 9) and gray radiation.
 * Temperatures °C, lengths m, coefficients W/m²K.
 */
import { GRAVITY_M_PER_S2 } from './bubbles.ts';
import { ZERO_C_IN_K } from './kinetics.ts';

/** Dry air near 40 °C at sea level (physics-tables §2.3). */
const AIR = { conductivityWPerMK: 0.0271, viscosityM2PerS: 17.1e-6, diffusivityM2PerS: 24.3e-6, prandtl: 0.705 } as const;
const STEFAN_BOLTZMANN = 5.670374419e-8;
/** Plastics, oak and glass alike (ordinary handbook tables). */
const EMISSIVITY = 0.9;
/** From this Rayleigh number on the air over a warm plate is turbulent (McAdams). */
const TURBULENT_RA = 1e7;

/** Rayleigh number of air beside a face of that length. */
export function rayleigh(faceC: number, airC: number, lengthM: number): number {
  const filmK = (faceC + airC) / 2 + ZERO_C_IN_K;
  return (GRAVITY_M_PER_S2 * Math.abs(faceC - airC) * lengthM ** 3) / (filmK * AIR.viscosityM2PerS * AIR.diffusivityM2PerS);
}

/** Upright face of a height. Churchill & Chu 1975, all Rayleigh numbers. */
export function uprightFaceH(faceC: number, airC: number, heightM: number): number {
  const ra = rayleigh(faceC, airC, heightM);
  const nusselt = (0.825 + (0.387 * ra ** (1 / 6)) / (1 + (0.492 / AIR.prandtl) ** (9 / 16)) ** (8 / 27)) ** 2;
  return (nusselt * AIR.conductivityWPerMK) / heightM;
}

/** Warm face up; `lengthM` is its area over its perimeter. McAdams. */
export function faceUpH(faceC: number, airC: number, lengthM: number): number {
  const ra = rayleigh(faceC, airC, lengthM);
  const nusselt = ra < TURBULENT_RA ? 0.54 * ra ** 0.25 : 0.15 * ra ** (1 / 3);
  return (nusselt * AIR.conductivityWPerMK) / lengthM;
}

/** Warm face down. McAdams. */
export function faceDownH(faceC: number, airC: number, lengthM: number): number {
  return (0.27 * rayleigh(faceC, airC, lengthM) ** 0.25 * AIR.conductivityWPerMK) / lengthM;
}

/** Radiation to surroundings of the air's temperature. */
export function radiationH(faceC: number, airC: number): number {
  const face = faceC + ZERO_C_IN_K;
  const air = airC + ZERO_C_IN_K;
  return EMISSIVITY * STEFAN_BOLTZMANN * (face * face + air * air) * (face + air);
}

/** A wall with a film outside it, by the wall's own resistance t/k, m²K/W: 1/U = 1/h + t/k. */
export function wallU(filmHWPerM2K: number, resistanceM2KPerW: number): number {
  return 1 / (1 / filmHWPerM2K + resistanceM2KPerW);
}
