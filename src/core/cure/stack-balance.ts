/**
 * What became of a run's heat. The loss is integrated on its own, from the faces' flow along the steps (Hermite's
 * cubic, error of order 5 in a step), not as one more unknown of the stepper, which would close by construction.
 */
import type { Grid } from './stack-grid.ts';

/** J per m² of a slab, per radian of a cylinder, per steradian of a sphere. */
export interface HeatBalance {
  /** By the cure. */
  releasedJ: number;
  /** To the room, through floor, open face and sides. */
  lostJ: number;
  /** With the mixes, over 0 °C. */
  broughtJ: number;
}

export function emptyBalance(): HeatBalance {
  return { releasedJ: 0, lostJ: 0, broughtJ: 0 };
}

/**
 * Heat that is unaccounted for, as a share of the heat released; of the heat lost or stored where that is more, as in
 * warm resin that hardly reacts. 0 where no heat moved.
 */
export function unaccountedShare({ releasedJ, lostJ, broughtJ }: HeatBalance, grid: Grid | null, temperatureC: Float64Array): number {
  let heldJ = 0;
  for (let i = 0; i < temperatureC.length; i++) heldJ += (grid as Grid).capacity[i] * temperatureC[i];
  const storedJ = heldJ - broughtJ;
  const movedJ = Math.max(Math.abs(releasedJ), Math.abs(lostJ), Math.abs(storedJ));
  return movedJ === 0 ? 0 : Math.abs(releasedJ - lostJ - storedJ) / movedJ;
}

/** W to the room at one moment, or with K/s for K and the room's rise for its temperature, W/s. */
export function flowOut({ passes, side, hasSides }: Grid, values: Float64Array, room: number): number {
  const last = values.length - 1;
  let flow = passes[0] * (values[0] - room) + passes[last + 1] * (values[last] - room);
  if (hasSides) for (let i = 0; i <= last; i++) flow += side[i] * (values[i] - room);
  return flow;
}
