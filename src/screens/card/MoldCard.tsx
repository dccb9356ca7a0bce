/** The card while nothing is selected: the piece, its mold, its resin, the bench and the room. */
import { Suspense } from 'react';
import { moldMaterialWords } from '../../core/resin/material-words.ts';
import { isDefault } from '../../core/scene/edit/default.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { MOLD_MATERIALS, moldFields, moldValue, setMold, setMoldShape, type MoldField } from '../../core/scene/edit/mold.ts';
import { namePiece, setCast } from '../../core/scene/edit/piece.ts';
import type { MoldMaterial } from '../../core/scene/scene.ts';
import { capital } from '../../core/units/format.ts';
import type { SwitchUnits } from '../../store/piece-state.ts';
import { fetched } from '../shared/fetched.tsx';
import { usePiece } from '../shared/piece.ts';
import { BenchSection } from './BenchSection.tsx';
import { ClassSection } from './ClassSection.tsx';
import { CardHead } from './CardParts.tsx';
import { CardSection, FewField, ManyField, YesNo } from './fields.tsx';
import { FillsSection } from './FillsSection.tsx';
import { FinishSection } from './FinishSection.tsx';
import { FormulasSection } from './FormulasSection.tsx';
import { GoalSection } from './GoalSection.tsx';
import { PieceParts, PLACES } from './PieceParts.tsx';
import { PriceSection } from './PriceSection.tsx';
import { QuantityField } from './QuantityField.tsx';
import { RoomSection } from './RoomSection.tsx';

/** Not needed before the gauge can be used. */
const LampSection = fetched(async () => (await import('./LampSection.tsx')).LampSection);

export function MoldCard({ file }: { readonly file: SceneFile }) {
  const edit = usePiece((state) => state.edit);
  return (
    <>
      <CardHead kind="The piece" name={file.name ?? 'Untitled piece'} onName={(name) => edit((before) => namePiece(before, name))} />
      <PieceParts />
      <MoldSection file={file} />
      <FillsSection file={file} />
      <GoalSection file={file} />
      <BenchSection file={file} />
      <ClassSection file={file} />
      <RoomSection file={file} />
      <Suspense fallback={<div className="card-section lamp-soon" />}><LampSection file={file} /></Suspense>
      <FinishSection file={file} />
      <PriceSection file={file} />
      <FormulasSection file={file} />
      <UnitsSection />
    </>
  );
}

function MoldSection({ file }: { readonly file: SceneFile }) {
  const edit = usePiece((state) => state.edit);
  const { mold } = file;
  const sizes = moldFields(mold.shape).filter(({ kind }) => kind === 'length' || kind === 'angle');
  return (
    <CardSection title="Mold">
      <FewField label="Shape" value={mold.shape} choices={[{ value: 'box', words: 'box' }, { value: 'round', words: 'round' }]} onChoose={(shape) => edit((before) => setMoldShape(before, shape))} />
      {sizes.map(({ field, words, kind, usual }) => (
        <QuantityField
          key={field}
          label={capital(words)}
          kind={kind === 'angle' ? 'angle' : 'length'}
          usual={usual !== undefined && isDefault(file, `mold.${field}`)}
          value={Number(moldValue(mold, field))}
          onCommit={(value) => edit((before) => setMold(before, field, value))}
        />
      ))}
      <ManyField<MoldMaterial>
        label="Made of"
        usual={isDefault(file, 'mold.material')}
        value={moldValue(mold, 'material') as MoldMaterial}
        choices={MOLD_MATERIALS.map((value) => ({ value, words: moldMaterialWords(value) }))}
        onChoose={(material) => edit((before) => setMold(before, 'material' satisfies MoldField, material))}
      />
      <YesNo label="The piece stays in it" value={mold.keep ?? false} onChange={(keep) => edit((before) => setMold(before, 'keep', keep))} />
      <FewField
        label="Looked at from"
        value={file.cast ?? 'face-up'}
        usual={file.cast === undefined}
        choices={[{ value: 'face-up', words: 'the top' }, { value: 'face-down', words: 'the floor' }]}
        onChoose={(cast) => edit((before) => setCast(before, cast))}
      />
    </CardSection>
  );
}

function UnitsSection() {
  const units = usePiece((state) => state.units);
  const setUnits = usePiece((state) => state.setUnits);
  return (
    <CardSection title="Units" place={PLACES.units}>
      <FewField<SwitchUnits['length']> label="Lengths" value={units.length} choices={[{ value: 'mm', words: 'mm' }, { value: 'in', words: 'inches' }]} onChoose={(length) => setUnits({ length })} />
      <FewField<SwitchUnits['volume']> label="Volumes" value={units.volume} choices={[{ value: 'mL', words: 'mL' }, { value: 'floz', words: 'fl oz' }]} onChoose={(volume) => setUnits({ volume })} />
      <p className="soft">Any unit can be typed anywhere: 3/8 in, 2.5 fl oz, 73&nbsp;°F.</p>
    </CardSection>
  );
}
