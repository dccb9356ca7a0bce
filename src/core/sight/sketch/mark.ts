/**
 * The mark that a brush leaves: round, as wide as its stroke is pressed, in mold coordinates looking down into the mold.
 * Its edge is `softMm` wide and lies within its width: no paint gets past half a width from the line that was drawn.
 */
import type { Stroke, StrokePoint } from '../../scene/scene.ts';
import type { RegionBounds } from '../region.ts';

/** Share of its width that the lightest touch leaves: a brush that touches leaves a mark (common practice, no source). */
const LIGHTEST_SHARE = 0.2;

/** How far paint reaches from the line at a pressure of 0 to 1, mm. Linear in it, so that it runs evenly between two points. */
export function halfMm(stroke: Pick<Stroke, 'widthMm'>, pressure: number): number {
  return (stroke.widthMm / 2) * (LIGHTEST_SHARE + (1 - LIGHTEST_SHARE) * pressure);
}

/** How far from the line at least half of the paint is there: the middle of the soft edge, mm. */
export function coveredHalfMm(stroke: Pick<Stroke, 'widthMm' | 'softMm'>, pressure: number): number {
  const half = halfMm(stroke, pressure);
  return half - Math.min(stroke.softMm, half) / 2;
}

/** A stretch of a line with a round mark at each end: x, y and half width, mm. */
export interface Stretch {
  readonly ax: number;
  readonly ay: number;
  readonly aHalf: number;
  readonly bx: number;
  readonly by: number;
  readonly bHalf: number;
}

/** The stretches of a stroke in order; a dot is one of no length. `half`: halfMm or coveredHalfMm. */
export function stretchesOf(stroke: Stroke, half: (stroke: Stroke, pressure: number) => number = halfMm): Stretch[] {
  const stretch = ([ax, ay, a]: StrokePoint, [bx, by, b]: StrokePoint): Stretch => ({ ax, ay, aHalf: half(stroke, a), bx, by, bHalf: half(stroke, b) });
  const { points } = stroke;
  return points.length === 1 ? [stretch(points[0], points[0])] : points.slice(1).map((point, i) => stretch(points[i], point));
}

/** The upright box that holds all of its paint, mm. */
export function markBounds(stroke: Stroke): RegionBounds {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y, pressure] of stroke.points) {
    const half = halfMm(stroke, pressure);
    minX = Math.min(minX, x - half);
    minY = Math.min(minY, y - half);
    maxX = Math.max(maxX, x + half);
    maxY = Math.max(maxY, y + half);
  }
  return { minX, minY, maxX, maxY };
}

/** Length of the line that was drawn, mm; 0 of a dot. */
export function strokeLength({ points }: Pick<Stroke, 'points'>): number {
  let length = 0;
  for (let i = 1; i < points.length; i++) length += Math.hypot(points[i][0] - points[i - 1][0], points[i][1] - points[i - 1][1]);
  return length;
}
