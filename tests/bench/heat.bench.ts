/**
 * Heat and cure through ten pours in one dimension, against odex (Hairer & Wanner's extrapolation code) on the same
 * cells with the same rate law, at equal error: 0.2 K in peaks, 0.5 % in gel times. Odex's step is capped and it begins
 * anew with every pour; that it has converged is shown by a run with half the cap and a
 * tolerance 100 times tighter.
 */
import { createRequire } from 'node:module';
import type { Kinetics } from '../../src/core/cure/kinetics.ts';
import { tabulated } from '../../src/core/cure/rate-table.ts';
import type { RateCells, StackOptions } from '../../src/core/cure/stack-types.ts';
import { advance, pourOn, startStack } from '../../src/core/cure/stack.ts';
import type { BenchRow } from './rows.ts';

const POURS = 10;
const DEPTH_MM = 15;
const GAP_S = 30 * 3600;
const ROOM_C = 23;
const [TOP_H, BOTTOM_H] = [10, 7.5];
const MATERIAL = { densityKgPerM3: 1150, heatCapacityJPerKgK: 1900, conductivityWPerMK: 0.2 };
/** The invented bench resin of physics §4, with a brake. */
const RESIN: Kinetics = {
  heatJPerKg: 370_000, activationJPerMol: 52_000, k2PerS: 6.05e-5, atC: 23, k1OverK2: 0.03, m: 0.7, n: 1.7,
  brake: { c: 30, alpha0: 0.773, alphaPerK: 0.0045, atC: 25 }, gelAlpha: 0.58,
};
const LAW = tabulated(RESIN);
/** All cells of 1 mm, as odex has them. */
const SAME_CELLS: StackOptions = { mergeAfterPours: Infinity };
const ROUNDS = 25;
const WARM_UPS = 10;
/**
 * Odex's longest step and its tolerance, the quickest we found that end at all and keep to the same errors: with a cap
 * of 600 s a peak came out 0.9 K wrong, and with 60 s it did not end.
 */
const ODEX = { longestS: 20, tolerance: 1e-3 };
/** For its convergence. */
const ODEX_CONVERGED = { longestS: 10, tolerance: 1e-5 };

interface Middle {
  readonly midPeakC: number;
  readonly midGelS: number;
}

export async function heatBench(): Promise<BenchRow[]> {
  const sameMs = median(ROUNDS, () => void ours(SAME_CELLS));
  const usualMs = median(ROUNDS, () => void ours({}));
  let theirs: Middle[] = [];
  const odexMs = elapsed(() => void (theirs = byOdex(ODEX)));
  const converged = byOdex(ODEX_CONVERGED);
  const error = apart(ours(SAME_CELLS), converged);
  const usualError = apart(ours({}), converged);
  const odexError = apart(theirs, converged);
  const peak = (name: string, { kelvin }: { kelvin: number }): BenchRow => ({ name: `${name}, largest error of ten peaks: at most`, ours: kelvin, baseline: 0.2, ratio: kelvin / 0.2, aim: 1, unit: 'K' });
  const gel = (name: string, { percent }: { percent: number }): BenchRow => ({ name: `${name}, largest error of ten gel times: at most`, ours: percent, baseline: 0.5, ratio: percent / 0.5, aim: 1, unit: '%' });
  return [
    { name: 'heat and cure through 10 pours in one dimension, against odex on the same cells: times faster, at least', ours: sameMs, baseline: odexMs, ratio: odexMs / sameMs, aim: 300, unit: 'ms' },
    { name: 'the same as it is used, older pours merged, against 30 ms: times as long, at most', ours: usualMs, baseline: 30, ratio: usualMs / 30, aim: 1, unit: 'ms' },
    peak('ours on the same cells', error),
    gel('ours on the same cells', error),
    peak('ours, older pours merged', usualError),
    gel('ours, older pours merged', usualError),
    peak('odex as timed, against its tighter run', odexError),
    gel('odex as timed, against its tighter run', odexError),
  ];
}

function ours(options: StackOptions): Middle[] {
  const stack = startStack({ room: [{ fromS: 0, temperatureC: ROOM_C }], topHWPerM2K: TOP_H, bottomHWPerM2K: BOTTOM_H }, options);
  for (let k = 0; k < POURS; k++) pourOn(stack, { depthMm: DEPTH_MM, mixC: ROOM_C, material: MATERIAL, kinetics: LAW, sideWPerM3K: 0 }, k * GAP_S);
  advance(stack, POURS * GAP_S);
  return stack.records.map(({ midPeakC, midGelS }) => ({ midPeakC, midGelS: midGelS ?? NaN }));
}

interface OdexSolver {
  absoluteTolerance: number;
  relativeTolerance: number;
  maxSteps: number;
  maxStepSize: number;
  denseOutput: boolean;
  denseComponents: number[];
  solve(f: (t: number, y: number[]) => number[], from: number, start: number[], to: number, out: (n: number, before: number, after: number, y: number[], interpolate: (component: number, t: number) => number) => void): { y: number[]; outcome: number };
}
// A CommonJS package without types.
const { Solver } = createRequire(import.meta.url)('odex') as { Solver: new (n: number) => OdexSolver };

/** Moments inside a step at which odex's interpolation is looked at. */
const LOOKS = 8;

/** Temperatures of all cells, then conversions; each pour a run of its own. */
function byOdex({ longestS, tolerance }: typeof ODEX): Middle[] {
  const found: Middle[] = [];
  let [temperatures, conversions]: [number[], number[]] = [[], []];
  for (let k = 0; k < POURS; k++) {
    const cells = (k + 1) * DEPTH_MM;
    const start = [...temperatures, ...Array<number>(DEPTH_MM).fill(ROOM_C), ...conversions, ...Array<number>(DEPTH_MM).fill(0)];
    const middle = k * DEPTH_MM + (DEPTH_MM - 1) / 2;
    const solver = new Solver(2 * cells);
    Object.assign(solver, { absoluteTolerance: tolerance, relativeTolerance: tolerance, maxSteps: 1e9, maxStepSize: longestS, denseOutput: true, denseComponents: [middle, cells + middle] });
    let [midPeakC, midGelS] = [-Infinity, NaN];
    let alphaBefore = 0;
    const { y, outcome } = solver.solve(changeOf(cells), 0, start, GAP_S, (n, before, after, now, interpolate) => {
      if (n === 1) return; // the start, before any step
      if (!Number.isFinite(now[middle])) throw new Error(`odex lost pour ${k + 1} after ${before} s`); // it would never end
      for (let look = 1; look <= LOOKS; look++) {
        const t = before + ((after - before) * look) / LOOKS;
        midPeakC = Math.max(midPeakC, interpolate(middle, t));
        const alpha = interpolate(cells + middle, t);
        if (Number.isNaN(midGelS) && alpha >= RESIN.gelAlpha) midGelS = t - ((after - before) / LOOKS) * ((alpha - RESIN.gelAlpha) / (alpha - alphaBefore));
        alphaBefore = alpha;
      }
    });
    if (outcome !== 0 || y.some((value) => !Number.isFinite(value))) throw new Error(`odex did not finish pour ${k + 1} (outcome ${outcome})`);
    temperatures = y.slice(0, cells);
    conversions = y.slice(cells);
    found.push({ midPeakC, midGelS });
  }
  return found;
}

/** The right-hand side for odex, as lean as ours: the same table of rates, nothing made anew but what it must return. */
function changeOf(count: number): (t: number, y: number[]) => number[] {
  const cellM = 1e-3;
  const { densityKgPerM3, heatCapacityJPerKgK, conductivityWPerMK } = MATERIAL;
  const perCapacity = 1 / (densityKgPerM3 * heatCapacityJPerKgK * cellM);
  const inner = (conductivityWPerMK / cellM) * perCapacity;
  const face = (film: number) => perCapacity / (1 / film + cellM / 2 / conductivityWPerMK);
  const [top, bottom] = [face(TOP_H), face(BOTTOM_H)];
  const rise = RESIN.heatJPerKg / heatCapacityJPerKgK;
  const array = () => new Float64Array(count);
  const cells: RateCells = { from: 0, to: count, conversion: array(), temperatureC: array(), ratePerS: array(), byConversion: array(), byKelvin: array() };
  return (_, y) => {
    for (let i = 0; i < count; i++) {
      cells.temperatureC[i] = y[i];
      cells.conversion[i] = y[count + i];
    }
    LAW.rate(cells);
    const change = new Array<number>(2 * count);
    let below = bottom * (ROOM_C - y[0]);
    for (let i = 0; i < count; i++) {
      const above = i === count - 1 ? top * (ROOM_C - y[i]) : inner * (y[i + 1] - y[i]);
      change[i] = below + above + rise * cells.ratePerS[i];
      change[count + i] = cells.ratePerS[i];
      below = -above;
    }
    return change;
  };
}

/** Largest differences of peaks, K, and of gel times, %. */
function apart(some: readonly Middle[], others: readonly Middle[]): { kelvin: number; percent: number } {
  return {
    kelvin: Math.max(...some.map(({ midPeakC }, k) => Math.abs(midPeakC - others[k].midPeakC))),
    percent: Math.max(...some.map(({ midGelS }, k) => 100 * Math.abs(midGelS / others[k].midGelS - 1))),
  };
}

/** ms of processor time: other work on the machine does not count. */
function elapsed(run: () => void): number {
  const before = process.cpuUsage();
  run();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

function median(rounds: number, run: () => void): number {
  for (let k = 0; k < WARM_UPS; k++) run();
  return Array.from({ length: rounds }, () => elapsed(run)).sort((a, b) => a - b)[rounds >> 1];
}
