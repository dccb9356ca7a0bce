/** Closed meshes made for the tests of solids, moved and turned at will. */
import type { TriangleMesh } from '../../../src/core/solid/solid.ts';
import { seeded } from './oracle.ts';

/** Torus about the z axis of `around` × `across` vertices, with bumps of ±`bump` mm on the small radius. */
export function torus(around: number, across: number, large: number, small: number, bump = 0): TriangleMesh {
  const positions = new Float64Array(3 * around * across);
  const indices = new Uint32Array(6 * around * across);
  for (let i = 0; i < around; i++) {
    for (let j = 0; j < across; j++) {
      const u = (2 * Math.PI * i) / around;
      const v = (2 * Math.PI * j) / across;
      const r = small + bump * Math.sin(7 * u) * Math.sin(5 * v);
      const at = i * across + j;
      positions.set([(large + r * Math.cos(v)) * Math.cos(u), (large + r * Math.cos(v)) * Math.sin(u), r * Math.sin(v)], 3 * at);
      const next = ((i + 1) % around) * across;
      const over = (j + 1) % across;
      indices.set([at, next + j, next + over, at, next + over, i * across + over], 6 * at);
    }
  }
  return { positions, indices };
}

/** Two cones base to base, apexes `height` apart: every triangle half as tall as the solid. */
export function spindle(around: number, radius: number, height: number): TriangleMesh {
  const positions = new Float64Array(3 * around + 6);
  const indices = new Uint32Array(6 * around);
  for (let i = 0; i < around; i++) {
    const u = (2 * Math.PI * i) / around;
    positions.set([radius * Math.cos(u), radius * Math.sin(u), 0], 3 * i);
    const next = (i + 1) % around;
    indices.set([i, next, around, next, i, around + 1], 6 * i);
  }
  positions.set([0, 0, height / 2, 0, 0, -height / 2], 3 * around);
  return { positions, indices };
}

export function box(length: number, width: number, height: number): TriangleMesh {
  const positions = new Float64Array(24);
  for (let v = 0; v < 8; v++) positions.set([v & 1 ? length : 0, v & 2 ? width : 0, v & 4 ? height : 0], 3 * v);
  const indices = Uint32Array.of(
    0, 2, 1, 1, 2, 3, 4, 5, 6, 5, 7, 6, 0, 1, 4, 1, 5, 4, 2, 6, 3, 3, 6, 7, 0, 4, 2, 2, 4, 6, 1, 3, 5, 3, 7, 5,
  );
  return { positions, indices };
}

/** Icosahedron with its corners at `radius`, each triangle parted in four `times` times and pushed out. */
export function icosphere(radius: number, times: number): TriangleMesh {
  const g = (1 + Math.sqrt(5)) / 2;
  const points: number[][] = [
    [-1, g, 0], [1, g, 0], [-1, -g, 0], [1, -g, 0], [0, -1, g], [0, 1, g],
    [0, -1, -g], [0, 1, -g], [g, 0, -1], [g, 0, 1], [-g, 0, -1], [-g, 0, 1],
  ];
  let faces: number[][] = [
    [0, 11, 5], [0, 5, 1], [0, 1, 7], [0, 7, 10], [0, 10, 11], [1, 5, 9], [5, 11, 4], [11, 10, 2], [10, 7, 6], [7, 1, 8],
    [3, 9, 4], [3, 4, 2], [3, 2, 6], [3, 6, 8], [3, 8, 9], [4, 9, 5], [2, 4, 11], [6, 2, 10], [8, 6, 7], [9, 8, 1],
  ];
  const middles = new Map<string, number>();
  const middle = (a: number, b: number): number => {
    const key = a < b ? `${a},${b}` : `${b},${a}`;
    const known = middles.get(key);
    if (known !== undefined) return known;
    middles.set(key, points.length);
    points.push(onSphere(points[a].map((x, d) => x + points[b][d])));
    return points.length - 1;
  };
  points.forEach((point, n) => (points[n] = onSphere(point)));
  for (let k = 0; k < times; k++) {
    faces = faces.flatMap(([a, b, c]) => {
      const ab = middle(a, b), bc = middle(b, c), ca = middle(c, a);
      return [[a, ab, ca], [b, bc, ab], [c, ca, bc], [ab, bc, ca]];
    });
  }
  return { positions: Float64Array.from(points.flat(), (x) => x * radius), indices: Uint32Array.from(faces.flat()) };
}

function onSphere(point: number[]): number[] {
  const length = Math.hypot(...point);
  return point.map((x) => x / length);
}

/** A spiky star of triangles, tall and flat ones mixed: every vertex at its own random radius. */
export function star(seed: number, radius: number, times: number): TriangleMesh {
  const random = seeded(seed);
  const sphere = icosphere(radius, times);
  const positions = sphere.positions.slice();
  for (let v = 0; v < positions.length; v += 3) {
    const stretch = 0.3 + 0.7 * random();
    for (let d = 0; d < 3; d++) positions[v + d] *= stretch;
  }
  return { positions, indices: sphere.indices };
}

/** Turned by a random rotation, scaled, moved. */
export function posed(mesh: TriangleMesh, random: () => number, scale: number, by: readonly [number, number, number]): TriangleMesh {
  const q = Array.from({ length: 4 }, () => random() - 0.5);
  const length = Math.hypot(...q);
  const [w, x, y, z] = q.map((part) => part / length);
  const rows = [
    [1 - 2 * (y * y + z * z), 2 * (x * y - w * z), 2 * (x * z + w * y)],
    [2 * (x * y + w * z), 1 - 2 * (x * x + z * z), 2 * (y * z - w * x)],
    [2 * (x * z - w * y), 2 * (y * z + w * x), 1 - 2 * (x * x + y * y)],
  ];
  const p = mesh.positions;
  const positions = new Float64Array(p.length);
  for (let v = 0; v < p.length; v += 3) {
    rows.forEach((row, d) => (positions[v + d] = scale * (row[0] * p[v] + row[1] * p[v + 1] + row[2] * p[v + 2]) + by[d]));
  }
  return { positions, indices: mesh.indices };
}

export function moved(mesh: TriangleMesh, x: number, y: number, z: number): TriangleMesh {
  const by = [x, y, z];
  return { positions: mesh.positions.map((at, i) => at + by[i % 3]), indices: mesh.indices };
}

export function turnedInsideOut(mesh: TriangleMesh): TriangleMesh {
  return { positions: mesh.positions, indices: mesh.indices.slice().reverse() };
}

/** Several meshes in one, as a file with several shells has them. */
export function joined(...meshes: readonly TriangleMesh[]): TriangleMesh {
  const positions: number[] = [];
  const indices: number[] = [];
  for (const mesh of meshes) {
    const first = positions.length / 3;
    for (const at of mesh.positions) positions.push(at);
    for (const v of mesh.indices) indices.push(first + v);
  }
  return { positions: Float64Array.from(positions), indices: Uint32Array.from(indices) };
}

/** Every triangle with corners of its own, as STL has them. */
export function soup(mesh: TriangleMesh): TriangleMesh {
  const positions = new Float64Array(3 * mesh.indices.length);
  mesh.indices.forEach((v, i) => positions.set(mesh.positions.subarray(3 * v, 3 * v + 3), 3 * i));
  return { positions, indices: Uint32Array.from(mesh.indices, (_, i) => i) };
}
