/** Readings of a scale: whole divisions, without the noise of sums. */
import { divisionDigits } from './format.ts';

/** Sums in grams carry noise far below this. */
const ROUNDING = 1e-9;

/** To the nearest division of a scale, g. */
export function toDivision(grams: number, scaleG: number): number {
  const steps = Math.round(grams / scaleG + ROUNDING);
  const digits = divisionDigits(scaleG);
  return digits < 4 ? Number((steps * scaleG).toFixed(digits)) : steps * scaleG;
}
