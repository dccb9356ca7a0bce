/**
 * How fast a drafted resin must be to bear its label: in the label's own situation the hottest point of a pour of the
 * greatest depth just reaches the temperature of concern. Found by solving, for each draft.
 */
import type { Formula } from '../scene/scene.ts';
import { mixOf } from '../resin/formula.ts';
import { rateAt } from './equivalent-time.ts';
import type { Member } from './family-types.ts';
import { BRAKE_AT_C, BRAKE_PER_K, type Draft } from './family-priors.ts';
import type { Kinetics, ThermalMaterial } from './kinetics.ts';
import { tabulated } from './rate-table.ts';
import { risingRoot } from './rising-root.ts';
import { labelCooling } from './situation.ts';
import { advance, pourOn, startStack, type StackState } from './stack.ts';
import type { RateLaw, Sighting, StackOptions } from './stack-types.ts';

/** The label's depth is where the hottest point reaches this (design), °C … */
export const CONCERN_C = 60;
/** … or, for a label whose own room is nearly that warm, this much over it. */
const LEAST_RISE_K = 20;
/** Nearer than this to it the search ends, K. Next to the cliff that is less than a thousandth of the depth. */
const ANCHOR_TOLERANCE_K = 0.05;
/** Temperatures this far over it say no more than "over". */
const OVER_K = 12;
/** First stride of the search, and how far it goes from the guess: logarithms of the rate. */
const FIRST_STRIDE = 0.1;
const WIDEST = 25;
/** Rise near the cliff, as self-heating has it: about one doubling of the rate (Frank-Kamenetskii: 1.2 RT²/E ≈ 17 K). */
const CRITICAL_RISE_K = 15;
/** Fastest reduced rate of the shapes drawn, about. */
const FASTEST_SHAPE = 0.25;
/** A step of a very slow resin may be longer than any of a bench's, in 1/k2. */
const LONGEST_STEP_IN_K2 = 0.1;
/** No draft takes longer than this to be through at the label's temperature, in 1/k2. */
const LONGEST_IN_K2 = 200;

/**
 * Runs of a family are on few cells for each pour, the same in the label's situation and any other, so that what the
 * grid is off by drops out of their ratio. Against five times the cells: under 1 K at 60 °C, under half a percent in a ratio (tests hold it).
 */
export const FAMILY_STACK: StackOptions = { cellMm: 1e6, leastCells: 15, temperatureToleranceK: 0.05, conversionTolerance: 2e-3 };

export function concernOf({ atC }: Formula): number {
  return Math.max(CONCERN_C, atC + LEAST_RISE_K);
}

export interface Anchored {
  /** All of it but its cup. */
  readonly member: Omit<Member, 'cupRate'>;
  /** Found over guessed: where the next draft of the label is near. */
  readonly near: number;
}

/** The member a draft becomes. */
export function anchored(draft: Draft, formula: Formula, near = 1): Anchored {
  const material: ThermalMaterial = { densityKgPerM3: mixOf(formula).densityGPerMl * 1000, heatCapacityJPerKgK: draft.heatCapacityJPerKgK, conductivityWPerMK: draft.conductivityWPerMK };
  const unit = memberOf(draft, { material, k2PerS: 1, atC: formula.atC });
  const law = tabulated(unit.kinetics);
  const target = concernOf(formula);
  const { maxDepthMm: depthMm } = formula;
  const guess = roughRate(unit, formula);
  const k2PerS = rateFor(target, near * guess, (k2) => labelPeakC(unit, formula, { law: hastened(law, k2), k2PerS: k2, depthMm, overC: target + OVER_K }));
  return { member: memberOf(draft, { material, k2PerS, atC: formula.atC }), near: k2PerS / guess };
}

/** Hottest point in the label's situation at a share of its depth, °C, however hot. */
export function labelPeakAtC(member: Omit<Member, 'cupRate'>, formula: Formula, { share, hastenedBy }: { share: number; hastenedBy: number }): number {
  const { kinetics } = member;
  return labelPeakC(member, formula, { law: hastened(tabulated(kinetics), hastenedBy), k2PerS: kinetics.k2PerS, depthMm: share * formula.maxDepthMm, overC: Infinity });
}

/**
 * Equivalent seconds at `atC` that the surface of a pour of the label's depth goes through in the label's situation
 * until its bond closes: the label's hours hold for every depth it allows, with the warmth that comes with it.
 */
export function labelBondS(member: Omit<Member, 'cupRate'>, formula: Formula, law: RateLaw): number {
  const { atC, bondClosesH, maxDepthMm: depthMm } = formula;
  let [progressS, beforeS, beforeC] = [0, 0, atC];
  const stack = labelPour(member, formula, { law, k2PerS: member.kinetics.k2PerS, depthMm });
  advance(stack, bondClosesH * 3600, {
    watch: ({ sinceS, surfaceC }) => {
      progressS += rateAt((beforeC + surfaceC) / 2, atC) * (sinceS - beforeS);
      [beforeS, beforeC] = [sinceS, surfaceC];
    },
  });
  return progressS;
}

/** The same law, faster. */
export function hastened(law: RateLaw, factor: number): RateLaw {
  if (factor === 1) return law;
  return {
    ...law,
    rate(cells) {
      law.rate(cells);
      for (let i = cells.from; i < cells.to; i++) cells.ratePerS[i] *= factor;
    },
    slopes(cells) {
      law.slopes(cells);
      for (let i = cells.from; i < cells.to; i++) {
        cells.ratePerS[i] *= factor;
        cells.byConversion[i] *= factor;
        cells.byKelvin[i] *= factor;
      }
    },
  };
}

interface LabelPour {
  readonly law: RateLaw;
  readonly k2PerS: number;
  readonly depthMm: number;
}

/** Hottest point in the label's situation, °C; over `overC` it is only known to be that. */
function labelPeakC(member: Omit<Member, 'cupRate'>, formula: Formula, { overC, ...pour }: LabelPour & { overC: number }): number {
  const stack = labelPour(member, formula, pour);
  advance(stack, LONGEST_IN_K2 / pour.k2PerS, { until: (seen) => seen.hottestC > overC || pastPeak(seen) });
  return stack.records[0].peakC;
}

/** A first pour in the label's situation, just made. */
function labelPour(member: Omit<Member, 'cupRate'>, { atC }: Formula, { law, k2PerS, depthMm }: LabelPour): StackState {
  const { topHWPerM2K, bottomHWPerM2K, sideWPerM3K } = labelCooling(member);
  const stack = startStack({ room: [{ fromS: 0, temperatureC: atC }], topHWPerM2K, bottomHWPerM2K }, { ...FAMILY_STACK, firstStepS: Math.min(20, 0.01 / k2PerS), longestStepS: Math.max(6 * 3600, LONGEST_STEP_IN_K2 / k2PerS) });
  pourOn(stack, { depthMm, mixC: atC, material: member.material, kinetics: law, sideWPerM3K }, 0);
  return stack;
}

/** Nothing warmer is to come: half cured, and back near the room. */
function pastPeak({ hottestC, roomC, meanConversion }: Readonly<Sighting>): boolean {
  return meanConversion > 0.5 && hottestC < roomC + 8;
}

/** Where the heat made at the fastest equals what a slab sheds a critical rise over the room: within a factor of two or so. */
function roughRate({ kinetics, material, topHWPerM2K, underHWPerM2K }: Omit<Member, 'cupRate'>, { maxDepthMm }: Formula): number {
  const depthM = maxDepthMm / 1000;
  const sheds = 1 / (1 / (topHWPerM2K + underHWPerM2K) + depthM / (8 * material.conductivityWPerMK));
  return (sheds * CRITICAL_RISE_K) / (material.densityKgPerM3 * kinetics.heatJPerKg * depthM * FASTEST_SHAPE);
}

/** The rate at which the hottest point just reaches the target: it rises with the rate, searched in its logarithm. */
function rateFor(targetC: number, guess: number, peakAt: (k2PerS: number) => number): number {
  const from = Math.log(guess);
  const excess = (x: number) => Math.min(OVER_K, peakAt(Math.exp(x)) - targetC);
  return Math.exp(risingRoot(excess, { from, stride: FIRST_STRIDE, lowest: from - WIDEST, highest: from + WIDEST, apart: 0, under: ANCHOR_TOLERANCE_K }));
}

function memberOf(draft: Draft, made: { material: ThermalMaterial; k2PerS: number; atC: number }): Omit<Member, 'cupRate'> {
  const kinetics: Kinetics = {
    heatJPerKg: draft.heatJPerKg,
    activationJPerMol: draft.activationJPerMol,
    k2PerS: made.k2PerS,
    atC: made.atC,
    k1OverK2: draft.k1OverK2,
    m: draft.m,
    n: draft.n,
    brake: { c: draft.brakeC, alpha0: draft.brakeAlpha0, alphaPerK: BRAKE_PER_K, atC: BRAKE_AT_C },
    gelAlpha: draft.gelAlpha,
  };
  return { kinetics, material: made.material, topHWPerM2K: draft.topHWPerM2K, underHWPerM2K: draft.underHWPerM2K };
}
