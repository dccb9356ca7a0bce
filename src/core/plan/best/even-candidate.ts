/** The even plan as one that may stand for a goal: none does worse than it by its own measure. */
import type { Formula, Scene } from '../../scene/scene.ts';
import type { Laid, LaidPour } from '../heat-rounds.ts';
import type { BestLaid, LayContext } from './lay-plan.ts';
import { keepsWishes } from './wishes-kept.ts';

/** Heights typed in decimals carry noise far below this, mm. */
const ROUNDING_MM = 1e-9;

/** Null where it does not keep what the person asked of a plan: lines, formulas, cups. */
export function evenCandidate(scene: Scene, even: Laid, { layers, prepared }: Pick<LayContext, 'layers' | 'prepared'>): BestLaid | null {
  if (!keepsWishes(scene, even.pours)) return null;
  const asked = layers.map((layer) => ({ ...layer, asked: layer.formula }));
  const pours = even.pours.map((pour) => {
    const { layerAt, formula } = pour.slice;
    const inLayer = even.pours.filter(({ slice }) => slice.layerAt === layerAt);
    return { ...pour, slice: { ...pour.slice, layerAt: asked[layerAt.index - 1], part: { depthMm: layerAt.toMm - layerAt.fromMm, pours: inLayer.length, place: inLayer.indexOf(pour) + 1 }, limitMm: limitOf(inLayer, formula) } };
  });
  return { ...even, pours, layers: asked, prepared };
}

/** What its pours in a layer keep to: the least that is safe for one of them, shown no looser than it is, or the label's depth. */
function limitOf(inLayer: readonly LaidPour[], { maxDepthMm }: Formula): number {
  const safeMm = Math.min(maxDepthMm, ...inLayer.map(({ judged }) => judged?.verdict.safeDepthMm ?? Infinity));
  const toldMm = safeMm < maxDepthMm ? Math.floor(safeMm * 10 + ROUNDING_MM) / 10 : maxDepthMm;
  return inLayer.every(({ slice }) => slice.toMm - slice.fromMm <= toldMm + ROUNDING_MM) ? toldMm : maxDepthMm;
}
