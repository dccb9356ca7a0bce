/**
 * A lighter copy of a mesh for drawing and picking: points in the same cell of a grid become their mean, triangles
 * that fall together go. Linear in points and triangles. Never for exact numbers: the volume is not kept.
 *
 * Tried: edge collapse keeps form better and takes seconds for a million triangles; this takes a fraction of one.
 */

export interface DrawnMesh {
  /** x, y, z per point, mm. */
  readonly positions: Float32Array;
  readonly indices: Uint32Array;
}

/** Cells a side that a key can hold; a figure drawn a thousand dots high shows no more. */
const MOST_CELLS_A_SIDE = 1024;
/** Triangles that a surface of one cell's area leaves, about: 2.2 to 2.8 as measured on balls, rings and figures. */
const TRIANGLES_PER_CELL = 2.6;
/** A try aims this much under what is allowed, so that the next seldom misses. */
const AIM = 0.95;
/** Of what is allowed; a copy with fewer is tried once more with smaller cells. */
const ENOUGH = 0.4;
/** Triangles whose area is looked at for the first guess. */
const SAMPLED = 20_000;
/** Points or triangles between two pauses: about 2 ms. */
const A_SLICE = 40_000;

/**
 * At most `maxTriangles` triangles with exactly the same bounds; other points move by less than a cell's diagonal.
 * A mesh that is light enough comes back as it is. Of a closed mesh (also one whose triangles share no points yet) the
 * copy runs every edge equally often both ways. Cost O(points + triangles), one or two tries at the cell's size.
 * @throws {Error} if `maxTriangles` is not at least 4.
 */
export function lighterCopy(positions: ArrayLike<number>, indices: ArrayLike<number>, maxTriangles: number): DrawnMesh {
  const steps = lighterSteps(positions, indices, maxTriangles);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** The same with pauses every few milliseconds, for work between frames. */
export function* lighterSteps(positions: ArrayLike<number>, indices: ArrayLike<number>, maxTriangles: number): Generator<void, DrawnMesh> {
  if (!(maxTriangles >= 4)) throw new Error(`Found ${maxTriangles} as the most triangles; the least closed mesh has 4.`);
  if (indices.length / 3 <= maxTriangles) return { positions: new Float32Array(positions), indices: new Uint32Array(indices) };
  const { min, size, ends } = yield* extent(positions);
  const largest = Math.max(...size);
  const nothing = { positions: new Float32Array(0), indices: new Uint32Array(0) };
  if (!(largest > 0 && Number.isFinite(largest))) return nothing;
  let cells = cellsFor(largest, sampledArea(positions, indices), maxTriangles);
  let best: DrawnMesh | null = null;
  for (;;) {
    const copy = yield* clustered(positions, indices, { min, cell: largest / cells, ends });
    const triangles = copy.indices.length / 3;
    if (triangles > maxTriangles) {
      if (best) return best;
      if (cells === 1) return nothing;
      cells = Math.max(1, Math.min(cells - 1, Math.floor(cells * AIM * Math.sqrt(maxTriangles / triangles))));
      continue;
    }
    if (best) return copy;
    const finer = Math.min(MOST_CELLS_A_SIDE, Math.floor(cells * AIM * Math.sqrt(maxTriangles / Math.max(1, triangles))));
    if (triangles >= ENOUGH * maxTriangles || finer <= cells) return copy;
    best = copy;
    cells = finer;
  }
}

interface Extent {
  readonly min: readonly number[];
  readonly size: readonly number[];
  /** The points that reach the bounds: lowest and highest in x, y, z. */
  readonly ends: readonly number[];
}

function* extent(p: ArrayLike<number>): Generator<void, Extent> {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  const ends = [0, 0, 0, 0, 0, 0];
  for (let from = 0; from < p.length; from += 3 * A_SLICE) {
    widen(p, { from, to: Math.min(p.length, from + 3 * A_SLICE), min, max, ends });
    yield;
  }
  return { min, size: max.map((v, k) => v - min[k]), ends };
}

function widen(p: ArrayLike<number>, { from, to, min, max, ends }: { from: number; to: number; min: number[]; max: number[]; ends: number[] }): void {
  for (let k = 0; k < 3; k++) {
    let low = min[k];
    let high = max[k];
    for (let i = from + k; i < to; i += 3) {
      const v = p[i];
      if (v < low) {
        low = v;
        ends[2 * k] = (i / 3) | 0;
      }
      if (v > high) {
        high = v;
        ends[2 * k + 1] = (i / 3) | 0;
      }
    }
    min[k] = low;
    max[k] = high;
  }
}

/** mm², from a sample of the triangles spread over all of them. */
function sampledArea(p: ArrayLike<number>, indices: ArrayLike<number>): number {
  const triangles = Math.floor(indices.length / 3);
  const stride = Math.max(1, Math.floor(triangles / SAMPLED));
  let doubled = 0;
  let seen = 0;
  for (let t = 0; t < triangles; t += stride, seen++) {
    const a = 3 * indices[3 * t], b = 3 * indices[3 * t + 1], c = 3 * indices[3 * t + 2];
    const ux = p[b] - p[a], uy = p[b + 1] - p[a + 1], uz = p[b + 2] - p[a + 2];
    const vx = p[c] - p[a], vy = p[c + 1] - p[a + 1], vz = p[c + 2] - p[a + 2];
    doubled += Math.sqrt((uy * vz - uz * vy) ** 2 + (uz * vx - ux * vz) ** 2 + (ux * vy - uy * vx) ** 2);
  }
  return (doubled / 2 / seen) * triangles;
}

function cellsFor(largest: number, area: number, maxTriangles: number): number {
  const cells = largest * Math.sqrt((AIM * maxTriangles) / (TRIANGLES_PER_CELL * area));
  return Number.isFinite(cells) ? Math.max(1, Math.min(MOST_CELLS_A_SIDE, Math.floor(cells))) : Math.ceil(Math.sqrt(maxTriangles));
}

function* clustered(p: ArrayLike<number>, indices: ArrayLike<number>, grid: { min: readonly number[]; cell: number; ends: readonly number[] }): Generator<void, DrawnMesh> {
  const points = Math.floor(p.length / 3);
  const clusterOf = new Uint32Array(points);
  const clusters = new Clusters(grid.min, 1 / grid.cell);
  for (let from = 0; from < points; from += A_SLICE) {
    clusters.take(p, { from, to: Math.min(points, from + A_SLICE), clusterOf });
    yield;
  }
  const positions = clusters.means();
  for (let end = 0; end < 6; end++) {
    const k = end >> 1;
    positions[3 * clusterOf[grid.ends[end]] + k] = p[3 * grid.ends[end] + k];
  }
  const kept = new Uint32Array(indices.length);
  let count = 0;
  for (let from = 0; from < indices.length; from += 3 * A_SLICE) {
    count = keep(indices, { from, to: Math.min(indices.length - (indices.length % 3), from + 3 * A_SLICE), clusterOf, kept, count });
    yield;
  }
  return { positions, indices: kept.slice(0, count) };
}

/** Triangles that still have three corners; answers how many numbers are kept by now. */
function keep(indices: ArrayLike<number>, { from, to, clusterOf, kept, count }: { from: number; to: number; clusterOf: Uint32Array; kept: Uint32Array; count: number }): number {
  for (let t = from; t < to; t += 3) {
    const a = clusterOf[indices[t]];
    const b = clusterOf[indices[t + 1]];
    const c = clusterOf[indices[t + 2]];
    if (a === b || b === c || c === a) continue;
    kept[count++] = a;
    kept[count++] = b;
    kept[count++] = c;
  }
  return count;
}

/** Cells that hold points, in a table of our own: a Map took five times as long on ten million points. */
class Clusters {
  readonly #x0: number;
  readonly #y0: number;
  readonly #z0: number;
  readonly #perMm: number;
  /** Slot → cell's key, −1 where empty, and the number of its cluster. */
  #keys = new Float64Array(1 << 16).fill(-1);
  #numbers = new Uint32Array(1 << 16);
  #count = 0;
  #sums = new Float64Array(3 << 14);
  #points = new Uint32Array(1 << 14);

  constructor([x0, y0, z0]: readonly number[], perMm: number) {
    this.#x0 = x0;
    this.#y0 = y0;
    this.#z0 = z0;
    this.#perMm = perMm;
  }

  take(p: ArrayLike<number>, { from, to, clusterOf }: { from: number; to: number; clusterOf: Uint32Array }): void {
    const x0 = this.#x0, y0 = this.#y0, z0 = this.#z0, perMm = this.#perMm;
    const side = 2 * MOST_CELLS_A_SIDE;
    // Points of one triangle, and of the next, mostly lie in one cell.
    let last = -1;
    let cluster = 0;
    for (let v = from, i = 3 * from; v < to; v++, i += 3) {
      const x = p[i], y = p[i + 1], z = p[i + 2];
      const key = (Math.floor((x - x0) * perMm) * side + Math.floor((y - y0) * perMm)) * side + Math.floor((z - z0) * perMm);
      if (key !== last) {
        cluster = this.#numberOf(key);
        last = key;
      }
      clusterOf[v] = cluster;
      this.#points[cluster]++;
      this.#sums[3 * cluster] += x;
      this.#sums[3 * cluster + 1] += y;
      this.#sums[3 * cluster + 2] += z;
    }
  }

  means(): Float32Array {
    const means = new Float32Array(3 * this.#count);
    for (let i = 0; i < means.length; i++) means[i] = this.#sums[i] / this.#points[(i / 3) | 0];
    return means;
  }

  #numberOf(key: number): number {
    const keys = this.#keys;
    const mask = keys.length - 1;
    let slot = slotOf(key, mask);
    for (;;) {
      if (keys[slot] === key) return this.#numbers[slot];
      if (keys[slot] < 0) break;
      slot = (slot + 1) & mask;
    }
    keys[slot] = key;
    const number = (this.#numbers[slot] = this.#count++);
    if (this.#count === this.#points.length) this.#widen();
    if (2 * this.#count > keys.length) this.#spread();
    return number;
  }

  #widen(): void {
    const [sums, points] = [this.#sums, this.#points];
    this.#sums = new Float64Array(2 * sums.length);
    this.#sums.set(sums);
    this.#points = new Uint32Array(2 * points.length);
    this.#points.set(points);
  }

  #spread(): void {
    const [keys, numbers] = [this.#keys, this.#numbers];
    this.#keys = new Float64Array(4 * keys.length).fill(-1);
    this.#numbers = new Uint32Array(4 * keys.length);
    const mask = this.#keys.length - 1;
    for (let i = 0; i < keys.length; i++) {
      if (keys[i] < 0) continue;
      let slot = slotOf(keys[i], mask);
      while (this.#keys[slot] >= 0) slot = (slot + 1) & mask;
      this.#keys[slot] = keys[i];
      this.#numbers[slot] = numbers[i];
    }
  }
}

/** Spread by Knuth's multiplicative constant; a key has up to 33 bits. */
function slotOf(key: number, mask: number): number {
  const high = Math.floor(key / 0x100000000);
  let hash = Math.imul((key - high * 0x100000000) ^ Math.imul(high, 0x85ebca6b), 0x9e3779b1);
  hash ^= hash >>> 15;
  return Math.imul(hash, 0x85ebca6b) >>> 13 & mask;
}
