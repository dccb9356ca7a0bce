/**
 * Local wall-clock time without a zone, as minutes since 2000-01-01T00:00.
 * The proleptic Gregorian calendar (ISO 8601; the profile of RFC 3339 without its offset). There is no
 * summer time here: a local day always has 24 hours, as it has in the person's own calendar.
 */

export const MINUTES_PER_HOUR = 60;
export const MINUTES_PER_DAY = 1440;
/** 2000-01-01 was a Saturday; weekdays count from Monday = 0. */
const WEEKDAY_OF_EPOCH = 5;

const PATTERN = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})(?::(\d{2})(?:\.0+)?)?$/;
const CLOCK = /^(\d{2}):(\d{2})$/;

/** Minutes of `YYYY-MM-DDTHH:MM[:SS]`, or null where there is no such time (30 February, 24:00). */
export function parseLocalTime(text: string): number | null {
  const found = PATTERN.exec(text);
  if (!found) return null;
  const [year, month, day, hour, minute, second] = found.slice(1).map((part) => Number(part ?? 0));
  if (year < 1 || month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) return null;
  if (hour > 23 || minute > 59 || second > 59) return null;
  return dayNumber(year, month, day) * MINUTES_PER_DAY + hour * 60 + minute + second / 60;
}

/** `YYYY-MM-DDTHH:MM`. A part of a minute is dropped; callers round first, up or down, as their rule says. */
export function formatLocalTime(minutes: number): string {
  const whole = Math.floor(minutes + SLACK_MIN);
  const day = Math.floor(whole / MINUTES_PER_DAY);
  const within = whole - day * MINUTES_PER_DAY;
  const { year, month, dayOfMonth } = calendarDate(day);
  return `${pad(year, 4)}-${pad(month, 2)}-${pad(dayOfMonth, 2)}T${pad(Math.floor(within / 60), 2)}:${pad(within % 60, 2)}`;
}

/** The day of a date that exists, `YYYY-MM-DD`, counted from 2000-01-01. */
export function dayOfDate(date: string): number {
  return Math.floor(parseLocalTime(`${date}T00:00`)! / MINUTES_PER_DAY);
}

/** Minutes after midnight of `HH:MM`, or null. */
export function parseClock(text: string): number | null {
  const found = CLOCK.exec(text);
  if (!found) return null;
  const hour = Number(found[1]);
  const minute = Number(found[2]);
  return hour > 23 || minute > 59 ? null : hour * 60 + minute;
}

/** Weekday of a moment, 0 = Monday … 6 = Sunday. */
export function weekdayOf(minutes: number): number {
  return weekdayOfDay(Math.floor(minutes / MINUTES_PER_DAY));
}

/** Weekday of a day counted from 2000-01-01. */
export function weekdayOfDay(day: number): number {
  return (((day + WEEKDAY_OF_EPOCH) % 7) + 7) % 7;
}

/** Year, month 1–12 and day of month of a day counted from 2000-01-01. */
export function calendarDate(day: number): { year: number; month: number; dayOfMonth: number } {
  let year = 2000 + Math.floor(day / 365.2425);
  while (dayNumber(year + 1, 1, 1) <= day) year++;
  while (dayNumber(year, 1, 1) > day) year--;
  let rest = day - dayNumber(year, 1, 1);
  let month = 1;
  while (rest >= daysInMonth(year, month)) rest -= daysInMonth(year, month++);
  return { year, month, dayOfMonth: rest + 1 };
}

/** Sums of hours leave 1e-13 of noise; a thousandth of a minute is far below any meaning. */
const SLACK_MIN = 1e-3;

/** The first whole minute at or after a moment. */
export function upToMinute(minutes: number): number {
  return Math.ceil(minutes - SLACK_MIN);
}

/** The last whole minute at or before a moment. */
export function downToMinute(minutes: number): number {
  return Math.floor(minutes + SLACK_MIN);
}

function isLeap(year: number): boolean {
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
}

function daysInMonth(year: number, month: number): number {
  if (month === 2) return isLeap(year) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/** Days from 2000-01-01 to a date. */
function dayNumber(year: number, month: number, dayOfMonth: number): number {
  const before = year - 1;
  let days = before * 365 + Math.floor(before / 4) - Math.floor(before / 100) + Math.floor(before / 400) - DAYS_BEFORE_2000;
  for (let m = 1; m < month; m++) days += daysInMonth(year, m);
  return days + dayOfMonth - 1;
}

/** Days from 0001-01-01 to 2000-01-01: 1999·365 + 499 − 19 + 4. */
const DAYS_BEFORE_2000 = 730119;

function pad(value: number, width: number): string {
  return String(value).padStart(width, '0');
}
