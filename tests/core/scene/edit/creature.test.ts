/** Painting a figure on planes and back: what the person's file holds after each edit. */
import { describe, expect, it } from 'vitest';
import { creature, creaturesOf, paintFigure, raiseCreatures, removeCreature, setCreature, setInAgain, setPlanes, setSlices, spacePlanes } from '../../../../src/core/scene/edit/creature.ts';
import type { EditResult, SceneFile } from '../../../../src/core/scene/edit/file.ts';
import { addPlane } from '../../../../src/core/scene/edit/place.ts';
import { setLocked } from '../../../../src/core/scene/edit/keep.ts';
import { thing, thingsOf } from '../../../../src/core/scene/edit/things.ts';
import { turnOf } from '../../../../src/core/solid/shape-turn.ts';
import { duplicate, remove } from '../../../../src/core/scene/edit/keep.ts';
import { setHeight } from '../../../../src/core/scene/edit/move.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import { mulberry32 } from '../../../plan/random-scenes.ts';
import { frozen, MARK, pond, randomFile } from './made-files.ts';

/** The newt of the pond is 5 mm tall at 40; this one 14 mm at 22, with all that a figure may say. */
const newt = { id: 'f1', kind: 'figure' as const, name: 'Newt', shape: { type: 'box' as const, lengthMm: 30, widthMm: 10, heightMm: 14 }, xMm: 10, yMm: -5, baseMm: 22, turnDeg: [10, 20, 30] as const, scale: 1, massG: 20, hold: 'rod' as const, note: 'mine' };
const tank = (more: Partial<SceneFile> = {}) => pond({ placements: [{ id: 'p1', kind: 'plane', name: 'Lily shadows', atMm: 10 }, newt], ...more });
const wanted = { gapMm: 4, tallMm: 14, minDepthMm: 3 };

function ok<R extends EditResult>(result: R): Extract<R, { ok: true }> {
  if (!result.ok) throw new Error(result.reason);
  frozen(result.file);
  return result as Extract<R, { ok: true }>;
}
const planes = (file: SceneFile) => thingsOf(file).flatMap((placement) => (placement.kind === 'plane' ? [[placement.id, placement.name, placement.atMm, placement.slices]] : []));
const painted = (file = tank()) => ok(paintFigure(file, 'f1', wanted));

describe('painting a figure', () => {
  it('takes it out of the resin and puts planes through it, named after it', () => {
    const { file, ids, label } = painted();
    expect(ids).toEqual(['c1', 'p2', 'p3', 'p4', 'p5']);
    expect(planes(file)).toEqual([
      ['p1', 'Lily shadows', 10, undefined],
      // 14 mm by 4: four planes, 2 mm left over, half of it below. The third goes onto the change of fill at 30, instead of 1 mm over it.
      ['p2', 'Newt 1', 23, ['c1']], ['p3', 'Newt 2', 27, ['c1']], ['p4', 'Newt 3', 30, ['c1']], ['p5', 'Newt 4', 35, ['c1']],
    ]);
    expect(thing(file, 'f1')).toBeUndefined();
    expect(label).toBe('newt painted on 4 planes');
  });

  it('and set in again it is as it was, fields of nobody’s too', () => {
    const { file } = ok(setInAgain(painted().file, 'c1'));
    expect(file).toEqual(tank());
  });

  it('turned over it lies on its back: half a turn about x after its own turns', () => {
    const { file } = ok(paintFigure(tank(), 'f1', { ...wanted, turnOver: true }));
    const before = turnOf([10, 20, 30]);
    const after = turnOf([...creature(file, 'c1')!.turnDeg!]);
    before.forEach((value, i) => expect(after[i]).toBeCloseTo(i < 3 ? value : -value, 12));
  });

  it('takes a plane that stands at the right height already', () => {
    const { file } = painted(tank({ placements: [{ id: 'p1', kind: 'plane', name: 'Weeds', atMm: 27.04 }, newt] }));
    expect(planes(file)).toContainEqual(['p1', 'Weeds', 27.04, ['c1']]);
    expect(planes(file).length).toBe(4);
    expect(ok(setInAgain(file, 'c1')).file.placements![0]).toEqual({ id: 'p1', kind: 'plane', name: 'Weeds', atMm: 27.04 });
  });

  it('refuses beds, locked figures, no gap, and one out of the resin', () => {
    expect(paintFigure(pond(), 'b1', wanted)).toMatchObject({ ok: false, reason: 'Only a figure can be painted on planes. Choose one.' });
    expect(paintFigure(ok(setLocked(tank(), ['f1'], true)).file, 'f1', wanted)).toMatchObject({ ok: false, reason: 'Newt is locked. Unlock it first.' });
    expect(paintFigure(tank(), 'f1', { ...wanted, gapMm: 0 })).toMatchObject({ ok: false, reason: 'Found 0; expected a gap above 0 mm between planes.' });
    expect(paintFigure(tank({ placements: [{ ...newt, baseMm: 80 }] }), 'f1', wanted)).toMatchObject({ ok: false, reason: 'Newt lies outside the resin. Move it between the floor and 55\u00a0mm up.' });
    expect(paintFigure(tank(), 'f1', { ...wanted, gapMm: 0.01 })).toMatchObject({ ok: false });
  });
});

describe('its planes', () => {
  it('wider apart, the first keep their names and times and the rest go', () => {
    const from = painted().file;
    const timed = { ...from, placements: thingsOf(from).map((each) => (each.id === 'p2' ? { ...each, paintH: 6 } : each)) };
    const { file, label } = ok(spacePlanes(timed, 'c1', { ...wanted, gapMm: 7 }));
    expect(planes(file).slice(1)).toEqual([['p2', 'Newt 1', 26, ['c1']], ['p3', 'Newt 2', 33, ['c1']]]); // ½ mm up, 3 mm over the change of fill
    expect(thing(file, 'p2')).toMatchObject({ paintH: 6 });
    expect(label).toBe('newt on 2 planes, 7\u00a0mm apart');
    expect(planes(ok(spacePlanes(file, 'c1', wanted)).file).map(([, name]) => name)).toEqual(['Lily shadows', 'Newt 1', 'Newt 2', 'Newt 3', 'Newt 4']);
  });

  it('at heights of one’s own', () => {
    expect(planes(ok(setPlanes(painted().file, 'c1', [30, 24])).file).slice(1)).toEqual([['p2', 'Newt 1', 24, ['c1']], ['p3', 'Newt 2', 30, ['c1']]]);
    expect(setPlanes(painted().file, 'c1', [Number.NaN])).toMatchObject({ ok: false });
    expect(setPlanes(painted().file, 'c1', [90])).toMatchObject({ ok: false });
  });

  it('a plane with art stays when the creature leaves it', () => {
    const art = { ...painted().file, placements: thingsOf(painted().file).map((each) => (each.id === 'p3' ? { ...each, art: { file: 'assets/weed.svg', widthMm: 40 } } : each)) };
    expect(planes(ok(removeCreature(art, 'c1')).file)).toEqual([['p1', 'Lily shadows', 10, undefined], ['p3', 'Newt 2', 27, undefined]]);
    expect(ok(removeCreature(art, 'c1')).file.creatures).toBeUndefined();
  });

  it('of one’s choice: a creature on a plane, and off it', () => {
    const on = ok(setSlices(painted().file, 'p1', ['c1'])).file;
    expect(thing(on, 'p1')).toMatchObject({ slices: ['c1'], stays: true });
    expect(planes(ok(removeCreature(on, 'c1')).file)).toEqual([['p1', 'Lily shadows', 10, undefined]]);
    expect(thing(ok(setSlices(on, 'p1', [])).file, 'p1')).toEqual({ id: 'p1', kind: 'plane', name: 'Lily shadows', atMm: 10 });
    expect(setSlices(on, 'p1', ['c9'])).toMatchObject({ ok: false });
  });
});

describe('moving it', () => {
  it('up and down its planes go with it, until one meets the top or the floor', () => {
    const up = ok(raiseCreatures(painted().file, ['c1'], 3));
    expect(planes(up.file).map(([, , at]) => at)).toEqual([10, 26, 30, 33, 38]);
    expect([creature(up.file, 'c1')!.baseMm, up.label]).toEqual([25, 'newt up 3\u00a0mm']);
    expect(planes(ok(raiseCreatures(up.file, ['c1'], 500)).file).at(-1)![2]).toBe(55);
    expect(planes(ok(raiseCreatures(up.file, ['c1'], -500)).file)[1][2]).toBe(0);
    expect(raiseCreatures(ok(raiseCreatures(up.file, ['c1'], 500)).file, ['c1'], 1)).toMatchObject({ ok: false, reason: 'Its highest plane is at the top already. Fill higher to raise it.' });
  });

  it('not by a plane that another creature is on too, nor by a locked one', () => {
    const two = { ...painted().file, creatures: [...creaturesOf(painted().file), { id: 'c2', name: 'Koi', shape: newt.shape, baseMm: 20 }] };
    const shared = ok(setSlices(two, 'p3', ['c1', 'c2'])).file;
    expect(raiseCreatures(shared, ['c1'], 1)).toMatchObject({ ok: false, reason: 'Newt 2 has other creatures on it too. Move them together, or take one off that plane first.' });
    expect(planes(ok(raiseCreatures(shared, ['c1', 'c2'], 1)).file)[2][2]).toBe(28);
    expect(raiseCreatures(ok(setLocked(painted().file, ['p3'], true)).file, ['c1'], 1)).toMatchObject({ ok: false, reason: 'Newt 2 is locked. Unlock it first.' });
  });

  it('over the floor, turned, larger, softer', () => {
    const { file, label } = ok(setCreature(painted().file, 'c1', { featherMm: 2 }));
    expect([creature(file, 'c1')!.featherMm, label]).toEqual([2, 'newt feathered over 2\u00a0mm']);
    expect(creature(ok(setCreature(file, 'c1', { xMm: -3, yMm: 4 })).file, 'c1')).toMatchObject({ xMm: -3, yMm: 4, featherMm: 2 });
    expect(setCreature(file, 'c1', { scale: 0 })).toMatchObject({ ok: false });
    expect(setCreature(file, 'c1', { name: ' ' })).toMatchObject({ ok: false });
  });
});

it('a new plane never takes a creature’s id', () => {
  const odd = { ...painted().file, creatures: creaturesOf(painted().file).map((each) => ({ ...each, id: 'p9' })), placements: thingsOf(painted().file).map((each) => (each.kind === 'plane' && each.slices ? { ...each, slices: ['p9'] } : each)) };
  expect(ok(addPlane(odd, { atMm: 5 })).ids).toEqual(['p10']);
});

describe.each([1, 2, 3, 4, 5, 6])('any run of such edits, seed %i', (seed) => {
  it('keeps the scene openable and what nobody knows in it, through paint and back', () => {
    const next = mulberry32(seed);
    const pick = <T>(from: readonly T[]): T => from[Math.floor(next() * from.length)];
    const number = (low: number, high: number) => (next() < 0.1 ? pick([Number.NaN, Infinity, -1, 0, 1e308]) : low + next() * (high - low));
    const random = randomFile(seed);
    const ball = { id: 'f77', kind: 'figure' as const, name: 'Ball', shape: { type: 'sphere' as const, radiusMm: 4 }, baseMm: random.fillMm / 4, [MARK]: { number: -1 } };
    let file: SceneFile = frozen({ ...random, placements: [...thingsOf(random), ball] });
    /** Of figures, painted or not: none is made or lost but by `remove`. */
    const marks = (of: SceneFile) => [...thingsOf(of).filter(({ kind }) => kind === 'figure'), ...creaturesOf(of).map(({ wasFigure }) => wasFigure)].map((each) => JSON.stringify((each as Record<string, unknown>)[MARK])).sort();
    let kept = 0;
    for (let n = 0; n < 90; n++) {
      const figure = next() < 0.5 ? 'f77' : pick([...thingsOf(file).map(({ id }) => id), 'nobody']);
      const one = creaturesOf(file).length === 0 || next() < 0.1 ? 'nobody' : pick(creaturesOf(file)).id;
      const edits: readonly (() => EditResult)[] = [
        () => paintFigure(file, figure, { gapMm: number(1, 9), tallMm: 1 + 30 * next(), minDepthMm: 3, turnOver: next() < 0.3 }),
        () => setInAgain(file, one),
        () => spacePlanes(file, one, { gapMm: number(1, 9), tallMm: 1 + 30 * next(), minDepthMm: 3 }),
        () => setPlanes(file, one, [number(0, 40), number(0, 40)]),
        () => raiseCreatures(file, [one], number(-20, 20)),
        () => setCreature(file, one, pick([{ scale: number(0.2, 3) }, { featherMm: number(0, 4) }, { xMm: number(-50, 50) }, { name: 'Koi' }])),
        () => setSlices(file, figure, [one]),
        () => duplicate(file, thingsOf(file).filter(({ id, kind }) => id === figure && kind === 'plane').map(({ id }) => id)),
        () => remove(file, thingsOf(file).filter(({ id, kind }) => id === figure && kind === 'plane').map(({ id }) => id)),
        () => setHeight(file, figure, number(0, 50)),
      ];
      const result = pick(edits)();
      if (!result.ok) {
        expect(result.reason.length).toBeGreaterThan(10);
        continue;
      }
      kept++;
      expect(result.label).not.toMatch(/undefined|NaN|\[object|^\s*$/);
      expect(readScene(JSON.parse(JSON.stringify(result.file))).ok).toBe(true);
      expect(marks(result.file)).toEqual(marks(file));
      file = frozen(result.file);
    }
    expect(kept).toBeGreaterThan(10);
  });
});
