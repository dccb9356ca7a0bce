/** How thin a pour may be. */
import type { Formula } from '../scene/scene.ts';

/** Under this share of its least depth a pour won't level: a halt (design). */
export const LEVELS_SHARE = 0.6;
/** No thinner for heat than this share of the label's greatest depth: then it asks for a cooler room instead. */
const OF_LABEL_DEPTH = 0.1;

/** No pour is split thinner than this for heat, mm. */
export function thinnestForHeatMm({ minDepthMm, maxDepthMm }: Pick<Formula, 'minDepthMm' | 'maxDepthMm'>): number {
  return Math.max(LEVELS_SHARE * minDepthMm, OF_LABEL_DEPTH * maxDepthMm);
}
