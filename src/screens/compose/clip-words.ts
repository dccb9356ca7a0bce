/** The clip's two numbers, short: `35`, or `1 3⁄8 in`. */
import { inches } from '../../core/units/imperial.ts';
import { plain } from '../../core/units/format.ts';
import { lengthIn } from '../../core/units/in-units.ts';
import type { SwitchUnits } from '../../store/piece-state.ts';

/** Without its unit where it is mm, which is written at the gauge's head. */
export function clipNumber(mm: number, units: SwitchUnits): string {
  return units.length === 'in' ? inches(mm).replace(/\u00a0in$/, '″') : plain(mm, 2);
}

/** How a height is read aloud: `20 mm up, 35 mm deep`. */
export function spokenHeight(upMm: number, deepMm: number, units: SwitchUnits): string {
  return `${lengthIn(upMm, units.length, 2)} up, ${lengthIn(deepMm, units.length, 2)} deep`;
}
