/**
 * Curves of a drawing as points in its own coordinates, none farther from the true curve than a tolerance in the target's
 * measure.
 * Sources: SVG 1.1 §8.3 (path data), §9 (shapes), appendix F.6 (arcs).
 */
import type { Matrix } from './svg-matrix.ts';
import { stretchOf } from './svg-matrix.ts';

export interface Flat {
  readonly points: [number, number][];
  /** For each point: inside a curve, so that a stroke has no corner there. */
  readonly bends: boolean[];
  closed: boolean;
}

/** Points of one curve: a circle of 10 m at 0.005 mm has 7,000. */
const MOST_PIECES = 20_000;
/** Share of the tolerance: points nearer than this are one. */
const SAME = 1e-6;

/** Collects the rings of one shape. `matrix` leads to the target, in whose measure `tolerance` is. */
export class Outline {
  readonly rings: Flat[] = [];
  readonly #matrix: Matrix;
  readonly #tolerance: number;
  readonly #stretch: number;
  #ring: Flat | null = null;
  #x = 0;
  #y = 0;
  #startX = 0;
  #startY = 0;
  /** Since the last ring ended. */
  #moved = false;

  constructor(matrix: Matrix, tolerance: number) {
    this.#matrix = matrix;
    this.#tolerance = tolerance;
    this.#stretch = stretchOf(matrix);
  }

  get at(): readonly [number, number] {
    return [this.#x, this.#y];
  }

  move(x: number, y: number): void {
    this.#ring = null;
    this.#moved = true;
    [this.#x, this.#y, this.#startX, this.#startY] = [x, y, x, y];
  }

  line(x: number, y: number): void {
    this.#add(x, y);
  }

  cubic(x1: number, y1: number, x2: number, y2: number, x: number, y: number): void {
    const [x0, y0] = [this.#x, this.#y];
    // A chord of 1/n of the curve strays by at most |B″|/8n², |B″| ≤ 6 · the larger second difference.
    const bend = Math.max(this.#length(x0 - 2 * x1 + x2, y0 - 2 * y1 + y2), this.#length(x1 - 2 * x2 + x, y1 - 2 * y2 + y));
    const n = this.#pieces((6 * bend) / 8);
    for (let i = 1; i < n; i++) {
      const t = i / n;
      const s = 1 - t;
      const [a, b, c, d] = [s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t];
      this.#add(a * x0 + b * x1 + c * x2 + d * x, a * y0 + b * y1 + c * y2 + d * y, true);
    }
    this.#add(x, y);
  }

  quadratic(x1: number, y1: number, x: number, y: number): void {
    const [x0, y0] = [this.#x, this.#y];
    const n = this.#pieces((2 * this.#length(x0 - 2 * x1 + x, y0 - 2 * y1 + y)) / 8);
    for (let i = 1; i < n; i++) {
      const t = i / n;
      const s = 1 - t;
      this.#add(s * s * x0 + 2 * s * t * x1 + t * t * x, s * s * y0 + 2 * s * t * y1 + t * t * y, true);
    }
    this.#add(x, y);
  }

  /** F.6.5 and F.6.6; a radius of 0 is a line. */
  arc(rx: number, ry: number, turnDeg: number, large: boolean, sweep: boolean, x: number, y: number): void {
    const [x0, y0] = [this.#x, this.#y];
    let [a, b] = [Math.abs(rx), Math.abs(ry)];
    if (x0 === x && y0 === y) return;
    if (a === 0 || b === 0) return this.line(x, y);
    const turn = (turnDeg * Math.PI) / 180;
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    const [hx, hy] = [(x0 - x) / 2, (y0 - y) / 2];
    const [px, py] = [cos * hx + sin * hy, cos * hy - sin * hx];
    const over = (px / a) ** 2 + (py / b) ** 2;
    if (over > 1) [a, b] = [a * Math.sqrt(over), b * Math.sqrt(over)];
    const rest = Math.max(0, (a * a * b * b - a * a * py * py - b * b * px * px) / (a * a * py * py + b * b * px * px));
    const root = (large === sweep ? -1 : 1) * Math.sqrt(rest);
    const [qx, qy] = [(root * a * py) / b, (-root * b * px) / a];
    const [cx, cy] = [cos * qx - sin * qy + (x0 + x) / 2, sin * qx + cos * qy + (y0 + y) / 2];
    const from = Math.atan2((py - qy) / b, (px - qx) / a);
    let by = Math.atan2((-py - qy) / b, (-px - qx) / a) - from;
    if (sweep && by < 0) by += 2 * Math.PI;
    if (!sweep && by > 0) by -= 2 * Math.PI;
    this.#turn({ cx, cy, a, b, cos, sin, from, by });
    this.#add(x, y);
  }

  ellipse(cx: number, cy: number, a: number, b: number): void {
    this.move(cx + a, cy);
    this.#add(cx + a, cy);
    this.#turn({ cx, cy, a, b, cos: 1, sin: 0, from: 0, by: 2 * Math.PI });
    this.close();
  }

  rectangle(x: number, y: number, width: number, height: number, rx = 0, ry = 0): void {
    const [a, b] = [Math.min(rx, width / 2), Math.min(ry, height / 2)];
    const corner = (toX: number, toY: number): void => (a > 0 && b > 0 ? this.arc(a, b, 0, false, true, toX, toY) : undefined);
    const [right, low] = [x + width, y + height];
    const [u, v] = a > 0 && b > 0 ? [a, b] : [0, 0];
    this.move(x + u, y);
    this.line(right - u, y);
    corner(right, y + v);
    this.line(right, low - v);
    corner(right - u, low);
    this.line(x + u, low);
    corner(x, low - v);
    this.line(x, y + v);
    corner(x + u, y);
    this.close();
  }

  close(): void {
    // A ring of one point has no inside, but a round stroke draws it as a dot.
    if (!this.#ring && this.#moved) this.#add(this.#x, this.#y);
    if (this.#ring) {
      this.#ring.closed = true;
      const { points, bends } = this.#ring;
      const [first, last] = [points[0], points[points.length - 1]];
      if (points.length > 1 && this.#same(first, last)) {
        points.pop();
        bends.pop();
      }
    }
    this.#ring = null;
    this.#moved = false;
    [this.#x, this.#y] = [this.#startX, this.#startY];
  }

  /** The points between an arc's ends. */
  #turn({ cx, cy, a, b, cos, sin, from, by }: { cx: number; cy: number; a: number; b: number; cos: number; sin: number; from: number; by: number }): void {
    const radius = Math.max(a, b) * this.#stretch;
    const step = 2 * Math.acos(Math.max(0, 1 - this.#tolerance / Math.max(radius, this.#tolerance)));
    const n = Math.min(MOST_PIECES, Math.max(2, Math.ceil(Math.abs(by) / step)));
    for (let i = 1; i < n; i++) {
      const at = from + (by * i) / n;
      const [u, v] = [a * Math.cos(at), b * Math.sin(at)];
      this.#add(cx + cos * u - sin * v, cy + sin * u + cos * v, true);
    }
  }

  /** Pieces for which `stray`/n² is within the tolerance. */
  #pieces(stray: number): number {
    return Math.min(MOST_PIECES, Math.max(1, Math.ceil(Math.sqrt(stray / this.#tolerance))));
  }

  #length(x: number, y: number): number {
    const [a, b, c, d] = this.#matrix;
    return Math.hypot(a * x + c * y, b * x + d * y);
  }

  #same([ax, ay]: readonly [number, number], [bx, by]: readonly [number, number]): boolean {
    return this.#length(ax - bx, ay - by) <= SAME * this.#tolerance;
  }

  #add(x: number, y: number, bend = false): void {
    if (!this.#ring) {
      this.#ring = { points: [[this.#x, this.#y]], bends: [false], closed: false };
      this.rings.push(this.#ring);
    }
    [this.#x, this.#y] = [x, y];
    const { points, bends } = this.#ring;
    if (this.#same(points[points.length - 1], [x, y])) {
      bends[bends.length - 1] &&= bend;
      return;
    }
    points.push([x, y]);
    bends.push(bend);
  }
}

const ARGUMENTS: Readonly<Record<string, number>> = { m: 2, l: 2, h: 1, v: 1, c: 6, s: 4, q: 4, t: 2, a: 7, z: 0 };

/** Draws path data up to its first mistake (SVG 1.1 F.2). */
export function drawPathData(outline: Outline, data: string): void {
  const letters = /([mlhvcsqtaz])|([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)|([\s,]+)|(.)/giy;
  let command = '';
  let numbers: number[] = [];
  let last = { kind: '', x: 0, y: 0 };
  for (;;) {
    const kind = command.toLowerCase();
    // An arc's flags may stand without a gap: `0 01 5 5`.
    if (kind === 'a' && (numbers.length % 7 === 3 || numbers.length % 7 === 4)) {
      const flag = /[\s,]*([01])/y;
      flag.lastIndex = letters.lastIndex;
      const found = flag.exec(data);
      if (!found) return;
      letters.lastIndex = flag.lastIndex;
      numbers.push(Number(found[1]));
      continue;
    }
    const found = letters.exec(data);
    if (!found || found[4] !== undefined) return;
    if (found[3] !== undefined) continue;
    if (found[1] !== undefined) {
      if (numbers.length > 0 || (command === '' && found[1].toLowerCase() !== 'm')) return;
      command = found[1];
      if (command.toLowerCase() === 'z') {
        outline.close();
        last = { kind: '', x: 0, y: 0 };
      }
      continue;
    }
    if (command === '' || kind === 'z') return;
    numbers.push(Number(found[2]));
    if (numbers.length < ARGUMENTS[kind]) continue;
    last = draw(outline, command, numbers, last);
    numbers = [];
    // Further pairs after a move are lines.
    if (kind === 'm') command = command === 'm' ? 'l' : 'L';
  }
}

/** Draws one command; gives back the control point that a smooth curve after it mirrors. */
function draw(outline: Outline, command: string, n: readonly number[], last: { kind: string; x: number; y: number }): { kind: string; x: number; y: number } {
  const kind = command.toLowerCase();
  const [x0, y0] = outline.at;
  const [dx, dy] = command === kind ? [x0, y0] : [0, 0];
  const none = { kind: '', x: 0, y: 0 };
  const mirror = (of: string): readonly [number, number] => (last.kind === of ? [2 * x0 - last.x, 2 * y0 - last.y] : [x0, y0]);
  if (kind === 'm') outline.move(dx + n[0], dy + n[1]);
  else if (kind === 'l') outline.line(dx + n[0], dy + n[1]);
  else if (kind === 'h') outline.line(dx + n[0], y0);
  else if (kind === 'v') outline.line(x0, dy + n[0]);
  else if (kind === 'a') outline.arc(n[0], n[1], n[2], n[3] !== 0, n[4] !== 0, dx + n[5], dy + n[6]);
  else if (kind === 'c' || kind === 's') {
    const [ax, ay] = kind === 's' ? mirror('c') : [dx + n[0], dy + n[1]];
    const [bx, by, x, y] = (kind === 's' ? n : n.slice(2)).map((value, i) => value + (i % 2 === 0 ? dx : dy));
    outline.cubic(ax, ay, bx, by, x, y);
    return { kind: 'c', x: bx, y: by };
  } else {
    const [ax, ay] = kind === 't' ? mirror('q') : [dx + n[0], dy + n[1]];
    const [x, y] = (kind === 't' ? n : n.slice(2)).map((value, i) => value + (i % 2 === 0 ? dx : dy));
    outline.quadratic(ax, ay, x, y);
    return { kind: 'q', x: ax, y: ay };
  }
  return none;
}
