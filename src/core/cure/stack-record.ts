/**
 * What is kept of a step: peaks and gel, found inside it on the cubic through both ends and their slopes (Hermite),
 * because steps are longer than a peak may be misplaced by; and the heat that left.
 */
import type { Grid } from './stack-grid.ts';
import { lostIn, type Work } from './stack-step.ts';
import type { PourRecord, RateCells, Sighting } from './stack-types.ts';
import type { StackState } from './stack.ts';

/** One accepted step: `work.now` is its end. */
export interface StepEnds {
  readonly work: Work;
  readonly grid: Grid;
  beforeS: number;
  afterS: number;
  readonly before: RateCells;
  readonly warmingBefore: Float64Array;
}

/** Halvings of the step in which gel is looked for: to a millionth of it. */
const HALVINGS = 20;

/** Of the pour that was just put on: it begins as warm as it was mixed. */
export function newRecord({ grid, timeS, temperatureC, conversion }: StackState): PourRecord {
  const { from, to, law } = grid!.pours[grid!.pours.length - 1];
  const middle = (from + to - 1) / 2;
  return {
    pouredAtS: timeS,
    midPeakC: temperatureC[middle],
    midPeakAtS: 0,
    midGelS: conversion[middle] >= law.gelAlpha ? 0 : null,
    peakC: temperatureC[middle],
    hottestAtS: 0,
    hottestHeightMm: (grid!.edgeMm[middle] + grid!.edgeMm[middle + 1]) / 2,
  };
}

export function recordStep(state: StackState, ends: StepEnds, roomC: number): void {
  const { grid, work, before, warmingBefore } = ends;
  const { from, to, law } = grid.pours[grid.pours.length - 1];
  const record = state.records[state.records.length - 1];
  const middle = (from + to - 1) / 2;
  const h = ends.afterS - ends.beforeS;
  const startS = ends.beforeS - record.pouredAtS;

  const mid = highest(before.temperatureC[middle], work.now.temperatureC[middle], { slope0: warmingBefore[middle], slope1: work.warming[middle], h });
  if (mid.value > record.midPeakC) {
    record.midPeakC = mid.value;
    record.midPeakAtS = startS + mid.atS;
  }
  if (record.midGelS === null && work.now.conversion[middle] >= law.gelAlpha) {
    record.midGelS = startS + crossing(law.gelAlpha, [before.conversion[middle], work.now.conversion[middle]], { slope0: before.ratePerS[middle], slope1: work.now.ratePerS[middle], h });
  }
  recordHottest(state, ends, { record, from, to, startS, h, roomC });
  balanceStep(state, ends);
}

interface HottestIn {
  readonly record: PourRecord;
  readonly from: number;
  readonly to: number;
  readonly startS: number;
  readonly h: number;
  readonly roomC: number;
}

function recordHottest({ surroundings }: StackState, ends: StepEnds, { record, from, to, startS, h, roomC }: HottestIn): void {
  const { work, grid, before, warmingBefore } = ends;
  const cell = hottestCell(work.now.temperatureC, from, to);
  const inTime = highest(before.temperatureC[cell], work.now.temperatureC[cell], { slope0: warmingBefore[cell], slope1: work.warming[cell], h });
  const between = overCell(work.now.temperatureC, cell, { from, to });
  let overK = between.overK;
  let heightMm = grid.edgeMm[cell] + (0.5 + between.cells) * (grid.edgeMm[cell + 1] - grid.edgeMm[cell]);
  // Next to a face that is insulated, or warmer than the resin, the hottest point is the face.
  const films = cell === 0 ? surroundings.bottomHWPerM2K : cell === work.cells - 1 ? surroundings.topHWPerM2K : null;
  if (films !== null) {
    const faceC = faceTemperature(work.now.temperatureC, grid, { top: cell !== 0, filmWPerM2K: films, roomC });
    if (faceC - work.now.temperatureC[cell] > overK) {
      overK = faceC - work.now.temperatureC[cell];
      heightMm = grid.edgeMm[cell === 0 ? 0 : cell + 1];
    }
  }
  if (inTime.value + overK > record.peakC) {
    record.peakC = inTime.value + overK;
    record.hottestAtS = startS + inTime.atS;
    record.hottestHeightMm = heightMm;
  }
  // The middle is followed through every step, the hottest cell only where it ends.
  if (record.midPeakC > record.peakC) {
    const middle = (from + to - 1) / 2;
    record.peakC = record.midPeakC;
    record.hottestAtS = record.midPeakAtS;
    record.hottestHeightMm = (grid.edgeMm[middle] + grid.edgeMm[middle + 1]) / 2;
  }
}

function hottestCell(temperatureC: Float64Array, from: number, to: number): number {
  let hottest = from;
  for (let i = from + 1; i < to; i++) if (temperatureC[i] > temperatureC[hottest]) hottest = i;
  return hottest;
}

/** How much the parabola through a cell and its neighbors in the pour rises over it, and how many cells away. */
function overCell(temperatureC: Float64Array, cell: number, { from, to }: { from: number; to: number }): { overK: number; cells: number } {
  if (cell === from || cell === to - 1) return { overK: 0, cells: 0 };
  const [below, here, above] = [temperatureC[cell - 1], temperatureC[cell], temperatureC[cell + 1]];
  const bend = below - 2 * here + above;
  if (!(bend < 0)) return { overK: 0, cells: 0 };
  const cells = (0.5 * (below - above)) / bend;
  return { overK: -0.25 * (below - above) * cells, cells };
}

/** At the floor or the open face: the parabola through the two cells next to it that loses heat as its film does. */
function faceTemperature(temperatureC: Float64Array, grid: Grid, { top, filmWPerM2K, roomC }: { top: boolean; filmWPerM2K: number; roomC: number }): number {
  if (filmWPerM2K === Infinity) return roomC;
  const last = temperatureC.length - 1;
  const [near, next] = top ? [last, last - 1] : [0, 1];
  const { conductivityWPerMK } = grid.pours[top ? grid.pours.length - 1 : 0].pour.material;
  const cellM = (grid.edgeMm[near + 1] - grid.edgeMm[near]) / 1000;
  const biot = (filmWPerM2K * cellM) / conductivityWPerMK;
  return (9 * temperatureC[near] - temperatureC[next] + 3 * biot * roomC) / (8 + 3 * biot);
}

function balanceStep({ balance }: StackState, { work, grid, before }: StepEnds): void {
  balance.lostJ += lostIn(work);
  let releasedJ = 0;
  for (let i = 0; i < work.cells; i++) releasedJ += grid.heat[i] * (work.now.conversion[i] - before.conversion[i]);
  balance.releasedJ += releasedJ;
}

interface StepSlopes {
  readonly slope0: number;
  readonly slope1: number;
  readonly h: number;
}

/** Largest value of the cubic over a step, and when after its beginning. */
function highest(value0: number, value1: number, { slope0, slope1, h }: StepSlopes): { value: number; atS: number } {
  const ends = value1 >= value0 ? { value: value1, atS: h } : { value: value0, atS: 0 };
  if (!(slope0 > 0 && slope1 < 0)) return ends;
  // Derivative of the cubic, over s from 0 to 1: a s² + b s + c, positive at 0 and negative at 1: one root between.
  const rise = value1 - value0;
  const [from, to] = [slope0 * h, slope1 * h];
  const [a, b, c] = [3 * (from + to - 2 * rise), 2 * (3 * rise - 2 * from - to), from];
  const root = Math.sqrt(b * b - 4 * a * c);
  const s = b > 0 ? (b + root) / (-2 * a) : (2 * c) / (root - b);
  const value = value0 + s * (c + s * (b / 2 + (s * a) / 3));
  return value > ends.value ? { value, atS: s * h } : ends;
}

/** When after the step's beginning the cubic reaches a level between its ends. */
function crossing(level: number, [value0, value1]: readonly [number, number], { slope0, slope1, h }: StepSlopes): number {
  const rise = value1 - value0;
  const [from, to] = [slope0 * h, slope1 * h];
  let [low, high] = [0, 1];
  for (let k = 0; k < HALVINGS; k++) {
    const s = (low + high) / 2;
    const value = value0 + s * (from + s * (3 * rise - 2 * from - to + s * (from + to - 2 * rise)));
    if (value < level) low = s;
    else high = s;
  }
  return high * h;
}

export function newSighting(): Sighting {
  return {
    timeS: 0, sinceS: 0, roomC: 0, surfaceC: 0, surfaceConversion: 0, midC: 0, midConversion: 0,
    hottestC: 0, minConversion: 0, meanConversion: 0, stackHottestC: 0, peakC: 0,
  };
}

export function sight(out: Sighting, state: StackState, { work, roomC }: { work: Work; roomC: number }): void {
  const grid = state.grid!;
  const { from, to } = grid.pours[grid.pours.length - 1];
  const record = state.records[state.records.length - 1];
  const { temperatureC, conversion } = work.now;
  const middle = (from + to - 1) / 2;
  out.timeS = state.timeS;
  out.sinceS = state.timeS - record.pouredAtS;
  out.roomC = roomC;
  out.surfaceC = faceTemperature(temperatureC, grid, { top: true, filmWPerM2K: state.surroundings.topHWPerM2K, roomC });
  out.surfaceConversion = conversion[to - 1];
  out.midC = temperatureC[middle];
  out.midConversion = conversion[middle];
  out.hottestC = temperatureC[hottestCell(temperatureC, from, to)];
  out.stackHottestC = Math.max(out.hottestC, temperatureC[hottestCell(temperatureC, 0, to)]);
  out.peakC = record.peakC;
  let [least, sum, weight] = [Infinity, 0, 0];
  for (let i = from; i < to; i++) {
    if (conversion[i] < least) least = conversion[i];
    sum += conversion[i] * grid.capacity[i];
    weight += grid.capacity[i];
  }
  out.minConversion = least;
  out.meanConversion = sum / weight;
}
