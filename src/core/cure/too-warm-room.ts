/** How warm the room may get before a pour of this depth is too much: found by solving, for the cautious member. */
import { groundOf, peakOn, type Slot, type Trial } from './build-run.ts';
import { SOLVER_K, type Ready } from './safe-depth.ts';

/** Rooms that are tried, °C; the upper end is no room, the lower no cure. */
const ROOMS_C = [-10, 60] as const;
const FOUND_C = 0.1;

/** The room, held from the pour on, in which its hottest point would just reach the concern, °C. `mixFollows`: the mix is as warm as the room. */
export function tooWarmRoom(slot: Slot, { pour }: Ready, { trial, concernC, mixFollows }: { trial: Trial; concernC: number; mixFollows: boolean }): number {
  const tooMuch = (roomC: number) => {
    const held: Trial = { ...trial, mixC: mixFollows ? roomC : trial.mixC, room: [{ fromS: trial.atS, temperatureC: roomC }] };
    return peakOn(groundOf(slot, held, pour.cooling), pour, { trial: held, overC: concernC + SOLVER_K }) > concernC + SOLVER_K;
  };
  let [low, high]: [number, number] = [ROOMS_C[0], ROOMS_C[1]];
  while (high - low > FOUND_C) {
    const middle = (low + high) / 2;
    if (tooMuch(middle)) high = middle;
    else low = middle;
  }
  return low;
}
