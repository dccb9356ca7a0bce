/** Fills, formulas, weights, mold, bench and room: what each edit does to the file, and what it refuses. */
import { describe, expect, it } from 'vitest';
import { benchValue, setBench, setHours } from '../../../../src/core/scene/edit/bench.ts';
import { isDefault } from '../../../../src/core/scene/edit/default.ts';
import { addBoundary, boundaryRange, fillRange, fillTo, moveBoundary, removeBoundary, setFormula, setTint } from '../../../../src/core/scene/edit/fills.ts';
import { sceneFile, type AddResult, type EditResult } from '../../../../src/core/scene/edit/file.ts';
import { ownFormula, removeFormula, setLabelValue } from '../../../../src/core/scene/edit/formulas.ts';
import { labelFields, moreFields } from '../../../../src/core/scene/edit/label-fields.ts';
import { setMold, setMoldShape, setMoldSizes } from '../../../../src/core/scene/edit/mold.ts';
import { newPiece, type NewPiece } from '../../../../src/core/scene/edit/new-piece.ts';
import { setRoomC, setRoomFrom } from '../../../../src/core/scene/edit/room.ts';
import { addFromShelf, formulaForShelf } from '../../../../src/core/scene/edit/shelf.ts';
import { thing } from '../../../../src/core/scene/edit/things.ts';
import { setMaterial, setMeasuredDensity, setWeight, useWay, waterContradicts, weightState } from '../../../../src/core/scene/edit/weigh.ts';
import { outlineOf } from '../../../../src/core/scene/outline.ts';
import { setAt, type FieldValue } from '../../../../src/core/scene/edit/set-at.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import { pond } from './made-files.ts';

const file = pond();
const NBSP = '\u00a0';

function okay<R extends EditResult | AddResult>(result: R): Extract<R, { ok: true }> {
  if (!result.ok) throw new Error(result.reason);
  return result as Extract<R, { ok: true }>;
}
function reason(result: EditResult | AddResult | { ok: true } | { ok: false; reason: string }): string {
  if (result.ok) throw new Error('expected a refusal');
  return result.reason;
}

describe('a new piece', () => {
  const box: NewPiece = { seen: 'above', keep: false, mold: { shape: 'box', lengthMm: 210, widthMm: 120, heightMm: 60 } };
  it('is filled to 5 mm under the rim, with nothing in it', () => {
    const { file: made } = okay(newPiece(box));
    expect(made).toMatchObject({ fillMm: 55, fills: [{ toMm: 55, formula: 'low-viscosity' }], placements: [], cast: 'face-up' });
    expect(okay(newPiece({ ...box, mold: { shape: 'round', diameterMm: 100, heightMm: 12 } })).file.fills).toEqual([{ toMm: 7.2, formula: 'general' }]);
  });
  it('is cast face-down only where the front is the clear floor of a box that stays', () => {
    const cast = (change: Partial<NewPiece>) => okay(newPiece({ ...box, ...change })).file.cast;
    expect(cast({ seen: 'front', keep: true })).toBe('face-down');
    expect(cast({ seen: 'front', keep: true, mold: { ...box.mold, material: 'wood' } as NewPiece['mold'] })).toBe('face-up');
    expect([cast({ seen: 'front' }), cast({ seen: 'around', keep: true }), cast({ keep: true })]).toEqual(['face-up', 'face-up', 'face-up']);
  });
  it('refuses a mold without a size', () => {
    expect(reason(newPiece({ ...box, mold: { shape: 'box', lengthMm: 0, widthMm: 120, heightMm: 60 } }))).toMatch(/^Mold: found 0; expected a number above 0 mm/);
    expect(reason(newPiece({ ...box, mold: { shape: 'round', diameterMm: 90, heightMm: NaN } }))).toMatch(/^Mold: found NaN/);
  });
});

describe('fills', () => {
  it('fills higher or lower, with the planes painted on top', () => {
    expect(okay(fillTo(file, 56))).toMatchObject({ label: 'fill to 56\u00a0mm', file: { fillMm: 56, fills: [{ toMm: 30 }, { toMm: 56 }] } });
    const onTop = { ...file, placements: [...file.placements!, { id: 'p9', kind: 'plane' as const, name: 'Glints', atMm: 55 }] };
    expect(thing(okay(fillTo(onTop, 50)).file, 'p9')).toMatchObject({ atMm: 50 });
  });
  it('says what is in the way', () => {
    expect(reason(fillTo(file, 35))).toBe(`Found 35${NBSP}mm; expected 40${NBSP}mm or more. Lily pads is painted at 40${NBSP}mm; lower it first.`);
    expect(reason(fillTo(file, 61))).toMatch(/the mold is 60.mm high/);
    expect(reason(fillTo(pond({ placements: [] }), 29))).toMatch(/Take the change of fill below it out first/);
    expect(fillRange(file)).toEqual({ minMm: 40, maxMm: 60 });
  });
  it('moves, adds and takes out boundaries; tints and unknown fields stay with their fill', () => {
    expect(okay(moveBoundary(file, 0, 90)).file.fills[0].toMm).toBe(54.9);
    expect(boundaryRange(file, 1)).toBeNull();
    const { file: parted } = okay(addBoundary(file, 10));
    expect(parted.fills.map((fill) => [fill.toMm, fill.formula, fill.tint?.percent])).toEqual([[10, 'low-viscosity', 0.1], [30, 'low-viscosity', 0.1], [55, 'general', undefined]]);
    expect(reason(addBoundary(file, 30.05))).toMatch(/changes at 30.mm already/);
    expect(okay(removeBoundary(file, 0)).file.fills).toEqual([{ toMm: 55, formula: 'general' }]);
  });
  it('keeps a swatch when a tint is cleared', () => {
    const tea = { percent: 0.1, mm: 10, passes: 0.9 };
    const swatch = pond({ fills: [{ toMm: 55, formula: 'general', tint: { percent: 1, swatch: tea } as { percent: number } }] });
    expect(okay(setTint(swatch, 0, null)).file.fills[0].tint).toEqual({ percent: 0, swatch: tea });
    const aimed = pond({ fills: [{ toMm: 55, formula: 'general', tint: { percent: 0, swatch: tea, target: { passes: 0.5 } } as { percent: number } }] });
    expect(okay(setTint(aimed, 0, null)).file.fills[0].tint).toEqual({ percent: 0, swatch: tea });
    expect(okay(setTint(aimed, 0, { percent: 0.2 })).file.fills[0].tint).toEqual({ percent: 0.2, swatch: tea });
    expect(okay(setTint(aimed, 0, { color: '#112233' })).file.fills[0].tint).toMatchObject({ target: { passes: 0.5 } });
    expect(okay(setTint(file, 0, null)).file.fills[0]).toEqual({ toMm: 30, formula: 'low-viscosity' });
    expect(reason(setTint(file, 0, { percent: 11 }))).toMatch(/^Tint: found 11; expected a number from 0 to 10 %/);
    expect(reason(setFormula(file, 0, 'treacle'))).toMatch(/^Formula: found "treacle"; expected one of/);
  });
});

describe('formulas', () => {
  it('asks for what a label gives, each with its usual value, range and source', () => {
    const fields = labelFields({ id: 'low-viscosity', maxDepthMm: 28 });
    expect(fields.map(({ field, value, typical }) => [field, value, typical])).toEqual([['ratioByVolume', [2, 1], true], ['maxDepthMm', 28, false], ['potLifeMin', 120, true], ['bondOpensH', 11, true], ['demoldH', 54, true]]);
    expect(fields[1]).toMatchObject({ usual: 25, range: [20, 30], unit: 'mm', provenance: 'common practice, no source' });
    expect(labelFields({ id: 'drops', family: 'uv', maxDepthMm: 2 })).toHaveLength(4);
    const all = new Set([...fields, ...moreFields({ id: 'low-viscosity' })].map(({ field }) => field));
    expect(all.size).toBe(19); // 17 class fields and two ratios, none twice
  });
  it('makes a class one’s own without a typed value, once', () => {
    const { file: own, ids } = okay(ownFormula(file, 'general'));
    expect([ids, own.formulas]).toEqual([['general'], [{ id: 'general', name: 'General casting', family: 'general' }]]);
    expect(reason(ownFormula(own, 'general'))).toMatch(/needs its ratio and the greatest depth/);
    expect(okay(ownFormula(own, 'general', { ratioByVolume: [2, 1], maxDepthMm: 12 })).ids).toEqual(['general-casting-2']);
  });
  it('sets a label’s value, and clears it to typical again', () => {
    const { file: typed, label } = okay(setLabelValue(file, 'low-viscosity', 'potLifeMin', 90));
    expect(label).toBe('low-viscosity casting (typical): pot life from the label');
    const reading = readScene(typed);
    expect(reading.ok && reading.scene.formulas.get('low-viscosity')!.typical).not.toContain('potLifeMin');
    const cleared = readScene(okay(setLabelValue(typed, 'low-viscosity', 'potLifeMin', null)).file);
    expect(cleared.ok && cleared.scene.formulas.get('low-viscosity')!.typical).toContain('potLifeMin');
    expect(reason(setLabelValue(file, 'general', 'maxDepthMm', 0))).toMatch(/^Greatest depth of one pour: found 0; expected a number from 0.1 to 10000 mm/);
  });
  it('removes what no fill uses, goes to the shelf and back', () => {
    const { file: own, ids } = okay(ownFormula(okay(ownFormula(file, 'general')).file, 'general', { name: 'Slow', ratioByVolume: [2, 1], maxDepthMm: 12 }));
    expect(reason(removeFormula(own, 'general'))).toMatch(/is poured in one fill/);
    expect(okay(removeFormula(own, ids[0])).file.formulas).toHaveLength(1);
    const shelf = formulaForShelf(own, ids[0]);
    if (!shelf.ok) throw new Error(shelf.reason);
    expect(okay(addFromShelf(own, shelf.formula)).file).toBe(own);
    expect(okay(addFromShelf(own, { ...shelf.formula, maxDepthMm: 9 })).ids).toEqual(['slow-2']);
    expect(reason(formulaForShelf(own, 'general'))).toMatch(/needs its ratio/);
  });
});

describe('weight, three ways', () => {
  const newt = (f: typeof file) => thing(f, 'f1')!;
  it('a weight wins over a density, a density over a material', () => {
    const bare = okay(setWeight(file, 'f1', null)).file;
    expect(weightState(newt(bare), 6).inForce).toBe('unknown');
    const made = okay(setMaterial(bare, 'f1', 'acrylic')).file;
    expect(weightState(newt(made), 6)).toMatchObject({ inForce: 'material', materialG: 1.18 * 6 });
    const measured = okay(setMeasuredDensity(made, 'f1', { volumeMl: 4, massG: 5 })).file;
    expect(weightState(newt(measured), 6)).toMatchObject({ inForce: 'measured', measuredG: 1.25 * 6 });
    const weighed = okay(setWeight(measured, 'f1', 7)).file;
    expect(weightState(newt(weighed), 6)).toMatchObject({ inForce: 'weighed', weighedG: 7, words: `7${NBSP}g on the scale` });
    expect(weightState(newt(okay(useWay(weighed, 'f1', 'measured')).file), 6).inForce).toBe('measured');
    expect(weightState(newt(okay(useWay(weighed, 'f1', 'material')).file), 6).inForce).toBe('material');
  });
  it('refuses no weight, and what nobody knows', () => {
    expect(reason(setWeight(file, 'f1', 0))).toMatch(/above 0 g/);
    expect(reason(setMaterial(file, 'f1', 'cheese'))).toMatch(/expected one of PLA print, /);
  });
});

describe('mold, bench, room', () => {
  it('sizes the mold, keeps corners possible, changes the shape and forgets what the other had', () => {
    expect(okay(setMoldSizes(file, { lengthMm: 210 })).label).toBe(`mold 210${NBSP}mm long`);
    expect(okay(setMold(file, 'widthMm', 90.5)).label).toBe(`mold 90.5${NBSP}mm wide`);
    const round = okay(setMold(file, 'cornerRadiusMm', 40)).file;
    expect(okay(setMold(round, 'widthMm', 50)).file.mold).toMatchObject({ cornerRadiusMm: 25 });
    expect(reason(setMold(file, 'draftDeg', 50))).toMatch(/^Lean of the walls: found 50; expected a number from 0 to 45 °/);
    const cup = okay(setMoldShape(file, 'round')).file;
    expect(cup.mold).toEqual({ shape: 'round', diameterMm: 120, heightMm: 60 });
    expect(okay(setMoldShape(cup, 'box')).file.mold).toEqual({ shape: 'box', lengthMm: 120, widthMm: 120, heightMm: 60 });
  });
  it('tells a default from a choice of the same value', () => {
    expect([isDefault(file, 'bench.scaleG'), benchValue(file, 'scaleG')]).toEqual([true, 0.1]);
    const chosen = okay(setBench(file, 'scaleG', 0.1)).file;
    expect(isDefault(chosen, 'bench.scaleG')).toBe(false);
    expect(isDefault(okay(setBench(chosen, 'scaleG', null)).file, 'bench.scaleG')).toBe(true);
    expect([isDefault(file, 'placements[2].massG'), isDefault(file, 'placements[2].hold')]).toEqual([false, true]);
  });
  it('refuses a cup that keeps too much, hours that are none, a day that does not exist', () => {
    expect(reason(setBench(file, 'holdUpMl', 300))).toMatch(/^What stays in the cup: found 300 mL.*less than half of its largest cup/);
    expect(reason(setHours(file, []))).toMatch(/^Bench hours: found a list of 0/);
    expect(reason(setRoomFrom(file, '2026-02-30T08:00', 20))).toMatch(/local time that exists/);
    expect(reason(setRoomC(file, 900))).toMatch(/^Room: found 900; expected a number from -40 to 120 °C/);
  });
  it('keeps the room’s entries in order, one for each time', () => {
    const late = okay(setRoomFrom(file, '2026-05-05T06:00', 21)).file;
    const both = okay(setRoomFrom(late, '2026-05-04T20:00', 18)).file;
    expect(okay(setRoomFrom(both, '2026-05-05T06:00', 22)).file.room!.profile).toEqual([{ from: '2026-05-04T20:00', temperatureC: 18 }, { from: '2026-05-05T06:00', temperatureC: 22 }]);
  });
});

describe('the outline', () => {
  const reading = readScene(file);
  if (!reading.ok) throw new Error('unreadable');
  const items = outlineOf(reading.scene, null);
  it('reads from the show face down, with height and depth', () => {
    const inside = items.find((item) => item.key === 'inside')!;
    expect(inside.children.map((item) => item.key)).toEqual(['f1', 'p2', 'p1', 'b1']);
    expect(inside.children[1].words).toBe(`Lily pads, painted plane, 40${NBSP}mm up, 15${NBSP}mm deep`);
    expect(inside.words).toBe(`From the show face down: 4${NBSP}things, 3${NBSP}stops on the way: 20${NBSP}mm, 30${NBSP}mm and 40${NBSP}mm`);
    const turnedOver = readScene({ ...file, cast: 'face-down' });
    const below = turnedOver.ok && outlineOf(turnedOver.scene, null).find((item) => item.key === 'inside')!.children;
    expect(below && below.map((item) => item.key)).toEqual(['b1', 'p1', 'f1', 'p2']);
  });
  it('names only paths that can be set: each set to its own value reads the same', () => {
    const edits = items.flatMap((item) => [item, ...item.children]).flatMap((item) => item.edits);
    expect(edits.length).toBeGreaterThan(60);
    for (const { path, value } of edits) {
      const { file: next } = okay(setAt(file, path, value as FieldValue));
      const again = readScene(next);
      if (!again.ok) throw new Error(path);
      const { formulas, fills, ...rest } = again.scene;
      const { formulas: oldFormulas, fills: oldFills, ...oldRest } = reading.scene;
      expect(rest, path).toEqual(oldRest);
      expect(fills.map(({ toMm, formula, tint }) => [toMm, formula, tint?.percent ?? 0]), path).toEqual(oldFills.map(({ toMm, formula, tint }) => [toMm, formula, tint?.percent ?? 0]));
      // A class with a label value of its own is no longer called typical.
      for (const [id, old] of oldFormulas) expect({ ...formulas.get(id), typical: [], name: '' }, path).toEqual({ ...old, typical: [], name: '' });
    }
    expect(reason(setAt(file, 'mold.__proto__', 3))).toMatch(/^Nothing can be set at/);
    expect(reason(setAt(file, 'placements.f1.constructor', 3))).toMatch(/^Nothing can be set at/);
  });
});

describe('a document', () => {
  it('is taken for editing only if it can be opened', () => {
    expect(sceneFile(file)).toEqual({ ok: true, file });
    expect(sceneFile({ ...file, fillMm: -1 }).ok).toBe(false);
    expect(sceneFile({ ...file, version: 2 }).ok).toBe(false);
  });
});

/** Volumes go with the cube of the size (Euclid, Elements XI 33): a cube of 20 mm is 8 mL, one of 10 mm is 1 mL. */
describe('water against the drawn shape', () => {
  it('tells how large the shape would have to be', () => {
    expect(waterContradicts(1, 8)?.sizeTimes).toBeCloseTo(0.5, 12);
    expect(waterContradicts(8, 1)?.sizeTimes).toBeCloseTo(2, 12);
  });
  it('agrees within a tenth of the water, which is how well it is read', () => {
    expect([waterContradicts(10, 10), waterContradicts(10, 11), waterContradicts(10, 9)]).toEqual([null, null, null]);
    expect(waterContradicts(10, 11.1)).not.toBeNull();
    expect(waterContradicts(10, 8.9)).not.toBeNull();
  });
  it('says nothing of what is not known', () => expect([waterContradicts(0, 8), waterContradicts(8, 0), waterContradicts(Number.NaN, 8)]).toEqual([null, null, null]));
});
