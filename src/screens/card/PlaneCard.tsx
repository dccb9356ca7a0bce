/** The card of a painted plane: its height both ways, paint and dry, its picture. */
import { Suspense, useRef } from 'react';
import { changeArt, putArt, takeArtOff } from '../../core/scene/edit/art.ts';
import type { ArtFile, PlaneFile, SceneFile } from '../../core/scene/edit/file.ts';
import { setPlaneHours, USUAL_DRY_H, USUAL_PAINT_H } from '../../core/scene/edit/hold.ts';
import { rename } from '../../core/scene/edit/keep.ts';
import { ridersOf } from '../../core/scene/edit/move.ts';
import { isSketchedOn } from '../../core/scene/edit/sketch.ts';
import { nameOf } from '../../core/scene/edit/things.ts';
import { counted } from '../../core/units/format.ts';
import { canBeShown } from '../compose/ready-art.ts';
import { fetched } from '../shared/fetched.tsx';
import { usePiece } from '../shared/piece.ts';
import { CardHead, KeepActions, ThingFindings } from './CardParts.tsx';
import { CardSection, YesNo } from './fields.tsx';
import { damagedWords, useArtTrouble } from './art-trouble.ts';
import { artFileProblem, PICTURES_ACCEPTED, readPicture } from './art-picture.ts';
import { deepOf, fromWalls, halfSizes, intoMold, standingWords } from './place-words.ts';
import { QuantityField } from './QuantityField.tsx';
import { SketchSection } from '../sketch/SketchSection.tsx';
import { useTrouble } from './trouble.ts';
import { typedHeight } from './typed-height.ts';

/** Only a plane with something on it asks for it, or one that a creature may come on, or a shadow. */
const PaintPart = fetched(async () => (await import('../planes/PaintPart.tsx')).PaintPart);

export function PlaneCard({ file, plane }: { readonly file: SceneFile; readonly plane: PlaneFile }) {
  const edit = usePiece((state) => state.edit);
  const riders = ridersOf(file, plane.id).length;
  const sketched = isSketchedOn(file, plane.id);
  const height = (mm: number): boolean => edit((before) => typedHeight(before, plane.id, mm, { riders: true }));
  return (
    <>
      <CardHead kind="Painted plane" name={nameOf(plane)} words={standingWords(file, plane)} onName={(name) => edit((before) => rename(before, plane.id, name))} />
      <CardSection title="Place">
        <p className="sentence">
          At <QuantityField inSentence strong label="Up from the floor" kind="length" value={plane.atMm} onCommit={height} /> up,{' '}
          <QuantityField inSentence strong label="Deep under the show face" kind="length" value={deepOf(file, plane.atMm)} onCommit={(mm) => height(deepOf(file, mm))} /> deep
        </p>
        {riders > 0 && <p className="soft">{counted(riders, 'figure')} on it {riders === 1 ? 'moves' : 'move'} along.</p>}
      </CardSection>
      <CardSection title="Painting">
        <p className="sentence">
          Painted in <QuantityField inSentence label="Time to paint" kind="hours" usual={plane.paintH === undefined} value={plane.paintH ?? USUAL_PAINT_H} onCommit={(paintH) => edit((before) => setPlaneHours(before, [plane.id], { paintH }))} />, dry after{' '}
          <QuantityField inSentence label="Time to dry" kind="hours" usual={plane.dryH === undefined} value={plane.dryH ?? USUAL_DRY_H} onCommit={(dryH) => edit((before) => setPlaneHours(before, [plane.id], { dryH }))} />
        </p>
      </CardSection>
      {(plane.art !== undefined || (file.creatures?.length ?? 0) > 0 || file.lamp !== undefined || sketched) && <Suspense fallback={<p className="soft">One moment …</p>}><PaintPart file={file} plane={plane} /></Suspense>}
      <ArtSection file={file} plane={plane} />
      <SketchSection file={file} plane={plane} />
      <ThingFindings id={plane.id} />
      <KeepActions ids={[plane.id]} locked={plane.locked ?? false} />
    </>
  );
}

function ArtSection({ file, plane }: { readonly file: SceneFile; readonly plane: PlaneFile }) {
  const edit = usePiece((state) => state.edit);
  const addFile = usePiece((state) => state.addFile);
  const picker = useRef<HTMLInputElement>(null);
  const [trouble, guard] = useTrouble();
  const { art } = plane;
  const unseen = useArtTrouble(art?.file);
  const put = (picture: File): void => {
    guard(async () => {
      const problem = artFileProblem(picture);
      if (problem) throw new Error(problem);
      const ready = await readPicture(picture);
      if (!(await canBeShown(picture.name, ready.blob))) throw new Error(damagedWords(picture.name));
      const path = await addFile(picture.name, ready.blob);
      const wide = ready.widthMm ?? 2 * halfSizes(file).xMm;
      edit((before) => (art ? changeArt(before, plane.id, { file: path }) : putArt(before, plane.id, { file: path, widthMm: wide })));
    });
  };
  const change = (changed: Partial<ArtFile>): boolean => edit((before) => changeArt(before, plane.id, changed));
  return (
    <CardSection title="Picture" note={art ? undefined : 'none yet: a wash with its name stands for it'}>
      <button type="button" className="button" onClick={() => picker.current?.click()}>{art ? 'Another picture' : 'Put a picture on it'}</button>
      <input
        ref={picker}
        type="file"
        hidden
        accept={PICTURES_ACCEPTED}
        aria-label={`Picture for ${nameOf(plane)}`}
        onChange={({ target }) => {
          const picture = target.files?.[0];
          if (picture) put(picture);
          target.value = '';
        }}
      />
      {trouble && <p role="alert" className="problem">{trouble}</p>}
      {unseen && <p role="alert" className="problem">{unseen}</p>}
      {art && (
        <>
          <QuantityField label="Wide" kind="length" value={art.widthMm} onCommit={(widthMm) => change({ widthMm })} />
          <p className="sentence">
            Its middle from left <QuantityField inSentence label="Picture’s middle from the left wall" kind="length" value={fromWalls(file, art).leftMm} onCommit={(mm) => change(intoMold(file, { leftMm: mm }))} />, from front{' '}
            <QuantityField inSentence label="Picture’s middle from the front wall" kind="length" value={fromWalls(file, art).frontMm} onCommit={(mm) => change(intoMold(file, { frontMm: mm }))} />
          </p>
          <QuantityField label="Turned" kind="angle" value={art.turnDeg ?? 0} onCommit={(turnDeg) => change({ turnDeg })} />
          <YesNo label="Mirrored" value={art.mirror ?? false} onChange={(mirror) => change({ mirror })} />
          {file.cast === 'face-down' && <p className="soft">Cast face-down: this is what the viewer will see. The template is mirrored for you.</p>}
          <button type="button" className="link" onClick={() => edit((before) => takeArtOff(before, plane.id))}>Take the picture off</button>
        </>
      )}
    </CardSection>
  );
}
