/** Meshes placed in a file by affine maps, put together as one. */

import { grouped, type Fail } from '../fail.ts';
import { MAX_INSTANCES, MAX_TRIANGLES, MAX_VERTICES } from '../limits.ts';
import { EXPORT_AGAIN, tooMany } from './raw.ts';

/** Three columns, then the shift: x' = m0·x + m3·y + m6·z + m9, y' = m1·x + …, z' = m2·x + …. */
export type Affine = readonly number[];

export const IDENTITY: Affine = [1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0];

export interface Piece {
  readonly positions: Float64Array;
  readonly indices: Uint32Array;
  readonly placed: Affine;
}

/** The map that does `inner` first, then `outer`. */
export function after(outer: Affine, inner: Affine): Affine {
  const m = new Array<number>(12);
  for (let column = 0; column < 4; column++) {
    const [x, y, z] = [inner[3 * column], inner[3 * column + 1], inner[3 * column + 2]];
    for (let row = 0; row < 3; row++) {
      m[3 * column + row] = outer[row] * x + outer[row + 3] * y + outer[row + 6] * z + (column === 3 ? outer[row + 9] : 0);
    }
  }
  return m;
}

/**
 * All pieces as one mesh, in order. A mirrored piece has its winding turned, so that outside stays outside.
 * Throws for indices out of their piece's range and past the limits, before memory is taken.
 */
export function assemble(pieces: readonly Piece[], fail: Fail): { positions: Float64Array; indices: Uint32Array } {
  if (pieces.length > MAX_INSTANCES) throw fail(`${grouped(pieces.length)} placed parts`, `at most ${grouped(MAX_INSTANCES)}`, 'Join the parts before you export them.');
  const triangles = pieces.reduce((sum, piece) => sum + piece.indices.length / 3, 0);
  const vertices = pieces.reduce((sum, piece) => sum + piece.positions.length / 3, 0);
  if (triangles > MAX_TRIANGLES) throw tooMany('triangles', triangles, fail);
  if (vertices > MAX_VERTICES) throw tooMany('vertices', vertices, fail);

  const positions = new Float64Array(3 * vertices);
  const indices = new Uint32Array(3 * triangles);
  let vertex = 0;
  let corner = 0;
  for (const piece of pieces) {
    place(piece, positions, 3 * vertex);
    corner = append(piece, vertex, indices, corner, fail);
    vertex += piece.positions.length / 3;
  }
  return { positions, indices };
}

/** Positions by their piece's map, from `start` on. */
export function place({ positions: from, placed: m }: Pick<Piece, 'positions' | 'placed'>, to: Float64Array, start: number): void {
  const [xx, xy, xz, yx, yy, yz, zx, zy, zz, x0, y0, z0] = m;
  for (let i = 0, out = start; i < from.length; i += 3, out += 3) {
    const x = from[i];
    const y = from[i + 1];
    const z = from[i + 2];
    to[out] = xx * x + yx * y + zx * z + x0;
    to[out + 1] = xy * x + yy * y + zy * z + y0;
    to[out + 2] = xz * x + yz * y + zz * z + z0;
  }
}

function append(piece: Piece, firstVertex: number, to: Uint32Array, start: number, fail: Fail): number {
  const { indices, placed: m } = piece;
  const count = piece.positions.length / 3;
  const mirrored = m[0] * (m[4] * m[8] - m[5] * m[7]) - m[3] * (m[1] * m[8] - m[2] * m[7]) + m[6] * (m[1] * m[5] - m[2] * m[4]) < 0;
  const [second, third] = mirrored ? [2, 1] : [1, 2];
  let out = start;
  for (let i = 0; i < indices.length; i += 3) {
    const a = indices[i];
    const b = indices[i + second];
    const c = indices[i + third];
    if (a >= count || b >= count || c >= count) throw fail(`a triangle that uses vertex ${grouped(Math.max(a, b, c))}`, `0 to ${grouped(count - 1)} (its part has ${grouped(count)} vertices)`, EXPORT_AGAIN);
    to[out++] = firstVertex + a;
    to[out++] = firstVertex + b;
    to[out++] = firstVertex + c;
  }
  return out;
}
