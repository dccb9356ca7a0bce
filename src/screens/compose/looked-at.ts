/** A large mesh on its way in, in the picture as its lighter copy, where it will be set. It can't be taken hold of. */
import type { SceneFile } from '../../core/scene/edit/file.ts';
import type { Scene } from '../../core/scene/scene.ts';
import type { Derived, LookedAt } from '../../store/piece-state.ts';
import type { ViewSolid } from '../../view/props.ts';
import { landingOf } from './landing.ts';
import { sceneNow } from './scene-now.ts';

/** No placement's: nobody types this letter. */
export const LOOKED_AT = '\u0000looked at';

export function sceneWith(file: SceneFile, derived: Derived, { name, positions }: LookedAt): Scene {
  const { xMm = 0, yMm = 0, baseMm = 0 } = landingOf(file, derived, sizeOf(positions));
  const guest = {
    kind: 'figure', id: LOOKED_AT, name, shape: { type: 'mesh', file: name },
    xMm, yMm, baseMm, turnDeg: [0, 0, 0], scale: 1, hold: 'fixed', porous: false, sealed: true,
  } as const;
  const scene = sceneNow(file, derived);
  return { ...scene, placements: [...scene.placements, guest] };
}

export function solidOf({ name, positions, indices }: LookedAt): ViewSolid {
  return { id: LOOKED_AT, kind: 'figure', name, positions, indices, turnZDeg: 0 };
}

function sizeOf(positions: Float32Array): [number, number, number] {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < positions.length; i++) {
    const k = i % 3;
    if (positions[i] < min[k]) min[k] = positions[i];
    if (positions[i] > max[k]) max[k] = positions[i];
  }
  return [max[0] - min[0], max[1] - min[1], max[2] - min[2]];
}
