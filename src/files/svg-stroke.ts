/**
 * Strokes as closed outlines: width, joins, caps and dashes, in the drawing's own coordinates, so that what stretches the
 * drawing stretches them too. Each outline winds once or more over the stroke and never the other way.
 * Source: SVG 2 §13.5 (stroke properties; §13.5.7 the shape of a stroke).
 */
import type { Flat } from './svg-outline.ts';

export interface Stroke {
  /** Half its width. */
  readonly half: number;
  readonly join: 'miter' | 'round' | 'bevel';
  readonly cap: 'butt' | 'round' | 'square';
  /** Largest miter length as a multiple of the width; a longer one is a bevel. */
  readonly miterLimit: number;
  /** Lengths of dashes and gaps in turn, an even number; none: a whole line. */
  readonly dashes: readonly number[];
  readonly dashOffset: number;
  /** How far chords of round joins and caps may lie inside their arc. */
  readonly stray: number;
}

type Vector = readonly [number, number];

/** A line or one dash of it; one of no length keeps the way it runs. */
interface Run extends Flat {
  readonly toward?: Vector;
}

/** Dashes of one line; a finer pattern is no dash pattern. */
const MOST_DASHES = 20_000;
/** Sides of a round join's whole circle. */
const MOST_SIDES = 1_000;

/** x0, y0, x1, y1, … each; null: its dashes are too many. */
export function strokeLoops(line: Flat, stroke: Stroke): number[][] | null {
  const runs = dashed(line, stroke);
  return runs && runs.flatMap((run) => outlines(run, stroke));
}

export function lineLength({ points, closed }: Flat): number {
  let length = 0;
  for (let i = closed ? 0 : 1; i < points.length; i++) length += distance(points[(i || points.length) - 1], points[i]);
  return length;
}

function outlines({ points, bends, closed, toward }: Run, stroke: Stroke): number[][] {
  if (points.length === 1) {
    if (stroke.cap === 'butt') return [];
    const [x, y] = toward ?? [1, 0];
    const loop: number[] = [];
    addCap(loop, points[0], [x, y], stroke);
    addCap(loop, points[0], [-x, -y], stroke);
    return [loop];
  }
  const back = [...points].reverse();
  const backBends = [...bends].reverse();
  if (closed) return [side(points, bends, true, stroke), side(back, backBends, true, stroke)];
  const loop = side(points, bends, false, stroke);
  addCap(loop, points[points.length - 1], direction(back[1], back[0]), stroke);
  for (const value of side(back, backBends, false, stroke)) loop.push(value);
  addCap(loop, points[0], direction(points[1], points[0]), stroke);
  return [loop];
}

/** The right side of a line, from its first point to its last; of a ring all round. */
function side(points: readonly Vector[], bends: readonly boolean[], ring: boolean, stroke: Stroke): number[] {
  const { half } = stroke;
  const loop: number[] = [];
  const n = points.length;
  const put = ([x, y]: Vector, [dx, dy]: Vector): void => void loop.push(x + half * dy, y - half * dx);
  if (!ring) put(points[0], direction(points[0], points[1]));
  for (let i = ring ? 0 : 1; i < (ring ? n : n - 1); i++) {
    const [before, at, after] = [points[(i + n - 1) % n], points[i], points[(i + 1) % n]];
    addJoin(loop, at, { from: direction(before, at), to: direction(at, after), round: bends[i], room: Math.min(distance(before, at), distance(at, after)) / 2 }, stroke);
  }
  if (!ring) put(points[n - 1], direction(points[n - 2], points[n - 1]));
  return loop;
}

/** The right side of a corner. `room`: how far along its lines an inner corner may reach. */
function addJoin(loop: number[], [x, y]: Vector, { from, to, round, room }: { from: Vector; to: Vector; round: boolean; room: number }, stroke: Stroke): void {
  const { half, join, miterLimit } = stroke;
  const cross = from[0] * to[1] - from[1] * to[0];
  const dot = from[0] * to[0] + from[1] * to[1];
  const a: Vector = [half * from[1], -half * from[0]];
  const b: Vector = [half * to[1], -half * to[0]];
  const miter = (): void => void loop.push(x + (a[0] + b[0]) / (1 + dot), y + (a[1] + b[1]) / (1 + dot));
  if (cross < 0) {
    // Where the inner sides meet, if within both lines; else by way of the corner itself.
    if (half * -cross <= room * (1 + dot)) miter();
    else loop.push(x + a[0], y + a[1], x, y, x + b[0], y + b[1]);
  } else if (round || join === 'round') {
    addArc(loop, [x, y], { from: a, by: Math.atan2(Math.abs(cross), dot), stray: stroke.stray });
  } else if (join === 'miter' && 2 <= miterLimit * miterLimit * (1 + dot)) miter();
  else loop.push(x + a[0], y + a[1], x + b[0], y + b[1]);
}

/** From the right of a line's end to its left. */
function addCap(loop: number[], [x, y]: Vector, [dx, dy]: Vector, { half, cap, stray }: Stroke): void {
  const right: Vector = [half * dy, -half * dx];
  if (cap === 'round') return addArc(loop, [x, y], { from: right, by: Math.PI, stray });
  const [ex, ey] = cap === 'square' ? [x + half * dx, y + half * dy] : [x, y];
  loop.push(ex + right[0], ey + right[1], ex - right[0], ey - right[1]);
}

/** `from` turned by `by`, both ends drawn. */
function addArc(loop: number[], [x, y]: Vector, { from: [u, v], by, stray }: { from: Vector; by: number; stray: number }): void {
  const step = Math.max((2 * Math.PI) / MOST_SIDES, 2 * Math.acos(Math.max(0, 1 - stray / Math.max(Math.hypot(u, v), stray))));
  const n = Math.max(1, Math.ceil(by / step));
  for (let i = 0; i <= n; i++) {
    const [cos, sin] = [Math.cos((by * i) / n), Math.sin((by * i) / n)];
    loop.push(x + u * cos - v * sin, y + u * sin + v * cos);
  }
}

/** A line's dashes. On a ring the last dash runs on into the first. */
function dashed(line: Flat, { dashes, dashOffset }: Stroke): Run[] | null {
  const period = dashes.reduce((sum, length) => sum + length, 0);
  const length = lineLength(line);
  if (!(period > 0) || length === 0) return [line];
  if ((length / period) * dashes.length > MOST_DASHES) return null;
  const points = line.closed ? [...line.points, line.points[0]] : line.points;
  const bends = line.closed ? [...line.bends, line.bends[0]] : line.bends;
  let place = ((dashOffset % period) + period) % period;
  let index = 0;
  while (place > 0 && place >= dashes[index] && index < dashes.length - 1) place -= dashes[index++];
  const startsOn = index % 2 === 0;
  const runs: Run[] = [];
  let left = Math.max(0, dashes[index] - place);
  let run: Run | null = null;
  const begin = (at: Vector, toward: Vector): void => {
    run = { points: [[at[0], at[1]]], bends: [false], closed: false, toward };
    runs.push(run);
  };
  if (startsOn) begin(points[0], direction(points[0], points[1]));
  for (let i = 1; i < points.length; i++) {
    const [from, to] = [points[i - 1], points[i]];
    const [long, toward] = [distance(from, to), direction(from, to)];
    let done = 0;
    while (left < long - done) {
      done += left;
      const at: [number, number] = [from[0] + toward[0] * done, from[1] + toward[1] * done];
      if (run) extend(run, at, false);
      run = null;
      index = (index + 1) % dashes.length;
      left = dashes[index];
      if (index % 2 === 0) begin(at, toward);
    }
    left -= long - done;
    if (run) extend(run, to, bends[i]);
  }
  if (!line.closed || !startsOn || !run) return runs;
  if (runs.length === 1) return [line];
  const [first, ...others] = runs;
  const joined: Run = others[others.length - 1];
  first.points.slice(1).forEach((point, i) => extend(joined, point, first.bends[i + 1]));
  return others;
}

function extend({ points, bends }: Run, point: Vector, bend: boolean): void {
  if (distance(points[points.length - 1], point) === 0) return;
  points.push([point[0], point[1]]);
  bends.push(bend);
}

const distance = ([ax, ay]: Vector, [bx, by]: Vector): number => Math.hypot(bx - ax, by - ay);

function direction(from: Vector, to: Vector): Vector {
  const length = distance(from, to);
  return [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
}
