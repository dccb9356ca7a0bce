/** How much of a bed is really in the mold: what the walls cut off is not part of the piece. */
import type { Mold } from '../scene/scene.ts';
import { moldContains, moldCutter } from './mold.ts';
import { meshProfile } from './profile.ts';
import type { Booleans, PosedSolid, Profile } from './solid.ts';

/** Reaching out by less than this cuts nothing worth a boolean, mm. */
const TOUCH_MM = 1e-6;

/** The profile of a solid's part inside the mold (walls extrapolated above the rim); the solid's own where no wall cuts it. */
export function insideMold(mold: Mold, solid: PosedSolid, booleans: Booleans): Profile {
  const { min, max } = solid.bounds;
  const corners = [min[0], max[0]].flatMap((x) => [min[1], max[1]].map((y) => [x, y] as const));
  if (min[2] >= -TOUCH_MM && corners.every(([x, y]) => moldContains(mold, x, y, Math.max(0, min[2]), TOUCH_MM))) return solid.profile;
  if (max[2] <= 0) return meshProfile({ positions: new Float64Array(), indices: new Uint32Array() });
  return meshProfile(booleans.intersect(solid.mesh(), moldCutter(mold, max[2] + 1)));
}
