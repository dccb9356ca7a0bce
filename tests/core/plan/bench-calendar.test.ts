import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { benchCalendar } from '../../../src/core/plan/bench-calendar.ts';
import { parseDays } from '../../../src/core/scene/schema.ts';
import type { BenchHours } from '../../../src/core/scene/scene.ts';
import { formatLocalTime, parseClock, parseLocalTime } from '../../../src/core/units/time.ts';

const hours = (...entries: [days: string, from: string, to: string][]): BenchHours[] => entries.map(([days, from, to]) => ({ days: parseDays(days)!, fromMin: parseClock(from)!, toMin: parseClock(to)! }));
const at = (text: string): number => parseLocalTime(text)!;
const fit = (bench: BenchHours[], lengthMin: number, from: string): string | null => {
  const start = benchCalendar(bench).fit(lengthMin, at(from));
  return start === null ? null : formatLocalTime(start);
};
const place = (bench: BenchHours[], lengthMin: number, from: string): string[] => benchCalendar(bench).place(lengthMin, at(from)).map((span) => `${formatLocalTime(span.from)} ${formatLocalTime(span.to)}`);

const DAILY = hours(['Mon-Sun', '08:00', '20:00']);

describe('one interval', () => {
  it('is taken from the first moment at which the work fits, ends included', () => {
    expect(fit(DAILY, 60, '2026-05-04T07:00')).toBe('2026-05-04T08:00');
    expect(fit(DAILY, 60, '2026-05-04T12:34')).toBe('2026-05-04T12:34');
    expect(fit(DAILY, 60, '2026-05-04T19:00')).toBe('2026-05-04T19:00');
    expect(fit(DAILY, 60, '2026-05-04T19:01')).toBe('2026-05-05T08:00');
    expect(fit(DAILY, 0, '2026-05-04T20:00')).toBe('2026-05-04T20:00');
    expect(fit(DAILY, 0, '2026-05-04T20:01')).toBe('2026-05-05T08:00');
    expect(fit(DAILY, 720, '2026-05-04T08:01')).toBe('2026-05-05T08:00');
    expect(fit(DAILY, 721, '2026-05-04T08:00')).toBeNull();
    expect(benchCalendar(DAILY).longestMin).toBe(720);
  });

  it('goes over the ends of months and leap years', () => {
    expect(fit(DAILY, 60, '2026-04-30T19:30')).toBe('2026-05-01T08:00');
    expect(fit(DAILY, 60, '2024-02-28T21:00')).toBe('2024-02-29T08:00');
    expect(fit(DAILY, 60, '2023-02-28T21:00')).toBe('2023-03-01T08:00');
    expect(fit(DAILY, 60, '2100-02-28T21:00')).toBe('2100-03-01T08:00');
    expect(fit(DAILY, 60, '2026-12-31T21:00')).toBe('2027-01-01T08:00');
    expect(fit(DAILY, 60, '1999-12-31T21:00')).toBe('2000-01-01T08:00');
  });
});

describe('days', () => {
  it('come as a list', () => {
    const bench = hours(['Mon,Thu', '18:00', '21:00']);
    expect(fit(bench, 30, '2026-05-04T08:00')).toBe('2026-05-04T18:00'); // a Monday
    expect(fit(bench, 30, '2026-05-04T21:00')).toBe('2026-05-07T18:00');
    expect(fit(bench, 30, '2026-05-08T08:00')).toBe('2026-05-11T18:00');
  });
  it('come as a span over the weekend', () => {
    const bench = hours(['Sat-Mon', '10:00', '12:00']);
    expect(fit(bench, 30, '2026-05-05T08:00')).toBe('2026-05-09T10:00');
    expect(fit(bench, 30, '2026-05-09T12:00')).toBe('2026-05-10T10:00');
    expect(fit(bench, 30, '2026-05-10T12:00')).toBe('2026-05-11T10:00');
    expect(fit(bench, 30, '2026-05-11T12:00')).toBe('2026-05-16T10:00');
  });
});

describe('hours over midnight', () => {
  const late = hours(['Fri', '22:00', '02:00']);
  it('belong to the day they start', () => {
    expect(fit(late, 240, '2026-05-04T00:00')).toBe('2026-05-08T22:00');
    expect(fit(late, 60, '2026-05-09T00:30')).toBe('2026-05-09T00:30');
    expect(fit(late, 60, '2026-05-09T01:30')).toBe('2026-05-15T22:00');
  });
  it('go from Sunday night into Monday, also when asked on that Monday', () => {
    const bench = hours(['Sun', '22:00', '03:00']);
    expect(fit(bench, 60, '2026-05-04T01:00')).toBe('2026-05-04T01:00');
    expect(benchCalendar(bench).longestMin).toBe(300);
  });
  it('last a whole day when both times are the same', () => {
    expect(benchCalendar(hours(['Wed', '08:00', '08:00'])).longestMin).toBe(1440);
    expect(fit(hours(['Wed', '08:00', '08:00']), 1440, '2026-05-04T00:00')).toBe('2026-05-06T08:00');
  });
});

describe('intervals that touch or overlap', () => {
  it('are one', () => {
    expect(benchCalendar(hours(['Mon', '08:00', '12:00'], ['Mon', '12:00', '17:00'])).longestMin).toBe(540);
    expect(benchCalendar(hours(['Mon', '08:00', '13:00'], ['Mon', '12:00', '17:00'])).longestMin).toBe(540);
    expect(benchCalendar(hours(['Mon', '08:00', '12:00'], ['Mon', '12:01', '17:00'])).longestMin).toBe(299);
    expect(benchCalendar(hours(['Sun', '20:00', '00:00'], ['Mon', '00:00', '06:00'])).longestMin).toBe(600);
    expect(fit(hours(['Sun', '20:00', '00:00'], ['Mon', '00:00', '06:00']), 600, '2026-05-01T00:00')).toBe('2026-05-03T20:00');
  });
  it('never close when they fill the week', () => {
    const always = benchCalendar(hours(['Mon-Sun', '00:00', '00:00']));
    expect(always.longestMin).toBe(Infinity);
    expect(always.fit(1e6, 12.5)).toBe(12.5);
    expect(always.place(1e6, 12.5)).toEqual([{ from: 12.5, to: 1e6 + 12.5 }]);
    expect(benchCalendar(hours(['Mon-Sun', '08:00', '20:00'], ['Mon-Sun', '20:00', '08:00'])).longestMin).toBe(Infinity);
    expect(benchCalendar(hours(['Mon-Sat', '00:00', '00:00'])).longestMin).toBe(6 * 1440);
  });
});

describe('work longer than any interval', () => {
  it('starts at the first bench moment and goes on in the next', () => {
    expect(place(DAILY, 900, '2026-05-04T06:00')).toEqual(['2026-05-04T08:00 2026-05-04T20:00', '2026-05-05T08:00 2026-05-05T11:00']);
    expect(place(DAILY, 900, '2026-05-04T19:00')).toEqual(['2026-05-04T19:00 2026-05-04T20:00', '2026-05-05T08:00 2026-05-05T20:00', '2026-05-06T08:00 2026-05-06T10:00']);
    expect(place(DAILY, 900, '2026-05-04T20:00')).toEqual(['2026-05-05T08:00 2026-05-05T20:00', '2026-05-06T08:00 2026-05-06T11:00']);
  });
  it('is not split when one interval holds it, even where it must wait', () => {
    expect(place(DAILY, 720, '2026-05-04T08:01')).toEqual(['2026-05-05T08:00 2026-05-05T20:00']);
    expect(place(DAILY, 0, '2026-05-04T21:00')).toEqual(['2026-05-05T08:00 2026-05-05T08:00']);
  });
  it('skips short intervals only when the work fits a longer one', () => {
    const bench = hours(['Mon', '08:00', '09:00'], ['Tue', '08:00', '12:00']);
    expect(fit(bench, 90, '2026-05-04T00:00')).toBe('2026-05-05T08:00');
    expect(place(bench, 300, '2026-05-04T00:00')).toEqual(['2026-05-04T08:00 2026-05-04T09:00', '2026-05-05T08:00 2026-05-05T12:00']);
  });
});

/** A quarter-hour grid keeps counting short: 672 quarters a week, 0 = Monday 2000-01-03T00:00. */
const QUARTERS = 7 * 96;
const QUARTER_MIN = 15;
const MONDAY_MIN = 2 * 1440;

describe('against counting quarter by quarter', () => {
  const entry = fc.record({ days: fc.uniqueArray(fc.integer({ min: 0, max: 6 }), { minLength: 1, maxLength: 4 }), from: fc.integer({ min: 0, max: 95 }), to: fc.integer({ min: 0, max: 95 }) });

  it('finds the same first place, and none where there is none (seed 45)', () => {
    fc.assert(
      fc.property(fc.array(entry, { minLength: 1, maxLength: 4 }), fc.integer({ min: 1, max: 120 }), fc.integer({ min: -1500, max: 1500 }), (entries, length, from) => {
        const open = new Uint8Array(QUARTERS);
        for (const { days, from: opens, to } of entries) {
          const count = to > opens ? to - opens : to + 96 - opens;
          for (const day of days) for (let q = 0; q < count; q++) open[(day * 96 + opens + q) % QUARTERS] = 1;
        }
        const isOpen = (quarter: number): boolean => open[((quarter % QUARTERS) + QUARTERS) % QUARTERS] === 1;
        let expected: number | null = null;
        for (let start = from, run = 0, q = from; q < from + 3 * QUARTERS; q++) {
          run = isOpen(q) ? run + 1 : 0;
          if (run === 0) start = q + 1;
          if (run === length) {
            expected = start;
            break;
          }
        }
        const calendar = benchCalendar(entries.map(({ days, from: opens, to }) => ({ days, fromMin: opens * QUARTER_MIN, toMin: to * QUARTER_MIN })));
        const got = calendar.fit(length * QUARTER_MIN, MONDAY_MIN + from * QUARTER_MIN);
        expect(got).toBe(expected === null ? null : MONDAY_MIN + expected * QUARTER_MIN);

        // Placed work adds up, lies in open hours and is split only where it must be.
        const spans = calendar.place(length * QUARTER_MIN, MONDAY_MIN + from * QUARTER_MIN);
        expect(spans.reduce((sum, span) => sum + span.to - span.from, 0)).toBe(length * QUARTER_MIN);
        for (const span of spans) for (let m = span.from; m < span.to; m += QUARTER_MIN) expect(isOpen((m - MONDAY_MIN) / QUARTER_MIN)).toBe(true);
        if (got !== null) expect(spans).toEqual([{ from: got, to: got + length * QUARTER_MIN }]);
      }),
      { seed: 45, numRuns: 1000 },
    );
  });
});
