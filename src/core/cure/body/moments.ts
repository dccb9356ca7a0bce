/** When something happens to a body: a pour, another room. */
import type { Body, BodyRoom } from './body.ts';

/** s. Moments nearer than this are one. */
export const SAME_MOMENT_S = 1e-6;

export interface Moment {
  readonly atS: number;
  readonly pours: number[];
}

/** Pours and changes of the room, in order, from the first pour to the end. */
export function momentsOf({ pours, room, endS }: Body): Moment[] {
  const moments: Moment[] = [];
  const events = [...pours.map(({ atS }, pour) => ({ atS, pour })), ...room.map(({ fromS }) => ({ atS: fromS, pour: -1 }))];
  for (const { atS, pour } of events.filter(({ atS }) => atS >= pours[0].atS && atS < endS).sort((a, b) => a.atS - b.atS || a.pour - b.pour)) {
    const last = moments.at(-1);
    const moment = last && atS - last.atS <= SAME_MOMENT_S ? last : { atS, pours: [] };
    if (moment !== last) moments.push(moment);
    if (pour >= 0) moment.pours.push(pour);
  }
  return moments;
}

export function roomAt(room: BodyRoom, atS: number): number {
  let now = room[0].temperatureC;
  for (const { fromS, temperatureC } of room) if (fromS <= atS + SAME_MOMENT_S) now = temperatureC;
  return now;
}
