/** How far a pour goes on curing in its room after it has cooled, and what it softens at then. */
import type { Room } from '../scene/scene.ts';
import { roomAt } from './equivalent-time.ts';
import { weightedQuantile } from './family-types.ts';
import { cureRate, type Kinetics } from './kinetics.ts';
import { glassC, softeningOf, type Softening } from './softening.ts';
import type { BuildPour } from './verdict-types.ts';

/** Steps of conversion; the last is cut where the time is up. */
const STEP_ALPHA = 0.004;

/** Over the family, after the label's time of full cure in the room as it is at the end of its profile or at the pour, whichever is cooler. */
export function softensOf(room: Room, { fromMin, formula }: BuildPour, members: readonly { kinetics: Kinetics; alpha: number }[], weights: readonly number[]): Softening {
  const lastC = room.profile.length > 0 ? room.profile[room.profile.length - 1].temperatureC : room.temperatureC;
  const roomC = Math.min(roomAt(room, fromMin), lastC);
  const glasses = members.map(({ kinetics, alpha }) => glassC(curedFor(kinetics, { alpha, roomC, hours: formula.fullCureH })));
  return softeningOf(weightedQuantile(glasses, weights, 0.05), weightedQuantile(glasses, weights, 0.95));
}

/** Conversion after some hours more at one temperature. */
function curedFor(kinetics: Kinetics, { alpha, roomC, hours }: { alpha: number; roomC: number; hours: number }): number {
  let [at, leftS] = [alpha, hours * 3600];
  while (at < 1 - STEP_ALPHA) {
    const neededS = STEP_ALPHA / cureRate(kinetics, at + STEP_ALPHA / 2, roomC);
    if (!(neededS < leftS)) return at + (STEP_ALPHA * leftS) / neededS;
    leftS -= neededS;
    at += STEP_ALPHA;
  }
  return at;
}
