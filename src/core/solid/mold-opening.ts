/** The height at which beds stop closing the mold's whole section: where the first resin can stand. */

import type { Mold } from '../scene/scene.ts';
import { moldAreaAt, moldVolumeBelow } from './mold.ts';
import { sectionAt, volumeBetween, type Term } from './shape-sum.ts';
import type { TriangleMesh } from './solid.ts';

export interface OpeningOptions {
  readonly mold: Mold;
  /** What the beds take up together. */
  readonly terms: readonly Term[];
  /** The beds' own heights, to the last bit: bounds, then meshes as posed. */
  readonly exactHeights: readonly number[];
  readonly exactMeshes: () => readonly TriangleMesh[];
  /** Beds cut by the walls; their corners are rounded to 32 bits. */
  readonly cutMeshes: () => readonly TriangleMesh[];
  /** No boolean had a part in `terms`. */
  readonly exact: boolean;
}

/** Share of section or volume that may be free and still count as closed: rounding of doubles. */
const CLOSED_SHARE_EXACT = 1e-10;
/** The same for 32-bit meshes: 4e-6 mm at 100 mm, along the whole wall of a small mold, with a margin of ten. */
const CLOSED_SHARE_CUT = 2e-6;
/** mm. An opening is found late by at most the share above times the bed's height; a bed's own height this near below is it. */
const SNAP_BELOW_MM = 1e-3;
/** mm. It is found early only by the rounding of 32-bit corners, 4e-6 mm at 100 mm. */
const SNAP_ABOVE_MM = 2e-5;
const MAX_HALVINGS = 100;

/**
 * Answers `Displacement.opensAt`. Halves on free volume, which only grows with height, for a height up to which an
 * opening lies; then on the free section below it, which tells sharper where. A gap that comes and closes again is
 * seen while it holds over the closed share of the volume up to the height looked at.
 */
export function openingOf(options: OpeningOptions): (fromMm: number, toMm: number) => number | null {
  const { mold, terms } = options;
  const share = options.exact ? CLOSED_SHARE_EXACT : CLOSED_SHARE_CUT;
  const opened = (from: number, z: number): boolean => {
    const whole = moldVolumeBelow(mold, z) - moldVolumeBelow(mold, from);
    return whole - volumeBetween(terms, from, z) > share * whole;
  };
  const open = (z: number): boolean => {
    const area = moldAreaAt(mold, z);
    return area - sectionAt(terms, z) > share * area;
  };
  return (fromMm, toMm) => {
    const from = Math.max(0, fromMm);
    if (!(toMm > from)) return null;
    if (open(from)) return fromMm;
    if (!opened(from, toMm)) return null;
    let high = firstTrue(from, toMm, (z) => opened(from, z));
    if (open(high)) high = firstTrue(from, high, open);
    const height = snapped(options, from, high);
    return height < toMm ? height : null;
  };
}

/** Halves between a height where `holds` is false and one where it is true, to the spacing of doubles. */
function firstTrue(lowMm: number, highMm: number, holds: (z: number) => boolean): number {
  let low = lowMm;
  let high = highMm;
  for (let i = 0; i < MAX_HALVINGS && high - low > 4 * Number.EPSILON * high; i++) {
    const middle = 0.5 * (low + high);
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** The nearest of the beds' heights, exact ones first. */
function snapped(options: OpeningOptions, from: number, height: number): number {
  let best: number | null = null;
  const offer = (z: number): void => {
    if (z < from || height - z > SNAP_BELOW_MM || z - height > SNAP_ABOVE_MM) return;
    if (best === null || Math.abs(z - height) < Math.abs(best - height)) best = z;
  };
  const offerCorners = ({ positions }: TriangleMesh): void => {
    for (let i = 2; i < positions.length; i += 3) offer(positions[i]);
  };
  offer(from);
  options.exactHeights.forEach(offer);
  if (best === null) options.exactMeshes().forEach(offerCorners);
  if (best === null) options.cutMeshes().forEach(offerCorners);
  return best ?? height;
}
