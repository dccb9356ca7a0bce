/** A sketch's strokes: each on a plane of the scene, and not more of them than anyone draws. */
import { shown } from './schema-problem.ts';
import type { Scene } from './scene.ts';
import { LIMITS, type SceneDocument } from './schema.ts';

/** Nothing where there are none. */
export function strokesOf({ strokes, placements }: SceneDocument, refuse: (path: string, message: string) => void): Pick<Scene, 'strokes'> {
  if (!strokes || strokes.length === 0) return {};
  const planes = new Set(placements.filter(({ kind }) => kind === 'plane').map(({ id }) => id));
  let points = 0;
  strokes.forEach((stroke, i) => {
    points += stroke.points.length;
    if (planes.has(stroke.plane)) return;
    refuse(`strokes[${i}].plane`, `found ${shown(stroke.plane)}; expected the id of a painted plane of this scene. Correct it, or take the stroke out.`);
  });
  if (points > LIMITS.allStrokePoints) {
    refuse('strokes', `found ${points} points in all; expected at most ${LIMITS.allStrokePoints}. Take strokes out, or draw them with fewer points.`);
  }
  return { strokes };
}
