/**
 * Vertices that no triangle uses, taken out: they would widen the bounds that a figure is placed by.
 * Files hold them after editing, and where parts share one list of vertices.
 */

import { grouped, type Fail } from '../fail.ts';
import { EXPORT_AGAIN } from './raw.ts';

/**
 * The mesh with its used vertices only, in their order; the same arrays when all are used. Linear time.
 * Throws for vertex numbers out of range.
 */
export function withoutUnused(positions: Float64Array, indices: Uint32Array, fail: Fail): { positions: Float64Array; indices: Uint32Array } {
  const vertices = positions.length / 3;
  /** 1 where used; then one more than the new number. */
  const renumbered = new Uint32Array(vertices);
  for (let i = 0; i < indices.length; i++) {
    if (indices[i] >= vertices) throw fail(`triangle ${grouped(Math.floor(i / 3) + 1)} uses vertex ${grouped(indices[i])}`, `one of the ${grouped(vertices)} vertices, counted from 0`, EXPORT_AGAIN);
    renumbered[indices[i]] = 1;
  }
  let used = 0;
  for (let v = 0; v < vertices; v++) if (renumbered[v] === 1) renumbered[v] = ++used;
  if (used === vertices) return { positions, indices };

  const kept = new Float64Array(3 * used);
  for (let v = 0; v < vertices; v++) {
    const to = 3 * (renumbered[v] - 1);
    if (to < 0) continue;
    kept[to] = positions[3 * v];
    kept[to + 1] = positions[3 * v + 1];
    kept[to + 2] = positions[3 * v + 2];
  }
  return { positions: kept, indices: indices.map((v) => renumbered[v] - 1) };
}
