/** The room as a piece has it that stands in a curing box at times: there it is as warm as the box, or as the room where that is warmer. */
import type { CuringBox, Room, RoomEntry } from '../../scene/scene.ts';
import { MINUTES_PER_DAY } from '../../units/time.ts';
import { benchCalendar, type Span } from '../bench-calendar.ts';

/** So long a box with hours of its own is followed; no wait is longer in a room that resin cures in. */
const FOLLOWED_MIN = 40 * MINUTES_PER_DAY;

/** `stays` in order and apart; the last may end at Infinity. A box that is off keeps no warmth. */
export function boxedRoom(room: Room, box: CuringBox, stays: readonly Span[]): Room {
  const warm = stays.flatMap((stay) => warmWithin(box, stay));
  if (warm.length === 0) return room;
  const edges = warm.flatMap(({ from, to }) => (to === Infinity ? [from] : [from, to]));
  const moments = [...new Set([...room.profile.map(({ fromMin }) => fromMin), ...edges])].sort((a, b) => a - b);
  let [entry, span] = [-1, 0];
  const profile = moments.map((fromMin): RoomEntry => {
    while (entry + 1 < room.profile.length && room.profile[entry + 1].fromMin <= fromMin) entry++;
    while (span < warm.length && warm[span].to <= fromMin) span++;
    const roomC = entry < 0 ? room.temperatureC : room.profile[entry].temperatureC;
    const isWarm = span < warm.length && warm[span].from <= fromMin;
    return { fromMin, temperatureC: isWarm ? Math.max(roomC, box.temperatureC) : roomC };
  });
  return { temperatureC: room.temperatureC, profile };
}

/** The part of a stay in which the box is warm. */
function warmWithin({ hours }: CuringBox, stay: Span): Span[] {
  if (hours.length === 0) return [stay];
  const found: Span[] = [];
  const end = Math.min(stay.to, stay.from + FOLLOWED_MIN);
  for (const { from, to } of benchCalendar(hours).spans(stay.from)) {
    if (from >= end) break;
    const span = { from: Math.max(from, stay.from), to: Math.min(to, end) };
    if (span.to > span.from) found.push(span);
    if (to >= end) break;
  }
  return found;
}

/** The box of a room, or null where it is never warmer than the room: then nothing is carried. */
export function boxOf(room: Room): CuringBox | null {
  const { box } = room;
  return box && box.temperatureC > coldestC(room) ? box : null;
}

export function coldestC({ temperatureC, profile }: Room): number {
  return profile.reduce((least, entry) => Math.min(least, entry.temperatureC), temperatureC);
}
