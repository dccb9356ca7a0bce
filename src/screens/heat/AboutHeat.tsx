/** What the heat in the plan is and is not, and the way to a closer look. */
import { Suspense, useState } from 'react';
import { fetched } from '../shared/fetched.tsx';
import { useDerived } from '../shared/piece.ts';
import { ABOUT_HEAT } from './heat-words.ts';

const CloserLook = fetched(async () => (await import('./CloserLook.tsx')).CloserLook);

export function AboutHeat() {
  const { scene, plan } = useDerived();
  const [open, setOpen] = useState(false);
  if (scene.heatModel === 'label') {
    return <p className="about-heat soft">Pours are judged by their labels alone. A warm room, a narrow mold or a warm pour below can still make one run away. To judge heat too, open the card of a formula on Compose.</p>;
  }
  if (plan.pours.length === 0) return null;
  return (
    <section className="closer" aria-label="Heat">
      <p className="about-heat soft">{ABOUT_HEAT}</p>
      {open ? (
        <Suspense fallback={<p className="soft">One moment …</p>}><CloserLook /></Suspense>
      ) : (
        <button type="button" className="button" onClick={() => setOpen(true)}>Look closer, in three dimensions</button>
      )}
    </section>
  );
}
