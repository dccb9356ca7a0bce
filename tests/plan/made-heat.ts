/**
 * A heat that is known exactly, to test what the planner makes of any heat: the safe depth is a stated share of the
 * label's, and warmth moves the label's times by stated minutes. No physics; the model itself is tested in tests/core/cure.
 */
import type { BuildPour, Fix, PourVerdict } from '../../src/core/cure/verdict-types.ts';
import type { CureFamily } from '../../src/core/cure/family-types.ts';
import type { HeatJudge, HeatSoFar } from '../../src/core/plan/heat-judge.ts';
import type { Formula } from '../../src/core/scene/scene.ts';
import { mulberry32 } from './random-scenes.ts';

export interface Says {
  /** Share of the label's depth that is safe; 1 where none is given. */
  readonly share?: number;
  readonly rangeC?: readonly [number, number];
  readonly cause?: PourVerdict['cause'];
  /** Scene minutes; null or left out: the label's stands. */
  readonly windows?: Partial<PourVerdict['windows']>;
  readonly fixes?: readonly Fix[];
}

/** What is said of a pour on those below it. */
export type Say = (pour: BuildPour, below: readonly BuildPour[]) => Says;

export interface MadeHeat extends HeatJudge {
  /** How many pours were judged. */
  readonly judged: () => number;
}

/** In a room of over 20 °C cups are hot over `hotOverG`, and then usable half as long. */
export function madeHeat(say: Say, { hotOverG = Infinity, ...family }: Partial<CureFamily> & { readonly hotOverG?: number } = {}): MadeHeat {
  let count = 0;
  const on = (below: readonly BuildPour[]): HeatSoFar => ({
    pour(pour) {
      count++;
      const { share = 1, rangeC = [30, 40], cause = 'room', windows = {}, fixes = [] } = say(pour, below);
      return { verdict: verdictOf(pour.formula, { share, rangeC, cause, windows }), then: on([...below, pour]), fixes: () => fixes };
    },
  });
  const cup: HeatJudge['cup'] = (_formula, { batchG, roomC, usableMin }) => {
    const hot = roomC > 20 && batchG > hotOverG;
    return { endC: [roomC, roomC + batchG / 10], hot, passesMin: hot ? usableMin / 2 : null, usableMin: hot ? usableMin / 2 : usableMin, words: 'A cup.' };
  };
  return { model: 'made for a test', cup, familyOf: (formula) => familyOf(formula, family), begin: () => on([]), judged: () => count };
}

/** Heat drawn anew for every situation, the same for the same one: often mild, at times harsh, warmer on thick pours below. */
export function randomHeat(seed: number): MadeHeat {
  return madeHeat((pour, below): Says => {
    const dice = mulberry32(mixed(seed, pour, below));
    const share = dice() < 0.4 ? 1 : 0.12 + 0.9 * dice();
    const moved = (chance: number) => (dice() < chance ? pour.fromMin + dice() * 40 * 60 : null);
    return { share, rangeC: [30, 30 + 60 * dice()], windows: { closesMin: moved(0.3), opensMin: moved(0.4), scuffableMin: moved(0.3), paintableMin: moved(0.3), demoldMin: moved(0.3) } };
  });
}

function mixed(seed: number, pour: BuildPour, below: readonly BuildPour[]): number {
  let hash = seed;
  for (const { fromMin, depthMm } of [...below, pour]) hash = Math.imul(hash ^ Math.round(fromMin * 7 + depthMm * 1e4), 0x9e3779b1) | 0;
  return hash >>> 0;
}

function verdictOf({ maxDepthMm }: Formula, { share, rangeC, cause, windows }: Required<Omit<Says, 'fixes'>>): PourVerdict {
  return {
    rangeC,
    words: 'warm',
    afterH: 6,
    safeDepthMm: maxDepthMm * Math.min(1, share),
    harsher: share < 1,
    cause,
    tooWarmRoomC: 31,
    windows: { closesMin: null, opensMin: null, scuffableMin: null, paintableMin: null, demoldMin: null, ...windows },
    bubbles: { smallestMm: 0.1, words: 'Clears.' },
    softens: { fromC: 45, toC: 60, words: 'Softens.' },
  };
}

function familyOf({ id }: Formula, family: Partial<CureFamily>): CureFamily {
  return { formulaId: id, members: [], weights: [], meanIndex: 0, concernC: 60, hastenedBy: 1, hotCups: [], contradictions: [], narrowedBy: null, ...family };
}
