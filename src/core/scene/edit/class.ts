/** A class that makes the piece: when, how long, how many, how old, and what each student does with their own hands. */
import { plain } from '../../units/format.ts';
import { LEAST_AGE } from '../read-class.ts';
import { STUDENT_THINGS } from './class-things.ts';
import { done, refused, type EditResult, type SceneFile } from './file.ts';
import { patched, type Patch } from './replace.ts';
import { nameOf, spoken, thing, thingsOf } from './things.ts';

export type ClassFile = NonNullable<SceneFile['class']>;
type Does = NonNullable<ClassFile['perStudent']>;

/** What a class begins with until someone types it (common practice, no source). */
const FIRST_CLASS = { students: 6, hours: 2 } as const;
const NO_RESIN = `nobody under ${LEAST_AGE} mixes resin or touches it before it has cured`;

export function classOf(file: SceneFile): ClassFile | null {
  return file.class ?? null;
}

/** Years; `LEAST_AGE` until someone types it. */
export function youngestOf(file: SceneFile): number {
  return file.class?.youngest ?? LEAST_AGE;
}

/** When they meet, like `2026-05-16T10:00`; the first time a class is planned with it. Null: no class. */
export function setClassAt(file: SceneFile, at: string | null): EditResult {
  if (at === null) return done(patched(file, { class: undefined }), 'no class', 'class');
  if (file.class) return withClass(file, { at }, `class on ${at.replace('T', ' ')}`, 'when they meet');
  return done(patched(file, { class: { students: file.copies ?? FIRST_CLASS.students, at, hours: FIRST_CLASS.hours } }), `class on ${at.replace('T', ' ')}`, 'when they meet');
}

export function setClassHours(file: SceneFile, hours: number): EditResult {
  return withClass(file, { hours }, `class of ${plain(hours, 2)}\u00a0h`, 'how long');
}

/** There is a piece for every student, so copies that were asked for follow. */
export function setStudents(file: SceneFile, students: number): EditResult {
  const follows = file.copies === undefined ? file : patched(file, { copies: students });
  return withClass(follows, { students }, `class of ${plain(students, 2)}`, 'students');
}

export function setYoungest(file: SceneFile, youngest: number): EditResult {
  if (youngest < LEAST_AGE && file.class?.perStudent?.pour) return refused(`Youngest: found ${plain(youngest, 1)} in a class that pours; expected ${LEAST_AGE} or more: ${NO_RESIN}. Let the teacher pour first.`);
  return withClass(file, { youngest }, `the youngest ${plain(youngest, 1)}`, 'youngest');
}

/** Whether each student mixes and pours a cup of their own. */
export function setStudentsPour(file: SceneFile, pour: boolean): EditResult {
  const youngest = youngestOf(file);
  if (pour && youngest < LEAST_AGE) return refused(`The youngest is ${plain(youngest, 1)}: ${NO_RESIN}. The teacher pours.`);
  return withHands(file, { pour: pour ? true : undefined }, pour ? 'students pour' : 'the teacher pours');
}

/** Planes that can be painted, or figures that can be set, with whether it is the students’ work. */
export function studentWork(file: SceneFile, does: 'paint' | 'set'): readonly { readonly id: string; readonly name: string; readonly theirs: boolean }[] {
  const ids = file.class?.perStudent?.[does];
  return thingsOf(file).filter(({ kind }) => kind === STUDENT_THINGS[does]).map((one) => ({ id: one.id, name: nameOf(one), theirs: ids === undefined || ids.includes(one.id) }));
}

/** Named while not all are theirs: what is set in later is then the students’ as well. */
export function setStudentWork(file: SceneFile, does: 'paint' | 'set', { id, theirs }: { readonly id: string; readonly theirs: boolean }): EditResult {
  const found = thing(file, id);
  if (!found || found.kind !== STUDENT_THINGS[does]) return refused('That thing is no longer there.');
  const all = studentWork(file, does);
  const ids = all.filter((one) => (one.id === id ? theirs : one.theirs)).map((one) => one.id);
  const whose = theirs ? 'for the students' : 'for the teacher';
  return withHands(file, { [does]: ids.length === all.length ? undefined : ids }, `${spoken(nameOf(found))} ${whose}`);
}

function withHands(file: SceneFile, patch: Patch<Does>, label: string): EditResult {
  const hands = patched(file.class?.perStudent ?? {}, patch);
  return withClass(file, { perStudent: Object.keys(hands).length > 0 ? hands : undefined }, label, 'what each student does');
}

function withClass(file: SceneFile, patch: Patch<ClassFile>, label: string, subject: string): EditResult {
  if (!file.class) return refused('There is no class any more. Say when it meets first.');
  return done(patched(file, { class: patched(file.class, patch) }), label, subject);
}
