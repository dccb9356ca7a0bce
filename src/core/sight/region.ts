/**
 * Flat regions with holes, as sections, outlines and templates use them: closed loops in mm in mold coordinates,
 * looking down into the mold (x right, y back). Measures are here; uniting and growing come in as `Regions`,
 * implemented over a polygon library in files/regions.ts.
 */

/** x0, y0, x1, y1, … mm; the last point joins the first without repeating it. At least three points. */
export type Loop = Float64Array;

/** Outer loops counterclockwise, holes clockwise; loops do not cross, so that a point is inside where they wind to 1. */
export type Region = readonly Loop[];

export interface RegionBounds {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Polygon operations, given to the core. Every result is a `Region`; an empty one is an empty list. */
export interface Regions {
  unite(regions: readonly Region[]): Region;
  /** What of `a` is outside `b`. */
  minus(a: Region, b: Region): Region;
  /** What of `a` is inside `b`. */
  meet(a: Region, b: Region): Region;
  /** What rings of any kind, crossing and turning as they like, go round by a rule: an odd number of times, or at all. */
  filled(rings: readonly Loop[], rule: 'evenodd' | 'nonzero'): Region;
  /** Everything within `byMm` of it, round joins; negative shrinks. */
  grow(a: Region, byMm: number): Region;
}

export const NOWHERE: Region = [];

/** Signed area, mm²: counterclockwise positive (shoelace formula, taken from the loop's first point so that digits hold far away). */
export function loopArea(loop: Loop): number {
  const n = loop.length;
  const x0 = loop[0];
  const y0 = loop[1];
  let twice = 0;
  for (let i = 2; i + 3 < n; i += 2) twice += (loop[i] - x0) * (loop[i + 3] - y0) - (loop[i + 2] - x0) * (loop[i + 1] - y0);
  return twice / 2;
}

/** mm², holes taken off. */
export function regionArea(region: Region): number {
  let area = 0;
  for (const loop of region) area += loopArea(loop);
  return area;
}

/** Length of a loop, mm. */
export function loopLength(loop: Loop): number {
  const n = loop.length;
  let length = n === 0 ? 0 : Math.hypot(loop[0] - loop[n - 2], loop[1] - loop[n - 1]);
  for (let i = 2; i < n; i += 2) length += Math.hypot(loop[i] - loop[i - 2], loop[i + 1] - loop[i - 1]);
  return length;
}

/** Length of all edges, those of holes too, mm. */
export function regionPerimeter(region: Region): number {
  let length = 0;
  for (const loop of region) length += loopLength(loop);
  return length;
}

/** The smallest upright box round it, mm; null of an empty one. */
export function regionBounds(region: Region): RegionBounds | null {
  let minX = Infinity, minY = Infinity, maxX = -Infinity, maxY = -Infinity;
  for (const loop of region) {
    for (let i = 0; i < loop.length; i += 2) {
      if (loop[i] < minX) minX = loop[i];
      if (loop[i] > maxX) maxX = loop[i];
      if (loop[i + 1] < minY) minY = loop[i + 1];
      if (loop[i + 1] > maxY) maxY = loop[i + 1];
    }
  }
  return minX > maxX ? null : { minX, minY, maxX, maxY };
}

/** Whether a point lies inside; on an edge it may fall either side. */
export function insideRegion(region: Region, xMm: number, yMm: number): boolean {
  let inside = false;
  for (const loop of region) {
    const n = loop.length;
    for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
      const ay = loop[i + 1];
      const by = loop[j + 1];
      if (ay > yMm !== by > yMm && xMm < loop[i] + ((yMm - ay) / (by - ay)) * (loop[j] - loop[i])) inside = !inside;
    }
  }
  return inside;
}
