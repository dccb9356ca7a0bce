/**
 * A drawn line with as few points as keep it within a tolerance: Ramer's and Douglas and Peucker's method (Computer Graphics
 * and Image Processing 1, 1972; Cartographica 10, 1973), over place and half width together, so that neither strays.
 */
import type { Stroke, StrokePoint } from '../../scene/scene.ts';
import { halfMm } from './mark.ts';

/** mm. No point of a kept stroke's line, nor its half width there, is farther than this from what the hand drew: below any brush. */
export const SIMPLIFY_MM = 0.1;
/** Places are kept to a hundredth of a millimeter, pressure to a thousandth. */
const PLACE_DECIMALS = 2;
const PRESSURE_DECIMALS = 3;
/** mm. What that may add: half a hundredth both ways, and half a thousandth's share of a brush of 50 mm. */
const ROUNDING_MM = 0.0125;

/** The stroke as it is kept: rounded, then without the points it can do without; within SIMPLIFY_MM of what was drawn. A hand that rests leaves a dot. */
export function keptPoints(drawn: Pick<Stroke, 'points' | 'widthMm'>): StrokePoint[] {
  const points = drawn.points.map(([x, y, pressure]): StrokePoint => [rounded(x, PLACE_DECIMALS), rounded(y, PLACE_DECIMALS), rounded(pressure, PRESSURE_DECIMALS)]);
  return simplified({ ...drawn, points }, SIMPLIFY_MM - ROUNDING_MM);
}

/**
 * Points of the line, first and last among them, between which it stays within `toleranceMm`: every drawn point of the new
 * one, and every place on the new one of the drawn, in x, y and half width as three directions. O(n²) at the worst.
 */
export function simplified({ points, widthMm }: Pick<Stroke, 'points' | 'widthMm'>, toleranceMm: number): StrokePoint[] {
  const n = points.length;
  if (n < 2) return [...points];
  const flat = new Float64Array(3 * n);
  points.forEach(([x, y, pressure], i) => flat.set([x, y, halfMm({ widthMm }, pressure)], 3 * i));
  const keep = new Uint8Array(n);
  keep[0] = keep[n - 1] = 1;
  const open: number[] = [0, n - 1];
  const limit = toleranceMm * toleranceMm;
  while (open.length > 0) {
    const to = open.pop()!;
    const from = open.pop()!;
    let farthest = -1;
    let most = limit;
    for (let i = from + 1; i < to; i++) {
      const off = squaredFrom(flat, i, from, to);
      if (off > most) {
        most = off;
        farthest = i;
      }
    }
    if (farthest < 0) continue;
    keep[farthest] = 1;
    open.push(from, farthest, farthest, to);
  }
  const kept = points.filter((_, i) => keep[i] === 1);
  const [[ax, ay, a], [bx, by, b]] = [kept[0], kept[1]];
  return kept.length === 2 && ax === bx && ay === by && a === b ? [kept[0]] : kept;
}

/** Squared distance of point i from the stretch between two others. */
function squaredFrom(flat: Float64Array, i: number, from: number, to: number): number {
  const [a, b, p] = [3 * from, 3 * to, 3 * i];
  const dx = flat[b] - flat[a], dy = flat[b + 1] - flat[a + 1], dz = flat[b + 2] - flat[a + 2];
  const px = flat[p] - flat[a], py = flat[p + 1] - flat[a + 1], pz = flat[p + 2] - flat[a + 2];
  const square = dx * dx + dy * dy + dz * dz;
  const at = square === 0 ? 0 : Math.min(1, Math.max(0, (px * dx + py * dy + pz * dz) / square));
  const ex = px - at * dx, ey = py - at * dy, ez = pz - at * dz;
  return ex * ex + ey * ey + ez * ez;
}

const rounded = (value: number, decimals: number): number => Number(value.toFixed(decimals)) + 0;
