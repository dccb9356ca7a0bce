/**
 * Which of several closed meshes a point lies in. A column through it is cut with the triangles over its place, which
 * bins find; going up the same column again, as sampling cells does, costs a comparison or two.
 */
import { sideOf } from '../../solid/mesh-columns.ts';
import { meshBounds } from '../../solid/shape-volume.ts';
import type { TriangleMesh } from '../../solid/solid.ts';

/** The number of the first mesh that holds the point, or −1. */
export type PlacementAt = (xMm: number, yMm: number, zMm: number) => number;

/** Bins along each edge at most; so that a bin of a fine mesh holds a few triangles and a coarse one has few bins. */
const MOST_BINS = 128;

/** @param meshes closed, wound counter-clockwise seen from outside, in the mold's frame. */
export function placementSampler(meshes: readonly TriangleMesh[]): PlacementAt {
  const columns = meshes.map(columnsOf);
  return (xMm, yMm, zMm) => {
    for (let m = 0; m < columns.length; m++) if (columns[m](xMm, yMm, zMm)) return m;
    return -1;
  };
}

function columnsOf(mesh: TriangleMesh): (xMm: number, yMm: number, zMm: number) => boolean {
  const { min, max } = meshBounds(mesh);
  const bins = Math.max(1, Math.min(MOST_BINS, Math.round(Math.sqrt(mesh.indices.length / 6))));
  const perX = bins / Math.max(max[0] - min[0], Number.MIN_VALUE);
  const perY = bins / Math.max(max[1] - min[1], Number.MIN_VALUE);
  const { starts, triangles } = binned(mesh, { bins, perX, perY, x0: min[0], y0: min[1] });
  let atX = NaN;
  let atY = NaN;
  /** Heights at which the column is crossed, and +1 where it goes in there, −1 where out. */
  let heights: number[] = [];
  let turns: number[] = [];
  return (xMm, yMm, zMm) => {
    if (zMm < min[2] || zMm > max[2] || xMm < min[0] || xMm > max[0] || yMm < min[1] || yMm > max[1]) return false;
    if (xMm !== atX || yMm !== atY) {
      [atX, atY, heights, turns] = [xMm, yMm, [], []];
      const bin = Math.min(bins - 1, Math.floor((yMm - min[1]) * perY)) * bins + Math.min(bins - 1, Math.floor((xMm - min[0]) * perX));
      for (let t = starts[bin]; t < starts[bin + 1]; t++) cross(mesh, triangles[t], [xMm, yMm], heights, turns);
    }
    let wraps = 0;
    for (let c = 0; c < heights.length; c++) if (heights[c] <= zMm) wraps += turns[c];
    return wraps > 0;
  };
}

interface Bins {
  readonly bins: number;
  readonly perX: number;
  readonly perY: number;
  readonly x0: number;
  readonly y0: number;
}

/** The triangles over each bin, one list behind the other. */
function binned(mesh: TriangleMesh, { bins, perX, perY, x0, y0 }: Bins): { starts: Uint32Array; triangles: Uint32Array } {
  const { positions: p, indices } = mesh;
  const starts = new Uint32Array(bins * bins + 1);
  const over = (t: number, visit: (bin: number) => void): void => {
    const [a, b, c] = [3 * indices[t], 3 * indices[t + 1], 3 * indices[t + 2]];
    const column = (x: number) => Math.max(0, Math.min(bins - 1, Math.floor((x - x0) * perX)));
    const row = (y: number) => Math.max(0, Math.min(bins - 1, Math.floor((y - y0) * perY)));
    const last = column(Math.max(p[a], p[b], p[c]));
    const top = row(Math.max(p[a + 1], p[b + 1], p[c + 1]));
    for (let j = row(Math.min(p[a + 1], p[b + 1], p[c + 1])); j <= top; j++) {
      for (let i = column(Math.min(p[a], p[b], p[c])); i <= last; i++) visit(j * bins + i);
    }
  };
  for (let t = 0; t < indices.length; t += 3) over(t, (bin) => starts[bin + 1]++);
  for (let bin = 0; bin < bins * bins; bin++) starts[bin + 1] += starts[bin];
  const next = starts.slice();
  const triangles = new Uint32Array(starts[bins * bins]);
  for (let t = 0; t < indices.length; t += 3) over(t, (bin) => { triangles[next[bin]++] = t; });
  return { starts, triangles };
}

/** Adds where the column at (x, y) passes the triangle that starts at corner `t`, if it does. */
function cross({ positions: p, indices }: TriangleMesh, t: number, [x, y]: readonly [number, number], heights: number[], turns: number[]): void {
  const [a, b, c] = [3 * indices[t], 3 * indices[t + 1], 3 * indices[t + 2]];
  const ab = sideOf(a, p[a], p[a + 1], b, p[b], p[b + 1], x, y);
  const bc = sideOf(b, p[b], p[b + 1], c, p[c], p[c + 1], x, y);
  const ca = sideOf(c, p[c], p[c + 1], a, p[a], p[a + 1], x, y);
  const up = ab > 0;
  if (bc > 0 !== up || ca > 0 !== up) return;
  heights.push((bc * p[a + 2] + ca * p[b + 2] + ab * p[c + 2]) / (ab + bc + ca));
  turns.push(up ? -1 : 1);
}
