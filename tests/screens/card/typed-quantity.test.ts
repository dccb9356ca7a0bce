/** What a field reads, shows and steps by. Factors: NIST SP 811 (2008) appendix B; NIST Handbook 44 appendix C. */
import { describe, expect, it } from 'vitest';
import { readQuantity, showQuantity, stepOf, unitBeside, type QuantityKind } from '../../../src/screens/card/typed-quantity.ts';

const METRIC = { length: 'mm', volume: 'mL' } as const;
const INCHES = { length: 'in', volume: 'floz' } as const;
/** Doubles keep 15 digits; a reading goes through at most two operations. */
const ROUNDING = 1e-12;
const NO_KEYS = { shiftKey: false, altKey: false };

const value = (text: string, kind: QuantityKind, units: typeof METRIC | typeof INCHES = METRIC): number => {
  const read = readQuantity(text, kind, units);
  if ('problem' in read) throw new Error(read.problem);
  return read.value;
};

describe('reading', () => {
  it.each([
    ['3/8 in', 'length', 9.525],
    ['1 3/8"', 'length', 34.925],
    ['2.5 fl oz', 'volume', 73.93382390625],
    ['73.4 °F', 'temperature', 23],
    ['2 oz', 'mass', 56.69904625],
    ['−90', 'angle', -90],
    ['24°', 'angle', 24],
    ['0,5 %', 'percent', 0.5],
    ['2½ h', 'hours', 2.5],
    ['1 day', 'hours', 24],
    ['90 min', 'hours', 1.5],
    ['1.5 h', 'minutes', 90],
    ['180', 'days', 180],
    ['2 weeks', 'days', 14],
    ['6 months', 'days', 180],
    ['1 year', 'days', 365],
    ['1.15', 'number', 1.15],
  ] as const)('%s as a %s is %d', (text, kind, expected) => {
    expect(Math.abs(value(text, kind) - expected)).toBeLessThanOrEqual(ROUNDING * Math.abs(expected));
  });

  it('takes a bare number in the unit that is chosen', () => {
    expect(value('2', 'length', METRIC)).toBe(2);
    expect(value('2', 'length', INCHES)).toBe(50.8);
    expect(value('1', 'volume', INCHES)).toBe(29.5735295625);
  });

  it.each(['length', 'volume', 'mass', 'temperature', 'angle', 'percent', 'hours', 'minutes', 'days', 'number'] as const)('says of a word what a %s looks like', (kind) => {
    const read = readQuantity('about so', kind, METRIC);
    expect(read).toHaveProperty('problem');
    expect('problem' in read && read.problem).toMatch(/expected .*like/);
    expect(readQuantity('', kind, METRIC)).toHaveProperty('problem');
    expect(readQuantity('9'.repeat(200_000), kind, METRIC)).toHaveProperty('problem');
  });
});

describe('showing', () => {
  it.each([...Array(40).keys()])('shows %d sixteenths of an inch so that reading it gives them again', (sixteenths) => {
    const mm = (sixteenths * 25.4) / 16;
    expect(Math.abs(value(showQuantity(mm, 'length', INCHES), 'length', INCHES) - mm)).toBeLessThanOrEqual(ROUNDING * Math.max(1, mm));
  });

  it.each([['length', 41.27], ['volume', 8.5], ['mass', 12.34], ['temperature', 22.5], ['angle', -12.5], ['percent', 0.15], ['hours', 2.25], ['minutes', 90.5], ['days', 10.5], ['number', 1.0042]] as const)('reads its own %s back', (kind, shown) => {
    expect(value(showQuantity(shown, kind, METRIC), kind)).toBeCloseTo(shown, 9);
  });

  it('follows with the other unit', () => {
    expect(unitBeside('', 34.925, 'length', METRIC)).toBe('1\u00a03⁄8\u00a0in');
    expect(unitBeside('', 25.4, 'length', INCHES)).toBe('25.4\u00a0mm');
    expect(unitBeside('', 23, 'temperature', METRIC)).toBe('73\u00a0°F');
    expect(unitBeside('', 5, 'angle', METRIC)).toBeNull();
  });

  it('is followed by the chosen unit where the other one was typed', () => {
    expect(unitBeside('6 in', 152.4, 'length', METRIC)).toBe('152.4\u00a0mm');
    expect(unitBeside('6"', 152.4, 'length', METRIC)).toBe('152.4\u00a0mm');
    expect(unitBeside('15.24 cm', 152.4, 'length', METRIC)).toBe('6\u00a0in');
    expect(unitBeside('152.4 mm', 152.4, 'length', INCHES)).toBe('6\u00a0in');
    expect(unitBeside('2.5 fl oz', 73.93382390625, 'volume', METRIC)).toBe('73.9\u00a0mL');
    expect(unitBeside('2 oz', 56.69904625, 'mass', METRIC)).toBe('56.7\u00a0g');
    expect(unitBeside('1 ft', 304.8, 'length', METRIC)).toBe('304.8\u00a0mm');
    expect(unitBeside('1 cup', 236.5882365, 'volume', METRIC)).toBe('236.6\u00a0mL');
    expect(unitBeside('10 millimeters', 10, 'length', INCHES)).toBe(unitBeside('1 cm', 10, 'length', INCHES));
    expect(unitBeside('73.4 °F', 23, 'temperature', METRIC)).toBe('23\u00a0°C');
  });
});

describe('stepping', () => {
  it('goes 1 mm, 5 with Shift, a tenth with Alt; in inches a sixteenth, a quarter, a sixty-fourth', () => {
    const steps = (units: typeof METRIC | typeof INCHES) => [NO_KEYS, { ...NO_KEYS, shiftKey: true }, { ...NO_KEYS, altKey: true }].map((keys) => stepOf('length', units, keys));
    expect(steps(METRIC)).toEqual([1, 5, 0.1]);
    expect(steps(INCHES)).toEqual([25.4 / 16, 25.4 / 4, 25.4 / 64]);
  });
});
