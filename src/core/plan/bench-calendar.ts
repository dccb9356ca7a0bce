/**
 * When hands are at the bench: the weekly hours, merged, and the earliest place for a piece of work.
 * Moments are minutes since 2000-01-01T00:00 (core/units/time). Intervals include their ends.
 */
import type { BenchHours } from '../scene/scene.ts';
import { MINUTES_PER_DAY } from '../units/time.ts';

const WEEK_MIN = 7 * MINUTES_PER_DAY;
/** 2000-01-03T00:00, a Monday. */
const MONDAY_MIN = 2 * MINUTES_PER_DAY;
/** Sums of hours leave noise far below this; a second is far below any meaning. */
const SLACK_MIN = 1e-6;

export interface Span {
  readonly from: number;
  readonly to: number;
}

export interface BenchCalendar {
  /** Length of the longest single interval, minutes; Infinity when the bench never closes. */
  readonly longestMin: number;
  /** Earliest start at or after `from` of work that must lie within one interval; null when it fits none. */
  fit(lengthMin: number, from: number): number | null;
  /** Where work lies that starts at or after `from`: one span, or, when longer than any interval, several. */
  place(lengthMin: number, from: number): Span[];
  /** Open intervals in order, from the one that holds `from` or follows it; without end, or one without end when the bench never closes. */
  spans(from: number): Iterable<Span>;
}

/** Reads weekly hours: touching intervals are one, hours over midnight belong to the day they start. */
export function benchCalendar(hours: readonly BenchHours[]): BenchCalendar {
  const week = mergedWeek(hours);
  if (week === 'always') {
    return { longestMin: Infinity, fit: (_length, from) => from, place: (length, from) => [{ from, to: from + length }], spans: (from) => [{ from, to: Infinity }] };
  }
  const longestMin = Math.max(...week.map((open) => open.to - open.from));
  const openAt = (from: number) => intervalsFrom(week, from);
  const fit = (lengthMin: number, from: number): number | null => {
    if (lengthMin > longestMin + SLACK_MIN) return null;
    for (const open of openAt(from)) {
      const start = Math.max(from, open.from);
      if (start + lengthMin <= open.to + SLACK_MIN) return start;
    }
    return null;
  };
  const place = (lengthMin: number, from: number): Span[] => {
    const start = fit(lengthMin, from);
    if (start !== null) return [{ from: start, to: start + lengthMin }];
    const spans: Span[] = [];
    let left = lengthMin;
    for (const open of openAt(from)) {
      const begin = Math.max(from, open.from);
      if (open.to - begin <= SLACK_MIN) continue;
      const end = Math.min(open.to, begin + left);
      spans.push({ from: begin, to: end });
      left -= end - begin;
      if (left <= SLACK_MIN) break;
    }
    return spans;
  };
  return { longestMin, fit, place, spans: openAt };
}

/** One week's merged intervals, as minutes after Monday 00:00; one may end in the next week. */
function mergedWeek(hours: readonly BenchHours[]): readonly Span[] | 'always' {
  const opened: Span[] = [];
  for (let week = 0; week < 3; week++) {
    for (const { days, fromMin, toMin } of hours) {
      const length = toMin > fromMin ? toMin - fromMin : toMin + MINUTES_PER_DAY - fromMin;
      for (const day of days) {
        const from = week * WEEK_MIN + day * MINUTES_PER_DAY + fromMin;
        opened.push({ from, to: from + length });
      }
    }
  }
  opened.sort((a, b) => a.from - b.from);
  const merged: { from: number; to: number }[] = [];
  for (const { from, to } of opened) {
    const last = merged[merged.length - 1];
    if (last && from <= last.to) last.to = Math.max(last.to, to);
    else merged.push({ from, to });
  }
  if (merged.some(({ from, to }) => to - from >= WEEK_MIN)) return 'always';
  // Those that start in the middle week are whole: nothing before or after is cut off.
  return merged.filter(({ from }) => from >= WEEK_MIN && from < 2 * WEEK_MIN).map(({ from, to }) => ({ from: from - WEEK_MIN, to: to - WEEK_MIN }));
}

/** Open intervals in order, from the one that holds `from` or follows it; without end. */
function* intervalsFrom(week: readonly Span[], from: number): Generator<Span> {
  const first = Math.floor((from - MONDAY_MIN) / WEEK_MIN) - 1;
  for (let number = first; ; number++) {
    const monday = MONDAY_MIN + number * WEEK_MIN;
    for (const open of week) {
      if (monday + open.to >= from) yield { from: monday + open.from, to: monday + open.to };
    }
  }
}
