/**
 * Decimal text to the nearest double, straight from bytes.
 *
 * A mantissa below 2^53 and a power of ten up to 10^22 are exact doubles, so one multiplication or division rounds
 * correctly (Clinger, "How to read floating point numbers accurately", PLDI 1990, §3). The rest goes to `Number`.
 */

const POWERS = Float64Array.from({ length: 23 }, (_, i) => Number(`1e${i}`));
/** One more digit keeps the mantissa under 2^53. */
const ROOM_FOR_A_DIGIT = 900_719_925_474_098;
/** Longer than any double needs (767 digits decide the hardest), so a 50 MB "number" costs nothing. */
const LONGEST = 800;

/**
 * The number that `bytes[from…to)` spells: optional sign, digits with an optional point, optional exponent.
 * NaN for anything else, "nan", "inf" and hexadecimal included; ±Infinity for what is beyond a double.
 */
export function parseNumber(bytes: Uint8Array, from: number, to: number): number {
  if (to - from > LONGEST) return NaN;
  let at = from;
  const negative = bytes[at] === 0x2d;
  if (negative || bytes[at] === 0x2b) at++;
  let mantissa = 0;
  let power = 0;
  let digits = 0;
  let exact = true;
  let point = false;
  for (; at < to; at++) {
    const c = bytes[at];
    const digit = c - 0x30;
    if (digit >= 0 && digit <= 9) {
      digits++;
      if (mantissa > ROOM_FOR_A_DIGIT) exact = false;
      else mantissa = mantissa * 10 + digit;
      if (point) power--;
    } else if (c === 0x2e && !point) point = true;
    else break;
  }
  if (digits === 0) return NaN;
  if (at < to) {
    if ((bytes[at] | 0x20) !== 0x65) return NaN;
    at++;
    const down = bytes[at] === 0x2d;
    if (down || bytes[at] === 0x2b) at++;
    if (at >= to) return NaN;
    let exponent = 0;
    for (; at < to; at++) {
      const digit = bytes[at] - 0x30;
      if (digit < 0 || digit > 9) return NaN;
      exponent = Math.min(exponent * 10 + digit, 9999);
    }
    power += down ? -exponent : exponent;
  }
  if (exact && power >= -22 && power <= 22) {
    const size = power < 0 ? mantissa / POWERS[-power] : mantissa * POWERS[power];
    return negative ? -size : size;
  }
  return Number(String.fromCharCode(...bytes.subarray(from, to)));
}
