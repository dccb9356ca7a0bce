/** A solid's form as it came: its bounds, how they change when it turns, its footprint. Plain arithmetic, mm. */

import type { Bounds } from '../core/solid/solid.ts';
import type { Place } from './props.ts';

export interface Form {
  readonly positions: Float32Array;
  readonly bounds: Bounds;
}

/** A turn about the mold's own upright axis, then a shift. */
export interface Carry {
  readonly turnRad: number;
  readonly xMm: number;
  readonly yMm: number;
}

/** Directions in which a footprint is measured: enough that it hugs a soft outline. */
const FOOTPRINT_DIRECTIONS = 40;

/** Bounds of all points; of none: a point at the origin. */
export function formOf(positions: Float32Array): Form {
  if (positions.length === 0) return { positions, bounds: { min: [0, 0, 0], max: [0, 0, 0] } };
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < positions.length; i++) {
    const k = i % 3;
    const v = positions[i];
    if (v < min[k]) min[k] = v;
    if (v > max[k]) max[k] = v;
  }
  return { positions, bounds: { min, max } };
}

/** Center (x, y) of the bounds after turning about the z axis through the origin, one pass over the points. */
export function turnedCenter({ positions, bounds }: Form, turnRad: number): readonly [number, number] {
  if (turnRad === 0) return [(bounds.min[0] + bounds.max[0]) / 2, (bounds.min[1] + bounds.max[1]) / 2];
  const c = Math.cos(turnRad);
  const s = Math.sin(turnRad);
  let x0 = Infinity, x1 = -Infinity, y0 = Infinity, y1 = -Infinity;
  for (let i = 0; i < positions.length; i += 3) {
    const x = c * positions[i] - s * positions[i + 1];
    const y = s * positions[i] + c * positions[i + 1];
    if (x < x0) x0 = x;
    if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    if (y > y1) y1 = y;
  }
  return [(x0 + x1) / 2, (y0 + y1) / 2];
}

/**
 * How what was drawn with a thing in one place comes along to another. A place is the middle of the bounds, which is
 * another point of the thing at every turn: the form, as it is at the turn `formDeg`, says which.
 */
export function carryOf(form: Form, formDeg: number, from: Place, to: Place): Carry {
  const [fromX, fromY] = turnedCenter(form, radians(from.turnZDeg - formDeg));
  const [toX, toY] = turnedCenter(form, radians(to.turnZDeg - formDeg));
  const turnRad = radians(to.turnZDeg - from.turnZDeg);
  const [c, s] = [Math.cos(turnRad), Math.sin(turnRad)];
  const [offX, offY] = [fromX - from.xMm, fromY - from.yMm];
  return { turnRad, xMm: to.xMm - toX + c * offX - s * offY, yMm: to.yMm - toY + s * offX + c * offY };
}

/** The outline it covers from above, as the points farthest out in many directions, counter-clockwise, x and y in turn. */
export function footprint({ positions }: Form): number[] {
  const outline: number[] = [];
  for (let k = 0; k < FOOTPRINT_DIRECTIONS; k++) {
    const angle = (2 * Math.PI * k) / FOOTPRINT_DIRECTIONS;
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    let best = -Infinity;
    let at = 0;
    for (let i = 0; i < positions.length; i += 3) {
      const reach = c * positions[i] + s * positions[i + 1];
      if (reach > best) {
        best = reach;
        at = i;
      }
    }
    const same = outline.length > 0 && outline[outline.length - 2] === positions[at] && outline[outline.length - 1] === positions[at + 1];
    if (positions.length > 0 && !same) outline.push(positions[at], positions[at + 1]);
  }
  return outline;
}

function radians(deg: number): number {
  return (deg * Math.PI) / 180;
}
