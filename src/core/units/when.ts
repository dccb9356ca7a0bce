/** Moments for people: `Mon 4 May, 19:30`. */
import { calendarDate, parseLocalTime, weekdayOf, MINUTES_PER_DAY } from './time.ts';

const DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const NBSP = '\u00a0';

/** `Mon 4 May, 19:30` of a plan's time (`YYYY-MM-DDTHH:MM`). */
export function dayAndTime(time: string): string {
  return `${dayName(time)}, ${clockOf(time)}`;
}

/** `Mon 4 May`. */
export function dayName(time: string): string {
  const minutes = parseLocalTime(time) ?? 0;
  const { month, dayOfMonth } = calendarDate(Math.floor(minutes / MINUTES_PER_DAY));
  return `${DAYS[weekdayOf(minutes)]}${NBSP}${dayOfMonth}${NBSP}${MONTHS[month - 1]}`;
}

/** `Tue 06:00`. */
export function weekdayAndTime(time: string): string {
  return `${DAYS[weekdayOf(parseLocalTime(time) ?? 0)]}${NBSP}${clockOf(time)}`;
}

/** `19:30`. */
export function clockOf(time: string): string {
  return time.slice(11, 16);
}
