/** A layer into pours: the fewest of equal height within the label's depth, divided where a floater must be locked. */

import { STOP_TOLERANCE_MM } from '../scene/tolerance.ts';

/** Heights typed in decimals carry noise far below this. */
const ROUNDING_MM = 1e-9;
/** The grid that locking pours end on, mm. */
const LOCK_GRID_MM = 0.5;

export interface Floater {
  readonly id: string;
  readonly baseMm: number;
  readonly safeLockMm: number;
}

export interface SplitLimits {
  readonly maxDepthMm: number;
  readonly minDepthMm: number;
}

export interface Split {
  /** Pour tops from the bottom up; the last is the layer's own. */
  readonly topsMm: readonly number[];
  /** Tops that divide the layer for a floater: the pour below each is a locking pour. */
  readonly divisionsMm: readonly number[];
  /** Floaters that no division can lock; the pours are then the equal split. */
  readonly unlockable: readonly string[];
  /** Those of them that could be locked if the others weren’t there. */
  readonly crowded: readonly string[];
}

/** How many equal pours keep within a depth. */
export function fewestPours(depthMm: number, maxDepthMm: number): number {
  return Math.max(1, Math.ceil(depthMm / maxDepthMm - ROUNDING_MM));
}

/** Splits a layer. `floaters` are those whose base this layer is the first to cover. */
export function splitLayer(fromMm: number, toMm: number, limits: SplitLimits, floaters: readonly Floater[]): Split {
  const inOrder = sharedBases(floaters);
  let bounds = [fromMm, toMm];
  // A division can only shorten pours or move a top that another floater relied on: begin again after each.
  for (let again = true; again; ) {
    again = false;
    const tops = equalTops(bounds, limits.maxDepthMm);
    for (const floater of inOrder) {
      if (isLocked(floater, tops)) continue;
      const division = divisionFor(floater, bounds, limits.minDepthMm);
      if (division === null) return loose(fromMm, toMm, limits, floaters);
      bounds = [...bounds, division].sort((a, b) => a - b);
      again = true;
      break;
    }
  }
  return { topsMm: equalTops(bounds, limits.maxDepthMm), divisionsMm: bounds.slice(1, -1), unlockable: [], crowded: [] };
}

/** The top of the first pour that covers a base; a film no thicker than the stop tolerance covers nothing. */
export function firstTopAbove(baseMm: number, topsMm: readonly number[]): number | undefined {
  return topsMm.find((top) => top > baseMm + STOP_TOLERANCE_MM + ROUNDING_MM);
}

/** Floaters by base from the bottom up. Those on one base are one floater, as shallow as the shallowest. */
function sharedBases(floaters: readonly Floater[]): Floater[] {
  const bases: Floater[] = [];
  for (const floater of [...floaters].sort((a, b) => a.baseMm - b.baseMm)) {
    const last = bases[bases.length - 1];
    if (!last || floater.baseMm - last.baseMm > STOP_TOLERANCE_MM + ROUNDING_MM) bases.push(floater);
    else if (floater.safeLockMm < last.safeLockMm) bases[bases.length - 1] = { ...last, safeLockMm: floater.safeLockMm };
  }
  return bases;
}

function isLocked(floater: Floater, topsMm: readonly number[]): boolean {
  const top = firstTopAbove(floater.baseMm, topsMm);
  return top === undefined || top - floater.baseMm <= floater.safeLockMm + ROUNDING_MM;
}

/** Base + d, d the deepest multiple of the grid within the safe depth that leaves both parts deep enough. */
function divisionFor(floater: Floater, bounds: readonly number[], minDepthMm: number): number | null {
  const upper = bounds.findIndex((bound) => bound > floater.baseMm + ROUNDING_MM);
  const bottom = bounds[Math.max(0, upper - 1)];
  const top = bounds[upper];
  const deepest = Math.min(floater.safeLockMm, top - minDepthMm - floater.baseMm) + ROUNDING_MM;
  const depth = Math.floor(deepest / LOCK_GRID_MM) * LOCK_GRID_MM;
  const division = floater.baseMm + depth;
  const fits = depth > 0 && division - bottom >= minDepthMm - ROUNDING_MM && top - division >= minDepthMm - ROUNDING_MM;
  return fits && division < top - ROUNDING_MM ? division : null;
}

/** The equal split, with the floaters it leaves loose: no set of divisions mends all of them. */
function loose(fromMm: number, toMm: number, limits: SplitLimits, floaters: readonly Floater[]): Split {
  const topsMm = equalTops([fromMm, toMm], limits.maxDepthMm);
  const unlocked = floaters.filter((floater) => !isLocked(floater, topsMm));
  const crowded = floaters.length > 1 ? unlocked.filter((floater) => splitLayer(fromMm, toMm, limits, [floater]).unlockable.length === 0) : [];
  return { topsMm, divisionsMm: [], unlockable: unlocked.map(({ id }) => id), crowded: crowded.map(({ id }) => id) };
}

function equalTops(bounds: readonly number[], maxDepthMm: number): number[] {
  const tops: number[] = [];
  for (let i = 1; i < bounds.length; i++) {
    const depth = bounds[i] - bounds[i - 1];
    const count = fewestPours(depth, maxDepthMm);
    for (let k = 1; k < count; k++) tops.push(bounds[i - 1] + (depth * k) / count);
    tops.push(bounds[i]);
  }
  return tops;
}
