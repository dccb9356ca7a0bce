/**
 * The checker's own clock: minutes of a local calendar, equivalent time through a room's changes, and bench hours.
 * Day numbers by the era method for the proleptic Gregorian calendar (400-year eras that start in March).
 */

import type { HoursJson } from './check-types.ts';

const DAY_MIN = 1440;
/** Sums of piecewise progress carry about 1e-9 min; a planner may take a thousandth of a minute for noise. Minutes. */
export const CLOCK_MIN = 2e-3;
/** 1970-01-01 was a Thursday; Monday is 0. */
const WEEKDAY_OF_1970 = 3;
const DAY_NAMES = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** Minutes since 1970-01-01T00:00 of a local time, NaN where the text is none. */
export function minutesOf(text: string): number {
  const found = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d)$/.exec(text);
  if (!found) return NaN;
  const [y, m, d, h, min] = found.slice(1).map(Number);
  const minutes = dayNumber(y, m, d) * DAY_MIN + h * 60 + min;
  return textOf(minutes) === text ? minutes : NaN;
}

/** `YYYY-MM-DDTHH:MM` of whole minutes since 1970. */
export function textOf(minutes: number): string {
  const day = Math.floor(minutes / DAY_MIN);
  const clock = minutes - day * DAY_MIN;
  const shifted = day + 719468;
  const era = Math.floor(shifted / 146097);
  const ofEra = shifted - era * 146097;
  const yearOfEra = Math.floor((ofEra - Math.floor(ofEra / 1460) + Math.floor(ofEra / 36524) - Math.floor(ofEra / 146096)) / 365);
  const ofYear = ofEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const marchMonth = Math.floor((5 * ofYear + 2) / 153);
  const dayOfMonth = ofYear - Math.floor((153 * marchMonth + 2) / 5) + 1;
  const month = marchMonth < 10 ? marchMonth + 3 : marchMonth - 9;
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  const two = (n: number) => String(n).padStart(2, '0');
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(dayOfMonth)}T${two(Math.floor(clock / 60))}:${two(clock % 60)}`;
}

/** Days since 1970-01-01. */
function dayNumber(year: number, month: number, day: number): number {
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const ofEra = y - era * 400;
  const ofYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + day - 1;
  return era * 146097 + ofEra * 365 + Math.floor(ofEra / 4) - Math.floor(ofEra / 100) + ofYear - 719468;
}

export interface RoomPiece {
  readonly from: number;
  readonly temperatureC: number;
}

/** A room as pieces of constant temperature, the first from minus infinity. */
export function roomPieces(room: { temperatureC?: number; profile?: readonly { from: string; temperatureC: number }[] } | undefined): RoomPiece[] {
  const entries = (room?.profile ?? []).map((e) => ({ from: minutesOf(e.from), temperatureC: e.temperatureC }));
  return [{ from: -Infinity, temperatureC: room?.temperatureC ?? 23 }, ...entries];
}

export function temperatureAt(room: readonly RoomPiece[], minute: number): number {
  let t = room[0].temperatureC;
  for (const piece of room) if (piece.from <= minute) t = piece.temperatureC;
  return t;
}

/** The moment at which `hours` of progress at `atC` have passed since `from`: exact sums over the room's pieces. */
export function whenProgressed(room: readonly RoomPiece[], atC: number, from: number, hours: number): number {
  let left = hours * 60;
  let now = from;
  for (let i = 0; i < room.length; i++) {
    const until = i + 1 < room.length ? room[i + 1].from : Infinity;
    if (until <= now) continue;
    const rate = Math.pow(2, (room[i].temperatureC - atC) / 10);
    const gained = (until - now) * rate;
    if (gained >= left) return now + left / rate;
    left -= gained;
    now = until;
  }
  return Infinity;
}

export interface Interval {
  readonly from: number;
  readonly to: number;
}

/** Bench hours as merged intervals over a horizon; cut pieces at its two ends are of no use to the checker. */
export interface BenchHours {
  readonly intervals: readonly Interval[];
  /** The longest single interval, min; Infinity where hours never end. */
  readonly longest: number;
}

export function benchHours(hours: readonly HoursJson[], from: number, to: number): BenchHours {
  const raw: Interval[] = [];
  for (let day = Math.floor(from / DAY_MIN) - 9; day * DAY_MIN < to; day++) {
    const weekday = (((day + WEEKDAY_OF_1970) % 7) + 7) % 7;
    for (const entry of hours) {
      if (!daysOf(entry.days).includes(weekday)) continue;
      const opens = clockOf(entry.from);
      const shuts = clockOf(entry.to);
      raw.push({ from: day * DAY_MIN + opens, to: (shuts <= opens ? day + 1 : day) * DAY_MIN + shuts });
    }
  }
  const intervals = merged(raw);
  const inner = intervals.slice(1, -1);
  const endless = intervals.some((i) => i.to - i.from > 8 * DAY_MIN);
  return { intervals, longest: endless ? Infinity : Math.max(0, ...inner.map((i) => i.to - i.from)) };
}

function merged(raw: Interval[]): Interval[] {
  const out: { from: number; to: number }[] = [];
  for (const next of raw.sort((a, b) => a.from - b.from)) {
    const last = out[out.length - 1];
    if (last && next.from <= last.to) last.to = Math.max(last.to, next.to);
    else out.push({ ...next });
  }
  return out;
}

function daysOf(text: string): number[] {
  const span = text.split('-');
  if (span.length === 2) {
    const first = DAY_NAMES.indexOf(span[0].trim());
    const last = DAY_NAMES.indexOf(span[1].trim());
    return Array.from({ length: ((last - first + 7) % 7) + 1 }, (_, i) => (first + i) % 7);
  }
  return text.split(',').map((name) => DAY_NAMES.indexOf(name.trim()));
}

function clockOf(text: string): number {
  const [h, m] = text.split(':').map(Number);
  return h * 60 + m;
}

/** The first moment at or after `at` from which `length` minutes lie in one interval; NaN where there is none in the horizon. */
export function firstFit(bench: BenchHours, at: number, length: number): number {
  for (const i of bench.intervals) {
    const s = Math.max(at, i.from);
    if (s + length <= i.to + CLOCK_MIN) return s;
  }
  return NaN;
}

export function insideBench(bench: BenchHours, from: number, to: number): boolean {
  return bench.intervals.some((i) => i.from <= from + CLOCK_MIN && to <= i.to + CLOCK_MIN);
}

/** Where unbroken work fits, or where work longer than any interval starts and ends when it goes on in the next. */
export function placeWork(bench: BenchHours, at: number, length: number): Interval {
  if (length <= bench.longest + CLOCK_MIN) {
    const from = firstFit(bench, at, length);
    return { from, to: from + length };
  }
  let left = length;
  let from = NaN;
  for (const i of bench.intervals) {
    const s = Math.max(at, i.from);
    if (s >= i.to) continue;
    if (Number.isNaN(from)) from = s;
    if (left <= i.to - s) return { from, to: s + left };
    left -= i.to - s;
  }
  return { from, to: NaN };
}

/** Minutes of bench hours between two moments. */
export function benchMinutes(bench: BenchHours, from: number, to: number): number {
  let sum = 0;
  for (const i of bench.intervals) sum += Math.max(0, Math.min(to, i.to) - Math.max(from, i.from));
  return sum;
}
