/** The card of a figure or a bed. */
import { Suspense, useEffect, useRef, useState, type ReactNode } from 'react';
import { setNature } from '../../core/scene/edit/hold.ts';
import { rename } from '../../core/scene/edit/keep.ts';
import type { BedFile, FigureFile, SceneFile } from '../../core/scene/edit/file.ts';
import { setMeshUnit, unitOf } from '../../core/scene/edit/mesh-unit.ts';
import { setSize, sizeFields } from '../../core/scene/edit/shape.ts';
import type { MeshUnit } from '../../core/scene/scene.ts';
import { nameOf } from '../../core/scene/edit/things.ts';
import { capital } from '../../core/units/format.ts';
import { fetched } from '../shared/fetched.tsx';
import { usePiece } from '../shared/piece.ts';
import { CardHead, KeepActions, ThingFindings } from './CardParts.tsx';
import { CardSection, FewField, YesNo } from './fields.tsx';
import { PlaceSection } from './PlaceSection.tsx';
import { standingWords } from './place-words.ts';
import { QuantityField } from './QuantityField.tsx';
import { WeightSection } from './WeightSection.tsx';

const SliceUp = fetched(async () => (await import('../planes/SliceUp.tsx')).SliceUp);

export function SolidCard({ file, thing }: { readonly file: SceneFile; readonly thing: FigureFile | BedFile }) {
  const edit = usePiece((state) => state.edit);
  const result = usePiece((state) => state.derived?.plan.placements.find(({ id }) => id === thing.id));
  const about = usePiece((state) => state.derived?.about ?? false);
  const [slicing, setSlicing] = useState(false);
  return (
    <>
      <CardHead kind={thing.kind === 'bed' ? 'Bed' : 'Figure'} name={nameOf(thing)} words={standingWords(file, thing)} onName={(name) => edit((before) => rename(before, thing.id, name))} />
      <PlaceSection file={file} thing={thing} />
      {thing.kind === 'bed' && <BedSection bed={thing} />}
      <ShapeSection thing={thing} />
      <WeightSection key={thing.id} thing={thing} result={result} about={about} />
      <ThingFindings id={thing.id} />
      <CardSection title="The object itself">
        <QuantityField label="Stands heat up to" kind="temperature" value={thing.limitC ?? null} placeholder="not said" onCommit={(limitC) => edit((before) => setNature(before, thing.id, { limitC }))} />
        <YesNo label="It is porous" value={thing.porous ?? false} onChange={(porous) => edit((before) => setNature(before, thing.id, { porous }))} />
        <YesNo label="It has been sealed" value={thing.sealed ?? false} onChange={(sealed) => edit((before) => setNature(before, thing.id, { sealed }))} />
      </CardSection>
      {thing.kind === 'figure' && slicing && <Suspense fallback={<p className="soft">One moment …</p>}><Arrived><SliceUp file={file} figure={thing} onDone={() => setSlicing(false)} /></Arrived></Suspense>}
      <KeepActions ids={[thing.id]} locked={thing.locked ?? false}>{thing.kind === 'figure' && !slicing && <button type="button" className="link" onClick={() => setSlicing(true)}>Slice into planes</button>}</KeepActions>
    </>
  );
}

/** What was asked for at the foot of the card comes into view, and the keyboard goes on in it. */
function Arrived({ children }: { readonly children: ReactNode }) {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    place.current?.scrollIntoView({ block: 'nearest' });
    place.current?.querySelector('input')?.focus({ preventScroll: true });
  }, []);
  return <div ref={place}>{children}</div>;
}

/** The sizes a simple shape is drawn from; the unit a file is read in. */
function ShapeSection({ thing }: { readonly thing: FigureFile | BedFile }) {
  const edit = usePiece((state) => state.edit);
  const { shape } = thing;
  const sizes = sizeFields(shape);
  const unit = shape.type === 'mesh' ? unitOf(shape) : null;
  if (sizes.length === 0 && unit === null) return null;
  return (
    <CardSection title={unit === null ? 'Shape' : 'Its file'}>
      {sizes.map(({ field, words, unit: kept }) => (
        <QuantityField key={field} label={capital(words)} kind={kept === 'mL' ? 'volume' : 'length'} value={(shape as unknown as Readonly<Record<string, number>>)[field]} onCommit={(value) => edit((before) => setSize(before, thing.id, field, value))} />
      ))}
      {unit !== null && <FewField<MeshUnit> label="Its numbers are" value={unit} choices={UNITS} onChoose={(to) => edit((before) => setMeshUnit(before, thing.id, to))} />}
    </CardSection>
  );
}

const UNITS = (['mm', 'cm', 'm', 'in'] as const).map((value) => ({ value, words: value }));

function BedSection({ bed }: { readonly bed: BedFile }) {
  const edit = usePiece((state) => state.edit);
  return (
    <CardSection title="Bed">
      <QuantityField label="Gaps that drink resin" kind="percent" usual={bed.voidFraction === undefined} value={(bed.voidFraction ?? 0) * 100} onCommit={(percent) => edit((before) => setNature(before, bed.id, { voidFraction: percent / 100 }))} />
      <p className="soft">Of loose gravel or sand, the share of its room that is air: about 40&nbsp;%. None for a solid floor.</p>
    </CardSection>
  );
}
