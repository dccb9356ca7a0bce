/** On a creature's card: whether its planes line up for one eye, and where that is. */
import type { CreatureFile } from '../../core/scene/edit/file.ts';
import { EYE_FIELDS, setRead, STRETCH_WORDS } from '../../core/scene/edit/read.ts';
import { capital } from '../../core/units/format.ts';
import { QuantityField } from '../card/QuantityField.tsx';
import { YesNo } from '../card/fields.tsx';
import { usePiece } from '../shared/piece.ts';

export function EyePart({ creature: { id, read } }: { readonly creature: CreatureFile }) {
  const edit = usePiece((state) => state.edit);
  return (
    <>
      <YesNo label="Its planes line up for one eye" value={read !== undefined} onChange={(lined) => edit((before) => setRead(before, id, lined ? {} : null))} />
      {read && EYE_FIELDS.map(({ field, words, unset }) => (
        <QuantityField key={field} alone label={capital(words)} kind="length" usual={read[field] === undefined} value={read[field] ?? unset} onCommit={(mm) => edit((before) => setRead(before, id, { [field]: mm }))} />
      ))}
      {read && <YesNo label={capital(STRETCH_WORDS)} value={read.stretch ?? false} onChange={(stretch) => edit((before) => setRead(before, id, { stretch }))} />}
    </>
  );
}
