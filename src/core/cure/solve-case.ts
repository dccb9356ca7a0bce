/** Solves a case: the run its pours and its room describe, on a finer grid and at tighter tolerances than dragging needs. */
import type { CureCase } from './case.ts';
import { tabulated } from './rate-table.ts';
import { energyBalanceOf } from './stack-profile.ts';
import { advance, pourOn, startStack, type StackState } from './stack.ts';
import type { StackOptions, Stop } from './stack-types.ts';

/** Of one pour, in seconds from when it was poured; its record ends when the next is. */
export interface CasePour {
  readonly midPeakC: number;
  readonly midPeakAtS: number;
  /** Null: the middle does not gel before the next pour or the end. */
  readonly midGelS: number | null;
  /** At the hottest point of the pour. */
  readonly peakC: number;
}

export interface CaseSolution {
  readonly pours: readonly CasePour[];
  /** Unaccounted share of the heat released over the whole run. */
  readonly energyBalance: number;
}

/** Peaks within 0.03 K of the limit of ever finer grids where they are mild, 0.01 K and 0.01 % of gel by the steps. */
const CASE_OPTIONS: StackOptions = { temperatureToleranceK: 0.002, conversionTolerance: 1e-4, mergeAfterPours: Infinity };
const CELL_MM = 0.5;
/** More say nothing more about a deep stack, and take minutes. */
const MOST_CELLS = 4000;
const S_PER_H = 3600;

/** Throws when the reaction outruns every step, which no kinetics with an end allows. */
export function solveCase({ material, kinetics, room, top, bottom, side, pours, endH }: CureCase, options: StackOptions = {}): CaseSolution {
  const depthMm = pours.reduce((sum, pour) => sum + pour.depthMm, 0);
  const stack = startStack(
    { room: room.map(({ fromH, temperatureC }) => ({ fromS: fromH * S_PER_H, temperatureC })), topHWPerM2K: top.hWPerM2K, bottomHWPerM2K: bottom.hWPerM2K },
    { ...CASE_OPTIONS, cellMm: Math.max(CELL_MM, depthMm / MOST_CELLS), ...options },
  );
  const law = tabulated(kinetics);
  for (const { depthMm: oneMm, atH, mixC } of pours) {
    const roomC = room.filter(({ fromH }) => fromH <= atH).at(-1)!.temperatureC;
    refuseStuck(stack, pourOn(stack, { depthMm: oneMm, mixC: mixC ?? roomC, material, kinetics: law, sideWPerM3K: side.wPerM3K }, atH * S_PER_H));
  }
  refuseStuck(stack, advance(stack, endH * S_PER_H));
  return {
    pours: stack.records.map(({ midPeakC, midPeakAtS, midGelS, peakC }) => ({ midPeakC, midPeakAtS, midGelS, peakC })),
    energyBalance: energyBalanceOf(stack),
  };
}

function refuseStuck({ timeS }: StackState, stop: Stop): void {
  if (stop === 'stuck') throw new Error(`The heat outruns every step of the calculation ${(timeS / S_PER_H).toFixed(2)} h after the start; expected kinetics that come to an end. Check them.`);
}
