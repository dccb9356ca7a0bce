/** Local times against published calendar facts and the JavaScript engine's own calendar. */
import { calendarDate, formatLocalTime, parseLocalTime, weekdayOf, weekdayOfDay } from '../../src/core/units/time.ts';
import type { EvidenceRow } from './evidence-row.ts';

const GREGORIAN = 'Gregorian calendar: leap in years that 4 divides, not 100, but 400 (RFC 3339 appendix C)';
const ENGINE = 'JavaScript’s Date in UTC';
const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];
const MS_PER_DAY = 86_400_000;

const at = (text: string): number => {
  const minutes = parseLocalTime(text);
  if (minutes === null) throw new Error(`${text} was refused`);
  return minutes;
};
const days = (from: string, to: string): number => (at(`${to}T00:00`) - at(`${from}T00:00`)) / 1440;
const weekday = (date: string): string => WEEKDAYS[weekdayOf(at(`${date}T12:00`))];
const exact = (subject: string, source: string, expected: number | string, got: () => number | string): EvidenceRow => ({ subject, source, expected, tolerance: 0, got });

/** RFC 3339 appendix B: Zeller's congruence, 0 = Sunday. */
function zeller(year: number, month: number, day: number): number {
  const m = month - 2 < 1 ? month + 10 : month - 2;
  const y = month - 2 < 1 ? year - 1 : year;
  const century = Math.floor(y / 100);
  const rest = y % 100;
  return (Math.floor((26 * m - 2) / 10) + day + rest + Math.floor(rest / 4) + Math.floor(century / 4) + 5 * century) % 7;
}

/** Days 1900-01-01 to 2100-12-31, counted from 2000-01-01. */
const TWO_CENTURIES = Array.from({ length: 73_414 }, (_, i) => i - 36_524);

export const rows: readonly EvidenceRow[] = [
  exact('weekday of 2000-01-01', 'published calendars (memory)', 'Saturday', () => weekday('2000-01-01')),
  exact('days of 1900 to 2100 whose weekday RFC 3339 gives otherwise', 'RFC 3339 appendix B, Zeller’s congruence', 0, () =>
    TWO_CENTURIES.filter((day) => { const { year, month, dayOfMonth } = calendarDate(day); return (zeller(year, month, dayOfMonth) + 6) % 7 !== weekdayOfDay(day); }).length),
  exact('days of 1900 to 2100 that the engine dates otherwise', ENGINE, 0, () =>
    TWO_CENTURIES.filter((day) => new Date(Date.UTC(2000, 0, 1) + day * MS_PER_DAY).toISOString().slice(0, 10) !== formatLocalTime(day * 1440).slice(0, 10)).length),
  exact('days of February 2000, 1900 and 2100', GREGORIAN, '29 28 28', () => ['2000', '1900', '2100'].map((year) => days(`${year}-02-01`, `${year}-03-01`)).join(' ')),
  exact('29 February 2023 and 2100, and 31 April: how many are refused', GREGORIAN, 3, () => ['2023-02-29', '2100-02-29', '2026-04-31'].filter((date) => parseLocalTime(`${date}T08:00`) === null).length),
  exact('days in 400 years', 'Gregorian calendar: 146,097 (published)', 146_097, () => days('1800-03-01', '2200-03-01')),
  exact('days from 1970-01-01 to 2000-01-01', 'Unix epoch JD 2440587.5, 2000-01-01 JD 2451544.5', 10_957, () => days('1970-01-01', '2000-01-01')),
  exact('days from 1858-11-17 to 2000-01-01', 'modified Julian date of 2000-01-01: 51544', 51_544, () => days('1858-11-17', '2000-01-01')),
  exact('minutes from 1996-12-19T16:39:57 to 1996-12-20T00:39:57', 'RFC 3339 §5.8: the same instant at −08:00 and Z', 480, () => at('1996-12-20T00:39:57') - at('1996-12-19T16:39:57')),
  exact('RFC 3339’s offset, Z, leap second and space for T: how many of five pass as local times', 'RFC 3339 §5.6, §5.8; design §3: local, without a zone', 0, () =>
    ['1996-12-19T16:39:57-08:00', '1985-04-12T23:20:50.52Z', '1990-12-31T23:59:60', '1996-12-19 16:39:57', '1996-12-19T24:00'].filter((text) => parseLocalTime(text) !== null).length),
  exact('a minute after 23:59 on 28 February 2024', ENGINE, new Date(Date.UTC(2024, 1, 28, 24)).toISOString().slice(0, 16), () => formatLocalTime(at('2024-02-28T23:59') + 1)),
  exact('36 hours after 20:00 on 30 December 2026', ENGINE, new Date(Date.UTC(2026, 11, 30, 20 + 36)).toISOString().slice(0, 16), () => formatLocalTime(at('2026-12-30T20:00') + 36 * 60)),
];
