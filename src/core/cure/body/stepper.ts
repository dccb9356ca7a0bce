/**
 * One step of heat and cure together, by a Rosenbrock method of order 3 (RODAS3: four stages, L-stable, embedded order 2;
 * Sandu et al. 1997, Atmos. Environ. 31:3459; the transformed coefficients as in KPP, memory: a test holds their order).
 * The cure of a cell depends on that cell alone, so it is eliminated there, and a stage is one symmetric solve for
 * temperature. Splitting heat from cure, or dimension from dimension, was tried: 1 K wrong with a closed balance.
 */
import type { RateCells, RateLaw } from '../stack-types.ts';
import { factorize, solve, solvingFor, type BandMatrix, type Solving } from './conjugate-gradients.ts';
import type { BodyFaces } from './faces.ts';
import { takeLosses, type FilmTables } from './films.ts';

const GAMMA = 0.5;
const ROUNDS_AT_MOST = 400;
/**
 * Share of the temperature tolerance that the solves may leave, as the error of a single cell. Between 1 and 0.02 the
 * peaks of a casting of ten pours moved by 0.004 K, the time it took by 40 %; at 1 the balance of a single pour was 1e-3 open.
 */
const SOLVING_SHARE = 0.1;

/** Cells that cure at one rate: `from` up to `to` of the curing cells. */
export interface CuringSpan {
  readonly from: number;
  readonly to: number;
  readonly law: RateLaw;
}

/** All that a step reads and writes. A body that grows changes `spans`, `faces`, `to` and `curing`, then says `bodyGrew`. */
export interface BodyState {
  /** Over the grid's cells. */
  readonly temperatureC: Float64Array;
  /** Over the curing cells. */
  readonly conversion: Float64Array;
  readonly capacityJPerK: Float64Array;
  readonly curingCell: Int32Array;
  /** Heat of each curing cell's full cure, J. */
  readonly cureJ: Float64Array;
  spans: readonly CuringSpan[];
  faces: BodyFaces;
  films: FilmTables;
  /** Cells `from` up to `to` are there; curing cells up to `curing`. */
  from: number;
  to: number;
  curing: number;
  /** Lost to the air so far, J. */
  lostJ: number;
}

export interface Stepper extends StepTolerances {
  readonly state: BodyState;
  readonly solving: Solving;
  matrix: BandMatrix;
  /** Net flow into each cell, W, at the step's start; and at a stage. */
  readonly startW: Float64Array;
  readonly stageW: Float64Array;
  readonly right: Float64Array;
  readonly stageC: Float64Array;
  readonly stageConversion: Float64Array;
  /** Stage increments of temperature and conversion. */
  readonly u: readonly Float64Array[];
  readonly v: readonly Float64Array[];
  readonly start: RateCells;
  readonly stage: RateCells;
  readonly curingC: Float64Array;
  readonly stageCuringC: Float64Array;
  /** 1 / (1/γh − ∂r/∂α) of each curing cell. */
  readonly inversePivot: Float64Array;
  lossByKelvin: Float64Array;
  startLossW: number;
  readonly lostByStage: Float64Array;
  limit: number;
  /** Rounds of conjugate gradients so far. */
  rounds: number;
}

export interface StepTolerances {
  /** Largest error of a step that is accepted, anywhere. */
  readonly temperatureToleranceK: number;
  readonly conversionTolerance: number;
}

export function stepperFor(state: BodyState, tolerances: StepTolerances): Stepper {
  const cells = state.temperatureC.length;
  const curing = state.conversion.length;
  const field = () => new Float64Array(cells);
  const points = () => new Float64Array(curing);
  const [curingC, stageCuringC, stageConversion] = [points(), points(), points()];
  return {
    state, ...tolerances,
    solving: solvingFor(cells),
    matrix: matrixOf(state, field()),
    startW: field(), stageW: field(), right: field(), stageC: field(), stageConversion,
    u: [field(), field(), field(), field()],
    v: [points(), points(), points(), points()],
    start: { from: 0, to: 0, conversion: state.conversion, temperatureC: curingC, ratePerS: points(), byConversion: points(), byKelvin: points() },
    stage: { from: 0, to: 0, conversion: stageConversion, temperatureC: stageCuringC, ratePerS: points(), byConversion: points(), byKelvin: points() },
    curingC, stageCuringC,
    inversePivot: points(),
    lossByKelvin: new Float64Array(state.faces.outer.count),
    startLossW: 0,
    lostByStage: new Float64Array(4),
    limit: 0,
    rounds: 0,
  };
}

export function bodyGrew(stepper: Stepper): void {
  stepper.matrix = matrixOf(stepper.state, stepper.matrix.diagonal);
  stepper.lossByKelvin = new Float64Array(stepper.state.faces.outer.count);
}

function matrixOf({ from, to, faces }: BodyState, diagonal: Float64Array): BandMatrix {
  const { gx, gy, gz, stepY, stepZ } = faces;
  return { from, to, stepY, stepZ, diagonal, gx, gy, gz };
}

/** Flows and rates, with their slopes, at the state as it is. To be called once before the steps that start there. */
export function lookAtStart(stepper: Stepper): void {
  const { state, startW, start, curingC } = stepper;
  const { temperatureC, curingCell, cureJ, curing, spans, faces } = state;
  for (let c = 0; c < curing; c++) curingC[c] = temperatureC[curingCell[c]];
  for (const { from, to, law } of spans) {
    start.from = from;
    start.to = to;
    law.slopes(start);
  }
  conduct(state, temperatureC, startW);
  for (let c = 0; c < curing; c++) startW[curingCell[c]] += cureJ[c] * start.ratePerS[c];
  stepper.startLossW = takeLosses(faces.outer, state.films, temperatureC, startW, stepper.lossByKelvin);
}

/** Readies the matrix of a step of `h` seconds. False: the reaction outruns so long a step. */
export function prepare(stepper: Stepper, h: number): boolean {
  const { state, matrix, start, inversePivot, lossByKelvin } = stepper;
  const { capacityJPerK, curingCell, cureJ, curing, faces, from, to } = state;
  const { diagonal } = matrix;
  const { gx, gy, gz, outer } = faces;
  const { stepY, stepZ } = matrix;
  const perStep = 1 / (GAMMA * h);
  let capacity = 0;
  let there = 0;
  for (let i = from; i < to; i++) {
    const own = capacityJPerK[i];
    if (own === 0) {
      diagonal[i] = 1;
      continue;
    }
    capacity += own;
    there++;
    diagonal[i] = own * perStep + gx[i] + gx[i - 1] + gy[i] + gy[i - stepY] + gz[i] + gz[i - stepZ];
  }
  for (let f = 0; f < outer.count; f++) diagonal[outer.cell[f]] += lossByKelvin[f];
  for (let c = 0; c < curing; c++) {
    const pivot = perStep - start.byConversion[c];
    // Half of what a step without cure would have: a smaller one means that the rate runs away within the step.
    if (!(pivot > 0.5 * perStep)) return false;
    inversePivot[c] = 1 / pivot;
    diagonal[curingCell[c]] -= (cureJ[c] * start.byKelvin[c] * perStep) / pivot;
  }
  const error = SOLVING_SHARE * stepper.temperatureToleranceK;
  stepper.limit = error * error * (capacity / Math.max(1, there)) * perStep;
  return factorize(matrix, stepper.solving);
}

/** Coefficients of stage s: how much of the earlier increments is in its place (A), and in its right side over h (C). */
const A = [[], [], [2, 0], [2, 0, 1]] as const;
const C = [[], [4], [1, -1], [1, -1, -8 / 3]] as const;
/** Stage 1 and 2 stand at the step's start. */
const LOOKS = [false, false, true, true] as const;
/** For a steady slope the second increment is three times the first, and the last two vanish. */
const GUESS_OF_SECOND = 3;

/** Stage `s`, 0 to 3, of a step of `h` seconds. False: it can't be solved; try a shorter step. */
export function runStage(stepper: Stepper, s: number, h: number): boolean {
  const { state, matrix, startW, stageW, right, start, stage, u, v, inversePivot, lossByKelvin, lostByStage } = stepper;
  const { capacityJPerK, curingCell, cureJ, curing, faces, from, to } = state;
  let loss = stepper.startLossW;
  let flowW = startW;
  let rate = start.ratePerS;
  if (LOOKS[s]) {
    loss = lookAtStage(stepper, s);
    flowW = stageW;
    rate = stage.ratePerS;
  }
  const c0 = (C[s][0] ?? 0) / h;
  const c1 = (C[s][1] ?? 0) / h;
  const c2 = (C[s][2] ?? 0) / h;
  // At the first stage what is left of a step that failed may not be a number, and is not to be read.
  if (s === 0) for (const left of [u[0], u[1], u[2], v[0], v[1], v[2], lostByStage]) left.fill(0);
  const [u0, u1, u2] = u;
  const [v0, v1, v2] = v;
  const us = u[s];
  const vs = v[s];
  for (let i = from; i < to; i++) right[i] = flowW[i] + capacityJPerK[i] * (c0 * u0[i] + c1 * u1[i] + c2 * u2[i]);
  const { byConversion, byKelvin } = start;
  for (let c = 0; c < curing; c++) {
    const own = rate[c] + c0 * v0[c] + c1 * v1[c] + c2 * v2[c];
    vs[c] = own;
    right[curingCell[c]] += cureJ[c] * byConversion[c] * own * inversePivot[c];
  }
  for (let i = from; i < to; i++) us[i] = s === 1 ? GUESS_OF_SECOND * u0[i] : 0;
  const rounds = solve(matrix, stepper.solving, right, { x: us, limit: stepper.limit, mostRounds: ROUNDS_AT_MOST });
  if (rounds < 0) return false;
  stepper.rounds += rounds;
  for (let c = 0; c < curing; c++) vs[c] = (vs[c] + byKelvin[c] * us[curingCell[c]]) * inversePivot[c];
  // The heat that is lost goes along as one more unknown, so that the balance closes by the method itself.
  const { outer } = faces;
  for (let f = 0; f < outer.count; f++) loss += lossByKelvin[f] * us[outer.cell[f]];
  lostByStage[s] = GAMMA * h * (loss + c0 * lostByStage[0] + c1 * lostByStage[1] + c2 * lostByStage[2]);
  return true;
}

/** How far off the step is, in tolerances, by its last stage; NaN where it left the numbers. */
export function stepError({ state, u, v, temperatureToleranceK, conversionTolerance }: Stepper): number {
  const { from, to, curing } = state;
  const kelvin = u[3];
  const share = v[3];
  let mostK = 0;
  let sum = 0;
  for (let i = from; i < to; i++) {
    const off = kelvin[i] < 0 ? -kelvin[i] : kelvin[i];
    if (off > mostK) mostK = off;
    sum += off;
  }
  let mostShare = 0;
  for (let c = 0; c < curing; c++) {
    const off = share[c] < 0 ? -share[c] : share[c];
    if (off > mostShare) mostShare = off;
    sum += off;
  }
  return Number.isFinite(sum) ? Math.max(mostK / temperatureToleranceK, mostShare / conversionTolerance) : NaN;
}

/** Takes the step. */
export function accept({ state, u, v, lostByStage }: Stepper): void {
  const { temperatureC, conversion, from, to, curing } = state;
  const [u0, , u2, u3] = u;
  const [v0, , v2, v3] = v;
  for (let i = from; i < to; i++) temperatureC[i] += 2 * u0[i] + u2[i] + u3[i];
  for (let c = 0; c < curing; c++) conversion[c] += 2 * v0[c] + v2[c] + v3[c];
  state.lostJ += 2 * lostByStage[0] + lostByStage[2] + lostByStage[3];
}

/** Flows and rates where stage `s` stands; returns the loss, W. */
function lookAtStage(stepper: Stepper, s: number): number {
  const { state, stage, stageC, stageConversion, stageCuringC, stageW, u, v } = stepper;
  const { temperatureC, conversion, curingCell, cureJ, curing, spans, faces, from, to } = state;
  const a0 = A[s][0] ?? 0;
  const a2 = A[s][2] ?? 0;
  const [u0, , u2] = u;
  const [v0, , v2] = v;
  for (let i = from; i < to; i++) stageC[i] = temperatureC[i] + a0 * u0[i] + a2 * u2[i];
  for (let c = 0; c < curing; c++) {
    stageConversion[c] = conversion[c] + a0 * v0[c] + a2 * v2[c];
    stageCuringC[c] = stageC[curingCell[c]];
  }
  for (const span of spans) {
    stage.from = span.from;
    stage.to = span.to;
    span.law.rate(stage);
  }
  conduct(state, stageC, stageW);
  for (let c = 0; c < curing; c++) stageW[curingCell[c]] += cureJ[c] * stage.ratePerS[c];
  return takeLosses(faces.outer, state.films, stageC, stageW, null);
}

/** Net conduction into each cell, W. */
function conduct({ faces, from, to }: BodyState, t: Float64Array, flowW: Float64Array): void {
  const { gx, gy, gz, stepY, stepZ } = faces;
  for (let i = from; i < to; i++) {
    const own = t[i];
    flowW[i] = gx[i] * (t[i + 1] - own) + gx[i - 1] * (t[i - 1] - own)
      + gy[i] * (t[i + stepY] - own) + gy[i - stepY] * (t[i - stepY] - own)
      + gz[i] * (t[i + stepZ] - own) + gz[i - stepZ] * (t[i - stepZ] - own);
  }
}
