/**
 * Closed polylines over true curves: points lie on the curve, as many as it takes that no chord strays from it by more
 * than `ARC_MM`. For the convex sections of round solids.
 */
import type { SectionLoop } from './section-mesh.ts';

/** mm. Hundredth of a pen's finest line; a circle r 50 gets some 500 points, a drawn area falls short by 3e-5 of it. */
export const ARC_MM = 0.001;
/** Halvings of a span: 2²⁰ points, far more than a meter of arc takes. */
const MOST_HALVINGS = 20;
/** Spans that a whole turn starts with, so that no chord passes through the middle of what it should go round. */
const FIRST_SPANS = 8;

/** Writes the point of a curve at a parameter to `out`, x and y in mm. */
export type Curve = (at: number, out: Float64Array) => void;

/**
 * The convex region bounded by arcs of a curve, from `from` to `to` each, joined by straight lines in the order given.
 * Null where it has no area. Each arc is at most a whole turn; a whole turn's last point is its first and is left out.
 */
export function arcLoop(curve: Curve, arcs: readonly (readonly [from: number, to: number])[]): SectionLoop | null {
  const points: number[] = [];
  for (const [from, to] of arcs) {
    const step = (to - from) / FIRST_SPANS;
    for (let n = 0; n < FIRST_SPANS; n++) halve(curve, from + n * step, n === FIRST_SPANS - 1 ? to : from + (n + 1) * step, points);
    push(points, placeOf(curve, to));
  }
  const n = points.length;
  if (n >= 4 && near(points[0], points[n - 2]) && near(points[1], points[n - 1])) points.length = n - 2;
  return turnedRight(points);
}

/** The loop counterclockwise; null where it has no area. */
export function turnedRight(points: readonly number[]): SectionLoop | null {
  let twice = 0;
  for (let i = 2; i + 3 < points.length; i += 2) twice += (points[i] - points[0]) * (points[i + 3] - points[1]) - (points[i + 2] - points[0]) * (points[i + 1] - points[1]);
  if (points.length < 6 || !(Math.abs(twice) > 0)) return null;
  const loop = Float64Array.from(points);
  if (twice > 0) return loop;
  const turned = new Float64Array(loop.length);
  for (let i = 0, j = loop.length - 2; i < loop.length; i += 2, j -= 2) turned.set([loop[j], loop[j + 1]], i);
  return turned;
}

/** mm. Points nearer than this are one: the rounding of a few sines. */
const SAME_MM = 1e-9;

function near(a: number, b: number): boolean {
  return Math.abs(a - b) <= SAME_MM;
}

function push(points: number[], [x, y]: readonly [number, number]): void {
  const n = points.length;
  if (n >= 2 && near(points[n - 2], x) && near(points[n - 1], y)) return;
  points.push(x, y);
}

function placeOf(curve: Curve, at: number): [number, number] {
  const out = new Float64Array(2);
  curve(at, out);
  return [out[0], out[1]];
}

/** Adds the points from `from` up to, but without, `to`. */
function halve(curve: Curve, from: number, to: number, points: number[], depth = 0): void {
  const a = placeOf(curve, from);
  const b = placeOf(curve, to);
  const m = placeOf(curve, (from + to) / 2);
  if (depth < MOST_HALVINGS && strays(a, b, m)) {
    halve(curve, from, (from + to) / 2, points, depth + 1);
    halve(curve, (from + to) / 2, to, points, depth + 1);
  } else push(points, a);
}

/** Whether the point half way along the parameter lies farther from the chord than allowed. */
function strays(a: readonly [number, number], b: readonly [number, number], m: readonly [number, number]): boolean {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const length = Math.hypot(dx, dy);
  const off = length > 0 ? Math.abs(dx * (m[1] - a[1]) - dy * (m[0] - a[0])) / length : Math.hypot(m[0] - a[0], m[1] - a[1]);
  return off > ARC_MM;
}
