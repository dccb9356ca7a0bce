/** The lamp the finished piece stands under; without one, light comes from all round. Closed until used. */
import { Suspense } from 'react';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { LAMP_FIELDS, setLamp } from '../../core/scene/edit/read.ts';
import { capital } from '../../core/units/format.ts';
import { fetched } from '../shared/fetched.tsx';
import { usePiece } from '../shared/piece.ts';
import { CardSection } from './fields.tsx';
import { QuantityField } from './QuantityField.tsx';

const BackShadows = fetched(async () => (await import('../planes/Shadows.tsx')).BackShadows);

export function LampSection({ file }: { readonly file: SceneFile }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const { lamp } = file;
  if (readOnly && lamp === undefined) return null;
  return (
    <CardSection title="Lamp" note={lamp ? undefined : 'none: light from all round'}>
      {lamp ? LAMP_FIELDS.map(({ field, words, unset }) => (
        <QuantityField key={field} label={capital(words)} kind="angle" usual={lamp[field] === undefined} value={lamp[field] ?? unset} onCommit={(deg) => edit((before) => setLamp(before, { [field]: deg }))} />
      )) : <button type="button" className="link" onClick={() => edit((before) => setLamp(before, {}))}>It stands under a lamp</button>}
      {lamp && <p className="soft">Templates draw whose shadow falls where, so that none is painted twice.</p>}
      {lamp && <Suspense fallback={null}><BackShadows /></Suspense>}
      {lamp && !readOnly && <button type="button" className="link" onClick={() => edit((before) => setLamp(before, null))}>Take the lamp away</button>}
    </CardSection>
  );
}
