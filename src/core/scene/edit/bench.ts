/** The bench card: first day and hours, scale, what stays in the cup, how long things take. */
import { plain } from '../../units/format.ts';
import type { PrintBars } from '../scene.ts';
import { refused, type EditResult, type HoursFile, type SceneFile } from './file.ts';
import { withParts } from './parts.ts';

export type BenchField = 'scaleG' | 'holdUpMl' | 'allowanceFraction' | 'pourH' | 'scuffH' | 'watchH';

export interface BenchFieldInfo {
  readonly field: BenchField;
  readonly words: string;
  readonly unit: 'g' | 'mL' | 'h' | 'fraction';
  /** What it is until someone touches it. */
  readonly usual: number;
}

export const BENCH_FIELDS: readonly BenchFieldInfo[] = [
  { field: 'scaleG', words: 'one step of the scale', unit: 'g', usual: 0.1 },
  { field: 'holdUpMl', words: 'what stays in the cup', unit: 'mL', usual: 8 },
  { field: 'allowanceFraction', words: 'mixed beyond need', unit: 'fraction', usual: 0.05 },
  { field: 'pourH', words: 'time for one pour', unit: 'h', usual: 0.5 },
  { field: 'scuffH', words: 'time to scuff', unit: 'h', usual: 0.5 },
  { field: 'watchH', words: 'watching after a pour', unit: 'h', usual: 0.5 },
];

const USUAL_HOURS: readonly HoursFile[] = [{ days: 'Mon-Sun', from: '08:00', to: '20:00' }];

export function benchValue(file: SceneFile, field: BenchField): number {
  return file.bench?.[field] ?? BENCH_FIELDS.find((info) => info.field === field)!.usual;
}

export function benchHours(file: SceneFile): readonly HoursFile[] {
  return file.bench?.hours ?? USUAL_HOURS;
}

/** Sets a value; `null` goes back to the usual one. */
export function setBench(file: SceneFile, field: BenchField, value: number | null): EditResult {
  const info = BENCH_FIELDS.find((each) => each.field === field);
  if (!info) return refused('The bench has no such value.');
  const unit = info.unit === 'fraction' ? '' : `\u00a0${info.unit}`;
  const shown = value === null ? 'as usual' : info.unit === 'fraction' ? `${plain(value * 100, 1)}\u00a0%` : `${plain(value, 3)}${unit}`;
  return withParts(file, { bench: { [field]: value ?? undefined } }, `${info.words} ${shown}`, info.words);
}

/** The first day and hour, `2026-05-04T08:00`; `null`: not set. */
export function setStart(file: SceneFile, start: string | null): EditResult {
  return withParts(file, { bench: { start: start ?? undefined } }, start === null ? 'no first day' : `begin ${start.replace('T', ' ')}`, 'first day and hour');
}

/** When the bench is used; `null`: every day from 08:00 to 20:00. */
export function setHours(file: SceneFile, hours: readonly HoursFile[] | null): EditResult {
  return withParts(file, { bench: { hours: hours ?? undefined } }, 'bench hours', 'bench hours');
}

/** What the 100 mm bars of a printed page measured; `null`: nobody measured, pages are drawn as they are. */
export function setPrintBars(file: SceneFile, bars: PrintBars | null): EditResult {
  const words = bars === null ? 'printer as it is' : `printed bars ${plain(bars.xMm, 2)} by ${plain(bars.yMm, 2)}\u00a0mm`;
  return withParts(file, { bench: { printBars: bars ?? undefined } }, words, 'printed bars');
}
