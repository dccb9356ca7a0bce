/**
 * What each cell is made of. A cell that a wall or a figure cuts is shared out by sampling it at 27 points: its heat
 * capacity and its resin are true to their shares, its conductivity is their geometric mean (Lichtenecker 1926, memory).
 */
import type { ThermalMaterial } from '../kinetics.ts';
import { cellAt, cellM3, paddedLength, type BodyGrid } from './grid.ts';

/** What `BodySampler` answers beside the number of a solid. */
export const RESIN = -1;
export const AIR = -2;

/** What is at a point, mm: `RESIN`, `AIR`, or the number of a solid. Asked for z ascending at each x and y. */
export type BodySampler = (xMm: number, yMm: number, zMm: number) => number;

/** Something that conducts heat and gives none: wall, table, figure. */
export interface BodySolid {
  readonly material: ThermalMaterial;
  /** Share of it that resin fills, of a bed that drinks; 0 where none is given. */
  readonly resinShare?: number;
}

export interface BodyCells {
  /** Over the grid's cells. 0: the cell is air and takes no part. */
  readonly capacityJPerK: Float64Array;
  readonly conductivityWPerMK: Float64Array;
  /** The solid that has the largest share of a cell, −1: none has any. */
  readonly solid: Int16Array;
  /** The cells with resin, ascending, and how much of it each has, m³. */
  readonly resinCell: Int32Array;
  readonly resinM3: Float64Array;
}

/** Points along each edge of a cell. Odd: the middle is one, so that a mold's left and right half are cut alike. */
const POINTS = 3;
/** A cell with less of anything solid or liquid than this is air. */
const LEAST_SHARE = 0.5;

/** `resinOf`: what is poured at each layer of the grid. Yields after every layer, as a million samples of fine meshes take a third of a second. */
export function* cellsByLayer(grid: BodyGrid, solids: readonly BodySolid[], sample: BodySampler, resinOf: (k: number) => ThermalMaterial): Generator<void, BodyCells> {
  const capacityJPerK = new Float64Array(paddedLength(grid));
  const conductivityWPerMK = new Float64Array(paddedLength(grid));
  const solid = new Int16Array(paddedLength(grid)).fill(-1);
  const resinCell: number[] = [];
  const resinM3: number[] = [];
  const shares = new Float64Array(solids.length + 1);
  for (let k = 0; k < grid.nz; k++) {
    const resin = resinOf(k);
    for (let j = 0; j < grid.ny; j++) {
      for (let i = 0; i < grid.nx; i++) {
        sampleCell(grid, sample, [i, j, k], shares);
        const cell = cellAt(grid, i, j, k);
        let filled = 0;
        let capacity = 0;
        let logConductivity = 0;
        let most = 0;
        let resinShare = shares[solids.length];
        for (let s = 0; s < solids.length; s++) {
          const drinks = solids[s].resinShare ?? 0;
          const share = shares[s] * (1 - drinks);
          if (share === 0) continue;
          resinShare += shares[s] * drinks;
          const { densityKgPerM3, heatCapacityJPerKgK, conductivityWPerMK: conductivity } = solids[s].material;
          filled += share;
          capacity += share * densityKgPerM3 * heatCapacityJPerKgK;
          logConductivity += share * Math.log(conductivity);
          if (shares[s] > most) [most, solid[cell]] = [shares[s], s];
        }
        filled += resinShare;
        if (filled < LEAST_SHARE) {
          solid[cell] = -1;
          continue;
        }
        capacity += resinShare * resin.densityKgPerM3 * resin.heatCapacityJPerKgK;
        logConductivity += resinShare * Math.log(resin.conductivityWPerMK);
        const volume = cellM3(grid, i, j, k);
        capacityJPerK[cell] = volume * capacity;
        conductivityWPerMK[cell] = Math.exp(logConductivity / filled);
        if (resinShare > 0) {
          resinCell.push(cell);
          resinM3.push(volume * resinShare);
        }
      }
    }
    yield;
  }
  return { capacityJPerK, conductivityWPerMK, solid, resinCell: Int32Array.from(resinCell), resinM3: Float64Array.from(resinM3) };
}

/** Fills `shares` with the share of each solid, the resin's last. */
function sampleCell(grid: BodyGrid, sample: BodySampler, [i, j, k]: readonly [number, number, number], shares: Float64Array): void {
  const { xMm, yMm, zMm } = grid;
  const rings = grid.kind === 'rings';
  shares.fill(0);
  let weights = 0;
  for (let a = 0; a < POINTS; a++) {
    const x = xMm[i] + ((a + 0.5) / POINTS) * (xMm[i + 1] - xMm[i]);
    // A ring holds more the farther out.
    const weight = rings ? x : 1;
    for (let b = 0; b < (rings ? 1 : POINTS); b++) {
      const y = rings ? 0 : yMm[j] + ((b + 0.5) / POINTS) * (yMm[j + 1] - yMm[j]);
      for (let c = 0; c < POINTS; c++) {
        const found = sample(x, y, zMm[k] + ((c + 0.5) / POINTS) * (zMm[k + 1] - zMm[k]));
        weights += weight;
        if (found !== AIR) shares[found === RESIN ? shares.length - 1 : found] += weight;
      }
    }
  }
  for (let s = 0; s < shares.length; s++) shares[s] /= weights;
}
