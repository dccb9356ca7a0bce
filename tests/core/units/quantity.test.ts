import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseLength, parseMass, parseTemperature, parseVolume } from '../../../src/core/units/quantity.ts';

/** Relative. Readings keep 15 digits. */
const ROUNDING = 1e-14;

const near = (got: number, expected: number) => expect(Math.abs(got - expected)).toBeLessThanOrEqual(ROUNDING * Math.abs(expected));
const problem = (reading: object): string => {
  expect(reading).toHaveProperty('problem');
  return (reading as { problem: string }).problem;
};

describe('lengths (25.4 mm to the inch: NIST SP 811 appendix B)', () => {
  it.each([
    ['3/8 in', 9.525], ['1 3/8"', 34.925], ['1-3/8 in', 34.925], ['1⅜ in', 34.925], ['⅜″', 9.525], ['1 3⁄8 inches', 34.925],
    ['1\u00a03⁄8\u00a0in', 34.925], ['.5in', 12.7], ['0.375 IN', 9.525], ['6 in.', 152.4], ['1 ft 3 1/2 in', 393.7], [`5' 3"`, 1600.2],
    ['9.5mm', 9.5], ['9,5 mm', 9.5], ['9.5', 9.5], ['20', 20], ['1.2 cm', 12], ['0,2 m', 200], ['-5 mm', -5], ['−1/4 in', -6.35], ['+3', 3],
    ['  7   mm ', 7], ['1,234.5 mm', 1234.5], ['1.234,5 mm', 1234.5], ['0,125 in', 3.175], ['12.', 12], ['0', 0], ['-0', 0],
  ])('%s is %d mm', (text, mm) => {
    const read = parseLength(text);
    expect(read).toHaveProperty('mm');
    near((read as { mm: number }).mm, mm);
  });

  it('takes a bare number in the unit that is shown', () => {
    expect(parseLength('3/8', 'in')).toEqual({ mm: 9.525 });
    expect(parseLength('3/8 mm', 'in')).toEqual({ mm: 0.375 });
  });

  it('says what a comma before three digits may mean', () => {
    expect(problem(parseLength('1,234 mm'))).toBe('Found 1,234, which may mean 1234 or 1.234; write it without the comma.');
  });

  it.each(['', '   ', 'in', '3//8 in', '1.2.3', '1,2,3', '1e3', '1e999', 'NaN', 'Infinity', '--3', '3 in 2', '3 mm 2 in', '2 in 3 in', '1 2 in', '3/8/2 in'])('refuses “%s” with an example', (text) => {
    expect(problem(parseLength(text))).toMatch(/expected a length like 9\.5 mm or 3\/8 in/);
  });

  it('refuses a fraction over zero, an unknown unit and a page of text', () => {
    expect(problem(parseLength('3/0 in'))).toBe('Found 3/0; expected a fraction that is not over zero.');
    expect(problem(parseLength('3 inchworms'))).toBe('Found “inchworms”, which is no unit known here; expected a length like 9.5 mm or 3/8 in.');
    expect(problem(parseLength('9'.repeat(1000)))).toBe('Found 1000 characters; expected a length like 9.5 mm or 3/8 in.');
  });
});

describe('volumes (29.5735295625 mL to the US fl oz: NIST Handbook 44 appendix C)', () => {
  it.each([
    ['2.5 fl oz', 73.93382390625], ['2 1/2 fl. oz.', 73.93382390625], ['1 US fl oz', 29.5735295625], ['4floz', 118.29411825], ['1 imp fl oz', 28.4130625],
    ['120 mL', 120], ['120ml', 120], ['0.5 L', 500], ['3 cc', 3], ['3 cm³', 3], ['2 cm3', 2], ['1 gal', 3785.411784], ['1 qt', 946.352946], ['1 pint', 473.176473],
    ['1 cup', 236.5882365], ['2 tbsp', 29.5735295625], ['6 tsp', 29.5735295625], ['1 in³', 16.387064], ['231 cu in', 3785.411784], ['1 qt 4 fl oz', 1064.64706425],
  ])('%s is %d mL', (text, ml) => {
    const read = parseVolume(text);
    expect(read).toHaveProperty('ml');
    near((read as { ml: number }).ml, ml);
  });

  it('keeps weights and volumes apart', () => {
    expect(problem(parseVolume('2 oz'))).toBe('Found “oz”, which is a weight; write fl oz for fluid ounces.');
    expect(problem(parseMass('2 fl oz'))).toBe('Found “fl oz”, which is a volume; give the weight.');
    expect(parseVolume('2', 'fl oz')).toEqual({ ml: 59.147059125 });
  });
});

describe('masses (453.59237 g to the pound: NIST SP 811 appendix B)', () => {
  it.each([['2 oz', 56.69904625], ['1 lb', 453.59237], ['1 lb 3 oz', 538.640939375], ['12,5 g', 12.5], ['1.2 kg', 1200], ['500 mg', 0.5], ['1/2 lb', 226.796185]])('%s is %d g', (text, g) => {
    const read = parseMass(text);
    expect(read).toHaveProperty('g');
    near((read as { g: number }).g, g);
  });
});

describe('temperatures', () => {
  it.each([['32 °F', 0], ['212F', 100], ['-40 °F', -40], ['73 °F', 205 / 9], ['23 °C', 23], ['23', 23], ['−5 C', -5], ['22,5 °C', 22.5]])('%s is %d °C', (text, c) => {
    const read = parseTemperature(text);
    expect(read).toHaveProperty('c');
    near((read as { c: number }).c, c);
  });
  it('takes a bare number in the unit that is shown, and one temperature only', () => {
    expect(parseTemperature('68', '°F')).toEqual({ c: 20 });
    expect(problem(parseTemperature('23 °C 4 °F'))).toMatch(/expected a temperature/);
  });
});

it('never throws, and gives a finite number or one sentence', () => {
  fc.assert(
    fc.property(fc.string({ unit: fc.constantFrom(...'0123456789.,/-−+ ⅜"′ftinmlozgcF°e³') }), (text) => {
      for (const read of [parseLength(text), parseVolume(text), parseMass(text), parseTemperature(text)]) {
        const [value] = Object.values(read);
        if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
        else expect(value).toMatch(/\.$/);
      }
    }),
    { seed: 31, numRuns: 2000 },
  );
});
