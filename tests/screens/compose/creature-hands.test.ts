/** Painted creatures by hand, clip, key and typed height: their planes go along, and come back with undo's document. */
import { describe, expect, it } from 'vitest';
import { creature } from '../../../src/core/scene/edit/creature.ts';
import type { EditResult, SceneFile } from '../../../src/core/scene/edit/file.ts';
import { thingsOf } from '../../../src/core/scene/edit/things.ts';
import { typedHeight } from '../../../src/screens/card/typed-height.ts';
import { dragEdit, setTargetHeight, snapTargetHeight, targetHeight, targetName } from '../../../src/screens/compose/hands.ts';
import { commandOf } from '../../../src/screens/compose/keys.ts';
import { removeSelected } from '../../../src/screens/compose/selected-edits.ts';
import { demo } from './demo.ts';

const plane = (id: string, atMm: number) => ({ id, kind: 'plane' as const, name: `Koi ${id}`, atMm, slices: ['c1'] });
const file: SceneFile = {
  ...demo,
  placements: [...thingsOf(demo), plane('p8', 30), plane('p9', 36)],
  creatures: [{ id: 'c1', name: 'Koi', shape: { type: 'ellipsoid', lengthMm: 40, widthMm: 20, heightMm: 12 }, xMm: 10, baseMm: 27 }],
};

function made(result: EditResult): SceneFile {
  if (!result.ok) throw new Error(result.reason);
  return result.file;
}
const heights = (of: SceneFile) => thingsOf(of).flatMap((each) => (each.kind === 'plane' && each.slices ? [each.atMm] : []));
const koi = (of: SceneFile) => creature(of, 'c1')!;
const KEYS = { ctrlKey: false, metaKey: false, shiftKey: false, altKey: false };
const pressed = (key: string, ids: readonly string[] = ['c1'], of = file): SceneFile => {
  const command = commandOf({ ...KEYS, key });
  if (command?.kind !== 'edit') throw new Error(`${key} is no edit`);
  return made(command.edit(of, ids));
};

describe('a painted creature', () => {
  it('carries the clip at its lowest point, and its planes along', () => {
    const target = { kind: 'thing', id: 'c1' } as const;
    expect([targetHeight(file, target), targetName(file, target)]).toEqual([27, 'Koi']);
    const moved = made(setTargetHeight(file, target, 30));
    expect([koi(moved).baseMm, ...heights(moved)]).toEqual([30, 33, 39]);
    const result = setTargetHeight(file, target, 30);
    expect(result.ok && result.label).toBe('koi at 30\u00a0mm');
  });

  it('is stopped where a plane meets the top, and says so where it can go no farther', () => {
    const top = made(setTargetHeight(file, { kind: 'thing', id: 'c1' }, 500));
    expect(heights(top)).toEqual([49, 55]);
    expect(typedHeight(top, 'c1', 90)).toMatchObject({ ok: false, reason: expect.stringContaining('Fill higher') });
    expect(heights(made(typedHeight(file, 'c1', 25)))).toEqual([28, 34]);
  });

  it('is moved, turned and raised by keys', () => {
    expect(koi(pressed('ArrowRight')).xMm).toBe(11);
    expect(koi(pressed('ArrowUp')).yMm).toBe(1);
    expect(koi(pressed('[')).turnDeg).toEqual([0, 0, 1]);
    expect([koi(pressed('PageUp')).baseMm, ...heights(pressed('PageUp'))]).toEqual([28, 31, 37]);
  });

  it('selected with its planes and a figure, each moves once', () => {
    const both = pressed('PageUp', ['c1', 'p8', 'p9', 'f1']);
    expect([koi(both).baseMm, ...heights(both)]).toEqual([28, 31, 37]);
    const base = (of: SceneFile) => thingsOf(of).flatMap((each) => (each.id === 'f1' && each.kind === 'figure' ? [each.baseMm ?? 0] : []))[0];
    expect(base(both)).toBe(base(file) + 1);
  });

  it('is slid, raised and turned by hand, alone or with what else is selected', () => {
    const freely = { suspended: true, pxPerMm: 3 };
    const slid = dragEdit(file, { id: 'c1', xMm: 41.3, yMm: -17.6 }, ['c1'], freely);
    expect(slid.ok && slid.label).toBe('koi moved');
    expect(koi(made(slid))).toEqual({ ...koi(file), xMm: 41.3, yMm: -17.6 });
    const raised = made(dragEdit(file, { id: 'c1', baseMm: 30 }, ['c1'], freely));
    expect([koi(raised).baseMm, ...heights(raised)]).toEqual([30, 33, 39]);
    const tilted = { ...file, creatures: [{ ...koi(file), turnDeg: [20, 5, 10] as const }] };
    expect(koi(made(dragEdit(tilted, { id: 'c1', turnZDeg: 42.4 }, [], { pxPerMm: 3 }))).turnDeg).toEqual([20, 5, 42]);

    const figure = (of: SceneFile) => thingsOf(of).flatMap((each) => (each.id === 'f1' && each.kind === 'figure' ? [each] : []))[0];
    const both = made(dragEdit(file, { id: 'c1', xMm: 15, yMm: 4 }, ['f1', 'c1'], freely));
    expect([koi(both).xMm, koi(both).yMm]).toEqual([15, 4]);
    expect([figure(both).xMm! - (figure(file).xMm ?? 0), figure(both).yMm! - (figure(file).yMm ?? 0)]).toEqual([expect.closeTo(5, 9), expect.closeTo(4, 9)]);
    expect(koi(made(dragEdit(file, { id: 'f1', xMm: (figure(file).xMm ?? 0) + 5, yMm: figure(file).yMm ?? 0 }, ['c1', 'f1'], freely))).xMm).toBeCloseTo(15, 9);
    expect(dragEdit(file, { id: 'c7', xMm: 1, yMm: 1 }, [], freely).ok).toBe(false);
  });

  it('does not snap to its own planes, which go with it', () => {
    const height = snapTargetHeight(file, { kind: 'thing', id: 'c1' }, 29.9, { pxPerMm: 100 });
    expect(height.to).not.toBe('Koi p8');
    expect(snapTargetHeight(file, { kind: 'thing', id: 'f1' }, 29.99, { pxPerMm: 100 }).to).toBe('Koi p8');
  });

  it('is taken out with its own planes', () => {
    const without = made(removeSelected(file, ['c1']));
    expect([without.creatures, heights(without), thingsOf(without).length]).toEqual([undefined, [], thingsOf(demo).length]);
  });
});
