/** What is being opened, and a large mesh on its way in, with the way to stop it. */
import { usePiece } from '../shared/piece.ts';

export function ReadingPanel() {
  const opening = usePiece((state) => state.opening);
  const reading = usePiece((state) => state.reading);
  const cancel = usePiece((state) => state.cancelReading);
  const over = usePiece((state) => state.derived !== null);
  return (
    <div role="status" aria-label="Opening" className={over ? 'opening over' : 'opening'}>
      {reading ? (
        <p>
          <i>{reading.name}</i>: {reading.stage} … <button type="button" className="button" onClick={cancel}>Stop</button>
        </p>
      ) : (
        opening !== null && <p>Reading {opening} …</p>
      )}
    </div>
  );
}
