/** On a figure's card: paint it on planes instead of setting it in. Asks for a gap or a number of planes, and says what it comes to. */
import { useState } from 'react';
import type { FigureFile, SceneFile } from '../../core/scene/edit/file.ts';
import { paintFigure } from '../../core/scene/edit/creature.ts';
import { nameOf, spoken } from '../../core/scene/edit/things.ts';
import { spacingAdvice } from '../../core/sight/advice.ts';
import { counted } from '../../core/units/format.ts';
import { QuantityField } from '../card/QuantityField.tsx';
import { CardSection, YesNo } from '../card/fields.tsx';
import { useDerived, usePiece } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { gapHeights, MOST_PLANES, USUAL_LOOK, usualGapMm, wanted } from './slicing.ts';
import './planes.css';

export function SliceUp({ file, figure, onDone }: { readonly file: SceneFile; readonly figure: FigureFile; readonly onDone: () => void }) {
  const edit = usePiece((state) => state.edit);
  const select = usePiece((state) => state.select);
  const refusal = usePiece((state) => state.refusal);
  const { scene, solids } = useDerived();
  const { planned, said } = useWords();
  const [typedMm, setTyped] = useState<number | null>(null);
  const [turnOver, setTurnOver] = useState(true);
  const [tried, setTried] = useState(false);
  const bounds = solids.find(({ id }) => id === figure.id)?.bounds;
  if (!bounds) return <p className="soft">It is being measured …</p>;
  const stance = { bottomMm: figure.baseMm ?? 0, tallMm: bounds.max[2] - bounds.min[2] };
  const { tallMm } = stance;
  const gapMm = typedMm ?? usualGapMm(scene, stance, USUAL_LOOK);
  const heights = gapHeights(file, figure.id, { scene, stance, gapMm });
  const faceDown = file.cast === 'face-down';
  const keep = (mm: number): boolean => {
    if (!(mm > 0) || tallMm / mm > MOST_PLANES) return false;
    setTyped(mm);
    return true;
  };
  const paint = (): void => {
    let ids: readonly string[] = [];
    setTried(true);
    const made = edit((before) => {
      const result = paintFigure(before, figure.id, { ...wanted(scene, stance, gapMm), ...(faceDown && { turnOver }) });
      if (result.ok) ids = result.ids;
      return result;
    });
    if (!made) return;
    select(ids.slice(0, 1));
    onDone();
  };
  return (
    <CardSection title="Slice into planes">
      <p className="soft">The {spoken(nameOf(figure))} is painted on planes in its place, one over the other, instead of being set in.</p>
      <p className="sentence">
        Planes <QuantityField inSentence strong label="Planes apart" kind="length" value={gapMm} onCommit={keep} /> apart, or{' '}
        <QuantityField inSentence label="Number of planes" kind="number" value={heights.length} onCommit={(count) => Number.isInteger(count) && count > 0 && keep(tallMm / count)} /> of them.
      </p>
      {faceDown && <YesNo label="Turned over, so that its back is seen" value={turnOver} onChange={setTurnOver} />}
      {heights.length > 1 && <p className="soft">{planned(spacingAdvice(scene, USUAL_LOOK, { gapMm, fromMm: heights[0], toMm: heights[heights.length - 1] }).words)}</p>}
      {tried && refusal && <p role="alert" className="problem">{said(refusal)}</p>}
      <p className="card-actions">
        <button type="button" className="button main" onClick={paint}>Paint it on {counted(heights.length, 'plane')}</button>
        <button type="button" className="link" onClick={onDone}>Leave it as it is</button>
      </p>
    </CardSection>
  );
}
