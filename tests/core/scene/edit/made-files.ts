/** Scene files for tests of edits: frozen to the bottom, with fields of nobody's planted everywhere. */
import type { SceneFile } from '../../../../src/core/scene/edit/file.ts';
import { randomScene } from '../../../plan/random-scenes.ts';

/** Freezes a value to the bottom: a mutation then throws. */
export function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    Object.values(value).forEach(frozen);
  }
  return value;
}

/** 200 × 120 × 60 mm, filled to 55 in two fills; two planes, a newt that rests on the upper, a slope. */
export function pond(change: Partial<SceneFile> = {}): SceneFile {
  return frozen<SceneFile>({
    format: 'stillpool.scene',
    version: 1,
    name: 'Pond',
    mold: { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60 },
    fillMm: 55,
    fills: [{ toMm: 30, formula: 'low-viscosity', tint: { color: '#2f6f73', percent: 0.1 } }, { toMm: 55, formula: 'general' }],
    placements: [
      { id: 'b1', kind: 'bed', name: 'Sand slope', shape: { type: 'wedge', lengthMm: 200, widthMm: 120, heightMm: 10 } },
      { id: 'p1', kind: 'plane', name: 'Lily shadows', atMm: 20 },
      { id: 'f1', kind: 'figure', name: 'Newt', shape: { type: 'box', lengthMm: 30, widthMm: 10, heightMm: 5 }, xMm: 10, yMm: -5, baseMm: 40, massG: 20 },
      { id: 'p2', kind: 'plane', name: 'Lily pads', atMm: 40 },
    ],
    ...change,
  });
}

/** A random scene in which every object carries a field that no version knows, by a mark that can be counted. */
export function randomFile(seed: number): SceneFile {
  const marked = mark(JSON.parse(JSON.stringify(randomScene(seed))) as SceneFile, { next: 0 });
  return frozen(marked);
}

export const MARK = 'x-marginalia';

function mark<T>(value: T, count: { next: number }): T {
  if (Array.isArray(value)) return value.map((item) => mark(item, count)) as T;
  if (typeof value !== 'object' || value === null) return value;
  const copy = Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, mark(inner, count)]));
  return { ...copy, [MARK]: { number: count.next++ } } as T;
}

/** The marks of a document, by where they sit: things and formulas by id, the rest by name. Fills come and go, so theirs are left out. */
export function marksOf(file: SceneFile): Map<string, unknown> {
  const marks = new Map<string, unknown>();
  const put = (where: string, object: object | undefined) => {
    if (object && Object.hasOwn(object, MARK)) marks.set(where, (object as Record<string, unknown>)[MARK]);
  };
  put('', file);
  put('mold', file.mold);
  put('room', file.room);
  put('bench', file.bench);
  put('heat', file.heat);
  for (const placement of file.placements ?? []) put(`thing ${placement.id}`, placement);
  for (const formula of file.formulas ?? []) put(`formula ${formula.id}`, formula);
  return marks;
}
