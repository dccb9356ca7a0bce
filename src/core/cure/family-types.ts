/**
 * What a label can tell of a resin's heat: not one kinetics but a family of them, every member of which meets the
 * label's greatest depth exactly. No published, complete case of an unfilled resin cured at room temperature exists
 * to our knowledge; so a member is a possibility, and only what the whole family says is told.
 */
import type { Kinetics, ThermalMaterial } from './kinetics.ts';

/** One resin that would bear this label. */
export interface Member {
  /** Anchored: in the label's own situation its hottest point just reaches the family's `concernC` at `maxDepthMm`. */
  readonly kinetics: Kinetics;
  readonly material: ThermalMaterial;
  /** Still air and radiation over the open face. */
  readonly topHWPerM2K: number;
  /** The same under the mold, where a bench hinders the air. */
  readonly underHWPerM2K: number;
  /**
   * In a cup the pot life holds: how many times faster it goes there than the depth makes it go. Slower than that by
   * more than times are known to it never is: a long pot life on a label does not cool what its small depth says is hot.
   */
  readonly cupRate: number;
}

/** A cup over this before its usable minutes end is too hot (design), °C. */
export const CUP_HOT_C = 50;

/** A test cup that passed 50 °C within the minutes its label gives it: none as large is mixed. */
export interface HotCup {
  readonly massG: number;
  /** When it passed 50 °C. */
  readonly afterMin: number;
}

/** A label value that the depth's heat does not bear out. */
export interface Contradiction {
  readonly field: 'potLifeMin' | 'bondOpensH' | 'demoldH' | 'testCup';
  /** For people: what the label says against what its depth makes one expect. */
  readonly words: string;
  /** How many times longer (over 1) or shorter (under 1) the depth makes one expect it; 1 where there is no such number. */
  readonly factor: number;
}

/** What test cups told. */
export interface Narrowed {
  readonly cups: number;
  readonly readings: number;
  /** 5–95 % of the hottest point at three quarters of the label's depth, in its own situation, °C. */
  readonly beforeC: readonly [number, number];
  readonly afterC: readonly [number, number];
  /** How many members' worth of weight is left, of all that were drawn. */
  readonly leftFraction: number;
  readonly words: string;
}

/** Of some values with weights that sum to 1: the one under which `share` of the weight lies. */
export function weightedQuantile(values: readonly number[], weights: readonly number[], share: number): number {
  const order = values.map((_, i) => i).sort((a, b) => values[a] - values[b]);
  let below = 0;
  for (const i of order) {
    below += weights[i];
    if (below >= share) return values[i];
  }
  return values[order[order.length - 1]];
}

export interface CureFamily {
  readonly formulaId: string;
  /** At least 32. */
  readonly members: readonly Member[];
  /** Sum to 1. */
  readonly weights: readonly number[];
  /** The member in the middle: used at once while something is dragged. */
  readonly meanIndex: number;
  /** Temperature the hottest point reaches at the label's greatest depth. */
  readonly concernC: number;
  /** How many times faster than its label test cups found it; 1 where none did. Never under 1: cups only tighten. */
  readonly hastenedBy: number;
  readonly hotCups: readonly HotCup[];
  readonly contradictions: readonly Contradiction[];
  /** Null: no test cup. */
  readonly narrowedBy: Narrowed | null;
}

/** The member in the middle, as fast as test cups found it. Its `cupRate` still is against the label's depth. */
export function middleMember({ members, meanIndex, hastenedBy }: CureFamily): Member {
  const member = members[meanIndex];
  // Both rate constants go by k2, so that all of the rate does.
  return { ...member, kinetics: { ...member.kinetics, k2PerS: member.kinetics.k2PerS * hastenedBy } };
}
