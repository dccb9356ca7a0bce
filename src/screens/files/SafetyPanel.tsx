/** Whether the piece can be changed here and is kept: another tab, a newer version, a browser that keeps nothing. */
import type { KeepingTrouble } from '../../store/keeping/words.ts';
import { usePiece } from '../shared/piece.ts';
import { useSaving } from './saving.ts';

export function SafetyPanel() {
  const readOnly = usePiece((state) => state.readOnly);
  const kept = usePiece((state) => state.kept);
  const takeOver = usePiece((state) => state.takeOver);
  const retry = usePiece((state) => state.retryKeeping);
  const dismiss = usePiece((state) => state.dismissNotices);
  const save = useSaving();
  const saving = <button type="button" className="button main" onClick={() => void save('bundle')}>Save to a file</button>;
  // Nothing nags before there is something to lose.
  const troubled = kept.trouble !== null && kept.state !== 'untouched';
  return (
    <div role="status" aria-label="Safety of the piece">
      {readOnly === 'another-tab' && (
        <section className="trouble">
          <p>This piece is being changed in another tab. Here you see what it does there.</p>
          <button type="button" className="button" onClick={() => void takeOver()}>Take it over and change it here</button>
        </section>
      )}
      {readOnly === 'newer' && (
        <section className="trouble">
          <p>This piece was made with a newer version. It is shown as far as this version knows how, and can’t be changed here. Reload the page or update Stillpool to work on it.</p>
        </section>
      )}
      {troubled && (
        <section className="trouble">
          <TroubleWords {...kept.trouble!} />
          <p className="buttons">{saving}<button type="button" className="button" onClick={retry}>Try again</button></p>
        </section>
      )}
      {kept.notices.map((notice) => (
        <section key={notice.kind} className="trouble">
          <TroubleWords {...notice} />
          <p className="buttons">{saving}<button type="button" className="button" onClick={dismiss}>Close this</button></p>
        </section>
      ))}
    </div>
  );
}

function TroubleWords({ what, safe, todo }: KeepingTrouble) {
  return <p><b>{what}</b> {safe} {todo}</p>;
}
