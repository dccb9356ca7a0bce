/** Drawing on a painted plane: strokes drawn, rubbed out, taken out; all kept in one list, in the order they were drawn. */
import { erased, type Eraser } from '../../sight/sketch/erase.ts';
import { keptPoints } from '../../sight/sketch/simplify.ts';
import type { Stroke } from '../scene.ts';
import { LIMITS } from '../schema.ts';
import { done, refused, type EditResult, type SceneFile, type StrokeFile } from './file.ts';
import { isOurs } from './ours.ts';
import { patched, unlessEmpty } from './replace.ts';
import { sketchOf, strokesOf } from './sketch.ts';
import { isLocked, nameOf, spoken, thing } from './things.ts';

/** Adds a stroke as the hand drew it: kept within a tenth of a millimeter, with few points (simplify.ts). */
export function drawStroke(file: SceneFile, { plane, ink, widthMm, softMm, points }: Stroke): EditResult {
  return withSketch(file, plane, (strokes) => {
    if (strokes.length >= LIMITS.strokes) return refused(`A scene holds ${LIMITS.strokes} strokes at most. Rub some out first.`);
    return [...strokes, { plane, ink, widthMm, softMm, points: keptPoints({ widthMm, points }) }];
  }, 'a stroke');
}

/** Rubs out along a line; the file itself where nothing was touched. */
export function eraseAlong(file: SceneFile, planeId: string, eraser: Eraser): EditResult {
  return withSketch(file, planeId, (strokes) => {
    const touched = new Map(sketchOf(file, planeId).map((stroke) => [stroke.at, erased([stroke], eraser)]));
    return strokes.flatMap((stroke, at) => {
      const left = touched.get(at);
      return !left || (left.length === 1 && left[0].points === stroke.points) ? [stroke] : left.map(({ points }) => patched(stroke, { points }));
    });
  }, 'rubbed out');
}

/** Takes out strokes by their places in the file. */
export function takeStrokesOut(file: SceneFile, planeId: string, places: readonly number[]): EditResult {
  const gone = new Set(places);
  return withSketch(file, planeId, (strokes) => strokes.filter(({ plane }, at) => plane !== planeId || !gone.has(at)), gone.size === 1 ? 'a stroke taken out' : `${gone.size} strokes taken out`);
}

function withSketch(file: SceneFile, planeId: string, change: (strokes: readonly StrokeFile[]) => readonly StrokeFile[] | { readonly ok: false; readonly reason: string }, words: string): EditResult {
  const plane = thing(file, planeId);
  if (plane?.kind !== 'plane') return refused('That plane is no longer there.');
  if (isLocked(plane)) return refused(`${nameOf(plane)} is locked. Unlock it first.`);
  if (!isOurs(file, 'strokes')) return refused('This file holds strokes in a form this version does not know. They are kept as they are, and no others can be drawn beside them.');
  const before = strokesOf(file);
  const strokes = change(before);
  if ('ok' in strokes) return strokes;
  const same = strokes.length === before.length && strokes.every((stroke, i) => stroke === before[i]);
  const after = same ? file : patched(file, { strokes: unlessEmpty(strokes) });
  return done(after, `${spoken(nameOf(plane))}: ${words}`, `the sketch on ${nameOf(plane)}`);
}
