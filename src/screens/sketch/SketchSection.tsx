/** On a plane's card: the way to its sketch. The board comes when it is asked for. */
import { Suspense, useState } from 'react';
import type { PlaneFile, SceneFile } from '../../core/scene/edit/file.ts';
import { sketchOf } from '../../core/scene/edit/sketch.ts';
import { counted } from '../../core/units/format.ts';
import { CardSection } from '../card/fields.tsx';
import { fetched } from '../shared/fetched.tsx';

const SketchBoard = fetched(async () => (await import('./SketchBoard.tsx')).SketchBoard);

export function SketchSection({ file, plane }: { readonly file: SceneFile; readonly plane: PlaneFile }) {
  const [open, setOpen] = useState(false);
  const strokes = sketchOf(file, plane.id).length;
  return (
    <CardSection title="Sketch" note={strokes === 0 ? 'none yet' : counted(strokes, 'stroke')}>
      <button type="button" className="button" onClick={() => setOpen(true)}>{strokes === 0 ? 'Sketch on it' : 'Go on sketching'}</button>
      {open && <Suspense fallback={<p className="soft">One moment …</p>}><SketchBoard file={file} plane={plane} onClose={() => setOpen(false)} /></Suspense>}
    </CardSection>
  );
}
