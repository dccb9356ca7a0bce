/** Sketching on planes: what the file holds after each edit, what is refused, and that nothing drawn is lost. */
import { describe, expect, it } from 'vitest';
import { paintFigure, removeCreature, spacePlanes } from '../../../../src/core/scene/edit/creature.ts';
import type { EditResult, SceneFile, StrokeFile } from '../../../../src/core/scene/edit/file.ts';
import { duplicate, remove, setLocked } from '../../../../src/core/scene/edit/keep.ts';
import { sketchOf, strokesOf } from '../../../../src/core/scene/edit/sketch.ts';
import { drawStroke, eraseAlong, takeStrokesOut } from '../../../../src/core/scene/edit/strokes.ts';
import { thing } from '../../../../src/core/scene/edit/things.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import { LIMITS } from '../../../../src/core/scene/schema.ts';
import { frozen, pond } from './made-files.ts';

const line: StrokeFile = { plane: 'p1', ink: '#a5502c', widthMm: 2, softMm: 0.5, points: [[-20, 0, 1], [20, 0, 1]] };
const sketched = (more: Partial<SceneFile> = {}) => pond({ strokes: [line, { ...line, plane: 'p2', note: 'mine' } as StrokeFile], ...more });
const problems = (document: unknown) => {
  const reading = readScene(document);
  return reading.ok ? [] : reading.problems.map(({ path, message }) => `${path}: ${message}`);
};

function ok<R extends EditResult>(result: R): Extract<R, { ok: true }> {
  if (!result.ok) throw new Error(result.reason);
  frozen(result.file);
  return result as Extract<R, { ok: true }>;
}

describe('drawing', () => {
  it('adds a stroke with few points, on its plane alone', () => {
    const points = Array.from({ length: 300 }, (_, i) => [i / 10, Math.sin(i / 30) * 5, 1] as const);
    const { file, label } = ok(drawStroke(pond(), { plane: 'p1', ink: '#1c292d', widthMm: 1.5, softMm: 0.4, points }));
    expect(label).toBe('lily shadows: a stroke');
    expect(sketchOf(file, 'p2')).toEqual([]);
    const [only] = sketchOf(file, 'p1');
    expect(only.points.length).toBeLessThan(40);
    expect([only.points[0], only.points.at(-1)]).toEqual([[0, 0, 1], [29.9, Number((Math.sin(299 / 30) * 5).toFixed(2)), 1]]);
    expect(JSON.parse(JSON.stringify(file))).toEqual(file);
  });

  it('rubs out by splitting, leaves other planes and unknown fields, and is the same file where it touches nothing', () => {
    const before = sketched();
    const { file } = ok(eraseAlong(before, 'p1', { path: [[0, 0]], radiusMm: 4 }));
    expect(file.strokes).toEqual([{ ...line, points: [[-20, 0, 1], [-5, 0, 1]] }, { ...line, points: [[5, 0, 1], [20, 0, 1]] }, before.strokes![1]]);
    expect(ok(eraseAlong(before, 'p1', { path: [[0, 50]], radiusMm: 4 })).file).toBe(before);
    expect(ok(eraseAlong(before, 'p1', { path: [[-30, 0], [30, 0]], radiusMm: 4 })).file.strokes).toEqual([before.strokes![1]]);
  });

  it('takes strokes out by their places, and the list with the last', () => {
    const { file } = ok(takeStrokesOut(sketched(), 'p1', [0, 1]));
    expect(strokesOf(file).map(({ plane }) => plane)).toEqual(['p2']);
    expect(Object.hasOwn(ok(takeStrokesOut(file, 'p2', [0])).file, 'strokes')).toBe(false);
  });

  it('is refused on what is no plane, on a locked one and past what a scene holds', () => {
    const refusal = (result: EditResult) => (result.ok ? '' : result.reason);
    const stroke = { ...line, widthMm: 2, softMm: 0.5 };
    expect(refusal(drawStroke(pond(), { ...stroke, plane: 'f1' }))).toBe('That plane is no longer there.');
    expect(refusal(drawStroke(ok(setLocked(pond(), ['p1'], true)).file, stroke))).toBe('Lily shadows is locked. Unlock it first.');
    expect(refusal(drawStroke(pond(), { ...stroke, widthMm: 0 }))).toContain('found 0; expected a number from 0.1 to 50 mm');
    const full = pond({ strokes: Array.from({ length: LIMITS.strokes }, () => ({ ...line, points: [[0, 0, 1] as const] })) });
    expect(refusal(drawStroke(full, stroke))).toBe('A scene holds 5000 strokes at most. Rub some out first.');
  });
});

describe('with its plane', () => {
  it('a sketch leaves, and is copied', () => {
    expect(ok(remove(sketched(), ['p1'])).file.strokes).toEqual([sketched().strokes![1]]);
    const { file, ids } = ok(duplicate(sketched(), ['p2', 'f1']));
    expect(strokesOf(file).map(({ plane }) => plane)).toEqual(['p1', 'p2', ids.find((id) => id.startsWith('p'))]);
  });

  it('a creature’s plane that was sketched on is no longer its own: it stays where the sketch is', () => {
    const painted = ok(paintFigure(pond({ placements: [{ id: 'f1', kind: 'figure', name: 'Newt', shape: { type: 'box', lengthMm: 30, widthMm: 10, heightMm: 14 }, baseMm: 22, massG: 20 }] }), 'f1', { gapMm: 4, tallMm: 14, minDepthMm: 3 }));
    const [creatureId, planeId] = painted.ids;
    const { file } = ok(drawStroke(painted.file, { plane: planeId, ink: '#1c292d', widthMm: 2, softMm: 0, points: [[0, 0, 1], [5, 5, 1]] }));
    for (const after of [ok(removeCreature(file, creatureId)).file, ok(spacePlanes(file, creatureId, { gapMm: 7, tallMm: 14, minDepthMm: 3 })).file]) {
      expect(thing(after, planeId)).toMatchObject({ atMm: (thing(file, planeId) as { atMm: number }).atMm });
      expect(after.strokes).toEqual(file.strokes);
    }
  });
});

describe('a file with strokes', () => {
  it('is read with the usual brush, in order', () => {
    const reading = readScene(pond({ strokes: [{ plane: 'p2', ink: '#a5502c', points: [[1, 2, 0]] }] }));
    expect(reading.ok && reading.scene.strokes).toEqual([{ plane: 'p2', ink: '#a5502c', widthMm: 2, softMm: 0.5, points: [[1, 2, 0]] }]);
    expect(reading.ok && reading.notes).toEqual([]);
  });

  it('is refused with its path where a stroke can’t be', () => {
    expect(problems(pond({ strokes: [line, { ...line, plane: 'p9' }] }))).toEqual(['strokes[1].plane: found "p9"; expected the id of a painted plane of this scene. Correct it, or take the stroke out.']);
    expect(problems(pond({ strokes: [{ ...line, plane: 'f1' }] }))[0]).toContain('strokes[0].plane: found "f1"');
    expect(problems(pond({ strokes: [{ ...line, ink: 'rust' }] }))[0]).toBe('strokes[0].ink: found "rust"; expected a color like "#2f6f73".');
    for (const points of [[], [[0, 0]], [[0, 0, 1.2]], [[0, 0, -0.1]], [[0, 20_000, 1]], [[0, null, 1]], [{ x: 1, y: 2 }], 'M 0 0']) {
      expect(problems({ ...pond(), strokes: [{ ...line, points }] })[0], JSON.stringify(points)).toMatch(/^strokes\[0\]\.points: found .*; expected a list of 1 to 20000 points like \[x, y, pressure\]/);
    }
  });

  it('of a million points, or a million strokes, is refused in a moment', () => {
    const million = Array.from({ length: 1_000_000 }, () => [0, 0, 1]);
    const before = process.cpuUsage();
    expect(problems({ ...pond(), strokes: [{ ...line, points: million }] })[0]).toContain('found a list of 1000000');
    expect(problems({ ...pond(), strokes: Array.from({ length: 50 }, () => ({ ...line, points: million.slice(0, 20_000) })) })[0]).toBe('strokes: found 1000000 points in all; expected at most 100000. Take strokes out, or draw them with fewer points.');
    expect(problems({ ...pond(), strokes: million.map(() => line) })[0]).toContain('expected a list of at most 5000');
    expect(process.cpuUsage(before).user / 1e6).toBeLessThan(5);
  });

  it('in somebody else’s form is kept, told and never drawn over', () => {
    const foreign = pond({ strokes: [{ layer: 1, path: 'M 0 0 L 5 5' }] as unknown as readonly StrokeFile[] });
    const reading = readScene(foreign);
    expect(reading.ok && reading.notes.map(({ code, subject }) => `${code} ${subject}`)).toEqual(['unknown-field strokes']);
    expect(reading.ok && reading.scene.strokes).toBeUndefined();
    expect(drawStroke(foreign, { ...line, widthMm: 2, softMm: 0.5 })).toMatchObject({ ok: false });
    expect(ok(remove(foreign, ['p1'])).file.strokes).toBe(foreign.strokes);
  });
});
