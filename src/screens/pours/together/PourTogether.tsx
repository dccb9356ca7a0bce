/** Pour together with …: the other kept pieces to tick, and one plan for them all. Closed until someone opens it. */
import { useEffect, useId, useState } from 'react';
import { MOST_PIECES } from '../../../core/plan/runs/one-bench.ts';
import { usePiece } from '../../shared/piece.ts';
import { TogetherAnswer } from './TogetherAnswer.tsx';
import './together.css';

export function PourTogether() {
  const [open, setOpen] = useState(false);
  const [ticked, setTicked] = useState<readonly string[]>([]);
  return (
    <details className="cautions pour-together" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>Pour together with …</summary>
      {open && <Others ticked={ticked} onTick={(id, on) => setTicked((before) => (on ? [...before, id] : before.filter((other) => other !== id)))} />}
    </details>
  );
}

function Others({ ticked, onTick }: { readonly ticked: readonly string[]; readonly onTick: (id: string, on: boolean) => void }) {
  const id = useId();
  const refresh = usePiece((state) => state.refreshRecents);
  const opening = usePiece((state) => state.opening);
  const recents = usePiece((state) => state.recents);
  // Another piece may have been opened here meanwhile.
  useEffect(() => void refresh(), [refresh, opening]);
  const others = recents.filter((one) => !one.open);
  const chosen = others.filter((one) => ticked.includes(one.id));
  const full = chosen.length >= MOST_PIECES - 1;
  if (others.length === 0) return <p className="soft">No other piece is kept here. Open or begin one; it is kept with its first change.</p>;
  return (
    <>
      <fieldset className="pieces" aria-describedby={full ? id : undefined}>
        <legend className="soft">Poured at this bench at the same time:</legend>
        {others.map((one) => (
          <label key={one.id} className="yes-no">
            <input type="checkbox" checked={ticked.includes(one.id)} disabled={full && !ticked.includes(one.id)} onChange={({ target: { checked } }) => onTick(one.id, checked)} />
            <span>{one.name || 'Untitled piece'}</span>
          </label>
        ))}
      </fieldset>
      {full && <p id={id} className="soft">{MOST_PIECES} pieces at most.</p>}
      {chosen.length > 0 && <TogetherAnswer others={chosen} />}
    </>
  );
}
