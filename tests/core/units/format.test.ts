import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { capital, counted, divisionDigits, fixed, grams, listed, ml, mm, percent, plain, rounded, span, tenthAbove, tenthBelow } from '../../../src/core/units/format.ts';

const spaced = (text: string): string => text.replaceAll('\u00a0', '·');

describe('numbers for people', () => {
  it.each([
    [20, 1, '20'], [9.82, 1, '9.8'], [1320, 1, '1,320'], [1234567.89, 1, '1,234,567.9'], [0, 1, '0'], [-0.04, 1, '0'], [-3.25, 1, '−3.3'], [0.05, 1, '0.1'],
    [999.96, 1, '1,000'], [12.5, 0, '13'], [5.50, 2, '5.5'], [1e-12, 3, '0'], [100, 0, '100'], [-1234.5, 1, '−1,234.5'],
  ])('plain %d to %d digits is %s', (value, digits, text) => expect(plain(value, digits)).toBe(text));

  it.each([[20, 1, '20.0'], [1234.5, 2, '1,234.50'], [-0.04, 1, '0.0'], [-2, 0, '−2'], [0, 3, '0.000']])('fixed %d to %d digits is %s', (value, digits, text) => expect(fixed(value, digits)).toBe(text));

  it('reads back as the number it shows, to the digits it shows (seed 42)', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e9, max: 1e9, noNaN: true }), fc.integer({ min: 0, max: 4 }), (value, digits) => {
        for (const text of [plain(value, digits), fixed(value, digits)]) {
          const back = Number(text.replaceAll(',', '').replace('−', '-'));
          // Half a unit of the last digit, and half of the 15th that is read (IEEE 754: every decimal of 15 digits survives a double).
          expect(Math.abs(back - value)).toBeLessThanOrEqual(0.5 * 10 ** -digits + 5.1e-15 * Math.abs(value) + 1e-12);
        }
      }),
      { seed: 42, numRuns: 1000 },
    );
  });

  // Decimals as written, rounded on paper; 2 1/4 in is 57.15 mm by definition (NIST SP 811: 25.4 mm an inch).
  it.each([
    [57.15, 1, '57.2'], [2.25 * 25.4, 1, '57.2'], [1.025, 2, '1.03'], [1.005, 2, '1.01'], [8.345, 2, '8.35'], [0.15, 1, '0.2'], [0.1 + 0.2 - 0.25, 1, '0.1'],
    [57.149, 1, '57.1'], [-57.15, 1, '−57.2'], [2.5, 0, '3'], [1e-7, 7, '0.0000001'],
  ])('rounds %d to %d digits as on paper: %s', (value, digits, text) => {
    expect(plain(value, digits)).toBe(text);
    expect(fixed(value, digits).replace(/\.?0+$/, '')).toBe(text.replace(/\.0+$/, ''));
  });

  it('rounds every decimal half up, by whole numbers (seed 7)', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 10_000_000 }), fc.integer({ min: 1, max: 3 }), (thousandths, cut) => {
        // 12,345 thousandths cut by one digit are 1,235 hundredths: integer arithmetic, no double in between.
        const steps = Math.floor((thousandths + 5 * 10 ** (cut - 1)) / 10 ** cut);
        expect(rounded(Number(`${thousandths}e-3`), 3 - cut)).toBe(Number(`${steps}e${cut - 3}`));
      }),
      { seed: 7, numRuns: 2000 },
    );
  });

  it('puts a no-break space before units', () => {
    expect(spaced(mm(29.5))).toBe('29.5·mm');
    expect(spaced(mm(0.123, 2))).toBe('0.12·mm');
    expect([ml(53.07), ml(159.2), ml(-3)].map(spaced)).toEqual(['53.1·mL', '159·mL', '−3·mL']);
    expect([grams(122.06), grams(122.1, 0.1), grams(122, 1), grams(122.25, 0.05)].map(spaced)).toEqual(['122.1·g', '122.1·g', '122·g', '122.25·g']);
    expect([percent(0.186), percent(0.0837, 2), percent(1)].map(spaced)).toEqual(['18.6·%', '8.37·%', '100·%']);
  });

  it('knows the digits of a scale', () => {
    expect([5, 1, 0.5, 0.1, 0.05, 0.01, 0.001, 1 / 3].map(divisionDigits)).toEqual([0, 0, 1, 1, 2, 2, 3, 4]);
  });

  it('tells spans of time roughly from a day up, to the minute below two hours', () => {
    expect([0, 30, 119, 120, 150, 720, 1440, 1470, 3450, 10080].map(span).map(spaced)).toEqual([
      '0·min', '30·min', '119·min', '2·h', '2½·h', '12·h', '1·d', '1·d ½·h', '2·d 9½·h', '7·d',
    ]);
  });

  it('lists and counts', () => {
    expect([listed([]), listed(['a']), listed(['a', 'b']), listed(['a', 'b', 'c'])]).toEqual(['', 'a', 'a and b', 'a, b and c']);
    expect([counted(1, 'pour'), counted(0, 'pour'), counted(6, 'pour'), counted(1200, 'pour')].map(spaced)).toEqual(['1·pour', '0·pours', '6·pours', '1,200·pours']);
  });
});

describe('limits and amounts', () => {
  it('are cut to the tenth on the safe side, and noise of sums is none', () => {
    expect([tenthBelow(9.69), tenthAbove(9.61)]).toEqual([9.6, 9.7]);
    expect([tenthBelow(0.3), tenthAbove(0.1 + 0.2), tenthBelow(1.1 * 3)]).toEqual([0.3, 0.3, 3.3]);
    expect([tenthBelow(-0.05), tenthAbove(-0.05)].map(Math.abs)).toEqual([0.1, 0]);
  });
});

it('begins a sentence with a capital, and leaves nothing and other letters as they are', () => {
  expect(['even pours', 'LED ring', 'élan', '', '3 pours'].map(capital)).toEqual(['Even pours', 'LED ring', 'Élan', '', '3 pours']);
});
