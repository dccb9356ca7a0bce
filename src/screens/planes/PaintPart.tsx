/** On a plane's card: what to paint there, in which order, how much paint it is and what it hides, and the way to its template. */
import { useMemo, useState } from 'react';
import { creaturesOf, setSlices } from '../../core/scene/edit/creature.ts';
import type { PlaneFile, SceneFile } from '../../core/scene/edit/file.ts';
import { nameOf } from '../../core/scene/edit/things.ts';
import { artInMold } from '../../core/scene/art-place.ts';
import type { Scene } from '../../core/scene/scene.ts';
import { coverageOf, type PaintGrid, type PlanePaint } from '../../core/sight/coverage.ts';
import type { Receiver } from '../../core/sight/casters.ts';
import type { PlaneGuide } from '../../core/sight/guide.ts';
import { paintLoops } from '../../core/sight/sketch/regions.ts';
import { counted, listed, percent, plain } from '../../core/units/format.ts';
import { useReadyArt } from '../compose/ready-art.ts';
import type { ReadyArt } from '../compose/scene-now.ts';
import { CardSection, FewField, YesNo } from '../card/fields.tsx';
import { useDerived, usePiece } from '../shared/piece.ts';
import { TemplateLink } from '../shared/TemplateLink.tsx';
import { useWords } from '../shared/words.ts';
import { ColorsToShow, PaintsForColors } from './ColorsToShow.tsx';
import { GuideDrawing, type Seeing } from './GuideDrawing.tsx';
import { MainColors } from './MainColors.tsx';
import { usePaintGrids } from './paint-grids.ts';
import { ordinal } from './ordinal.ts';
import { ShadowWords } from './Shadows.tsx';
import './planes.css';

const SEEINGS = [{ value: 'painted', words: 'as painted' }, { value: 'seen', words: 'as seen' }] as const;
/** Planes named of those it hides. */
const MOST_NAMED = 3;

export function PaintPart({ file, plane }: { readonly file: SceneFile; readonly plane: PlaneFile }) {
  const painted = usePiece((state) => state.painted);
  const { planned } = useWords();
  const guides = painted?.guides.filter(({ planeId }) => planeId === plane.id) ?? [];
  const cutting = (plane.slices?.length ?? 0) > 0 && painted === null;
  const shadows = painted?.shadows.find(({ planeId }) => planeId === plane.id)?.shadows ?? [];
  const unseen = painted?.unseen.get(plane.id) ?? [];
  return (
    <CardSection title="What to paint">
      {cutting && <p className="soft">It is being cut …</p>}
      {unseen.map((words) => <p key={words} role="alert" className="problem">{words}</p>)}
      {painted && (guides.length > 0 || shadows.length > 0) && <Guide all={painted.guides} guides={guides} shadows={shadows} plane={plane} scene={painted.scene} />}
      {painted && <ShadowWords painted={painted} shadows={shadows} />}
      <Order plane={plane} file={file} />
      {guides.map((guide) => (
        <div key={guide.creatureId} className="paint-words">
          {guides.length > 1 && <p><b>{creaturesOf(file).find(({ id }) => id === guide.creatureId)?.name ?? guide.creatureId}</b></p>}
          {guide.shading && <p>{planned(guide.shading)}</p>}
          <p className="soft">First {guide.within.join(', then ')}.</p>
          <MainColors guide={guide} />
        </div>
      ))}
      <PaintsForColors planeId={plane.id} />
      <ColorsToShow file={file} id={plane.id} name={nameOf(plane)} />
      <Hints guides={guides} />
      <Coverage plane={plane} guides={painted?.guides ?? []} />
      <OnIt file={file} plane={plane} />
      <p className="card-actions"><TemplateLink plane={plane} />{(plane.slices ?? []).map((id) => <CreatureLink key={id} file={file} id={id} />)}</p>
    </CardSection>
  );
}

function Guide({ all, guides, shadows, plane, scene }: { readonly all: readonly PlaneGuide[]; readonly guides: readonly PlaneGuide[]; readonly shadows: Receiver['shadows']; readonly plane: PlaneFile; readonly scene: Scene }) {
  const [seeing, setSeeing] = useState<Seeing>('painted');
  const name = nameOf(plane);
  const nearer = all.filter((other) => other.depthMm < guides[0]?.depthMm && guides.some(({ creatureId }) => creatureId === other.creatureId));
  const faceDown = scene.cast === 'face-down';
  return (
    <>
      {guides.length > 0 && <FewField<Seeing> label="Drawn" labelSeen={false} value={seeing} choices={SEEINGS} onChoose={setSeeing} />}
      <GuideDrawing guides={guides} nearer={nearer} shadows={shadows} atMm={guides[0]?.atMm ?? plane.atMm} mold={scene.mold} cast={scene.cast} seeing={seeing} label={seeing === 'painted' ? `${name}, as it is painted, looking down into the mold` : `${name}, as it is seen from the show face`} />
      {guides.length > 0 && <p className="soft">
        {seeing === 'painted'
          ? `Paint inside the strong line. ${nearer.length > 0 ? 'Fade out over the close hatch; the wide hatch is hidden.' : 'Nothing nearer the viewer covers it.'}`
          : `From the show face${faceDown ? ', left and right turned round' : ''}: what is drawn thin lies on planes nearer the viewer.`}
      </p>}
    </>
  );
}

function Order({ file, plane }: { readonly file: SceneFile; readonly plane: PlaneFile }) {
  const heights = [...new Set((file.placements ?? []).flatMap((each) => (each.kind === 'plane' ? [each.atMm] : [])))].sort((a, b) => a - b);
  if (heights.length < 2) return null;
  return <p>Painted <b>{ordinal(heights.indexOf(plane.atMm) + 1)}</b> of {counted(heights.length, 'height')}{file.cast === 'face-down' ? ', the one nearest the viewer first' : ', from the floor up'}.</p>;
}

function Hints({ guides }: { readonly guides: readonly PlaneGuide[] }) {
  const { planned } = useWords();
  const hints = guides.flatMap((guide) => guide.hints);
  if (hints.length === 0) return null;
  return <ol className="paint-hints">{hints.map(({ words }, i) => <li key={i}><b>{i + 1}</b> <span>{planned(words)}</span></li>)}</ol>;
}

function Coverage({ plane, guides }: { readonly plane: PlaneFile; readonly guides: readonly PlaneGuide[] }) {
  const { scene } = useDerived();
  const files = usePiece((state) => state.files);
  const art = useReadyArt(files);
  const grids = usePaintGrids(art);
  const all = useMemo(() => coverageOf(scene, paintsOf(scene, guides, { art, grids })), [scene, guides, art, grids]);
  const own = all.find(({ planeId }) => planeId === plane.id);
  if (!own || own.cm2 === 0) return null;
  const named = (id: string): string => scene.placements.find((each) => each.id === id)?.name ?? id;
  const hidden = own.hides.slice(0, MOST_NAMED).map(({ planeId, share }) => `${percent(share, 0)} of ${named(planeId)}`);
  const more = own.hides.length - hidden.length;
  return (
    <p>
      <b>{plain(own.cm2)}{'\u00a0'}cm²</b> of paint.{' '}
      {hidden.length > 0 ? `It hides ${listed([...hidden, ...(more > 0 ? [`some of ${counted(more, 'plane')} more`] : [])])}.` : 'It hides no paint behind it.'}
    </p>
  );
}

function paintsOf(scene: Scene, guides: readonly PlaneGuide[], { art, grids }: { readonly art: ReadonlyMap<string, ReadyArt>; readonly grids: ReadonlyMap<string, PaintGrid> }): PlanePaint[] {
  return scene.placements.flatMap((plane): PlanePaint[] => {
    if (plane.kind !== 'plane') return [];
    const ready = plane.art && art.get(plane.art.file);
    const paint = plane.art && grids.get(plane.art.file);
    return [{
      planeId: plane.id,
      atMm: plane.atMm,
      regions: [...guides.filter(({ planeId }) => planeId === plane.id).flatMap(({ fresh, feather }) => [fresh, feather]), paintLoops((scene.strokes ?? []).filter((stroke) => stroke.plane === plane.id))],
      ...(plane.art && ready && paint && { picture: { place: artInMold(plane.art, scene.cast), widthMm: plane.art.widthMm, heightMm: plane.art.widthMm * ready.highPerWide, paint } }),
    }];
  });
}

/** Which creatures are painted here: one may share a plane that is there anyway, or leave it. */
function OnIt({ file, plane }: { readonly file: SceneFile; readonly plane: PlaneFile }) {
  const edit = usePiece((state) => state.edit);
  const on = plane.slices ?? [];
  return creaturesOf(file).map(({ id, name = id }) => (
    <YesNo key={id} label={`${name} is painted on it`} value={on.includes(id)} onChange={(painted) => edit((before) => setSlices(before, plane.id, painted ? [...on, id] : on.filter((other) => other !== id)))} />
  ));
}

function CreatureLink({ file, id }: { readonly file: SceneFile; readonly id: string }) {
  const select = usePiece((state) => state.select);
  const name = creaturesOf(file).find((each) => each.id === id)?.name ?? id;
  return <button type="button" className="link" onClick={() => select([id])}>{name} and all its planes</button>;
}
