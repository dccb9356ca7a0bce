/** What people type, against the definitions of the units. */
import { parseLength, parseMass, parseTemperature, parseVolume } from '../../src/core/units/quantity.ts';
import type { EvidenceRow } from './evidence-row.ts';

const SP811 = 'NIST SP 811 (2008) appendix B, exact';
const H44 = 'NIST Handbook 44 appendix C, exact';
/** Readings keep 15 digits. */
const DIGITS = 1e-14;

const row = (text: string, unit: string, expected: number, source: string, read: (text: string) => object): EvidenceRow => ({
  subject: `“${text}” in ${unit}`,
  source,
  expected,
  tolerance: DIGITS * Math.abs(expected),
  got: () => Object.values(read(text))[0] as number,
});

export const rows: readonly EvidenceRow[] = [
  row('3/8 in', 'mm', 9.525, `1 in = 25.4 mm: ${SP811}`, parseLength),
  row('1 ft', 'mm', 304.8, `1 ft = 12 in: ${SP811}`, parseLength),
  row('1 fl oz', 'mL', 29.5735295625, `1/128 of 231 in³: ${H44}`, parseVolume),
  row('1 qt', 'mL', 946.352946, `1/4 US gallon, physics-tables §12: ${H44}`, parseVolume),
  row('1 gal', 'mL', 3785.411784, `231 in³: ${H44}`, parseVolume),
  row('1 in³', 'mL', 16.387064, `25.4³ mm³: ${SP811}`, parseVolume),
  row('1 imp fl oz', 'mL', 28.4130625, `1/160 of 4.54609 L, physics-tables §12: ${SP811}`, parseVolume),
  row('1 oz', 'g', 28.349523125, `1/16 lb: ${SP811}`, parseMass),
  row('1 lb', 'g', 453.59237, SP811, parseMass),
  row('-40 °F', '°C', -40, `t/°C = (t/°F − 32)/1.8: ${SP811}`, parseTemperature),
];
