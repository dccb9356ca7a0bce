/**
 * What simulated warmth does to the moments of a label: the bond may be gone sooner, everything else may have to wait
 * longer, never the other way about. Moments are scene minutes.
 */
import type { Windows } from './verdict-types.ts';

/** A surface this close to the room is as good as cool (design: before the next pour within 5 K). */
export const SETTLED_K = 5;
/** Under this the label's moment stays: no clock on a bench is better (design), minutes. */
export const LEAST_MOVE_MIN = 15;

/** The moments of a pour that warmth may move. */
export interface MovableTimes {
  readonly opens: number;
  readonly closes: number;
  readonly scuffable: number;
  readonly paintable: number;
  readonly demold: number;
}

/**
 * The label's moments tightened by simulated ones: `closes` the earlier, the others the later; a difference under
 * 15 minutes leaves the label's. Whole minutes, rounded to the safe side.
 */
export function tightened(label: MovableTimes, windows: Windows): MovableTimes {
  return {
    opens: later(label.opens, windows.opensMin),
    closes: earlier(label.closes, windows.closesMin),
    scuffable: later(label.scuffable, windows.scuffableMin),
    paintable: later(label.paintable, windows.paintableMin),
    demold: later(label.demold, windows.demoldMin),
  };
}

function later(label: number, simulated: number | null): number {
  return simulated !== null && simulated - label >= LEAST_MOVE_MIN ? Math.ceil(simulated) : label;
}

function earlier(label: number, simulated: number | null): number {
  return simulated !== null && label - simulated >= LEAST_MOVE_MIN ? Math.floor(simulated) : label;
}
