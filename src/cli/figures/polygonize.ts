/**
 * A closed triangle mesh from a signed distance field.
 *
 * Marching tetrahedra (manifold-3d) gives a mesh that is closed by construction but full of slivers;
 * every vertex then slides along the surface toward the middle of its neighbors and is put back onto
 * the field's zero, and flat places lose the triangles they do not need. Taubin smoothing was tried
 * instead: it rounds off toes and petal tips.
 */
import type { Manifold, ManifoldToplevel } from 'manifold-3d';
import type { TriangleMesh } from '../../core/solid/solid.ts';
import type { Field, Point } from './field.ts';
import { shells } from './shells.ts';

export interface PolygonizeOptions {
  /** The field must be positive on the whole border of this box. */
  readonly min: Point;
  readonly max: Point;
  /** Longest edge wanted before thinning out, mm. */
  readonly edgeMm: number;
  /** How far thinning out may move the surface, mm. */
  readonly toleranceMm: number;
  /** Rounds of sliding. */
  readonly rounds?: number;
}

/** Rounds of sliding: after three the shortest edges have tripled, more gains little. */
const ROUNDS = 3;
/** Share of the way to the neighbors' middle walked in one round; the whole way may fold thin edges. */
const STRIDE = 0.5;
/** Step for slopes, in edges: well inside one triangle, far above rounding. */
const PROBE_EDGES = 0.05;
/** The longest step back onto the surface, in edges; a longer one could jump to another sheet. */
const LONGEST_STEP_EDGES = 0.5;

/**
 * The mesh of the field's inside, mm, wound counter-clockwise seen from outside, one shell: hollows
 * that do not reach the surface are filled.
 * @throws when the field is empty in the box, or falls into several pieces.
 */
export function polygonize(wasm: ManifoldToplevel, field: Field, options: PolygonizeOptions): TriangleMesh {
  const { min, max, edgeMm, toleranceMm, rounds = ROUNDS } = options;
  const raw = wasm.Manifold.levelSet(([x, y, z]) => -field(x, y, z), { min: [...min], max: [...max] }, edgeMm, 0, edgeMm * 0.01);
  const rough = onePiece(readMesh(raw));
  raw.delete();
  slide(rough, field, { edgeMm, rounds });
  const even = fromMesh(wasm, rough);
  const thin = even.simplify(toleranceMm);
  const mesh = onePiece(readMesh(thin));
  even.delete();
  thin.delete();
  return mesh;
}

function onePiece(mesh: TriangleMesh): TriangleMesh {
  const outward = shells(mesh).filter((shell) => shell.volumeMm3 > 0);
  if (outward.length !== 1) {
    const sizes = outward.map((shell) => shell.volumeMm3.toFixed(2)).join(', ');
    throw new Error(`The field makes ${outward.length} separate pieces (mm³: ${sizes}), expected 1; join them or widen the box.`);
  }
  return outward[0].mesh;
}

function readMesh(solid: Manifold): TriangleMesh {
  const { vertProperties, triVerts, numProp } = solid.getMesh();
  const count = vertProperties.length / numProp;
  const positions = new Float64Array(count * 3);
  for (let v = 0; v < count; v++) {
    for (let k = 0; k < 3; k++) positions[v * 3 + k] = vertProperties[v * numProp + k];
  }
  return { positions, indices: triVerts.slice() };
}

function fromMesh(wasm: ManifoldToplevel, mesh: TriangleMesh): Manifold {
  return new wasm.Manifold(new wasm.Mesh({ numProp: 3, vertProperties: Float32Array.from(mesh.positions), triVerts: mesh.indices }));
}

/** Evens out the triangles in place: slide along the surface, then step back onto it. */
function slide(mesh: TriangleMesh, field: Field, { edgeMm, rounds }: { edgeMm: number; rounds: number }): void {
  const { positions, indices } = mesh;
  const sums = new Float64Array(positions.length);
  const counts = new Float64Array(positions.length / 3);
  const n = new Float64Array(3);
  const probe = edgeMm * PROBE_EDGES;
  const longest = edgeMm * LONGEST_STEP_EDGES;
  for (let round = 0; round < rounds; round++) {
    sums.fill(0);
    counts.fill(0);
    for (let i = 0; i < indices.length; i += 3) {
      for (let k = 0; k < 3; k++) {
        const a = indices[i + k];
        const b = indices[i + ((k + 1) % 3)];
        for (let c = 0; c < 3; c++) sums[a * 3 + c] += positions[b * 3 + c];
        counts[a]++;
      }
    }
    for (let v = 0; v < counts.length; v++) {
      const at = v * 3;
      slope(field, positions, at, probe, n);
      const mx = sums[at] / counts[v] - positions[at];
      const my = sums[at + 1] / counts[v] - positions[at + 1];
      const mz = sums[at + 2] / counts[v] - positions[at + 2];
      const along = mx * n[0] + my * n[1] + mz * n[2];
      positions[at] += STRIDE * (mx - along * n[0]);
      positions[at + 1] += STRIDE * (my - along * n[1]);
      positions[at + 2] += STRIDE * (mz - along * n[2]);
      const steep = slope(field, positions, at, probe, n);
      if (steep === 0) continue;
      const step = Math.max(-longest, Math.min(longest, field(positions[at], positions[at + 1], positions[at + 2]) / steep));
      for (let c = 0; c < 3; c++) positions[at + c] -= step * n[c];
    }
  }
}

/** Writes the unit outward direction at vertex offset `at` into `n`; gives the field's slope there, 0 where it has none. */
function slope(field: Field, positions: Float64Array, at: number, probe: number, n: Float64Array): number {
  const x = positions[at];
  const y = positions[at + 1];
  const z = positions[at + 2];
  n[0] = field(x + probe, y, z) - field(x - probe, y, z);
  n[1] = field(x, y + probe, z) - field(x, y - probe, z);
  n[2] = field(x, y, z + probe) - field(x, y, z - probe);
  const length = Math.sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2]);
  if (length === 0) return 0;
  n[0] /= length;
  n[1] /= length;
  n[2] /= length;
  return length / (2 * probe);
}
