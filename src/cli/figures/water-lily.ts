/** A water lily in open bloom: three rings of pointed, cupped petals about a crown of stamens, on a notched pad. */
import { above, ball, blend, ellipsoid, smoothMax, smoothMin, tube } from './field.ts';
import type { Field } from './field.ts';

interface Ring {
  readonly petals: number;
  /** Angle of the first petal, turns of one petal. */
  readonly offset: number;
  readonly startMm: number;
  readonly lengthMm: number;
  readonly halfWidthMm: number;
  /** Slope at the root and rise of the tip over its length. */
  readonly rise: number;
  /** Curl upward toward the tip (positive) or outward (negative), mm at the tip. */
  readonly curlMm: number;
  readonly rootMm: number;
}

const RINGS: readonly Ring[] = [
  { petals: 8, offset: 0, startMm: 2, lengthMm: 17.5, halfWidthMm: 4.9, rise: 0.2, curlMm: 1.6, rootMm: 1.1 },
  { petals: 8, offset: 0.5, startMm: 1.6, lengthMm: 14, halfWidthMm: 4.3, rise: 0.4, curlMm: 1.5, rootMm: 1.4 },
  { petals: 6, offset: 0.25, startMm: 1.2, lengthMm: 9.4, halfWidthMm: 3.4, rise: 0.7, curlMm: 1.5, rootMm: 1.7 },
];
const PETAL_HALF_MM = 0.62;
const PAD_RADIUS_MM = 22.5;
const NOTCH_HALF_ANGLE = 0.16;

export function waterLily(): Field {
  const heart = ellipsoid([0, 0, 2.1], [4.6, 4.6, 1.8]);
  const stamens = Array.from({ length: 8 }, (_, i) => {
    const angle = (2 * Math.PI * i) / 8;
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    return tube([
      [1.3 * c, 1.3 * s, 2, 0.6],
      [2.5 * c, 2.5 * s, 6.2, 0.5],
    ]);
  });
  return above(blend(0.4, blend(0.9, pad, heart, ...RINGS.map(ring)), ball([0, 0, 3.9], 1.1), ...stamens), 0.1, 0.4);
}

/** The leaf under the bloom, its edge lifted a little, cut to the middle by a notch toward −y. */
function pad(x: number, y: number, z: number): number {
  const r = Math.hypot(x, y);
  const angle = Math.atan2(y, x);
  const lift = 1.1 * Math.min(1, r / PAD_RADIUS_MM) ** 5 + 0.25 * Math.sin(5 * angle) * (r / PAD_RADIUS_MM) ** 2;
  const rim = PAD_RADIUS_MM + 0.35 * Math.sin(9 * angle);
  const leaf = smoothMax(Math.abs(z - 0.85 - lift) - 0.6, r - rim, 0.7);
  const off = Math.abs(Math.atan2(x, -y));
  const notch = 5 - r > (off - NOTCH_HALF_ANGLE) * r ? 5 - r : (off - NOTCH_HALF_ANGLE) * r;
  return smoothMax(leaf, -notch, 0.8);
}

function ring({ petals, offset, startMm, lengthMm, halfWidthMm, rise, curlMm, rootMm }: Ring): Field {
  const step = (2 * Math.PI) / petals;
  const petal = (r: number, t: number, z: number): number => {
    const s = (r - startMm) / lengthMm;
    const clamped = Math.min(1.1, Math.max(0, s));
    // Broadest past the middle, drawn out to a point.
    const w = halfWidthMm * Math.max(0.03, 2.1 * Math.sqrt(Math.max(0, clamped + 0.06)) * Math.max(0, 1 - clamped) ** 0.75 * (0.55 + 0.45 * clamped));
    const cup = 0.055 * t * t;
    const mid = rootMm + rise * clamped * lengthMm + curlMm * clamped ** 3 + cup;
    const steep = Math.hypot(1, rise + (3 * curlMm * clamped * clamped) / lengthMm, 0.11 * t);
    const sheet = Math.abs(z - mid) / steep - PETAL_HALF_MM;
    return smoothMax(smoothMax(sheet, (Math.abs(t) - w) * 0.8, 0.9), Math.max(-s, s - 1) * lengthMm, 0.5);
  };
  return (x, y, z) => {
    const angle = Math.atan2(y, x) - offset * step;
    const nearest = Math.round(angle / step);
    let d = Infinity;
    for (let i = nearest - 1; i <= nearest + 1; i++) {
      const turn = (i + offset) * step;
      const c = Math.cos(turn);
      const n = Math.sin(turn);
      d = smoothMin(d, petal(x * c + y * n, y * c - x * n, z), 0.5);
    }
    return d;
  };
}
