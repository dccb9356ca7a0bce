/** The edits behind the clip, the handles and the keys, on the mill pond. */
import { describe, expect, it } from 'vitest';
import type { EditResult, SceneFile } from '../../../src/core/scene/edit/file.ts';
import { thing } from '../../../src/core/scene/edit/things.ts';
import { dragEdit, setTargetHeight, snapTargetHeight, targetHeight, targetName } from '../../../src/screens/compose/hands.ts';
import { commandOf } from '../../../src/screens/compose/keys.ts';
import { demo } from './demo.ts';

const FREE = { suspended: true, pxPerMm: 4 };
const SNAPPING = { suspended: false, pxPerMm: 4 };

function file(result: EditResult): SceneFile {
  if (!result.ok) throw new Error(result.reason);
  return result.file;
}

const at = (scene: SceneFile, id: string) => thing(scene, id) as unknown as { xMm: number; yMm: number; baseMm: number; atMm: number; turnDeg: readonly number[] };

describe('the clip', () => {
  it('carries things and fills by their height', () => {
    expect(targetHeight(demo, { kind: 'thing', id: 'p2' })).toBe(44);
    expect(targetHeight(demo, { kind: 'line', at: 1 })).toBe(55);
    expect(targetHeight(demo, { kind: 'thing', id: 'gone' })).toBeNull();
    expect(targetName(demo, { kind: 'line', at: 0 })).toBe('Change of fill');
    expect(targetName(demo, { kind: 'line', at: 1 })).toBe('Top of the resin');
  });

  it('takes along what rests on a plane', () => {
    const moved = file(setTargetHeight(demo, { kind: 'thing', id: 'p2' }, 40));
    expect(at(moved, 'p2').atMm).toBe(40);
    expect(at(moved, 'f3').baseMm).toBe(40);
    expect(at(moved, 'f1').baseMm).toBe(20);
  });

  it('keeps the top between the highest plane and the rim', () => {
    expect(file(setTargetHeight(demo, { kind: 'line', at: 1 }, 10)).fillMm).toBe(44);
    expect(file(setTargetHeight(demo, { kind: 'line', at: 1 }, 99)).fillMm).toBe(60);
  });

  it('keeps a boundary between its neighbors', () => {
    const moved = file(setTargetHeight(demo, { kind: 'line', at: 0 }, 400));
    expect(moved.fills[0].toMm).toBeLessThan(moved.fills[1].toMm);
  });

  it('snaps to stops within 8 px of the finger, and not with the key down', () => {
    expect(snapTargetHeight(demo, { kind: 'thing', id: 'p1' }, 30.9, SNAPPING)).toEqual({ mm: 30, to: 'change of fill' });
    expect(snapTargetHeight(demo, { kind: 'thing', id: 'p1' }, 30.9, FREE)).toEqual({ mm: 30.9, to: null });
    expect(snapTargetHeight(demo, { kind: 'thing', id: 'p1' }, 36.2, SNAPPING)).toEqual({ mm: 36, to: null });
  });

  it('does not hold a boundary to where it is', () => {
    expect(snapTargetHeight(demo, { kind: 'line', at: 0 }, 30.3, { suspended: false, pxPerMm: 20 })).toEqual({ mm: 30, to: null });
  });
});

describe('the handles', () => {
  it('puts a slid body where the finger is, on its ground', () => {
    const moved = file(dragEdit(demo, { id: 'f2', xMm: -20.004, yMm: 3.337, baseMm: 5.1234 }, ['f2'], FREE));
    expect(at(moved, 'f2')).toMatchObject({ xMm: -20, yMm: 3.34, baseMm: 5.12 });
  });

  it('moves everything selected by the same amount', () => {
    const moved = file(dragEdit(demo, { id: 'f1', xMm: 18, yMm: -1 }, ['f1', 'f3'], FREE));
    expect(at(moved, 'f1')).toMatchObject({ xMm: 18, yMm: -1 });
    expect(at(moved, 'f3')).toMatchObject({ xMm: 76, yMm: 38 });
  });

  it('moves only what is dragged when that is not among the selected', () => {
    const moved = file(dragEdit(demo, { id: 'f1', xMm: 18, yMm: -1 }, ['f3'], FREE));
    expect(at(moved, 'f3')).toMatchObject({ xMm: 66, yMm: 33 });
  });

  it('snaps a slid body to the mold’s center line', () => {
    expect(at(file(dragEdit(demo, { id: 'f1', xMm: 1.4, yMm: 25 }, ['f1'], SNAPPING)), 'f1').xMm).toBe(0);
  });

  it('turns in whole degrees and keeps the tilt', () => {
    expect(at(file(dragEdit(demo, { id: 'f2', turnZDeg: 33.4 }, ['f2'], SNAPPING)), 'f2').turnDeg).toEqual([-1.41, -4.35, 33]);
    expect(at(file(dragEdit(demo, { id: 'f2', turnZDeg: 33.44 }, ['f2'], FREE)), 'f2').turnDeg[2]).toBe(33.4);
  });

  it('refuses what is no longer there, and what is locked', () => {
    expect(dragEdit(demo, { id: 'gone', xMm: 0, yMm: 0 }, [], FREE).ok).toBe(false);
    const locked: SceneFile = { ...demo, placements: demo.placements!.map((placement) => ({ ...placement, locked: true })) };
    expect(dragEdit(locked, { id: 'f1', xMm: 0, yMm: 0 }, ['f1'], FREE).ok).toBe(false);
  });
});

describe('the keys', () => {
  const press = (key: string, more: Partial<Parameters<typeof commandOf>[0]> = {}) => commandOf({ key, ctrlKey: false, metaKey: false, shiftKey: false, altKey: false, ...more });
  const done = (key: string, more = {}) => {
    const command = press(key, more);
    if (command?.kind !== 'edit') throw new Error(`${key} makes no edit`);
    return at(file(command.edit(demo, ['f1'])), 'f1');
  };

  it.each([['ArrowRight', {}, 9, -6], ['ArrowLeft', { shiftKey: true }, 3, -6], ['ArrowUp', {}, 8, -5], ['ArrowDown', { altKey: true }, 8, -6.1]] as const)('%s moves over the floor', (key, more, xMm, yMm) => {
    expect(done(key, more)).toMatchObject({ xMm, yMm });
  });

  it('Page Up raises, Page Down lowers, brackets turn', () => {
    expect(done('PageUp').baseMm).toBe(21);
    expect(done('PageDown', { shiftKey: true }).baseMm).toBe(15);
    expect(done('[').turnDeg[2]).toBe(13);
    expect(done(']').turnDeg[2]).toBe(11);
  });

  it('undoes and redoes with either command key', () => {
    expect(press('z', { ctrlKey: true })?.kind).toBe('undo');
    expect(press('Z', { metaKey: true, shiftKey: true })?.kind).toBe('redo');
    expect(press('d', { metaKey: true })?.kind).toBe('duplicate');
    expect(press('Delete')?.kind).toBe('remove');
  });

  it('leaves other keys alone', () => {
    for (const key of ['a', 'Tab', 'Enter', ' ', 'F5']) expect(press(key)).toBeNull();
    expect(press('p', { ctrlKey: true })).toBeNull();
  });
});
