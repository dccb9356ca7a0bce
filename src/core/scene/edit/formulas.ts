/**
 * The scene's formulas: a class made one's own, what its label says typed in, the rest typical.
 *
 * A class under its family's name needs no label value, so "make it mine" keeps that id while it is free and every
 * value stays typical until it is typed. A second formula of a class has to say its ratio and greatest depth.
 */
import { isBuiltIn, type LabelValues } from '../../resin/formula.ts';
import { RESIN_CLASSES, type ClassField } from '../../resin/classes.ts';
import { LIMITS } from '../schema.ts';
import type { Family } from '../scene.ts';
import { added, done, refused, type AddResult, type EditResult, type FormulaFile, type PriceFile, type SceneFile } from './file.ts';
import { nameFlaw } from './names.ts';
import { labelWords } from './label-fields.ts';
import { isOurs } from './ours.ts';
import { patched, replacedAt, unlessEmpty } from './replace.ts';
import { spoken } from './things.ts';

export type LabelField = ClassField | 'ratioByVolume' | 'ratioByMass' | 'price';
export type LabelFieldValue = number | readonly [number, number] | PriceFile;

export function formulasOf(file: SceneFile): readonly FormulaFile[] {
  return file.formulas ?? [];
}

/** A formula as the file has it; a class that a fill names, without any value of its own, is `{ id }`. */
export function formulaIn(file: SceneFile, id: string): FormulaFile | undefined {
  const own = formulasOf(file).find((formula) => formula.id === id);
  return own ?? (isBuiltIn(id) ? { id } : undefined);
}

/** Takes a class as a formula of one's own, with what its label gives. */
export function ownFormula(file: SceneFile, family: Family, label: Omit<FormulaFile, 'id' | 'family'> = {}): AddResult {
  const flaw = label.name === undefined ? null : nameFlaw(label.name);
  if (flaw) return refused(flaw);
  const free = isBuiltIn(family) && !formulasOf(file).some((formula) => formula.id === family);
  if (!free) {
    const missing = standsAlone({ ...label, family });
    if (missing) return refused(missing);
  }
  const name = label.name?.trim() ?? freshFormulaName(file, RESIN_CLASSES[family].name.replace(' (typical)', ''));
  const id = free ? family : freshFormulaId(file, slug(name) || family);
  return withFormula(file, { ...label, id, name, family }, `${spoken(name)} added`);
}

/** Types a value of the label, or with `null` clears it: then it is the class's typical one again. */
export function setLabelValue(file: SceneFile, id: string, field: LabelField, value: LabelFieldValue | null): EditResult {
  const formula = formulaIn(file, id);
  if (!formula) return refused('That formula is no longer in the scene.');
  const next = patched(formula, { [field]: value ?? undefined });
  if (value === null && !isBuiltIn(id)) {
    const missing = standsAlone(next);
    if (missing) return refused(`${missing} Type the new value over the old one.`);
  }
  const words = labelWords(field);
  const label = `${spoken(formula.name ?? RESIN_CLASSES[familyOf(formula)].name)}: ${words} ${value === null ? 'typical again' : 'from the label'}`;
  return done(replacedFormula(file, next), label, words);
}

/** Names a formula; one of the built-in classes becomes a formula of the scene by it. */
export function renameFormula(file: SceneFile, id: string, name: string): EditResult {
  const formula = formulaIn(file, id);
  if (!formula) return refused('That formula is no longer in the scene.');
  const flaw = nameFlaw(name);
  if (flaw) return refused(flaw);
  return done(replacedFormula(file, patched(formula, { name: name.trim() })), `formula named ${name.trim()}`);
}

/** Sets which class fills in what the label leaves out. */
export function setFamily(file: SceneFile, id: string, family: Family): EditResult {
  const formula = formulaIn(file, id);
  if (!formula) return refused('That formula is no longer in the scene.');
  if (isBuiltIn(id) && id !== family) return refused(`${RESIN_CLASSES[id].name} is that class. Add the other class as a formula of your own.`);
  const ratios = family === 'uv' ? { ratioByVolume: undefined, ratioByMass: undefined } : {};
  const next = patched(formula, { family, ...ratios });
  const missing = isBuiltIn(id) ? null : standsAlone(next);
  if (missing) return refused(missing);
  return done(replacedFormula(file, next), `${spoken(formula.name ?? id)}: ${RESIN_CLASSES[family].name}`, 'class');
}

/** Which fills use it, from 0. */
export function usesOf(file: SceneFile, id: string): readonly number[] {
  return file.fills.flatMap((fill, i) => (fill.formula === id ? [i] : []));
}

export function removeFormula(file: SceneFile, id: string): EditResult {
  const formula = formulasOf(file).find((each) => each.id === id);
  if (!formula) return refused('That formula is no longer in the scene.');
  const uses = usesOf(file, id).length;
  const name = formula.name ?? id;
  if (uses > 0) return refused(`${name} is poured in ${uses === 1 ? 'one fill' : `${uses} fills`}. Choose another formula there first.`);
  // What was measured of it, is on hand of it or may be chosen of it goes with it, but for a class, which is known without.
  const without = { ...file, formulas: formulasOf(file).filter((each) => each !== formula) };
  if (isBuiltIn(id)) return done(without, `${spoken(name)} taken out`);
  const cups = file.testCups?.filter((cup) => cup.formula !== id);
  const stock = isOurs(file, 'stock') ? file.stock?.filter((kit) => kit.formula !== id) : file.stock;
  const choice = file.plan?.formulas?.filter((each) => each !== id);
  const plan = file.plan && patched(file.plan, { formulas: unlessEmpty(choice) });
  return done(patched(without, { testCups: cups?.length ? cups : undefined, stock: stock?.length ? stock : undefined, plan }), `${spoken(name)} taken out`);
}

/** Why a formula can't stand without a built-in class's id, or null. */
export function standsAlone(formula: Omit<FormulaFile, 'id'>): string | null {
  const onePart = formula.family === 'uv';
  const ratio = onePart || formula.ratioByVolume || formula.ratioByMass;
  if (ratio && formula.maxDepthMm !== undefined) return null;
  if (ratio) return 'A formula of your own needs the greatest depth of one pour, from its label.';
  return formula.maxDepthMm !== undefined ? 'A formula of your own needs its ratio, from its label.' : 'A formula of your own needs its ratio and the greatest depth of one pour, from its label.';
}

/** An id no formula has and no class is called by. */
export function freshFormulaId(file: SceneFile, wanted: string): string {
  const taken = (id: string) => isBuiltIn(id) || formulasOf(file).some((formula) => formula.id === id) || usesOf(file, id).length > 0;
  if (!taken(wanted)) return wanted;
  for (let n = 2; ; n++) if (!taken(`${wanted}-${n}`)) return `${wanted}-${n}`;
}

/** Adds a formula whose id is free. */
export function withFormula(file: SceneFile, formula: FormulaFile, label: string): AddResult {
  if (formulasOf(file).length >= LIMITS.formulas) return refused(`A scene holds ${LIMITS.formulas} formulas at most. Take one out first.`);
  return added({ ...file, formulas: [...formulasOf(file), formula] }, label, [formula.id], formula.name);
}

/** `Low viscosity 2:1` → `low-viscosity-2-1`. */
export function slug(name: string): string {
  return name.toLowerCase().replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '').slice(0, 40);
}

function freshFormulaName(file: SceneFile, wanted: string): string {
  const taken = new Set(formulasOf(file).map((formula) => formula.name));
  if (!taken.has(wanted)) return wanted;
  for (let n = 2; ; n++) if (!taken.has(`${wanted} ${n}`)) return `${wanted} ${n}`;
}

function familyOf(formula: LabelValues): Family {
  return formula.family ?? (isBuiltIn(formula.id) ? formula.id : 'general');
}

function replacedFormula(file: SceneFile, formula: FormulaFile): SceneFile {
  const at = formulasOf(file).findIndex((each) => each.id === formula.id);
  return patched(file, { formulas: at < 0 ? [...formulasOf(file), formula] : replacedAt(formulasOf(file), at, formula) });
}
