/** How warm the room may get before a pour of this depth is too much: found by solving, for the cautious member. */
import { inPlace, peakOn, type Trial } from './build-run.ts';
import { risingRoot } from './rising-root.ts';
import { SOLVER_K, type Ready } from './safe-depth.ts';

/** Rooms that are tried, °C; the upper end is no room, the lower no cure. */
const COLDEST_C = -10;
const WARMEST_C = 60;
const FIRST_STRIDE_C = 3;
const FOUND_C = 0.2;
/** Over the concern by this much a temperature says no more than "too hot", K. */
const OVER_K = 12;

/** The room, held from the pour on, in which its hottest point would just reach the concern, °C. `mixFollows`: the mix is as warm as the room. */
export function tooWarmRoom({ ground, pour }: Ready, { trial, concernC, mixFollows }: { trial: Trial; concernC: number; mixFollows: boolean }): number {
  const limitC = concernC + SOLVER_K;
  const excess = (roomC: number) => {
    const held: Trial = { ...trial, mixC: mixFollows ? roomC : trial.mixC, room: [{ fromS: trial.atS, temperatureC: roomC }] };
    return Math.min(OVER_K, peakOn(inPlace(ground, held, pour.cooling), pour, { trial: held, overC: limitC + OVER_K }) - limitC);
  };
  const from = trial.room[0].temperatureC;
  return Math.max(COLDEST_C, risingRoot(excess, { from, stride: FIRST_STRIDE_C, lowest: COLDEST_C, highest: WARMEST_C, apart: FOUND_C, under: SOLVER_K / 3 }));
}
