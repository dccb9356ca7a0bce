/**
 * One step in time: RODAS, a Rosenbrock method of order 4 with an error estimate of order 3, L-stable and stiffly
 * accurate (Hairer & Wanner, Solving Ordinary Differential Equations II, section IV.7 and their program RODAS).
 * Each cell's conversion is eliminated by hand, so that a stage is one tridiagonal solve for the temperatures.
 */
import type { Grid } from './stack-grid.ts';
import type { RateCells } from './stack-types.ts';

const GAMMA = 0.25;
const STAGES = 6;
/** Stage k starts from y + Σ A[k][j] U[j] … */
const A = [
  [0, 0, 0, 0, 0],
  [1.544, 0, 0, 0, 0],
  [0.9466785280815826, 0.2557011698983284, 0, 0, 0],
  [3.314825187068521, 2.896124015972201, 0.9986419139977817, 0, 0],
  [1.221224509226641, 6.019134481288629, 12.53708332932087, -0.687886036105895, 0],
  [1.221224509226641, 6.019134481288629, 12.53708332932087, -0.687886036105895, 1],
] as const;
/** … and solves (1/(hγ) − J) U[k] = f + Σ C[k][j] U[j] / h + h D[k] ∂f/∂t, with f at t + T[k] h. */
const C = [
  [0, 0, 0, 0, 0],
  [-5.6688, 0, 0, 0, 0],
  [-2.430093356833875, -0.2063599157091915, 0, 0, 0],
  [-0.1073529058151375, -9.594562251023355, -20.47028614809616, 0, 0],
  [7.496443313967647, -10.24680431464352, -33.99990352819905, 11.7089089320616, 0],
  [8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054],
] as const;
const D = [0.25, -0.1043, 0.1035, -0.0362, 0, 0] as const;
const T = [0, 0.386, 0.21, 0.63, 1, 1] as const;

/** A pivot below this share of what it would be without reaction: the step is too long for the heat it sees. */
const LEAST_PIVOT = 0.05;

/** The room during one step. */
export interface RoomNow {
  readonly temperatureC: number;
  readonly risePerS: number;
}

/** Where the stack is, how fast it changes there, and where a step would lead. Fits one grid. */
export interface Work {
  readonly cells: number;
  /** Now: state, rate of cure and its derivatives. */
  readonly now: RateCells;
  /** K/s now. */
  readonly warming: Float64Array;
  /** Within a step, and after it: where it leads. */
  readonly stage: RateCells;
  readonly u: readonly Float64Array[];
  readonly v: readonly Float64Array[];
  /** J to the room: of each stage, and `loss[STAGES]` of the whole step. */
  readonly loss: Float64Array;
  /** Of the eliminated matrix: 1/pivot, and that times what leads to the cell above; of the cure's own row, 1/pivot. */
  readonly pivot: Float64Array;
  readonly upward: Float64Array;
  readonly cureInverse: Float64Array;
  /** W that a unit of the cure's row puts into the heat's. */
  readonly cureHeat: Float64Array;
  readonly right: Float64Array;
}

export function rateCells(cells: number): RateCells {
  const array = () => new Float64Array(cells);
  return { from: 0, to: cells, conversion: array(), temperatureC: array(), ratePerS: array(), byConversion: array(), byKelvin: array() };
}

export function workFor(cells: number): Work {
  const array = () => new Float64Array(cells);
  const stages = () => Array.from({ length: STAGES }, array);
  return { cells, now: rateCells(cells), warming: array(), stage: rateCells(cells), u: stages(), v: stages(), loss: new Float64Array(STAGES + 1), pivot: array(), upward: array(), cureInverse: array(), cureHeat: array(), right: array() };
}

/** Fills what `now` says of the rates: to be called after its state has changed. */
export function look(work: Work, grid: Grid, roomC: number): void {
  const { now, warming } = work;
  for (const { law, from, to } of grid.pours) {
    now.from = from;
    now.to = to;
    law.slopes(now);
  }
  heatInto(warming, now, grid, roomC);
  for (let i = 0; i < work.cells; i++) warming[i] /= grid.capacity[i];
}

/** W into every cell: from its neighbors, the room and its cure. */
function heatInto(out: Float64Array, at: RateCells, { passes, heat, side, hasSides }: Grid, roomC: number): void {
  const { temperatureC, ratePerS } = at;
  const last = out.length - 1;
  let below = passes[0] * (roomC - temperatureC[0]);
  for (let i = 0; i <= last; i++) {
    const above = passes[i + 1] * ((i === last ? roomC : temperatureC[i + 1]) - temperatureC[i]);
    out[i] = below + above + heat[i] * ratePerS[i];
    below = -above;
  }
  if (hasSides) for (let i = 0; i <= last; i++) out[i] += side[i] * (roomC - temperatureC[i]);
}

/** Scale of the errors that a step may make. */
export interface Tolerances {
  readonly temperatureToleranceK: number;
  readonly conversionTolerance: number;
}

/**
 * Tries a step of `h` seconds from `now` (which `look` has filled) and leaves where it leads in `stage`.
 * Returns the largest error in units of the tolerances: accept up to 1. Infinity: no step at all, try a shorter one.
 */
export function tryStep(work: Work, grid: Grid, step: { h: number; room: RoomNow; tolerances: Tolerances }): number {
  const { h, room, tolerances } = step;
  if (!factor(work, grid, h)) return Infinity;
  for (let k = 0; k < STAGES; k++) {
    if (k > 0) moveTo(work, k);
    solveStage(work, grid, { k, h, room });
  }
  const { loss } = work;
  const [a0, a1, a2, a3, a4] = A[STAGES - 1];
  loss[STAGES] = a0 * loss[0] + a1 * loss[1] + a2 * loss[2] + a3 * loss[3] + a4 * loss[4] + loss[5];
  return arrive(work, tolerances);
}

/** J that the step which `tryStep` took last gave to the room. */
export function lostIn({ loss }: Work): number {
  return loss[STAGES];
}

/** Pivots of the tridiagonal matrix that all stages share; false where the reaction makes one too small. */
function factor({ cells, now, pivot, upward, cureInverse, cureHeat }: Work, { capacity, heat, passes, side }: Grid, h: number): boolean {
  const { byConversion, byKelvin } = now;
  const g = 1 / (h * GAMMA);
  const leastCure = LEAST_PIVOT * g;
  let before = 0; // passes² / pivot of the cell below
  for (let i = 0; i < cells; i++) {
    const cure = g - byConversion[i];
    const still = capacity[i] * g + passes[i] + passes[i + 1] + side[i];
    const diagonal = still - (heat[i] * byKelvin[i] * g) / cure;
    const left = diagonal - before;
    // Written so that a value that is no number fails too.
    if (!(cure > leastCure && left > LEAST_PIVOT * capacity[i] * g)) return false;
    cureInverse[i] = 1 / cure;
    cureHeat[i] = (heat[i] * byConversion[i]) / cure;
    pivot[i] = 1 / left;
    upward[i] = i === cells - 1 ? 0 : passes[i + 1] / left;
    before = passes[i + 1] * upward[i];
  }
  return true;
}

/** Where stage k starts. */
function moveTo({ cells, now, stage, u, v }: Work, k: number): void {
  const [a0, a1, a2, a3, a4] = A[k];
  const [u0, u1, u2, u3, u4] = u;
  const [v0, v1, v2, v3, v4] = v;
  const { temperatureC, conversion } = now;
  const { temperatureC: toC, conversion: toAlpha } = stage;
  if (k === STAGES - 1) {
    // The last stage starts from the one before it and what that found.
    for (let i = 0; i < cells; i++) {
      toC[i] += a4 * u4[i];
      toAlpha[i] += a4 * v4[i];
    }
    return;
  }
  for (let i = 0; i < cells; i++) {
    toC[i] = temperatureC[i] + a0 * u0[i] + a1 * u1[i] + a2 * u2[i] + a3 * u3[i];
    toAlpha[i] = conversion[i] + a0 * v0[i] + a1 * v1[i] + a2 * v2[i] + a3 * v3[i];
  }
}

function solveStage(work: Work, grid: Grid, { k, h, room }: { k: number; h: number; room: RoomNow }): void {
  const { cells, now, stage, u, v, loss, pivot, upward, cureInverse, cureHeat, right } = work;
  const { capacity, passes, side } = grid;
  const at = k === 0 ? now : stage;
  if (k > 0) {
    for (const { law, from, to } of grid.pours) {
      stage.from = from;
      stage.to = to;
      law.rate(stage);
    }
  }
  const roomC = room.temperatureC + T[k] * h * room.risePerS;
  heatInto(right, at, grid, roomC);
  let lossRight = flowOut(grid, at.temperatureC, roomC) + h * D[k] * flowOut(grid, null, room.risePerS);
  if (room.risePerS !== 0 && D[k] !== 0) {
    const push = h * D[k] * room.risePerS;
    right[0] += push * passes[0];
    right[cells - 1] += push * passes[cells];
    for (let i = 0; i < cells; i++) right[i] += push * side[i];
  }
  const [c0, c1, c2, c3, c4] = [C[k][0] / h, C[k][1] / h, C[k][2] / h, C[k][3] / h, C[k][4] / h];
  const [u0, u1, u2, u3, u4] = u;
  const [v0, v1, v2, v3, v4] = v;
  const [toU, toV] = [u[k], v[k]];
  const { ratePerS } = at;
  const { byKelvin } = now;
  let carried = 0;
  for (let i = 0; i < cells; i++) {
    let cure = ratePerS[i];
    let warm = 0;
    if (k > 0) {
      cure += c0 * v0[i];
      warm += c0 * u0[i];
    }
    if (k > 1) {
      cure += c1 * v1[i];
      warm += c1 * u1[i];
    }
    if (k > 2) {
      cure += c2 * v2[i];
      warm += c2 * u2[i];
    }
    if (k > 3) {
      cure += c3 * v3[i];
      warm += c3 * u3[i];
    }
    if (k > 4) {
      cure += c4 * v4[i];
      warm += c4 * u4[i];
    }
    toV[i] = cure; // not yet solved: kept until the temperature is known
    const solved = right[i] + capacity[i] * warm + cureHeat[i] * cure + carried;
    right[i] = solved;
    carried = upward[i] * solved;
  }
  for (let j = 0; j < k; j++) lossRight += (C[k][j] / h) * loss[j];
  let above = 0;
  for (let i = cells - 1; i >= 0; i--) {
    above = right[i] * pivot[i] + upward[i] * above;
    toU[i] = above;
    toV[i] = (toV[i] + byKelvin[i] * above) * cureInverse[i];
  }
  // The room's share is one more unknown, which nothing else depends on.
  loss[k] = h * GAMMA * (lossRight + flowOut(grid, toU, 0));
}

/** W to the room from temperatures (0 everywhere where none are given), or with K/s for K the change of that. */
function flowOut({ passes, side, hasSides }: Grid, values: Float64Array | null, room: number): number {
  const last = side.length - 1;
  let flow = passes[0] * ((values ? values[0] : 0) - room) + passes[last + 1] * ((values ? values[last] : 0) - room);
  if (hasSides) for (let i = 0; i <= last; i++) flow += side[i] * ((values ? values[i] : 0) - room);
  return flow;
}

/** Adds the last stage, which is the error estimate too. */
function arrive({ cells, stage, u, v }: Work, { temperatureToleranceK, conversionTolerance }: Tolerances): number {
  const [errorC, errorAlpha] = [u[STAGES - 1], v[STAGES - 1]];
  const { temperatureC, conversion } = stage;
  const [perK, perAlpha] = [1 / temperatureToleranceK, 1 / conversionTolerance];
  let worst = 0;
  for (let i = 0; i < cells; i++) {
    temperatureC[i] += errorC[i];
    conversion[i] += errorAlpha[i];
    const error = Math.max(Math.abs(errorC[i]) * perK, Math.abs(errorAlpha[i]) * perAlpha);
    if (!(error <= worst)) worst = error; // a value that is no number becomes the worst and stays
  }
  return Number.isFinite(worst) ? worst : Infinity;
}
