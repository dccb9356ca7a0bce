/**
 * The cells a casting is cut into to follow its heat: boxes along x, y and z, or rings about the z axis where all of
 * it is round. Lines lie on every face that heat must not be smeared over: pour surfaces, floor, walls.
 */

export interface BodyGrid {
  /** `rings`: x is the radius, and there is one cell along y, which goes all the way round. */
  readonly kind: 'boxes' | 'rings';
  /** Lines between cells, mm, ascending; one more than there are cells. */
  readonly xMm: Float64Array;
  readonly yMm: Float64Array;
  readonly zMm: Float64Array;
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  /**
   * Cells of one layer. Cell i, j, k is number (k + 1) layer + j nx + i: every array over the cells has one empty layer
   * below and one above, so that a loop may ask for the neighbors of any cell.
   */
  readonly layer: number;
}

/** A length this small between two stops is rounding: the planner's own heights are good to 1e-9 mm. */
const SAME_LINE_MM = 1e-6;
const M_PER_MM = 1e-3;

export function boxGrid(xMm: Float64Array, yMm: Float64Array, zMm: Float64Array): BodyGrid {
  const [nx, ny, nz] = [xMm.length - 1, yMm.length - 1, zMm.length - 1];
  return { kind: 'boxes', xMm, yMm, zMm, nx, ny, nz, layer: nx * ny };
}

/** @param rMm from 0 on. */
export function ringGrid(rMm: Float64Array, zMm: Float64Array): BodyGrid {
  const [nx, nz] = [rMm.length - 1, zMm.length - 1];
  return { kind: 'rings', xMm: rMm, yMm: Float64Array.of(0, 1), zMm, nx, ny: 1, nz, layer: nx };
}

/** Lines through every stop, and between two of them as many equal cells as are needed to have none over `cellMm`. */
export function linesThrough(stopsMm: readonly number[], cellMm: number): Float64Array {
  const stops = [...stopsMm].sort((a, b) => a - b).filter((stop, i, all) => i === 0 || stop - all[i - 1] > SAME_LINE_MM);
  const lines = [stops[0]];
  for (let s = 1; s < stops.length; s++) {
    const from = stops[s - 1];
    const wide = stops[s] - from;
    const cells = Math.max(1, Math.ceil(wide / cellMm - SAME_LINE_MM));
    for (let i = 1; i <= cells; i++) lines.push(i === cells ? stops[s] : from + (wide * i) / cells);
  }
  return Float64Array.from(lines);
}

/** How many numbers an array over the cells has. */
export function paddedLength({ layer, nz }: BodyGrid): number {
  return layer * (nz + 2);
}

export function cellAt({ layer, nx }: BodyGrid, i: number, j: number, k: number): number {
  return (k + 1) * layer + j * nx + i;
}

/** Middle of a cell, mm; of a ring: its radius, 0 and its height. */
export function middleOfCell(grid: BodyGrid, cell: number): [number, number, number] {
  const { xMm, yMm, zMm, nx, layer } = grid;
  const k = Math.floor(cell / layer) - 1;
  const inLayer = cell % layer;
  const i = inLayer % nx;
  const j = (inLayer - i) / nx;
  const y = grid.kind === 'rings' ? 0 : (yMm[j] + yMm[j + 1]) / 2;
  return [(xMm[i] + xMm[i + 1]) / 2, y, (zMm[k] + zMm[k + 1]) / 2];
}

/** Of the face between cell i − 1 and i of a row along x (rings: of the cylinder there), m². */
export function xFaceM2({ kind, xMm, yMm, zMm }: BodyGrid, i: number, j: number, k: number): number {
  const high = (zMm[k + 1] - zMm[k]) * M_PER_MM;
  return (kind === 'rings' ? 2 * Math.PI * xMm[i] : yMm[j + 1] - yMm[j]) * M_PER_MM * high;
}

/** Of a face square to y, m²; rings have none. */
export function yFaceM2({ kind, xMm, zMm }: BodyGrid, i: number, k: number): number {
  return kind === 'rings' ? 0 : (xMm[i + 1] - xMm[i]) * (zMm[k + 1] - zMm[k]) * M_PER_MM ** 2;
}

/** Of a level face, m². */
export function zFaceM2({ kind, xMm, yMm }: BodyGrid, i: number, j: number): number {
  const wide = xMm[i + 1] - xMm[i];
  return (kind === 'rings' ? Math.PI * (xMm[i + 1] + xMm[i]) * wide : wide * (yMm[j + 1] - yMm[j])) * M_PER_MM ** 2;
}

export function cellM3(grid: BodyGrid, i: number, j: number, k: number): number {
  return zFaceM2(grid, i, j) * (grid.zMm[k + 1] - grid.zMm[k]) * M_PER_MM;
}
