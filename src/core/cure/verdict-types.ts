/**
 * What is said of the heat of each pour of a build. Every verdict only tightens the label: `safeDepthMm` is never over
 * the label's greatest depth, a window never closes later nor opens sooner than the label's.
 */
import type { Formula, Mold, Room } from '../scene/scene.ts';
import type { Bubbles } from './bubbles.ts';
import type { CureFamily } from './family-types.ts';
import type { Softening } from './softening.ts';

export interface BuildPour {
  /** When pouring begins, scene minutes. */
  readonly fromMin: number;
  readonly depthMm: number;
  readonly formula: Formula;
  readonly family: CureFamily;
  /** Of the mix as it is poured; the room's at that moment where none is given. */
  readonly mixC?: number;
  /** What is around the piece, before and after, where that is not the build's room: a curing box at times. */
  readonly room?: Room;
}

/** All pours that are one on another, in the order they are poured. */
export interface Build {
  readonly mold: Mold;
  readonly room: Room;
  readonly pours: readonly BuildPour[];
}

export interface JudgeOptions {
  /** `mean`: the middle member of every family alone, at once; its range is one temperature twice. */
  readonly members?: 'all' | 'mean';
  /** Family of a formula that a remedy asks for; made anew where no one remembers it. */
  readonly familyOf?: (formula: Formula) => CureFamily;
}

export type HeatWords = 'cool' | 'warm' | 'hot' | "can't be told";

/** `cup`: a test cup went faster than the label. `warm bottles`: the mix comes warmer than room and label. */
export type HeatCause = 'depth' | 'room' | 'curing box' | 'narrow mold' | 'warm layer below' | 'insulating wall' | 'cup' | 'warm bottles';

/** Moments of a pour as its simulated warmth has them, scene minutes; null where the label's stands. */
export interface Windows {
  /** Earliest the bond is gone. */
  readonly closesMin: number | null;
  /** From when the surface is within 5 K of the room: nothing is done on it sooner. */
  readonly opensMin: number | null;
  readonly scuffableMin: number | null;
  readonly paintableMin: number | null;
  readonly demoldMin: number | null;
}

export interface PourVerdict {
  /** 5–95 % of the hottest point over the family, °C. */
  readonly rangeC: readonly [number, number];
  readonly words: HeatWords;
  /** When the peak comes, hours from the pour's start. */
  readonly afterH: number;
  /** Never over the label's. */
  readonly safeDepthMm: number;
  /** The same range without the curing box it goes into. */
  readonly inRoomC?: readonly [number, number];
  /** This situation is harsher than the label's. */
  readonly harsher: boolean;
  readonly cause: HeatCause;
  /** The room, held from the pour on, that would be too much for this depth, °C. */
  readonly tooWarmRoomC: number;
  readonly windows: Windows;
  readonly bubbles: Bubbles;
  readonly softens: Softening;
}

export type FixKind = 'split' | 'wait' | 'cool' | 'formula';

/** What would help a pour, with what it comes to then: solved again, not estimated. */
export interface Fix {
  readonly kind: FixKind;
  /** split: how many pours; wait: hours more; cool: room °C; formula: a class's id. */
  readonly amount: number | string;
  readonly words: string;
  readonly after: { readonly safeDepthMm: number; readonly rangeC: readonly [number, number]; readonly words: HeatWords };
}
