/** A new piece from three questions. What is open stays kept and is found again under Files. */
import { useState } from 'react';
import { newPiece, type NewPiece as Answers } from '../../core/scene/edit/new-piece.ts';
import { goToUnread, QuantityField } from '../card/QuantityField.tsx';
import { FewField, TextField } from '../card/fields.tsx';
import { usePiece, usePieceStore } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { Dialog } from './Dialog.tsx';
import { useComposeUi } from './ui.ts';

/** A hand's size, to be typed over. */
const FIRST = { lengthMm: 150, widthMm: 100, diameterMm: 120, heightMm: 50 };

export function NewPiece() {
  const store = usePieceStore();
  const refusal = usePiece((state) => state.refusal);
  const { said } = useWords();
  const name = usePiece((state) => state.document?.name);
  const ask = useComposeUi((ui) => ui.ask);
  const holdLine = useComposeUi((ui) => ui.holdLine);
  const [called, setCalled] = useState('');
  const [seen, setSeen] = useState<Answers['seen']>('above');
  const [keep, setKeep] = useState(false);
  const [shape, setShape] = useState<'box' | 'round'>('box');
  const [sizes, setSizes] = useState(FIRST);
  const size = (field: keyof typeof FIRST) => (value: number): boolean | string => {
    if (!(value > 0)) return 'A mold is larger than nothing: type a size above 0.';
    setSizes((before) => ({ ...before, [field]: value }));
    return true;
  };
  const make = (): void => {
    const { lengthMm, widthMm, diameterMm, heightMm } = sizes;
    const mold = shape === 'box' ? { shape, lengthMm, widthMm, heightMm } : { shape, diameterMm, heightMm };
    if (!store.getState().startPiece(newPiece({ seen, keep, mold, ...(called.trim() && { name: called }) }))) return;
    holdLine(null);
    ask(null);
  };
  return (
    <Dialog title="A new piece" onClose={() => ask(null)}>
      {name !== undefined && <p className="soft"><i>{name}</i> stays kept. You find it again under Files.</p>}
      <FewField<Answers['seen']> label="How will people look at it?" value={seen} choices={[{ value: 'above', words: 'from above' }, { value: 'front', words: 'from the front' }, { value: 'around', words: 'all round' }]} onChoose={setSeen} />
      <FewField label="When it has cured, it" value={keep ? 'stays' : 'out'} choices={[{ value: 'out', words: 'comes out of the mold' }, { value: 'stays', words: 'stays in it' }]} onChoose={(to) => setKeep(to === 'stays')} />
      <FewField label="How large is the mold inside?" value={shape} choices={[{ value: 'box', words: 'a box' }, { value: 'round', words: 'round' }]} onChoose={setShape} />
      <div className="measured">
        {shape === 'box' ? (
          <>
            <QuantityField label="Long" kind="length" value={sizes.lengthMm} onCommit={size('lengthMm')} />
            <QuantityField label="Wide" kind="length" value={sizes.widthMm} onCommit={size('widthMm')} />
          </>
        ) : <QuantityField label="Across" kind="length" value={sizes.diameterMm} onCommit={size('diameterMm')} />}
        <QuantityField label={seen === 'front' ? 'High: how deep the picture is' : 'High'} kind="length" value={sizes.heightMm} onCommit={size('heightMm')} />
      </div>
      <TextField labelSeen className="wide" label="Its name, if it has one" value={called} onCommit={(text) => { setCalled(text); return true; }} />
      {refusal && <p role="alert" className="problem">{said(refusal)}</p>}
      <p><button type="button" className="button main" onClick={({ currentTarget }) => { if (!goToUnread(currentTarget.closest('dialog'))) make(); }}>Begin</button></p>
    </Dialog>
  );
}
