/** How much of a bed is really in the mold: what walls and floor cut off is not part of the piece. */
import type { Mold } from '../scene/scene.ts';
import { clipToWalls, type ReachingSolid } from './mold-clip.ts';
import { moldCutter } from './mold.ts';
import { levelWhere } from './shape-level.ts';
import { sectionAt, volumeBetween } from './shape-sum.ts';
import type { Booleans, Profile } from './solid.ts';

/** mm; far below what a bench can tell. */
const LEVEL_TOLERANCE_MM = 1e-9;

/** The profile of a solid's part over the floor and between the walls (extrapolated above the rim); its own where nothing is cut. */
export function insideMold(mold: Mold, solid: ReachingSolid, booleans: Booleans): Profile {
  const { profile } = solid;
  const { terms, cut } = clipToWalls(mold, solid, booleans, () => moldCutter(mold, Math.max(1, profile.topMm + 1)));
  if (!cut && profile.bottomMm >= 0) return profile;
  const bottomMm = Math.max(0, profile.bottomMm);
  const topMm = Math.max(bottomMm, profile.topMm);
  const volumeMm3 = Math.max(0, volumeBetween(terms, bottomMm, topMm));
  const volumeBelow = (zMm: number) => Math.min(volumeMm3, Math.max(0, volumeBetween(terms, bottomMm, zMm)));
  const areaAt = (zMm: number) => (zMm < bottomMm ? 0 : sectionAt(terms, zMm));
  const levelOf = (target: number) => {
    if (!(target > 0)) return bottomMm;
    return target >= volumeMm3 ? topMm : levelWhere({ volumeBelow, areaAt, lowMm: bottomMm, highMm: topMm, target, toleranceMm: LEVEL_TOLERANCE_MM });
  };
  return { bottomMm, topMm, volumeMm3, volumeBelow, areaAt, levelOf };
}
