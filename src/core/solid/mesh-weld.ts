/** Vertices at one and the same place become one, so that triangles of a soup (STL) know their neighbors. */
import type { TriangleMesh } from './solid.ts';

export interface WeldedMesh {
  /** The very mesh that came in where nothing had to change. */
  readonly mesh: TriangleMesh;
  /** Triangles left out because two of their corners are one vertex. */
  readonly collapsed: number;
}

/** Odd constants that spread bits (Knuth's multiplicative hashing; values from memory). */
const SPREAD_A = 0x9e3779b1;
const SPREAD_B = 0x85ebca6b;
/** Points between two words on how far it has come: some 50 ms. */
const TOLD_POINTS = 2 ** 19;

/**
 * For every point the first point with exactly its coordinates (−0 counts as 0).
 * @param positions x, y, z per point; every coordinate finite
 * @param onShare told now and then which share of the points is done
 * @returns point → lowest equal point. Expected O(n), memory 8 to 16 bytes a point.
 */
export function weldPoints(positions: Float64Array, onShare?: (share: number) => void): Uint32Array {
  const n = Math.floor(positions.length / 3);
  const firstOf = new Uint32Array(n);
  const mask = (2 << (32 - Math.clz32(Math.max(1, n)))) - 1;
  const slots = new Uint32Array(mask + 1);
  const point = new Float64Array(3);
  const words = new Uint32Array(point.buffer);
  for (let v = 0; v < n; v++) {
    if (onShare && v % TOLD_POINTS === 0) onShare(v / n);
    const x = (point[0] = positions[3 * v] + 0);
    const y = (point[1] = positions[3 * v + 1] + 0);
    const z = (point[2] = positions[3 * v + 2] + 0);
    let hash = 0;
    for (let i = 0; i < 6; i++) {
      hash = Math.imul(hash ^ words[i], SPREAD_A);
      hash ^= hash >>> 15;
    }
    hash = Math.imul(hash, SPREAD_B);
    let slot = (hash ^ (hash >>> 13)) & mask;
    for (;;) {
      const taken = slots[slot];
      if (taken === 0) {
        slots[slot] = v + 1;
        firstOf[v] = v;
        break;
      }
      const o = 3 * (taken - 1);
      if (positions[o] === x && positions[o + 1] === y && positions[o + 2] === z) {
        firstOf[v] = taken - 1;
        break;
      }
      slot = (slot + 1) & mask;
    }
  }
  return firstOf;
}

/**
 * The mesh with equal vertices made one, unused ones left out, and triangles that collapse dropped. Those pair
 * off their own edges, so a closed mesh stays closed. Needles with three different corners in line are kept:
 * they enclose nothing, but dropping them would open the mesh.
 * @param mesh finite coordinates, vertex numbers in range
 */
export function weldMesh(mesh: TriangleMesh, onShare?: (share: number) => void): WeldedMesh {
  const { positions, indices } = mesh;
  const firstOf = weldPoints(positions, onShare);
  const number = new Int32Array(firstOf.length).fill(-1);
  const triangles = Math.floor(indices.length / 3);
  const kept = new Uint32Array(3 * triangles);
  let corners = 0;
  let vertices = 0;
  let same = positions.length === 3 * firstOf.length && indices.length === kept.length;
  for (let i = 0; i < kept.length; i += 3) {
    const a = firstOf[indices[i]];
    const b = firstOf[indices[i + 1]];
    const c = firstOf[indices[i + 2]];
    if (a === b || b === c || c === a) continue;
    if (number[a] < 0) number[a] = vertices++;
    if (number[b] < 0) number[b] = vertices++;
    if (number[c] < 0) number[c] = vertices++;
    kept[corners++] = a;
    kept[corners++] = b;
    kept[corners++] = c;
  }
  const collapsed = triangles - corners / 3;
  same &&= collapsed === 0 && vertices === firstOf.length;
  if (same) return { mesh, collapsed };
  const places = new Float64Array(3 * vertices);
  for (let v = 0; v < number.length; v++) {
    if (number[v] >= 0) places.set(positions.subarray(3 * v, 3 * v + 3), 3 * number[v]);
  }
  for (let i = 0; i < corners; i++) kept[i] = number[kept[i]];
  return { mesh: { positions: places, indices: kept.slice(0, corners) }, collapsed };
}
