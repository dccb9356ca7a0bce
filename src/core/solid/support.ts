/**
 * What a thing would stand on at a place: the floor, a painted plane below it, a bed, the back of another figure.
 * By brute force over the drawn triangles; a lighter copy of each solid is enough to set something down by hand.
 */
import { STOP_TOLERANCE_MM } from '../scene/tolerance.ts';

/** A solid as it is drawn, moved to where it is now. */
export interface StandingSurface {
  readonly kind: 'figure' | 'bed';
  /** x, y, z per point. */
  readonly positions: ArrayLike<number>;
  readonly indices: ArrayLike<number>;
  /** Where the solid is now, against its points: first turned about z through the point `aboutMm`, degrees counter-clockwise, then moved. */
  readonly turnDeg: number;
  readonly aboutMm: readonly [number, number];
  readonly byMm: readonly [number, number, number];
}

export interface SupportQuestion {
  readonly xMm: number;
  readonly yMm: number;
  /** Height of the thing's lowest point before it was taken up. Planes and figures above it hold nothing. */
  readonly baseMm: number;
  readonly surfaces: readonly StandingSurface[];
  /** Heights of the painted planes. */
  readonly planesMm: readonly number[];
}

/** mm up from the floor, never below 0. Linear in the triangles. */
export function supportAt({ xMm, yMm, baseMm, surfaces, planesMm }: SupportQuestion): number {
  let height = 0;
  for (const plane of planesMm) if (plane <= baseMm + STOP_TOLERANCE_MM && plane > height) height = plane;
  for (const surface of surfaces) {
    const top = topAt(surface, xMm, yMm);
    if (top === null || top <= height) continue;
    // A bed is ground and is climbed; a figure holds only what was above it.
    if (surface.kind === 'bed' || top <= baseMm + STOP_TOLERANCE_MM) height = top;
  }
  return height;
}

/** The highest point of a surface over (x, y), mm; null where there is none. A triangle seen edge-on counts for nothing. */
export function topAt({ positions, indices, turnDeg, aboutMm, byMm }: StandingSurface, xMm: number, yMm: number): number | null {
  // The question is carried back to where the points are.
  const turn = (-turnDeg * Math.PI) / 180;
  const dx = xMm - byMm[0] - aboutMm[0];
  const dy = yMm - byMm[1] - aboutMm[1];
  const x = aboutMm[0] + dx * Math.cos(turn) - dy * Math.sin(turn);
  const y = aboutMm[1] + dx * Math.sin(turn) + dy * Math.cos(turn);
  let best = -Infinity;
  for (let i = 0; i < indices.length; i += 3) {
    const a = 3 * indices[i];
    const b = 3 * indices[i + 1];
    const c = 3 * indices[i + 2];
    const ax = positions[a] - x;
    const ay = positions[a + 1] - y;
    const bx = positions[b] - x;
    const by = positions[b + 1] - y;
    const cx = positions[c] - x;
    const cy = positions[c + 1] - y;
    const wa = bx * cy - by * cx;
    const wb = cx * ay - cy * ax;
    const wc = ax * by - ay * bx;
    const inside = (wa >= 0 && wb >= 0 && wc >= 0) || (wa <= 0 && wb <= 0 && wc <= 0);
    const area = wa + wb + wc;
    if (!inside || area === 0) continue;
    const z = (wa * positions[a + 2] + wb * positions[b + 2] + wc * positions[c + 2]) / area;
    if (z > best) best = z;
  }
  return best === -Infinity ? null : best + byMm[2];
}
