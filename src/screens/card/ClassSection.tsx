/** A class that makes the piece, closed until there is one: when, how long, how many, the youngest, and what each student does. */
import { LEAST_AGE } from '../../core/scene/read-class.ts';
import { classOf, setClassAt, setClassHours, setStudents, setStudentsPour, setStudentWork, setYoungest, studentWork, youngestOf } from '../../core/scene/edit/class.ts';
import { isDefault } from '../../core/scene/edit/default.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { usePiece } from '../shared/piece.ts';
import { TextField, YesNo } from './fields.tsx';
import { PLACES } from './PieceParts.tsx';
import { QuantityField } from './QuantityField.tsx';

export function ClassSection({ file }: { readonly file: SceneFile }) {
  const edit = usePiece((state) => state.edit);
  const meeting = classOf(file);
  return (
    <details className="card-section" id={PLACES.class} open={meeting !== null}>
      <summary>A class</summary>
      <TextField labelSeen type="datetime-local" label="They meet" value={meeting?.at.slice(0, 16) ?? ''} onCommit={(at) => edit((before) => setClassAt(before, at === '' ? null : at))} />
      {meeting === null ? <p className="soft">Every student makes the piece. You pour before and after; what is ready by then is theirs to do.</p> : <Meeting file={file} hours={meeting.hours} students={meeting.students} />}
    </details>
  );
}

function Meeting({ file, hours, students }: { readonly file: SceneFile; readonly hours: number; readonly students: number }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const pours = classOf(file)?.perStudent?.pour ?? false;
  const young = youngestOf(file) < LEAST_AGE;
  return (
    <>
      <QuantityField label="It lasts" kind="hours" value={hours} onCommit={(value) => edit((before) => setClassHours(before, value))} />
      <QuantityField label="Students, a piece for each" kind="number" value={students} onCommit={(value) => edit((before) => setStudents(before, value))} />
      <QuantityField label="The youngest, years" kind="number" usual={isDefault(file, 'class.youngest')} value={youngestOf(file)} onCommit={(value) => edit((before) => setYoungest(before, value))} />
      <StudentWork file={file} does="paint" title="Each student paints" />
      <StudentWork file={file} does="set" title="Each student sets in place" />
      {young && !pours ? <p className="soft">Nobody under {LEAST_AGE} mixes resin or touches it before it has cured: you pour.</p> : <YesNo label="Each student mixes and pours a cup of their own" value={pours} onChange={(pour) => edit((before) => setStudentsPour(before, pour))} />}
      {!readOnly && <button type="button" className="link" onClick={() => edit((before) => setClassAt(before, null))}>No class</button>}
    </>
  );
}

function StudentWork({ file, does, title }: { readonly file: SceneFile; readonly does: 'paint' | 'set'; readonly title: string }) {
  const edit = usePiece((state) => state.edit);
  const things = studentWork(file, does);
  if (things.length === 0) return null;
  return (
    <div role="group" aria-label={title}>
      <p className="quantity-label">{title}</p>
      {things.map(({ id, name, theirs }) => <YesNo key={id} label={name} value={theirs} onChange={(now) => edit((before) => setStudentWork(before, does, { id, theirs: now }))} />)}
    </div>
  );
}
