/** Setting, moving, lining up and snapping, against positions worked out by hand. */
import { describe, expect, it } from 'vitest';
import type { Bounds } from '../../../../src/core/solid/solid.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import { putArt } from '../../../../src/core/scene/edit/art.ts';
import { align, spread } from '../../../../src/core/scene/edit/align.ts';
import type { AddResult, EditResult, PlacementFile, SceneFile } from '../../../../src/core/scene/edit/file.ts';
import { duplicate, remove, rename, setLocked } from '../../../../src/core/scene/edit/keep.ts';
import { raise, ridersOf, setHeight, setScale, shift, turn } from '../../../../src/core/scene/edit/move.ts';
import { addBed, addFigure, addPlane, planeHeight } from '../../../../src/core/scene/edit/place.ts';
import { heightTargets, placeTargets, snapHeight, snapPlace } from '../../../../src/core/scene/edit/snap.ts';
import { frozen, pond } from './made-files.ts';

const file = pond();
const NBSP = '\u00a0';

function okay<R extends EditResult | AddResult>(result: R): Extract<R, { ok: true }> {
  if (!result.ok) throw new Error(result.reason);
  return result as Extract<R, { ok: true }>;
}
function reason(result: EditResult | AddResult): string {
  if (result.ok) throw new Error(`expected a refusal, got “${result.label}”`);
  return result.reason;
}
const get = (scene: SceneFile, id: string) => scene.placements!.find((placement) => placement.id === id)! as PlacementFile & { baseMm?: number; atMm?: number; xMm?: number; yMm?: number };
const held = (scene: SceneFile, id: string) => {
  const reading = readScene(scene);
  if (!reading.ok) throw new Error('unreadable');
  const placement = reading.scene.placements.find((each) => each.id === id)!;
  return placement.kind === 'plane' ? null : placement.hold;
};

describe('setting things', () => {
  it('gives fresh ids above the highest, and names of their own', () => {
    const first = okay(addFigure(file, { shape: { type: 'library', name: 'pond-snail' } }));
    expect([first.ids, get(first.file, 'f2').name, first.label]).toEqual([['f2'], 'Pond snail', 'pond snail added']);
    const second = okay(addFigure(first.file, { shape: { type: 'library', name: 'pond-snail' } }));
    expect([second.ids, get(second.file, 'f3').name]).toEqual([['f3'], 'Pond snail 2']);
    expect(okay(addBed(file, { shape: { type: 'mesh', file: 'assets/grey_rock-01.stl' } })).file.placements!.at(-1)!.name).toBe('Grey rock 01');
  });
  it('leaves how a thing is held to the rule, until the person chooses', () => {
    const { file: added } = okay(addFigure(file, { shape: { type: 'sphere', radiusMm: 4 }, baseMm: 12 }));
    expect(held(added, 'f2')).toBe('rests');
    expect(held(okay(setHeight(added, 'f2', 0)).file, 'f2')).toBe('stands');
    const { file: chosen } = okay(addFigure(file, { shape: { type: 'sphere', radiusMm: 4 }, baseMm: 12, hold: 'rod' }));
    expect(held(okay(setHeight(chosen, 'f2', 0)).file, 'f2')).toBe('rod');
  });
  it('sets a plane half way in the widest gap, on a stop that is there where one is near the middle', () => {
    expect(planeHeight(file)).toBe(30); // 0–20 and 20–40 are as wide; the change of fill at 30 lies in the middle of the second
    expect(planeHeight({ ...file, fills: [{ toMm: 55, formula: 'general' }] })).toBe(10);
    expect(planeHeight({ ...file, placements: [] })).toBe(30); // 27.5 is the middle, 30 a stop
    expect(planeHeight({ ...file, placements: [], fillMm: 1, fills: [{ toMm: 1, formula: 'general' }] })).toBe(0.5);
  });
  it('sets it clear of what stands there, where there is room', () => {
    const bare = { ...file, placements: [] };
    const among = (...spans: [number, number][]) => planeHeight(bare, spans.map(([low, high]) => ({ low, high })));
    expect(among([0, 30], [31, 55])).toBe(30); // touches, cuts nothing
    expect(among([0, 33])).toBe(44); // the middle of 33 to 55
    expect(among([10, 34], [32, 50])).toBe(5); // 0–10 is wider than 50–55
    expect(among([0, 53])).toBe(30); // 2 mm are no room
    expect(planeHeight(file, [{ low: 25, high: 55 }])).toBe(10); // of 0–20, as wide as what it stands in, and 20–25
  });
  it('refuses a shape or a link that could not be opened', () => {
    expect(reason(addFigure(file, { shape: { type: 'sphere', radiusMm: -3 } }))).toMatch(/^Ball: found -3; expected a number above 0 mm/);
    expect(reason(addFigure(file, { shape: { type: 'mesh', file: '../up.stl' } }))).toMatch(/leads out of its folder/);
  });
});

describe('things as wholes', () => {
  it('copies beside the original, unlocked; a plane half way up to the next', () => {
    const locked = okay(setLocked(file, ['f1', 'p1'], true)).file;
    const { file: copied, ids, label } = okay(duplicate(locked, ['f1', 'p1']));
    expect(ids).toEqual(['p3', 'f2']);
    expect(get(copied, 'f2')).toMatchObject({ name: 'Newt 2', xMm: 20, yMm: 5, baseMm: 40 });
    expect(get(copied, 'f2').locked).toBeUndefined();
    expect(get(copied, 'p3').atMm).toBe(30);
    expect(label).toBe('lily shadows and newt copied');
  });
  it('takes out what is unlocked only', () => {
    const locked = okay(setLocked(file, ['f1'], true)).file;
    expect(okay(remove(locked, ['f1', 'p1'])).file.placements!.map((each) => each.id)).toEqual(['b1', 'f1', 'p2']);
    expect(reason(remove(locked, ['f1']))).toBe('Newt is locked. Unlock it first.');
    expect(okay(setLocked(locked, ['f1'], false)).file).toEqual(file);
  });
  it('renames, and refuses no name', () => {
    expect(get(okay(rename(file, 'f1', '  Great newt ')).file, 'f1').name).toBe('Great newt');
    expect(reason(rename(file, 'f1', '  '))).toMatch(/^Found no name/);
  });
});

describe('moving', () => {
  it('says what moved and by how much', () => {
    expect(okay(raise(file, ['f1'], -2)).label).toBe(`newt down 2${NBSP}mm`);
    expect(okay(raise(file, ['p1', 'f1'], 3)).label).toBe(`lily shadows and newt up 3${NBSP}mm`);
  });
  it('stops the whole group where one meets its limit', () => {
    const { file: raised } = okay(raise(file, ['p1', 'p2'], 100));
    expect([get(raised, 'p1').atMm, get(raised, 'p2').atMm]).toEqual([35, 55]);
    const { file: lowered } = okay(raise(file, ['p1', 'p2', 'b1'], -100));
    expect([get(lowered, 'p1').atMm, get(lowered, 'p2').atMm, get(lowered, 'b1').baseMm]).toEqual([0, 20, -20]);
    expect(reason(raise(raised, ['p2', 'p1'], 1))).toBe('Lily pads is at the top already. Fill higher to raise it.');
    expect(reason(raise(lowered, ['p1'], -1))).toBe('Lily shadows is on the floor already.');
  });
  it('takes along what rests on a plane only when asked', () => {
    expect(ridersOf(file, 'p2')).toEqual(['f1']);
    expect(get(okay(raise(file, ['p2'], 5, { riders: true })).file, 'f1').baseMm).toBe(45);
    expect(get(okay(raise(file, ['p2'], 5)).file, 'f1').baseMm).toBe(40);
  });
  it('leaves no noise of sums', () => {
    let next = okay(setHeight(file, 'p1', 0.1)).file;
    for (let i = 0; i < 9; i++) next = okay(raise(next, ['p1'], 0.1)).file;
    expect(get(next, 'p1').atMm).toBe(1);
    expect(get(okay(setHeight(file, 'p1', 25.4 / 64)).file, 'p1').atMm).toBe(0.396875);
  });
  it('moves over the floor, turns within half a turn either way, refuses no number', () => {
    const { file: moved } = okay(shift(file, ['f1'], 2.5, -1));
    expect(get(moved, 'f1')).toMatchObject({ xMm: 12.5, yMm: -6 });
    expect((get(okay(turn(file, ['f1'], 270)).file, 'f1') as { turnDeg?: unknown }).turnDeg).toEqual([0, 0, -90]);
    expect(reason(shift(file, ['f1'], NaN, 0))).toMatch(/^Found no number/);
    expect(reason(setScale(file, 'f1', 0))).toBe('Size: found 0; expected a number above 0, at most 1000.');
    expect(reason(shift(file, ['p1'], 1, 0))).toMatch(/covers the whole floor/);
  });
  it('shares what did not change', () => {
    const { file: moved } = okay(raise(file, ['f1'], 1));
    expect(moved.mold).toBe(file.mold);
    expect(moved.fills).toBe(file.fills);
    expect(moved.placements![0]).toBe(file.placements![0]);
  });
});

const box = (x: number, y: number, z: number, size: number): Bounds => ({ min: [x, y, z], max: [x + size, y + size, z + size] });
const three = frozen<SceneFile>({
  ...file,
  placements: ['a', 'b', 'c'].map((id, i) => ({ id, kind: 'figure', name: id.toUpperCase(), shape: { type: 'sphere', radiusMm: 5 }, xMm: i, yMm: i, baseMm: 10 * i })),
});
const bounds = new Map([['a', box(0, 0, 0, 10)], ['b', box(15, 5, 12, 4)], ['c', box(40, -20, 30, 20)]]);

describe('lining up and spreading', () => {
  it.each([
    ['left', 'xMm', [0, 1 - 15, 2 - 40]],
    ['right', 'xMm', [50, 1 + 41, 2]],
    ['center', 'xMm', [25, 1 + 13, 2 - 20]],
    ['front', 'yMm', [-20, 1 - 25, 2]],
    ['back', 'yMm', [0, 1 + 1, 2 + 10]],
    ['middle', 'yMm', [-10, 1 - 12, 2 + 5]],
  ] as const)('%s', (side, field, expected) => {
    const { file: lined } = okay(align(three, bounds, side));
    expect(lined.placements!.map((each) => (each as { xMm: number; yMm: number })[field])).toEqual(expected);
  });
  it('goes by what is locked', () => {
    const locked = okay(setLocked(three, ['b'], true)).file;
    expect(okay(align(locked, bounds, 'left')).file.placements!.map((each) => (each as { xMm: number }).xMm)).toEqual([15, 1, 2 - 25]);
  });
  it('leaves equal gaps', () => {
    // x: 10 … 40 holds 4 wide: gaps of 13, so b begins at 23. height: 10 … 30 holds 4: gaps of 8, so b begins at 18.
    expect(get(okay(spread(three, bounds, 'x')).file, 'b').xMm).toBe(1 + 8);
    expect(get(okay(spread(three, bounds, 'height')).file, 'b').baseMm).toBe(10 + 6);
    expect(reason(spread(three, new Map([...bounds, ['b', box(0, 0, 0, 35)]]), 'x'))).toMatch(/no room for equal gaps/);
    expect(reason(spread(three, new Map([...bounds].slice(1)), 'x'))).toMatch(/three or more/);
  });
});

describe('snapping', () => {
  const targets = heightTargets(file, ['p1']);
  const at = (mm: number, pxPerMm = 4) => snapHeight(mm, targets, { pxPerMm });
  it('to a stop, a boundary, half way, the same gap again', () => {
    expect(at(39)).toEqual({ mm: 40, to: 'Newt' });
    expect(at(30.5)).toEqual({ mm: 30, to: 'change of fill' });
    expect(at(21)).toEqual({ mm: 20, to: 'half way' });
    expect(at(24)).toEqual({ mm: 25, to: 'same gap again' }); // 40 to 55 is 15; 15 under 40
    expect(at(54)).toEqual({ mm: 55, to: 'top' });
  });
  it('within eight pixels, and on a whole millimeter beyond', () => {
    expect(at(35.7)).toEqual({ mm: 36, to: null });
    expect(at(31.9)).toEqual({ mm: 30, to: 'change of fill' });
    expect(at(32.1)).toEqual({ mm: 32, to: null });
    expect(at(30.5, 40)).toEqual({ mm: 31, to: null });
  });
  it('is suspended by a key', () => {
    expect(snapHeight(30.487, targets, { pxPerMm: 4, suspended: true })).toEqual({ mm: 30.49, to: null });
  });
  it('to the mold’s center and the centers of others, each way by itself', () => {
    expect(snapPlace(9, 0.6, placeTargets(file, ['p1']), { pxPerMm: 5 })).toEqual({ x: { mm: 10, to: 'Newt' }, y: { mm: 0, to: 'center' } });
    expect(snapPlace(9, 0.6, placeTargets(file, ['f1']), { pxPerMm: 5 }).x).toEqual({ mm: 9, to: null });
  });
});

describe('a plane of one’s own', () => {
  it('keeps within the resin', () => {
    expect(get(okay(addPlane(file, { atMm: 80 })).file, 'p3').atMm).toBe(55);
  });
  it('says that a picture came on it, by a name that needs no second “painted”', () => {
    const { file: added } = okay(addPlane(file));
    expect(okay(putArt(added, 'p3', { file: 'assets/a.svg', widthMm: 40 })).label).toBe('painted plane: picture put on');
  });
});
