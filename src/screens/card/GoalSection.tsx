/** What matters most to the plan, the lines to keep or leave out, how many are made at once. */
import { isDefault } from '../../core/scene/edit/default.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { allowLine, avoidOf, changeAvoided, copiesOf, GOAL_CHOICES, goalOf, pinsOf, setCopies, setGoal, unpinLine } from '../../core/scene/edit/wishes.ts';
import { usePiece } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { ChoicePart } from './ChoicePart.tsx';
import { CardSection, FewField } from './fields.tsx';
import { PLACES } from './PieceParts.tsx';
import { QuantityField } from './QuantityField.tsx';

export function GoalSection({ file }: { readonly file: SceneFile }) {
  const edit = usePiece((state) => state.edit);
  const goal = goalOf(file);
  return (
    <CardSection title="Goal" place={PLACES.goal}>
      <FewField label="What matters most" value={goal} usual={isDefault(file, 'plan.goal')} choices={GOAL_CHOICES} onChoose={(to) => edit((before) => setGoal(before, to))} />
      <QuantityField label="Copies poured at once" kind="number" usual={isDefault(file, 'copies')} value={copiesOf(file)} onCommit={(copies) => edit((before) => setCopies(before, copies))} />
      <ChoicePart file={file} />
      <Lines file={file} />
    </CardSection>
  );
}

/** Set on Pours, where the lines are. */
function Lines({ file }: { readonly file: SceneFile }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const { length } = useWords();
  const pins = pinsOf(file);
  const avoid = avoidOf(file);
  if (pins.length + avoid.length === 0) return null;
  return (
    <>
      {pins.map((atMm) => (
        <p key={atMm} className="sentence">
          A line stays at {length(atMm)}. {!readOnly && <button type="button" className="link" aria-label={`Let go of the line at ${length(atMm)}`} onClick={() => edit((before) => unpinLine(before, atMm))}>Let go</button>}
        </p>
      ))}
      {avoid.map(({ fromMm, toMm }, at) => (
        <p key={at} className="sentence">
          No line from <QuantityField inSentence label={`Kept clear from, line ${at + 1}`} kind="length" value={fromMm} onCommit={(mm) => edit((before) => changeAvoided(before, at, { fromMm: mm }))} /> to <QuantityField inSentence label={`Kept clear up to, line ${at + 1}`} kind="length" value={toMm} onCommit={(mm) => edit((before) => changeAvoided(before, at, { toMm: mm }))} />{' '}
          {!readOnly && <button type="button" className="link" aria-label={`Allow lines from ${length(fromMm)} to ${length(toMm)}`} onClick={() => edit((before) => allowLine(before, at))}>Allow</button>}
        </p>
      ))}
      {goalOf(file) === 'even' && <p className="soft">Even pours divide each layer equally, whatever lines are asked for. Another goal keeps to them.</p>}
    </>
  );
}
