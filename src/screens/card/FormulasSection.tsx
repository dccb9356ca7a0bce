/** The formulas of the piece, each the way to what its label says. */
import { RESIN_CLASSES } from '../../core/resin/classes.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { formulasOf } from '../../core/scene/edit/formulas.ts';
import { isBuiltIn } from '../../core/resin/formula.ts';
import type { Family } from '../../core/scene/scene.ts';
import { useComposeUi } from '../compose/ui.ts';
import { CardSection } from './fields.tsx';
import { PLACES } from './PieceParts.tsx';

export function FormulasSection({ file }: { readonly file: SceneFile }) {
  const showFormula = useComposeUi((ui) => ui.showFormula);
  return (
    <CardSection title="Formulas" note="what their labels say, and your shelf" place={PLACES.formulas}>
      <ul>{formulasIn(file).map(({ id, name }) => <li key={id}><button type="button" className="link" onClick={() => showFormula(id)}>{name}</button></li>)}</ul>
    </CardSection>
  );
}

/** The scene's own, and the classes poured as they are. */
export function formulasIn(file: SceneFile): readonly { readonly id: string; readonly name: string }[] {
  const own = formulasOf(file).map(({ id, name }) => ({ id, name: name ?? id }));
  const known = new Set(own.map(({ id }) => id));
  const poured = [...new Set(file.fills.map(({ formula }) => formula))].filter((id) => !known.has(id) && isBuiltIn(id));
  return [...own, ...poured.map((id) => ({ id, name: RESIN_CLASSES[id as Family].name }))];
}
