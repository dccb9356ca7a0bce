/**
 * The height index of a closed triangle mesh, and the sum over everything below a height.
 *
 * By the divergence theorem the volume below z is ∫ (s − z) n_z dA over the part of the surface that lies
 * below z; the flat cap at z adds nothing. A triangle wholly below gives its signed projected area times
 * (height of its centroid − z), so prefix sums of area and moment carry all of those. Only the triangles
 * that cross z are cut.
 *
 * Two counting sorts, no comparison sort:
 * - by the bucket a triangle ends in: prefix sums, each moment taken about its own bucket's floor, so that
 *   a low volume keeps its digits under a tall solid;
 * - by size, then by the bucket it starts in: a triangle is stored once, in the level whose cells are about a
 *   quarter of its height, so that tall triangles cost no more than short ones and a query reads at most
 *   `REACH` + 1 neighboring cells a level.
 * One level with every triangle in every bucket it spans took O(n · buckets) on a fan of tall triangles;
 * an interval tree kept too many short ones at its upper nodes.
 */
import type { TriangleMesh } from './solid.ts';

/** Triangles per bucket, on average. Fewer save little time a query and cost memory. */
const TRIANGLES_PER_BUCKET = 4;
/** 2²⁰ buckets are 32 MB of sums; more would outgrow the mesh. */
const MAX_BUCKET_BITS = 20;
const MIN_BUCKET_BITS = 4;
/** A triangle starts at most this many cells of its level below the cell in which it ends. */
export const REACH = 4;
/** log2 REACH: a triangle spanning fewer than REACH · 2^level buckets belongs to that level. */
const REACH_BITS = 2;

export interface HeightIndex {
  /** x, y, z per vertex, mm; the mesh's own array. */
  readonly positions: Float64Array;
  /** Three vertex numbers per triangle, sorted by cell; upright triangles, which add nothing to the sums, are among them for sections' sake. */
  readonly corners: Uint32Array;
  /** Lowest and highest vertex in use, mm. */
  readonly bottomMm: number;
  readonly topMm: number;
  /** Buckets per mm; 0 where all triangles share the first bucket. */
  readonly perMm: number;
  readonly bucketMm: number;
  readonly buckets: number;
  /** First triangle of each cell; levels one after the other, level l has buckets >> l cells. */
  readonly cellStart: Uint32Array;
  /** Levels that hold triangles, and the first cell of each. */
  readonly levels: Uint8Array;
  readonly levelBase: Uint32Array;
  /** At k: twice the signed projected area of the triangles that end below bucket k, mm². */
  readonly endedArea: Float64Array;
  /** At k: six times their moment about bucket k's floor, mm³. */
  readonly endedMoment: Float64Array;
  /** Twice the projected area of all triangles without sign, mm². */
  readonly grossArea: number;
}

/**
 * Index a mesh by height. O(triangles + buckets); memory beside the mesh is about one copy of its indices.
 * @throws a RangeError that names the first vertex number out of range
 */
export function heightIndex(mesh: TriangleMesh): HeightIndex {
  const { positions, indices } = mesh;
  const triangles = Math.floor(indices.length / 3);
  const vertices = Math.floor(positions.length / 3);
  const range = usedHeights(positions, indices, triangles * 3, vertices);
  if (range.stray >= 0) {
    throw new RangeError(
      `The mesh's corner ${range.stray} names vertex ${indices[range.stray]}, but there are ${vertices} vertices; inspect the mesh before measuring it.`,
    );
  }
  const bottomMm = triangles === 0 ? 0 : range.lowest;
  const topMm = triangles === 0 ? 0 : range.highest;
  const wanted = 32 - Math.clz32(Math.floor(triangles / TRIANGLES_PER_BUCKET));
  const bits = Math.min(MAX_BUCKET_BITS, Math.max(MIN_BUCKET_BITS, wanted));
  const buckets = 1 << bits;
  const scale = buckets / (topMm - bottomMm);
  const perMm = Number.isFinite(scale) ? scale : 0;
  const bucketMm = (topMm - bottomMm) / buckets;

  const endedArea = new Float64Array(buckets + 1);
  const endedMoment = new Float64Array(buckets + 1);
  const cellStart = new Uint32Array(2 * buckets + 1);
  const levelCells = new Uint32Array(bits + 1);
  for (let l = 1; l <= bits; l++) levelCells[l] = levelCells[l - 1] + (buckets >> (l - 1));
  const cellOf = new Uint32Array(triangles);
  const bucketOf = vertexBuckets(positions, vertices, bottomMm, perMm, buckets);

  const grossArea = sumByBucket(mesh, bottomMm, bucketMm, bucketOf, levelCells, cellOf, cellStart, endedArea, endedMoment);
  const levels = usedLevels(levelCells, cellStart, buckets);
  const corners = gatherByCell(indices, cellOf, cellStart);
  accumulate(endedArea, endedMoment, bucketMm, buckets);
  return {
    positions, corners, bottomMm, topMm, perMm, bucketMm, buckets, cellStart, levels,
    levelBase: Uint32Array.from(levels, (l) => levelCells[l]),
    endedArea, endedMoment, grossArea,
  };
}

/**
 * Sum over everything below zMm (bottomMm ≤ zMm < topMm).
 * @param out [six times the volume, minus twice the section area as the limit from above], mm³ and mm²
 */
export function sumBelow(index: HeightIndex, zMm: number, out: Float64Array): void {
  const { positions: p, corners, bottomMm, perMm, bucketMm, buckets, cellStart, levels, levelBase } = index;
  const above = zMm - bottomMm;
  const k = Math.min(Math.floor(above * perMm), buckets - 1);
  let area = index.endedArea[k];
  let moment = index.endedMoment[k] - 3 * area * (above - k * bucketMm);
  for (let n = 0; n < levels.length; n++) {
    const cell = k >> levels[n];
    const end = 3 * cellStart[levelBase[n] + cell + 1];
    for (let i = 3 * cellStart[levelBase[n] + Math.max(0, cell - REACH)]; i < end; i += 3) {
      const a = 3 * corners[i];
      const b = 3 * corners[i + 1];
      const c = 3 * corners[i + 2];
      const ha = p[a + 2] - zMm;
      const hb = p[b + 2] - zMm;
      const hc = p[c + 2] - zMm;
      const high = ha > hb ? (ha > hc ? ha : hc) : hb > hc ? hb : hc;
      if (high <= 0) {
        const top = ha === high ? a : hb === high ? b : c;
        // Those that ended in a lower bucket are in the prefix sums already.
        if ((p[top + 2] - bottomMm) * perMm < k) continue;
        const doubled = doubledArea(p, a, b, c);
        area += doubled;
        moment += doubled * (ha + hb + hc);
        continue;
      }
      const low = ha < hb ? (ha < hc ? ha : hc) : hb < hc ? hb : hc;
      if (low >= 0) continue;
      const mid = Math.max(Math.min(ha, hb), Math.min(Math.max(ha, hb), hc));
      const doubled = doubledArea(p, a, b, c);
      if (mid >= 0) {
        // One corner below: a triangle similar in both edges.
        const part = doubled * (low / (low - mid)) * (low / (low - high));
        area += part;
        moment += part * low;
      } else {
        // Two corners below: two triangles, so that no large terms cancel.
        const near = mid / (mid - high);
        const far = (1 - near) * (low / (low - high));
        area += doubled * (near + far);
        moment += doubled * (near * (low + mid) + far * low);
      }
    }
  }
  out[0] = moment;
  out[1] = area;
}

/** Twice the signed area of the triangle's shadow on the floor; positive for an upward face. */
function doubledArea(p: Float64Array, a: number, b: number, c: number): number {
  const x = p[a];
  const y = p[a + 1];
  return (p[b] - x) * (p[c + 1] - y) - (p[c] - x) * (p[b + 1] - y);
}

function usedHeights(positions: Float64Array, indices: Uint32Array, corners: number, vertices: number) {
  let lowest = Infinity;
  let highest = -Infinity;
  let stray = -1;
  for (let i = corners - 1; i >= 0; i--) {
    const v = indices[i];
    if (v >= vertices) {
      stray = i;
      continue;
    }
    const z = positions[3 * v + 2];
    if (z < lowest) lowest = z;
    if (z > highest) highest = z;
  }
  return { lowest, highest, stray };
}

function vertexBuckets(positions: Float64Array, vertices: number, bottomMm: number, perMm: number, buckets: number): Int32Array {
  const bucketOf = new Int32Array(vertices);
  const last = buckets - 1;
  for (let v = 0; v < vertices; v++) {
    bucketOf[v] = Math.max(0, Math.min(Math.floor((positions[3 * v + 2] - bottomMm) * perMm), last));
  }
  return bucketOf;
}

/** One pass over the triangles: sums by the bucket they end in, their cell, and how many each cell holds. */
function sumByBucket(
  mesh: TriangleMesh, bottomMm: number, bucketMm: number, bucketOf: Int32Array, levelCells: Uint32Array,
  cellOf: Uint32Array, cellCount: Uint32Array, areaIn: Float64Array, momentIn: Float64Array,
): number {
  const { positions: p, indices } = mesh;
  let gross = 0;
  for (let t = 0, i = 0; t < cellOf.length; t++, i += 3) {
    const va = indices[i];
    const vb = indices[i + 1];
    const vc = indices[i + 2];
    const a = 3 * va;
    const b = 3 * vb;
    const c = 3 * vc;
    const doubled = doubledArea(p, a, b, c);
    const ka = bucketOf[va];
    const kb = bucketOf[vb];
    const kc = bucketOf[vc];
    const first = ka < kb ? (ka < kc ? ka : kc) : kb < kc ? kb : kc;
    const last = ka > kb ? (ka > kc ? ka : kc) : kb > kc ? kb : kc;
    const floor = (last + 1) * bucketMm;
    areaIn[last] += doubled;
    momentIn[last] += doubled * (p[a + 2] - bottomMm - floor + (p[b + 2] - bottomMm - floor) + (p[c + 2] - bottomMm - floor));
    gross += doubled < 0 ? -doubled : doubled;
    const bits = 32 - Math.clz32(last - first);
    const level = bits > REACH_BITS ? bits - REACH_BITS : 0;
    const cell = levelCells[level] + (first >> level);
    cellOf[t] = cell;
    cellCount[cell]++;
  }
  return gross;
}

function usedLevels(levelCells: Uint32Array, cellCount: Uint32Array, buckets: number): Uint8Array {
  const used: number[] = [];
  for (let l = 0; l < levelCells.length; l++) {
    const end = levelCells[l] + (buckets >> l);
    let cell = levelCells[l];
    while (cell < end && cellCount[cell] === 0) cell++;
    if (cell < end) used.push(l);
  }
  return Uint8Array.from(used);
}

/** Counting sort of the corners by cell; turns the counts in `cellCount` into first triangles. */
function gatherByCell(indices: Uint32Array, cellOf: Uint32Array, cellCount: Uint32Array): Uint32Array {
  let end = 0;
  for (let cell = 0; cell < cellCount.length; cell++) {
    end += cellCount[cell];
    cellCount[cell] = end;
  }
  const corners = new Uint32Array(3 * cellOf.length);
  for (let t = cellOf.length - 1; t >= 0; t--) {
    const to = 3 * --cellCount[cellOf[t]];
    corners[to] = indices[3 * t];
    corners[to + 1] = indices[3 * t + 1];
    corners[to + 2] = indices[3 * t + 2];
  }
  return corners;
}

/** Sums per bucket to prefix sums, with the rounding of each addition carried on (Neumaier 1974, from memory). */
function accumulate(area: Float64Array, moment: Float64Array, bucketMm: number, buckets: number): void {
  let areaSum = 0;
  let areaCarry = 0;
  let momentSum = 0;
  let momentCarry = 0;
  for (let k = 0; k <= buckets; k++) {
    const areaIn = area[k];
    const momentIn = moment[k];
    const ended = areaSum + areaCarry;
    area[k] = ended;
    moment[k] = momentSum + momentCarry;
    // What ended before sinks by one bucket relative to the next floor.
    const step = momentIn - 3 * ended * bucketMm;
    const nextMoment = momentSum + step;
    momentCarry += Math.abs(momentSum) >= Math.abs(step) ? momentSum - nextMoment + step : step - nextMoment + momentSum;
    momentSum = nextMoment;
    const nextArea = areaSum + areaIn;
    areaCarry += Math.abs(areaSum) >= Math.abs(areaIn) ? areaSum - nextArea + areaIn : areaIn - nextArea + areaSum;
    areaSum = nextArea;
  }
}
