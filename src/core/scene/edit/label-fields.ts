/** What a label gives, in the order a person reads it off: first the four or five values that matter, then the rest. */
import { CLASS_FIELDS, RESIN_CLASSES, type ClassField } from '../../resin/classes.ts';
import { completeFormula, type LabelValues } from '../../resin/formula.ts';
import type { FormulaFile } from './file.ts';

export interface LabelFieldInfo {
  readonly field: ClassField | 'ratioByVolume' | 'ratioByMass';
  readonly words: string;
  readonly unit: string;
  /** In force now: typed, or the class's. null: neither is there (no ratio by weight). */
  readonly value: number | readonly [number, number] | null;
  /** No label gave it. */
  readonly typical: boolean;
  /** What the class says; null where it says nothing. */
  readonly usual: number | readonly [number, number] | null;
  /** From the least to the most seen in the class. */
  readonly range: readonly [number, number] | null;
  /** Where the class's value comes from. */
  readonly provenance: string | null;
}

const RATIO_WORDS = { ratioByVolume: 'part A (resin) to part B (hardener), by volume', ratioByMass: 'part A (resin) to part B (hardener), by weight' } as const;
/** The values every label gives. */
const FIRST: readonly ClassField[] = ['maxDepthMm', 'potLifeMin', 'bondOpensH', 'demoldH'];

/** Ratio, greatest depth, pot life, when it can be poured on, demold: what a formula is asked for first. A one-part resin has no ratio. */
export function labelFields(formula: FormulaFile): readonly LabelFieldInfo[] {
  const byMass = formula.ratioByMass !== undefined && formula.ratioByVolume === undefined;
  return [...(isOnePart(formula) ? [] : [ratioField(formula, byMass ? 'ratioByMass' : 'ratioByVolume')]), ...FIRST.map((field) => classField(formula, field))];
}

/** All other values. */
export function moreFields(formula: FormulaFile): readonly LabelFieldInfo[] {
  const onePart = isOnePart(formula);
  const rest = (Object.keys(CLASS_FIELDS) as ClassField[]).filter((field) => !FIRST.includes(field) && !(onePart && field === 'densityBGPerMl'));
  const byMass = formula.ratioByMass !== undefined && formula.ratioByVolume === undefined;
  return [...(onePart ? [] : [ratioField(formula, byMass ? 'ratioByVolume' : 'ratioByMass')]), ...rest.map((field) => classField(formula, field))];
}

/** A label field in words. */
export function labelWords(field: ClassField | 'ratioByVolume' | 'ratioByMass' | 'price'): string {
  if (field === 'price') return 'price';
  return field === 'ratioByVolume' || field === 'ratioByMass' ? RATIO_WORDS[field] : CLASS_FIELDS[field].words;
}

function classField(formula: FormulaFile, field: ClassField): LabelFieldInfo {
  const complete = completeFormula(formula as LabelValues);
  const { typical: usual, range, source } = RESIN_CLASSES[complete.family].values[field];
  const { words, unit } = CLASS_FIELDS[field];
  return { field, words, unit, value: complete[field], typical: complete.typical.includes(field), usual, range, provenance: source };
}

function ratioField(formula: FormulaFile, field: 'ratioByVolume' | 'ratioByMass'): LabelFieldInfo {
  const complete = completeFormula(formula as LabelValues);
  const usual = field === 'ratioByVolume' ? (RESIN_CLASSES[complete.family].ratioByVolume ?? null) : null;
  return { field, words: RATIO_WORDS[field], unit: '', value: complete[field] ?? null, typical: complete.typical.includes(field), usual, range: null, provenance: usual ? 'common practice, no source' : null };
}

function isOnePart(formula: FormulaFile): boolean {
  return completeFormula(formula as LabelValues).family === 'uv';
}
