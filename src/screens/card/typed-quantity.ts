/** What a field for a number reads, shows and steps by, for each kind of quantity, in the units the person chose. */
import { fluidOunces, inches, SIXTEENTH_MM } from '../../core/units/imperial.ts';
import { plain } from '../../core/units/format.ts';
import { endsMetric, G_PER_OUNCE, ML_PER_FLUID_OUNCE, parseLength, parseMass, parseTemperature, parseVolume, type Problem } from '../../core/units/quantity.ts';
import type { SwitchUnits } from '../../store/piece-state.ts';

export type QuantityKind = 'length' | 'volume' | 'mass' | 'temperature' | 'angle' | 'percent' | 'hours' | 'minutes' | 'days' | 'number';

const NBSP = '\u00a0';
/** Longer than any number that is typed; the rest of a pasted page is not read. */
const TEXT_MAX = 60;

/** The value in the unit that is stored (mm, mL, g, °C, °, percent, h, min), or what is wrong. Never throws. */
export function readQuantity(text: string, kind: QuantityKind, units: SwitchUnits): { readonly value: number } | Problem {
  if (kind === 'length') return valued(parseLength(text, units.length), 'mm');
  if (kind === 'volume') return valued(parseVolume(text, units.volume === 'floz' ? 'fl oz' : 'mL'), 'ml');
  if (kind === 'mass') return valued(parseMass(text, 'g'), 'g');
  if (kind === 'temperature') return valued(parseTemperature(text, '°C'), 'c');
  return readPlain(text, kind);
}

/** As a field shows what nobody has typed in it. */
export function showQuantity(value: number, kind: QuantityKind, units: SwitchUnits): string {
  switch (kind) {
    case 'length':
      return units.length === 'in' ? inches(value) : `${plain(value, 2)}${NBSP}mm`;
    case 'volume':
      return units.volume === 'floz' ? fluidOunces(value) : `${plain(value, 1)}${NBSP}mL`;
    case 'mass':
      return `${plain(value, 2)}${NBSP}g`;
    case 'temperature':
      return `${plain(value, 1)}${NBSP}°C`;
    case 'angle':
      return `${plain(value, 1)}°`;
    case 'percent':
      return `${plain(value, 2)}${NBSP}%`;
    case 'hours':
      return `${plain(value, 2)}${NBSP}h`;
    case 'minutes':
      return `${plain(value, 1)}${NBSP}min`;
    case 'days':
      return `${plain(value, 1)}${NBSP}days`;
    case 'number':
      return plain(value, 4);
  }
}

/** What stands beside a field that shows `text`: the value in the other unit, or in the chosen one where the other was typed; null where there is but one. */
export function unitBeside(text: string, value: number, kind: QuantityKind, units: SwitchUnits): string | null {
  if (kind !== 'length' && kind !== 'volume' && kind !== 'mass' && kind !== 'temperature') return null;
  const imperial = (kind === 'length' && units.length === 'in') || (kind === 'volume' && units.volume === 'floz');
  return endsMetric(text, kind) === imperial ? showQuantity(value, kind, units) : otherUnit(value, kind, units);
}

/** The same in the other unit people use for it, or null where there is none. */
function otherUnit(value: number, kind: QuantityKind, units: SwitchUnits): string | null {
  if (kind === 'length') return units.length === 'in' ? `${plain(value, 1)}${NBSP}mm` : inches(value);
  if (kind === 'volume') return units.volume === 'floz' ? `${plain(value, 1)}${NBSP}mL` : fluidOunces(value);
  if (kind === 'mass') return `${plain(value / G_PER_OUNCE, value < G_PER_OUNCE / 10 ? 3 : value < G_PER_OUNCE * 10 ? 2 : 1)}${NBSP}oz`;
  if (kind === 'temperature') return `${plain((value * 9) / 5 + 32, 0)}${NBSP}°F`;
  return null;
}

export interface StepKeys {
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

/** What an arrow key changes the value by: 1, with Shift 5, with Alt a tenth. Of a length in inches: a sixteenth, a quarter, a sixty-fourth. */
export function stepOf(kind: QuantityKind, units: SwitchUnits, { shiftKey, altKey }: StepKeys): number {
  if (kind === 'length' && units.length === 'in') return SIXTEENTH_MM * (altKey ? 0.25 : shiftKey ? 4 : 1);
  if (kind === 'volume' && units.volume === 'floz') return ML_PER_FLUID_OUNCE * (altKey ? 0.05 : shiftKey ? 1 : 0.25);
  const one = kind === 'hours' ? 0.5 : 1;
  return altKey ? one / 10 : shiftKey ? one * 5 : one;
}

const PLAIN: Readonly<Record<'angle' | 'percent' | 'hours' | 'minutes' | 'days' | 'number', { readonly unit: RegExp; readonly examples: string }>> = {
  angle: { unit: /^(°|deg|degrees?)?$/i, examples: 'degrees like 24 or −90' },
  percent: { unit: /^(%|percent)?$/i, examples: 'a percentage like 5 or 0.1' },
  hours: { unit: /^(h|hours?|d|days?|min|minutes?)?$/i, examples: 'hours like 8, 2½ h or 1 day' },
  minutes: { unit: /^(min|minutes?|h|hours?)?$/i, examples: 'minutes like 40 or 1.5 h' },
  days: { unit: /^(d|days?|w|weeks?|months?|y|years?)?$/i, examples: 'days like 180, 6 months or 1 year' },
  number: { unit: /^$/, examples: 'a number like 1.15' },
};

function readPlain(text: string, kind: keyof typeof PLAIN): { readonly value: number } | Problem {
  const { unit: pattern, examples } = PLAIN[kind];
  const shown = text.trim();
  const refused = { problem: `Found ${shown === '' ? 'nothing' : `“${shown.slice(0, TEXT_MAX)}”`}; expected ${examples}.` };
  if (text.length > TEXT_MAX) return refused;
  const found = /^([-−+]?)\s*([\d.,/\s½¼¾⁄]*[\d½¼¾])\s*(.*)$/.exec(shown);
  if (!found || !pattern.test(found[3].trim())) return refused;
  // Numbers are read by one reader, fractions and commas included; a length in mm is a bare number there.
  const read = parseLength(found[2]);
  if ('problem' in read) return refused;
  const value = (found[1] === '-' || found[1] === '−' ? -1 : 1) * read.mm * inUnit(kind, found[3].trim().toLowerCase());
  return { value: value || 0 };
}

/** By the unit's first letter; a month is taken as the 30 days that it has at least but for February, a year as 365. */
const DAYS_IN: Readonly<Record<string, number>> = { w: 7, m: 30, y: 365 };

function inUnit(kind: keyof typeof PLAIN, unit: string): number {
  if (kind === 'hours') return unit.startsWith('d') ? 24 : unit.startsWith('m') ? 1 / 60 : 1;
  if (kind === 'days') return DAYS_IN[unit.charAt(0)] ?? 1;
  return kind === 'minutes' && unit.startsWith('h') ? 60 : 1;
}

function valued<K extends string>(read: { readonly [key in K]: number } | Problem, key: K): { readonly value: number } | Problem {
  return 'problem' in read ? read : { value: read[key] };
}
