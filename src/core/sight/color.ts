/**
 * Colors as light: sRGB as files write it, linear light as it adds and is absorbed, CIE L*a*b* as it is compared.
 * sRGB after IEC 61966-2-1, L*a*b* after CIE 15 (1976), both with the white D65 at 2°.
 */

/** Red, green and blue light, each from 0 to 1, 1 the white's own. */
export type Light = readonly [number, number, number];
/** L* from 0 to 100, a* (green to red), b* (blue to yellow). */
export type Lab = readonly [number, number, number];

/** IEC 61966-2-1: to XYZ of D65. The rows add up to the white. */
const TO_XYZ = [
  [0.4124, 0.3576, 0.1805],
  [0.2126, 0.7152, 0.0722],
  [0.0193, 0.1192, 0.9505],
] as const;
const WHITE = TO_XYZ.map(([r, g, b]) => r + g + b);
/** CIE 15: below ε, L* is a straight line of slope κ. */
const EPSILON = 216 / 24389;
const KAPPA = 24389 / 27;

/** Luminance of a light, the white's being 1. */
export function luminance([r, g, b]: Light): number {
  const [, [wr, wg, wb]] = TO_XYZ;
  return wr * r + wg * g + wb * b;
}

/** Of one channel, 0 to 1, as files write it (IEC 61966-2-1). */
export function encoded(linear: number): number {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055;
}

/** The other way. */
export function decoded(written: number): number {
  return written <= 0.04045 ? written / 12.92 : ((written + 0.055) / 1.055) ** 2.4;
}

/** `#rrggbb`, letters of either case. */
export function lightOf(hex: string): Light {
  const [r, g, b] = [1, 3, 5].map((at) => decoded(parseInt(hex.slice(at, at + 2), 16) / 255));
  return [r, g, b];
}

/** The nearest of 256 steps a channel; light beyond 0 to 1 is cut off. */
export function hexOf(light: Light): string {
  return `#${light.map((channel) => Math.round(255 * encoded(Math.min(1, Math.max(0, channel)))).toString(16).padStart(2, '0')).join('')}`;
}

export function labOf([r, g, b]: Light): Lab {
  const [x, y, z] = TO_XYZ.map(([wr, wg, wb], i) => bent((wr * r + wg * g + wb * b) / WHITE[i]));
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

const bent = (share: number): number => (share > EPSILON ? Math.cbrt(share) : (KAPPA * share + 16) / 116);
