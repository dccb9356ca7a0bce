/**
 * Quantities as people type them: `3/8 in`, `1 3/8"`, `2.5 fl oz`, `9,5 mm`, `73 °F`, `1 lb 3 oz`.
 * A reading is the value in the unit the core keeps, or a problem to show beside the field.
 *
 * Every factor is exact by definition: NIST SP 811 (2008) appendix B; NIST Handbook 44 appendix C.
 */

export const MM_PER_INCH = 25.4;
const MM_PER_FOOT = 304.8;
/** 25.4³ mm³. */
const ML_PER_CUBIC_INCH = 16.387064;
/** 231 in³. */
const ML_PER_GALLON = 3785.411784;
/** A gallon has 128. */
export const ML_PER_FLUID_OUNCE = 29.5735295625;
/** The British one, of which 160 make 4.54609 L: 4 % less. */
const ML_PER_IMPERIAL_FLUID_OUNCE = 28.4130625;
/** Of 16 to the avoirdupois pound. */
export const G_PER_OUNCE = 28.349523125;
const G_PER_POUND = 453.59237;

/** Longer than anything a person types into a field for a number. */
const TEXT_MAX = 60;

export type LengthUnit = 'mm' | 'in';
export type VolumeUnit = 'mL' | 'fl oz';
export type MassUnit = 'g' | 'oz';
export type TemperatureUnit = '°C' | '°F';

export interface Problem {
  /** One sentence: what was found, what is expected. */
  readonly problem: string;
}

interface Kind {
  /** How a message asks for it. */
  readonly examples: string;
  /** Lower-case names of each unit, and how many of the core's unit one is. */
  readonly units: readonly (readonly [factor: number, ...names: string[]])[];
  /** Names that belong to another kind, with what to do. */
  readonly elsewhere?: Readonly<Record<string, string>>;
}

const LENGTH: Kind = {
  examples: 'a length like 9.5 mm or 3/8 in',
  units: [
    [1, 'mm', 'millimeter', 'millimeters', 'millimetre', 'millimetres'],
    [10, 'cm', 'centimeter', 'centimeters', 'centimetre', 'centimetres'],
    [1000, 'm', 'meter', 'meters', 'metre', 'metres'],
    [MM_PER_INCH, 'in', 'in.', 'inch', 'inches', '"', '″', '”', "''"],
    [MM_PER_FOOT, 'ft', 'ft.', 'foot', 'feet', "'", '′', '’'],
  ],
};
const VOLUME: Kind = {
  examples: 'a volume like 120 mL or 2.5 fl oz',
  units: [
    [1, 'ml', 'milliliter', 'milliliters', 'millilitre', 'millilitres', 'cc', 'cm3', 'cm³'],
    [1000, 'l', 'liter', 'liters', 'litre', 'litres'],
    [ML_PER_FLUID_OUNCE, 'fl oz', 'fl. oz.', 'fl. oz', 'floz', 'us fl oz', 'fluid ounce', 'fluid ounces'],
    [ML_PER_IMPERIAL_FLUID_OUNCE, 'imp fl oz', 'imperial fl oz', 'uk fl oz'],
    [ML_PER_FLUID_OUNCE / 6, 'tsp'],
    [ML_PER_FLUID_OUNCE / 2, 'tbsp'],
    [ML_PER_FLUID_OUNCE * 8, 'cup', 'cups'],
    [ML_PER_FLUID_OUNCE * 16, 'pt', 'pint', 'pints'],
    [ML_PER_FLUID_OUNCE * 32, 'qt', 'quart', 'quarts'],
    [ML_PER_GALLON, 'gal', 'gallon', 'gallons'],
    [ML_PER_CUBIC_INCH, 'in3', 'in³', 'cu in'],
  ],
  elsewhere: { oz: 'is a weight; write fl oz for fluid ounces', ounce: 'is a weight; write fl oz for fluid ounces', ounces: 'is a weight; write fl oz for fluid ounces', g: 'is a weight; give the volume' },
};
const MASS: Kind = {
  examples: 'a weight like 12.5 g or 2 oz',
  units: [
    [1, 'g', 'gram', 'grams'],
    [0.001, 'mg'],
    [1000, 'kg', 'kilogram', 'kilograms'],
    [G_PER_OUNCE, 'oz', 'oz.', 'ounce', 'ounces'],
    [G_PER_POUND, 'lb', 'lbs', 'lb.', 'pound', 'pounds'],
  ],
  elsewhere: { 'fl oz': 'is a volume; give the weight', ml: 'is a volume; give the weight' },
};
/** Degrees are read first and shifted afterwards, so the factors only tell the scales apart. */
const TEMPERATURE: Kind = {
  examples: 'a temperature like 23 °C or 73 °F',
  units: [
    [1, '°c', 'c', 'deg c', 'celsius'],
    [5 / 9, '°f', 'f', 'deg f', 'fahrenheit'],
  ],
};

/** A length in mm; a number without a unit is in `bare`. May be negative. Never throws. */
export function parseLength(text: string, bare: LengthUnit = 'mm'): { readonly mm: number } | Problem {
  const read = sumOf(text, LENGTH, bare);
  return 'problem' in read ? read : { mm: read.value };
}

/** A volume in mL; a number without a unit is in `bare`. `oz` alone is refused: it is a weight. */
export function parseVolume(text: string, bare: VolumeUnit = 'mL'): { readonly ml: number } | Problem {
  const read = sumOf(text, VOLUME, bare);
  return 'problem' in read ? read : { ml: read.value };
}

/** A mass in g; a number without a unit is in `bare`. */
export function parseMass(text: string, bare: MassUnit = 'g'): { readonly g: number } | Problem {
  const read = sumOf(text, MASS, bare);
  return 'problem' in read ? read : { g: read.value };
}

/** A temperature in °C; a number without a unit is in `bare`. */
export function parseTemperature(text: string, bare: TemperatureUnit = '°C'): { readonly c: number } | Problem {
  const read = termsOf(text, TEMPERATURE, bare);
  if ('problem' in read) return read;
  if (read.terms.length > 1) return refuse(text, TEMPERATURE);
  const [{ amount, factor }] = read.terms;
  const c = factor === 1 ? amount : ((amount - 32) * 5) / 9;
  return Number.isFinite(c) ? { c: withoutNoise(c) } : refuse(text, TEMPERATURE);
}

interface Term {
  readonly amount: number;
  readonly factor: number;
}

function sumOf(text: string, kind: Kind, bare: string): { readonly value: number } | Problem {
  const read = termsOf(text, kind, bare);
  if ('problem' in read) return read;
  const value = read.terms.reduce((sum, { amount, factor }) => sum + amount * factor, 0);
  return Number.isFinite(value) ? { value: withoutNoise(value) } : refuse(text, kind);
}

/** To 15 digits, which every decimal of up to 15 survives: 3/8 in is 9.525 mm, not 9.524999999999999. No minus zero. */
function withoutNoise(value: number): number {
  return Number(value.toPrecision(15)) || 0;
}

/** Amounts with their units, larger units first (`1 ft 3 1/2 in`); one sign in front holds for all. */
function termsOf(text: string, kind: Kind, bare: string): { readonly terms: readonly Term[] } | Problem {
  if (text.length > TEXT_MAX) return { problem: `Found ${text.length} characters; expected ${kind.examples}.` };
  const plain = plainText(text);
  const signed = /^[-−+]\s*/.exec(plain)?.[0] ?? '';
  const sign = /[-−]/.test(signed) ? -1 : 1;
  const terms: Term[] = [];
  let rest = plain.slice(signed.length);
  while (rest !== '') {
    const number = numberAt(rest);
    if (number === null) return refuse(text, kind);
    if ('problem' in number) return number;
    rest = rest.slice(number.length).trimStart();
    const unit = unitAt(rest, kind);
    if (unit === null) {
      const word = /^\D*/.exec(rest)![0].trim();
      if (word !== '') return { problem: `Found “${word}”, which ${kind.elsewhere?.[word] ?? `is no unit known here; expected ${kind.examples}`}.` };
      if (rest !== '' || terms.length > 0) return refuse(text, kind);
      terms.push({ amount: sign * number.value, factor: factorOf(bare.toLowerCase(), kind) });
      break;
    }
    if (terms.length > 0 && unit.factor >= terms[terms.length - 1].factor) return refuse(text, kind);
    terms.push({ amount: sign * number.value, factor: unit.factor });
    rest = rest.slice(unit.name.length).trimStart();
  }
  return terms.length > 0 ? { terms } : refuse(text, kind);
}

const VULGAR: Readonly<Record<string, string>> = {
  '¼': '1/4', '½': '1/2', '¾': '3/4', '⅓': '1/3', '⅔': '2/3', '⅛': '1/8', '⅜': '3/8', '⅝': '5/8', '⅞': '7/8',
};

const KINDS = { length: LENGTH, volume: VOLUME, mass: MASS, temperature: TEMPERATURE } as const;
/** Of one in the unit of its kind: those of metric units. */
const METRIC_FACTORS: ReadonlySet<number> = new Set([0.001, 1, 10, 1000]);

/** Whether the unit at the end of a text that was read is metric; null: none is typed. */
export function endsMetric(text: string, kind: keyof typeof KINDS): boolean | null {
  const typed = plainText(text);
  const ends = KINDS[kind].units.flatMap(([factor, ...names]) => names.filter((name) => typed.endsWith(name)).map((name) => ({ name, factor })));
  return ends.length === 0 ? null : METRIC_FACTORS.has(ends.reduce((a, b) => (b.name.length > a.name.length ? b : a)).factor);
}

/** Lower case, single spaces, fractions as `3/8`. */
function plainText(text: string): string {
  return text
    .replace(/[¼½¾⅓⅔⅛⅜⅝⅞]/g, (glyph) => ` ${VULGAR[glyph]}`)
    .replace(/⁄/g, '/')
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase();
}

type Found = { readonly value: number; readonly length: number } | Problem;

/** `1 3/8`, `1-3/8`, `3/8` or a decimal, from the start of the text; null where there is none. */
function numberAt(text: string): Found | null {
  const fraction = /^(?:(\d+)(?: |-| - ))?(\d+) ?\/ ?(\d+)/.exec(text);
  if (fraction) {
    const [all, whole = '0', over, under] = fraction;
    if (Number(under) === 0) return { problem: `Found ${all}; expected a fraction that is not over zero.` };
    return { value: Number(whole) + Number(over) / Number(under), length: all.length };
  }
  const typed = /^(?:\d[\d.,]*|[.,]\d+)/.exec(text)?.[0];
  if (typed === undefined) return null;
  const decimal = typed.replace(/[.,]$/, '');
  const value = decimalOf(decimal);
  if (value === 'ambiguous') return { problem: `Found ${decimal}, which may mean ${decimal.replace(',', '')} or ${decimal.replace(',', '.')}; write it without the comma.` };
  return value === null ? null : { value, length: typed.length };
}

/**
 * Point or comma. Both in one number: the last is the decimal one, the other groups thousands. One comma before
 * exactly three digits could be either, unless a 0 or nothing stands before it.
 */
function decimalOf(digits: string): number | 'ambiguous' | null {
  if (/^[1-9]\d{0,2},\d{3}$/.test(digits)) return 'ambiguous';
  if (/^\d*[.,]?\d*$/.test(digits)) return Number(digits.replace(',', '.'));
  if (/^\d{1,3}(,\d{3})+(\.\d+)?$/.test(digits)) return Number(digits.replaceAll(',', ''));
  if (/^\d{1,3}(\.\d{3})+(,\d+)?$/.test(digits)) return Number(digits.replaceAll('.', '').replace(',', '.'));
  return null;
}

/** The longest unit name that the text begins with, and nothing of a longer word left over. */
function unitAt(text: string, kind: Kind): { readonly name: string; readonly factor: number } | null {
  let best: { name: string; factor: number } | null = null;
  for (const [factor, ...names] of kind.units) {
    for (const name of names) {
      const ends = text.startsWith(name) && !(/[a-z³]$/.test(name) && /^[a-z³.]/.test(text.slice(name.length)));
      if (ends && name.length > (best?.name.length ?? 0)) best = { name, factor };
    }
  }
  return best;
}

function factorOf(name: string, kind: Kind): number {
  return kind.units.find(([, ...names]) => names.includes(name))![0];
}

function refuse(text: string, kind: Kind): Problem {
  const shown = text.trim();
  return { problem: `Found ${shown === '' ? 'nothing' : `“${shown}”`}; expected ${kind.examples}.` };
}
