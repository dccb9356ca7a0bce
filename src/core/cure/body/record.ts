/**
 * What is kept of a run: the hottest point of each pour and each figure, when and where, found inside the steps by the
 * cubic through both ends; and upright slices through the body for charts.
 */
import { middleOfCell, type BodyGrid } from './grid.ts';

export interface Hottest {
  temperatureC: number;
  /** Since the run's own zero. */
  atS: number;
  /** mm in the mold's frame; of rings: radius, 0, height. */
  place: readonly [number, number, number];
}

/** Temperatures in the plane y = `yMm`, rows from the floor up; NaN where there is nothing. Rings: from the axis out. */
export interface BodySlice {
  readonly atS: number;
  readonly yMm: number;
  /** Lines between the columns and the rows, mm. */
  readonly xMm: Float64Array;
  readonly zMm: Float64Array;
  readonly temperatureC: Float32Array;
}

/** An accepted step: temperatures and their slopes at both ends. */
export interface StepSpan {
  readonly atS: number;
  readonly lengthS: number;
  readonly beforeC: Float64Array;
  readonly beforeKPerS: Float64Array;
  readonly afterC: Float64Array;
  readonly afterKPerS: Float64Array;
}

export function coldest(): Hottest {
  return { temperatureC: -Infinity, atS: 0, place: [0, 0, 0] };
}

/** A peak inside a step lies over both its ends by less than this, K; cells farther below the record are passed over. */
const IN_STEP_K = 2;

/** Holds the cells of a list against a record. */
export function recordHottest(record: Hottest, grid: BodyGrid, cells: Int32Array, options: { readonly from: number; readonly to: number; readonly span: StepSpan }): void {
  const { from, to, span } = options;
  const { beforeC, afterC } = span;
  for (let c = from; c < to; c++) {
    const cell = cells[c];
    const higher = beforeC[cell] > afterC[cell] ? beforeC[cell] : afterC[cell];
    if (higher > record.temperatureC - IN_STEP_K) tryHotter(record, grid, span, cell);
  }
}

function tryHotter(record: Hottest, grid: BodyGrid, span: StepSpan, cell: number): void {
  const share = peakShare(span.beforeC[cell], span.lengthS * span.beforeKPerS[cell], span.afterC[cell], span.lengthS * span.afterKPerS[cell]);
  const temperatureC = cubicAt(share, span.beforeC[cell], span.lengthS * span.beforeKPerS[cell], span.afterC[cell], span.lengthS * span.afterKPerS[cell]);
  if (!(temperatureC > record.temperatureC)) return;
  record.temperatureC = temperatureC;
  record.atS = span.atS + share * span.lengthS;
  record.place = middleOfCell(grid, cell);
}

/** Where in the step, 0 to 1, the cubic through values a, b with slopes per step p, q is highest. */
function peakShare(a: number, p: number, b: number, q: number): number {
  // The derivative is 3 x² e + 2 x f + p.
  const e = p + q - 2 * (b - a);
  const f = 3 * (b - a) - 2 * p - q;
  const end = a >= b ? 0 : 1;
  const square = f * f - 3 * e * p;
  if (square < 0) return end;
  // Of both roots the one where the second derivative is −2√square, in the form that does not cancel.
  const root = Math.sqrt(square);
  const x = f > 0 && e !== 0 ? (-f - root) / (3 * e) : p / (root - f);
  return x > 0 && x < 1 && cubicAt(x, a, p, b, q) > Math.max(a, b) ? x : end;
}

/** The cubic through values a, b with slopes per step p, q. */
function cubicAt(x: number, a: number, p: number, b: number, q: number): number {
  return a + x * (p + x * (3 * (b - a) - 2 * p - q + x * (p + q - 2 * (b - a))));
}

export function sliceOf(grid: BodyGrid, temperatureC: Float64Array, there: Float64Array, at: { readonly j: number; readonly to: number; readonly atS: number }): BodySlice {
  const { nx, nz, layer, xMm, yMm, zMm } = grid;
  const field = new Float32Array(nx * nz).fill(NaN);
  for (let k = 0; k < nz; k++) {
    for (let i = 0; i < nx; i++) {
      const cell = (k + 1) * layer + at.j * nx + i;
      if (cell < at.to && there[cell] > 0) field[k * nx + i] = temperatureC[cell];
    }
  }
  return { atS: at.atS, yMm: grid.kind === 'rings' ? 0 : (yMm[at.j] + yMm[at.j + 1]) / 2, xMm, zMm, temperatureC: field };
}
