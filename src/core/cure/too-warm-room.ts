/**
 * How warm the room may get before a pour of this depth is too much: found by solving, by the rule that the safe depth
 * goes by, so that the two never contradict one another. Which member minds first changes with the room: all are asked.
 */
import { inPlace, peakOn, type Trial } from './build-run.ts';
import { weightedQuantile } from './family-types.ts';
import { risingRoot } from './rising-root.ts';
import { CAUTIOUS_SHARE, SOLVER_K, type Ready } from './safe-depth.ts';

/** Rooms that are tried, °C; the upper end is no room, the lower no cure. */
const COLDEST_C = -10;
const WARMEST_C = 60;
const FIRST_STRIDE_C = 3;
const FOUND_C = 0.2;
/** Over the concern by this much a temperature says no more than "too hot", K. */
const OVER_K = 12;

export interface RoomAsked {
  readonly trial: Trial;
  readonly concernC: number;
  readonly weights: readonly number[];
  /** In the room as it is. */
  readonly peaksC: readonly number[];
  /** The mix is as warm as the room. */
  readonly mixFollows: boolean;
}

/** The warmest room, held from the pour on, in which the cautious end of the family does not reach the concern, °C; found from the cool side. */
export function tooWarmRoom(all: readonly Ready[], { trial, concernC, weights, peaksC, mixFollows }: RoomAsked): number {
  const limitC = concernC + SOLVER_K;
  const peakIn = ({ ground, pour }: Ready, roomC: number, overC: number) => {
    const held: Trial = { ...trial, mixC: mixFollows ? roomC : trial.mixC, room: [{ fromS: trial.atS, temperatureC: roomC }] };
    return peakOn(inPlace(ground, held, pour.cooling), pour, { trial: held, overC });
  };
  const rooms = all.map(() => WARMEST_C);
  let from = trial.room[0].temperatureC;
  let foundWeight = 0;
  // Those that get the hottest here mind first, as a rule; the others are asked whether they mind sooner still.
  for (const i of all.map((_, at) => at).sort((a, b) => peaksC[b] - peaksC[a])) {
    const enough = foundWeight >= CAUTIOUS_SHARE;
    const bound = enough ? weightedQuantile(rooms, weights, CAUTIOUS_SHARE) : WARMEST_C;
    if (enough && peakIn(all[i], bound, limitC) <= limitC) continue;
    const excess = (roomC: number) => Math.min(OVER_K, peakIn(all[i], roomC, limitC + OVER_K) - limitC);
    rooms[i] = risingRoot(excess, { from, stride: FIRST_STRIDE_C, lowest: COLDEST_C, highest: WARMEST_C, apart: FOUND_C, under: SOLVER_K / 3 });
    from = rooms[i];
    foundWeight += weights[i];
  }
  return Math.max(COLDEST_C, weightedQuantile(rooms, weights, CAUTIOUS_SHARE));
}
