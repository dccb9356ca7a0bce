/**
 * Where air stays under a solid as resin rises around it: hollows that open downward.
 *
 * Of all surface above a height, pieces that are not joined are told apart, from the top down (union-find). A piece whose
 * highest point is a ceiling holds air down to the height at which it joins a higher one: there the air finds its way out.
 */
import { countingSort, nextCorner } from './mesh-edges.ts';
import type { TriangleMesh } from './solid.ts';

export interface AirPocket {
  /** Its highest point. */
  readonly xMm: number;
  readonly yMm: number;
  readonly topMm: number;
  /** From there down to where air gets out. */
  readonly deepMm: number;
}

/** Pockets of at least `leastMm` in a closed mesh, the deepest first. O(n log n). Hollows closed all round are none: no resin gets there. */
export function airPockets({ positions, indices }: TriangleMesh, leastMm: number): AirPocket[] {
  const zOf = (vertex: number): number => positions[3 * vertex + 2];
  const facing = facingUp(positions, indices);
  const root = Uint32Array.from({ length: positions.length / 3 }, (_, vertex) => vertex);
  const find = (vertex: number): number => {
    while (root[vertex] !== vertex) vertex = root[vertex] = root[root[vertex]];
    return vertex;
  };
  const pockets: AirPocket[] = [];
  for (const edge of fromTheTop(positions, indices)) {
    const [a, b] = [find(indices[edge]), find(indices[nextCorner(edge)])];
    if (a === b) continue;
    const [high, low] = zOf(a) >= zOf(b) ? [a, b] : [b, a];
    const deepMm = zOf(low) - lowerEnd(positions, indices, edge);
    if (deepMm >= leastMm && facing[low] < 0) pockets.push({ xMm: positions[3 * low], yMm: positions[3 * low + 1], topMm: zOf(low), deepMm });
    root[low] = high;
  }
  return pockets.sort((p, q) => q.deepMm - p.deepMm);
}

const lowerEnd = (positions: Float64Array, indices: Uint32Array, edge: number): number => Math.min(positions[3 * indices[edge] + 2], positions[3 * indices[nextCorner(edge)] + 2]);

/** Edges, each by one of its corners, the one whose lower end is highest first. */
function fromTheTop(positions: Float64Array, indices: Uint32Array): Uint32Array {
  const vertices = Uint32Array.from({ length: positions.length / 3 }, (_, vertex) => vertex).sort((a, b) => positions[3 * b + 2] - positions[3 * a + 2]);
  const place = new Uint32Array(vertices.length);
  vertices.forEach((vertex, at) => (place[vertex] = at));
  // A closed mesh has every edge twice, once each way.
  const edges = Uint32Array.from(indices.keys()).filter((corner) => indices[corner] < indices[nextCorner(corner)]);
  const lower = new Uint32Array(indices.length);
  for (const edge of edges) lower[edge] = Math.max(place[indices[edge]], place[indices[nextCorner(edge)]]);
  return countingSort(edges, lower, vertices.length);
}

/** Twice the area around each vertex as seen from above; below 0: a ceiling. */
function facingUp(p: Float64Array, indices: Uint32Array): Float64Array {
  const facing = new Float64Array(p.length / 3);
  for (let i = 0; i < indices.length; i += 3) {
    const [a, b, c] = [3 * indices[i], 3 * indices[i + 1], 3 * indices[i + 2]];
    const area = (p[b] - p[a]) * (p[c + 1] - p[a + 1]) - (p[c] - p[a]) * (p[b + 1] - p[a + 1]);
    for (const corner of [a, b, c]) facing[corner / 3] += area;
  }
  return facing;
}
