/** Where a plan has its piece, for those who run its heat again: the chart, the look in three dimensions. */
import type { BuildPour } from '../../cure/verdict-types.ts';
import type { Room } from '../../scene/scene.ts';
import { parseLocalTime } from '../../units/time.ts';
import type { Span } from '../bench-calendar.ts';
import type { Pour } from '../plan.ts';
import { boxedRoom } from './boxed-room.ts';

/** What is around a piece from its first pour to its last day. */
export function roomOfPlan(room: Room, pours: readonly Pick<Pour, 'box'>[]): Room {
  return room.box ? boxedRoom(room, room.box, staysOf(pours)) : room;
}

/** How a pour was judged, by its place: its mix, and what was then known of its places. */
export function judgedAs(room: Room, pours: readonly Pick<Pour, 'box' | 'mixC'>[], index: number): Pick<BuildPour, 'mixC' | 'room'> {
  const { mixC, box } = pours[index];
  const stays = staysOf(pours.slice(0, index + 1));
  if (!room.box || stays.length === 0) return { mixC };
  // When it would come out was not known yet.
  return { mixC, room: boxedRoom(room, room.box, box ? [...stays.slice(0, -1), { ...stays[stays.length - 1], to: Infinity }] : stays) };
}

function staysOf(pours: readonly Pick<Pour, 'box'>[]): Span[] {
  return pours.flatMap(({ box }) => (box ? [{ from: parseLocalTime(box.from)!, to: parseLocalTime(box.to)! }] : []));
}
