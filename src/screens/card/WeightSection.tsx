/** Whether it floats: what it takes up, what it weighs by one of three ways, what it rises with. */
import { useState } from 'react';
import type { BedFile, FigureFile } from '../../core/scene/edit/file.ts';
import { liesInside } from '../../core/scene/edit/room-in-mold.ts';
import { setScale } from '../../core/scene/edit/move.ts';
import { setMaterial, setMeasuredDensity, setWeight, useWay as bringIntoForce, waterContradicts, weightState } from '../../core/scene/edit/weigh.ts';
import { materialWords } from '../../core/resin/material-words.ts';
import { MATERIALS } from '../../core/resin/materials.ts';
import { grams, plain } from '../../core/units/format.ts';
import type { PlacementResult } from '../../core/plan/plan.ts';
import { volumeShown, VOLUME_WORDS } from '../pours/volumes.ts';
import { usePiece } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { CardSection, ManyField } from './fields.tsx';
import { QuantityField } from './QuantityField.tsx';

const NO_MATERIAL = '';
/** Of sums of half sizes, mm: a bed from wall to wall is not cut. */
const ROUNDING_MM = 1e-6;
/** What stands in the empty field. */
const EXAMPLE_ML = 8;
/** Weights stand under each other to the tenth, g. */
const LEDGER_G = 0.1;

export function WeightSection({ thing, result, about }: { readonly thing: FigureFile | BedFile; readonly result: PlacementResult | undefined; readonly about: boolean }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const words = useWords();
  const unit = usePiece((state) => state.units.volume);
  const [waterMl, setWaterMl] = useState<number | null>(null);
  const [dryG, setDryG] = useState<number | null>(null);
  const mold = usePiece((state) => state.document?.mold);
  const bounds = usePiece((state) => state.derived?.solids.find(({ id }) => id === thing.id)?.bounds);
  const cut = mold !== undefined && bounds !== undefined && !liesInside(mold, bounds, ROUNDING_MM);
  const volumeMl = result?.volumeMl ?? null;
  const weight = weightState(thing, volumeMl);
  const gaps = thing.kind === 'bed' ? (thing.voidFraction ?? 0) : 0;
  const liftG = result?.liftG ?? null;
  const massG = result?.massG ?? null;
  // Between loose grains the water comes in.
  const bareMl = volumeMl === null || about ? null : volumeMl * (1 - gaps);
  const contradiction = waterMl === null || bareMl === null ? null : waterContradicts(waterMl, bareMl);
  const roughly = about ? 'about ' : '';
  const inLedger = (ml: number): string => `${volumeShown(ml, unit).number}\u00a0${VOLUME_WORDS[unit]}`;
  /** Both values make a density; one alone waits for the other. */
  const measure = (volume: number | null, mass: number | null): boolean => {
    setWaterMl(volume);
    setDryG(mass);
    if (volume === null || mass === null) return true;
    return edit((before) => setMeasuredDensity(before, thing.id, { volumeMl: volume, massG: mass }));
  };
  return (
    <CardSection title="Weight" note={weight.inForce === 'unknown' ? 'say it one of three ways' : weight.words}>
      <dl className="sums">
        {volumeMl !== null && <div><dt>{cut ? 'Takes up, before the mold cuts it' : 'Takes up'}</dt><dd>{roughly}{inLedger(volumeMl)}</dd></div>}
        {volumeMl !== null && gaps > 0 && <div><dt>Its grains alone</dt><dd>{roughly}{inLedger(volumeMl * (1 - gaps))}</dd></div>}
        {liftG !== null && massG !== null && <div><dt>Resin that would weigh</dt><dd>{roughly}{grams(liftG + massG, LEDGER_G)}</dd></div>}
        {massG !== null && <div><dt>It weighs</dt><dd>{grams(massG, LEDGER_G)}</dd></div>}
        {liftG !== null && <div className="sum"><dt>{liftG > 0 ? 'So it rises with' : 'So it stays down with'}</dt><dd>{roughly}{grams(Math.abs(liftG), LEDGER_G)}</dd></div>}
      </dl>
      {result !== undefined && result.safeLockMm !== null && <p className="soft">Locked in safely by a first pour of up to {words.limit(result.safeLockMm)} over its feet.</p>}
      <div className="ways" role="group" aria-label="Three ways to say what it weighs">
        <div className={weight.inForce === 'weighed' ? 'way in-force' : 'way'}>
          <b>Weigh it</b>
          <QuantityField label="On the scale" kind="mass" value={thing.massG ?? null} placeholder="like 12.5 g" onCommit={(g) => edit((before) => setWeight(before, thing.id, g))} />
          {thing.massG !== undefined && <button type="button" className="link" onClick={() => edit((before) => setWeight(before, thing.id, null))}>Leave the weight out</button>}
        </div>
        <div className={weight.inForce === 'measured' ? 'way in-force' : 'way'}>
          <b>Measure it in water</b>
          <QuantityField alone label="The water rose by" kind="volume" value={waterMl} placeholder={`like ${words.volume(EXAMPLE_ML)}`} onCommit={(volume) => measure(volume, dryG)} />
          <QuantityField alone label="and it weighed" kind="mass" value={dryG} placeholder="like 9.2 g" onCommit={(mass) => measure(waterMl, mass)} />
          {contradiction && waterMl !== null && bareMl !== null && (
            <div role="alert" className="problem">
              <p>The water rose by {words.volume(waterMl)}, but the shape as it is set in takes up {words.volume(bareMl)}. One of them is not the real thing’s.</p>
              <p>{thing.shape.type === 'mesh' ? 'Check what its numbers are, under “Its file”, and its size; or measure again.' : 'Check its size; or measure again.'}</p>
              {!readOnly && <button type="button" className="link" onClick={() => edit((before) => setScale(before, thing.id, (thing.scale ?? 1) * contradiction.sizeTimes))}>Make it {plain((thing.scale ?? 1) * contradiction.sizeTimes * 100, 1)}&nbsp;% of how it came, as the water says</button>}
            </div>
          )}
          {thing.densityGPerMl !== undefined && weight.inForce !== 'measured' && <button type="button" className="link" onClick={() => edit((before) => bringIntoForce(before, thing.id, 'measured'))}>Go by this</button>}
        </div>
        <div className={weight.inForce === 'material' ? 'way in-force' : 'way'}>
          <b>Say what it is made of</b>
          <ManyField
            label="Typical material"
            value={thing.material ?? NO_MATERIAL}
            choices={[{ value: NO_MATERIAL, words: 'not said' }, ...MATERIALS.map((value) => ({ value, words: materialWords(value) }))]}
            onChoose={(value) => edit((before) => setMaterial(before, thing.id, value === NO_MATERIAL ? null : value))}
          />
          {thing.material !== undefined && weight.inForce !== 'material' && <button type="button" className="link" onClick={() => edit((before) => bringIntoForce(before, thing.id, 'material'))}>Go by this</button>}
        </div>
      </div>
    </CardSection>
  );
}
