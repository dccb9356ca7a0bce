import { describe, expect, it } from 'vitest';
import { staffBlock, ticksTo, writtenHeights } from '../../src/screens/gauge/height-scale.ts';

/** mm. NIST SP 811, B.8: exactly. */
const INCH = 25.4;
/** mm. Rounding of multiples of an eighth of an inch. */
const ROUNDING_MM = 1e-9;

describe('in inches, where there is room', () => {
  const ticks = ticksTo('in', 9, 55);

  it('ticks every eighth', () => {
    expect(ticks.length).toBe(Math.floor(55 / (INCH / 8)) + 1);
    ticks.forEach(({ mm }, i) => expect(Math.abs(mm - (i * INCH) / 8)).toBeLessThan(ROUNDING_MM));
    expect(ticks.slice(0, 9).map(({ rank }) => rank)).toEqual(['long', 'fine', 'fine', 'fine', 'middle', 'fine', 'fine', 'fine', 'long']);
    expect(Math.abs(staffBlock('in', 9) - INCH / 8)).toBeLessThan(ROUNDING_MM);
  });

  it('writes every half inch, inside and outside alike', () => {
    expect(ticks.flatMap(({ label }) => label ?? [])).toEqual(['0', '1⁄2', '1', '1\u00a01⁄2', '2']);
    expect(writtenHeights('in', 9, 55).map(({ label }) => label)).toEqual(['0', '1⁄2', '1', '1\u00a01⁄2', '2']);
  });

  it('and every inch where there is less', () => {
    expect(writtenHeights('in', 2, 110).map(({ label }) => label)).toEqual(['0', '1', '2', '3', '4']);
  });
});

describe('in millimeters', () => {
  it('ticks every one, writes every ten', () => {
    const ticks = ticksTo('mm', 9, 55);
    expect(ticks.map(({ mm }) => mm)).toEqual(Array.from({ length: 56 }, (_, i) => i));
    expect(ticks.flatMap(({ label }) => label ?? [])).toEqual(['0', '10', '20', '30', '40', '50']);
    expect(ticks.filter(({ rank }) => rank === 'middle').map(({ mm }) => mm)).toEqual([5, 15, 25, 35, 45, 55]);
    expect(staffBlock('mm', 9)).toBe(5);
  });
});

describe.each(['mm', 'in'] as const)('in %s at every scale', (unit) => {
  it.each([0.05, 0.2, 0.7, 1, 2, 5, 14])('%d px to the millimeter: nothing runs together, zero is written', (pxPerMm) => {
    const toMm = 600 / pxPerMm;
    for (const [marks, least] of [[ticksTo(unit, pxPerMm, toMm), 5], [writtenHeights(unit, pxPerMm, toMm), 30], [ticksTo(unit, pxPerMm, toMm).filter(({ label }) => label !== null), 30]] as const) {
      expect(marks[0]).toMatchObject({ mm: 0, label: '0' });
      for (let i = 1; i < marks.length; i++) expect((marks[i].mm - marks[i - 1].mm) * pxPerMm).toBeGreaterThanOrEqual(least - ROUNDING_MM);
    }
    expect(staffBlock(unit, pxPerMm) * pxPerMm).toBeGreaterThanOrEqual(10);
  });
});
