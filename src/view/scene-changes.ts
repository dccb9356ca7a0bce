/** What is different between two scenes, or between a drag's end and its beginning, as the picture needs to know it. */

import type { Scene } from '../core/scene/scene.ts';
import { standingIn } from './places.ts';
import type { Place, ViewChange } from './props.ts';

/** Whether a solid is in the mold once it is poured up to a level: things that rest wait for their surface. */
export function isSetBy(placement: Scene['placements'][number], baseMm: number, levelMm: number): boolean {
  return placement.kind === 'plane' || placement.hold !== 'rests' || baseMm < levelMm || baseMm === 0;
}

/** Read anew from the same document a mold is another object with the same sizes. */
export function sameMold(a: Scene['mold'], b: Scene['mold']): boolean {
  return a === b || JSON.stringify(a) === JSON.stringify(b);
}

/** Whether a solid or a creature stands elsewhere in the second scene. */
export function hasMoved(before: Scene, now: Scene): boolean {
  const places = new Map(standingIn(before).map((standing) => [standing.id, standing]));
  return standingIn(now).some((standing) => {
    const old = places.get(standing.id);
    return old && (['xMm', 'yMm', 'baseMm'] as const).some((k) => standing[k] !== old[k]);
  });
}

/** The values from before the drag, for the fields it changed. */
export function startOf(change: ViewChange, place: Place): ViewChange {
  return {
    id: change.id,
    ...(change.xMm === undefined ? {} : { xMm: place.xMm }), ...(change.yMm === undefined ? {} : { yMm: place.yMm }),
    ...(change.baseMm === undefined ? {} : { baseMm: place.baseMm }), ...(change.turnZDeg === undefined ? {} : { turnZDeg: place.turnZDeg }),
  };
}
