/** Volume and bounds of a triangle mesh by one pass over it, and what follows from them. */

import type { Bounds, TriangleMesh } from './solid.ts';

/**
 * Signed volume of a closed mesh in mm³, positive when wound counter-clockwise seen from outside
 * (divergence theorem: a sum of tetrahedra; taken from the first vertex so that digits hold far from the origin).
 */
export function meshVolume(mesh: TriangleMesh): number {
  const { positions: p, indices } = mesh;
  if (indices.length === 0) return 0;
  const ox = p[3 * indices[0]];
  const oy = p[3 * indices[0] + 1];
  const oz = p[3 * indices[0] + 2];
  let sum = 0;
  for (let t = 0; t < indices.length; t += 3) {
    const a = 3 * indices[t];
    const b = 3 * indices[t + 1];
    const c = 3 * indices[t + 2];
    const ax = p[a] - ox, ay = p[a + 1] - oy, az = p[a + 2] - oz;
    const bx = p[b] - ox, by = p[b + 1] - oy, bz = p[b + 2] - oz;
    const cx = p[c] - ox, cy = p[c + 1] - oy, cz = p[c + 2] - oz;
    sum += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
  }
  return sum / 6;
}

/** Share of a solid's volume below which a part cut from it is the rounding of 32-bit corners in contact, of either sign. */
const CONTACT_SHARE = 1e-9;

/** The part, or a mesh of no triangles where faces only touched and left a sliver. */
export function withoutSliver(part: TriangleMesh, wholeMm3: number): TriangleMesh {
  return meshVolume(part) > CONTACT_SHARE * wholeMm3 ? part : { positions: new Float64Array(0), indices: new Uint32Array(0) };
}

/** Bounds of all vertices, mm. Infinite and inverted for a mesh without vertices. */
export function meshBounds({ positions: p }: TriangleMesh | { readonly positions: Float32Array }): Bounds {
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < p.length; i += 3) {
    for (let k = 0; k < 3; k++) {
      const value = p[i + k];
      if (value < min[k]) min[k] = value;
      if (value > max[k]) max[k] = value;
    }
  }
  return { min, max };
}

/** The same mesh moved by (x, y, z) mm; triangles are shared, positions copied. */
export function movedMesh(mesh: TriangleMesh, xMm: number, yMm: number, zMm: number): TriangleMesh {
  const positions = new Float64Array(mesh.positions);
  for (let i = 0; i < positions.length; i += 3) {
    positions[i] += xMm;
    positions[i + 1] += yMm;
    positions[i + 2] += zMm;
  }
  return { positions, indices: mesh.indices };
}
