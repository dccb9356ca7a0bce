/** The faces of a solid inside the body: where it touches something else, and how warm it is there. */
import type { BodyCells } from './cells.ts';
import { cellAt, type BodyGrid } from './grid.ts';

export interface Skin {
  /** Cells that the solid has a share in, larger than any other solid's. */
  readonly own: Int32Array;
  /** Pairs of cells, the solid's own and its neighbor's. */
  readonly inside: Int32Array;
  readonly outside: Int32Array;
  /** Of the inner cell: the face between two half cells is nearer to the one that conducts better. */
  readonly weight: Float64Array;
}

export function skinOf(grid: BodyGrid, { capacityJPerK, conductivityWPerMK, solid }: BodyCells, wanted: number): Skin {
  const { nx, ny, nz, layer, xMm, yMm, zMm } = grid;
  const own: number[] = [];
  const inside: number[] = [];
  const outside: number[] = [];
  const weight: number[] = [];
  const touch = (cell: number, other: number, wideMm: number, otherMm: number): void => {
    if (capacityJPerK[other] === 0 || solid[other] === wanted) return;
    const here = conductivityWPerMK[cell] / wideMm;
    inside.push(cell);
    outside.push(other);
    weight.push(here / (here + conductivityWPerMK[other] / otherMm));
  };
  const wide = (lines: Float64Array, i: number) => lines[i + 1] - lines[i];
  for (let k = 0; k < nz; k++) {
    for (let j = 0; j < ny; j++) {
      for (let i = 0; i < nx; i++) {
        const cell = cellAt(grid, i, j, k);
        if (solid[cell] !== wanted) continue;
        own.push(cell);
        if (i > 0) touch(cell, cell - 1, wide(xMm, i), wide(xMm, i - 1));
        if (i + 1 < nx) touch(cell, cell + 1, wide(xMm, i), wide(xMm, i + 1));
        if (j > 0) touch(cell, cell - nx, wide(yMm, j), wide(yMm, j - 1));
        if (j + 1 < ny) touch(cell, cell + nx, wide(yMm, j), wide(yMm, j + 1));
        if (k > 0) touch(cell, cell - layer, wide(zMm, k), wide(zMm, k - 1));
        if (k + 1 < nz) touch(cell, cell + layer, wide(zMm, k), wide(zMm, k + 1));
      }
    }
  }
  return { own: Int32Array.from(own), inside: Int32Array.from(inside), outside: Int32Array.from(outside), weight: Float64Array.from(weight) };
}

/** The hottest face of those whose cells are there by now (below `to`), or −Infinity. */
export function hottestSkinC({ inside, outside, weight }: Skin, temperatureC: Float64Array, to: number): number {
  let hottest = -Infinity;
  for (let f = 0; f < inside.length; f++) {
    if (inside[f] >= to || outside[f] >= to) continue;
    const face = weight[f] * temperatureC[inside[f]] + (1 - weight[f]) * temperatureC[outside[f]];
    if (face > hottest) hottest = face;
  }
  return hottest;
}
