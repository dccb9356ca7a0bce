/**
 * How warm resin is when it is mixed. Warmed bottles shorten its minutes and make it hotter; cold ones are warmed by the
 * room and the stirring, and are never trusted to give more time than the room does.
 */
import type { Scene } from '../scene/scene.ts';
import { roomAt } from './equivalent-time.ts';

/** °C, of what is mixed at a moment. */
export function mixedAtC({ room, bench }: Pick<Scene, 'room' | 'bench'>, minute: number): number {
  return Math.max(roomAt(room, minute), bench.bottlesC ?? -Infinity);
}

/** The same where bottles are warmer than the room; undefined where the mix is as warm as the room. */
export function warmedMixC(scene: Pick<Scene, 'room' | 'bench'>, minute: number): number | undefined {
  const mixC = mixedAtC(scene, minute);
  return mixC > roomAt(scene.room, minute) ? mixC : undefined;
}
