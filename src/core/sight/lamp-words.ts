/** Where a lamp stands, and other sides and places in the mold, in words. */
import type { Lamp } from '../scene/scene.ts';
import { listed, mm, plain } from '../units/format.ts';

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

/** From the mold's middle, looking down into it, to a millimeter: `17 mm to the left and 24 mm to the front`; null: there. */
export function awayWords(xMm: number, yMm: number): string | null {
  const away = [aside(xMm, 'right', 'left'), aside(yMm, 'back', 'front')].filter((words) => words !== null);
  return away.length === 0 ? null : listed(away);
}

function aside(value: number, plus: string, minus: string): string | null {
  return Math.abs(value) < 0.5 ? null : `${mm(Math.abs(value), 0)} to the ${value > 0 ? plus : minus}`;
}
