/** Moments for people: `Mon 4 May, 19:30`. Where no first day is set days are counted: `day 1, 19:30`. */
import { counted } from './format.ts';
import { calendarDate, parseLocalTime, weekdayOf, MINUTES_PER_DAY } from './time.ts';

/** Where a plan without a first day begins, a Monday. No piece is begun in that year or just before: a time in there is a counted one. */
export const ASSUMED_START = '2000-01-03T08:00';
/** Test cups come days before the start, all else within weeks after it. */
const [COUNTED_FROM, COUNTED_TO] = ['1999-12', '2001'];

const DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const NBSP = '\u00a0';

/** `Mon 4 May, 19:30` of a plan's time (`YYYY-MM-DDTHH:MM`); `day 1, 19:30` of a counted one. */
export function dayAndTime(time: string): string {
  return `${dayName(time)}, ${clockOf(time)}`;
}

/** `Mon 4 May`; `day 1`; `2 days before`. */
export function dayName(time: string): string {
  if (isCounted(time)) return countedDay(time);
  const minutes = parseLocalTime(time) ?? 0;
  const { month, dayOfMonth } = calendarDate(Math.floor(minutes / MINUTES_PER_DAY));
  return `${DAYS[weekdayOf(minutes)]}${NBSP}${dayOfMonth}${NBSP}${MONTHS[month - 1]}`;
}

/** `Tue 06:00`; `day 2, 06:00`. */
export function weekdayAndTime(time: string): string {
  if (isCounted(time)) return `${countedDay(time)},${NBSP}${clockOf(time)}`;
  return `${DAYS[weekdayOf(parseLocalTime(time) ?? 0)]}${NBSP}${clockOf(time)}`;
}

/** `19:30`. */
export function clockOf(time: string): string {
  return time.slice(11, 16);
}

/** Whether a plan's time is no date, but counted from the assumed start. */
export function isCounted(time: string): boolean {
  return time >= COUNTED_FROM && time < COUNTED_TO;
}

function countedDay(time: string): string {
  const dayOf = (moment: string): number => Math.floor(parseLocalTime(moment)! / MINUTES_PER_DAY);
  const after = dayOf(time) - dayOf(ASSUMED_START);
  return after < 0 ? `${counted(-after, 'day')} before`.replaceAll(' ', NBSP) : `day${NBSP}${after + 1}`;
}
