/**
 * How deep a pour may be where it is poured: the label's greatest depth times the cautious end of what the family makes
 * of this situation against the label's, and never more than the label's.
 *
 * What a peak is at a depth the label does not tell; how much shallower a warmer place asks for it does. So every
 * member is asked for the depth at which its hottest point reaches the temperature of concern here; in the label's
 * situation that is the label's depth for all of them, by their making.
 */
import { peakOn, type PourOfMember, type Trial } from './build-run.ts';
import { weightedQuantile } from './family-types.ts';
import { risingRoot } from './rising-root.ts';
import type { StackState } from './stack.ts';

/** The cautious end: this share of the family asks for less. */
export const CAUTIOUS_SHARE = 0.05;
/** What the solver may be off by at the temperature of concern, K: nothing under it is told from it. A member is anchored within half of it. */
export const SOLVER_K = 0.1;
/** Found to this share of the depth, from the shallow side. */
const FOUND_SHARE = 0.002;
/** Where a search begins, of the depth known to be too much. */
const FIRST_TRIED = 0.85;
/** First stride of a search, of the label's depth. */
const FIRST_STRIDE = 0.15;
/** Less than this share of the label's depth is no pour at all. */
const LEAST_SHARE = 0.02;
/** Over the concern by this much a temperature says no more than "too hot", K. */
const OVER_K = 12;

/** One member standing ready to pour. */
export interface Ready {
  readonly ground: StackState;
  readonly pour: PourOfMember;
}

export interface DepthAsked {
  readonly maxDepthMm: number;
  readonly concernC: number;
  readonly trial: Trial;
  readonly weights: readonly number[];
  /** Peaks at the trial's own depth, where they are known. */
  readonly peaksC?: readonly number[];
}

export interface DepthFound {
  /** Of the label's depth, at the cautious end; at most 1. */
  readonly ratio: number;
  /** The member that asks for about that: of those at the cautious end, the one that asks for least. */
  readonly cautious: number;
}

/** All members' answer. Members that bear the label's depth here are not asked further. */
export function safeRatio(all: readonly Ready[], asked: DepthAsked): DepthFound {
  const { maxDepthMm, concernC, trial, weights, peaksC } = asked;
  const limitC = concernC + SOLVER_K;
  const known = (i: number) => peaksC?.[i];
  const hotAtLabel = all.map((ready, i) => {
    const peakC = known(i);
    if (peakC !== undefined && trial.depthMm >= maxDepthMm && peakC <= limitC) return false;
    if (peakC !== undefined && trial.depthMm <= maxDepthMm && peakC > limitC) return true;
    return tooHot(ready, asked, maxDepthMm);
  });
  const order = all.map((_, i) => i).filter((i) => hotAtLabel[i]).sort((a, b) => (known(b) ?? 0) - (known(a) ?? 0));
  const hottest = order[0] ?? all.reduce((best, _, i) => ((known(i) ?? 0) > (known(best) ?? 0) ? i : best), 0);
  const hotWeight = order.reduce((sum, i) => sum + weights[i], 0);
  if (hotWeight < CAUTIOUS_SHARE) return { ratio: 1, cautious: hottest };
  const depths = all.map(() => maxDepthMm);
  let foundWeight = 0;
  let least = hottest;
  for (const i of order) {
    const bound = foundWeight >= CAUTIOUS_SHARE ? weightedQuantile(depths, weights, CAUTIOUS_SHARE) : maxDepthMm;
    // One that bears what the cautious end bears already can't lower it.
    if (bound < maxDepthMm && !tooHot(all[i], asked, bound)) continue;
    depths[i] = depthBorne(all[i], asked, { mostMm: bound, fromMm: FIRST_TRIED * bound });
    foundWeight += weights[i];
    if (depths[i] < depths[least]) least = i;
  }
  return { ratio: agreeing(weightedQuantile(depths, weights, CAUTIOUS_SHARE), asked) / maxDepthMm, cautious: least };
}

/** A depth is found to a hair; on which side of it the pour itself lies its own peaks say. */
function agreeing(foundMm: number, { concernC, trial: { depthMm }, weights, peaksC }: DepthAsked): number {
  if (!peaksC) return foundMm;
  const borne = hotWeightOf(peaksC, weights, concernC + SOLVER_K) < CAUTIOUS_SHARE;
  if (borne) return Math.max(foundMm, depthMm);
  return foundMm < depthMm ? foundMm : depthMm * (1 - FOUND_SHARE);
}

/** How much of the family is over a limit. */
function hotWeightOf(peaksC: readonly number[], weights: readonly number[], limitC: number): number {
  return peaksC.reduce((sum, peakC, i) => sum + (peakC > limitC ? weights[i] : 0), 0);
}

function tooHot({ ground, pour }: Ready, { concernC, trial }: DepthAsked, depthMm: number): boolean {
  return peakOn(ground, pour, { trial: { ...trial, depthMm }, overC: concernC + SOLVER_K }) > concernC + SOLVER_K;
}

/** The depth that one member just bears, from 0 to `mostMm`. 0: none. `fromMm`: where to look first. */
export function depthBorne({ ground, pour }: Ready, { maxDepthMm, concernC, trial }: Omit<DepthAsked, 'weights'>, { mostMm, fromMm }: { mostMm: number; fromMm: number }): number {
  const excess = (depthMm: number) => Math.min(OVER_K, peakOn(ground, pour, { trial: { ...trial, depthMm }, overC: concernC + SOLVER_K + OVER_K }) - concernC - SOLVER_K);
  const search = { from: fromMm, stride: FIRST_STRIDE * maxDepthMm, lowest: LEAST_SHARE * maxDepthMm, highest: mostMm, apart: FOUND_SHARE * maxDepthMm, under: SOLVER_K / 3 };
  return Math.max(0, risingRoot(excess, search));
}
