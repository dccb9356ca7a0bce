/** Cracks: rims that lie on each other to within the rounding of a file are sewn up. */
import { endsOf, unmatchedHalfEdges } from './mesh-winding.ts';
import { weldMesh, weldPoints } from './mesh-weld.ts';
import type { TriangleMesh } from './solid.ts';

/**
 * Make vertices on open edges one where they are within `toleranceMm` in x, y and z; none moves by more than
 * four times that in any of them. The rest of the mesh keeps every coordinate. O(n).
 * @param mesh welded
 */
export function closedCracks(mesh: TriangleMesh, toleranceMm: number): TriangleMesh {
  const onRim = new Uint8Array(mesh.positions.length / 3);
  for (const corner of unmatchedHalfEdges(mesh)) for (const v of endsOf(mesh.indices, corner)) onRim[v] = 1;
  const rim: number[] = [];
  for (let v = 0; v < onRim.length; v++) if (onRim[v] === 1) rim.push(v);
  if (rim.length === 0 || !(toleranceMm > 0)) return mesh;
  const positions = mesh.positions.slice();
  const cells = new Float64Array(3 * rim.length);
  // Two points closer than half a cell share a cell in at least one of the eight grids half a cell apart.
  for (let grid = 0; grid < 8; grid++) {
    for (let k = 0; k < cells.length; k++) {
      const axis = k % 3;
      cells[k] = Math.floor(positions[3 * rim[(k - axis) / 3] + axis] / (2 * toleranceMm) + ((grid >> axis) & 1) / 2);
    }
    const first = weldPoints(cells);
    for (let k = 0; k < rim.length; k++) {
      if (first[k] !== k) positions.copyWithin(3 * rim[k], 3 * rim[first[k]], 3 * rim[first[k]] + 3);
    }
  }
  return weldMesh({ positions, indices: mesh.indices }).mesh;
}
