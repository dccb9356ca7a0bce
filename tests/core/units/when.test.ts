import { describe, expect, it } from 'vitest';
import { ASSUMED_START, clockOf, dayAndTime, dayName, weekdayAndTime } from '../../../src/core/units/when.ts';

/** Blanks inside a date or before a time must not break a line. */
const spaced = (text: string): string => text.replaceAll('\u00a0', '·');

describe('moments for people', () => {
  it('name day and month shortly, and keep a date on one line', () => {
    expect(spaced(dayAndTime('2026-05-04T19:30'))).toBe('Mon·4·May, 19:30');
    expect(spaced(dayName('2024-02-29T00:00'))).toBe('Thu·29·Feb');
    expect(spaced(weekdayAndTime('2026-05-05T06:00'))).toBe('Tue·06:00');
    expect(clockOf('2026-05-05T06:00')).toBe('06:00');
  });

  it('count days where none is the first', () => {
    expect(spaced(dayAndTime(ASSUMED_START))).toBe('day·1, 08:00');
    expect(spaced(dayName('2000-03-01T00:00'))).toBe('day·59');
    // A weekday alone would say nothing after a week.
    expect(spaced(weekdayAndTime('2000-01-11T06:00'))).toBe('day·9,·06:00');
    expect(['2000-01-02T23:59', '1999-12-31T00:00', '2001-01-01T00:00'].map((time) => spaced(dayName(time)))).toEqual(['1·day·before', '3·days·before', 'Mon·1·Jan']);
  });

  it('agree with the engine’s calendar on every day of a leap year and the one after', () => {
    const names = new Intl.DateTimeFormat('en-US', { weekday: 'short', day: 'numeric', month: 'short', timeZone: 'UTC' });
    for (let day = Date.UTC(2024, 0, 1); day < Date.UTC(2026, 0, 1); day += 86_400_000) {
      const parts = Object.fromEntries(names.formatToParts(day).map(({ type, value }) => [type, value]));
      expect(spaced(dayName(new Date(day).toISOString().slice(0, 16)))).toBe(`${parts.weekday}·${parts.day}·${parts.month}`);
    }
  });
});
