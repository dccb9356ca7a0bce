/** One pour run for every member and weighed: how warm, in which words, how deep it may be here. */
import { groundOf, peakOn, pourOfMember, runMember, type BuildContext, type MemberRun, type Slot, type Trial } from './build-run.ts';
import { DEPTH_DOUBT } from './depth-doubt.ts';
import { weightedQuantile, type CureFamily } from './family-types.ts';
import { safeRatio, SOLVER_K, type DepthAsked, type DepthFound, type Ready } from './safe-depth.ts';
import { LABEL_WALL_M2K_PER_W, wallResistance } from './situation.ts';
import type { BuildPour, HeatWords } from './verdict-types.ts';

export const LOW = 0.05;
export const HIGH = 0.95;
/** At another depth another member is the hottest, or the coolest: it is looked for in this share of the family at either end. */
const ENDS_SHARE = 0.35;
/** Up to here a pour feels no more than hand-warm, and nothing on the shelf minds: wax and PLA soften from about 45 °C (from memory). */
const COOL_C = 40;

/** Quotients of decimals carry noise far below this. */
const ROUNDING = 1e-9;

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
  /** In nothing harsher than the label's own situation. */
  readonly asLabel: boolean;
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
  const asLabel = milder(context, slots, pour, trial);
  const found = asLabel ? { ratio: 1, cautious: hottest } : safeRatio(ready, asked);
  const rangeC = rangeOf(ready, { trial, weights, peaksC });
  return { runs, ready, weights, asked, asLabel, found, rangeC, words: wordsOf(rangeC, family.concernC), safeDepthMm: found.ratio * formula.maxDepthMm };
}

/**
 * 5–95 % of the hottest point over the family, the lower end at a little less depth, the upper at a little more. By
 * their making all members agree at the label's depth, and just there a millimeter is the difference between warm and
 * burnt: what a label can't tell must not look as if it were known.
 */
function rangeOf(ready: readonly Ready[], { trial, weights, peaksC }: { trial: Trial; weights: readonly number[]; peaksC: readonly number[] }): readonly [number, number] {
  const end = (share: number, depthShare: number, from: readonly number[], beyond: number) => {
    const asked = reaching(from, weights, ENDS_SHARE);
    const peaks = ready.map(({ ground, pour }, i) => (asked.has(i) ? peakOn(ground, pour, { trial: { ...trial, depthMm: trial.depthMm * depthShare }, overC: Infinity }) : beyond));
    return weightedQuantile(peaks, weights, share);
  };
  const coolest = ready.map((_, i) => i).sort((a, b) => peaksC[a] - peaksC[b]);
  return [end(LOW, 1 / DEPTH_DOUBT, coolest, Infinity), end(HIGH, DEPTH_DOUBT, [...coolest].reverse(), -Infinity)];
}

/** The first of some places that hold a share of the weight together. */
function reaching(places: readonly number[], weights: readonly number[], share: number): ReadonlySet<number> {
  const taken = new Set<number>();
  let weight = 0;
  for (const place of places) {
    if (weight >= share) break;
    taken.add(place);
    weight += weights[place];
  }
  return taken;
}

function weightsOf(slots: readonly Slot[], families: readonly CureFamily[]): number[] {
  if (slots.length === 1) return [1];
  const raw = slots.map(({ place }) => families.reduce((product, { weights }) => product * weights[place % weights.length], 1));
  const sum = raw.reduce((a, b) => a + b, 0);
  return raw.map((weight) => weight / sum);
}

/** In nothing harsher than the label's own situation, for any member: then nothing needs to be solved. */
function milder({ mold }: BuildContext, slots: readonly Slot[], { formula, family }: BuildPour, { mixC, room }: Trial): boolean {
  return slots.every(({ ended }) => ended === null) && family.hastenedBy === 1 && mixC <= formula.atC && room.every(({ temperatureC }) => temperatureC <= formula.atC) && wallResistance(mold) <= LABEL_WALL_M2K_PER_W * (1 + ROUNDING);
}

/** In words: the borders are where figures begin to mind, and the label's own concern. */
function wordsOf([low, high]: readonly [number, number], concernC: number): HeatWords {
  if (high <= COOL_C) return 'cool';
  if (high <= concernC + SOLVER_K) return 'warm';
  return low > concernC ? 'hot' : "can't be told";
}
