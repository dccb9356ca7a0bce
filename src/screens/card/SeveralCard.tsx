/** The card while several things are selected: line up, equal gaps, and what can be done with them whole. */
import { align, spread, type Side } from '../../core/scene/edit/align.ts';
import type { PlacementFile } from '../../core/scene/edit/file.ts';
import { raise } from '../../core/scene/edit/move.ts';
import { isLocked, nameOf } from '../../core/scene/edit/things.ts';
import type { Bounds } from '../../core/solid/solid.ts';
import { counted } from '../../core/units/format.ts';
import { usePiece } from '../shared/piece.ts';
import { KeepActions } from './CardParts.tsx';
import { CardSection } from './fields.tsx';
import { QuantityField } from './QuantityField.tsx';

const SIDES: readonly { readonly side: Side; readonly words: string }[] = [
  { side: 'left', words: 'left sides' },
  { side: 'center', words: 'centers, left to right' },
  { side: 'right', words: 'right sides' },
  { side: 'front', words: 'fronts' },
  { side: 'middle', words: 'centers, front to back' },
  { side: 'back', words: 'backs' },
];

export function SeveralCard({ things }: { readonly things: readonly PlacementFile[] }) {
  const edit = usePiece((state) => state.edit);
  const select = usePiece((state) => state.select);
  const solids = usePiece((state) => state.derived?.solids);
  const ids = things.map(({ id }) => id);
  const bounds = new Map<string, Bounds>((solids ?? []).filter(({ id }) => ids.includes(id)).map(({ id, bounds: box }) => [id, box]));
  for (const thing of things) if (thing.kind === 'plane') bounds.set(thing.id, { min: [0, 0, thing.atMm], max: [0, 0, thing.atMm] });
  const flat = new Map([...bounds].filter(([id]) => things.find((thing) => thing.id === id)?.kind !== 'plane'));
  return (
    <>
      <header className="card-head">
        <h2 className="card-kind">Selected</h2>
        <p className="card-title"><i>{counted(things.length, 'thing')}</i></p>
      </header>
      <ul className="several">
        {things.map((thing) => <li key={thing.id}><button type="button" className="link" onClick={() => select([thing.id])}><i>{nameOf(thing)}</i></button></li>)}
      </ul>
      <CardSection title="Height">
        <QuantityField alone label="All up by" kind="length" value={0} onCommit={(mm) => edit((before) => raise(before, ids, mm))} />
      </CardSection>
      {flat.size >= 2 && (
        <CardSection title="Line up">
          <div className="button-rows">{SIDES.map(({ side, words }) => <button key={side} type="button" className="button" onClick={() => edit((before) => align(before, flat, side))}>{words}</button>)}</div>
        </CardSection>
      )}
      {bounds.size >= 3 && (
        <CardSection title="Equal gaps">
          <div className="button-rows">
            {flat.size >= 3 && <button type="button" className="button" onClick={() => edit((before) => spread(before, flat, 'x'))}>side by side</button>}
            {flat.size >= 3 && <button type="button" className="button" onClick={() => edit((before) => spread(before, flat, 'y'))}>front to back</button>}
            <button type="button" className="button" onClick={() => edit((before) => spread(before, bounds, 'height'))}>in height</button>
          </div>
        </CardSection>
      )}
      <KeepActions ids={ids} locked={things.every(isLocked)} />
    </>
  );
}
