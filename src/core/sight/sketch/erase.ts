/**
 * A round eraser moved along a line takes off all paint it touches: strokes are split where it passes, exactly. What is left
 * ends where its own round mark just clears the eraser. A dot that is touched goes.
 */
import type { Stroke, StrokePoint } from '../../scene/scene.ts';
import { halfMm, markBounds, strokeLength } from './mark.ts';

export interface Eraser {
  /** Where its middle went, x and y, mm: one point or more. */
  readonly path: readonly (readonly [number, number])[];
  readonly radiusMm: number;
}

/** mm. A place this close to the eraser's edge counts as touched: far above rounding, far below a brush. */
const TOUCH_MM = 1e-9;
/** mm. A rest shorter than this is no stroke: what is kept to a hundredth has none. */
const SHORTEST_MM = 0.01;
/** Points where a stroke was cut are kept to this: exact beside the hundredths of what was drawn. */
const CUT_DECIMALS = 6;

/** The strokes with what the eraser touched gone, in their old order; a stroke that it missed is the same object. */
export function erased<S extends Stroke>(strokes: readonly S[], eraser: Eraser): readonly S[] {
  const box = pathBox(eraser);
  let touched = false;
  const left = strokes.flatMap((stroke): S[] => {
    const mark = markBounds(stroke);
    if (mark.minX > box.maxX || mark.maxX < box.minX || mark.minY > box.maxY || mark.maxY < box.minY) return [stroke];
    const pieces = piecesLeft(stroke, eraser);
    if (pieces === null) return [stroke];
    touched = true;
    return pieces.map((points) => ({ ...stroke, points }));
  });
  return touched ? left : strokes;
}

function pathBox({ path, radiusMm }: Eraser): { minX: number; minY: number; maxX: number; maxY: number } {
  const box = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
  for (const [x, y] of path) {
    box.minX = Math.min(box.minX, x - radiusMm);
    box.minY = Math.min(box.minY, y - radiusMm);
    box.maxX = Math.max(box.maxX, x + radiusMm);
    box.maxY = Math.max(box.maxY, y + radiusMm);
  }
  return box;
}

/** The parts of one stroke that stay; null: it was not touched. */
function piecesLeft(stroke: Stroke, eraser: Eraser): StrokePoint[][] | null {
  const { points } = stroke;
  if (points.length === 1) return gone(stroke, points[0], points[0], eraser).length > 0 ? [] : null;
  const pieces: StrokePoint[][] = [];
  let open: StrokePoint[] = [];
  let touched = false;
  const close = (): void => {
    if (open.length > 1 && strokeLength({ points: open }) >= SHORTEST_MM) pieces.push(open);
    open = [];
  };
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1], points[i]];
    const cuts = gone(stroke, a, b, eraser);
    if (cuts.length > 0) touched = true;
    let at = 0;
    for (const [from, to] of cuts) {
      if (from > at) {
        if (open.length === 0) open.push(between(a, b, at));
        open.push(between(a, b, from));
      }
      close();
      at = to;
    }
    if (at >= 1) continue;
    if (open.length === 0) open.push(between(a, b, at));
    open.push(b);
  }
  close();
  return touched ? pieces : null;
}

function between(a: StrokePoint, b: StrokePoint, at: number): StrokePoint {
  if (at === 0) return a;
  if (at === 1) return b;
  const mix = (k: 0 | 1 | 2): number => Number((a[k] + at * (b[k] - a[k])).toFixed(CUT_DECIMALS)) + 0;
  return [mix(0), mix(1), mix(2)];
}

/** Which shares of a stretch, 0 to 1, the eraser takes, in order and apart. */
function gone(stroke: Stroke, a: StrokePoint, b: StrokePoint, { path, radiusMm }: Eraser): [number, number][] {
  const from = radiusMm + halfMm(stroke, a[2]);
  const grows = radiusMm + halfMm(stroke, b[2]) - from;
  const far = Math.max(from, from + grows);
  const [minX, maxX] = [Math.min(a[0], b[0]) - far, Math.max(a[0], b[0]) + far];
  const [minY, maxY] = [Math.min(a[1], b[1]) - far, Math.max(a[1], b[1]) + far];
  const spans: [number, number][] = [];
  for (let i = 0; i < Math.max(1, path.length - 1); i++) {
    const [c, d] = [path[i], path[Math.min(i + 1, path.length - 1)]];
    if (Math.min(c[0], d[0]) > maxX || Math.max(c[0], d[0]) < minX || Math.min(c[1], d[1]) > maxY || Math.max(c[1], d[1]) < minY) continue;
    const span = spanWithin({ ax: a[0], ay: a[1], dx: b[0] - a[0], dy: b[1] - a[1], from, grows }, c, d);
    if (span) spans.push(span);
  }
  spans.sort((p, q) => p[0] - q[0]);
  const joined: [number, number][] = [];
  for (const span of spans) {
    const last = joined[joined.length - 1];
    if (last && span[0] <= last[1]) last[1] = Math.max(last[1], span[1]);
    else joined.push(span);
  }
  return joined;
}

interface Walk {
  readonly ax: number;
  readonly ay: number;
  readonly dx: number;
  readonly dy: number;
  /** How near the eraser's line may come at its start, and how that changes to its end. */
  readonly from: number;
  readonly grows: number;
}

type Place = readonly [number, number];

/**
 * The shares of a walk that lie within reach of the eraser's stretch from c to d; null: none. Distance to a stretch is convex
 * along a straight walk and the reach linear, so it is one span, and its ends are 0, 1, or where the distance to an end or to the
 * stretch's line equals the reach: all of these are tried.
 */
function spanWithin(walk: Walk, c: Place, d: Place): [number, number] | null {
  const tries = [0, 1, ...circleCrossings(walk, c), ...circleCrossings(walk, d), ...sideCrossings(walk, c, d)];
  let [low, high] = [Infinity, -Infinity];
  for (const at of tries) {
    if (!(at >= 0 && at <= 1) || distanceAt(walk, at, c, d) > walk.from + at * walk.grows + TOUCH_MM) continue;
    low = Math.min(low, at);
    high = Math.max(high, at);
  }
  return low <= high ? [low, high] : null;
}

/** Where |walk − center| = reach: a quadratic. */
function circleCrossings({ ax, ay, dx, dy, from, grows }: Walk, [cx, cy]: Place): number[] {
  const [px, py] = [ax - cx, ay - cy];
  const a = dx * dx + dy * dy - grows * grows;
  const half = px * dx + py * dy - from * grows;
  const c = px * px + py * py - from * from;
  if (a === 0) return half === 0 ? [] : [-c / (2 * half)];
  const root = half * half - a * c;
  if (root < 0) return [];
  // Citardauq's form for the root that would lose its digits.
  const q = -(half + (half < 0 ? -1 : 1) * Math.sqrt(root));
  return q === 0 ? [0] : [q / a, c / q];
}

/** Where the distance to the line through c and d equals the reach, on either side of it. */
function sideCrossings({ ax, ay, dx, dy, from, grows }: Walk, c: Place, d: Place): number[] {
  const length = Math.hypot(d[0] - c[0], d[1] - c[1]);
  if (length === 0) return [];
  const [nx, ny] = [-(d[1] - c[1]) / length, (d[0] - c[0]) / length];
  const start = (ax - c[0]) * nx + (ay - c[1]) * ny;
  const rate = dx * nx + dy * ny;
  return [(from - start) / (rate - grows), (-from - start) / (rate + grows)].filter(Number.isFinite);
}

function distanceAt({ ax, ay, dx, dy }: Walk, at: number, c: Place, d: Place): number {
  const [x, y] = [ax + at * dx - c[0], ay + at * dy - c[1]];
  const [ex, ey] = [d[0] - c[0], d[1] - c[1]];
  const square = ex * ex + ey * ey;
  const along = square === 0 ? 0 : Math.min(1, Math.max(0, (x * ex + y * ey) / square));
  return Math.hypot(x - along * ex, y - along * ey);
}
