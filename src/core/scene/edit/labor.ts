/** What the person's work costs, and what is put on top: hours, rate, what else goes in, reserve, margin, tax. */
import { plain } from '../../units/format.ts';
import { LIMITS } from '../schema.ts';
import { done, refused, type EditResult, type LaborFile, type OtherCostFile, type SceneFile } from './file.ts';
import { isOurs } from './ours.ts';
import { patched, replacedAt, unlessEmpty, type Patch } from './replace.ts';

export type LaborField = 'perHour' | 'hours' | 'finishH' | 'consumables' | 'lossFraction' | 'marginFraction' | 'taxFraction';

export interface LaborFieldInfo {
  readonly field: LaborField;
  readonly words: string;
  readonly unit: 'money' | 'h' | 'fraction';
  /** What stands there while nobody typed it. */
  readonly unset: string;
}

export const LABOR_FIELDS: readonly LaborFieldInfo[] = [
  { field: 'perHour', words: 'an hour of your work', unit: 'money', unset: 'not counted' },
  { field: 'hours', words: 'hours in all', unit: 'h', unset: 'as the plan has them' },
  { field: 'finishH', words: 'of them for the finish', unit: 'h', unset: 'as the plan has them' },
  { field: 'consumables', words: 'cups, gloves, wipes for all of it', unit: 'money', unset: 'not counted' },
  { field: 'lossFraction', words: 'pieces that are lost', unit: 'fraction', unset: 'none' },
  { field: 'marginFraction', words: 'share of the price you keep', unit: 'fraction', unset: 'none' },
  { field: 'taxFraction', words: 'tax on the price', unit: 'fraction', unset: 'none' },
];

export function laborOf(file: SceneFile): LaborFile {
  return isOurs(file, 'labor') ? (file.labor ?? {}) : {};
}

/** `null`: as if nobody had typed it. */
export function setLabor(file: SceneFile, field: LaborField, value: number | null): EditResult {
  const { words, unit } = LABOR_FIELDS.find((each) => each.field === field)!;
  const shown = value === null ? 'not set' : unit === 'fraction' ? `${plain(value * 100, 1)}\u00a0%` : plain(value, 2);
  return withLabor(file, { [field]: value ?? undefined }, `${words} ${shown}`, words);
}

/** Anything else it takes: a base, a box. */
export function addOther(file: SceneFile, { name, amount }: OtherCostFile): EditResult {
  if (name.trim() === '') return refused('Found no name; expected what it is, like “base”.');
  const other = laborOf(file).other ?? [];
  if (other.length >= LIMITS.lines) return refused(`A piece holds ${LIMITS.lines} such costs at most. Take one out first.`);
  return withLabor(file, { other: [...other, { name: name.trim(), amount }] }, `${name.trim()} in the cost`, name.trim());
}

export function changeOther(file: SceneFile, at: number, patch: Partial<OtherCostFile>): EditResult {
  const other = laborOf(file).other ?? [];
  if (!other[at]) return gone();
  if (patch.name?.trim() === '') return refused('Found no name; expected what it is, like “base”.');
  const next = patched(other[at], patch);
  return withLabor(file, { other: replacedAt(other, at, next) }, `${next.name} in the cost`, next.name);
}

export function removeOther(file: SceneFile, at: number): EditResult {
  const other = laborOf(file).other ?? [];
  if (!other[at]) return gone();
  const left = other.filter((_, i) => i !== at);
  return withLabor(file, { other: unlessEmpty(left) }, `${other[at].name} out of the cost`, other[at].name);
}

const gone = (): EditResult => refused('That cost is no longer in the piece.');

function withLabor(file: SceneFile, patch: Patch<LaborFile>, label: string, subject: string): EditResult {
  if (!isOurs(file, 'labor')) return refused('The piece holds “labor” in a form this version does not know. Take it out of its file first.');
  const labor = patched(file.labor ?? {}, patch);
  return done(patched(file, { labor: Object.keys(labor).length > 0 ? labor : undefined }), label, subject);
}
