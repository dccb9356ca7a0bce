/** Where a lamp stands, and other sides of the mold, in words. */
import type { Lamp } from '../scene/scene.ts';
import { plain } from '../units/format.ts';

const SIDES = ['right', 'back right', 'back', 'back left', 'left', 'front left', 'front', 'front right'] as const;
/** Degrees. A lamp as high as this stands straight over the piece. */
const STRAIGHT_DEG = 89.5;

/** Which side of the mold, looking down into it. */
export function sideWords(deg: number): string {
  return SIDES[((Math.round(deg / 45) % 8) + 8) % 8];
}

export function lampWords({ fromDeg, aboveDeg }: Lamp): string {
  return aboveDeg >= STRAIGHT_DEG ? 'a lamp straight over the face' : `a lamp ${plain(aboveDeg, 0)}° over the face, from the ${sideWords(fromDeg)}`;
}
