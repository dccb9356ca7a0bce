/**
 * What the search for the best plan is asked: layers with the formulas each may be poured in, lines that must or may
 * not be, figures to lock, the bench and what things cost. Heights mm from the mold's floor, moments as in core/units/time.
 */
import type { Formula, Plane } from '../../scene/scene.ts';
import type { Pace } from '../schedule.ts';
import type { Floater } from '../split.ts';

/** What a plan is best at. */
export type Goal = 'fewest' | 'soonest' | 'coolest' | 'cheapest';
export const GOALS: readonly Goal[] = ['fewest', 'soonest', 'coolest', 'cheapest'];

/** A formula that a layer may be poured in, with the depth that is safe for it there: never above its label's. */
export interface Option {
  readonly formula: Formula;
  readonly limitMm: number;
  /** The same onto a tacky surface, which is still warm; left out: no different. */
  readonly wetMm?: number;
  /** How warm a pour of a depth gets, in whole steps, onto a tacky surface or not; left out: its depth over the limit is compared instead. */
  readonly warmth?: (depthMm: number, onTacky: boolean) => number;
}

export interface BestLayer {
  readonly fromMm: number;
  readonly toMm: number;
  /** One formula a layer. At least one. */
  readonly options: readonly Option[];
  /** Painted on its top before what follows. */
  readonly planes: readonly Plane[];
}

export interface HeightSpan {
  readonly fromMm: number;
  readonly toMm: number;
}

export interface Expenses {
  /** Money per mL of mix by formula id; null: a price is missing, and mass of resin is compared instead. */
  readonly perMl: ReadonlyMap<string, number> | null;
  /** Consumables of a pour and of a scuff, in the same money. */
  readonly perPour: number;
  readonly perScuff: number;
}

export interface BestProblem {
  readonly pace: Pace;
  readonly startMin: number;
  /** From the floor up; each begins at or above the top of the one below. */
  readonly layers: readonly BestLayer[];
  /** Painted on the floor before the first pour. */
  readonly floor: readonly Plane[];
  /** Those that a pour can lock. */
  readonly floaters: readonly Floater[];
  readonly pinsMm: readonly number[];
  readonly avoid: readonly HeightSpan[];
  /** Lines that may be drawn beside the grid's: those of the even plan, so that no goal does worse than it. */
  readonly alsoMm: readonly number[];
  /** Resin below a height, mL: the mold's less what stands in it. Never falls with height. */
  readonly netBelowMl: (atMm: number) => number;
  readonly expenses: Expenses;
  /** Minutes of hands from mixing one cup to having it poured; null: not asked. */
  readonly cupMin: number | null;
  /** How much a line at a height would show: 0 at an edge that is there anyway, 1 in plain resin, 2 across a figure. */
  readonly shows: (atMm: number) => 0 | 1 | 2;
}
