import { describe, expect, it } from 'vitest';
import { clockOf, dayAndTime, dayName, weekdayAndTime } from '../../../src/core/units/when.ts';

/** Blanks inside a date or before a time must not break a line. */
const spaced = (text: string): string => text.replaceAll('\u00a0', '·');

describe('moments for people', () => {
  it('name day and month shortly, and keep a date on one line', () => {
    expect(spaced(dayAndTime('2026-05-04T19:30'))).toBe('Mon·4·May, 19:30');
    expect(spaced(dayName('2024-02-29T00:00'))).toBe('Thu·29·Feb');
    expect(spaced(weekdayAndTime('2026-05-05T06:00'))).toBe('Tue·06:00');
    expect(clockOf('2026-05-05T06:00')).toBe('06:00');
  });

  it('agree with the engine’s calendar on every day of a leap year and the one after', () => {
    const names = new Intl.DateTimeFormat('en-US', { weekday: 'short', day: 'numeric', month: 'short', timeZone: 'UTC' });
    for (let day = Date.UTC(2024, 0, 1); day < Date.UTC(2026, 0, 1); day += 86_400_000) {
      const parts = Object.fromEntries(names.formatToParts(day).map(({ type, value }) => [type, value]));
      expect(spaced(dayName(new Date(day).toISOString().slice(0, 16)))).toBe(`${parts.weekday}·${parts.day}·${parts.month}`);
    }
  });
});
