/**
 * Volume below a height the slow way, as an oracle that shares nothing with the profile: every triangle is cut
 * as a polygon, and the integral is of (x − x0) n_x, whose flux through a flat level is 0, so that heights only
 * decide where to cut. Sums carry their rounding on (Neumaier 1974, from memory).
 */
import type { TriangleMesh } from '../../../src/core/solid/solid.ts';

export function directVolumeBelow(mesh: TriangleMesh, zMm: number): number {
  const { positions: p, indices } = mesh;
  const x0 = p[3 * indices[0]];
  const y0 = p[3 * indices[0] + 1];
  const polygon = new Float64Array(12);
  const corner = new Float64Array(9);
  let sum = 0;
  let carry = 0;
  for (let i = 0; i < indices.length; i += 3) {
    for (let k = 0; k < 3; k++) {
      const o = 3 * indices[i + k];
      corner[3 * k] = p[o] - x0;
      corner[3 * k + 1] = p[o + 1] - y0;
      corner[3 * k + 2] = p[o + 2] - zMm;
    }
    const n = cutBelow(corner, polygon);
    for (let k = 2; k < n; k++) {
      const term = slab(polygon, 0, 3 * (k - 1), 3 * k);
      const next = sum + term;
      carry += Math.abs(sum) >= Math.abs(term) ? sum - next + term : term - next + sum;
      sum = next;
    }
  }
  return (sum + carry) / 6;
}

function slab(p: Float64Array, a: number, b: number, c: number): number {
  const doubled = (p[b + 1] - p[a + 1]) * (p[c + 2] - p[a + 2]) - (p[c + 1] - p[a + 1]) * (p[b + 2] - p[a + 2]);
  return doubled * (p[a] + p[b] + p[c]);
}

/** Sutherland & Hodgman 1974 for one plane; returns the number of corners. */
function cutBelow(corner: Float64Array, out: Float64Array): number {
  let n = 0;
  for (let k = 0; k < 3; k++) {
    const from = 3 * k;
    const to = 3 * ((k + 1) % 3);
    const h = corner[from + 2];
    const g = corner[to + 2];
    if (h <= 0) {
      for (let d = 0; d < 3; d++) out[3 * n + d] = corner[from + d];
      n++;
    }
    if ((h < 0 && g > 0) || (h > 0 && g < 0)) {
      const t = h / (h - g);
      for (let d = 0; d < 2; d++) out[3 * n + d] = corner[from + d] + t * (corner[to + d] - corner[from + d]);
      out[3 * n + 2] = 0;
      n++;
    }
  }
  return n;
}
