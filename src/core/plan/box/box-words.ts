/** What the steps say of the curing box. Trade facts: common practice, no source. */
import { SETTLED_K } from '../../cure/windows.ts';
import { plain } from '../../units/format.ts';
import { dayAndTime } from '../../units/when.ts';
import type { Planned, PlannedPour } from '../context.ts';
import { coldestC } from './boxed-room.ts';

export const NOT_YET = 'Leave it covered in the room until it is tacky: a gloved knuckle leaves a mark and nothing comes off. Then it goes into the curing box.';

export function intoBox({ scene: { room } }: Planned, { index }: PlannedPour): string {
  return `Into the curing box at ${plain(room.box!.temperatureC)}\u00a0°C, pour ${index} with its witness coin: only once it is tacky and no longer warm to the back of your hand, so that its own heat is past and nothing runs. Carry it level and covered. Thermometer beside it; no kitchen oven, no open heater, nothing that heats unwatched without a thermostat.`;
}

export function inBox({ scene }: Planned, pour: PlannedPour, next: 'pour' | 'scuff' | 'demold'): string {
  if (next === 'scuff') return `Leave it in the box until the witness coin in there sands to powder, not before ${dayAndTime(pour.scuffable)}.`;
  return scene.mold.keep ? `Leave it in the box until ${dayAndTime(pour.demold)}.` : `Leave it in the box, in its mold, until ${dayAndTime(pour.demold)} at the earliest. Let it cool in the room before it comes out.`;
}

/** Before work on what comes out of it. */
export function outOfBox({ scene: { room } }: Planned): string {
  const cools = room.box!.temperatureC > coldestC(room) + SETTLED_K;
  return cools ? 'Take it out of the box; it cools in the room for an hour before a pour. ' : 'Take it out of the box. ';
}
