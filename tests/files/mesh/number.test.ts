/** Numbers from bytes: the runtime's own conversion is the oracle, bit for bit. */

import { describe, expect, it } from 'vitest';
import { parseNumber } from '../../../src/files/mesh/number.ts';
import { seeded } from '../../core/solid/oracle.ts';
import { utf8 } from './writers.ts';

const parsed = (text: string): number => parseNumber(utf8(`xx${text}yy`), 2, 2 + utf8(text).length);

describe('parseNumber', () => {
  it.each(['0', '-0', '1', '+1', '1.', '.5', '-.5e1', '007', '1e22', '1e23', '1e-22', '9007199254740991', '9007199254740993', '123456789012345678901234567890', '5e-324', '2.2250738585072011e-308', '1.7976931348623157e308', '0.1', '1E+5', '1e-400'])('%s', (text) => {
    expect(parsed(text)).toBe(Number(text));
  });

  it('is correctly rounded for 20,000 doubles and their shortened spellings (seed 1)', () => {
    const random = seeded(1);
    const view = new DataView(new ArrayBuffer(8));
    for (let i = 0; i < 20_000; i++) {
      view.setUint32(0, random() * 2 ** 32);
      view.setUint32(4, random() * 2 ** 32);
      const value = i % 2 ? view.getFloat64(0) : (random() - 0.5) * 10 ** Math.floor(random() * 12 - 6);
      if (!Number.isFinite(value)) continue;
      const texts = [String(value), value.toExponential(6), value.toPrecision(17), Math.abs(value) < 1e20 ? value.toFixed(8) : value.toExponential()];
      for (const text of texts) if (parsed(text) !== Number(text)) throw new Error(`${text}: ${parsed(text)}`);
    }
  });

  it.each(['', '-', '+', '.', 'e5', '1e', '1e+', '1e5.5', '1.2.3', '0x10', 'nan', 'inf', 'Infinity', '1,5', '1_000', '--1', '1 ', '1.#IND', '٣'])('"%s" is no number', (text) => {
    expect(parsed(text)).toBeNaN();
  });

  it('beyond a double is infinite, beyond reason is no number', () => {
    expect(parsed('1e999')).toBe(Infinity);
    expect(parsed('-1e99999999999999')).toBe(-Infinity);
    expect(parsed('1'.repeat(100_000))).toBeNaN();
  });
});
