import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { migrate, type Migration } from '../../../src/core/scene/migrate.ts';
import { problemLine, readScene } from '../../../src/core/scene/read.ts';
import type { Scene } from '../../../src/core/scene/scene.ts';
import { parseLocalTime } from '../../../src/core/units/time.ts';
import { parseJson } from '../../../src/files/bundle.ts';
import { EXAMPLE_V1 } from './example-v1.ts';

/** Milliseconds that one hostile document may take on a busy machine; honest ones take single ones. */
const BOUNDED_MS = 5_000;

type Json = Record<string, unknown>;
const MOLD = { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60 };
const minimal = (rest: Json = {}): Json => ({ format: 'stillpool.scene', version: 1, mold: MOLD, fillMm: 30, fills: [{ toMm: 30, formula: 'general' }], ...rest });
const LABEL = { id: 'mine', ratioByVolume: [2, 1], maxDepthMm: 12 };
const figure = (rest: Json = {}): Json => minimal({ placements: [{ id: 'f', kind: 'figure', shape: { type: 'sphere', radiusMm: 10 }, ...rest }] });
const plane = (rest: Json = {}): Json => minimal({ placements: [{ id: 'p', kind: 'plane', atMm: 10, ...rest }] });
const shaped = (shape: unknown): Json => figure({ shape });

function sceneOf(document: unknown): Scene {
  const reading = readScene(document);
  if (!reading.ok) throw new Error(reading.problems.map(problemLine).join('\n'));
  return reading.scene;
}

function refusals(document: unknown): string[] {
  const reading = readScene(document);
  return reading.ok ? [] : reading.problems.map(problemLine);
}

describe('the stored version-1 example', () => {
  it('is read without a note, and its document comes back unchanged', () => {
    const before = JSON.stringify(EXAMPLE_V1);
    const reading = readScene(EXAMPLE_V1);
    expect(reading).toMatchObject({ ok: true, notes: [] });
    expect(reading.ok && reading.document).toBe(EXAMPLE_V1);
    expect(JSON.stringify(EXAMPLE_V1)).toBe(before);
  });

  it('gives the scene it describes', () => {
    const scene = sceneOf(EXAMPLE_V1);
    expect(scene).toMatchObject({ name: 'Mill pond, evening', cast: 'face-up', fillMm: 55, heatModel: 'simulated' });
    expect(scene.fills.map(({ toMm, formula }) => [toMm, formula])).toEqual([[30, 'low'], [55, 'general']]);
    expect(scene.placements.map(({ id, kind }) => [id, kind])).toEqual([['p1', 'plane'], ['f1', 'figure'], ['b1', 'bed']]);
    expect(scene.placements[1]).toMatchObject({ shape: { type: 'mesh', file: 'assets/newt.stl', unit: 'mm' }, baseMm: 20, turnDeg: [0, 0, 30], massG: 5.4, hold: 'rests', limitC: 50, sealed: true });
    expect(scene.formulas.get('low')).toMatchObject({ ratioByVolume: [2, 1], ratioByMass: [100, 42.17], bondOpensH: 10, fullCureH: 168, price: { kitMl: 1500, amount: 48, currency: 'USD' }, typical: [] });
    expect(scene.room).toEqual({ temperatureC: 23, profile: [{ fromMin: parseLocalTime('2026-05-04T20:00'), temperatureC: 18 }] });
    expect(scene.bench).toMatchObject({ startMin: parseLocalTime('2026-05-04T08:00'), hours: [{ days: [0, 1, 2, 3, 4, 5, 6], fromMin: 480, toMin: 1200 }], scaleG: 0.1 });
  });
});

describe('defaults (design.md §3)', () => {
  it('of mold, cast, room, bench and heat', () => {
    const scene = sceneOf(minimal());
    expect(scene.mold).toEqual({ ...MOLD, draftDeg: 0, cornerRadiusMm: 0, material: 'silicone', wallMm: 8, keep: false });
    expect(sceneOf(minimal({ mold: { shape: 'round', diameterMm: 150, heightMm: 60 } })).mold).toEqual({ shape: 'round', diameterMm: 150, heightMm: 60, draftDeg: 0, material: 'silicone', wallMm: 8, keep: false });
    expect(scene).toMatchObject({ cast: 'face-up', heatModel: 'simulated', placements: [], room: { temperatureC: 23, profile: [] } });
    const { startMin, ...bench } = scene.bench as Scene['bench'] & { start?: string };
    expect(startMin).toBeUndefined();
    expect(bench).toMatchObject({ hours: [{ days: [0, 1, 2, 3, 4, 5, 6], fromMin: 480, toMin: 1200 }], scaleG: 0.1, holdUpMl: 8, allowanceFraction: 0.05, pourH: 0.5, scuffH: 0.5, watchH: 0.5 });
  });

  it('of figures: at the middle, unturned, unscaled; `stands` at the floor, `rests` above it', () => {
    const [low, high] = sceneOf(minimal({ placements: [{ id: 'a', kind: 'figure', shape: { type: 'sphere', radiusMm: 5 } }, { id: 'b', kind: 'figure', baseMm: 10, shape: { type: 'sphere', radiusMm: 5 } }] })).placements;
    expect(low).toMatchObject({ name: 'a', xMm: 0, yMm: 0, baseMm: 0, turnDeg: [0, 0, 0], scale: 1, hold: 'stands' });
    expect(high).toMatchObject({ hold: 'rests' });
    expect(low).not.toHaveProperty('massG');
  });

  it('of beds and planes', () => {
    const [bed, painted] = sceneOf(minimal({ placements: [{ id: 'b', kind: 'bed', shape: { type: 'box', lengthMm: 10, widthMm: 10, heightMm: 5 } }, { id: 'p', kind: 'plane', atMm: 10, art: { file: 'a.svg', widthMm: 50 } }] })).placements;
    expect(bed).toMatchObject({ hold: 'fixed', voidFraction: 0, scale: 1 });
    expect(painted).toMatchObject({ paintH: 3, dryH: 12, art: { xMm: 0, yMm: 0, turnDeg: 0, mirror: false } });
  });

  it('of formulas: what the label does not give comes from the family and is told as typical', () => {
    const scene = sceneOf(minimal({ formulas: [LABEL, { ...LABEL, id: 'thin', family: 'low-viscosity', potLifeMin: 77 }], fills: [{ toMm: 15, formula: 'mine' }, { toMm: 30, formula: 'thin' }] }));
    const [mine, thin] = ['mine', 'thin'].map((id) => scene.formulas.get(id)!);
    expect(mine).toMatchObject({ family: 'general', maxDepthMm: 12, ratioByVolume: [2, 1] });
    expect(mine.typical).toContain('potLifeMin');
    expect(mine.typical).not.toContain('maxDepthMm');
    expect(mine.typical).not.toContain('ratioByVolume');
    expect(thin).toMatchObject({ family: 'low-viscosity', potLifeMin: 77 });
    expect(thin.typical).not.toContain('potLifeMin');
  });

  it('of the built-in formulas, and the light-cured one that has no ratio', () => {
    for (const name of ['general', 'low-viscosity', 'coating', 'deep-pour']) {
      const formula = sceneOf(minimal({ fills: [{ toMm: 30, formula: name }] })).formulas.get(name)!;
      expect(formula.family).toBe(name);
      expect(formula.typical).toContain('ratioByVolume');
    }
    expect(sceneOf(minimal({ formulas: [{ id: 'light', family: 'uv', maxDepthMm: 3 }], fills: [{ toMm: 30, formula: 'light' }] })).formulas.get('light')).toMatchObject({ ratioByVolume: undefined, ratioByMass: undefined });
  });
});

/** Path, what was found and what is expected, for each thing the contract refuses. */
const cup = (change: object) => minimal({ testCups: [{ formula: 'general', massG: 100, roomC: 22, readings: [{ min: 0, temperatureC: 22 }], ...change }] });
const REFUSED: readonly [what: string, document: unknown, line: string][] = [
  ['another format', { ...minimal(), format: 'pond' }, 'format: found "pond"; expected "stillpool.scene". Is this another program’s file?'],
  ['no format', { version: 1 }, 'format: found nothing; expected "stillpool.scene". Is this another program’s file?'],
  ['a newer version', minimal({ version: 2 }), 'version: found 2; this program reads up to 1. The file was made by a newer one: update Stillpool to open it.'],
  ['version 0', minimal({ version: 0 }), 'version: found 0; expected 1.'],
  ['half a version', minimal({ version: 1.5 }), 'version: found 1.5; expected 1.'],
  ['no mold', { ...minimal(), mold: undefined }, 'mold: is missing; expected'],
  ['a mold of no shape', minimal({ mold: { heightMm: 60 } }), 'mold.shape: is missing'],
  ['a triangular mold', minimal({ mold: { ...MOLD, shape: 'triangle' } }), 'mold.shape: found "triangle"; expected a mold with "shape" "box" or "round".'],
  ['a mold without a length', minimal({ mold: { ...MOLD, lengthMm: undefined } }), 'mold.lengthMm: is missing; expected a number above 0 mm, at most 10000 mm.'],
  ['a mold of no height', minimal({ mold: { ...MOLD, heightMm: 0 } }), 'mold.heightMm: found 0; expected a number above 0 mm, at most 10000 mm.'],
  ['a negative width', minimal({ mold: { ...MOLD, widthMm: -5 } }), 'mold.widthMm: found -5; expected a number above 0 mm, at most 10000 mm.'],
  ['a draft past 45°', minimal({ mold: { ...MOLD, draftDeg: 50 } }), 'mold.draftDeg: found 50; expected a number from 0 to 45 °.'],
  ['a corner wider than the mold', minimal({ mold: { ...MOLD, cornerRadiusMm: 61 } }), 'mold.cornerRadiusMm: found 61 mm; expected at most 60 mm, half of the shorter side.'],
  ['an unknown material', minimal({ mold: { ...MOLD, material: 'cheese' } }), 'mold.material: found "cheese"; expected one of "silicone", "hdpe", "acrylic", "glass", "wood", "foam".'],
  ['text for a number', minimal({ fillMm: '30' }), 'fillMm: found "30"; expected a number above 0 mm, at most 10000 mm.'],
  ['NaN', minimal({ fillMm: NaN }), 'fillMm: found NaN; expected a number'],
  ['Infinity, as 1e999 is read', minimal({ fillMm: JSON.parse('1e999') }), 'fillMm: found Infinity; expected a number'],
  ['1e308', minimal({ mold: { ...MOLD, lengthMm: 1e308 } }), 'mold.lengthMm: found 1e+308; expected a number above 0 mm, at most 10000 mm.'],
  ['no fills', minimal({ fills: [] }), 'fills: found a list of 0; expected a list of 1 to 200.'],
  ['fills that are no list', minimal({ fills: {} }), 'fills: found {}; expected a list of 1 to 200.'],
  ['fills out of order', minimal({ fills: [{ toMm: 20, formula: 'general' }, { toMm: 15, formula: 'general' }, { toMm: 30, formula: 'general' }] }), 'fills[1].toMm: found 15 mm; expected more than 20 mm, where the fill below it ends.'],
  ['fills that end below the top', minimal({ fills: [{ toMm: 20, formula: 'general' }] }), 'fills[0].toMm: found 20 mm; expected 30 mm, the scene’s fillMm.'],
  ['an unknown formula', minimal({ fills: [{ toMm: 30, formula: 'honey' }] }), 'fills[0].formula: found "honey"; expected one of "general", "low-viscosity", "coating", "deep-pour".'],
  ['a color that is none', minimal({ fills: [{ toMm: 30, formula: 'general', tint: { color: 'teal' } }] }), 'fills[0].tint.color: found "teal"; expected a color like "#2f6f73".'],
  ['a formula without a ratio', minimal({ formulas: [{ id: 'x', maxDepthMm: 10 }] }), 'formulas[0]: has no ratio; expected ratioByVolume or ratioByMass as on the label, like [2, 1].'],
  ['a formula without a depth', minimal({ formulas: [{ id: 'x', ratioByVolume: [1, 1] }] }), 'formulas[0].maxDepthMm: is missing; expected the greatest depth of one pour from the label, in mm.'],
  ['a ratio of zero', minimal({ formulas: [{ ...LABEL, ratioByVolume: [2, 0] }] }), 'formulas[0].ratioByVolume[1]: found 0; expected a number above 0, at most 1000.'],
  ['a ratio of three', minimal({ formulas: [{ ...LABEL, ratioByVolume: [2, 1, 1] }] }), 'formulas[0].ratioByVolume'],
  ['a density of zero', minimal({ formulas: [{ ...LABEL, densityAGPerMl: 0 }] }), 'formulas[0].densityAGPerMl: found 0; expected a number above 0 g/mL, at most 25 g/mL.'],
  ['one formula id twice', minimal({ formulas: [LABEL, LABEL] }), 'formulas[1].id: found "mine" a second time; expected each formula’s id once.'],
  ['a light-cured formula with a ratio', minimal({ formulas: [{ ...LABEL, family: 'uv' }] }), 'formulas[0]: has a ratio; expected none: a light-cured resin has one part.'],
  ['an unknown family', minimal({ formulas: [{ ...LABEL, family: 'jelly' }] }), 'formulas[0].family: found "jelly"; expected one of "general", "low-viscosity", "coating", "deep-pour", "uv".'],
  ['a placement of no kind', minimal({ placements: [{ id: 'x' }] }), 'placements[0].kind: is missing'],
  ['one placement id twice', minimal({ placements: [{ id: 'p', kind: 'plane', atMm: 10 }, { id: 'p', kind: 'plane', atMm: 20 }] }), 'placements[1].id: found "p" a second time; expected each placement’s id once.'],
  ['an empty id', plane({ id: '' }), 'placements[0].id: found nothing; expected a name of 1 to 200 characters.'],
  ['a plane above the fill', plane({ atMm: 30.06 }), 'placements[0].atMm: found 30.06 mm; expected at most 30 mm, the fill’s height.'],
  ['a plane below the floor', plane({ atMm: -1 }), 'placements[0].atMm: found -1; expected a number from 0 to 10000 mm.'],
  ['negative drying', plane({ dryH: -1 }), 'placements[0].dryH: found -1; expected a number from 0 to 8760 h.'],
  ['a scale of zero', figure({ scale: 0 }), 'placements[0].scale: found 0; expected a number above 0, at most 1000.'],
  ['a negative scale', figure({ scale: -1 }), 'placements[0].scale: found -1; expected a number above 0'],
  ['a negative mass', figure({ massG: -1 }), 'placements[0].massG: found -1; expected a number from 0 to 1000000 g.'],
  ['a density of zero in a figure', figure({ densityGPerMl: 0 }), 'placements[0].densityGPerMl: found 0; expected a number above 0 g/mL'],
  ['two turns', figure({ turnDeg: [0, 0] }), 'placements[0].turnDeg'],
  ['a hold that is none', figure({ hold: 'glue' }), 'placements[0].hold: found "glue"; expected one of "rests", "stands", "fixed", "rod", "thread".'],
  ['null for a place', figure({ xMm: null }), 'placements[0].xMm: found null; expected a number from -10000 to 10000 mm.'],
  ['an unknown shape', shaped({ type: 'torus' }), 'placements[0].shape.type: found "torus"; expected a shape with "type" one of "mesh",'],
  ['a ball without a radius', shaped({ type: 'sphere' }), 'placements[0].shape.radiusMm: is missing'],
  ['a cap wider than its ball', shaped({ type: 'cap', sphereRadiusMm: 20, rimRadiusMm: 21 }), 'placements[0].shape.rimRadiusMm: found 21 mm; expected at most 20 mm, the sphere’s radius.'],
  ['a measured volume over its box', shaped({ type: 'measured', volumeMl: 10, lengthMm: 10, widthMm: 10, heightMm: 10 }), 'placements[0].shape.volumeMl: found 10 mL; expected at most 1.0 mL, all of its length × width × height.'],
  ['a unit there is none', shaped({ type: 'mesh', file: 'a.stl', unit: 'ft' }), 'placements[0].shape.unit: found "ft"; expected one of "mm", "cm", "m", "in".'],
  ['a bed that is all voids', minimal({ placements: [{ id: 'b', kind: 'bed', voidFraction: 1, shape: { type: 'sphere', radiusMm: 5 } }] }), 'placements[0].voidFraction: found 1; expected a number from 0 to 0.99.'],
  ['30 February', minimal({ bench: { start: '2026-02-30T08:00' } }), 'bench.start: found "2026-02-30T08:00"; expected a local time that exists, '],
  ['a time with a zone', minimal({ room: { profile: [{ from: '2026-05-04T20:00Z', temperatureC: 18 }] } }), 'room.profile[0].from: found "2026-05-04T20:00Z"; expected a local time'],
  ['a year far away', minimal({ bench: { start: '9999-05-04T08:00' } }), 'bench.start: found "9999-05-04T08:00"; expected a local time'],
  ['days that are none', minimal({ bench: { hours: [{ days: 'Mon-Sunday', from: '08:00', to: '20:00' }] } }), 'bench.hours[0].days: found "Mon-Sunday"; expected days like "Mon", "Mon-Fri" or "Mon,Thu".'],
  ['24:00', minimal({ bench: { hours: [{ days: 'Mon', from: '08:00', to: '24:00' }] } }), 'bench.hours[0].to: found "24:00"; expected a clock time from "00:00" to "23:59".'],
  ['no bench hours', minimal({ bench: { hours: [] } }), 'bench.hours: found a list of 0; expected a list of 1 to 100.'],
  ['a scale of no division', minimal({ bench: { scaleG: 0 } }), 'bench.scaleG: found 0; expected a number above 0 g, at most 1000 g.'],
  ['a hold-up of half a cup', minimal({ bench: { holdUpMl: 400 } }), 'bench.holdUpMl: found 400 mL, '],
  ['a heat model there is none', minimal({ heat: { model: 'guess' } }), 'heat.model: found "guess"; expected one of "label", "simulated".'],
  ['test cups that are no list', minimal({ testCups: {} }), 'testCups: found {}; expected a list of at most 200.'],
  ['a test cup that is a number', minimal({ testCups: [3] }), 'testCups[0]: found 3; expected an object { … }.'],
  ['a test cup of no formula', cup({ formula: undefined }), 'testCups[0].formula: is missing; expected the id of a formula.'],
  ['a test cup of a formula that is not there', cup({ formula: 'honey' }), 'testCups[0].formula: found "honey"; expected one of "general".'],
  ['a test cup without grams', cup({ massG: undefined }), 'testCups[0].massG: is missing; expected a number'],
  ['a cup of cheese', cup({ cup: 'cheese' }), 'testCups[0].cup: found "cheese"; expected one of "plastic",'],
  ['readings out of order', cup({ readings: [{ min: 20, temperatureC: 30 }, { min: 10, temperatureC: 28 }] }), 'testCups[0].readings[1].min: found 10 after 20; expected readings one after the other.'],
  ['an oven', minimal({ room: { temperatureC: 400 } }), 'room.temperatureC: found 400; expected a number from -40 to 120 °C.'],
];

describe('refusals name path, found and expected', () => {
  it.each(REFUSED)('%s', (_, document, line) => {
    const lines = refusals(document);
    expect(lines.some((text) => text.startsWith(line)), lines.join('\n')).toBe(true);
    for (const text of lines) expect(text).toMatch(/[.?]$/);
  });

  it.each([[null], [undefined], [[]], ['scene'], [12], [true]])('a document that is %s', (document) => {
    expect(refusals(document)).toEqual(['The file holds no scene; expected an object { "format": "stillpool.scene", "version": 1, … }.']);
  });

  it('tells several problems at once, twenty at most', () => {
    expect(refusals(minimal({ mold: { ...MOLD, lengthMm: -1, widthMm: 'wide' }, fillMm: 0 }))).toHaveLength(3);
    const planes = Array.from({ length: 100 }, (_, i) => ({ id: `p${i}`, kind: 'plane', atMm: -1 }));
    expect(refusals(minimal({ placements: planes }))).toHaveLength(20);
  });
});

describe('links', () => {
  const REFUSED_LINKS = [
    '../newt.stl', 'assets/../../newt.stl', '/etc/passwd', 'C:\\newt.stl', 'c:newt.stl', 'https://example.org/newt.stl', 'file:///newt.stl', 'data:model/stl,solid', '\\\\server\\newt.stl', '..\\newt.stl', '', '.', 'a/..', 'assets/../newt.stl', 'a\0.stl', 'x'.repeat(1025),
  ];
  it.each(REFUSED_LINKS.map((file) => [JSON.stringify(file).slice(0, 40), file]))('%s is refused for meshes and for art', (_, file) => {
    for (const [document, path] of [[shaped({ type: 'mesh', file }), 'placements[0].shape.file'], [plane({ art: { file, widthMm: 50 } }), 'placements[0].art.file']] as const) {
      const [line] = refusals(document);
      expect(line).toMatch(new RegExp(`^${path.replace(/[[\].]/g, '\\$&')}: found .*; expected a (path|file)`, 's'));
      expect(line.length).toBeLessThan(200);
    }
  });
  it.each(['newt.stl', 'assets/newt.stl', './assets/newt.stl', 'Ünïcode/Molch (2).stl'])('“%s” is taken', (file) => expect(refusals(shaped({ type: 'mesh', file }))).toEqual([]));
});

describe('what is not known', () => {
  it('is kept in the document and told by its path', () => {
    const document = minimal({ sparkle: 1, mold: { ...MOLD, lid: true }, placements: [{ id: 'f', kind: 'figure', glow: 3, shape: { type: 'sphere', radiusMm: 5, dimples: 2 } }], bench: { coffee: true } });
    const reading = readScene(document);
    expect(reading.ok && reading.notes.map(({ code, severity, subject }) => `${code} ${severity} ${subject}`)).toEqual(
      ['mold.lid', 'sparkle', 'placements[0].glow', 'placements[0].shape.dimples', 'bench.coffee'].map((path) => `unknown-field note ${path}`),
    );
    expect(reading.ok && reading.document).toBe(document);
  });

  it('is not told of fields that later work will use', () => {
    const document = minimal({
      copies: 8, plan: {}, poured: [], stock: [], labor: {}, locked: true, strokes: [], pressMm: 2,
      room: { humidity: 50 }, bench: { exceptions: [] },
    });
    expect(readScene(document)).toMatchObject({ ok: true, notes: [] });
  });

  it('is left aside and told where a field holds what somebody else meant by it', () => {
    const document = minimal({
      labor: 25, stock: [{ kit: 'low', count: 2 }], testCups: [{ grams: 100, curve: [[0, 23]] }], bench: { exceptions: [{ date: '2026-05-06' }] }, room: { humidity: 'dry', box: true },
      fills: [{ toMm: 30, formula: 'general', tint: { color: '#2f6f73', percent: 0.1, swatch: 'x', target: 0.5 } }],
    });
    const reading = readScene(document);
    expect(reading.ok && reading.notes.map(({ subject }) => subject)).toEqual(['labor', 'room.humidity', 'room.box', 'stock', 'testCups', 'bench.exceptions', 'fills[0].tint.swatch', 'fills[0].tint.target']);
    expect(reading.ok && reading.document).toBe(document);
  });

  it('is counted once there is much of it', () => {
    const reading = readScene(minimal(Object.fromEntries(Array.from({ length: 50 }, (_, i) => [`extra${i}`, i]))));
    expect(reading.ok && reading.notes).toHaveLength(21);
    expect(reading.ok && reading.notes[20].message).toContain('30 more fields');
  });
});

describe('test cups', () => {
  it('are read as typed, with what they stand in, of formulas in use or built in', () => {
    const readings = [{ min: 0, temperatureC: 23 }, { min: 40, temperatureC: 61.5 }];
    const reading = readScene(minimal({ testCups: [{ formula: 'general', massG: 100, roomC: 22, readings }, { formula: 'deep-pour', massG: 350, cup: 'paper', roomC: 22, readings, lid: true }] }));
    expect(reading.ok && reading.scene.testCups).toEqual([{ formula: 'general', massG: 100, cup: 'plastic', roomC: 22, readings }, { formula: 'deep-pour', massG: 350, cup: 'paper', roomC: 22, readings }]);
    expect(reading.ok && reading.notes.map(({ subject }) => subject)).toEqual(['testCups[1].lid']);
    expect(readScene(minimal({}))).toMatchObject({ ok: true, scene: { testCups: [] } });
  });
});

describe('migration', () => {
  const STEPS: readonly Migration[] = [
    { from: 1, step: ({ depth, ...rest }) => ({ ...rest, fillMm: depth }) },
    { from: 2, step: (document) => ({ ...document, name: `${document.name}!` }) },
  ];
  const old = Object.freeze({ format: 'stillpool.scene', version: 1, depth: 30, name: 'Pond', extra: 'kept' });

  it('runs the steps in order from the document’s version, keeps the rest and leaves the old document alone', () => {
    expect(migrate(old, STEPS, 3)).toEqual({ ok: true, document: { format: 'stillpool.scene', version: 3, fillMm: 30, name: 'Pond!', extra: 'kept' } });
    expect(migrate({ ...old, version: 2 }, STEPS, 3)).toMatchObject({ ok: true, document: { version: 3, depth: 30, name: 'Pond!' } });
    expect(migrate({ ...old, version: 3 }, STEPS, 3)).toMatchObject({ ok: true, document: { version: 3, depth: 30, name: 'Pond' } });
    expect(old).toEqual({ format: 'stillpool.scene', version: 1, depth: 30, name: 'Pond', extra: 'kept' });
  });

  it('says when there is no way', () => {
    expect(migrate({ ...old, version: 4 }, STEPS, 3)).toMatchObject({ ok: false, problem: { path: 'version', message: expect.stringContaining('found 4; this program reads up to 3.') } });
    expect(migrate({ ...old, version: 0 }, STEPS, 3)).toMatchObject({ ok: false, problem: { message: 'found 0; expected a whole number from 1 to 3.' } });
    expect(migrate(old, [STEPS[0]], 3)).toMatchObject({ ok: false, problem: { message: 'found 2; no step leads from it to 3.' } });
  });
});

describe('hostile documents end in a clear message, soon', () => {
  const timed = <T>(work: () => T): T => {
    const from = performance.now();
    const result = work();
    expect(performance.now() - from).toBeLessThan(BOUNDED_MS);
    return result;
  };

  it('10,000 placements', () => {
    const placements = Array.from({ length: 10_000 }, (_, i) => ({ id: `p${i}`, kind: 'plane', atMm: 1 }));
    expect(timed(() => refusals(minimal({ placements })))).toEqual(['placements: found a list of 10000; expected a list of at most 500.']);
  });

  it('lists that are far too long, and names', () => {
    expect(timed(() => refusals(minimal({ fills: Array.from({ length: 100_000 }, () => ({ toMm: 30, formula: 'general' })) })))).toEqual(['fills: found a list of 100000; expected a list of 1 to 200.']);
    const [line] = timed(() => refusals(minimal({ name: 'x'.repeat(10_000_000) })));
    expect(line.length).toBeLessThan(200);
  });

  it('brackets inside each other, parsed or not', () => {
    expect(() => timed(() => parseJson('['.repeat(1_000_000)))).toThrow(/brackets more than 100 deep/);
    let deep: unknown = 1;
    for (let i = 0; i < 99; i++) deep = { deep };
    expect(timed(() => readScene(minimal({ deep })))).toMatchObject({ ok: true });
  });

  it('a line of 50 MB', () => {
    const text = `{"format":"stillpool.scene","version":1,"name":"${'x'.repeat(50_000_000)}"}`;
    const lines = timed(() => {
      try {
        return refusals(parseJson(text));
      } catch (error) {
        return [(error as Error).message];
      }
    });
    for (const line of lines) expect(line.length).toBeLessThan(300);
    expect(lines.length).toBeGreaterThan(0);
  });

  it('keys that mean something to the language', () => {
    const document = parseJson('{"format":"stillpool.scene","version":1,"__proto__":{"fillMm":30},"constructor":1,"mold":{"shape":"box","lengthMm":200,"widthMm":120,"heightMm":60},"fills":[{"toMm":30,"formula":"general"}]}');
    expect(refusals(document)).toEqual([expect.stringMatching(/^fillMm: is missing; /)]);
    expect(refusals(minimal({ fills: [{ toMm: 30, formula: 'constructor' }] }))[0]).toMatch(/^fills\[0\]\.formula: found "constructor"/);
    expect(refusals(minimal({ fills: [{ toMm: 30, formula: '__proto__' }] }))[0]).toMatch(/^fills\[0\]\.formula: found "__proto__"/);
  });

  it('any JSON at all, in any field: never a throw (seed 46)', () => {
    const paths = ['mold', 'fillMm', 'fills', 'placements', 'formulas', 'heat', 'room', 'bench', 'cast', 'name', 'version', 'format'];
    fc.assert(
      fc.property(fc.constantFrom(...paths), fc.jsonValue({ maxDepth: 4 }), (path, value) => {
        const reading = readScene({ ...minimal(), [path]: value });
        if (!reading.ok) for (const { message } of reading.problems) expect(message).toMatch(/\S[.?]$/);
      }),
      { seed: 46, numRuns: 1000 },
    );
  });
});
