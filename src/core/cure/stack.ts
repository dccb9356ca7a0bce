/**
 * Heat and cure through a stack of pours, in one dimension, as a run that can be held, copied and continued.
 * Heat balance: ρ c ∂T/∂t = ∂/∂z (k ∂T/∂z) + ρ H dα/dt − side loss (Bird, Stewart & Lightfoot, Transport Phenomena).
 * Tried by a prototype and dropped: splitting heat from cure (1–2 % off in gel time), stabilized explicit (5× slower).
 */
import { emptyBalance, type HeatBalance } from './stack-balance.ts';
import { gridOf, mergeStarts, oddCells, withPour, type Grid } from './stack-grid.ts';
import { newRecord, newSighting, recordStep, sight, type StepEnds } from './stack-record.ts';
import { look, rateCells, tryStep, workFor, type RoomNow, type Work } from './stack-step.ts';
import type { AdvanceOptions, PourRecord, RateLaw, StackOptions, StackPour, StackSurroundings, Stop } from './stack-types.ts';
import { tabulated } from './rate-table.ts';

export const STACK_DEFAULTS: Required<StackOptions> = {
  cellMm: 1,
  leastCells: 7,
  temperatureToleranceK: 0.02,
  conversionTolerance: 1e-3,
  firstStepS: 20,
  longestStepS: 6 * 3600,
  mergeAfterPours: 2,
  shape: 'slab',
};

/** Of what the error lets a step grow to, what is dared. */
const SAFETY = 0.9;
const MOST_GROWTH = 5;
const MOST_SHRINKING = 0.2;
/** After a step that gave no numbers at all. */
const AFTER_NONE = 0.25;
/** The error of a step grows with its fourth power (estimate of order 3). */
const ERROR_ORDER = 4;
/** Shorter than any heat in a casting needs: s. */
const LEAST_STEP_S = 1e-9;
/** Two moments closer than this share are one. */
const SAME_MOMENT = 1e-12;

/** A run so far. `pourOn` and `advance` change it; `cloneStack` keeps it. */
export interface StackState {
  readonly surroundings: StackSurroundings;
  readonly options: Required<StackOptions>;
  timeS: number;
  /** Length of the next step, s. */
  stepS: number;
  /** Null before the first pour. */
  grid: Grid | null;
  temperatureC: Float64Array;
  conversion: Float64Array;
  readonly records: PourRecord[];
  readonly balance: HeatBalance;
  /** Accepted and rejected, since the start. */
  steps: number;
  rejected: number;
}

export function startStack(surroundings: StackSurroundings, options: StackOptions = {}): StackState {
  return {
    surroundings,
    options: { ...STACK_DEFAULTS, ...options },
    timeS: -Infinity,
    stepS: 0,
    grid: null,
    temperatureC: new Float64Array(0),
    conversion: new Float64Array(0),
    records: [],
    balance: emptyBalance(),
    steps: 0,
    rejected: 0,
  };
}

/** An independent run from the same moment on. O(cells): what never changes is shared. */
export function cloneStack(state: StackState): StackState {
  return {
    ...state,
    temperatureC: state.temperatureC.slice(),
    conversion: state.conversion.slice(),
    records: state.records.map((record) => ({ ...record })),
    balance: { ...state.balance },
  };
}

/**
 * Puts a pour on what is there, at `atS`; runs on to that moment first, and pours nothing where it gets stuck on the way.
 * Older pours may lose cells. Throws when the run is past that moment.
 */
export function pourOn(state: StackState, pour: StackPour, atS: number): Stop {
  if (atS < state.timeS) throw new Error(`Found a pour at ${atS} s in a run that is at ${state.timeS} s; expected a later one. Pour in order of time.`);
  if (advance(state, atS) === 'stuck') return 'stuck';
  state.timeS = atS;
  state.stepS = state.options.firstStepS;
  const { options, surroundings } = state;
  const films = { ...surroundings, shape: options.shape };
  mergeOlder(state);
  const law: RateLaw = 'slopes' in pour.kinetics ? pour.kinetics : tabulated(pour.kinetics);
  const { pours, edgeMm } = withPour(state.grid, pour, { law, cells: oddCells(pour.depthMm, options.cellMm, options.leastCells) });
  state.grid = gridOf(pours, edgeMm, films);
  const { from, to } = pours[pours.length - 1];
  state.temperatureC = extended(state.temperatureC, to, pour.mixC);
  state.conversion = extended(state.conversion, to, pour.conversion ?? 0);
  for (let i = from; i < to; i++) state.balance.broughtJ += state.grid.capacity[i] * pour.mixC;
  state.records.push(newRecord(state));
  return 'reached';
}

/** Runs to a moment, in place, telling every accepted step to `watch`. Nothing before the first pour. */
export function advance(state: StackState, untilS: number, { watch, until }: AdvanceOptions = {}): Stop {
  const { grid, surroundings } = state;
  if (!grid || !(untilS > state.timeS)) return 'reached';
  const work = workFor(state.temperatureC.length);
  work.now.temperatureC.set(state.temperatureC);
  work.now.conversion.set(state.conversion);
  const ends: StepEnds = { work, grid, beforeS: state.timeS, afterS: state.timeS, before: rateCells(work.cells), warmingBefore: new Float64Array(work.cells) };
  const sighting = watch || until ? newSighting() : null;
  let stop: Stop = 'reached';
  while (state.timeS < untilS && stop === 'reached') {
    const { span, endS } = roomFrom(surroundings, state.timeS);
    const goalS = Math.min(untilS, endS);
    look(work, grid, roomAt(span, state.timeS));
    stop = runSpan(state, ends, { goalS, span, sighting, watch, until });
    if (state.timeS === endS) state.stepS = state.options.firstStepS;
  }
  state.temperatureC.set(work.now.temperatureC);
  state.conversion.set(work.now.conversion);
  return stop;
}

interface SpanRun extends AdvanceOptions {
  readonly goalS: number;
  readonly span: SpanOfRoom;
  readonly sighting: ReturnType<typeof newSighting> | null;
}

/** Steps while the room keeps to one entry of its profile. */
function runSpan(state: StackState, ends: StepEnds, { goalS, span, sighting, watch, until }: SpanRun): Stop {
  const { options } = state;
  const { work, grid } = ends;
  while (state.timeS < goalS) {
    const leftS = goalS - state.timeS;
    let h = Math.min(state.stepS, options.longestStepS);
    // The last two steps are of one length, rather than one long and one that is hardly any.
    const last = h >= leftS * (1 - SAME_MOMENT);
    if (last) h = leftS;
    else if (2 * h > leftS) h = leftS / 2;
    const room: RoomNow = { temperatureC: roomAt(span, state.timeS), risePerS: span.risePerS };
    const error = tryStep(work, grid, { h, room, tolerances: options });
    if (error > 1) {
      state.rejected++;
      if (error === Infinity) clearStages(work);
      state.stepS = h * (error === Infinity ? AFTER_NONE : Math.max(MOST_SHRINKING, SAFETY * error ** (-1 / ERROR_ORDER)));
      if (state.stepS < LEAST_STEP_S) return 'stuck';
      continue;
    }
    state.steps++;
    remember(ends);
    ends.beforeS = state.timeS;
    state.timeS = ends.afterS = last ? goalS : state.timeS + h;
    const grown = h * Math.min(MOST_GROWTH, SAFETY * Math.max(error, Number.MIN_VALUE) ** (-1 / ERROR_ORDER));
    state.stepS = last ? Math.max(grown, state.stepS) : grown;
    work.now.temperatureC.set(work.stage.temperatureC);
    work.now.conversion.set(work.stage.conversion);
    const roomC = roomAt(span, state.timeS);
    look(work, grid, roomC);
    recordStep(state, ends, roomC);
    if (!sighting) continue;
    sight(sighting, state, { work, roomC });
    watch?.(sighting);
    if (until?.(sighting)) return 'stopped';
  }
  return 'reached';
}

/** Numbers that are none must not live on in a product with 0. */
function clearStages({ u, v, loss, stage }: Work): void {
  for (const array of [...u, ...v, loss, stage.temperatureC, stage.conversion]) array.fill(0);
}

/** Keeps the step's beginning: what is recorded lies inside the step, not at its end. */
function remember({ work, before, warmingBefore }: StepEnds): void {
  before.temperatureC.set(work.now.temperatureC);
  before.conversion.set(work.now.conversion);
  before.ratePerS.set(work.now.ratePerS);
  warmingBefore.set(work.warming);
}

interface SpanOfRoom {
  readonly fromS: number;
  readonly temperatureC: number;
  readonly risePerS: number;
}

function roomAt({ fromS, temperatureC, risePerS }: SpanOfRoom, timeS: number): number {
  return risePerS === 0 ? temperatureC : temperatureC + risePerS * (timeS - fromS);
}

/** The entry that holds from a moment on, and when the next begins. */
function roomFrom({ room }: StackSurroundings, timeS: number): { span: SpanOfRoom; endS: number } {
  let k = 0;
  while (k + 1 < room.length && room[k + 1].fromS <= timeS) k++;
  const { fromS, temperatureC, risePerS = 0 } = room[k];
  // Before its first entry the room is at rest.
  if (timeS < fromS) return { span: { fromS, temperatureC, risePerS: 0 }, endS: fromS };
  return { span: { fromS, temperatureC, risePerS }, endS: k + 1 < room.length ? room[k + 1].fromS : Infinity };
}

/** Joins cells of pours that will have `mergeAfterPours` above them. Heat and cure are kept to rounding. */
function mergeOlder(state: StackState): void {
  const { grid, options, surroundings } = state;
  if (!grid) return;
  const merged = mergeStarts(grid.pours, grid.pours.length + 1 - options.mergeAfterPours);
  if (!merged) return;
  const { starts, pours } = merged;
  const count = starts.length - 1;
  const next = gridOf(pours, Float64Array.from(starts, (start) => grid.edgeMm[start]), { ...surroundings, shape: options.shape });
  const [temperatureC, conversion] = [new Float64Array(count), new Float64Array(count)];
  for (let i = 0; i < count; i++) {
    let [warmth, cured, weight] = [0, 0, 0];
    for (let j = starts[i]; j < starts[i + 1]; j++) {
      warmth += grid.capacity[j] * state.temperatureC[j];
      cured += grid.capacity[j] * state.conversion[j];
      weight += grid.capacity[j];
    }
    temperatureC[i] = warmth / weight;
    conversion[i] = cured / weight;
  }
  state.grid = next;
  state.temperatureC = temperatureC;
  state.conversion = conversion;
}

function extended(values: Float64Array, length: number, value: number): Float64Array {
  const longer = new Float64Array(length).fill(value, values.length);
  longer.set(values);
  return longer;
}
