/** Flat outlines: mm, in the plane named by their user. Rings are closed without repeating their first point. */

export type Point = readonly [number, number];
export type Ring = readonly Point[];

/** One outer ring and its holes; filled by the even-odd rule, so ring direction does not matter. */
export interface Polygon {
  readonly outer: Ring;
  readonly holes: readonly Ring[];
}

export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** The same outline elsewhere, mm. */
export function shiftedPolygon({ outer, holes }: Polygon, dx: number, dy: number): Polygon {
  const shift = (ring: Ring): Ring => ring.map(([x, y]) => [x + dx, y + dy] as const);
  return { outer: shift(outer), holes: holes.map(shift) };
}

export const ringsOf = (polygon: Polygon): readonly Ring[] => [polygon.outer, ...polygon.holes];

/** The smallest box round all points; an empty list gives a box of size 0 at the origin. */
export function boxOf(rings: readonly Ring[]): Box {
  let x0 = Infinity, y0 = Infinity, x1 = -Infinity, y1 = -Infinity;
  for (const ring of rings) {
    for (const [x, y] of ring) {
      if (x < x0) x0 = x;
      if (x > x1) x1 = x;
      if (y < y0) y0 = y;
      if (y > y1) y1 = y;
    }
  }
  return x0 > x1 ? { x0: 0, y0: 0, x1: 0, y1: 0 } : { x0, y0, x1, y1 };
}

/** Signed area, mm², positive counter-clockwise with y up (shoelace formula). */
export function ringArea(ring: Ring): number {
  let twice = 0;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) twice += ring[j][0] * ring[i][1] - ring[i][0] * ring[j][1];
  return twice / 2;
}

/** Area of the outer ring less its holes, mm². */
export function polygonArea(polygon: Polygon): number {
  return polygon.holes.reduce((area, hole) => area - Math.abs(ringArea(hole)), Math.abs(ringArea(polygon.outer)));
}

/** Even-odd test; a point on the line may fall either side. */
export function insideRing(ring: Ring, [px, py]: Point): boolean {
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [ax, ay] = ring[i];
    const [bx, by] = ring[j];
    if (ay > py !== by > py && px < ax + ((py - ay) / (by - ay)) * (bx - ax)) inside = !inside;
  }
  return inside;
}

export const rectangle = (x0: number, y0: number, x1: number, y1: number): Ring => [[x0, y0], [x1, y0], [x1, y1], [x0, y1]];
