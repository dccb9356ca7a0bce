/** On a creature's card: whether its planes line up for one eye, where that is, and where planes go when it is built deeper. */
import { useState } from 'react';
import type { CreatureFile, SceneFile } from '../../core/scene/edit/file.ts';
import { setPlanes } from '../../core/scene/edit/creature.ts';
import { EYE_FIELDS, setRead, STRETCH_WORDS } from '../../core/scene/edit/read.ts';
import { capital, listed } from '../../core/units/format.ts';
import { QuantityField } from '../card/QuantityField.tsx';
import { YesNo } from '../card/fields.tsx';
import { useDerived, usePiece } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { reachingPlanes, type Stance } from './slicing.ts';

/** Heights told one by one. */
const MOST_SAID = 5;

export function EyePart({ file, creature: { id, read }, stance }: { readonly file: SceneFile; readonly creature: CreatureFile; readonly stance: Stance | null }) {
  const edit = usePiece((state) => state.edit);
  const [turned, setTurned] = useState(false);
  return (
    <>
      <YesNo label="Its planes line up for one eye" value={read !== undefined} onChange={(lined) => edit((before) => setRead(before, id, lined ? {} : null))} />
      {read && EYE_FIELDS.map(({ field, words, unset }) => (
        <QuantityField key={field} alone label={capital(words)} kind="length" usual={read[field] === undefined} value={read[field] ?? unset} onCommit={(mm) => edit((before) => setRead(before, id, { [field]: mm }))} />
      ))}
      {read && <YesNo label={capital(STRETCH_WORDS)} value={read.stretch ?? false} onChange={(stretch) => { if (edit((before) => setRead(before, id, { stretch }))) setTurned(true); }} />}
      {stance && (turned || read?.stretch) && <PlanesAlong file={file} id={id} stance={stance} />}
    </>
  );
}

/** Built deeper, or no longer, it has left its planes: they come along by one press. */
function PlanesAlong({ file, id, stance }: { readonly file: SceneFile; readonly id: string; readonly stance: Stance }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const { scene } = useDerived();
  const { length } = useWords();
  const heights = reachingPlanes(file, id, { scene, stance });
  if (readOnly || !heights) return null;
  const said = heights.map((mm) => length(mm));
  const to = said.length > MOST_SAID ? `to between ${said[0]} and ${said[said.length - 1]}` : `to ${listed(said)}`;
  return (
    <>
      <p className="soft">It is built {length(stance.tallMm)} tall now, and its planes do not go evenly through it. They would move {to} up.</p>
      <p className="card-actions"><button type="button" className="button" onClick={() => edit((before) => setPlanes(before, id, heights))}>Move {heights.length === 1 ? 'its plane' : `its ${heights.length} planes`} along</button></p>
    </>
  );
}
