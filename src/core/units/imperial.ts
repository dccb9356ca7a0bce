/** Inches and US fluid ounces beside mm and mL, as a bench ruler and a measuring cup show them. */
import { plain } from './format.ts';
import { ML_PER_FLUID_OUNCE, MM_PER_INCH } from './quantity.ts';

const NBSP = '\u00a0';
/** What a bench ruler in inches is read to. */
export const SIXTEENTH_MM = MM_PER_INCH / 16;

/** To the nearest sixteenth: `1 3⁄8 in`, `0 in` under 1⁄32. */
export function inches(mm: number): string {
  const sixteenths = Math.round(Math.abs(mm) / SIXTEENTH_MM);
  const whole = Math.floor(sixteenths / 16);
  let over = sixteenths % 16;
  let under = 16;
  while (over > 0 && over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  const fraction = over > 0 ? `${over}⁄${under}` : '';
  const sign = mm < 0 && sixteenths > 0 ? '−' : '';
  return `${sign}${[whole > 0 || !fraction ? String(whole) : '', fraction].filter(Boolean).join(NBSP)}${NBSP}in`;
}

/** `5.4 fl oz`; two decimals under 10 where a tenth would be too coarse to pour by. */
export function fluidOunces(ml: number): string {
  const ounces = ml / ML_PER_FLUID_OUNCE;
  return `${plain(ounces, ounces < 10 ? 2 : 1)}${NBSP}fl${NBSP}oz`;
}
