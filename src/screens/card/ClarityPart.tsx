/** Under a fill's tint: what a chip of the dye lets through, and how clear the whole fill is to be. Closed until someone has a chip. */
import { setDyeScale, setSwatch, setTarget, swatchOf, targetOf } from '../../core/scene/edit/clarity.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { usePiece } from '../shared/piece.ts';
import { FewField } from './fields.tsx';
import { QuantityField } from './QuantityField.tsx';
import { TypedTogether } from './TypedTogether.tsx';

const CHIP = [
  { key: 'percent', label: 'Dye in a chip you poured', kind: 'percent', placeholder: 'how much' },
  { key: 'mm', label: 'Its thickness', kind: 'length', placeholder: 'how thick' },
  { key: 'passes', label: 'Light that comes through it', kind: 'percent', placeholder: 'how much' },
] as const;

const WAYS = [{ value: 'typed', words: 'as typed' }, { value: 'even', words: 'even' }, { value: 'deepening', words: 'deepening' }] as const;

export function ClarityPart({ file, at }: { readonly file: SceneFile; readonly at: number }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const { tint } = file.fills[at];
  const swatch = swatchOf(tint);
  const target = targetOf(tint);
  const dyeScaleG = file.bench?.dyeScaleG;
  return (
    <details className="clarity" open={swatch !== null}>
      <summary>How clear it gets</summary>
      {swatch === null ? (
        <>
          <p className="soft">Pour a thin chip with this dye and hold it to the light beside a clear one: how much comes through?</p>
          <TypedTogether name="A chip of this dye" fields={CHIP} onTyped={({ percent, mm, passes }) => edit((before) => setSwatch(before, at, { percent, mm, passes: share(passes) }))} />
        </>
      ) : (
        <>
          <QuantityField label="Dye in the chip" kind="percent" value={swatch.percent} onCommit={(percent) => edit((before) => setSwatch(before, at, { ...swatch, percent }))} />
          <QuantityField label="Its thickness" kind="length" value={swatch.mm} onCommit={(mm) => edit((before) => setSwatch(before, at, { ...swatch, mm }))} />
          <QuantityField label="Light that comes through it" kind="percent" value={percentOf(swatch.passes)} onCommit={(passes) => edit((before) => setSwatch(before, at, { ...swatch, passes: share(passes) }))} />
          <FewField label="Dye in each pour" value={target?.how ?? 'typed'} choices={WAYS} onChoose={(how) => edit((before) => setTarget(before, at, how === 'typed' ? null : { how }))} />
          {target && <QuantityField label="Light through the whole fill" kind="percent" value={percentOf(target.passes)} onCommit={(passes) => edit((before) => setTarget(before, at, { passes: share(passes) }))} />}
          {target?.how === 'deepening' && <QuantityField label="Each pour farther in, times the dye" kind="number" value={target.ratio} onCommit={(ratio) => edit((before) => setTarget(before, at, { ratio }))} />}
          <QuantityField alone label="One step of the scale for dye" kind="mass" placeholder="as for resin" value={dyeScaleG ?? null} onCommit={(g) => edit((before) => setDyeScale(before, g))} />
          {!readOnly && (
            <p className="card-actions">
              {dyeScaleG !== undefined && <button type="button" className="link" onClick={() => edit((before) => setDyeScale(before, null))}>Dye on the scale for resin</button>}
              <button type="button" className="link" onClick={() => edit((before) => setSwatch(before, at, null))}>Forget the chip</button>
            </p>
          )}
        </>
      )}
    </details>
  );
}

const share = (percent: number): number => Number((percent / 100).toPrecision(12));
const percentOf = (passes: number): number => Number((passes * 100).toPrecision(12));
