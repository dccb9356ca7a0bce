/** The person's own shelf of formulas, kept between scenes: what goes onto it, and what comes back into a scene. */
import { isBuiltIn } from '../../resin/formula.ts';
import { added, refused, type AddResult, type FormulaFile, type SceneFile } from './file.ts';
import { formulasOf, freshFormulaId, slug, standsAlone, withFormula } from './formulas.ts';
import { spoken } from './things.ts';

export type ForShelf = { readonly ok: true; readonly formula: FormulaFile } | { readonly ok: false; readonly reason: string };

/**
 * A scene's formula as it stands on a shelf: what its label says, with an id of its own. One that only leans on a
 * class is refused: on a shelf it has to say its ratio and greatest depth itself.
 */
export function formulaForShelf(file: SceneFile, id: string): ForShelf {
  const formula = formulasOf(file).find((each) => each.id === id);
  if (!formula) return refused(isBuiltIn(id) ? 'A class is always at hand. Make it your own first: type what the label says.' : 'That formula is no longer in the scene.');
  const missing = standsAlone(formula);
  if (missing) return refused(missing);
  if (!isBuiltIn(id)) return { ok: true, formula };
  return { ok: true, formula: { ...formula, id: slug(formula.name ?? '') || `own-${id}`, family: formula.family ?? id } };
}

/** Puts a shelf's formula into the scene. One that is there already, the same in every value, is not added again. */
export function addFromShelf(file: SceneFile, formula: FormulaFile): AddResult {
  const missing = standsAlone(formula);
  if (missing) return refused(missing);
  const name = formula.name ?? formula.id;
  const same = formulasOf(file).find((each) => sameValues(each, formula));
  if (same) return added(file, `${spoken(name)} from the shelf`, [same.id]);
  return withFormula(file, { ...formula, id: freshFormulaId(file, formula.id) }, `${spoken(name)} from the shelf`);
}

function sameValues(a: FormulaFile, b: FormulaFile): boolean {
  const values = (formula: FormulaFile) => JSON.stringify(Object.entries(formula).filter(([key]) => key !== 'id').sort(([x], [y]) => (x < y ? -1 : 1)));
  return values(a) === values(b);
}
