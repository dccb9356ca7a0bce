/** How safe the piece is, in a line: where it is kept, and what no file holds. */
import type { KeptState } from '../../store/piece-state.ts';

const DAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'] as const;
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

export function keptWords({ state, unsaved, fileName }: KeptState, nowMs: number = Date.now()): string {
  if (state === 'untouched') return 'Nothing changed yet';
  const here = state === 'kept' ? 'Kept in this browser' : state === 'keeping' ? 'Keeping it …' : 'Not kept';
  if (!unsaved) return fileName ? `${here} and in ${fileName}` : here;
  const since = whenWords(unsaved.since, nowMs);
  return fileName ? `${here}, not saved to a file since ${since}` : `${here}, not saved to a file yet`;
}

/** `14:02`, `yesterday 14:02`, `Mon 4 May`. Local time. */
export function whenWords(atMs: number, nowMs: number): string {
  const at = new Date(atMs);
  const clock = `${String(at.getHours()).padStart(2, '0')}:${String(at.getMinutes()).padStart(2, '0')}`;
  const days = dayNumber(new Date(nowMs)) - dayNumber(at);
  if (days <= 0) return clock;
  return days === 1 ? `yesterday ${clock}` : `${DAYS[at.getDay()]} ${at.getDate()} ${MONTHS[at.getMonth()]}`;
}

/** Counts calendar days; a day of 23 or 25 hours is one too. */
function dayNumber(at: Date): number {
  return Math.round(Date.UTC(at.getFullYear(), at.getMonth(), at.getDate()) / 86_400_000);
}
