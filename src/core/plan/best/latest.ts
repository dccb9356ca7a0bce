/** The last moment before a joint's route changes: the last start within the bench's hours and the window below. */
import { SLACK_MIN } from '../bench-calendar.ts';
import type { Pace, PourTimes } from '../schedule.ts';
import { awakeStarts } from '../sleep.ts';

/** Null: no pour fits the window. `opens`: when the pour is tacky, by its start; left out: whoever may sleep there. */
export function latestOnTacky({ calendar, pourMin, watchedMin, nights }: Pace, below: PourTimes, opens?: (startsMin: number) => number): number | null {
  let latest: number | null = null;
  for (const span of calendar.spans(below.opens)) {
    const from = Math.max(span.from, below.opens);
    if (from + pourMin > below.closes + SLACK_MIN) break;
    const to = Math.floor(Math.min(span.to - watchedMin, below.closes - pourMin) + SLACK_MIN);
    if (to >= from - SLACK_MIN) latest = (nights && opens ? awakeStarts(nights, opens, { from: Math.ceil(from - SLACK_MIN), to }).at(-1)?.to : to) ?? latest;
    if (span.to === Infinity) break;
  }
  return latest;
}
