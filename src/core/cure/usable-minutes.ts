/** How long a cup of mixed resin may be poured, by its label alone: less in more resin, less in a warmer room. */
import type { Formula } from '../scene/scene.ts';
import { rateAt } from './equivalent-time.ts';

/** Share of the pot life that a batch may take to be poured (common practice, no source). */
const POT_LIFE_SHARE = 0.7;

/** Usable minutes of one batch, °C and grams as given (common practice, no source). */
export function usableMinutes(formula: Formula, batchG: number, roomC: number): number {
  return POT_LIFE_SHARE * (formula.potLifeMin / rateAt(roomC, formula.atC)) * massShare(formula, batchG);
}

/** Of the label's own minutes, what is left in more resin than the label's cup holds: by the cube root of the mass. */
function massShare({ potLifeMassG }: Formula, batchG: number): number {
  return Math.min(1, potLifeMassG / batchG) ** (1 / 3);
}
