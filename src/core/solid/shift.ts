/** A solid moved up or down: the same profile, asked at other heights. */
import type { Profile } from './solid.ts';

/**
 * The profile of the same solid `dzMm` higher. O(1): nothing is copied.
 * At the moved bottom and top the answer is exactly that of the solid's own bottom and top; at a flat face
 * between them the section may be that of a height one rounding beside it.
 * @throws RangeError when dzMm is not finite
 */
export function shifted(profile: Profile, dzMm: number): Profile {
  if (!Number.isFinite(dzMm)) throw new RangeError(`A solid was to be moved by ${dzMm} mm; give a finite height.`);
  const bottomMm = profile.bottomMm + dzMm;
  const topMm = profile.topMm + dzMm;
  const own = (zMm: number): number => {
    if (zMm === bottomMm) return profile.bottomMm;
    return zMm === topMm ? profile.topMm : zMm - dzMm;
  };
  return {
    bottomMm,
    topMm,
    volumeMm3: profile.volumeMm3,
    volumeBelow: (zMm) => profile.volumeBelow(own(zMm)),
    areaAt: (zMm) => profile.areaAt(own(zMm)),
    levelOf: (volumeMm3) => profile.levelOf(volumeMm3) + dzMm,
  };
}
