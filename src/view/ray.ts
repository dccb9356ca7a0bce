/** Where a line of sight meets what a handle moves along: a level, a vertical line, a ring. Mold frame, mm. */

export interface Ray {
  readonly origin: readonly [number, number, number];
  /** Of length 1. */
  readonly direction: readonly [number, number, number];
}

/** Sight flatter than this over a level (sine of the angle) gives no usable point: 1 px would be over 50 px of mold. */
export const FLAT_SINE = 0.02;
/** Sight within this of the vertical (sine of the angle) can't tell heights apart. */
export const STEEP_SINE = 0.2;

/** The point at height z, or null where the sight runs along the level or away from it. */
export function rayAtHeight({ origin, direction }: Ray, zMm: number): readonly [number, number] | null {
  if (Math.abs(direction[2]) < FLAT_SINE) return null;
  const t = (zMm - origin[2]) / direction[2];
  if (t < 0) return null;
  return [origin[0] + t * direction[0], origin[1] + t * direction[1]];
}

/** The height on the vertical line at (x, y) that the sight passes nearest to, or null when it looks down that line. */
export function rayOnVertical({ origin, direction: d }: Ray, xMm: number, yMm: number): number | null {
  const flat = d[0] * d[0] + d[1] * d[1]; // squared sine of the angle to the vertical
  if (flat < STEEP_SINE * STEEP_SINE) return null;
  const t = ((xMm - origin[0]) * d[0] + (yMm - origin[1]) * d[1]) / flat;
  return origin[2] + t * d[2];
}

/**
 * How far along the line from `from` in the direction `along` (of length 1) the sight passes nearest to it, mm; null
 * where the sight runs within `leastSine` of the line and can't tell places on it apart.
 */
export function rayOnLine({ origin, direction: d }: Ray, from: readonly [number, number, number], along: readonly [number, number, number], leastSine: number): number | null {
  const w = [origin[0] - from[0], origin[1] - from[1], origin[2] - from[2]];
  const together = along[0] * d[0] + along[1] * d[1] + along[2] * d[2];
  const apart = 1 - together * together; // squared sine of the angle between them
  if (apart < leastSine * leastSine) return null;
  const onLine = along[0] * w[0] + along[1] * w[1] + along[2] * w[2];
  const onSight = d[0] * w[0] + d[1] * w[1] + d[2] * w[2];
  return (onLine - together * onSight) / apart;
}

/** The angle about a ring's center, degrees counter-clockwise from +x, −180 < a ≤ 180; null where `rayAtHeight` is, or at the center. */
export function rayRoundRing(ray: Ray, center: readonly [number, number, number]): number | null {
  const hit = rayAtHeight(ray, center[2]);
  if (!hit) return null;
  const [dx, dy] = [hit[0] - center[0], hit[1] - center[1]];
  if (dx === 0 && dy === 0) return null;
  return (Math.atan2(dy, dx) * 180) / Math.PI;
}

/** The same turn in −180 < a ≤ 180. */
export function wrapDeg(deg: number): number {
  const turned = deg - 360 * Math.ceil((deg - 180) / 360);
  return turned === 0 ? 0 : turned; // never −0
}
