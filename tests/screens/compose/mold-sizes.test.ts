import { describe, expect, it } from 'vitest';
import type { SceneFile } from '../../../src/core/scene/edit/file.ts';
import { moldSizeWords, sizeMold } from '../../../src/screens/compose/mold-sizes.ts';
import { demo } from './demo.ts';

const MM = { length: 'mm', volume: 'mL' } as const;
const IN = { length: 'in', volume: 'floz' } as const;
const WHOLE = { pxPerMm: 3, gridMm: 1 };

const sized = (file: SceneFile, ...args: [Parameters<typeof sizeMold>[1], number, Parameters<typeof sizeMold>[3]]) => {
  const result = sizeMold(file, ...args);
  if (!result.ok) throw new Error(result.reason);
  return result;
};

describe('a mold sized by hand', () => {
  it('comes to whole millimeters, says so, and leaves everything else alone', () => {
    const file = demo;
    const { file: after, label } = sized(file, 'lengthMm', 210.4, WHOLE);
    expect(after).toEqual({ ...file, mold: { ...file.mold, lengthMm: 210 } });
    expect(label).toBe('mold 210\u00a0mm long');
  });

  it('comes to sixteenths of an inch for who works in inches', () => {
    const { file } = sized(demo, 'widthMm', 121, { pxPerMm: 3, gridMm: 25.4 / 16 });
    expect((file.mold as { widthMm: number }).widthMm).toBeCloseTo(76 * (25.4 / 16), 3); // stored to the hundredth
  });

  it('goes anywhere while snapping is suspended', () => {
    const { file } = sized(demo, 'lengthMm', 210.437, { ...WHOLE, suspended: true });
    expect((file.mold as { lengthMm: number }).lengthMm).toBe(210.44);
  });

  it('keeps the rim over the resin and every wall inside what can be made', () => {
    const file = demo;
    expect(sized(file, 'heightMm', 3, WHOLE).file.mold.heightMm).toBe(file.fillMm);
    expect(sized(file, 'lengthMm', 0, WHOLE).file.mold).toMatchObject({ lengthMm: 10 });
    expect(sized(file, 'lengthMm', 1e9, WHOLE).file.mold).toMatchObject({ lengthMm: 2000 });
  });

  it('refuses a size that the mold has not', () => {
    expect(sizeMold(demo, 'diameterMm', 100, WHOLE)).toEqual({ ok: false, reason: 'A box mold has no such size.' });
  });
});

it.each([
  ['lengthMm', 210, MM, '210\u00a0mm long'], ['widthMm', 120.5, MM, '120.5\u00a0mm wide'], ['diameterMm', 150, MM, '150\u00a0mm across'], ['heightMm', 60, MM, '60\u00a0mm high'],
  ['lengthMm', 209.55, IN, '8\u00a01⁄4\u00a0in long'],
] as const)('%s of %d mm reads %j', (size, mm, units, words) => {
  expect(moldSizeWords(size, mm, units)).toBe(words);
});
