/**
 * When a piece is in the curing box. It goes in at the first bench moment once its newest pour is tacky: past gel, past its
 * peak, and nothing flows when it is carried. It comes out for the next work on it, and the next pour sets in the room.
 */
import { momentAfter } from '../../cure/equivalent-time.ts';
import { SETTLED_K } from '../../cure/windows.ts';
import type { Formula, Room, Scene } from '../../scene/scene.ts';
import { downToMinute, MINUTES_PER_HOUR, upToMinute } from '../../units/time.ts';
import type { BenchCalendar, Span } from '../bench-calendar.ts';
import type { Pace, PourTimes, ScheduledPour, Surfacing } from '../schedule.ts';
import { boxedRoom, coldestC } from './boxed-room.ts';

/** To carry a piece into its box or out of it (common practice, no source). */
export const MOVE_MIN = 5;
/** A piece that was in a warmer box stands in the room for so long before it is poured on (common practice, no source). */
const COOLS_MIN = 60;

type Place = Pick<Pace, 'scene' | 'box' | 'calendar'>;

/** From the start of a scuff to the pour, minutes: the scuff, and cooling where the box is warmer than the room by more than counts as cool. */
export function leadMinutes({ room, bench }: Scene, box: Pace['box']): number {
  const scuffMin = bench.scuffH * MINUTES_PER_HOUR;
  return box && box.temperatureC > coldestC(room) + SETTLED_K ? Math.max(scuffMin, COOLS_MIN) : scuffMin;
}

/** When a piece whose surface is tacky from a moment on is carried in; null: no bench hours hold it. */
export function movesIn({ fit }: BenchCalendar, opens: number): number | null {
  return fit(MOVE_MIN, opens);
}

/** The room around a pour that is left to cure once it is tacky: the box, where there is one. `before`: stays that are over. */
export function curingRoom({ scene: { room }, box, calendar }: Place, opens: number, before: readonly Span[] = []): Room {
  if (!box) return room;
  const from = movesIn(calendar, opens);
  return boxedRoom(room, box, from === null ? before : [...before, { from, to: Infinity }]);
}

/** Moments of a pour that is left to cure, by its label in that room. */
export function curedTimes(place: Place, formula: Formula, { ends, opens }: Pick<PourTimes, 'ends' | 'opens'>): Pick<PourTimes, 'scuffable' | 'paintable' | 'demold'> {
  const room = curingRoom(place, opens);
  const after = (hours: number) => upToMinute(momentAfter(room, ends, hours, formula.atC));
  return { scuffable: after(formula.scuffableH), paintable: after(formula.paintableH), demold: after(formula.demoldH) };
}

/** The stay after a pour until work begins on it; null where there is none. */
export function stayUntil({ box, calendar }: Place, { opens }: Pick<PourTimes, 'opens'>, workMin: number): Span | null {
  const from = box && movesIn(calendar, opens);
  return from !== null && from + MOVE_MIN < workMin ? { from, to: workMin } : null;
}

/** What a whole schedule comes to: where each pour stands in the box, until when it really bonds there, and when it comes out of the mold. */
export function withStays(place: Place, pours: readonly ScheduledPour[], after: Surfacing): ScheduledPour[] {
  const { scene: { room }, box } = place;
  const stays = pours.map((pour, i) => {
    const next = pours[i + 1];
    if (next?.route === 'wet-on-tacky') return null;
    return stayUntil(place, pour, (next ? next.before : after).scuff[0]?.from ?? Infinity);
  });
  const around = boxedRoom(room, box!, stays.filter((stay) => stay !== null));
  return pours.map((pour, i) => {
    const { formula, starts, ends, label, closesInBox } = pour;
    if (!formula) return pour;
    const demold = upToMinute(momentAfter(around, ends, formula.demoldH, formula.atC));
    const stay = stays[i];
    const closes = Math.min(label.closes, closesByLabel(around, formula, starts));
    return {
      ...pour,
      box: stay,
      closes: stay ? Math.min(pour.closes, closesInBox ?? closes) : pour.closes,
      // What warmth moved stays where it was moved to.
      demold: pour.demold > label.demold ? Math.max(demold, pour.demold) : demold,
      label: { ...label, demold, closes: stay ? closes : label.closes },
    };
  });
}

/** When a pour no longer bonds by its label, in the room around it. */
export function closesByLabel(around: Room, formula: Formula, starts: number): number {
  return downToMinute(momentAfter(around, starts, formula.bondClosesH, formula.atC));
}
