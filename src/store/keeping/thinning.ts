/** Which snapshots stay: one per ten minutes for an hour, one per hour for a day, one per day after that. */

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
const DAY_MS = 24 * HOUR_MS;

/** No more often than this is a snapshot taken. */
export const SNAPSHOT_EVERY_MS = 10 * MINUTE_MS;
/** Days are kept this long; the newest snapshot stays whatever its age. */
const KEEP_DAYS = 60;

/**
 * The times to drop. Of those in one span the oldest stays, so that a snapshot that was kept once is kept on
 * until its span grows. Times in the future (the clock was set back) stay.
 */
export function dropped(times: readonly number[], now: number): number[] {
  const seen = new Set<string>();
  const oldestFirst = [...times].sort((a, b) => a - b);
  return oldestFirst.filter((at, i) => {
    const age = now - at;
    if (age < 0 || i === oldestFirst.length - 1) return false;
    if (age > KEEP_DAYS * DAY_MS) return true;
    const span = age <= HOUR_MS ? SNAPSHOT_EVERY_MS : age <= DAY_MS ? HOUR_MS : DAY_MS;
    const key = `${span} ${Math.floor(at / span)}`;
    if (seen.has(key)) return true;
    seen.add(key);
    return false;
  });
}
