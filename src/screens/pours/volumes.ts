/** Volumes in the list of pours: in the chosen unit, with the other beside it, rounded so that columns add up. */
import { fixed, rounded } from '../../core/units/format.ts';
import { fluidOunces } from '../../core/units/imperial.ts';
import { ML_PER_FLUID_OUNCE } from '../../core/units/quantity.ts';
import type { SwitchUnits } from '../../store/piece-state.ts';

export type VolumeUnit = SwitchUnits['volume'];

export const VOLUME_WORDS: Readonly<Record<VolumeUnit, string>> = { mL: 'mL', floz: 'fl oz' };
/** Decimals written: a tenth of a mL, a hundredth of a fluid ounce. */
const DIGITS: Readonly<Record<VolumeUnit, number>> = { mL: 1, floz: 2 };

export interface ShownVolume {
  readonly number: string;
  /** With its unit. */
  readonly other: string;
}

export function volumeShown(ml: number, unit: VolumeUnit): ShownVolume {
  return { number: fixed(inUnit(ml, unit), DIGITS[unit]), other: unit === 'mL' ? fluidOunces(ml) : `${fixed(ml, 1)}\u00a0mL` };
}

/** The sum of what the rows show. */
export function totalShown(rowsMl: readonly number[], unit: VolumeUnit): ShownVolume {
  const sum = rowsMl.reduce((all, ml) => all + rounded(inUnit(ml, unit), DIGITS[unit]), 0);
  const ml = rowsMl.reduce((sum, each) => sum + each, 0);
  return { ...volumeShown(ml, unit), number: fixed(sum, DIGITS[unit]) };
}

const inUnit = (ml: number, unit: VolumeUnit): number => (unit === 'mL' ? ml : ml / ML_PER_FLUID_OUNCE);
