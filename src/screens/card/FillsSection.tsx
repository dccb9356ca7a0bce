/** How high the resin stands, where one formula gives way to the next, and how each fill is tinted. From the top down, as on the gauge. */
import { swatchOf, targetOf } from '../../core/scene/edit/clarity.ts';
import { addBoundary, fillTo, moveBoundary, removeBoundary, setFormula, setTint } from '../../core/scene/edit/fills.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { useComposeUi } from '../compose/ui.ts';
import { usePiece } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { ClarityPart } from './ClarityPart.tsx';
import { CardSection, ManyField } from './fields.tsx';
import { formulaChoices } from './formula-choices.ts';
import { PLACES } from './PieceParts.tsx';
import { deepOf } from './place-words.ts';
import { QuantityField } from './QuantityField.tsx';

/** A first tint: a pond's green, at a tenth of a percent of dye (common practice, no source). */
const FIRST_TINT = { color: '#2f6f73', percent: 0.1 };

export function FillsSection({ file }: { readonly file: SceneFile }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const last = file.fills.length - 1;
  return (
    <CardSection title="Resin" place={PLACES.resin}>
      {file.fills.map((_, i) => last - i).map((at) => <FillPart key={at} file={file} at={at} />)}
      {!readOnly && <button type="button" className="link" onClick={() => edit((before) => addBoundary(before, middleOfDeepest(before)))}>Another fill: part the deepest one</button>}
    </CardSection>
  );
}

function FillPart({ file, at }: { readonly file: SceneFile; readonly at: number }) {
  const edit = usePiece((state) => state.edit);
  const held = useComposeUi((ui) => ui.line === at);
  const holdLine = useComposeUi((ui) => ui.holdLine);
  const showFormula = useComposeUi((ui) => ui.showFormula);
  const { length } = useWords();
  const fill = file.fills[at];
  const top = at === file.fills.length - 1;
  const from = at > 0 ? file.fills[at - 1].toMm : 0;
  const words = top ? 'Filled to' : 'Changes at';
  return (
    <div className={held ? 'fill held' : 'fill'} role="group" aria-label={`Fill from ${length(from)} to ${length(fill.toMm)}`} onFocus={() => holdLine(at)}>
      <p className="sentence">
        {words} <QuantityField inSentence strong={held} label={`${words}, up from the floor`} kind="length" value={fill.toMm} onCommit={(to) => edit((before) => (top ? fillTo(before, to) : moveBoundary(before, at, to)))} /> up
        {!top && <>, <QuantityField inSentence label={`${words}, deep under the show face`} kind="length" value={deepOf(file, fill.toMm)} onCommit={(deep) => edit((before) => moveBoundary(before, at, deepOf(before, deep)))} /> deep</>}
      </p>
      <ManyField label="Formula" value={fill.formula} choices={formulaChoices(file)} onChoose={(formula) => edit((before) => setFormula(before, at, formula))} />
      <p className="card-actions">
        <button type="button" className="link" onClick={() => showFormula(fill.formula)}>What its label says</button>
        {!top && <button type="button" className="link" onClick={() => edit((before) => removeBoundary(before, at))}>Take this change out</button>}
      </p>
      <TintPart file={file} at={at} />
    </div>
  );
}

function TintPart({ file, at }: { readonly file: SceneFile; readonly at: number }) {
  const edit = usePiece((state) => state.edit);
  const { length } = useWords();
  const { tint, toMm } = file.fills[at];
  const aimed = targetOf(tint) !== null && swatchOf(tint) !== null;
  const tinted = tint !== undefined && (aimed || (tint.percent ?? 0) !== 0);
  if (!tinted) return <button type="button" className="link" onClick={() => edit((before) => setTint(before, at, { ...FIRST_TINT, ...(tint?.color && { color: tint.color }) }))}>Tint it</button>;
  return (
    <>
      <p className="tint">
        <label><span className="hidden">Color of the fill to {length(toMm)}</span><input type="color" value={tint.color ?? FIRST_TINT.color} onChange={(event) => edit((before) => setTint(before, at, { color: event.target.value }))} /></label>
        <QuantityField alone label={aimed ? 'Dye, of the mixed weight, worked out for each pour' : 'Dye, of the mixed weight'} placeholder="or type it" kind="percent" value={aimed ? null : (tint.percent ?? 0)} onCommit={(percent) => edit((before) => setTint(before, at, { percent }))} />
        <button type="button" className="link" onClick={() => edit((before) => setTint(before, at, null))}>Leave it clear</button>
      </p>
      <ClarityPart file={file} at={at} />
    </>
  );
}

function middleOfDeepest({ fills }: SceneFile): number {
  const spans = fills.map(({ toMm }, i) => ({ from: i > 0 ? fills[i - 1].toMm : 0, toMm }));
  const deepest = spans.reduce((a, b) => (b.toMm - b.from > a.toMm - a.from ? b : a));
  return Math.round((deepest.from + deepest.toMm) / 2) || (deepest.from + deepest.toMm) / 2;
}
