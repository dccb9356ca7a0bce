/**
 * How often a closed surface wraps each place, sampled on a grid of vertical lines. Along a line the count
 * goes up by one where the surface is entered and down where it is left. A sound solid only knows 0 and 1;
 * 2 and more is volume that the surface integral counts again, below 0 is volume wrapped inside-out.
 *
 * Cutting every pair of triangles would find any overlap, at a cost no import can bear; the lines find each
 * one wider than their distance, in one linear pass, of many shells or of one that runs through itself.
 */
import type { TriangleMesh } from './solid.ts';

export interface Wrapped {
  /** Estimate of the volume that is wrapped at least once, mm³. */
  readonly solidMm3: number;
  /** Estimate of what is counted again, mm³: once more for each further wrapping. */
  readonly againMm3: number;
  /** Estimate of what is wrapped inside-out, mm³. */
  readonly insideOutMm3: number;
  /** Distance of the lines in x and y, mm: an overlap narrower than this may be missed. */
  readonly spacingMm: readonly [number, number];
}

const MOST_LINES = 256;
const FEWEST_LINES = 8;
/** Lines tried against triangles at most: about a second. The grid is made coarser to keep it. */
const MOST_TRIES = 2 ** 25;
/** Lists up to this length are sorted by insertion; most hold one or two heights. */
const SHORT = 24;
/** The grid's first line within its cell, off the fractions on which drawn models put their vertices. */
const OFFSET = [0.4142135623730951, 0.7320508075688772] as const;

interface Grid {
  readonly lines: number;
  readonly x0: number;
  readonly y0: number;
  readonly dx: number;
  readonly dy: number;
}

/** @param mesh closed, finite. O(n + lines²) time, memory about 24 bytes a crossing. */
export function wrappedVolume(mesh: TriangleMesh): Wrapped {
  const grid = gridFor(mesh);
  const { lines } = grid;
  const counts = new Uint32Array(2 * lines * lines + 1);
  walkCrossings(mesh, grid, counts, null);
  let total = 0;
  for (let i = 0; i < counts.length; i++) {
    const count = counts[i];
    counts[i] = total;
    total += count;
  }
  const heights = new Float64Array(total);
  const next = counts.slice();
  walkCrossings(mesh, grid, next, heights);
  let solid = 0;
  let again = 0;
  let insideOut = 0;
  const sums = new Float64Array(3);
  for (let line = 0; line < lines * lines; line++) {
    const entered = counts[2 * line];
    const left = counts[2 * line + 1];
    const end = counts[2 * line + 2];
    // A line through a vertex may, to the last bit, miss a face that it meets: it is left out.
    if (left - entered !== end - left) continue;
    sortRange(heights, entered, left);
    sortRange(heights, left, end);
    sumLine(heights, entered, left, end, sums);
    solid += sums[0];
    again += sums[1];
    insideOut += sums[2];
  }
  const cell = grid.dx * grid.dy;
  return { solidMm3: solid * cell, againMm3: again * cell, insideOutMm3: insideOut * cell, spacingMm: [grid.dx, grid.dy] };
}

function gridFor({ positions, indices }: TriangleMesh): Grid {
  let minX = Infinity, maxX = -Infinity, minY = Infinity, maxY = -Infinity;
  for (let i = 0; i < indices.length; i++) {
    const x = positions[3 * indices[i]];
    const y = positions[3 * indices[i] + 1];
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  const wide = Math.max(maxX - minX, Number.MIN_VALUE);
  const deep = Math.max(maxY - minY, Number.MIN_VALUE);
  // What all bounds of triangles cover together, as a share of the whole and as a frame around it.
  let share = 0;
  let frame = 0;
  for (let i = 0; i < indices.length; i += 3) {
    const a = 3 * indices[i], b = 3 * indices[i + 1], c = 3 * indices[i + 2];
    const w = (Math.max(positions[a], positions[b], positions[c]) - Math.min(positions[a], positions[b], positions[c])) / wide;
    const d = (Math.max(positions[a + 1], positions[b + 1], positions[c + 1]) - Math.min(positions[a + 1], positions[b + 1], positions[c + 1])) / deep;
    share += w * d;
    frame += w + d;
  }
  let lines = MOST_LINES;
  while (lines > FEWEST_LINES && share * lines * lines + frame * lines > MOST_TRIES) lines /= 2;
  const dx = wide / lines;
  const dy = deep / lines;
  return { lines, x0: minX + OFFSET[0] * dx, y0: minY + OFFSET[1] * dy, dx, dy };
}

/**
 * Visit every crossing of a line with a triangle: with `heights` null count them, else store their heights.
 * Lists come in pairs per line: entered (downward faces), left (upward faces).
 */
function walkCrossings(mesh: TriangleMesh, grid: Grid, next: Uint32Array, heights: Float64Array | null): void {
  const { positions: p, indices } = mesh;
  const { lines, x0, y0, dx, dy } = grid;
  for (let i = 0; i < indices.length; i += 3) {
    const a = 3 * indices[i], b = 3 * indices[i + 1], c = 3 * indices[i + 2];
    const ax = p[a], ay = p[a + 1], bx = p[b], by = p[b + 1], cx = p[c], cy = p[c + 1];
    const firstX = Math.max(0, Math.ceil((Math.min(ax, bx, cx) - x0) / dx));
    const lastX = Math.min(lines - 1, Math.floor((Math.max(ax, bx, cx) - x0) / dx));
    const firstY = Math.max(0, Math.ceil((Math.min(ay, by, cy) - y0) / dy));
    const lastY = Math.min(lines - 1, Math.floor((Math.max(ay, by, cy) - y0) / dy));
    for (let row = firstY; row <= lastY; row++) {
      const y = y0 + row * dy;
      for (let column = firstX; column <= lastX; column++) {
        const x = x0 + column * dx;
        const ab = sideOf(a, ax, ay, b, bx, by, x, y);
        const bc = sideOf(b, bx, by, c, cx, cy, x, y);
        const ca = sideOf(c, cx, cy, a, ax, ay, x, y);
        const up = ab > 0;
        if (bc > 0 !== up || ca > 0 !== up) continue;
        const list = 2 * (row * lines + column) + (up ? 1 : 0);
        if (heights === null) next[list]++;
        else heights[next[list]++] = (bc * p[a + 2] + ca * p[b + 2] + ab * p[c + 2]) / (ab + bc + ca);
      }
    }
  }
}

/**
 * Side of the directed edge on which (x, y) lies, never 0. Computed from the edge's lower vertex whoever asks,
 * so that the two triangles of an edge agree to the last bit and no line slips between them.
 */
export function sideOf(from: number, fx: number, fy: number, to: number, tx: number, ty: number, x: number, y: number): number {
  const side = from < to ? (tx - fx) * (y - fy) - (ty - fy) * (x - fx) : (fx - tx) * (y - ty) - (fy - ty) * (x - tx);
  const decided = side === 0 ? Number.MIN_VALUE : side;
  return from < to ? decided : -decided;
}

/** Lengths of one line with the surface wrapped at least once, again, and inside-out. */
function sumLine(heights: Float64Array, entered: number, left: number, end: number, sums: Float64Array): void {
  sums.fill(0);
  let up = entered;
  let down = left;
  let wraps = 0;
  let last = Math.min(up < left ? heights[up] : Infinity, down < end ? heights[down] : Infinity);
  while (up < left || down < end) {
    const enters = down >= end || (up < left && heights[up] <= heights[down]);
    const z = enters ? heights[up++] : heights[down++];
    const length = z - last;
    if (wraps > 0) {
      sums[0] += length;
      sums[1] += (wraps - 1) * length;
    } else sums[2] -= wraps * length;
    wraps += enters ? 1 : -1;
    last = z;
  }
}

function sortRange(values: Float64Array, from: number, to: number): void {
  if (to - from > SHORT) {
    values.subarray(from, to).sort();
    return;
  }
  for (let i = from + 1; i < to; i++) {
    const value = values[i];
    let j = i - 1;
    while (j >= from && values[j] > value) {
      values[j + 1] = values[j];
      j--;
    }
    values[j + 1] = value;
  }
}
