/**
 * The cells of a stack: what heat each holds, gives and passes on, per m² of a slab, per radian of a cylinder,
 * per steradian of a sphere. Grid lines lie on the surfaces of pours; a pour has an odd number of equal cells, so
 * that one cell's middle is the pour's.
 */
import type { RateLaw, StackPour, StackShape } from './stack-types.ts';

/** A pour's cells, `from` up to, not including, `to`. */
export interface GridPour {
  readonly from: number;
  readonly to: number;
  readonly law: RateLaw;
  readonly pour: StackPour;
  readonly merged: boolean;
}

export interface Grid {
  readonly pours: readonly GridPour[];
  /** Cell edges from the floor up, one more than cells, in mm. */
  readonly edgeMm: Float64Array;
  /** J/K of a cell. */
  readonly capacity: Float64Array;
  /** J that a cell gives from no conversion to all. */
  readonly heat: Float64Array;
  /** W/K through the face below each cell; the first and the last lead to the room. */
  readonly passes: Float64Array;
  /** W/K of a cell's sides to the room. */
  readonly side: Float64Array;
  readonly hasSides: boolean;
}

export interface Films {
  readonly shape: StackShape;
  readonly topHWPerM2K: number;
  readonly bottomHWPerM2K: number;
}

const MM = 1e-3;
/** Cells that become one in an older pour. */
const MERGE = 4;

export function oddCells(depthMm: number, cellMm: number, least: number): number {
  const cells = Math.max(least, Math.round(depthMm / cellMm));
  return cells % 2 === 1 ? cells : cells + 1;
}

/** The grid of pours whose cell edges are given. */
export function gridOf(pours: readonly GridPour[], edgeMm: Float64Array, films: Films): Grid {
  const count = edgeMm.length - 1;
  const [capacity, heat, side] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
  const passes = new Float64Array(count + 1);
  const resistance = new Float64Array(count); // of half a cell, per area
  for (const { from, to, law, pour } of pours) {
    const { densityKgPerM3, heatCapacityJPerKgK, conductivityWPerMK } = pour.material;
    for (let i = from; i < to; i++) {
      const volume = volumeBetween(edgeMm[i] * MM, edgeMm[i + 1] * MM, films.shape);
      capacity[i] = densityKgPerM3 * heatCapacityJPerKgK * volume;
      heat[i] = densityKgPerM3 * law.heatJPerKg * volume;
      side[i] = pour.sideWPerM3K * volume;
      resistance[i] = ((edgeMm[i + 1] - edgeMm[i]) * MM) / 2 / conductivityWPerMK;
    }
  }
  for (let i = 0; i <= count; i++) {
    const below = i === 0 ? 1 / films.bottomHWPerM2K : resistance[i - 1];
    const above = i === count ? 1 / films.topHWPerM2K : resistance[i];
    passes[i] = areaAt(edgeMm[i] * MM, films.shape) / (below + above);
  }
  return { pours, edgeMm, capacity, heat, passes, side, hasSides: pours.some(({ pour }) => pour.sideWPerM3K !== 0) };
}

/** Edges and pours with one more pour on top. */
export function withPour(grid: Grid | null, pour: StackPour, made: { law: RateLaw; cells: number }): { pours: GridPour[]; edgeMm: Float64Array } {
  const from = grid ? grid.edgeMm.length - 1 : 0;
  const edgeMm = new Float64Array(from + made.cells + 1);
  if (grid) edgeMm.set(grid.edgeMm);
  const floor = edgeMm[from];
  for (let i = 1; i <= made.cells; i++) edgeMm[from + i] = floor + (pour.depthMm * i) / made.cells;
  return { pours: [...(grid?.pours ?? []), { from, to: from + made.cells, law: made.law, pour, merged: false }], edgeMm };
}

/**
 * For every cell of a coarser grid, the first cell of the finer one in it: pours below `keepFrom` joined four to one,
 * except where they are already. One more entry than cells, ending with the finer count. Null: nothing to join.
 */
export function mergeStarts(pours: readonly GridPour[], keepFrom: number): { starts: number[]; pours: GridPour[] } | null {
  if (!pours.some(({ merged }, k) => k < keepFrom && !merged)) return null;
  const starts: number[] = [];
  const after: GridPour[] = [];
  for (const [k, pour] of pours.entries()) {
    const join = k < keepFrom && !pour.merged ? MERGE : 1;
    const from = starts.length;
    for (let i = pour.from; i < pour.to; i += join) starts.push(i);
    after.push({ ...pour, from, to: starts.length, merged: k < keepFrom });
  }
  starts.push(pours[pours.length - 1].to);
  return { starts, pours: after };
}

function areaAt(heightM: number, shape: StackShape): number {
  return shape === 'slab' ? 1 : shape === 'cylinder' ? heightM : heightM * heightM;
}

function volumeBetween(lowM: number, highM: number, shape: StackShape): number {
  if (shape === 'slab') return highM - lowM;
  return shape === 'cylinder' ? (highM ** 2 - lowM ** 2) / 2 : (highM ** 3 - lowM ** 3) / 3;
}
