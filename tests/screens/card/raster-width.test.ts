/** Densities as the formats lay them down: W3C PNG 11.3.4.3 (pHYs), ITU-T T.871 (JFIF); bytes written by hand. */
import { describe, expect, it } from 'vitest';
import { rasterWidthMm } from '../../../src/screens/card/raster-width.ts';

const word = (n: number) => [(n >>> 24) & 255, (n >>> 16) & 255, (n >>> 8) & 255, n & 255];
const chunk = (type: string, data: number[]) => [...word(data.length), ...[...type].map((c) => c.charCodeAt(0)), ...data, 0, 0, 0, 0];
const png = (pixels: number, perMeter: number | null, unit = 1) =>
  Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, ...chunk('IHDR', [...word(pixels), ...word(10), 8, 6, 0, 0, 0]), ...(perMeter === null ? [] : chunk('pHYs', [...word(perMeter), ...word(perMeter), unit])), ...chunk('IDAT', [])]);
const jpeg = (pixels: number, unit: number, density: number) =>
  Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, 0, 16, 0x4a, 0x46, 0x49, 0x46, 0, 1, 2, unit, density >> 8, density & 255, density >> 8, density & 255, 0, 0, 0xff, 0xc0, 0, 11, 8, 0, 10, pixels >> 8, pixels & 255, 1, 1, 0x11, 0]);

describe('the width of a picture on paper', () => {
  it('is 80 mm for 400 pixels at 5,000 a meter', () => expect(rasterWidthMm(png(400, 5000), 'image/png')).toBe(80));
  it('is none without pHYs, with a unit that is no length, and at a screen’s density', () => {
    expect(rasterWidthMm(png(400, null), 'image/png')).toBeNull();
    expect(rasterWidthMm(png(400, 5000, 0), 'image/png')).toBeNull();
    expect(rasterWidthMm(png(400, 2835), 'image/png')).toBeNull(); // 72 dpi
  });
  it('is 2 in for 600 pixels at 300 to the inch, and 5 cm for 600 at 120 to the centimeter', () => {
    expect(rasterWidthMm(jpeg(600, 1, 300), 'image/jpeg')).toBeCloseTo(50.8, 9);
    expect(rasterWidthMm(jpeg(600, 2, 120), 'image/jpeg')).toBeCloseTo(50, 9);
    expect(rasterWidthMm(jpeg(600, 0, 1), 'image/jpeg')).toBeNull();
  });
  it('is none for bytes cut off anywhere', () => {
    const whole = png(400, 5000);
    for (let length = 8; length < 50; length++) expect([null, 80]).toContain(rasterWidthMm(whole.slice(0, length), 'image/png'));
    const other = jpeg(600, 1, 300);
    for (let length = 2; length < other.length; length++) expect(() => rasterWidthMm(other.slice(0, length), 'image/jpeg')).not.toThrow();
  });
});
