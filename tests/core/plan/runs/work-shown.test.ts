/** Minutes as they are told: by hand from 6 min a cup and 2½ min a mold. */
import { expect, it } from 'vitest';
import { workShownMin } from '../../../../src/core/plan/runs/work-shown.ts';
import { dyeGrams } from '../../../../src/core/units/format.ts';

it('a cup that is poured out in time never reads as if it were not', () => {
  // Five molds: 6 + 5 × 2.5 = 18.5, rounded up 19; usable 18.7, rounded down 18.
  expect(workShownMin({ workMin: 18.5, usableMin: 18.7 })).toBe(18);
  expect(workShownMin({ workMin: 16, usableMin: 19.6 })).toBe(16);
  expect(workShownMin({ workMin: 18.5, usableMin: 18.4 })).toBe(19);
});

it('dye is told as its scale shows it', () => {
  expect(dyeGrams(0.3371, 0.01)).toBe('0.34\u00a0g');
  expect(dyeGrams(0.3371, 0.001)).toBe('0.337\u00a0g');
  expect(dyeGrams(0.3371, 0.1)).toBe('0.34\u00a0g');
});
