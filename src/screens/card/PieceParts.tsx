/** The line at the top of the piece's card: one press to each part that stands below the mold, so that the bench and the room are as near. */

/** Ids of the parts; kits stand on a formula's card. */
export const PLACES = { resin: 'card-resin', goal: 'card-goal', bench: 'card-bench', class: 'card-class', room: 'card-room', finish: 'card-finish', price: 'card-price', formulas: 'card-formulas', units: 'card-units', kits: 'card-kits' } as const;

const PARTS: readonly { readonly place: string; readonly words: string }[] = [
  { place: PLACES.resin, words: 'Resin' },
  { place: PLACES.goal, words: 'Goal' },
  { place: PLACES.bench, words: 'Bench' },
  { place: PLACES.class, words: 'Class' },
  { place: PLACES.room, words: 'Room' },
  { place: PLACES.finish, words: 'Finish' },
  { place: PLACES.price, words: 'Price' },
  { place: PLACES.formulas, words: 'Formulas' },
  { place: PLACES.units, words: 'Units' },
];

export function PieceParts() {
  return (
    <nav className="piece-parts" aria-label="On this card">
      {PARTS.map(({ place, words }) => <button key={place} type="button" className="link" onClick={() => goTo(place)}>{words}</button>)}
    </nav>
  );
}

/** The part comes to the top, and the keyboard goes on from it. */
export function goTo(place: string): void {
  const part = document.getElementById(place);
  part?.scrollIntoView({ block: 'start' });
  part?.querySelector<HTMLElement>('h3, summary')?.focus({ preventScroll: true });
}
