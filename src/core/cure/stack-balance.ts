/**
 * What became of a run's heat: released by the cure, lost to the room, held. The loss is one more unknown of each step,
 * so that the balance closes to rounding where every cell's heat goes somewhere: it proves closing, not accuracy.
 * Tried: the loss from the flow along each step (Hermite's cubic); 0.3 % off in a film, whose steps are long.
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
