import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { momentAfter, rateAt, roomAt } from '../../../src/core/cure/equivalent-time.ts';
import type { Room } from '../../../src/core/scene/scene.ts';

/** Minutes. Sums of a few products of doubles up to 1e5. */
const ROUNDING_MIN = 1e-8;

const room = (temperatureC: number, ...profile: [fromMin: number, temperatureC: number][]): Room => ({ temperatureC, profile: profile.map(([fromMin, c]) => ({ fromMin, temperatureC: c })) });
const NIGHT = room(23, [600, 18], [1200, 13], [1800, 23]);

describe('the room', () => {
  it('has its own temperature before the first entry, and each entry’s from its very moment', () => {
    expect([-1e6, 599.999, 600, 1199, 1200, 1799, 1800, 1e9].map((minute) => roomAt(NIGHT, minute))).toEqual([23, 23, 18, 18, 13, 13, 23, 23]);
    expect(roomAt(room(21), 5)).toBe(21);
  });
});

describe('equivalent time (the rate doubles per 10 °C: common practice, no source)', () => {
  it.each([[23, 1], [33, 2], [13, 0.5], [43, 4], [18, Math.SQRT1_2], [28, Math.SQRT2]])('at %d °C a label at 23 °C runs × %d', (c, times) => expect(Math.abs(rateAt(c, 23) / times - 1)).toBeLessThan(1e-15));

  it('is the label’s own in a steady room at its temperature, wherever it starts', () => {
    for (const from of [-5000, 0, 123.5, 1e7]) expect(momentAfter(room(23), from, 10, 23)).toBe(from + 600);
    expect(momentAfter(NIGHT, 17, 0, 23)).toBe(17);
  });

  it('adds up over steps, by hand', () => {
    // From 0: 10 h at 23, then 10 h at 18 do 10/√2 h, then at 13 half speed.
    expect(momentAfter(NIGHT, 0, 10, 23)).toBe(600);
    expect(Math.abs(momentAfter(NIGHT, 0, 10 + 10 * Math.SQRT1_2, 23) - 1200)).toBeLessThan(ROUNDING_MIN);
    expect(Math.abs(momentAfter(NIGHT, 0, 11 + 10 * Math.SQRT1_2, 23) - 1320)).toBeLessThan(ROUNDING_MIN);
    // Past the last entry.
    expect(Math.abs(momentAfter(NIGHT, 0, 16 + 10 * Math.SQRT1_2, 23) - (1800 + 60))).toBeLessThan(ROUNDING_MIN);
    // From the middle of an entry, and from its very moment.
    expect(Math.abs(momentAfter(NIGHT, 1500, 4, 23) - (1800 + 90))).toBeLessThan(ROUNDING_MIN);
    expect(Math.abs(momentAfter(NIGHT, 1200, 2, 23) - 1440)).toBeLessThan(ROUNDING_MIN);
  });

  const steps = fc.array(fc.record({ gap: fc.integer({ min: 1, max: 900 }), c: fc.integer({ min: 5, max: 35 }) }), { maxLength: 12 });
  const made = (c: number, list: readonly { gap: number; c: number }[]): Room => {
    let at = -300;
    return room(c, ...list.map((step): [number, number] => [(at += step.gap), step.c]));
  };

  it('agrees with counting minute by minute (seed 43)', () => {
    fc.assert(
      fc.property(steps, fc.integer({ min: 5, max: 35 }), fc.integer({ min: 1, max: 40 }), (list, c, hours) => {
        const where = made(c, list);
        let progress = 0;
        let minute = 0;
        // Entries begin on whole minutes, so a minute has one temperature.
        for (; ; minute++) {
          const next = 2 ** ((roomAt(where, minute) - 23) / 10);
          if (progress + next >= hours * 60 - 1e-9) break;
          progress += next;
        }
        const counted = minute + (hours * 60 - progress) / 2 ** ((roomAt(where, minute) - 23) / 10);
        expect(Math.abs(momentAfter(where, 0, hours, 23) - counted)).toBeLessThan(1e-6);
      }),
      { seed: 43, numRuns: 200 },
    );
  });

  it('goes on where it left off: hours in two parts end where the whole ends (seed 44)', () => {
    fc.assert(
      fc.property(steps, fc.integer({ min: 5, max: 35 }), fc.double({ min: 0, max: 40, noNaN: true }), fc.double({ min: 0, max: 40, noNaN: true }), (list, c, first, second) => {
        const where = made(c, list);
        expect(Math.abs(momentAfter(where, momentAfter(where, 7, first, 25), second, 25) - momentAfter(where, 7, first + second, 25))).toBeLessThan(1e-6);
      }),
      { seed: 44, numRuns: 500 },
    );
  });
});
