/**
 * A whole casting through time: pour on pour, each on what is below with what heat and cure are left there, under the
 * room as it is then. Steps are as long as their error allows; every pour and every change of the room starts anew.
 * A generator, so that whoever runs it may do something else in between, or stop: it yields at every layer of
 * cells that is made, and at every stage of a step.
 */
import { tabulated } from '../rate-table.ts';
import type { RateLaw } from '../stack-types.ts';
import { BODY_DEFAULTS, type Body, type BodyHeat, type BodyOptions, type BodyProgress } from './body.ts';
import { cellsByLayer, type BodyCells } from './cells.ts';
import { facesOf } from './faces.ts';
import { filmTables } from './films.ts';
import { paddedLength } from './grid.ts';
import { keep, keepingFor, toldOf, type Kept } from './keep.ts';
import { momentsOf, roomAt, SAME_MOMENT_S } from './moments.ts';
import { accept, bodyGrew, lookAtStart, prepare, runStage, stepError, stepperFor, type BodyState, type CuringSpan, type Stepper } from './stepper.ts';

/** s. Short against everything that a fresh pour does; the steps find their own length from there. */
const FIRST_STEP_S = 20;
/** s. A step this short that still fails will not get better. */
const SHORTEST_STEP_S = 1e-4;
/** Of the length that would just keep to the tolerance. */
const SAFETY = 0.9;
/** The embedded error grows with the third power of a step. */
const ERROR_ORDER = 3;
/** In tolerances. A smaller error lets a step grow no more. */
const LEAST_ERROR = 1e-3;
const GROWS_AT_MOST = 3;
const SHRINKS_AT_MOST = 0.2;

/** Runs through all pours to the end. Yields some 15 ms of work apart at 80,000 cells. */
export function* runBody(body: Body, options: BodyOptions = {}): Generator<BodyProgress, BodyHeat> {
  const making = cellsByLayer(body.grid, body.solids, body.sample, (k) => body.pours[pourAtLayer(body, k)].material);
  let made = making.next();
  for (; !made.done; made = making.next()) yield { atS: body.pours[0].atS, endS: body.endS, steps: 0 };
  const run = startRun(body, made.value, options);
  const { stepper } = run;
  for (const moment of momentsOf(body)) {
    if (moment.atS > run.nowS + SAME_MOMENT_S) yield* advance(run, moment.atS);
    if (run.stuckAtS !== null) break;
    for (const pour of moment.pours) {
      pourOn(run, pour);
      yield { atS: moment.atS, endS: body.endS, steps: run.steps };
    }
    stepper.state.films = filmTables(body.films, roomAt(body.room, moment.atS));
    run.stepS = FIRST_STEP_S;
  }
  if (run.stuckAtS === null) yield* advance(run, body.endS);
  return told(run);
}

interface Run {
  readonly body: Body;
  readonly cells: BodyCells;
  readonly laws: readonly RateLaw[];
  readonly stepper: Stepper;
  readonly kept: Kept;
  /** Where each pour's curing cells begin; one more entry than pours. */
  readonly curingFrom: readonly number[];
  /** Temperatures at the step's start, and their slopes at both ends. */
  readonly beforeC: Float64Array;
  readonly beforeKPerS: Float64Array;
  readonly afterKPerS: Float64Array;
  nowS: number;
  stepS: number;
  poured: number;
  steps: number;
  rejected: number;
  stuckAtS: number | null;
  /** Heat of all cells as they joined, over 0 °C, J. */
  broughtJ: number;
  /** How far that was from the room's temperature, up and down together, J. */
  differenceJ: number;
}

function startRun(body: Body, cells: BodyCells, options: BodyOptions): Run {
  const { grid, pours } = body;
  const laws = pours.map(({ kinetics }) => ('rate' in kinetics ? kinetics : tabulated(kinetics)));
  const curingFrom = curingStarts(body, cells);
  const cureJ = new Float64Array(cells.resinM3.length);
  pours.forEach(({ material }, p) => {
    for (let c = curingFrom[p]; c < curingFrom[p + 1]; c++) cureJ[c] = cells.resinM3[c] * material.densityKgPerM3 * laws[p].heatJPerKg;
  });
  const length = paddedLength(grid);
  const state: BodyState = {
    temperatureC: new Float64Array(length),
    conversion: new Float64Array(cureJ.length),
    capacityJPerK: cells.capacityJPerK,
    curingCell: cells.resinCell,
    cureJ,
    spans: [],
    faces: facesOf(grid, cells, { layers: 0 }),
    films: filmTables(body.films, roomAt(body.room, pours[0].atS)),
    from: grid.layer,
    to: grid.layer,
    curing: 0,
    lostJ: 0,
  };
  const { temperatureToleranceK = BODY_DEFAULTS.temperatureToleranceK, conversionTolerance = BODY_DEFAULTS.conversionTolerance } = options;
  return {
    body, cells, laws, curingFrom,
    stepper: stepperFor(state, { temperatureToleranceK, conversionTolerance }),
    kept: keepingFor(body, cells, curingFrom, options),
    beforeC: new Float64Array(length),
    beforeKPerS: new Float64Array(length),
    afterKPerS: new Float64Array(length),
    nowS: pours[0].atS,
    stepS: FIRST_STEP_S,
    poured: 0, steps: 0, rejected: 0, stuckAtS: null, broughtJ: 0, differenceJ: 0,
  };
}

/** The pour that a layer of the grid belongs to: the lowest whose top is above its middle. */
function pourAtLayer({ grid: { zMm }, pours }: Body, k: number): number {
  const middle = (zMm[k] + zMm[k + 1]) / 2;
  const pour = pours.findIndex(({ toMm }) => toMm > middle);
  return pour < 0 ? pours.length - 1 : pour;
}

function curingStarts(body: Body, { resinCell }: BodyCells): number[] {
  const { layer } = body.grid;
  const starts = Array.from({ length: body.pours.length + 1 }, () => resinCell.length);
  for (let c = resinCell.length - 1; c >= 0; c--) starts[pourAtLayer(body, Math.floor(resinCell[c] / layer) - 1)] = c;
  for (let p = body.pours.length - 1; p >= 0; p--) starts[p] = Math.min(starts[p], starts[p + 1]);
  return starts;
}

/** Adds a pour, and the walls and figures beside it, which join at the room's temperature. */
function pourOn(run: Run, pour: number): void {
  const { body, cells, laws, stepper, curingFrom } = run;
  const { state } = stepper;
  const { grid, pours } = body;
  const { toMm, atS, mixC } = pours[pour];
  const roomC = roomAt(body.room, atS);
  let layers = 0;
  while (layers < grid.nz && (grid.zMm[layers] + grid.zMm[layers + 1]) / 2 < toMm) layers++;
  const to = grid.layer * (layers + 1);
  state.temperatureC.fill(roomC, state.to, to);
  for (let c = curingFrom[pour]; c < curingFrom[pour + 1]; c++) {
    // Only the resin comes with the mix's temperature; in a cell that it shares it brings its own heat.
    const cell = cells.resinCell[c];
    const { densityKgPerM3, heatCapacityJPerKgK } = pours[pour].material;
    const share = (cells.resinM3[c] * densityKgPerM3 * heatCapacityJPerKgK) / cells.capacityJPerK[cell];
    state.temperatureC[cell] = roomC + share * ((mixC ?? roomC) - roomC);
  }
  for (let i = state.to; i < to; i++) {
    run.broughtJ += state.capacityJPerK[i] * state.temperatureC[i];
    run.differenceJ += state.capacityJPerK[i] * Math.abs(state.temperatureC[i] - roomC);
  }
  state.to = to;
  state.curing = curingFrom[pour + 1];
  state.faces = facesOf(grid, cells, { layers, sidesClosed: body.sidesClosed, squareness: body.squareness });
  state.spans = laws.slice(0, pour + 1).map((law, p): CuringSpan => ({ from: curingFrom[p], to: curingFrom[p + 1], law }));
  run.poured = pour + 1;
  bodyGrew(stepper);
}

function* advance(run: Run, untilS: number): Generator<BodyProgress, void> {
  const { stepper, beforeC, body: { endS } } = run;
  const { state } = stepper;
  lookAtStart(stepper);
  while (untilS - run.nowS > SAME_MOMENT_S) {
    // Two equal steps rather than a long one and a sliver.
    const left = untilS - run.nowS;
    const h = run.stepS >= left ? left : run.stepS * 2 > left ? left / 2 : run.stepS;
    let error = prepare(stepper, h) ? 0 : NaN;
    for (let s = 0; s < 4 && error === 0; s++) {
      if (!runStage(stepper, s, h)) error = NaN;
      yield { atS: run.nowS, endS, steps: run.steps };
    }
    if (error === 0) error = stepError(stepper);
    if (!(error <= 1)) {
      run.rejected++;
      run.stepS = h * (Number.isNaN(error) ? SHRINKS_AT_MOST : Math.max(SHRINKS_AT_MOST, SAFETY * error ** (-1 / ERROR_ORDER)));
      if (run.stepS < SHORTEST_STEP_S) {
        run.stuckAtS = run.nowS;
        return;
      }
      continue;
    }
    beforeC.set(state.temperatureC.subarray(state.from, state.to), state.from);
    slopesInto(run.beforeKPerS, stepper);
    accept(stepper);
    lookAtStart(stepper);
    slopesInto(run.afterKPerS, stepper);
    keep(run.kept, { atS: run.nowS, lengthS: h, beforeC, beforeKPerS: run.beforeKPerS, afterC: state.temperatureC, afterKPerS: run.afterKPerS }, run.poured, state.to);
    run.nowS += h;
    run.steps++;
    run.stepS = h * Math.min(GROWS_AT_MOST, Math.max(SHRINKS_AT_MOST, SAFETY * Math.max(error, LEAST_ERROR) ** (-1 / ERROR_ORDER)));
  }
  run.nowS = untilS;
}

function slopesInto(out: Float64Array, { state: { from, to, capacityJPerK }, startW }: Stepper): void {
  for (let i = from; i < to; i++) out[i] = capacityJPerK[i] > 0 ? startW[i] / capacityJPerK[i] : 0;
}

function told(run: Run): BodyHeat {
  const { kept, poured, stepper: { state, rounds } } = run;
  const { capacityJPerK, temperatureC, conversion, cureJ, from, to } = state;
  let heldJ = 0;
  let cells = 0;
  for (let i = from; i < to; i++) {
    heldJ += capacityJPerK[i] * temperatureC[i];
    if (capacityJPerK[i] > 0) cells++;
  }
  let releasedJ = 0;
  for (let c = 0; c < state.curing; c++) releasedJ += cureJ[c] * conversion[c];
  const open = heldJ + state.lostJ - run.broughtJ - releasedJ;
  const moved = releasedJ + run.differenceJ;
  return {
    ...toldOf(kept, poured),
    energyBalance: moved > 0 ? Math.abs(open) / moved : 0,
    cells, steps: run.steps, rejected: run.rejected, rounds, stuckAtS: run.stuckAtS,
  };
}
