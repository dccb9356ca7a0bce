/** Transforms of a drawing: x′ = ax + cy + e, y′ = bx + dy + f, and how they are written. Source: SVG 1.1 §7.6, §7.8. */

/** a, b, c, d, e, f. */
export type Matrix = readonly [number, number, number, number, number, number];

export const IDENTITY: Matrix = [1, 0, 0, 1, 0, 0];

/** First `inner`, then `outer`. */
export function after(outer: Matrix, inner: Matrix): Matrix {
  const [a, b, c, d, e, f] = outer;
  const [p, q, r, s, t, u] = inner;
  return [a * p + c * q, b * p + d * q, a * r + c * s, b * r + d * s, a * t + c * u + e, b * t + d * u + f];
}

/** How much longer a length gets at most: the larger singular value. */
export function stretchOf([a, b, c, d]: Matrix): number {
  const sum = (a * a + b * b + c * c + d * d) / 2;
  const det = a * d - b * c;
  return Math.sqrt(sum + Math.sqrt(Math.max(0, sum * sum - det * det)));
}

export const mapped = ([a, b, c, d, e, f]: Matrix, [x, y]: readonly [number, number]): [number, number] => [a * x + c * y + e, b * x + d * y + f];

/** How much larger an area gets, as a length. */
export const scaleOf = ([a, b, c, d]: Matrix): number => Math.sqrt(Math.abs(a * d - b * c));

const NUMBER = /[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?/gi;
const ONE = /(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^()]*)\)/g;

export const numbersIn = (text: string): number[] => (text.match(NUMBER) ?? []).map(Number).filter(Number.isFinite);

/** A `transform` attribute; what is not understood is passed over. */
export function transformOf(text: string | undefined): Matrix {
  let matrix = IDENTITY;
  for (const [, kind, inside] of (text ?? '').matchAll(ONE)) matrix = after(matrix, single(kind, numbersIn(inside)));
  return matrix;
}

function single(kind: string, [p = NaN, q = NaN, r = NaN, ...rest]: number[]): Matrix {
  const radians = (p * Math.PI) / 180;
  if (kind === 'matrix' && rest.length === 3) return [p, q, r, ...rest] as unknown as Matrix;
  if (Number.isNaN(p)) return IDENTITY;
  if (kind === 'translate') return [1, 0, 0, 1, p, q || 0];
  if (kind === 'scale') return [p, 0, 0, Number.isNaN(q) ? p : q, 0, 0];
  if (kind === 'skewX') return [1, 0, Math.tan(radians), 1, 0, 0];
  if (kind === 'skewY') return [1, Math.tan(radians), 0, 1, 0, 0];
  if (kind !== 'rotate') return IDENTITY;
  const turn: Matrix = [Math.cos(radians), Math.sin(radians), -Math.sin(radians), Math.cos(radians), 0, 0];
  return Number.isNaN(q) || Number.isNaN(r) ? turn : after([1, 0, 0, 1, q, r], after(turn, [1, 0, 0, 1, -q, -r]));
}

/** A box that is fitted into another by `viewBox` and `preserveAspectRatio` (SVG 1.1 §7.8). Null: a viewBox without an area shows nothing. */
export function viewBoxTo(viewBox: readonly number[], width: number, height: number, how: string | undefined): Matrix | null {
  const [x, y, w, h] = viewBox;
  if (!(w > 0 && h > 0)) return null;
  const words = (how ?? '').trim().replace(/^defer\s+/, '');
  const [sx, sy] = [width / w, height / h];
  if (/^none\b/.test(words)) return [sx, 0, 0, sy, -x * sx, -y * sy];
  const scale = /\bslice\b/.test(words) ? Math.max(sx, sy) : Math.min(sx, sy);
  const share = (axis: 'x' | 'Y'): number => ({ Min: 0, Mid: 0.5, Max: 1 })[new RegExp(`${axis}(Min|Mid|Max)`).exec(words)?.[1] as 'Min' | 'Mid' | 'Max'] ?? 0.5;
  return [scale, 0, 0, scale, share('x') * (width - w * scale) - x * scale, share('Y') * (height - h * scale) - y * scale];
}
