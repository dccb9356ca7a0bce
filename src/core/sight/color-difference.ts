/**
 * How different two colors look: CIEDE2000, with unit weights (ISO/CIE 11664-6). Symbols and the order of the steps after
 * Sharma, Wu & Dalal 2005, Color Research & Application 30(1):21–30. About 1 is just seen side by side.
 */
import type { Lab } from './color.ts';

const RADIAN = Math.PI / 180;
const POW25_7 = 25 ** 7;

/** ΔE₀₀ ≥ 0; the same both ways round. */
export function colorDifference([L1, a1, b1]: Lab, [L2, a2, b2]: Lab): number {
  const G = 0.5 * (1 - fade((Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2));
  const [C1, h1] = polar((1 + G) * a1, b1);
  const [C2, h2] = polar((1 + G) * a2, b2);
  const gray = C1 * C2 === 0;

  const apart = h2 - h1;
  const turned = apart > 180 ? apart - 360 : apart < -180 ? apart + 360 : apart;
  const dL = L2 - L1;
  const dC = C2 - C1;
  const dH = 2 * Math.sqrt(C1 * C2) * Math.sin((gray ? 0 : turned) * (RADIAN / 2));

  const L = (L1 + L2) / 2;
  const C = (C1 + C2) / 2;
  const sum = h1 + h2;
  const h = gray ? sum : Math.abs(apart) <= 180 ? sum / 2 : (sum + (sum < 360 ? 360 : -360)) / 2;

  const T = 1 - 0.17 * cos(h - 30) + 0.24 * cos(2 * h) + 0.32 * cos(3 * h + 6) - 0.2 * cos(4 * h - 63);
  const off50 = (L - 50) ** 2;
  const SL = 1 + (0.015 * off50) / Math.sqrt(20 + off50);
  const SC = 1 + 0.045 * C;
  const SH = 1 + 0.015 * C * T;
  const RT = -2 * fade(C) * Math.sin(60 * RADIAN * Math.exp(-(((h - 275) / 25) ** 2)));
  const [l, c, s] = [dL / SL, dC / SC, dH / SH];
  return Math.sqrt(Math.max(0, l * l + c * c + s * s + RT * c * s));
}

/** √(C⁷/(C⁷ + 25⁷)) */
function fade(C: number): number {
  const C7 = C ** 7;
  return Math.sqrt(C7 / (C7 + POW25_7));
}

/** Chroma, and hue from 0° up to 360°; 0 of gray. */
function polar(a: number, b: number): [number, number] {
  const h = Math.atan2(b, a) / RADIAN;
  return [Math.hypot(a, b), h < 0 ? h + 360 : h];
}

const cos = (degrees: number): number => Math.cos(degrees * RADIAN);
