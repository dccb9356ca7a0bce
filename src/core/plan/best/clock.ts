/**
 * When the next pour may start after one that started within a stretch of minutes: in its bond window, after curing and
 * scuffing, or over painted planes. Every way and every wait at once, as stretches of whole minutes.
 *
 * A start must lie within bench hours with its watch. After the window, one may wait a week longer than one must: once the
 * room and the calendar no longer change, more waiting only repeats a week. While they still change, up to four weeks more.
 */
import { rateAt, roomAt } from '../../cure/equivalent-time.ts';
import type { Formula, Plane } from '../../scene/scene.ts';
import { MINUTES_PER_HOUR } from '../../units/time.ts';
import { settledMinOf, SLACK_MIN, waitedUntil, type Span } from '../bench-calendar.ts';
import { paintAndDry, scuffPaintDry, scuffThenPour, timesAt, type Pace, type PourTimes } from '../schedule.ts';

export interface Clock {
  /** From here on every week is like the one before. */
  readonly settledMin: number;
  times(formula: Formula, startMin: number): PourTimes;
  /** Starts of the first pour. */
  first(floor: readonly Plane[], startMin: number): readonly Span[];
  /** Starts onto the tacky surface of a pour that started at any minute of a stretch. */
  wet(formula: Formula, below: Span): readonly Span[];
  /** Starts onto a pour that was scuffed, and where planes are given painted, from its own start on. */
  cured(formula: Formula, belowMin: number, planes: readonly Plane[]): readonly Span[];
  /** The earliest start of the pour below, within a stretch of them, whose window still holds a start. */
  earliestBelow(formula: Formula, below: Span, startMin: number): number;
}

export function clockOf(pace: Pace): Clock {
  const { scene, calendar, pourMin, watchedMin, scuffMin, leadMin } = pace;
  const { room } = scene;
  const settledMin = settledMinOf(room, calendar);
  const known = new Map<Formula, Known>();
  const of = (formula: Formula): Known => {
    const found = known.get(formula) ?? { times: new Map(), wet: new Map(), cured: new Map(), wide: isWide(pace, formula) };
    known.set(formula, found);
    return found;
  };

  const times = (formula: Formula, startMin: number): PourTimes => {
    const { times: memo } = of(formula);
    const found = memo.get(startMin) ?? timesAt(pace, formula, startMin);
    memo.set(startMin, found);
    return found;
  };
  /** First and last start onto what started at a minute; the window may be empty, or shut by the bench. */
  const opensAt = (formula: Formula, s: number) => times(formula, s).opens;
  const shutsAt = (formula: Formula, s: number) => Math.floor(times(formula, s).closes - pourMin + SLACK_MIN);

  /** Starts at or after a moment that leave `beforeMin` of bench before them, for a week from the first on, or until things settle. */
  const startsFrom = (fromMin: number, beforeMin: number): Span[] => {
    const found: Span[] = [];
    if (beforeMin + watchedMin > calendar.longestMin + SLACK_MIN) return found;
    let until = Infinity;
    for (const span of calendar.spans(fromMin - beforeMin)) {
      const from = Math.ceil(Math.max(span.from + beforeMin, fromMin) - SLACK_MIN);
      if (from > until) break;
      const to = Math.floor(span.to - watchedMin + SLACK_MIN);
      if (to < from) continue;
      if (until === Infinity) until = waitedUntil(from, settledMin);
      found.push({ from, to: Math.min(to, until) });
      if (to >= until) break;
    }
    return found;
  };
  /** The part of a stretch of starts that lies within bench hours. */
  const onBench = ({ from, to }: Span): Span[] => {
    const found: Span[] = [];
    for (const span of calendar.spans(from)) {
      if (span.from > to) break;
      const first = Math.max(from, Math.ceil(span.from - SLACK_MIN));
      const last = Math.min(to, Math.floor(span.to - watchedMin + SLACK_MIN));
      if (first <= last) found.push({ from: first, to: last });
    }
    return found;
  };

  const windowsOver = (formula: Formula, below: Span): Span[] => {
    const whole = { from: opensAt(formula, below.from), to: shutsAt(formula, below.to) };
    if (of(formula).wide) return [whole];
    const { opens, closes } = times(formula, below.to);
    if (isSteady(room, below.from, Math.max(opens, closes))) return whole.from <= shutsAt(formula, below.from) ? [whole] : [];
    return windowsOf(below, (s) => ({ from: opensAt(formula, s), to: shutsAt(formula, s) }));
  };
  const wet = (formula: Formula, below: Span): readonly Span[] => {
    const { wet: memo } = of(formula);
    const key = `${below.from} ${below.to}`;
    const found = memo.get(key) ?? windowsOver(formula, below).flatMap(onBench);
    memo.set(key, found);
    return found;
  };

  return {
    settledMin,
    times,
    first: (floor, startMin) => startsFrom(floor.length > 0 ? paintAndDry(calendar, floor, startMin).dry!.to : startMin, 0),
    wet,
    cured: (formula, belowMin, planes) => {
      const { cured: memo } = of(formula);
      const key = planes.length > 0 ? `${belowMin} ${planes.map(({ id, dryH }) => `${id} ${dryH}`).join(' ')}` : `${belowMin}`;
      const known = memo.get(key);
      if (known) return known;
      const { scuffable, paintable } = times(formula, belowMin);
      let found: Span[];
      if (planes.length > 0) found = startsFrom(scuffPaintDry(calendar, planes, Math.max(paintable, scuffable), scuffMin).dry!.to, 0);
      else if (leadMin + watchedMin <= calendar.longestMin + SLACK_MIN) found = startsFrom(scuffable + leadMin, leadMin);
      else found = startsFrom(scuffThenPour(pace, scuffable, calendar.fit)!.starts, 0);
      memo.set(key, found);
      return found;
    },
    earliestBelow: (formula, below, startMin) => firstWhere(below, (s) => shutsAt(formula, s) >= startMin),
  };
}

interface Known {
  readonly times: Map<number, PourTimes>;
  readonly wet: Map<string, readonly Span[]>;
  readonly cured: Map<string, readonly Span[]>;
  /** Its windows overlap from each minute to the next, whatever the room does. */
  readonly wide: boolean;
}

/**
 * Whether the window of a start always overlaps that of the next minute's: shortest window against the longest leap of
 * its opening, between the room's coldest and warmest.
 */
function isWide({ scene: { room }, pourMin }: Pace, formula: Formula): boolean {
  const rates = [room.temperatureC, ...room.profile.map((entry) => entry.temperatureC)].map((temperatureC) => rateAt(temperatureC, formula.atC));
  const fastest = Math.max(...rates);
  const slowest = Math.min(...rates);
  const shortest = ((formula.bondClosesH - formula.bondOpensH) * MINUTES_PER_HOUR - pourMin * fastest) / fastest - pourMin;
  // Two minutes are lost to rounding, one more to the leap's own.
  return shortest > fastest / slowest + 3;
}

/** Whether the room keeps one temperature from a moment to another. */
function isSteady(room: Pace['scene']['room'], fromMin: number, toMin: number): boolean {
  return room.profile.every((entry) => entry.fromMin <= fromMin || entry.fromMin > toMin) || room.profile.every((entry) => entry.temperatureC === roomAt(room, fromMin));
}

/** The windows of every minute of a stretch, united. Both their ends only rise. */
function windowsOf(below: Span, windowAt: (s: number) => Span): Span[] {
  const found: { from: number; to: number }[] = [];
  for (let s = below.from; s <= below.to; s++) {
    const { from, to } = windowAt(s);
    if (to < from) continue;
    const last = found[found.length - 1];
    if (last && from <= last.to + 1) last.to = Math.max(last.to, to);
    else found.push({ from, to });
  }
  return found;
}

/** The first minute of a stretch at which something holds that goes on holding; its last when it never does. */
function firstWhere({ from, to }: Span, holds: (minute: number) => boolean): number {
  let low = from;
  let high = to;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}
