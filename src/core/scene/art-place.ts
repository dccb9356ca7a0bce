/** Where a plane's picture lies as one looks down into the mold, face-up and face-down. */
import type { Scene } from './scene.ts';

/** Where art is seen from above in the mold. */
export interface ArtPlace {
  readonly xMm: number;
  readonly yMm: number;
  readonly turnDeg: number;
  readonly mirror: boolean;
}

/**
 * The file holds what the viewer will see. A face-down casting is seen from its floor, so from above picture and
 * turn are mirrored left-right about the art's own center. Twice is the original, turns of a whole circle aside.
 */
export function artInMold({ xMm, yMm, turnDeg, mirror }: ArtPlace, cast: Scene['cast']): ArtPlace {
  return cast === 'face-up' ? { xMm, yMm, turnDeg, mirror } : { xMm, yMm, turnDeg: turnDeg === 0 ? 0 : -turnDeg, mirror: !mirror };
}
