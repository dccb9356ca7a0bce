/**
 * Dye that is too little to weigh, premixed in part A: the premix is weighed in its place, and the part A in it
 * counts as part A, so that the hardener still fits.
 */
import { toDivision } from '../units/division.ts';

/** A color that is a tenth off can be seen beside one that is not (common practice, no source). */
const DYE_ERROR = 0.1;
/** Parts A to one of dye, the first that can be weighed. */
const STRENGTHS = [10, 20, 50, 100];
/** More of a cup's part A in the premix than this, and it is no longer the cup's own mix that is weighed. */
const MOST_OF_A = 0.5;
/** Quotients of decimals carry noise far below this share. */
const ROUNDING = 1e-9;

export interface Premix {
  /** Parts of part A to one of dye, by weight. */
  readonly partsA: number;
  /** What is weighed of it for a cup: dye and the part A it came in. */
  readonly g: number;
  readonly partAG: number;
  /** Cumulative readings in place of the card's: part A, then premix, then part B (none for a one-part formula). */
  readonly scaleStopsG: readonly number[];
}

export interface PremixRequest {
  readonly dyeG: number;
  readonly partAG: number;
  readonly bPerAByMass: number;
  /** The scale that dye is weighed on. */
  readonly dyeScaleG: number;
  readonly scaleG: number;
}

/** Whether one division of the scale is too much of the dye. */
export function tooLittleToWeigh(dyeG: number, dyeScaleG: number): boolean {
  return dyeG > 0 && dyeScaleG / dyeG > DYE_ERROR * (1 + ROUNDING);
}

/** The weakest help that is enough; null where the dye can be weighed as it is, or no premix would do. */
export function premixFor({ dyeG, partAG, bPerAByMass, dyeScaleG, scaleG }: PremixRequest): Premix | null {
  if (!tooLittleToWeigh(dyeG, dyeScaleG)) return null;
  const partsA = STRENGTHS.find((parts) => !tooLittleToWeigh(dyeG * (1 + parts), scaleG));
  if (partsA === undefined || dyeG * partsA > MOST_OF_A * partAG) return null;
  const [g, inPremixG] = [dyeG * (1 + partsA), dyeG * partsA];
  const first = toDivision(partAG - inPremixG, scaleG);
  const second = toDivision(first + g, scaleG);
  const stops = bPerAByMass === 0 ? [first, second] : [first, second, toDivision(second + (first + inPremixG) * bPerAByMass, scaleG)];
  return { partsA, g, partAG: inPremixG, scaleStopsG: stops };
}
