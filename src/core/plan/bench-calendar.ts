/**
 * When hands are at the bench: the weekly hours, merged, and the earliest place for a piece of work.
 * Moments are minutes since 2000-01-01T00:00 (core/units/time). Intervals include their ends.
 */
import type { BenchException, BenchHours, Room } from '../scene/scene.ts';
import { MINUTES_PER_DAY, weekdayOfDay } from '../units/time.ts';

export const WEEK_MIN = 7 * MINUTES_PER_DAY;
/** Waited through for a change of room or calendar, beside the week that follows it. */
const CHANGING_WAIT_MIN = 4 * WEEK_MIN;
/** 2000-01-03T00:00, a Monday. */
const MONDAY_MIN = 2 * MINUTES_PER_DAY;
/** Sums of hours leave noise far below this; a second is far below any meaning, minutes. */
export const SLACK_MIN = 1e-6;

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
  /** From here on every week is like the one before; −Infinity without exceptions. */
  readonly settledMin: number;
}

/**
 * Reads weekly hours: touching intervals are one, hours over midnight belong to the day they start. Exceptions replace the
 * hours of their days. Work that fits no weekly interval fits none: an exception’s longer hours are not waited for.
 */
export function benchCalendar(hours: readonly BenchHours[], exceptions: readonly BenchException[] = []): BenchCalendar {
  const week = mergedWeek(hours);
  const longestMin = week === 'always' ? Infinity : Math.max(...week.map((open) => open.to - open.from));
  const settledMin = exceptions.length === 0 ? -Infinity : (Math.max(...exceptions.map(({ toDay }) => toDay)) + 2) * MINUTES_PER_DAY;
  if (week === 'always' && exceptions.length === 0) {
    return { longestMin, settledMin, fit: (_length, from) => from, place: (length, from) => [{ from, to: from + length }], spans: (from) => [{ from, to: Infinity }] };
  }
  const weekly = (from: number): Iterable<Span> => (week === 'always' ? [{ from, to: Infinity }] : intervalsFrom(week, from));
  const around = exceptions.length === 0 ? null : spansAround(hours, exceptions, week === 'always');
  const openAt = (from: number): Iterable<Span> => (around && from <= around[around.length - 1].to ? intervalsAround(around, weekly, from) : weekly(from));
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
  return { longestMin, settledMin, fit, place, spans: openAt };
}

/** From when on room and calendar repeat weekly. */
export function settledMinOf({ profile }: Room, { settledMin }: BenchCalendar): number {
  return Math.max(profile.length > 0 ? profile[profile.length - 1].fromMin : -Infinity, settledMin);
}

/** The last start that is waited for, where the first is known: of a week from then on, or from when things settle. */
export function waitedUntil(firstMin: number, settledMin: number): number {
  return Math.max(firstMin, Math.min(settledMin, firstMin + CHANGING_WAIT_MIN)) + WEEK_MIN - 1;
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
  const merged = mergedSpans(opened);
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

/** Days before and after the exceptions that are laid out one by one: two weeks hold at least one whole interval. */
const AROUND_DAYS = 16;

/**
 * The merged intervals around the exceptions, whole ones only; the first and last reach out without end when the week
 * has none.
 */
function spansAround(hours: readonly BenchHours[], exceptions: readonly BenchException[], always: boolean): readonly Span[] {
  const first = Math.min(...exceptions.map(({ fromDay }) => fromDay)) - AROUND_DAYS;
  const last = Math.max(...exceptions.map(({ toDay }) => toDay)) + AROUND_DAYS;
  const opened: Span[] = [];
  for (let day = first; day <= last; day++) {
    const other = exceptions.findLast(({ fromDay, toDay }) => fromDay <= day && day <= toDay);
    for (const { fromMin, toMin } of other ? other.hours : hours.filter(({ days }) => days.includes(weekdayOfDay(day)))) {
      const from = day * MINUTES_PER_DAY + fromMin;
      opened.push({ from, to: from + (toMin > fromMin ? toMin - fromMin : toMin + MINUTES_PER_DAY - fromMin) });
    }
  }
  const merged = mergedSpans(opened);
  if (!always) return merged.slice(1, -1);
  merged[0] = { ...merged[0], from: -Infinity };
  merged[merged.length - 1] = { ...merged[merged.length - 1], to: Infinity };
  return merged;
}

/** The week’s intervals before those around the exceptions, those, and the week’s after them. */
function* intervalsAround(around: readonly Span[], weekly: (from: number) => Iterable<Span>, from: number): Generator<Span> {
  if (around[0].from > from) {
    for (const span of weekly(from)) {
      if (span.from >= around[0].from) break;
      yield span;
    }
  }
  for (const span of around) if (span.to >= from) yield span;
  const end = around[around.length - 1].to;
  if (end === Infinity) return;
  for (const span of weekly(end)) if (span.from > end) yield span;
}

/** Overlapping and touching intervals are one. */
function mergedSpans(opened: readonly Span[]): Span[] {
  const merged: { from: number; to: number }[] = [];
  for (const { from, to } of [...opened].sort((a, b) => a.from - b.from)) {
    const last = merged[merged.length - 1];
    if (last && from <= last.to) last.to = Math.max(last.to, to);
    else merged.push({ from, to });
  }
  return merged;
}
