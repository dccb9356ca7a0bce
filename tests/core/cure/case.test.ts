/** Reading and solving a case. What its answers should be is in tests/reference/rows-heat-stacks.ts. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCase } from '../../../src/core/cure/case.ts';
import { solveCase } from '../../../src/core/cure/solve-case.ts';
import { problemLine } from '../../../src/core/scene/read.ts';
import stacks from '../../reference/heat-stacks.json' with { type: 'json' };

const SOUND = stacks.cases[0].case;
type Path = readonly (string | number)[];

/** The sound case with one value put at a path; `undefined` takes the field away. */
function withValue(path: Path, value: unknown): unknown {
  const copy = structuredClone(SOUND) as unknown as Record<string | number, never>;
  const holder = path.slice(0, -1).reduce((at, key) => at[key], copy);
  const last = path[path.length - 1];
  if (value === undefined) delete holder[last];
  else holder[last] = value as never;
  return copy;
}

function lineOf(document: unknown): string {
  const reading = readCase(document);
  return reading.ok ? 'read' : reading.problems.map(problemLine).join(' ');
}

describe('reading a case', () => {
  it.each(stacks.cases)('takes the stored one: $name', ({ case: document }) => {
    expect(lineOf(document)).toBe('read');
    expect(lineOf({ name: 'x', case: document, expect: {} })).toBe('read');
  });

  it.each<[string, Path, unknown, string]>([
    ['a missing depth', ['pours', 0, 'depthMm'], undefined, 'pours[0].depthMm: is missing; expected a number above 0 mm, at most 1000 mm.'],
    ['a depth of 0', ['pours', 0, 'depthMm'], 0, 'pours[0].depthMm: found 0; expected a number above 0 mm, at most 1000 mm.'],
    ['a depth in words', ['pours', 0, 'depthMm'], '10 mm', 'pours[0].depthMm: found "10 mm"; expected a number above 0 mm, at most 1000 mm.'],
    ['no pours', ['pours'], [], 'pours: found a list of 0; expected a list of 1 to 100.'],
    ['no side', ['side'], undefined, 'side: is missing; expected an object { … }.'],
    ['a misspelled field', ['pours', 0, 'mixc'], 25, 'pours[0].mixc: is not a field of a case; expected it spelled as in the format, or left out.'],
    ['gel at 1', ['kinetics', 'gelAlpha'], 1, 'kinetics.gelAlpha: found 1; expected a number above 0, below 1.'],
    ['an order of 0, that never ends', ['kinetics', 'n'], 0, 'kinetics.n: found 0; expected a number from 0.05 to 10.'],
    ['a brake of nothing', ['kinetics', 'brake'], null, 'kinetics.brake: found null; expected an object { … }.'],
    ['no density', ['material', 'densityKgPerM3'], 0, 'material.densityKgPerM3: found 0; expected a number above 0 kg/m³, at most 30000 kg/m³.'],
    ['a room that begins later', ['room', 0, 'fromH'], 1, 'room[0].fromH: found 1 h; expected 0 or earlier, so that the room is known from the start.'],
    ['a room out of order', ['room'], [{ fromH: 0, temperatureC: 20 }, { fromH: 0, temperatureC: 21 }], 'room[1].fromH: found 0 h; expected more than 0 h, the one before it. List them in order of time.'],
    ['pours out of order', ['pours'], [{ depthMm: 5, atH: 6 }, { depthMm: 5, atH: 3 }], 'pours[1].atH: found 3 h; expected more than 6 h, the one before it. List them in order of time.'],
    ['an end at the last pour', ['endH'], 0, 'endH: found 0 h; expected more than 0 h, when the last pour is made.'],
  ])('refuses %s with path, found and expected', (_, path, value, line) => {
    expect(lineOf(withValue(path, value))).toBe(line);
    expect(lineOf({ case: withValue(path, value) })).toBe(`case.${line}`);
  });

  it('tells of fields it left aside, in a case and beside it', () => {
    const asideOf = (document: unknown) => {
      const reading = readCase(document);
      return reading.ok ? reading.aside : null;
    };
    expect(asideOf({ ...SOUND, color: 1 })).toEqual(['color']);
    expect(asideOf({ name: 'x', expect: {}, wall: 2, case: { ...SOUND, bottm: {} } })).toEqual(['wall', 'case.bottm']);
    expect(asideOf({ ...SOUND, name: 'x' })).toEqual([]);
  });

  it('solves an order as low as it takes', () => {
    const reading = readCase(withValue(['kinetics', 'n'], 0.05));
    expect(reading.ok && solveCase(reading.case).energyBalance).toBeLessThan(1e-3);
  });

  it('says what it was given instead of a case', () => {
    expect(lineOf(null)).toMatch(/^found null; expected a case/);
    expect(lineOf([1, 2])).toMatch(/^found a list of 2; expected a case/);
    expect(lineOf({ case: 3 })).toMatch(/^case: found 3; expected a case/);
    expect(lineOf(stacks)).toBe('cases: found a list of 4 cases; expected one. Give the file with one of them.');
  });

  it('never throws on any JSON value, seed 5', () => {
    fc.assert(fc.property(fc.jsonValue(), (value) => void readCase(value)), { seed: 5, numRuns: 500 });
  });
});

describe('solving a case', () => {
  function solved(document: unknown) {
    const reading = readCase(document);
    if (!reading.ok) throw new Error(lineOf(document));
    return solveCase(reading.case);
  }

  it('takes a pour without mixC for as warm as the room is then', () => {
    const room = [{ fromH: 0, temperatureC: 23 }, { fromH: 5, temperatureC: 30 }];
    const later = (mixC?: number) => solved({ ...SOUND, room, pours: [{ depthMm: 10, atH: 6, mixC }] }).pours[0].midPeakC;
    expect(later()).toBe(later(30));
    expect(later()).not.toBe(later(23));
  });

  it('tells no gel where there is none yet', () => {
    expect(solved({ ...SOUND, endH: 2 }).pours[0].midGelS).toBeNull();
  });

  it('takes all seconds from the pour itself: the same stack two days later', () => {
    const { atH: _, ...pour } = SOUND.pours[0];
    const later = solved({ ...SOUND, pours: [{ ...pour, atH: 48 }], endH: 96 }).pours[0];
    const now = solved(SOUND).pours[0];
    expect(later.midPeakC).toBeCloseTo(now.midPeakC, 6);
    expect(later.midGelS! / now.midGelS!).toBeCloseTo(1, 9);
  });

  it('closes the balance over odd cases: films, hot mixes, hours that end at once, metal, no heat, seed 21', () => {
    const odd = fc.record({
      depthMm: fc.double({ min: 0.05, max: 120, noNaN: true }), mixC: fc.double({ min: 5, max: 60, noNaN: true }), endH: fc.double({ min: 0.01, max: 200, noNaN: true }),
      hWPerM2K: fc.double({ min: 0, max: 200, noNaN: true }), wPerM3K: fc.double({ min: 0, max: 5000, noNaN: true }), conductivityWPerMK: fc.constantFrom(0.02, 0.2, 200), heatJPerKg: fc.constantFrom(0, 1e5, 6e5),
    });
    fc.assert(
      fc.property(odd, ({ depthMm, mixC, endH, hWPerM2K, wPerM3K, conductivityWPerMK, heatJPerKg }) => {
        const answer = solved({
          ...SOUND, material: { ...SOUND.material, conductivityWPerMK }, kinetics: { ...SOUND.kinetics, heatJPerKg }, top: { hWPerM2K }, side: { wPerM3K }, pours: [{ depthMm, atH: 0, mixC }], endH,
        });
        expect(answer.energyBalance).toBeLessThan(1e-3);
        expect(answer.pours[0].peakC).toSatisfy(Number.isFinite);
        expect(answer.pours[0].peakC).toBeGreaterThanOrEqual(answer.pours[0].midPeakC - 1e-9);
      }),
      { seed: 21, numRuns: 150 },
    );
  });
});
