/** What can be said of a mesh at linear cost: is it closed, which way is it wound, of how many shells is it. */
import { edgeCensus } from './mesh-edges.ts';
import { insideOutShells, measureShells } from './mesh-shells.ts';
import { weldMesh } from './mesh-weld.ts';
import type { TriangleMesh } from './solid.ts';

/** Of the time, as measured on four million triangles. */
const WELDING_SHARE = 0.65;
const EDGES_SHARE = 0.25;

export interface MeshInspection {
  /** The mesh with equal vertices welded and collapsed triangles dropped; the one given where it has neither. */
  readonly mesh: TriangleMesh;
  /** Shell of every triangle of `mesh`. */
  readonly shellOf: Uint32Array;
  /** No triangle that spans anything. */
  readonly empty: boolean;
  /** Vertices with a coordinate that is not a finite number. */
  readonly notFinite: number;
  /** Corners that name a vertex which does not exist, and numbers left over after the last whole triangle. */
  readonly outOfRange: number;
  /** Triangles without area: collapsed ones (dropped) and needles (kept, they hold their neighbors together). */
  readonly degenerate: number;
  readonly collapsed: number;
  /** Edges with only one triangle. */
  readonly openEdges: number;
  /** Edges with more than two triangles. */
  readonly crowdedEdges: number;
  /** Edges whose two triangles are wound against each other. */
  readonly inconsistentEdges: number;
  readonly shells: number;
  /** Shells that face inward and lie in no other; a hollow inside a shell is none of these. */
  readonly insideOutShells: number;
  /** Closed, and its whole volume is negative. */
  readonly insideOut: boolean;
  /** Closed: every edge is run equally often both ways, so the volume integral is defined. */
  readonly watertight: boolean;
  /** Signed volume of a closed mesh, mm³; null for any other. */
  readonly volumeMm3: number | null;
}

/**
 * Inspect a mesh as its file gave it. Never throws; O(n) time, about 60 bytes a triangle while it runs.
 * A mesh with numbers that can't be used (`notFinite`, `outOfRange`) is looked at no further.
 * Surfaces that run through each other or themselves are not seen here: mesh-columns.ts measures that, and
 * `sound` (mesh-sound.ts) acts on it.
 * @param onShare told now and then which share of the work is done
 */
export function inspectMesh(mesh: TriangleMesh, onShare: (share: number) => void = () => {}): MeshInspection {
  const notFinite = countNotFinite(mesh.positions);
  const outOfRange = countOutOfRange(mesh);
  if (notFinite > 0 || outOfRange > 0) return unreadable(mesh, notFinite, outOfRange);
  const { mesh: welded, collapsed } = weldMesh(mesh, (share) => onShare(WELDING_SHARE * share));
  onShare(WELDING_SHARE);
  const census = edgeCensus(welded.indices, welded.positions.length / 3);
  onShare(WELDING_SHARE + EDGES_SHARE);
  const shells = measureShells(welded, census.shellOf, census.shells);
  const empty = welded.indices.length === 0;
  const watertight = !empty && census.unbalanced === 0;
  const volumeMm3 = watertight ? shells.volumeMm3.reduce((sum, v) => sum + v, 0) : null;
  return {
    mesh: welded, shellOf: census.shellOf, empty, notFinite, outOfRange, collapsed,
    degenerate: collapsed + countNeedles(welded),
    openEdges: census.open, crowdedEdges: census.crowded, inconsistentEdges: census.inconsistent,
    shells: census.shells,
    insideOutShells: watertight ? insideOutShells(shells).reduce((sum, f) => sum + f, 0) : 0,
    insideOut: volumeMm3 !== null && volumeMm3 < 0,
    watertight, volumeMm3,
  };
}

function unreadable(mesh: TriangleMesh, notFinite: number, outOfRange: number): MeshInspection {
  return {
    mesh, shellOf: new Uint32Array(0), empty: mesh.indices.length === 0, notFinite, outOfRange, degenerate: 0, collapsed: 0,
    openEdges: 0, crowdedEdges: 0, inconsistentEdges: 0, shells: 0, insideOutShells: 0, insideOut: false,
    watertight: false, volumeMm3: null,
  };
}

function countNotFinite(positions: Float64Array): number {
  let count = positions.length % 3;
  for (let i = 0; i + 2 < positions.length; i += 3) {
    // A coordinate that is not finite makes its product with 0 not a number.
    if (positions[i] * 0 + positions[i + 1] * 0 + positions[i + 2] * 0 !== 0) count++;
  }
  return count;
}

function countOutOfRange({ positions, indices }: TriangleMesh): number {
  const vertices = Math.floor(positions.length / 3);
  let count = indices.length % 3;
  for (let i = 0; i < indices.length; i++) if (indices[i] >= vertices) count++;
  return count;
}

function countNeedles({ positions: p, indices }: TriangleMesh): number {
  let count = 0;
  for (let i = 0; i < indices.length; i += 3) {
    const a = 3 * indices[i], b = 3 * indices[i + 1], c = 3 * indices[i + 2];
    const ux = p[b] - p[a], uy = p[b + 1] - p[a + 1], uz = p[b + 2] - p[a + 2];
    const vx = p[c] - p[a], vy = p[c + 1] - p[a + 1], vz = p[c + 2] - p[a + 2];
    if (uy * vz - uz * vy === 0 && uz * vx - ux * vz === 0 && ux * vy - uy * vx === 0) count++;
  }
  return count;
}
