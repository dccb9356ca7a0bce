/** Where a figure or a bed is: up and deep, from the walls, how it is turned, how large, how it is held. */
import type { BedFile, FigureFile, SceneFile } from '../../core/scene/edit/file.ts';
import { setHold } from '../../core/scene/edit/hold.ts';
import { setPlaces, setScale, setTurn } from '../../core/scene/edit/move.ts';
import { heightOf, holdOf } from '../../core/scene/edit/things.ts';
import type { Hold } from '../../core/scene/scene.ts';
import { usePiece } from '../shared/piece.ts';
import { CardSection, ManyField } from './fields.tsx';
import { deepOf, fromWalls, HOLDS, intoMold } from './place-words.ts';
import { QuantityField } from './QuantityField.tsx';
import { typedHeight } from './typed-height.ts';

export function PlaceSection({ file, thing }: { readonly file: SceneFile; readonly thing: FigureFile | BedFile }) {
  const edit = usePiece((state) => state.edit);
  const up = heightOf(thing);
  const { leftMm, frontMm } = fromWalls(file, thing);
  const [tiltX, tiltY, turned] = thing.turnDeg ?? [0, 0, 0];
  const lowest = thing.kind === 'bed' ? 'Lowest point' : 'Feet';
  return (
    <CardSection title="Place">
      <p className="sentence">
        {lowest} <QuantityField inSentence strong label={`${lowest}, up from the floor`} kind="length" value={up} onCommit={(mm) => edit((before) => typedHeight(before, thing.id, mm))} /> up,{' '}
        <QuantityField inSentence strong label={`${lowest}, deep under the show face`} kind="length" value={deepOf(file, up)} onCommit={(mm) => edit((before) => typedHeight(before, thing.id, deepOf(before, mm)))} /> deep
      </p>
      <p className="sentence">
        From left <QuantityField inSentence label="From the left wall" kind="length" value={leftMm} onCommit={(mm) => edit((before) => setPlaces(before, new Map([[thing.id, intoMold(before, { leftMm: mm })]])))} />, from front{' '}
        <QuantityField inSentence label="From the front wall" kind="length" value={frontMm} onCommit={(mm) => edit((before) => setPlaces(before, new Map([[thing.id, intoMold(before, { frontMm: mm })]])))} />
      </p>
      <p className="sentence">
        Turned <QuantityField inSentence label="Turned" kind="angle" value={turned} onCommit={(deg) => edit((before) => setTurn(before, thing.id, [tiltX, tiltY, deg]))} />, at{' '}
        <QuantityField inSentence label="Size, percent of how it came" kind="percent" value={(thing.scale ?? 1) * 100} onCommit={(percent) => edit((before) => setScale(before, thing.id, percent / 100))} /> of its size
      </p>
      <p className="sentence">
        Tilted <QuantityField inSentence label="Tilted forward" kind="angle" value={tiltX} onCommit={(deg) => edit((before) => setTurn(before, thing.id, [deg, tiltY, turned]))} /> forward,{' '}
        <QuantityField inSentence label="Tilted sideways" kind="angle" value={tiltY} onCommit={(deg) => edit((before) => setTurn(before, thing.id, [tiltX, deg, turned]))} /> sideways
      </p>
      <ManyField<Hold> label="How it is held" value={holdOf(thing) ?? 'rests'} usual={thing.hold === undefined} choices={HOLDS} onChoose={(hold) => edit((before) => setHold(before, [thing.id], hold))} />
    </CardSection>
  );
}
