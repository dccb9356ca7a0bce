/** A class as it is edited. What reading refuses is read-class.ts’s; the age is the trade’s, as there (from memory). */
import { describe, expect, it } from 'vitest';
import { classOf, setClassAt, setClassHours, setStudents, setStudentsPour, setStudentWork, setYoungest, studentWork } from '../../../../src/core/scene/edit/class.ts';
import { paintFigure } from '../../../../src/core/scene/edit/creature.ts';
import type { EditResult, SceneFile } from '../../../../src/core/scene/edit/file.ts';
import { remove } from '../../../../src/core/scene/edit/keep.ts';
import { copiesOf, setCopies } from '../../../../src/core/scene/edit/wishes.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import type { ClassMeeting } from '../../../../src/core/scene/scene.ts';
import { frozen, pond } from './made-files.ts';

function made(result: EditResult): SceneFile {
  if (!result.ok) throw new Error(result.reason);
  return frozen(result.file);
}

function read(file: SceneFile): ClassMeeting | undefined {
  const reading = readScene(JSON.parse(JSON.stringify(file)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.scene.class;
}

const AT = '2026-05-16T10:00';
const taught = made(setClassAt(pond(), AT));

describe('a class as it is edited', () => {
  it('is none until someone says when it meets, and leaves no trace when it is given up', () => {
    expect(classOf(pond())).toBeNull();
    expect(read(taught)).toMatchObject({ students: 6, hours: 2, youngest: 18, paint: null, set: null, pour: false });
    expect(made(setClassAt(taught, null))).toEqual(pond());
    expect(setClassHours(pond(), 3)).toMatchObject({ ok: false, reason: expect.stringContaining('Say when it meets first') });
    expect(setClassAt(pond(), 'May')).toMatchObject({ ok: false, reason: expect.stringMatching(/^When they meet: found/) });
  });

  it('has a piece for every student', () => {
    expect(read(made(setStudents(taught, 8)))!.students).toBe(8);
    const copied = made(setClassAt(made(setCopies(pond(), 4)), AT));
    expect(copied).toMatchObject({ copies: 4, class: { students: 4 } });
    expect(made(setStudents(copied, 9))).toMatchObject({ copies: 9, class: { students: 9 } });
    expect(copiesOf(taught)).toBe(6);
    expect(setCopies(taught, 5)).toEqual({ ok: false, reason: 'Copies: found 5 with a class of 6; expected 6, a piece for every student. Change how many students there are.' });
    expect(setStudents(taught, 2.5)).toEqual({ ok: false, reason: 'Students: found 2.5; expected a whole number from 1 to 100.' });
  });

  it('lets nobody under 18 pour, whichever is said first', () => {
    const pours = made(setStudentsPour(taught, true));
    expect(read(pours)!.pour).toBe(true);
    expect(setYoungest(pours, 12)).toMatchObject({ ok: false, reason: expect.stringContaining('nobody under 18 mixes resin') });
    const young = made(setYoungest(taught, 12));
    expect(setStudentsPour(young, true)).toEqual({ ok: false, reason: 'The youngest is 12: nobody under 18 mixes resin or touches it before it has cured. The teacher pours.' });
    expect(made(setStudentsPour(pours, false))).toEqual(taught);
  });

  it('says thing by thing what is the students’, and all of it again without a list', () => {
    const one = made(setStudentWork(taught, 'paint', { id: 'p1', theirs: false }));
    expect(studentWork(one, 'paint')).toEqual([{ id: 'p1', name: 'Lily shadows', theirs: false }, { id: 'p2', name: 'Lily pads', theirs: true }]);
    expect(read(one)).toMatchObject({ paint: ['p2'], set: null });
    expect(made(setStudentWork(one, 'paint', { id: 'p1', theirs: true }))).toEqual(taught);
    expect(read(made(setStudentWork(taught, 'set', { id: 'f1', theirs: false })))!.set).toEqual([]);
    expect(setStudentWork(taught, 'paint', { id: 'f1', theirs: true })).toMatchObject({ ok: false });
  });

  it('forgets what is taken out of the piece, by whatever edit', () => {
    const named = made(setStudentWork(taught, 'paint', { id: 'p1', theirs: false }));
    expect(read(made(remove(named, ['p2'])))!.paint).toEqual([]);
    const figure = frozen<SceneFile>({ ...taught, class: { ...taught.class!, perStudent: { set: ['f1'] } } });
    expect(read(made(paintFigure(figure, 'f1', { gapMm: 4, tallMm: 8, minDepthMm: 3 })))!.set).toEqual([]);
  });
});
