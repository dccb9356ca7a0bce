/**
 * The outline of a solid seen from the front: its mesh projected along y onto x–z.
 *
 * Triangles are swept over a fine grid, row by row and column by column. Each sweep notes which grid nodes
 * are covered and, between a covered and an uncovered node, exactly where the cover ends; marching squares then
 * joins those exact points. Time grows with the rows that triangles cross, memory only with the grid, however
 * big the mesh. (Uniting the projected triangles with a polygon clipper gives the same outline and takes
 * seconds on a fine mesh.) What is thinner than a cell both ways is lost; corners lose at most a cell's diagonal.
 */
import type { TriangleMesh } from '../solid/solid.ts';
import type { Point, Polygon, Ring } from './polygon.ts';
import { insideRing, ringArea } from './polygon.ts';

/** Nodes of the grid at most: 20 bytes a node keep the sweep under 15 MB, and a solid that fills its box under 0.1 s. */
const MAX_NODES = 700_000;
/** mm. Finer than a print's dot (600 dpi: 0.042 mm) nothing can be seen. */
const FINEST_CELL_MM = 0.05;
/** mm. Points that stray less than this from the line they lie on are left out. */
const SIMPLIFY_MM = 0.06;
/** mm². Specks of the grid, smaller than a dot of a pen, are left out. */
const SPECK_MM2 = 0.05;

/**
 * Outlines in x–z, mm, outer rings counter-clockwise (z up), holes apart; largest first. A mesh without
 * triangles, or flat on edge to the viewer, has none. Coordinates that are not finite are refused.
 */
export function silhouetteOf(mesh: TriangleMesh): Polygon[] {
  const frame = frameOf(mesh);
  if (!frame) return [];
  const rows = sweep(mesh, frame, 0);
  const columns = sweep(mesh, { ...frame, nx: frame.nz, nz: frame.nx, x0: frame.z0, z0: frame.x0 }, 2);
  return nest(traceRings(frame, rows, columns).map((ring) => simplifyRing(ring, SIMPLIFY_MM)));
}

interface Frame {
  /** Position of node (0, 0). */
  readonly x0: number;
  readonly z0: number;
  readonly cell: number;
  readonly nx: number;
  readonly nz: number;
}

interface Sweep {
  /** 1 where a node is covered, row by row. */
  readonly covered: Uint8Array;
  /** How far past a run's last node the cover reaches, and how far before its first it starts, in cells. */
  readonly after: Float32Array;
  readonly before: Float32Array;
}

function frameOf(mesh: TriangleMesh): Frame | null {
  const { positions, indices } = mesh;
  let x0 = Infinity, x1 = -Infinity, z0 = Infinity, z1 = -Infinity;
  for (let i = 0; i < indices.length; i++) {
    const x = positions[3 * indices[i]];
    const z = positions[3 * indices[i] + 2];
    if (x < x0) x0 = x;
    if (x > x1) x1 = x;
    if (z < z0) z0 = z;
    if (z > z1) z1 = z;
    if (!Number.isFinite(x + z)) throw new Error(`Vertex ${indices[i]} lies at x ${x}, z ${z}; an outline needs finite coordinates. Repair the mesh first.`);
  }
  const width = x1 - x0;
  const height = z1 - z0;
  if (!(width > 0 && height > 0)) return null;
  // Half a cell of rim all round, so that the outermost nodes are never covered.
  const cell = Math.max(FINEST_CELL_MM, Math.sqrt((width * height) / MAX_NODES), Math.max(width, height) / (MAX_NODES / 8));
  const nx = Math.ceil(width / cell) + 3;
  const nz = Math.ceil(height / cell) + 3;
  return { x0: x0 - (nx * cell - width - cell) / 2, z0: z0 - (nz * cell - height - cell) / 2, cell, nx, nz };
}

/** Sweeps the rows of a grid; `axis` is the coordinate that runs along a row (0: x, 2: z). */
function sweep(mesh: TriangleMesh, grid: Frame, axis: 0 | 2): Sweep {
  const { positions, indices } = mesh;
  const { nx, nz, x0, z0, cell } = grid;
  const across = 2 - axis;
  const starts = new Int32Array(nx * nz);
  const after = new Float32Array(nx * nz);
  const before = new Float32Array(nx * nz);
  for (let t = 0; t < indices.length; t += 3) {
    const a = 3 * indices[t], b = 3 * indices[t + 1], c = 3 * indices[t + 2];
    const ua = (positions[a + axis] - x0) / cell, va = (positions[a + across] - z0) / cell;
    const ub = (positions[b + axis] - x0) / cell, vb = (positions[b + across] - z0) / cell;
    const uc = (positions[c + axis] - x0) / cell, vc = (positions[c + across] - z0) / cell;
    const first = Math.max(0, Math.ceil(Math.min(va, vb, vc)));
    const last = Math.min(nz - 1, Math.floor(Math.max(va, vb, vc)));
    for (let row = first; row <= last; row++) {
      let low = Infinity, high = -Infinity;
      // Where the row cuts each of the three sides.
      for (let side = 0; side < 3; side++) {
        const pu = side === 0 ? ua : side === 1 ? ub : uc, pv = side === 0 ? va : side === 1 ? vb : vc;
        const qu = side === 0 ? ub : side === 1 ? uc : ua, qv = side === 0 ? vb : side === 1 ? vc : va;
        if ((pv > row && qv > row) || (pv < row && qv < row)) continue;
        const u = pv === qv ? pu : pu + ((row - pv) / (qv - pv)) * (qu - pu);
        if (u < low) low = u;
        if (u > high) high = u;
        if (pv === qv) {
          if (qu < low) low = qu;
          if (qu > high) high = qu;
        }
      }
      const from = Math.max(0, Math.ceil(low));
      const to = Math.min(nx - 1, Math.floor(high));
      if (from > to) continue;
      const base = row * nx;
      starts[base + from]++;
      if (to + 1 < nx) starts[base + to + 1]--;
      if (high - to > after[base + to]) after[base + to] = high - to;
      if (from - low > before[base + from]) before[base + from] = from - low;
    }
  }
  const covered = new Uint8Array(nx * nz);
  for (let row = 0; row < nz; row++) {
    let depth = 0;
    for (let i = row * nx; i < (row + 1) * nx; i++) {
      depth += starts[i];
      if (depth > 0) covered[i] = 1;
    }
  }
  return { covered, after, before };
}

/**
 * Marching squares over the row sweep's nodes. Crossings are keyed by the grid edge they lie on
 * (2·node for the edge to the right, 2·node + 1 for the edge up); every segment keeps the cover at its left.
 */
function traceRings(frame: Frame, rows: Sweep, columns: Sweep): Ring[] {
  const { nx, nz, x0, z0, cell } = frame;
  const { covered } = rows;
  const next = new Map<number, number>();
  for (let j = 0; j + 1 < nz; j++) {
    for (let i = 0; i + 1 < nx; i++) {
      const node = j * nx + i;
      const kind = covered[node] | (covered[node + 1] << 1) | (covered[node + nx + 1] << 2) | (covered[node + nx] << 3);
      if (kind === 0 || kind === 15) continue;
      const edges = [2 * node, 2 * (node + 1) + 1, 2 * (node + nx), 2 * node + 1];
      for (const [from, to] of CELL_SEGMENTS[kind]) next.set(edges[from], edges[to]);
    }
  }
  const pointOn = (edge: number): Point => {
    const node = edge >> 1;
    const i = node % nx;
    const j = (node - i) / nx;
    if (edge & 1) {
      const up = i * nz + j;
      const along = covered[node] ? columns.after[up] : 1 - columns.before[up + 1];
      return [x0 + i * cell, z0 + (j + Math.min(1, Math.max(0, along))) * cell];
    }
    const along = covered[node] ? rows.after[node] : 1 - rows.before[node + 1];
    return [x0 + (i + Math.min(1, Math.max(0, along))) * cell, z0 + j * cell];
  };
  const rings: Ring[] = [];
  for (const start of [...next.keys()]) {
    const ring: Point[] = [];
    // Each crossing leads to exactly one other, so every walk comes round to its start.
    for (let edge = start, to = next.get(edge); to !== undefined; edge = to, to = next.get(edge)) {
      ring.push(pointOn(edge));
      next.delete(edge);
    }
    if (ring.length > 2) rings.push(ring);
  }
  return rings;
}

/** Edges of a cell: 0 bottom, 1 right, 2 top, 3 left. Corners: 1 bottom left, 2 bottom right, 4 top right, 8 top left. */
const CELL_SEGMENTS: readonly (readonly (readonly [number, number])[])[] = [
  [], [[0, 3]], [[1, 0]], [[1, 3]], [[2, 1]], [[0, 3], [2, 1]], [[2, 0]], [[2, 3]],
  [[3, 2]], [[0, 2]], [[1, 0], [3, 2]], [[1, 2]], [[3, 1]], [[0, 1]], [[3, 0]], [],
];

/** Douglas–Peucker on a ring: split at its two farthest-apart points, then each half. Iterative, so depth is no limit. */
export function simplifyRing(ring: Ring, toleranceMm: number): Ring {
  if (ring.length < 5) return ring;
  const far = farthestFrom(ring, 0);
  const keep = new Uint8Array(ring.length + 1);
  keep[0] = keep[far] = keep[ring.length] = 1;
  const at = (i: number): Point => ring[i === ring.length ? 0 : i];
  const spans: [number, number][] = [[0, far], [far, ring.length]];
  while (spans.length > 0) {
    const [from, to] = spans.pop()!;
    const [ax, ay] = at(from);
    const [bx, by] = at(to);
    const length = Math.hypot(bx - ax, by - ay);
    let worst = toleranceMm;
    let index = -1;
    for (let i = from + 1; i < to; i++) {
      const [x, y] = at(i);
      const off = length > 0 ? Math.abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / length : Math.hypot(x - ax, y - ay);
      if (off > worst) {
        worst = off;
        index = i;
      }
    }
    if (index >= 0) {
      keep[index] = 1;
      spans.push([from, index], [index, to]);
    }
  }
  return ring.filter((_, i) => keep[i] === 1);
}

function farthestFrom(ring: Ring, from: number): number {
  let best = 0;
  let index = from;
  for (let i = 0; i < ring.length; i++) {
    const distance = Math.hypot(ring[i][0] - ring[from][0], ring[i][1] - ring[from][1]);
    if (distance > best) {
      best = distance;
      index = i;
    }
  }
  return index;
}

/** Counter-clockwise rings become outlines, clockwise ones the holes of the smallest outline around them. */
function nest(rings: readonly Ring[]): Polygon[] {
  const sized = rings.map((ring) => ({ ring, area: ringArea(ring) })).filter(({ area }) => Math.abs(area) > SPECK_MM2);
  const outers = sized.filter(({ area }) => area > 0).sort((a, b) => b.area - a.area).map(({ ring }) => ({ outer: ring, holes: [] as Ring[] }));
  for (const { ring, area } of sized) {
    if (area > 0) continue;
    const host = outers.findLast(({ outer }) => insideRing(outer, ring[0]));
    if (host) host.holes.push(ring);
  }
  return outers;
}
