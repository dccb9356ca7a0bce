/** Under the goal: which formulas may be poured in any layer, and how long one cup takes. Closed until someone asks. */
import { chooseFrom, choiceOf, keepOwnFormulas, setCupMin } from '../../core/scene/edit/choice.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { goalOf } from '../../core/scene/edit/wishes.ts';
import { usePiece } from '../shared/piece.ts';
import { YesNo } from './fields.tsx';
import { formulaChoices } from './formula-choices.ts';
import { QuantityField } from './QuantityField.tsx';

export function ChoicePart({ file }: { readonly file: SceneFile }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const choice = choiceOf(file);
  const cupMin = file.plan?.cupMin ?? null;
  const used = choice !== null || cupMin !== null;
  if (goalOf(file) === 'even' && !used) return null;
  const poured = new Set(file.fills.map(({ formula }) => formula));
  return (
    <details className="clarity" open={used}>
      <summary>Formulas to choose from</summary>
      <p className="soft">{choice === null ? 'Each fill keeps its own. With a choice, every layer gets the one that serves the goal.' : 'Every layer gets the one of these that serves the goal.'}</p>
      {formulaChoices(file).map(({ value, words }) => <YesNo key={value} label={words} value={choice === null ? poured.has(value) : choice.includes(value)} onChange={(may) => edit((before) => chooseFrom(before, value, may))} />)}
      {choice !== null && !readOnly && <button type="button" className="link" onClick={() => edit(keepOwnFormulas)}>Let each fill keep its own</button>}
      <QuantityField label="To mix and pour out one cup" kind="minutes" placeholder="not asked" value={cupMin} onCommit={(minutes) => edit((before) => setCupMin(before, minutes))} />
      {cupMin !== null && !readOnly && <button type="button" className="link" onClick={() => edit((before) => setCupMin(before, null))}>Any time for a cup</button>}
      {goalOf(file) === 'even' && <p className="soft">Even pours keep each fill’s own formula. Another goal chooses.</p>}
    </details>
  );
}
