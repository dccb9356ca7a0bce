/**
 * Lengths and volumes in the units a person chose: single numbers, and those within sentences that the plan and the
 * edits write in mm and mL. A limit is never shown looser than it is.
 */
import { plain, tenthBelow } from './format.ts';
import { fluidOunces, inches, SIXTEENTH_MM } from './imperial.ts';
import { MM_PER_INCH } from './quantity.ts';

export interface ChosenUnits {
  readonly length: 'mm' | 'in';
  readonly volume: 'mL' | 'floz';
}

const NBSP = '\u00a0';
/** A limit this near a sixteenth is one, mm: what 3/8 in loses in a sentence that says 9.5 mm. */
const ON_SIXTEENTH_MM = 0.05;
const MM2_PER_SQUARE_INCH = 645.16;

/** `20 mm`, `3⁄4 in`. */
export function lengthIn(mm: number, unit: ChosenUnits['length'], digits = 1): string {
  return unit === 'in' ? inches(mm) : `${plain(mm, digits)}${NBSP}mm`;
}

/** The same without its unit: `20`, `1 1⁄2`. */
export function lengthNumber(mm: number, unit: ChosenUnits['length'], digits = 1): string {
  return unit === 'in' ? inches(mm).replace(/\u00a0in$/, '') : plain(mm, digits);
}

/** `20 × 15 mm`, `3⁄4 in × 5⁄8 in`. */
export function sizesIn(mm: readonly number[], unit: ChosenUnits['length'], digits = 1): string {
  return unit === 'in' ? mm.map((each) => inches(each)).join(' × ') : `${mm.map((each) => plain(each, digits)).join(' × ')}${NBSP}mm`;
}

/** mL to a tenth under 100, whole above; `2.5 fl oz`. */
export function volumeIn(ml: number, unit: ChosenUnits['volume']): string {
  return unit === 'floz' ? fluidOunces(ml) : `${plain(ml, Math.abs(ml) < 100 ? 1 : 0)}${NBSP}mL`;
}

/** A length that must not be exceeded, no tenth of a mm over it: `9.6 mm` for 9.69; `just under 1 in` for 25 mm. */
export function limitIn(mm: number, unit: ChosenUnits['length']): string {
  if (unit === 'mm') return lengthIn(tenthBelow(mm), unit);
  return roundedUp(mm) ? `just under ${inches(mm)}` : inches(mm);
}

/** A distance that must be kept at least, such as the fill mark's from the rim: in inches the next sixteenth up. */
export function atLeastIn(mm: number, unit: ChosenUnits['length']): string {
  return unit === 'mm' ? lengthIn(mm, unit) : inches(Math.ceil((mm - ON_SIXTEENTH_MM) / SIXTEENTH_MM) * SIXTEENTH_MM);
}

export interface ProseOptions {
  /** Words that stay as they are, such as names: `Newt 30 mm`. */
  readonly keep?: readonly string[];
  /** The plan's own sentences, which leave the unit out behind `Stops at 20`. */
  readonly plan?: boolean;
}

/** A sentence with every length and volume in the chosen units. In mm and mL it stays as it is. */
export function inUnits(text: string, units: ChosenUnits, { keep = [], plan = false }: ProseOptions = {}): string {
  if (units.length === 'mm' && units.volume === 'mL') return text;
  return splitAtWords(text, keep).map((part, i) => (i % 2 === 1 ? part : compared(part, units, plan))).join('');
}

/** Every second part is one of the words. Longer words win over shorter ones inside them; parts of words are left alone. */
export function splitAtWords(text: string, words: readonly string[]): string[] {
  const known = [...new Set(words.filter((word) => word.trim() !== ''))].sort((a, b) => b.length - a.length);
  if (known.length === 0) return [text];
  const pattern = known.map((word) => word.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('|');
  return text.split(new RegExp(`(?<![\\p{L}\\p{N}])(${pattern})(?![\\p{L}\\p{N}])`, 'u'));
}

/** Begins where a number does: looking at every digit of a long one for the unit behind it would take its square in time. */
const NUMBER = String.raw`[−-]?(?<![\d,.])\d[\d,]*(?:\.\d+)?`;
const MM = String.raw`[\u00a0 ]mm(?![\w²³])`;
/** `Over 9.6 mm`: no number above it may be shown. `allows 25 mm`: a number above it says that it is under that. */
const OVER = new RegExp(String.raw`(\b[Oo]ver )(${NUMBER})${MM}`, 'g');
const LABELS = 'label’s ';
const AT_MOST = new RegExp(String.raw`(${LABELS}|allows |may be |at most )(${NUMBER})${MM}`, 'g');
/** Two lengths set against each other: where sixteenths don't tell them apart they stay in mm. */
const COMPARED = new RegExp(String.raw`(${NUMBER}${MM} is over the label’s ${NUMBER}${MM})`);
const SAFE = new RegExp(String.raw`(${NUMBER})${MM}(?= (?:is|are|that are) safe)`, 'g');
const AT_LEAST = new RegExp(String.raw`(needs |at least |Leave )(${NUMBER})${MM}`, 'g');
const SIZES = new RegExp(String.raw`(${NUMBER}(?: × ${NUMBER})+)${MM}`, 'g');
const SPAN = new RegExp(String.raw`(\bbetween |(?<!\p{L}|\d|[Pp]our )(?=[\d−-]))(${NUMBER})( to | and )(${NUMBER})${MM}`, 'gu');
const ONE = new RegExp(`(${NUMBER})${MM}`, 'g');
const AREA = new RegExp(String.raw`(${NUMBER})[\u00a0 ]mm²`, 'g');
const VOLUME = new RegExp(String.raw`(${NUMBER})[\u00a0 ]mL(?!\w)`, 'g');
const BARE_SPAN = new RegExp(String.raw`(\bfrom )(${NUMBER})( to )(${NUMBER})(?=,|\.$|\. |$)`, 'g');
const BARE = new RegExp(String.raw`(\b(?:at|to) )(${NUMBER})(?=,|\.$|\. |$| and waits)`, 'g');

function compared(text: string, units: ChosenUnits, plan: boolean): string {
  return text.split(COMPARED).map((part, i) => (i % 2 === 1 && units.length === 'in' && sameSixteenth(part) ? part : converted(part, units, plan))).join('');
}

function sameSixteenth(comparison: string): boolean {
  const [more, less] = [...comparison.matchAll(ONE)].map(([, n]) => nearest(valueOf(n)));
  return more === less;
}

function converted(text: string, { length, volume }: ChosenUnits, plan: boolean): string {
  let words = text;
  if (length === 'in') {
    words = words
      .replace(OVER, (_, before: string, n: string) => before + below(valueOf(n)))
      .replace(AT_MOST, (_, before: string, n: string) => `${before}${before === LABELS && roundedUp(valueOf(n)) ? 'limit of ' : ''}${limitIn(valueOf(n), 'in')}`)
      .replace(SAFE, (_, n: string) => limitIn(valueOf(n), 'in'))
      .replace(AT_LEAST, (_, before: string, n: string) => before + (roundedDown(valueOf(n)) ? 'just over ' : '') + inches(valueOf(n)))
      .replace(SIZES, (_, sizes: string) => sizesIn(sizes.split(' × ').map(valueOf), 'in'))
      .replace(SPAN, (_, before: string, from: string, between: string, to: string) => before + small(valueOf(from)).replace(/\u00a0in$/, '') + between + small(valueOf(to)))
      .replace(ONE, (_, n: string) => small(valueOf(n)))
      .replace(AREA, (_, n: string) => `${plain(valueOf(n) / MM2_PER_SQUARE_INCH, 2)}${NBSP}in²`);
    if (plan) {
      words = words
        .replace(BARE_SPAN, (_, before: string, from: string, between: string, to: string) => before + lengthNumber(valueOf(from), 'in') + between + inches(valueOf(to)))
        .replace(BARE, (_, before: string, n: string) => before + inches(valueOf(n)));
    }
  }
  return volume === 'floz' ? words.replace(VOLUME, (_, n: string) => fluidOunces(valueOf(n))) : words;
}

/** What is no sixteenth, such as a bevel or a bubble, in hundredths or thousandths: `0.02 in`. */
function small(mm: number): string {
  const inch = mm / MM_PER_INCH;
  return nearest(mm) === 0 ? `${plain(inch, Math.abs(inch) < 0.01 ? 3 : 2)}${NBSP}in` : inches(mm);
}

/** A level that must not be passed: in inches the last sixteenth that is not over it; under one, hundredths of an inch. */
export function atMostIn(mm: number, unit: ChosenUnits['length']): string {
  return unit === 'mm' ? lengthIn(mm, unit) : below(mm);
}

function below(mm: number): string {
  const sixteenths = Math.floor((mm + ON_SIXTEENTH_MM) / SIXTEENTH_MM);
  return sixteenths > 0 ? inches(sixteenths * SIXTEENTH_MM) : `${plain(Math.floor((mm / MM_PER_INCH) * 100) / 100, 2)}${NBSP}in`;
}

const nearest = (mm: number): number => Math.round(mm / SIXTEENTH_MM) * SIXTEENTH_MM;
const roundedUp = (mm: number): boolean => nearest(mm) > mm + ON_SIXTEENTH_MM;
const roundedDown = (mm: number): boolean => nearest(mm) < mm - ON_SIXTEENTH_MM;
const valueOf = (text: string): number => Number(text.replaceAll(',', '').replace('−', '-'));
