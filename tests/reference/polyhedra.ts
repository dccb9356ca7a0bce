/** Regular solids as closed meshes with edges of a given length. */
import type { TriangleMesh } from '../../src/core/solid/solid.ts';
import { icosphere } from '../core/solid/made-meshes.ts';

type Point = readonly number[];

export function tetrahedron(edge: number): TriangleMesh {
  return withEdge(edge, meshOf([[1, 1, 1], [1, -1, -1], [-1, 1, -1], [-1, -1, 1]], [[0, 1, 2], [0, 3, 1], [0, 2, 3], [1, 3, 2]]));
}

export function octahedron(edge: number): TriangleMesh {
  const points = [[1, 0, 0], [-1, 0, 0], [0, 1, 0], [0, -1, 0], [0, 0, 1], [0, 0, -1]];
  return withEdge(edge, meshOf(points, [[0, 2, 4], [2, 1, 4], [1, 3, 4], [3, 0, 4], [2, 0, 5], [1, 2, 5], [3, 1, 5], [0, 3, 5]]));
}

export function icosahedron(edge: number): TriangleMesh {
  return withEdge(edge, icosphere(1, 0));
}

/** The icosahedron's dual: a corner for each of its faces, a five-cornered face for each of its corners. */
export function dodecahedron(edge: number): TriangleMesh {
  const { positions, indices } = icosphere(1, 0);
  const corner = (v: number): Point => [...positions.slice(3 * v, 3 * v + 3)];
  const faces = Array.from({ length: 20 }, (_, f) => [...indices.slice(3 * f, 3 * f + 3)]);
  const centers = faces.map((face) => [0, 1, 2].map((d) => face.reduce((sum, v) => sum + corner(v)[d], 0) / 3));
  const triangles: number[][] = [];
  for (let v = 0; v < 12; v++) {
    // From one face round the corner to the next: over the edge that leaves the corner last.
    const around = [faces.findIndex((face) => face.includes(v))];
    while (around.length < 5) {
      const face = faces[around[around.length - 1]];
      const last = face[(face.indexOf(v) + 2) % 3];
      around.push(faces.findIndex((other) => other !== face && other.includes(v) && other[(other.indexOf(v) + 1) % 3] === last));
    }
    for (let k = 1; k < 4; k++) triangles.push([around[0], around[k], around[k + 1]]);
  }
  return withEdge(edge, meshOf(centers, triangles));
}

export function meshOf(points: readonly Point[], triangles: readonly (readonly number[])[]): TriangleMesh {
  return { positions: Float64Array.from(points.flat()), indices: Uint32Array.from(triangles.flat()) };
}

/** Scaled until the shortest edge has the length. */
function withEdge(edge: number, { positions: p, indices }: TriangleMesh): TriangleMesh {
  let shortest = Infinity;
  for (let i = 0; i < indices.length; i++) {
    const a = 3 * indices[i];
    const b = 3 * indices[i % 3 === 2 ? i - 2 : i + 1];
    shortest = Math.min(shortest, Math.hypot(p[a] - p[b], p[a + 1] - p[b + 1], p[a + 2] - p[b + 2]));
  }
  return { positions: p.map((x) => (x * edge) / shortest), indices };
}
