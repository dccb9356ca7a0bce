/** Pours by their numbers, in a sentence: `pour 2`, `pours 2 and 4`, many in a row from first to last. */
import { listed } from '../units/format.ts';
import type { Pour } from './plan.ts';

export function poursNamed(pours: readonly Pick<Pour, 'index'>[]): string {
  const first = pours[0].index;
  if (pours.length === 1) return `pour ${first}`;
  const inOneRun = pours.length > 2 && pours.every(({ index }, i) => index === first + i);
  return `pours ${inOneRun ? `${first} to ${first + pours.length - 1}` : listed(pours.map(({ index }) => String(index)))}`;
}
