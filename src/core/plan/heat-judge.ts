/** Who says how warm a pour gets. The planner asks one pour at a time, from the floor up; a caller may remember, or ask for less. */
import type { CupAsked, CupVerdict } from '../cure/cup.ts';
import type { CureFamily } from '../cure/family-types.ts';
import type { BuildPour, Fix, PourVerdict } from '../cure/verdict-types.ts';
import type { Formula, Mold, Room } from '../scene/scene.ts';

/** What is in the mold so far, with the heat and cure that are left in it. A value: one may be poured on many times. */
export interface HeatSoFar {
  pour(pour: BuildPour): Judged;
}

export interface Judged {
  readonly verdict: PourVerdict;
  /** With this pour in the mold. */
  readonly then: HeatSoFar;
  /** What would help this pour, each solved again: asked for only where it is needed. */
  fixes(): readonly Fix[];
}

export interface HeatJudge {
  /** How it judges, for people and for the plan: `simulated, one dimension`. */
  readonly model: string;
  /** What a formula's label, and test cups of it, tell of its heat. */
  familyOf(formula: Formula): CureFamily;
  /** How warm a cup gets before its usable minutes end. */
  cup(formula: Formula, asked: CupAsked): CupVerdict;
  begin(mold: Mold, room: Room): HeatSoFar;
}
