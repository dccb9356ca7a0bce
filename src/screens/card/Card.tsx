/** The card: describes what is selected, in the artist's words, with numbers that can be typed. */
import { Suspense, useLayoutEffect, useRef } from 'react';
import { creature } from '../../core/scene/edit/creature.ts';
import { thing } from '../../core/scene/edit/things.ts';
import { useComposeUi } from '../compose/ui.ts';
import { fetched } from '../shared/fetched.tsx';
import { usePiece } from '../shared/piece.ts';
import { FormulaCard } from './FormulaCard.tsx';
import { MoldCard } from './MoldCard.tsx';
import { PlaneCard } from './PlaneCard.tsx';
import { SeveralCard } from './SeveralCard.tsx';
import { SolidCard } from './SolidCard.tsx';
import './card.css';

const CreatureCard = fetched(async () => (await import('../planes/CreatureCard.tsx')).CreatureCard);

export function Card() {
  const file = usePiece((state) => state.document);
  const selected = usePiece((state) => state.selected);
  const select = usePiece((state) => state.select);
  const formula = useComposeUi((ui) => ui.formula);
  const showFormula = useComposeUi((ui) => ui.showFormula);
  const place = useRef<HTMLDivElement>(null);
  const opening = usePiece((state) => state.opening);
  const subject = selected.length > 0 ? selected.join(' ') : formula;
  // A card for something else, or of another piece, begins at its top.
  useLayoutEffect(() => {
    place.current?.closest('.card-place')?.scrollTo(0, 0);
  }, [subject, opening]);
  if (file === null) return null;
  const things = selected.flatMap((id) => thing(file, id) ?? []);
  const painted = things.length === 0 ? creature(file, selected[selected.length - 1] ?? '') : undefined;
  return (
    <div className="card" ref={place}>
      {(things.length > 0 || painted || formula !== null) && <p className="card-back"><button type="button" className="link" onClick={() => { select([]); showFormula(null); }}>Back to the piece</button></p>}
      {things.length > 1 ? <SeveralCard things={things} /> : painted ? <Suspense fallback={<p className="soft">One moment …</p>}><CreatureCard key={painted.id} file={file} creature={painted} /></Suspense> : things.length === 0 ? (formula !== null ? <FormulaCard key={formula} file={file} id={formula} /> : <MoldCard file={file} />) : things[0].kind === 'plane' ? <PlaneCard key={things[0].id} file={file} plane={things[0]} /> : <SolidCard key={things[0].id} file={file} thing={things[0]} />}
    </div>
  );
}
