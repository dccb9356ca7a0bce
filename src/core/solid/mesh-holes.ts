/** Holes closed with a fan of triangles about the middle of their rim. */
import { endsOf, unmatchedHalfEdges } from './mesh-winding.ts';
import type { TriangleMesh } from './solid.ts';

/**
 * The mesh with a cap on every hole. The boundary of any set of triangles runs into each vertex as often as
 * out of it, so its rims always close; where several meet at one vertex they are parted as they come.
 * A flat rim gets its flat cap exactly, whatever its outline; a bent one the cone over its middle.
 * What was really there is not known: mesh-sound.ts states the error. O(n + rim).
 * @param mesh welded, wound consistently (mesh-winding.ts)
 */
export function closedHoles(mesh: TriangleMesh): TriangleMesh {
  const rims = rimsOf(mesh);
  if (rims.length === 0) return mesh;
  const added = rims.reduce((sum, rim) => sum + rim.length, 0);
  const positions = new Float64Array(mesh.positions.length + 3 * rims.length);
  positions.set(mesh.positions);
  const indices = new Uint32Array(mesh.indices.length + 3 * added);
  indices.set(mesh.indices);
  let middle = mesh.positions.length / 3;
  let at = mesh.indices.length;
  for (const rim of rims) {
    for (let d = 0; d < 3; d++) {
      let sum = 0;
      const from = mesh.positions[3 * rim[0] + d];
      for (const v of rim) sum += mesh.positions[3 * v + d] - from;
      positions[3 * middle + d] = from + sum / rim.length;
    }
    for (let k = 0; k < rim.length; k++) {
      indices[at++] = rim[(k + 1) % rim.length];
      indices[at++] = rim[k];
      indices[at++] = middle;
    }
    middle++;
  }
  return { positions, indices };
}

/** Rims as vertex numbers, in the direction in which the surface's own triangles run along them. */
function rimsOf(mesh: TriangleMesh): number[][] {
  const outOf = new Map<number, number[]>();
  for (const corner of unmatchedHalfEdges(mesh)) {
    const [from, to] = endsOf(mesh.indices, corner);
    const ends = outOf.get(from);
    if (ends === undefined) outOf.set(from, [to]);
    else ends.push(to);
  }
  const rims: number[][] = [];
  for (const start of outOf.keys()) {
    while (outOf.get(start)!.length > 0) {
      const rim: number[] = [];
      let v = start;
      do {
        rim.push(v);
        v = outOf.get(v)!.pop()!;
      } while (v !== start);
      rims.push(rim);
    }
  }
  return rims;
}
