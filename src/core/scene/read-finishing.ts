/** How the person wants the piece finished: faces, edges, base, a coat’s formula and thickness, a warm rest. */
import type { Finishing, Formula } from './scene.ts';
import type { SceneDocument } from './schema.ts';

type Refuse = (path: string, message: string) => void;

/** Products of typed decimals carry noise far below this, mm. */
const ROUNDING_MM = 1e-9;

/** The formula that flood coats are mixed of; null where none is asked for. */
export function coatFormulaOf({ finishing }: Pick<SceneDocument, 'finishing'>): string | null {
  const coated = finishing && [finishing.top, finishing.sides, finishing.bottom].includes('flood-coat');
  return coated ? finishing.coat.formula : null;
}

/** The coat keeps its label’s greatest depth: no model, and no wish, loosens it. */
export function finishingOf(doc: Pick<SceneDocument, 'finishing'>, formulas: ReadonlyMap<string, Formula>, refuse: Refuse): Finishing | undefined {
  const { finishing } = doc;
  if (!finishing) return undefined;
  const id = coatFormulaOf(doc);
  const formula = id === null ? undefined : formulas.get(id);
  if (formula && finishing.coat.mm > formula.maxDepthMm + ROUNDING_MM) {
    refuse('finishing.coat.mm', `found ${finishing.coat.mm} mm; expected at most ${formula.maxDepthMm} mm, what the label of ${formula.name} allows in one pour. Make it thinner, or choose another formula for it.`);
  }
  return finishing;
}
