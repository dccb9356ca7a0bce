/**
 * A lighter copy of a mesh for drawing and picking: points in the same cell of a grid become their mean, triangles
 * that fall together go. Linear in points and triangles. Never for numbers: volume and closedness are not kept.
 *
 * Tried: edge collapse keeps form better and takes seconds for a million triangles; this takes a fraction of one.
 */

export interface DrawnMesh {
  /** x, y, z per point, mm. */
  readonly positions: Float32Array;
  readonly indices: Uint32Array;
}

/** A surface crosses about as many triangles as 2 × its cells; more cells than this gain nothing. */
const MOST_CELLS_A_SIDE = 1024;
/** Each coarser try has this share of the cells a side. */
const COARSER = 0.8;
/** Points or triangles between two pauses: about 2 ms. */
const A_SLICE = 40_000;

/**
 * At most `maxTriangles` triangles with exactly the same bounds; other points move by less than a cell's diagonal.
 * A mesh that is light enough comes back as it is. Cost O(points + triangles), up to a few tries at the cell's size.
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
  if (!(largest > 0 && Number.isFinite(largest))) return { positions: new Float32Array(0), indices: new Uint32Array(0) };
  let cells = Math.min(MOST_CELLS_A_SIDE, Math.ceil(Math.sqrt(maxTriangles)));
  for (;;) {
    const copy = yield* clustered(positions, indices, { min, cell: largest / cells, ends });
    if (copy.indices.length / 3 <= maxTriangles) return copy;
    if (cells === 1) return { positions: new Float32Array(0), indices: new Uint32Array(0) };
    cells = Math.max(1, Math.floor(cells * COARSER));
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
  for (let i = 0; i < p.length; i++) {
    const v = p[i];
    const k = i % 3;
    if (v < min[k]) {
      min[k] = v;
      ends[2 * k] = (i / 3) | 0;
    }
    if (v > max[k]) {
      max[k] = v;
      ends[2 * k + 1] = (i / 3) | 0;
    }
    if (i % (3 * A_SLICE) === 0) yield;
  }
  return { min, size: max.map((v, k) => v - min[k]), ends };
}

function* clustered(p: ArrayLike<number>, indices: ArrayLike<number>, grid: { min: readonly number[]; cell: number; ends: readonly number[] }): Generator<void, DrawnMesh> {
  const [x0, y0, z0] = grid.min;
  const perMm = 1 / grid.cell;
  const points = p.length / 3;
  const clusterOf = new Uint32Array(points);
  const clusters = new Map<number, number>();
  const sums: number[] = [];
  const counts: number[] = [];
  for (let v = 0; v < points; v++) {
    const i = 3 * v;
    const column = Math.floor((p[i] - x0) * perMm) * (2 * MOST_CELLS_A_SIDE) + Math.floor((p[i + 1] - y0) * perMm);
    const key = column * (2 * MOST_CELLS_A_SIDE) + Math.floor((p[i + 2] - z0) * perMm);
    let cluster = clusters.get(key);
    if (cluster === undefined) {
      cluster = counts.length;
      clusters.set(key, cluster);
      counts.push(0);
      sums.push(0, 0, 0);
    }
    clusterOf[v] = cluster;
    counts[cluster]++;
    sums[3 * cluster] += p[i];
    sums[3 * cluster + 1] += p[i + 1];
    sums[3 * cluster + 2] += p[i + 2];
    if (v % A_SLICE === 0) yield;
  }
  const positions = new Float32Array(sums.length);
  for (let i = 0; i < sums.length; i++) positions[i] = sums[i] / counts[(i / 3) | 0];
  for (let end = 0; end < 6; end++) {
    const k = end >> 1;
    positions[3 * clusterOf[grid.ends[end]] + k] = p[3 * grid.ends[end] + k];
  }
  const kept = new Uint32Array(indices.length);
  let count = 0;
  for (let t = 0; t < indices.length; t += 3) {
    const a = clusterOf[indices[t]];
    const b = clusterOf[indices[t + 1]];
    const c = clusterOf[indices[t + 2]];
    if (a !== b && b !== c && c !== a) {
      kept[count++] = a;
      kept[count++] = b;
      kept[count++] = c;
    }
    if (t % (3 * A_SLICE) === 0) yield;
  }
  return { positions, indices: kept.slice(0, count) };
}
