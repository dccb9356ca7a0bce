/** The card of a painted creature: where it is, its planes and how far apart, the look it is made for, and the way back to a figure. */
import { creature as creatureIn, removeCreature, setCreature, setInAgain, spacePlanes } from '../../core/scene/edit/creature.ts';
import type { AddResult, CreatureFile, EditResult, PlaneFile, SceneFile } from '../../core/scene/edit/file.ts';
import { nameOf } from '../../core/scene/edit/things.ts';
import { spacingAdvice } from '../../core/sight/advice.ts';
import { sideWords } from '../../core/sight/lamp-words.ts';
import { regionArea } from '../../core/sight/region.ts';
import { counted, plain } from '../../core/units/format.ts';
import { CardHead } from '../card/CardParts.tsx';
import { CardSection } from '../card/fields.tsx';
import { deepOf, fromWalls, intoMold } from '../card/place-words.ts';
import { QuantityField } from '../card/QuantityField.tsx';
import { typedHeight } from '../card/typed-height.ts';
import { useDerived, usePiece } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { ColorsToShow } from './ColorsToShow.tsx';
import { EyePart } from './EyePart.tsx';
import { HowMany } from './HowMany.tsx';
import { planesOn, setCount, stanceOf, USUAL_LOOK, wanted, type Stance } from './slicing.ts';
import './planes.css';

const MM2_PER_CM2 = 100;

export function CreatureCard({ file, creature }: { readonly file: SceneFile; readonly creature: CreatureFile }) {
  const edit = usePiece((state) => state.edit);
  const select = usePiece((state) => state.select);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const painted = usePiece((state) => state.painted);
  const { id } = creature;
  const planes = planesOn(file, id);
  const stance = stanceOf(painted, file, id);
  const why = painted?.creatures.find((each) => each.id === id)?.why ?? null;
  const up = creature.baseMm ?? 0;
  const { leftMm, frontMm } = fromWalls(file, creature);
  const [tiltX, tiltY, turned] = creature.turnDeg ?? [0, 0, 0];
  const change = (patch: Parameters<typeof setCreature>[2]): boolean => edit((before) => setCreature(before, id, patch));
  const setIn = (): void => {
    let ids: readonly string[] = [];
    const made = edit((before) => {
      const result = setInAgain(before, id);
      if (result.ok) ids = result.ids;
      return result;
    });
    if (made) select(ids);
  };
  return (
    <>
      <CardHead kind="Painted creature" name={creature.name ?? id} words={planes.length === 0 ? 'on no plane yet' : `painted on ${counted(planes.length, 'plane')}, not set in`} onName={(name) => change({ name })} />
      {why && <p role="alert" className="problem">{why}</p>}
      <CardSection title="Place">
        <p className="sentence">
          Lowest point <QuantityField inSentence strong label="Lowest point, up from the floor" kind="length" value={up} onCommit={(mm) => edit((before) => typedHeight(before, id, mm))} /> up,{' '}
          <QuantityField inSentence strong label="Lowest point, deep under the show face" kind="length" value={deepOf(file, up)} onCommit={(mm) => edit((before) => typedHeight(before, id, deepOf(before, mm)))} /> deep
        </p>
        <p className="sentence">
          From left <QuantityField inSentence label="From the left wall" kind="length" value={leftMm} onCommit={(mm) => change(intoMold(file, { leftMm: mm }))} />, from front{' '}
          <QuantityField inSentence label="From the front wall" kind="length" value={frontMm} onCommit={(mm) => change(intoMold(file, { frontMm: mm }))} />
        </p>
        <p className="sentence">
          Turned <QuantityField inSentence label="Turned" kind="angle" value={turned} onCommit={(deg) => change({ turnDeg: [tiltX, tiltY, deg] })} />, at{' '}
          <QuantityField inSentence label="Size, percent of how it came" kind="percent" value={(creature.scale ?? 1) * 100} onCommit={(percent) => change({ scale: percent / 100 })} /> of its size
        </p>
      </CardSection>
      <CardSection title="Planes">
        {stance ? <Spacing creature={creature} planes={planes} stance={stance} /> : why === null && <p className="soft">It is being cut …</p>}
        <PlaneList planes={planes} creatureId={id} />
        {stance && !readOnly && <HowMany file={file} creatureId={id} stance={stance} />}
      </CardSection>
      <CardSection title="How it is looked at">
        <p className="sentence">
          Up to <QuantityField inSentence label="Looked at, off straight" kind="angle" usual={creature.viewDeg === undefined} value={seenAs(painted?.scene.creatures, creature).viewDeg} onCommit={(viewDeg) => change({ viewDeg })} /> from the side no step is to show. Paint fades out over{' '}
          <QuantityField inSentence label="Feather" kind="length" usual={creature.featherMm === undefined} value={seenAs(painted?.scene.creatures, creature).featherMm} onCommit={(featherMm) => change({ featherMm })} />.
        </p>
        <EyePart file={file} creature={creature} stance={stance} />
        <ColorsToShow file={file} id={id} name={creature.name ?? id} />
      </CardSection>
      {!readOnly && (
        <p className="card-actions">
          <button type="button" className="link" onClick={setIn}>Set it in as a figure again</button>
          <button type="button" className="link" onClick={() => { if (edit((before) => removeCreature(before, id))) select([]); }}>Take out</button>
        </p>
      )}
    </>
  );
}

/** What the scene was read with, where the file says nothing. */
function seenAs(read: readonly { readonly id: string; readonly featherMm: number; readonly viewDeg: number }[] | undefined, { id, featherMm, viewDeg }: CreatureFile) {
  const known = read?.find((each) => each.id === id);
  return { featherMm: featherMm ?? known?.featherMm ?? USUAL_LOOK.featherMm, viewDeg: viewDeg ?? known?.viewDeg ?? USUAL_LOOK.viewDeg };
}

function Spacing({ creature, planes, stance }: { readonly creature: CreatureFile; readonly planes: readonly PlaneFile[]; readonly stance: Stance }) {
  const edit = usePiece((state) => state.edit);
  const painted = usePiece((state) => state.painted);
  const { scene } = useDerived();
  const { planned } = useWords();
  const heights = planes.map(({ atMm }) => atMm);
  const [low, high] = [Math.min(...heights), Math.max(...heights)];
  const gapMm = planes.length > 1 ? (high - low) / (planes.length - 1) : null;
  const cut = (make: (before: SceneFile) => AddResult): boolean => edit((before): EditResult => (creatureIn(before, creature.id) ? make(before) : { ok: false, reason: 'That creature is no longer there.' }));
  return (
    <>
      <p className="sentence">
        On <QuantityField inSentence strong label="Number of planes" kind="number" value={planes.length} onCommit={(count) => cut((before) => setCount(before, creature.id, { scene, stance, count }))} /> {planes.length === 1 ? 'plane' : 'planes'},{' '}
        <QuantityField inSentence strong label="Planes apart" kind="length" value={gapMm === null ? null : Math.round(gapMm * 100) / 100} placeholder="type a gap" onCommit={(mm) => cut((before) => spacePlanes(before, creature.id, wanted(scene, stance, mm)))} /> apart
      </p>
      {gapMm !== null && <p className="soft">{planned(spacingAdvice(scene, seenAs(painted?.scene.creatures, creature), { gapMm, fromMm: low, toMm: high }).words)}</p>}
    </>
  );
}

/** In painting order; how much of each is painted, and what shows bare from the side. */
function PlaneList({ planes, creatureId }: { readonly planes: readonly PlaneFile[]; readonly creatureId: string }) {
  const select = usePiece((state) => state.select);
  const guides = usePiece((state) => state.painted?.guides);
  const { length } = useWords();
  return (
    <ol className="creature-planes">
      {planes.map((plane) => {
        const guide = guides?.find((each) => each.planeId === plane.id && each.creatureId === creatureId);
        return (
          <li key={plane.id}>
            <button type="button" className="link" onClick={() => select([plane.id])}><i>{nameOf(plane)}</i></button>
            <span className="soft">{length(plane.atMm)} up{guide && `, ${plain(regionArea(guide.fresh) / MM2_PER_CM2)}\u00a0cm²`}{guide?.bare && `, ${plain(guide.bare.areaMm2 / MM2_PER_CM2, 2)}\u00a0cm² bare from the ${sideWords(guide.bare.towardDeg)}`}</span>
          </li>
        );
      })}
    </ol>
  );
}
