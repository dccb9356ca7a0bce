/** Signed volume and bounds of each shell of a mesh, and which of them are wound inside-out. */
import type { TriangleMesh } from './solid.ts';

export interface Shells {
  /** Signed volume per shell, mm³; negative where its triangles face inward. */
  readonly volumeMm3: Float64Array;
  /** Per shell minimum x, y, z, then maximum x, y, z, mm. */
  readonly bounds: Float64Array;
}

/** A hollow is looked for in this many of the largest outward shells, so that a dust of shells stays linear. */
const LIKELY_OWNERS = 64;

/** @param shellOf shell of every triangle (mesh-edges.ts). Each shell closed; an open one has no volume. O(n). */
export function measureShells(mesh: TriangleMesh, shellOf: Uint32Array, shells: number): Shells {
  const { positions: p, indices } = mesh;
  const volumeMm3 = new Float64Array(shells);
  const bounds = new Float64Array(6 * shells);
  for (let s = 0; s < shells; s++) bounds.fill(Infinity, 6 * s, 6 * s + 3).fill(-Infinity, 6 * s + 3, 6 * s + 6);
  // Each shell about its own first corner: far from the origin, products of coordinates would lose its digits.
  const origin = new Float64Array(3 * shells).fill(NaN);
  for (let t = 0; t < shellOf.length; t++) {
    const s = shellOf[t];
    for (let k = 0; k < 3; k++) {
      const o = 3 * indices[3 * t + k];
      for (let d = 0; d < 3; d++) {
        const at = p[o + d];
        if (at < bounds[6 * s + d]) bounds[6 * s + d] = at;
        if (at > bounds[6 * s + 3 + d]) bounds[6 * s + 3 + d] = at;
        if (k === 0 && Number.isNaN(origin[3 * s + d])) origin[3 * s + d] = at;
      }
    }
    const x = origin[3 * s], y = origin[3 * s + 1], z = origin[3 * s + 2];
    const a = 3 * indices[3 * t], b = 3 * indices[3 * t + 1], c = 3 * indices[3 * t + 2];
    const ax = p[a] - x, ay = p[a + 1] - y, az = p[a + 2] - z;
    const bx = p[b] - x, by = p[b + 1] - y, bz = p[b + 2] - z;
    const cx = p[c] - x, cy = p[c + 1] - y, cz = p[c + 2] - z;
    volumeMm3[s] += (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)) / 6;
  }
  return { volumeMm3, bounds };
}

/**
 * 1 for each shell that faces inward without an outward shell around it. One that has an outward shell's
 * bounds around its own is taken for a hollow; mesh-columns.ts finds it out where it is none.
 */
export function insideOutShells(shells: Shells): Uint8Array {
  const { volumeMm3, bounds } = shells;
  const flipped = new Uint8Array(volumeMm3.length);
  const owners = largestOutward(volumeMm3);
  for (let s = 0; s < flipped.length; s++) {
    if (volumeMm3[s] < 0 && !owners.some((o) => surrounds(bounds, o, s))) flipped[s] = 1;
  }
  return flipped;
}

/** The mesh with the triangles of the marked shells turned round. */
export function turnedShells(mesh: TriangleMesh, shellOf: Uint32Array, marked: Uint8Array): TriangleMesh {
  const indices = mesh.indices.slice();
  for (let t = 0; t < shellOf.length; t++) {
    if (marked[shellOf[t]] === 0) continue;
    indices[3 * t + 1] = mesh.indices[3 * t + 2];
    indices[3 * t + 2] = mesh.indices[3 * t + 1];
  }
  return { positions: mesh.positions, indices };
}

function largestOutward(volumeMm3: Float64Array): number[] {
  const least = volumeMm3.slice().sort()[Math.max(0, volumeMm3.length - LIKELY_OWNERS)];
  const owners: number[] = [];
  for (let s = 0; s < volumeMm3.length && owners.length < LIKELY_OWNERS; s++) {
    if (volumeMm3[s] > 0 && volumeMm3[s] >= least) owners.push(s);
  }
  return owners;
}

function surrounds(bounds: Float64Array, outer: number, inner: number): boolean {
  for (let d = 0; d < 3; d++) {
    if (bounds[6 * inner + d] < bounds[6 * outer + d] || bounds[6 * inner + 3 + d] > bounds[6 * outer + 3 + d]) return false;
  }
  return true;
}
