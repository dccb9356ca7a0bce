/** What is being opened, and a large mesh on its way in, with how far it has come and the way to stop it. */
import type { ReadingMesh } from '../../store/piece-state.ts';
import { usePiece } from '../shared/piece.ts';

export function ReadingPanel() {
  const opening = usePiece((state) => state.opening);
  const reading = usePiece((state) => state.reading);
  const lookedAt = usePiece((state) => state.lookedAt?.name ?? null);
  const over = usePiece((state) => state.derived !== null);
  return (
    <div role="status" aria-label="Opening" className={over ? 'opening over' : 'opening'}>
      {reading ? <ReadingLine reading={reading} /> : lookedAt === null && opening !== null && <p>Reading {opening} …</p>}
      {lookedAt !== null && <p className="soft">{reading ? 'A lighter copy is shown until it is measured.' : <><i>{lookedAt}</i> is measured and being planned. Its lighter copy is shown until then.</>}</p>}
    </div>
  );
}

/** The share is for the eye and the progress element: a screen reader that read out every percent would say nothing else. */
export function ReadingLine({ reading: { name, stage, share } }: { readonly reading: ReadingMesh }) {
  const cancel = usePiece((state) => state.cancelReading);
  return (
    <p>
      <i>{name}</i>: {stage} <progress aria-label={stage} max={1} value={share} />
      {share !== undefined && <span aria-hidden="true"> {Math.round(100 * share)} %</span>} <button type="button" className="button" onClick={cancel}>Stop</button>
    </p>
  );
}
