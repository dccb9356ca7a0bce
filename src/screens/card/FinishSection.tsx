/** The finish: each face, edges, coat, warm rest, base, and the hours of it. Not planned until someone asks. */
import { isDefault } from '../../core/scene/edit/default.ts';
import type { FinishingFile, SceneFile } from '../../core/scene/edit/file.ts';
import { capital } from '../../core/units/format.ts';
import {
  BASE_CHOICES, clearFinishHours, FACE_CHOICES, faceOf, finishOf, HOUR_FIELDS, isCoated, leaveFinish, planFinish, setBase, setCoat, setEdge, setFace, setFinishCost, setFinishHours, setWarmRest,
  USUAL_FINISH, type FaceField,
} from '../../core/scene/edit/finishing.ts';
import { currencyOf } from '../../core/scene/edit/prices.ts';
import { usePiece } from '../shared/piece.ts';
import { CardSection, ManyField, YesNo } from './fields.tsx';
import { formulaChoices } from './formula-choices.ts';
import { PLACES } from './PieceParts.tsx';
import { QuantityField } from './QuantityField.tsx';

export function FinishSection({ file }: { readonly file: SceneFile }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const finish = finishOf(file);
  const currency = currencyOf(file);
  return (
    <CardSection title="Finish" place={PLACES.finish}>
      {finish === null ? (
        <>
          <p className="soft">Not planned: the sheet tells what is usual.</p>
          {!readOnly && <button type="button" className="link" onClick={() => edit(planFinish)}>Plan the finish: it comes into the calendar and the cost</button>}
        </>
      ) : (
        <>
          <Faces file={file} />
          {!file.mold.keep && <QuantityField label="Bevel of the edges" kind="length" usual={isDefault(file, 'finishing.edgeMm')} value={finish.edgeMm ?? USUAL_FINISH.edgeMm} onCommit={(mm) => edit((before) => setEdge(before, mm))} />}
          <ManyField label="Under it" usual={isDefault(file, 'finishing.base')} value={finish.base ?? 'none'} choices={BASE_CHOICES} onChoose={(base) => edit((before) => setBase(before, base))} />
          <WarmRest finish={finish} />
          <Hours finish={finish} />
          <QuantityField label={`Paper, polish, felt and so on${currency && `, ${currency}`}`} kind="number" usual={isDefault(file, 'finishing.cost')} value={finish.cost ?? USUAL_FINISH.cost} onCommit={(cost) => edit((before) => setFinishCost(before, cost))} />
          {!readOnly && <button type="button" className="link" onClick={() => edit(leaveFinish)}>Don’t plan the finish</button>}
        </>
      )}
    </CardSection>
  );
}

function Faces({ file }: { readonly file: SceneFile }) {
  const edit = usePiece((state) => state.edit);
  const shown = file.cast === 'face-down' ? 'bottom' : 'top';
  const faces: readonly FaceField[] = file.mold.keep ? ['top'] : ['top', 'sides', 'bottom'];
  const coat = { ...USUAL_FINISH.coat, ...file.finishing?.coat };
  return (
    <>
      {faces.map((face) => (
        <ManyField key={face} label={`${capital(face)}${face === shown ? ', the show face' : ''}`} usual={isDefault(file, `finishing.${face}`)} value={faceOf(file, face)} choices={FACE_CHOICES} onChoose={(finish) => edit((before) => setFace(before, face, finish))} />
      ))}
      {file.mold.keep && <p className="soft">The piece stays in its mold: only its top can be finished.</p>}
      {isCoated(file) && (
        <>
          <ManyField label="Coat of" usual={isDefault(file, 'finishing.coat.formula')} value={coat.formula} choices={formulaChoices(file)} onChoose={(formula) => edit((before) => setCoat(before, { formula }))} />
          <QuantityField label="Coat, thick" kind="length" usual={isDefault(file, 'finishing.coat.mm')} value={coat.mm} onCommit={(mm) => edit((before) => setCoat(before, { mm }))} />
        </>
      )}
    </>
  );
}

function WarmRest({ finish: { postCure } }: { readonly finish: FinishingFile }) {
  const edit = usePiece((state) => state.edit);
  return (
    <>
      <YesNo label="Warm rest, in its mold" value={postCure !== undefined} onChange={(warm) => edit((before) => setWarmRest(before, warm ? {} : null))} />
      {postCure && (
        <>
          <QuantityField label="As warm as" kind="temperature" value={postCure.temperatureC} onCommit={(temperatureC) => edit((before) => setWarmRest(before, { temperatureC }))} />
          <QuantityField label="For" kind="hours" value={postCure.hours} onCommit={(hours) => edit((before) => setWarmRest(before, { hours }))} />
          <QuantityField label="The most its label allows" kind="temperature" placeholder="not said" value={postCure.labelC ?? null} onCommit={(labelC) => edit((before) => setWarmRest(before, { labelC }))} />
        </>
      )}
    </>
  );
}

function Hours({ finish: { hours = {} } }: { readonly finish: FinishingFile }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  return (
    <>
      {HOUR_FIELDS.map(({ field, words }) => (
        <QuantityField key={field} label={capital(words)} kind="hours" placeholder="by rule" value={hours[field] ?? null} onCommit={(typed) => edit((before) => setFinishHours(before, field, typed))} />
      ))}
      {!readOnly && Object.keys(hours).length > 0 && <button type="button" className="link" onClick={() => edit(clearFinishHours)}>All hours by rule again</button>}
    </>
  );
}
