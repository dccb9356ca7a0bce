/** What to mix for a pour: parts, equal batches, cumulative scale readings, usable minutes. */
import type { Mix } from '../resin/formula.ts';
import { premixFor } from '../resin/premix.ts';
import { usableMinutes } from '../cure/usable-minutes.ts';
import type { Bench, Formula, Run } from '../scene/scene.ts';
import { toDivision } from '../units/division.ts';
import { MINUTES_PER_HOUR } from '../units/time.ts';
import type { HeatJudge } from './heat-judge.ts';
import type { Batch, PartAmount } from './plan.ts';

export { usableMinutes };

/** Sums in grams carry noise far below this. */
const ROUNDING_G = 1e-9;

export interface MixRequest {
  readonly netMl: number;
  readonly formula: Formula;
  readonly mix: Mix;
  readonly bench: Bench;
  readonly tintPercent: number;
  /** How many pieces share the cups. `netMl` is one piece's. */
  readonly run: Run;
  /** The room's temperature when the pour starts. */
  readonly roomC: number;
  /** Of the mix, where its bottles are warmer than the room. */
  readonly mixC?: number;
  /** Null: the label alone. */
  readonly heat: Pick<HeatJudge, 'cup'> | null;
}

export interface Mixed {
  readonly mixMl: number;
  readonly mixG: number;
  readonly partA: PartAmount;
  readonly partB: PartAmount;
  readonly batches: readonly Batch[];
}

/** Net ÷ (1 − shrinkage) × (1 + allowance) + hold-up per batch, in the fewest equal batches; for a run, in the fewest that are poured in time. */
export function mixFor(request: MixRequest): Mixed {
  const { formula, mix, bench } = request;
  const { copies } = request.run;
  const neededMl = copies * (request.netMl / (1 - formula.shrinkageFraction)) * (1 + bench.allowanceFraction);
  const fewest = fewestBatches(neededMl, bench.holdUpMl, mix.densityGPerMl, formula.maxBatchG);
  const count = copies === 1 ? fewest : pouredInTime(neededMl, fewest, request);
  const mixMl = neededMl + count * bench.holdUpMl;
  const whole = partsOf(mixMl, formula, mix);
  const part = partsOf(mixMl / count, formula, mix);
  const tintG = (part.mixG * request.tintPercent) / 100;
  const batch: Batch = {
    mixMl: mixMl / count,
    ...part,
    scaleStopsG: scaleStops(part.partA.g, mix.bPerAByMass, bench.scaleG),
    tintG,
    premix: premixFor({ dyeG: tintG, partAG: part.partA.g, bPerAByMass: mix.bPerAByMass, ...bench }),
    ...minutesOf(formula, part.mixG, request, count),
    molds: copies / count,
    workMin: copies === 1 ? null : workMinutes(request.run, count),
  };
  return { mixMl, ...whole, batches: Array.from({ length: count }, () => batch) };
}

/** The fewest cups that are each poured while usable; where even a cup for each piece is not, as many as there are pieces. */
function pouredInTime(neededMl: number, fewest: number, request: MixRequest): number {
  const { formula, mix, bench, run } = request;
  for (let count = fewest; count < run.copies; count++) {
    const batchG = (neededMl / count + bench.holdUpMl) * mix.densityGPerMl;
    if (workMinutes(run, count) <= minutesOf(formula, batchG, request, count).usableMin) return count;
  }
  return Math.max(fewest, run.copies);
}

/** Minutes to mix a cup and pour its share of the molds; the last of them may be finished from the next cup. */
function workMinutes({ copies, mixMin, moldMin }: Run, cups: number): number {
  return mixMin + moldMin * Math.ceil(copies / cups - ROUNDING_G);
}

/** By the label, and fewer where the cup would thicken or get hot sooner. A cup is looked at until its pour is done. */
function minutesOf(formula: Formula, batchG: number, request: MixRequest, cups: number): Pick<Batch, 'usableMin' | 'heat'> {
  const { roomC, mixC, heat, run, bench } = request;
  const byLabelMin = usableMinutes(formula, batchG, mixC ?? roomC);
  if (!heat) return { usableMin: byLabelMin, heat: null };
  const workMin = run.copies === 1 ? bench.pourH * MINUTES_PER_HOUR : workMinutes(run, cups);
  const { endC, hot, passesMin, usableMin, words } = heat.cup(formula, { batchG, roomC, mixC, usableMin: byLabelMin, workMin });
  return { usableMin: Math.min(usableMin, byLabelMin), heat: { endC, hot, passesMin, byLabelMin, words } };
}

/** Cumulative readings: part A rounded to the scale, then that reading with its part B, rounded. */
export function scaleStops(partAG: number, bPerAByMass: number, scaleG: number): number[] {
  const first = toDivision(partAG, scaleG);
  return bPerAByMass === 0 ? [first] : [first, toDivision(first * (1 + bPerAByMass), scaleG)];
}

/** One whole division over the smaller part, as a fraction. */
export function scaleError(batch: Batch, scaleG: number): number {
  const smaller = batch.partB.g > 0 ? Math.min(batch.partA.g, batch.partB.g) : batch.partA.g;
  return scaleG / smaller;
}

/** The fewest equal cups of which none is heavier than it may be. */
export function fewestBatches(neededMl: number, holdUpMl: number, densityGPerMl: number, maxBatchG: number): number {
  const roomG = maxBatchG - holdUpMl * densityGPerMl;
  return Math.max(1, Math.ceil((neededMl * densityGPerMl) / roomG - ROUNDING_G));
}

function partsOf(mixMl: number, formula: Formula, mix: Mix): { mixG: number; partA: PartAmount; partB: PartAmount } {
  const aMl = mixMl / (1 + mix.bPerAByVolume);
  const bMl = mixMl - aMl;
  return {
    mixG: mixMl * mix.densityGPerMl,
    partA: { ml: aMl, g: aMl * formula.densityAGPerMl },
    partB: mix.bPerAByVolume === 0 ? { ml: 0, g: 0 } : { ml: bMl, g: bMl * formula.densityBGPerMl },
  };
}
