/** What the piece costs beside its resin, and what to ask for it: hours, consumables, reserve, margin, tax. Not asked until someone begins. */
import { useState } from 'react';
import type { EditResult, SceneFile } from '../../core/scene/edit/file.ts';
import { addOther, changeOther, LABOR_FIELDS, laborOf, removeOther, setLabor, type LaborFieldInfo } from '../../core/scene/edit/labor.ts';
import { currencyOf, setCurrency, setRoundCost } from '../../core/scene/edit/prices.ts';
import { capital } from '../../core/units/format.ts';
import { usePiece } from '../shared/piece.ts';
import { CardSection, TextField } from './fields.tsx';
import { PLACES } from './PieceParts.tsx';
import { QuantityField } from './QuantityField.tsx';

const ROUNDS = [
  { which: 'pourCost', words: 'cup, gloves and so on for each pour', unit: 'money', unset: 'not counted' },
  { which: 'scuffCost', words: 'paper and wipes for each scuff', unit: 'money', unset: 'not counted' },
] as const;

export function PriceSection({ file }: { readonly file: SceneFile }) {
  const readOnly = usePiece((state) => state.readOnly !== null);
  const [begun, setBegun] = useState(false);
  return (
    <CardSection title="Price and hours" place={PLACES.price}>
      {begun || isPriced(file) ? <Fields file={file} /> : (
        <>
          <p className="soft">Your hours and what to ask for the piece are not counted. Kits and their prices stand with each formula.</p>
          {!readOnly && <button type="button" className="link" onClick={() => setBegun(true)}>Count them</button>}
        </>
      )}
    </CardSection>
  );
}

/** Whether anything of it is said. */
export function isPriced({ labor, plan }: SceneFile): boolean {
  return labor !== undefined || plan?.pourCost !== undefined || plan?.scuffCost !== undefined;
}

function Fields({ file }: { readonly file: SceneFile }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const currency = currencyOf(file);
  const other = laborOf(file).other ?? [];
  const money = (words: string): string => `${words}${currency && `, ${currency}`}`;
  return (
    <>
      <TextField labelSeen label="Money in" value={currency} onCommit={(to) => edit((before) => setCurrency(before, to))} />
      {LABOR_FIELDS.map((info) => <Field key={info.field} info={info} money={money} value={laborOf(file)[info.field]} set={(before, to) => setLabor(before, info.field, to)} />)}
      {ROUNDS.map(({ which, ...info }) => <Field key={which} info={info} money={money} value={file.plan?.[which]} set={(before, to) => setRoundCost(before, which, to)} />)}
      {other.map(({ name, amount }, at) => (
        <div key={at} role="group" aria-label={name} className="kit">
          <QuantityField label={money(name)} kind="number" value={amount} onCommit={(to) => edit((before) => changeOther(before, at, { amount: to }))} />
          {!readOnly && <button type="button" className="link" onClick={() => edit((before) => removeOther(before, at))}>Take out<span className="hidden"> {name}</span></button>}
        </div>
      ))}
      {!readOnly && <TextField key={other.length} labelSeen label="What else it takes" value="" onCommit={(name) => edit((before) => addOther(before, { name, amount: 0 }))} />}
      <p className="soft">The cost stands on Pours and on the sheet.</p>
    </>
  );
}

interface FieldProps {
  readonly info: Pick<LaborFieldInfo, 'words' | 'unit' | 'unset'>;
  readonly money: (words: string) => string;
  readonly value: number | undefined;
  readonly set: (file: SceneFile, value: number | null) => EditResult;
}

function Field({ info: { words, unit, unset }, money, value, set }: FieldProps) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const per = unit === 'fraction' ? 100 : 1;
  const label = capital(words);
  return (
    <div className="label-value">
      <QuantityField
        label={unit === 'money' ? money(label) : label}
        kind={unit === 'h' ? 'hours' : unit === 'fraction' ? 'percent' : 'number'}
        placeholder={unset}
        value={value === undefined ? null : Number((value * per).toPrecision(12))}
        onCommit={(to) => edit((before) => set(before, Number((to / per).toPrecision(12))))}
      />
      {value !== undefined && !readOnly && <button type="button" className="link" onClick={() => edit((before) => set(before, null))}>{capital(unset)}<span className="hidden">: {words}</span></button>}
    </div>
  );
}
