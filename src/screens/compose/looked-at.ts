/** A large mesh on its way in, in the picture as its lighter copy: in the middle of the floor, where it will be set. It can't be taken hold of. */
import type { Scene } from '../../core/scene/scene.ts';
import type { LookedAt } from '../../store/piece-state.ts';
import type { ViewSolid } from '../../view/props.ts';

/** No placement's: nobody types this letter. */
export const LOOKED_AT = '\u0000looked at';

export function sceneWith(scene: Scene, { name }: LookedAt): Scene {
  const guest = {
    kind: 'figure', id: LOOKED_AT, name, shape: { type: 'mesh', file: name },
    xMm: 0, yMm: 0, baseMm: 0, turnDeg: [0, 0, 0], scale: 1, hold: 'fixed', porous: false, sealed: true,
  } as const;
  return { ...scene, placements: [...scene.placements, guest] };
}

export function solidOf({ name, positions, indices }: LookedAt): ViewSolid {
  return { id: LOOKED_AT, kind: 'figure', name, positions, indices, turnZDeg: 0 };
}
