/** Edits of how a piece reads: each can be opened again, says what it did, and refuses by its field's own name. */
import { describe, expect, it } from 'vitest';
import { addColor, changeColor, colorsOf, removeColor, setLamp, setRead } from '../../../../src/core/scene/edit/read.ts';
import { setInAgain } from '../../../../src/core/scene/edit/creature.ts';
import type { EditResult, SceneFile } from '../../../../src/core/scene/edit/file.ts';
import { readScene } from '../../../../src/core/scene/read.ts';

const FILE: SceneFile = {
  format: 'stillpool.scene', version: 1, mold: { shape: 'box', lengthMm: 100, widthMm: 80, heightMm: 50 }, fillMm: 40, fills: [{ toMm: 40, formula: 'general' }],
  placements: [{ id: 'p', kind: 'plane', name: 'Carp 1', atMm: 20, slices: ['c'] }, { id: 'f', kind: 'figure', shape: { type: 'sphere', radiusMm: 5 }, baseMm: 2 }],
  creatures: [{ id: 'c', name: 'Carp', shape: { type: 'sphere', radiusMm: 8 }, baseMm: 12 }],
};
const file = (result: EditResult): SceneFile => {
  if (!result.ok) throw new Error(result.reason);
  expect(readScene(result.file).ok).toBe(true);
  return result.file;
};
const reason = (result: EditResult): string => (result.ok ? 'no refusal' : result.reason);

describe('an eye to line up for', () => {
  it('is set field by field and taken away', () => {
    const first = setRead(FILE, 'c', { eyeMm: 300 });
    expect(first).toMatchObject({ ok: true, label: 'carp lined up for an eye 300\u00a0mm away' });
    const both = file(setRead(file(first), 'c', { stretch: true }));
    expect(both.creatures![0].read).toEqual({ eyeMm: 300, stretch: true });
    expect(file(setRead(both, 'c', null)).creatures).toEqual(FILE.creatures);
  });

  it('refuses what no eye does', () => {
    expect(reason(setRead(FILE, 'c', { eyeMm: 3 }))).toBe('Eye from the show face: found 3; expected a number from 50 to 10000 mm.');
    expect(reason(setRead(FILE, 'x', {}))).toBe('That creature is no longer there.');
  });

  it('does not go with the figure it is made into again', () => {
    const figure = file(setInAgain(file(addColor(file(setRead(FILE, 'c', {})), 'c', '#c87137')), 'c')).placements!.find(({ name }) => name === 'Carp');
    expect(figure).toMatchObject({ kind: 'figure' });
    expect(Object.keys(figure!)).not.toEqual(expect.arrayContaining(['read']));
    expect(Object.keys(figure!)).not.toEqual(expect.arrayContaining(['colors']));
  });
});

describe('a lamp', () => {
  it('is set, turned and taken away', () => {
    const set = setLamp(FILE, {});
    expect(set).toMatchObject({ ok: true, label: 'a lamp 45° over the face, from the left' });
    expect(file(setLamp(file(set), { fromDeg: 90, aboveDeg: 60 })).lamp).toEqual({ fromDeg: 90, aboveDeg: 60 });
    expect(file(setLamp(file(set), null))).toEqual(FILE);
    expect(reason(setLamp(FILE, { aboveDeg: 95 }))).toBe('Lamp over the show face: found 95; expected a number from 5 to 90 °.');
  });
});

describe('colors', () => {
  it.each(['p', 'c'])('of %s are added, changed and taken out', (id) => {
    const two = file(addColor(file(addColor(FILE, id, '#c87137')), id, '#FFFFFF'));
    expect(colorsOf(two, id)).toEqual(['#c87137', '#FFFFFF']);
    expect(colorsOf(file(changeColor(two, id, 1, '#eeeeee')), id)).toEqual(['#c87137', '#eeeeee']);
    expect(file(removeColor(file(removeColor(two, id, 1)), id, 0))).toEqual(FILE);
  });

  it('refuse what is none, what is there, and what has none', () => {
    expect(reason(addColor(FILE, 'p', 'teal'))).toBe('Colors it is to show: found "teal"; expected a color like "#2f6f73".');
    expect(reason(addColor(file(addColor(FILE, 'p', '#c87137')), 'p', '#C87137'))).toBe('#C87137 is there already.');
    expect(reason(removeColor(FILE, 'p', 0))).toBe('That color is no longer there.');
    expect(reason(addColor(FILE, 'f', '#c87137'))).toBe('Only a painted plane or creature shows colors. Choose one.');
  });
});
