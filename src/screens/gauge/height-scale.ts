/** Which heights and depths a gauge ticks and writes, in mm or in inches: as fine as there is room for. */
import { lengthNumber } from '../../core/units/in-units.ts';
import { MM_PER_INCH } from '../../core/units/quantity.ts';

export type LengthUnit = 'mm' | 'in';

/** Written numbers stand at least this far apart, and ticks, px. */
const LABEL_PX = 30;
const TICK_PX = 5;
/** A block of the staff is at least this high, px. */
const BLOCK_PX = 10;
/** Smaller than any step, mm: rounding of multiples of an eighth of an inch. */
const ROUNDING_MM = 1e-6;

interface Steps {
  readonly labels: readonly number[];
  readonly blocks: readonly number[];
  /** Ticks by rank: the finest, the middle ones and the longest. */
  readonly ticks: readonly [fine: number, middle: number, long: number];
}

const MM: Steps = { labels: [10, 20, 50, 100, 200, 500, 1000], blocks: [5, 10, 25, 50, 100, 250, 500], ticks: [1, 5, 10] };
const INCH = [1 / 8, 1 / 4, 1 / 2, 1, 2, 5, 10, 20, 40].map((count) => count * MM_PER_INCH);
const IN: Steps = { labels: INCH.slice(2), blocks: INCH, ticks: [INCH[0], INCH[2], INCH[3]] };

export interface HeightTick {
  /** mm from the zero. */
  readonly mm: number;
  readonly rank: 'fine' | 'middle' | 'long';
  /** What is written there; null: nothing. */
  readonly label: string | null;
}

/** mm a block of the staff is high. */
export function staffBlock(unit: LengthUnit, pxPerMm: number): number {
  const { blocks, labels } = stepsOf(unit);
  const half = labelStep(unit, pxPerMm) / 2;
  if (unit === 'mm') return half;
  return blocks.find((block) => block * pxPerMm >= BLOCK_PX) ?? labels[labels.length - 1];
}

/** Heights that are written, mm, from 0 up to `toMm`. */
export function writtenHeights(unit: LengthUnit, pxPerMm: number, toMm: number): readonly { readonly mm: number; readonly label: string }[] {
  return multiples(labelStep(unit, pxPerMm), toMm).map((mm) => ({ mm, label: lengthNumber(mm, unit) }));
}

/** Ticks from 0 to `toMm`; those that would run together are left out. */
export function ticksTo(unit: LengthUnit, pxPerMm: number, toMm: number): readonly HeightTick[] {
  const { ticks: [fine, middle, long] } = stepsOf(unit);
  const label = labelStep(unit, pxPerMm);
  const step = [fine, middle, long].find((each) => each * pxPerMm >= TICK_PX) ?? label;
  return multiples(step, toMm).map((mm) => ({
    mm,
    rank: divides(long, mm) ? 'long' : divides(middle, mm) ? 'middle' : 'fine',
    label: divides(label, mm) ? lengthNumber(mm, unit) : null,
  }));
}

function labelStep(unit: LengthUnit, pxPerMm: number): number {
  const { labels } = stepsOf(unit);
  return labels.find((step) => step * pxPerMm >= LABEL_PX) ?? labels[labels.length - 1];
}

function multiples(step: number, to: number): number[] {
  return Array.from({ length: Math.floor((to + ROUNDING_MM) / step) + 1 }, (_, i) => i * step);
}

function divides(step: number, mm: number): boolean {
  return Math.abs(mm - Math.round(mm / step) * step) < ROUNDING_MM;
}

const stepsOf = (unit: LengthUnit): Steps => (unit === 'in' ? IN : MM);
