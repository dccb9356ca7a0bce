/** Neighboring triangles turned to agree with each other. */
import { nextCorner, runLength, sortedHalfEdges } from './mesh-edges.ts';
import type { TriangleMesh } from './solid.ts';

/**
 * The mesh with its triangles turned, shell by shell, to agree with the first of each, as far as edges of two
 * triangles lead. A surface with one side only (a Möbius strip) keeps edges that disagree. Which way a shell
 * then faces is for mesh-shells.ts. O(n).
 * @param mesh welded
 */
export function rewound(mesh: TriangleMesh): TriangleMesh {
  const twin = twins(mesh);
  const triangles = mesh.indices.length / 3;
  const indices = mesh.indices.slice();
  const turned = new Int8Array(triangles).fill(-1);
  const queue = new Uint32Array(triangles);
  for (let seed = 0; seed < triangles; seed++) {
    if (turned[seed] >= 0) continue;
    turned[seed] = 0;
    queue[0] = seed;
    for (let at = 0, end = 1; at < end; at++) {
      const t = queue[at];
      for (let i = 3 * t; i < 3 * t + 3; i++) {
        if (twin[i] < 0) continue;
        const other = Math.floor(twin[i] / 3);
        if (turned[other] >= 0) continue;
        const agrees = mesh.indices[i] !== mesh.indices[twin[i]];
        turned[other] = agrees ? turned[t] : 1 - turned[t];
        queue[end++] = other;
      }
    }
  }
  for (let t = 0; t < triangles; t++) {
    if (turned[t] === 0) continue;
    indices[3 * t + 1] = mesh.indices[3 * t + 2];
    indices[3 * t + 2] = mesh.indices[3 * t + 1];
  }
  return { positions: mesh.positions, indices };
}

/** For each half-edge the other one of its edge, −1 where there is none or several. */
function twins({ positions, indices }: TriangleMesh): Int32Array {
  const order = sortedHalfEdges(indices, positions.length / 3);
  const twin = new Int32Array(indices.length).fill(-1);
  for (let from = 0; from < order.length; ) {
    const length = runLength(order, indices, from);
    if (length === 2) {
      twin[order[from]] = order[from + 1];
      twin[order[from + 1]] = order[from];
    }
    from += length;
  }
  return twin;
}

/** Corner numbers of the half-edges that no other one of their edge runs against, each as often as it is left over. */
export function unmatchedHalfEdges({ positions, indices }: TriangleMesh): number[] {
  const order = sortedHalfEdges(indices, positions.length / 3);
  const left: number[] = [];
  for (let from = 0; from < order.length; ) {
    const length = runLength(order, indices, from);
    const start = indices[order[from]];
    let sum = 0;
    for (let i = from; i < from + length; i++) sum += indices[order[i]] === start ? 1 : -1;
    for (let i = from; i < from + length && sum !== 0; i++) {
      if ((indices[order[i]] === start) !== sum > 0) continue;
      left.push(order[i]);
      sum -= Math.sign(sum);
    }
    from += length;
  }
  return left;
}

/** Start and end vertex of a half-edge. */
export function endsOf(indices: Uint32Array, corner: number): [number, number] {
  return [indices[corner], indices[nextCorner(corner)]];
}
