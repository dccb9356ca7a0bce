/** Numbers for people: sensible digits, the unit after a no-break space, comma thousands, a true minus. */

const NBSP = '\u00a0';
/** Significant digits that every decimal keeps in a double (IEEE 754); what lies behind them is noise of sums. */
const DECIMAL_DIGITS = 15;

/** To `digits` decimals as on paper, halves away from zero: 57.15 to 57.2, though the double lies just under it. No minus zero. */
export function rounded(value: number, digits: number): number {
  const [whole, exponent = '0'] = value.toPrecision(DECIMAL_DIGITS).split('e');
  const shifted = Number(`${whole}e${Number(exponent) + digits}`);
  const steps = Math.sign(shifted) * Math.round(Math.abs(shifted));
  return Math.abs(steps) < Number.MAX_SAFE_INTEGER ? Number(`${steps}e${-digits}`) || 0 : value;
}

/** In steps: what doubles leave of a sum like 0.1 + 0.2, far below any digit that is shown. */
const STEP_NOISE = 1e-9;

/** A limit is shown no looser than it is, an amount to add no smaller: to the tenth below, or above. */
export const tenthBelow = (value: number): number => Math.floor(value * 10 + STEP_NOISE) / 10;
export const tenthAbove = (value: number): number => Math.ceil(value * 10 - STEP_NOISE) / 10;

/** At most `digits` decimals, none that are zero: `20`, `9.8`, `1,320`. */
export function plain(value: number, digits = 1): string {
  const shown = rounded(value, digits);
  const [whole, fraction] = Math.abs(shown).toFixed(digits).split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  const tail = fraction?.replace(/0+$/, '') ?? '';
  return `${shown < 0 ? '−' : ''}${grouped}${tail && `.${tail}`}`;
}

/** Exactly `digits` decimals, for columns that add up. */
export function fixed(value: number, digits: number): string {
  const shown = rounded(value, digits);
  const [whole, fraction] = Math.abs(shown).toFixed(digits).split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  return `${shown < 0 ? '−' : ''}${grouped}${fraction === undefined ? '' : `.${fraction}`}`;
}

export function mm(value: number, digits = 1): string {
  return `${plain(value, digits)}${NBSP}mm`;
}

/** mL: to a tenth under 100, whole above. */
export function ml(value: number): string {
  return `${plain(value, Math.abs(value) < 100 ? 1 : 0)}${NBSP}mL`;
}

/** Decimals that a scale's division shows: 1 for 0.1 g, 0 for 1 g, 2 for 0.05 g. */
export function divisionDigits(scaleG: number): number {
  for (let digits = 0; digits < 4; digits++) if (Math.abs(scaleG * 10 ** digits - Math.round(scaleG * 10 ** digits)) < STEP_NOISE) return digits;
  return 4;
}

/** Grams, to the scale's division where one is given. */
export function grams(value: number, scaleG?: number): string {
  return `${scaleG === undefined ? plain(value, 1) : fixed(value, divisionDigits(scaleG))}${NBSP}g`;
}

/** Dye, as its scale shows it; on a coarse one to the hundredth, since then it is weighed on another or premixed. */
export function dyeGrams(value: number, dyeScaleG: number): string {
  return `${fixed(value, Math.max(2, divisionDigits(dyeScaleG)))}${NBSP}g`;
}

export function percent(fraction: number, digits = 1): string {
  return `${plain(fraction * 100, digits)}${NBSP}%`;
}

/** `2 d 9½ h`, `12 h`, `30 min`. To the half hour from a day up, to the minute below two hours. */
export function span(minutes: number): string {
  const total = Math.round(minutes);
  if (total < 120) return `${total}${NBSP}min`;
  const halves = Math.round(total / 30);
  const days = Math.floor(halves / 48);
  const hours = Math.floor((halves % 48) / 2);
  const half = halves % 2 === 1 ? '½' : '';
  const parts: string[] = [];
  if (days > 0) parts.push(`${days}${NBSP}d`);
  if (hours > 0 || half) parts.push(`${hours || !half ? hours : ''}${half}${NBSP}h`);
  return parts.join(' ');
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;
}

/** `even pours` as it begins a sentence: `Even pours`. */
export function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** `1 pour`, `6 pours`. */
export function counted(count: number, one: string): string {
  return `${plain(count, 0)}${NBSP}${count === 1 ? one : `${one}s`}`;
}
