/** Where the card stands: at the right, under the picture, or as a slip at the bottom of a phone that is pulled up and down. */
import { useState, type ReactNode } from 'react';

export function Slip({ children }: { readonly children: ReactNode }) {
  const [low, setLow] = useState(false);
  return (
    <aside className={low ? 'card-place low' : 'card-place'} aria-label="Card">
      <button type="button" className="slip-handle" aria-expanded={!low} onClick={() => setLow(!low)}><span className="hidden">{low ? 'Show the card' : 'Lower the card'}</span></button>
      {children}
    </aside>
  );
}
