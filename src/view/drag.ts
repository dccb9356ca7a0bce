/** What a drag of a handle asks for, from where it began and where the sight is now. Pure arithmetic, mm and degrees. */

import type { Vec3 } from './eye.ts';
import type { Place, ViewChange } from './props.ts';
import { rayAtHeight, rayOnVertical, rayRoundRing, wrapDeg, type Ray } from './ray.ts';

export type Handle = 'body' | 'float' | 'bead';

export interface DragStart {
  readonly id: string;
  readonly handle: Handle;
  readonly place: Place;
  /** What was grabbed: the point on the body, or the center of the ring, or a point of the float's line. */
  readonly grabbed: Vec3;
  readonly ray: Ray;
  /** The center stays within these half-sizes about the mold's middle, and the base between these heights. */
  readonly reach: { readonly xMm: number; readonly yMm: number; readonly floorMm: number; readonly topMm: number };
  /** Height of what the thing would stand on there. */
  readonly supportHeightAt?: (xMm: number, yMm: number) => number;
}

/** A base this near to its support stands on it, mm: as near as stops are one stop, and a pixel's worth more. */
export const STANDS_WITHIN_MM = 0.3;

/** Gives the change for each new sight, or null where the sight tells nothing. */
export function beginDrag(start: DragStart): (ray: Ray) => ViewChange | null {
  if (start.handle === 'float') return raise(start);
  return start.handle === 'bead' ? turn(start) : slide(start);
}

/** The grabbed point stays under the finger, at its own height; the base follows what it stands on. */
function slide({ id, place, grabbed, ray, reach, supportHeightAt }: DragStart): (ray: Ray) => ViewChange | null {
  const from = rayAtHeight(ray, grabbed[2]);
  const support = supportHeightAt?.(place.xMm, place.yMm);
  const rides = support !== undefined && Math.abs(support - place.baseMm) <= STANDS_WITHIN_MM;
  return (now) => {
    const to = rayAtHeight(now, grabbed[2]);
    if (!from || !to) return null;
    const xMm = clamp(place.xMm + to[0] - from[0], -reach.xMm, reach.xMm);
    const yMm = clamp(place.yMm + to[1] - from[1], -reach.yMm, reach.yMm);
    return rides && supportHeightAt ? { id, xMm, yMm, baseMm: supportHeightAt(xMm, yMm) } : { id, xMm, yMm };
  };
}

function raise({ id, place, ray, reach }: DragStart): (ray: Ray) => ViewChange | null {
  const from = rayOnVertical(ray, place.xMm, place.yMm);
  return (now) => {
    const to = rayOnVertical(now, place.xMm, place.yMm);
    return from === null || to === null ? null : { id, baseMm: clamp(place.baseMm + to - from, reach.floorMm, reach.topMm) };
  };
}

function turn({ id, place, grabbed, ray }: DragStart): (ray: Ray) => ViewChange | null {
  const from = rayRoundRing(ray, grabbed);
  return (now) => {
    const to = rayRoundRing(now, grabbed);
    return from === null || to === null ? null : { id, turnZDeg: wrapDeg(place.turnZDeg + to - from) };
  };
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}
