/** Money as it is written down: to the hundredth, each line, so that what stands on paper adds up. */

/** Products of prices carry noise far below this share of a hundredth. */
const ROUNDING = 1e-9;

/** To the nearest hundredth, halves up. */
export function money(amount: number): number {
  return Math.round(amount * 100 + ROUNDING) / 100;
}
