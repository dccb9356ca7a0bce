import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calendarDate, downToMinute, formatLocalTime, parseClock, parseLocalTime, upToMinute, weekdayOf, weekdayOfDay } from '../../../src/core/units/time.ts';

/** The engine's calendar, an independent one. */
const EPOCH_MS = Date.UTC(2000, 0, 1);
const engine = (minutes: number): Date => new Date(EPOCH_MS + minutes * 60_000);
/** 1800 to 2200. */
const SPAN_MIN = 200 * 366 * 1440;

describe('local times', () => {
  it('agree with the engine’s calendar, both ways (seed 41)', () => {
    fc.assert(
      fc.property(fc.integer({ min: -SPAN_MIN, max: SPAN_MIN }), (minutes) => {
        const text = engine(minutes).toISOString().slice(0, 16);
        expect(formatLocalTime(minutes)).toBe(text);
        expect(parseLocalTime(text)).toBe(minutes);
        expect(weekdayOf(minutes)).toBe((engine(minutes).getUTCDay() + 6) % 7);
      }),
      { seed: 41, numRuns: 2000 },
    );
  });

  it.each([
    ['2024-02-28T23:59', '2024-02-29T00:00'], ['2024-02-29T23:59', '2024-03-01T00:00'], ['2023-02-28T23:59', '2023-03-01T00:00'], ['2100-02-28T23:59', '2100-03-01T00:00'],
    ['2000-02-28T23:59', '2000-02-29T00:00'], ['2026-04-30T23:59', '2026-05-01T00:00'], ['2026-12-31T23:59', '2027-01-01T00:00'], ['1999-12-31T23:59', '2000-01-01T00:00'],
  ])('the minute after %s is %s', (before, after) => {
    expect(formatLocalTime(parseLocalTime(before)! + 1)).toBe(after);
    expect(parseLocalTime(after)).toBe(parseLocalTime(before)! + 1);
  });

  it('takes seconds, and fractions of them that are nothing', () => {
    expect(parseLocalTime('2000-01-01T00:01:30')).toBe(1.5);
    expect(parseLocalTime('2000-01-01T00:01:30.000')).toBe(1.5);
  });

  it.each([
    '2023-02-29T08:00', '2026-02-30T08:00', '2026-04-31T08:00', '2026-13-01T08:00', '2026-00-10T08:00', '2026-01-00T08:00', '0000-01-01T08:00', '2026-05-04T24:00',
    '2026-05-04T08:60', '2026-05-04T08:00:60', '2026-05-04T08:00Z', '2026-05-04T08:00+02:00', '2026-05-04 08:00', '2026-5-4T8:00', '2026-05-04', '26-05-04T08:00', ' 2026-05-04T08:00', '', 'soon',
  ])('refuses “%s”', (text) => expect(parseLocalTime(text)).toBeNull());

  it('drops a part of a minute, but not the noise of a sum', () => {
    expect(formatLocalTime(59.9)).toBe('2000-01-01T00:59');
    expect(formatLocalTime(60 - 1e-9)).toBe('2000-01-01T01:00');
    expect(formatLocalTime(-0.5)).toBe('1999-12-31T23:59');
  });

  it('dates days before and after 2000, from the first day of year 1', () => {
    expect(calendarDate(0)).toEqual({ year: 2000, month: 1, dayOfMonth: 1 });
    expect(calendarDate(-1)).toEqual({ year: 1999, month: 12, dayOfMonth: 31 });
    expect(calendarDate(59)).toEqual({ year: 2000, month: 2, dayOfMonth: 29 });
    expect(calendarDate(-730119)).toEqual({ year: 1, month: 1, dayOfMonth: 1 });
    expect(weekdayOfDay(-730119)).toBe(0); // a Monday in the proleptic calendar (ISO 8601; from memory)
  });
});

describe('whole minutes', () => {
  it('go up and down, and stay where only noise is missing', () => {
    expect([upToMinute(5), upToMinute(5.01), upToMinute(5 + 1e-9), upToMinute(-5.5)]).toEqual([5, 6, 5, -5]);
    expect([downToMinute(5), downToMinute(5.99), downToMinute(6 - 1e-9), downToMinute(-5.5)]).toEqual([5, 5, 6, -6]);
  });
});

describe('clock times', () => {
  it.each([['00:00', 0], ['08:05', 485], ['23:59', 1439]])('%s is minute %d', (text, minute) => expect(parseClock(text)).toBe(minute));
  it.each(['24:00', '08:60', '8:00', '08:00:00', '0800', '-1:00', ''])('refuses “%s”', (text) => expect(parseClock(text)).toBeNull());
});
