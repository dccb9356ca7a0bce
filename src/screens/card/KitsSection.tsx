/** On a formula's card: the kits it is sold in, and what of it is on hand. Nothing of it is asked until someone begins. */
import { currencyOf, addKitSize, changeKitSize, kitSizes, removeKitSize } from '../../core/scene/edit/prices.ts';
import { formulaIn } from '../../core/scene/edit/formulas.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { addStock, changeStock, removeStock, stockOf, type PlacedStock } from '../../core/scene/edit/stock.ts';
import { usePiece } from '../shared/piece.ts';
import { TextField } from './fields.tsx';
import { PLACES } from './PieceParts.tsx';
import { QuantityField } from './QuantityField.tsx';
import { TypedTogether } from './TypedTogether.tsx';

const NEW_KIT = [{ key: 'kitMl', label: 'A kit holds', kind: 'volume', placeholder: 'how much' }, { key: 'amount', label: 'Its price', kind: 'number', placeholder: 'how much' }] as const;

export function KitsSection({ file, id }: { readonly file: SceneFile; readonly id: string }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const formula = formulaIn(file, id)!;
  const sizes = kitSizes(formula);
  const onHand = stockOf(file, id);
  const currency = currencyOf(file, formula);
  return (
    <details className="card-section" id={PLACES.kits} open={sizes.length + onHand.length > 0}>
      <summary>Kits, and what is on hand</summary>
      {sizes.map((size, at) => (
        <div key={at} role="group" aria-label={`Kit ${at + 1}`} className="kit">
          <QuantityField label="A kit holds" kind="volume" value={size.kitMl} onCommit={(kitMl) => edit((before) => changeKitSize(before, id, at, { kitMl }))} />
          <QuantityField label={`Its price${currency && `, ${currency}`}`} kind="number" value={size.amount} onCommit={(amount) => edit((before) => changeKitSize(before, id, at, { amount }))} />
          {!readOnly && <button type="button" className="link" onClick={() => edit((before) => removeKitSize(before, id, at))}>Not sold so<span className="hidden">: kit {at + 1}</span></button>}
        </div>
      ))}
      <TypedTogether key={`kit ${sizes.length}`} name={sizes.length === 0 ? 'What a kit costs' : 'Another size of kit'} fields={sizes.length === 0 ? NEW_KIT : [{ ...NEW_KIT[0], label: 'Another kit holds' }, NEW_KIT[1]]} onTyped={(size) => edit((before) => addKitSize(before, id, size))} />
      {onHand.map((placed, i) => <OnHand key={placed.at} placed={placed} name={`On hand ${i + 1}`} />)}
      {!readOnly && <QuantityField key={`stock ${onHand.length}`} label={onHand.length === 0 ? 'On hand, parts A and B together' : 'More on hand'} kind="volume" placeholder="how much" value={null} onCommit={(ml) => edit((before) => addStock(before, id, ml))} />}
    </details>
  );
}

function OnHand({ placed: { at, kit }, name }: { readonly placed: PlacedStock; readonly name: string }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const change = (patch: Parameters<typeof changeStock>[2]): boolean => edit((before) => changeStock(before, at, patch));
  return (
    <div role="group" aria-label={name} className="kit">
      {kit.ml !== undefined ? (
        <QuantityField label="On hand, parts A and B together" kind="volume" value={kit.ml} onCommit={(ml) => change({ ml })} />
      ) : (
        <>
          <QuantityField label="On hand, part A (resin)" kind="volume" value={kit.partAMl ?? 0} onCommit={(partAMl) => change({ partAMl })} />
          <QuantityField label="On hand, part B (hardener)" kind="volume" value={kit.partBMl ?? 0} onCommit={(partBMl) => change({ partBMl })} />
        </>
      )}
      <TextField labelSeen type="date" label="Opened" value={kit.opened ?? ''} onCommit={(opened) => change({ opened: opened || null, ...(opened ? {} : { keepsDays: null }) })} />
      {kit.opened !== undefined && <QuantityField label="Keeps, once opened" kind="days" placeholder="how long" value={kit.keepsDays ?? null} onCommit={(keepsDays) => change({ keepsDays })} />}
      <TextField labelSeen type="date" label="Best before" value={kit.bestBefore ?? ''} onCommit={(bestBefore) => change({ bestBefore: bestBefore || null })} />
      {kit.price ? (
        <>
          <QuantityField label="The whole kit held" kind="volume" value={kit.price.kitMl} onCommit={(kitMl) => change({ price: { kitMl } })} />
          <QuantityField label="It cost" kind="number" value={kit.price.amount} onCommit={(amount) => change({ price: { amount } })} />
        </>
      ) : (
        <QuantityField label="The whole kit held" kind="volume" placeholder="as those above" value={null} onCommit={(kitMl) => change({ price: { kitMl } })} />
      )}
      {!readOnly && (
        <p className="card-actions">
          {kit.price !== undefined && <button type="button" className="link" onClick={() => change({ price: null })}>Priced as those above</button>}
          {kit.ml !== undefined && <button type="button" className="link" onClick={() => change({ partAMl: 0 })}>Each part by itself</button>}
          <button type="button" className="link" onClick={() => edit((before) => removeStock(before, at))}>Used up</button>
        </p>
      )}
    </div>
  );
}
