/**
 * Faces with any number of corners, cut into triangles that use all their corners.
 *
 * Convex faces become fans; others lose their ears one by one (ear clipping, Meisters 1975) in the plane that the
 * face covers most. Every corner stays a corner, so a closed surface stays closed even where corners are in line.
 */

import { grouped, type Fail } from '../fail.ts';
import { MAX_CONCAVE_CORNERS, MAX_CUTTING_STEPS, MAX_TRIANGLES } from '../limits.ts';
import { growingIndices, type Growing } from './growing.ts';
import { EXPORT_AGAIN, tooMany } from './raw.ts';

export interface Polygons {
  /** Vertex numbers of all faces one after the other. */
  readonly corners: Growing<Uint32Array>;
  /** Corners of each face, at least 3. */
  readonly sizes: Growing<Uint32Array>;
}

export function noPolygons(): Polygons {
  return { corners: growingIndices(), sizes: growingIndices() };
}

/**
 * Triangles of all faces, in order, wound as the faces are. Linear for triangles and convex faces, quadratic in the
 * corners of a concave one. Throws for corners out of range and past the limits.
 */
export function triangulate(positions: Float64Array, polygons: Polygons, fail: Fail): Uint32Array {
  const { corners, sizes } = polygons;
  const vertices = positions.length / 3;
  for (let i = 0; i < corners.length; i++) {
    const v = corners.array[i];
    if (v >= vertices) throw fail(`a face that uses vertex ${grouped(v + 1)}`, `one of the ${grouped(vertices)} vertices`, EXPORT_AGAIN);
  }
  const triangles = corners.length - 2 * sizes.length;
  if (triangles > MAX_TRIANGLES) throw tooMany('triangles', triangles, fail);

  const out: Output = { indices: new Uint32Array(3 * triangles), length: 0, steps: 0 };
  for (let f = 0, from = 0; f < sizes.length; f++) {
    const size = sizes.array[f];
    const face = corners.array.subarray(from, from + size);
    from += size;
    if (size === 3) emit(out, face[0], face[1], face[2]);
    else cut(positions, face, out, fail);
  }
  return out.indices;
}

interface Output {
  readonly indices: Uint32Array;
  length: number;
  /** Corners looked at while cutting, over all faces. */
  steps: number;
}

function emit(out: Output, a: number, b: number, c: number): void {
  out.indices[out.length++] = a;
  out.indices[out.length++] = b;
  out.indices[out.length++] = c;
}

function cut(positions: Float64Array, face: Uint32Array, out: Output, fail: Fail): void {
  const flat = flattened(positions, face);
  if (isConvex(flat)) for (let i = 1; i + 1 < face.length; i++) emit(out, face[0], face[i], face[i + 1]);
  else cutEars(flat, face, out, fail);
}

/** u, v per corner: the face seen along the axis nearest to its normal, counter-clockwise. */
function flattened(positions: Float64Array, face: Uint32Array): Float64Array {
  const n = face.length;
  const normal = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    const a = 3 * face[i];
    const b = 3 * face[(i + 1) % n];
    for (let k = 0; k < 3; k++) {
      const [u, v] = [(k + 1) % 3, (k + 2) % 3];
      // Newell's normal, about the first corner so that a face far from the origin keeps its digits.
      const origin = 3 * face[0];
      normal[k] += (positions[a + u] - positions[origin + u]) * (positions[b + v] - positions[origin + v]);
      normal[k] -= (positions[a + v] - positions[origin + v]) * (positions[b + u] - positions[origin + u]);
    }
  }
  const [x, y, z] = normal.map(Math.abs);
  const axis = z >= x && z >= y ? 2 : y >= x ? 1 : 0;
  const [u, v] = normal[axis] < 0 ? [(axis + 2) % 3, (axis + 1) % 3] : [(axis + 1) % 3, (axis + 2) % 3];
  const flat = new Float64Array(2 * n);
  for (let i = 0; i < n; i++) {
    flat[2 * i] = positions[3 * face[i] + u];
    flat[2 * i + 1] = positions[3 * face[i] + v];
  }
  return flat;
}

/** Twice the signed area of the triangle of three corners. */
function turn(flat: Float64Array, a: number, b: number, c: number): number {
  const ax = flat[2 * a];
  const ay = flat[2 * a + 1];
  return (flat[2 * b] - ax) * (flat[2 * c + 1] - ay) - (flat[2 * b + 1] - ay) * (flat[2 * c] - ax);
}

function isConvex(flat: Float64Array): boolean {
  const n = flat.length / 2;
  for (let i = 0; i < n; i++) if (!(turn(flat, i, (i + 1) % n, (i + 2) % n) > 0)) return false;
  return true;
}

function cutEars(flat: Float64Array, face: Uint32Array, out: Output, fail: Fail): void {
  const n = face.length;
  if (n > MAX_CONCAVE_CORNERS) throw tooConcave(n, fail);
  const next = Uint32Array.from(face, (_, i) => (i + 1) % n);
  const before = Uint32Array.from(face, (_, i) => (i + n - 1) % n);
  let at = 0;
  let left = n;
  /** Corners looked at since the last cut; a full round without an ear means the face crosses itself or is flat. */
  let looked = 0;
  while (left > 2) {
    out.steps++;
    if (out.steps > MAX_CUTTING_STEPS) throw tooConcave(n, fail);
    if (looked < left ? isEar(flat, before[at], at, next, out) : looked >= 2 * left || turn(flat, before[at], at, next[at]) === 0) {
      emit(out, face[before[at]], face[at], face[next[at]]);
      next[before[at]] = next[at];
      before[next[at]] = before[at];
      left--;
      looked = 0;
      // Skipping a corner after a cut spreads the cuts and avoids slivers.
      at = next[next[at]];
    } else {
      looked++;
      at = next[at];
    }
  }
}

function tooConcave(corners: number, fail: Fail): Error {
  return fail(`concave faces with too many corners (one has ${grouped(corners)})`, 'faces that can be cut into triangles in a few seconds', 'Triangulate the mesh before you export it.');
}

/** A corner that turns left and whose triangle holds no other corner, not even on its edge. */
function isEar(flat: Float64Array, a: number, b: number, next: Uint32Array, out: Output): boolean {
  const c = next[b];
  if (!(turn(flat, a, b, c) > 0)) return false;
  for (let p = next[c]; p !== a; p = next[p]) {
    out.steps++;
    if (turn(flat, a, b, p) >= 0 && turn(flat, b, c, p) >= 0 && turn(flat, c, a, p) >= 0 && !same(flat, p, a) && !same(flat, p, b) && !same(flat, p, c)) return false;
  }
  return true;
}

function same(flat: Float64Array, a: number, b: number): boolean {
  return flat[2 * a] === flat[2 * b] && flat[2 * a + 1] === flat[2 * b + 1];
}
