/** The colors that a plane or a creature is to show through the water over it: chosen here, and on a plane what to paint for each. */
import { useMemo } from 'react';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { addColor, changeColor, colorsOf, removeColor } from '../../core/scene/edit/read.ts';
import { lightBack, paintWords, planePaints } from '../../core/sight/plane-paints.ts';
import { pouredStrata } from '../../core/sight/water.ts';
import { useDerived, usePiece } from '../shared/piece.ts';

/** A first color: a fallen leaf's (a choice of ours). */
const FIRST = '#b5763a';

export function ColorsToShow({ file, id, name }: { readonly file: SceneFile; readonly id: string; readonly name: string }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const colors = colorsOf(file, id);
  if (readOnly && colors.length === 0) return null;
  const next = colors.includes(FIRST) ? '#ffffff' : FIRST;
  return (
    <div className="colors-to-show" role="group" aria-label={`Colors that ${name} is to show`}>
      {colors.map((color, at) => (
        <p key={at} className="tint">
          <label><span className="hidden">Color {at + 1} of {name}</span><input type="color" disabled={readOnly} value={color} onChange={({ target }) => edit((before) => changeColor(before, id, at, target.value))} /></label>
          <span>is to show</span>
          {!readOnly && <button type="button" className="link" aria-label={`Leave color ${at + 1} of ${name} out`} onClick={() => edit((before) => removeColor(before, id, at))}>Leave it out</button>}
        </p>
      ))}
      {!readOnly && <button type="button" className="link" onClick={() => edit((before) => addColor(before, id, next))}>{colors.length === 0 ? 'Say what color it is to show' : 'Another color'}</button>}
    </div>
  );
}

/** Of the colors chosen for a plane and the creatures on it. */
export function PaintsForColors({ planeId }: { readonly planeId: string }) {
  const { scene, plan } = useDerived();
  const said = useMemo(() => {
    const plane = scene.placements.find(({ id }) => id === planeId);
    if (plane?.kind !== 'plane') return [];
    const leaves = lightBack(scene, pouredStrata(scene, plan), plane.atMm);
    return planePaints(scene, plane, { leaves, guides: [] }).map((paint) => ({ ...paint, said: paintWords(plane.name, paint) }));
  }, [scene, plan, planeId]);
  if (said.length === 0) return null;
  return (
    <ul className="paint-colors" aria-label="What to paint so that it shows these colors">
      {said.map(({ of, wanted, paint, said: words }) => (
        <li key={`${of} ${wanted}`}>
          <svg width="32" height="32" aria-hidden="true"><rect x="1" y="1" width="30" height="30" fill={paint} className="paint-patch" /></svg>
          <span>{words}</span>
        </li>
      ))}
    </ul>
  );
}
