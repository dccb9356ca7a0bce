/**
 * How heat passes between cells and out of them: a conductance for every face between two cells, the two half cells in
 * series, and a list of the faces that meet air. Exact for steady linear profiles; second order in the cells' size.
 */
import type { BodyCells } from './cells.ts';
import { cellAt, paddedLength, xFaceM2, yFaceM2, zFaceM2, type BodyGrid } from './grid.ts';

export const FACING_UP = 0;
export const FACING_DOWN = 1;
export const FACING_ASIDE = 2;

/**
 * How squarely a face along an axis (0 x, 1 y, 2 z) stands to the true surface at a point, |n·e|, from 0 to 1. Cells go
 * round a curved or leaning wall in steps, whose faces have more area than the wall: each counts with this share of it
 * (the flux of the wall's own normals through the steps is the wall's area, by the divergence theorem).
 */
export type Squareness = (axis: 0 | 1 | 2, xMm: number, yMm: number, zMm: number) => number;

export interface BodyFaces {
  /** W/K from a cell to the next along x, y and z; 0 where either is air. */
  readonly gx: Float64Array;
  readonly gy: Float64Array;
  readonly gz: Float64Array;
  /** How far on the next cell along y and z is. */
  readonly stepY: number;
  readonly stepZ: number;
  readonly outer: OuterFaces;
}

export interface OuterFaces {
  readonly count: number;
  readonly cell: Int32Array;
  readonly areaM2: Float64Array;
  /** From the cell's middle to its face, W/m²K. */
  readonly innerWPerM2K: Float64Array;
  /** One of `FACING_…`. */
  readonly facing: Uint8Array;
}

const MM_PER_M = 1e3;

/**
 * `layers`: how many of the grid's are there by now; above them is air. `sidesClosed`: the solid whose upright faces lose
 * nothing.
 */
export function facesOf(grid: BodyGrid, cells: BodyCells, options: { readonly layers: number; readonly sidesClosed?: number; readonly squareness?: Squareness }): BodyFaces {
  const { layers, sidesClosed, squareness } = options;
  const { xMm, yMm, zMm, nx, ny, layer } = grid;
  const { capacityJPerK, conductivityWPerMK, solid } = cells;
  const gx = new Float64Array(paddedLength(grid));
  const gy = new Float64Array(paddedLength(grid));
  const gz = new Float64Array(paddedLength(grid));
  const outer: number[][] = [[], [], [], []];
  const there = (cell: number, k: number): boolean => k < layers && capacityJPerK[cell] > 0;
  const half = (cell: number, wideMm: number): number => (2 * MM_PER_M * conductivityWPerMK[cell]) / wideMm;
  const open = (cell: number, areaM2: number, inner: number, facing: number): void => {
    if (areaM2 > 0 && !(facing === FACING_ASIDE && solid[cell] === sidesClosed)) [cell, areaM2, inner, facing].forEach((value, of) => outer[of].push(value));
  };
  for (let k = 0; k < layers; k++) {
    const high = zMm[k + 1] - zMm[k];
    const z = (zMm[k] + zMm[k + 1]) / 2;
    for (let j = 0; j < ny; j++) {
      const deep = yMm[j + 1] - yMm[j];
      const y = (yMm[j] + yMm[j + 1]) / 2;
      for (let i = 0; i < nx; i++) {
        const cell = cellAt(grid, i, j, k);
        if (!there(cell, k)) continue;
        const wide = xMm[i + 1] - xMm[i];
        const x = (xMm[i] + xMm[i + 1]) / 2;
        const along = half(cell, wide);
        const across = half(cell, deep);
        const upright = half(cell, high);
        if (i + 1 < nx && there(cell + 1, k)) gx[cell] = xFaceM2(grid, i + 1, j, k) * inSeries(along, half(cell + 1, xMm[i + 2] - xMm[i + 1]));
        else open(cell, xFaceM2(grid, i + 1, j, k) * (squareness?.(0, xMm[i + 1], y, z) ?? 1), along, FACING_ASIDE);
        if (i === 0 || !there(cell - 1, k)) open(cell, xFaceM2(grid, i, j, k) * (squareness?.(0, xMm[i], y, z) ?? 1), along, FACING_ASIDE);
        if (grid.kind === 'boxes') {
          if (j + 1 < ny && there(cell + nx, k)) gy[cell] = yFaceM2(grid, i, k) * inSeries(across, half(cell + nx, yMm[j + 2] - yMm[j + 1]));
          else open(cell, yFaceM2(grid, i, k) * (squareness?.(1, x, yMm[j + 1], z) ?? 1), across, FACING_ASIDE);
          if (j === 0 || !there(cell - nx, k)) open(cell, yFaceM2(grid, i, k) * (squareness?.(1, x, yMm[j], z) ?? 1), across, FACING_ASIDE);
        }
        const level = zFaceM2(grid, i, j);
        if (there(cell + layer, k + 1)) gz[cell] = level * inSeries(upright, half(cell + layer, zMm[k + 2] - zMm[k + 1]));
        // Below the newest pour's surface, a step of something that narrows upward.
        else open(cell, level * (k + 1 < layers ? (squareness?.(2, x, y, zMm[k + 1]) ?? 1) : 1), upright, FACING_UP);
        if (k === 0) open(cell, level, upright, FACING_DOWN);
        // The step under a wall that leans out belongs to the wall.
        else if (!there(cell - layer, k - 1)) open(cell, level * (squareness?.(2, x, y, zMm[k]) ?? 1), upright, FACING_ASIDE);
      }
    }
  }
  return {
    gx, gy, gz,
    stepY: nx,
    stepZ: layer,
    outer: {
      count: outer[0].length,
      cell: Int32Array.from(outer[0]),
      areaM2: Float64Array.from(outer[1]),
      innerWPerM2K: Float64Array.from(outer[2]),
      facing: Uint8Array.from(outer[3]),
    },
  };
}

function inSeries(a: number, b: number): number {
  return (a * b) / (a + b);
}
