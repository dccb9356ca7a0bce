/** Formulas that a fill may be poured with: the scene's own first, then the classes it has not made its own. */
import { BUILT_IN, RESIN_CLASSES } from '../../core/resin/classes.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { formulasOf } from '../../core/scene/edit/formulas.ts';

export function formulaChoices(file: SceneFile): readonly { readonly value: string; readonly words: string }[] {
  const own = formulasOf(file).map(({ id, name }) => ({ value: id, words: name ?? id }));
  const taken = new Set(own.map(({ value }) => value));
  return [...own, ...BUILT_IN.filter((family) => !taken.has(family)).map((family) => ({ value: family, words: RESIN_CLASSES[family].name }))];
}
