/** One pour run for every member and weighed: how warm, in which words, how deep it may be here. */
import { groundOf, peakOn, pourOfMember, runMember, type BuildContext, type MemberRun, type Slot, type Trial } from './build-run.ts';
import { weightedQuantile, type CureFamily } from './family-types.ts';
import { safeRatio, SOLVER_K, type DepthAsked, type DepthFound, type Ready } from './safe-depth.ts';
import { LABEL_WALL_M2K_PER_W, wallResistance } from './situation.ts';
import type { BuildPour, HeatWords } from './verdict-types.ts';

export const LOW = 0.05;
export const HIGH = 0.95;
/** How well the depth of a pour and that of a label are known: molds stand out of level, labels are rounded (from memory). */
const DEPTH_DOUBT = 0.05;
/** Up to here a pour feels no more than hand-warm, and nothing on the shelf minds: wax and PLA soften from about 45 °C (from memory). */
const COOL_C = 40;

/** A build as it stands before a pour. */
export interface Standing {
  readonly context: BuildContext;
  readonly slots: readonly Slot[];
  /** Of the pours below, each once. */
  readonly families: readonly CureFamily[];
}

/** A pour run and weighed, before anything is said of it. */
export interface Assessed {
  readonly runs: readonly MemberRun[];
  readonly ready: readonly Ready[];
  readonly weights: readonly number[];
  readonly asked: DepthAsked;
  readonly found: DepthFound;
  readonly rangeC: readonly [number, number];
  readonly words: HeatWords;
  readonly safeDepthMm: number;
}

export function assess({ context, slots, families }: Standing, pour: BuildPour, trial: Trial): Assessed {
  const { formula, family } = pour;
  const weights = weightsOf(slots, [...new Set([...families, family])]);
  const ready = slots.map((slot): Ready => {
    const member = pourOfMember(context, pour, slot.place);
    return { ground: groundOf(slot, trial, member.cooling), pour: member };
  });
  const runs = ready.map(({ ground, pour: member }) => runMember(ground, member, { trial, bench: pour }));
  const peaksC = runs.map(({ peakC }) => peakC);
  const asked: DepthAsked = { maxDepthMm: formula.maxDepthMm, concernC: family.concernC, trial, weights, peaksC };
  const hottest = peaksC.indexOf(Math.max(...peaksC));
  const found = milder(context, slots, pour, trial) ? { ratio: 1, cautious: hottest } : safeRatio(ready, asked);
  const rangeC = rangeOf(ready, { trial, weights, peaksC });
  return { runs, ready, weights, asked, found, rangeC, words: wordsOf(rangeC, family.concernC), safeDepthMm: found.ratio * formula.maxDepthMm };
}

/**
 * 5–95 % of the hottest point over the family, the lower end at a little less depth, the upper at a little more. By
 * their making all members agree at the label's depth, and just there a millimeter is the difference between warm and
 * burnt: what neither label nor level can tell must not look as if it were known.
 */
function rangeOf(ready: readonly Ready[], { trial, weights, peaksC }: { trial: Trial; weights: readonly number[]; peaksC: readonly number[] }): readonly [number, number] {
  const at = (share: number, depthShare: number) => {
    const { ground, pour } = ready[peaksC.indexOf(weightedQuantile(peaksC, weights, share))];
    return peakOn(ground, pour, { trial: { ...trial, depthMm: trial.depthMm * depthShare }, overC: Infinity });
  };
  return [at(LOW, 1 - DEPTH_DOUBT), at(HIGH, 1 + DEPTH_DOUBT)];
}

function weightsOf(slots: readonly Slot[], families: readonly CureFamily[]): number[] {
  if (slots.length === 1) return [1];
  const raw = slots.map(({ place }) => families.reduce((product, { weights }) => product * weights[place % weights.length], 1));
  const sum = raw.reduce((a, b) => a + b, 0);
  return raw.map((weight) => weight / sum);
}

/** In nothing harsher than the label's own situation, for any member: then nothing needs to be solved. */
function milder({ mold }: BuildContext, slots: readonly Slot[], { formula, family }: BuildPour, { mixC, room }: Trial): boolean {
  return slots.every(({ ended }) => ended === null) && family.hastenedBy === 1 && mixC <= formula.atC && room.every(({ temperatureC }) => temperatureC <= formula.atC) && wallResistance(mold) <= LABEL_WALL_M2K_PER_W;
}

/** In words: the borders are where figures begin to mind, and the label's own concern. */
export function wordsOf([low, high]: readonly [number, number], concernC: number): HeatWords {
  if (high <= COOL_C) return 'cool';
  if (high <= concernC + SOLVER_K) return 'warm';
  return low > concernC ? 'hot' : "can't be told";
}
