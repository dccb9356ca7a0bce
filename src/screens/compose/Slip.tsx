/** Where the card stands: at the right, under the picture, or as a slip at the bottom of a phone that is pulled up and down. */
import { useState, type ReactNode } from 'react';
import { startsLow } from '../shared/gauge-room.ts';
import { useViewport } from '../shared/viewport.ts';

export function Slip({ children }: { readonly children: ReactNode }) {
  /** As the person left it; null until then. */
  const [left, setLeft] = useState<'low' | 'raised' | null>(null);
  const viewport = useViewport();
  const low = left === null ? startsLow(viewport) : left === 'low';
  return (
    <aside className={low ? 'card-place low' : 'card-place'} aria-label="Card">
      <button type="button" className="slip-handle" aria-expanded={!low} onClick={() => setLeft(low ? 'raised' : 'low')}><span className="hidden">{low ? 'Show the card' : 'Lower the card'}</span></button>
      {children}
    </aside>
  );
}
