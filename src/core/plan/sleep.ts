/**
 * Hours in which someone sleeps by the mold: no pour may be liquid then, from its start until it can be poured on. What
 * begins later is never tacky sooner; so where a start would reach into a night, every other before that night's end would.
 */
import type { Room } from '../scene/scene.ts';
import { benchCalendar, settledMinOf, waitedUntil, type BenchCalendar, type Span } from './bench-calendar.ts';
import type { Pace } from './schedule.ts';

/** Why there is no plan where nights leave none. */
export const NO_AWAKE_HOURS = {
  path: 'room.sleep',
  message: 'leaves no hours in which a pour can go from liquid to tacky; expected bench hours that far ahead of someone’s sleep there. Shorten the hours, choose a quicker formula, or cure it in another room.',
} as const;

/** Places work at the bench that holds a pour with its watch; the pour begins `leadMin` into it. Null: nowhere. */
export type PourFit = (lengthMin: number, from: number, leadMin?: number) => number | null;

/** Null: nobody sleeps there. */
export function nightsOf({ sleep = [] }: Room): BenchCalendar | null {
  return sleep.length > 0 ? benchCalendar(sleep) : null;
}

/** The night that a pour from one moment to the next is liquid in, the first of them; null: in none. */
export function nightOver(nights: BenchCalendar | null, startsMin: number, opensMin: number): Span | null {
  for (const night of nights?.spans(startsMin) ?? []) {
    if (night.to > startsMin) return night.from < opensMin ? night : null;
  }
  return null;
}

/** As early as the bench allows and no night forbids; the bench alone where nobody sleeps there. `opens`: when a pour that starts then is tacky. */
export function awakeFit({ scene: { room }, calendar, nights }: Pick<Pace, 'scene' | 'calendar' | 'nights'>, opens: (startsMin: number) => number, notBefore = -Infinity): PourFit {
  if (!nights) return calendar.fit;
  return (lengthMin, from, leadMin = 0) => {
    const first = calendar.fit(lengthMin, from);
    const until = first === null ? -Infinity : waitedUntil(first, settledMinOf(room, calendar));
    for (let at = Math.max(from, notBefore - leadMin); at <= until; ) {
      const begins = calendar.fit(lengthMin, at)!;
      if (begins > until) break;
      const night = nightOver(nights, begins + leadMin, opens(begins + leadMin));
      if (!night) return begins;
      at = night.to - leadMin;
    }
    return null;
  };
}

/** The parts of a stretch of whole minutes in which a pour may start. */
export function awakeStarts(nights: BenchCalendar, opens: (startsMin: number) => number, { from, to }: Span): readonly Span[] {
  const free: Span[] = [];
  let at = from;
  for (const night of nights.spans(from)) {
    const last = lastTackyBy(night.from, opens, { from: at, to: Math.min(to, night.from) });
    if (last >= at) free.push({ from: at, to: last });
    at = Math.max(at, Math.ceil(night.to));
    if (at > to) break;
  }
  return free;
}

function lastTackyBy(byMin: number, opens: (startsMin: number) => number, { from, to }: Span): number {
  let low = from - 1;
  let high = to + 1;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (opens(middle) <= byMin) low = middle;
    else high = middle;
  }
  return low;
}
