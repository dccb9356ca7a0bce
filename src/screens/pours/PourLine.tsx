/** Of a pour: by when it has to be poured at the latest, and what is wanted of the line at its top. */
import type { Pour } from '../../core/plan/plan.ts';
import type { Scene } from '../../core/scene/scene.ts';
import { avoidLine, isPinned, KEPT_CLEAR_MM, pinLine, unpinLine } from '../../core/scene/edit/wishes.ts';
import { dayAndTime } from '../../core/units/when.ts';
import { usePiece } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import './pour-line.css';

export interface PourLineProps {
  readonly pour: Pour;
  readonly next: Pour | undefined;
  readonly scene: Scene;
  readonly chosen: boolean;
}

export function PourLine({ pour, next, scene, chosen }: PourLineProps) {
  // Where a layer ends something asks for the line; even pours divide a layer whatever is asked.
  const free = scene.plan.goal !== 'even' && next !== undefined && next.layer === pour.layer;
  const asks = chosen && free;
  // The reasons of other goals tell it themselves.
  const tells = pour.latestStart !== null && scene.plan.goal === 'even';
  if (!tells && !asks) return null;
  return (
    <div className="pour-wishes">
      {tells && <p className="soft">Pour {pour.index} by <b>{dayAndTime(pour.latestStart!)}</b> at the latest, else pour {pour.index - 1} has to cure and be scuffed first.</p>}
      {asks && <Wishes atMm={pour.toMm} />}
    </div>
  );
}

function Wishes({ atMm }: { readonly atMm: number }) {
  const edit = usePiece((state) => state.edit);
  const pinned = usePiece((state) => state.document !== null && isPinned(state.document, atMm));
  const readOnly = usePiece((state) => state.readOnly !== null);
  const { length } = useWords();
  if (readOnly) return null;
  return (
    <p className="line-wishes">
      {pinned
        ? <button type="button" className="link" onClick={() => edit((before) => unpinLine(before, atMm))}>Let go of the line at {length(atMm)}</button>
        : <button type="button" className="link" onClick={() => edit((before) => pinLine(before, atMm))}>Keep the line at {length(atMm)}</button>}
      <button type="button" className="link" onClick={() => edit((before) => avoidLine(before, atMm))}>No line within {length(KEPT_CLEAR_MM)} of {length(atMm)}</button>
    </p>
  );
}
