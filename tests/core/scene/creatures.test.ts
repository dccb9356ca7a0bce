/** Painted creatures in a scene file: defaults, refusals by path, links that travel. */
import { describe, expect, it } from 'vitest';
import { outlineOf } from '../../../src/core/scene/outline.ts';
import { readScene, problemLine } from '../../../src/core/scene/read.ts';
import { openedText } from '../../../src/work/opened-text.ts';
import { linksOf } from '../../../src/files/links.ts';

type Json = Record<string, unknown>;
const ball = { type: 'sphere', radiusMm: 10 };
const scene = (rest: Json = {}): Json => ({
  format: 'stillpool.scene', version: 1, mold: { shape: 'box', lengthMm: 100, widthMm: 80, heightMm: 60 }, fillMm: 50, fills: [{ toMm: 50, formula: 'general' }],
  placements: [{ id: 'p1', kind: 'plane', atMm: 20, slices: ['c1'] }], creatures: [{ id: 'c1', shape: ball }], ...rest,
});
const refusals = (document: Json): string[] => {
  const reading = readScene(document);
  return reading.ok ? [] : reading.problems.map(problemLine);
};

describe('a creature', () => {
  it('gets its defaults, and its plane says what it slices', () => {
    const reading = readScene(scene());
    if (!reading.ok) throw new Error(reading.problems.map(problemLine).join());
    expect(reading.scene.creatures).toEqual([{ id: 'c1', name: 'c1', shape: ball, xMm: 0, yMm: 0, baseMm: 0, turnDeg: [0, 0, 0], scale: 1, featherMm: 1.5, viewDeg: 45 }]);
    expect(reading.scene.placements[0]).toMatchObject({ slices: ['c1'] });
    expect(reading.notes).toEqual([]);
  });

  it('is in no way among the placements: it displaces nothing', () => {
    const reading = readScene(scene());
    expect(reading.ok && reading.scene.placements.map(({ id }) => id)).toEqual(['p1']);
  });

  it('may carry what the figure it was made from had, without a note', () => {
    const reading = readScene(scene({ creatures: [{ id: 'c1', shape: ball, wasFigure: { id: 'f1', massG: 5, anything: [1] } }] }));
    expect(reading.ok && reading.notes).toEqual([]);
  });

  it('is told in the scene’s outline, with its planes', () => {
    const reading = readScene(scene());
    const items = reading.ok ? outlineOf(reading.scene, null) : [];
    expect(items.find(({ key }) => key === 'creatures')?.children.map(({ words }) => words)).toEqual(['c1, painted on 1\u00a0plane, from 0\u00a0mm up']);
  });

  it('without creatures a scene has none', () => {
    const reading = readScene(scene({ placements: [], creatures: undefined }));
    expect(reading.ok && reading.scene.creatures).toEqual([]);
  });
});

it.each<[string, Json, string]>([
  ['an unknown creature on a plane', scene({ placements: [{ id: 'p1', kind: 'plane', atMm: 20, slices: ['c2'] }] }), 'placements[0].slices[0]: found "c2"; expected the id of a creature: "c1". Correct it, or take it off the plane.'],
  ['a slice where there is no creature', scene({ creatures: [] }), 'placements[0].slices[0]: found "c1"; expected the id of a creature, and the scene has none. Add it under "creatures", or take it off the plane.'],
  ['a creature twice on a plane', scene({ placements: [{ id: 'p1', kind: 'plane', atMm: 20, slices: ['c1', 'c1'] }] }), 'placements[0].slices[1]: found "c1" a second time; expected each creature once on a plane.'],
  ['an id that a placement has', scene({ creatures: [{ id: 'c1', shape: ball }, { id: 'p1', shape: ball }] }), 'creatures[1].id: found "p1" a second time; expected an id that no other creature and no placement has.'],
  ['an id twice', scene({ creatures: [{ id: 'c1', shape: ball }, { id: 'c1', shape: ball }] }), 'creatures[1].id: found "c1" a second time; expected an id that no other creature and no placement has.'],
  ['a mesh outside the folder', scene({ creatures: [{ id: 'c1', shape: { type: 'mesh', file: '../koi.stl' } }] }), 'creatures[0].shape.file: found "../koi.stl", which leads out of its folder; expected a file in the scene’s own folder, such as assets/newt.stl.'],
  ['no shape', scene({ creatures: [{ id: 'c1' }] }), 'creatures[0].shape: is missing; expected a shape with "type" one of'],
  ['a feather of a word', scene({ creatures: [{ id: 'c1', shape: ball, featherMm: 'soft' }] }), 'creatures[0].featherMm: found "soft"; expected a number from 0 to 50 mm.'],
  ['a look along the face', scene({ creatures: [{ id: 'c1', shape: ball, viewDeg: 90 }] }), 'creatures[0].viewDeg: found 90; expected a number from 0 to 80 °.'],
  ['slices that are no list', scene({ placements: [{ id: 'p1', kind: 'plane', atMm: 20, slices: 'c1' }] }), 'placements[0].slices: found "c1"; expected a list of at most 50.'],
])('refuses %s', (_, document, words) => {
  expect(refusals(document).join('\n')).toContain(words);
});

it('its file travels with the scene, and is asked for where it is not there', () => {
  const document = scene({ creatures: [{ id: 'c1', shape: { type: 'mesh', file: 'assets/koi.stl' } }] });
  expect(linksOf(document)).toEqual([{ kind: 'mesh', path: 'assets/koi.stl' }]);
  const blob = new Blob(['solid']);
  expect([...openedText(JSON.stringify(document), { get: () => blob }).files.keys()]).toEqual(['assets/koi.stl']);
  expect(() => openedText(JSON.stringify(document), { get: () => undefined })).toThrow(/assets\/koi\.stl.*no such file/);
});
