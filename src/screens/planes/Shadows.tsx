/** What a lamp throws on a plane, and on the back of the piece: in words, and drawn where nothing else is. */
import type { Receiver } from '../../core/sight/casters.ts';
import { onceWords, shadowWords, unknownWords } from '../../core/sight/reading-words.ts';
import type { Painted } from '../../store/piece-painting.ts';
import { usePiece } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { GuideDrawing } from './GuideDrawing.tsx';
import './planes.css';

export function ShadowWords({ painted: { scene, unknownShadows }, shadows }: { readonly painted: Painted; readonly shadows: Receiver['shadows'] }) {
  const { planned } = useWords();
  if (!scene.lamp || shadows.length + unknownShadows.length === 0) return null;
  return (
    <>
      {shadows.map((shadow) => <p key={shadow.of}>{planned(shadowWords(shadow))}</p>)}
      {shadows.length > 0 && <p className="soft">Drawn dotted. {onceWords(scene.lamp)}</p>}
      {unknownShadows.length > 0 && <p className="soft">{unknownWords(unknownShadows)}</p>}
    </>
  );
}

/** Where no plane is on it. */
export function BackShadows() {
  const painted = usePiece((state) => state.painted);
  const back = painted?.shadows.find(({ planeId }) => planeId === null);
  if (!painted || !back || back.shadows.length === 0) return null;
  const { scene } = painted;
  const name = scene.cast === 'face-down' ? 'The top' : 'The floor';
  return (
    <>
      <p><b>{name}</b></p>
      <GuideDrawing guides={[]} nearer={[]} shadows={back.shadows} atMm={back.atMm} mold={scene.mold} cast={scene.cast} seeing="painted" label={`${name}, with the shadows that fall on it, looking down into the mold`} />
      <ShadowWords painted={painted} shadows={back.shadows} />
      <p className="soft">To paint {back.shadows.length === 1 ? 'it' : 'one'}, set a plane there.</p>
    </>
  );
}
