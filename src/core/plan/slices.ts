/** A layer cut into pours before anything is timed or mixed: how high each goes, and what it locks. */
import type { Formula, Plane, Scene } from '../scene/scene.ts';
import type { PlannedPour, SolidAt } from './context.ts';
import type { LayerAt } from './layers.ts';
import { firstTopAbove, splitLayer, type Split } from './split.ts';
import { planesAt } from './stops.ts';

/** A pour before anything is mixed for it. */
export interface Slice {
  readonly layerAt: LayerAt;
  readonly fromMm: number;
  readonly toMm: number;
  readonly formula: Formula;
  readonly part: PlannedPour['part'];
  readonly locking: boolean;
  readonly locks: readonly string[];
  /** The greatest depth the layer was split by, mm: the label's, or less where heat asks for less. */
  readonly limitMm: number;
}

export interface SlicedLayer {
  readonly slices: readonly Slice[];
  /** Floaters of this layer that no pour can lock, and those of them that could be but for the others. */
  readonly unlockable: readonly string[];
  readonly crowded: readonly string[];
}

/** Slices one of the `layers` into the fewest equal pours within `limitMm`, at most the label's depth. */
export function sliceLayer(scene: Scene, layerAt: LayerAt, { layers, solids, limitMm }: { readonly layers: readonly LayerAt[]; readonly solids: readonly SolidAt[]; readonly limitMm: number }): SlicedLayer {
  const formula = scene.formulas.get(layerAt.formula)!;
  const tops = layers.map((layer) => layer.toMm);
  const floaters = solids.filter((solid) => solid.floats && solid.placement.hold !== 'thread' && firstTopAbove(solid.placement.baseMm, tops) === layerAt.toMm);
  const limits = { minDepthMm: formula.minDepthMm, maxDepthMm: Math.min(limitMm, formula.maxDepthMm) };
  const split = splitLayer(layerAt.fromMm, layerAt.toMm, limits, floaters.map((solid) => ({ id: solid.placement.id, baseMm: solid.placement.baseMm, safeLockMm: solid.safeLockMm! })));
  const slices = split.topsMm.map((toMm, i): Slice => ({
    layerAt,
    fromMm: i === 0 ? layerAt.fromMm : split.topsMm[i - 1],
    toMm,
    formula,
    part: partOf(layerAt.fromMm, split, i),
    locking: split.divisionsMm.includes(toMm),
    locks: floaters.filter((solid) => firstTopAbove(solid.placement.baseMm, split.topsMm) === toMm).map((solid) => solid.placement.id),
    limitMm: limits.maxDepthMm,
  }));
  return { slices, unlockable: split.unlockable, crowded: split.crowded };
}

/** Painted on a pour's top. */
export function planesOn(scene: Scene, { toMm, layerAt }: Pick<Slice, 'toMm' | 'layerAt'>): readonly Plane[] {
  return toMm === layerAt.toMm ? planesAt(scene, layerAt.top) : [];
}

/** Which of how many equal pours the i-th pour of a layer is. */
function partOf(fromMm: number, { topsMm, divisionsMm }: Split, i: number): PlannedPour['part'] {
  const bounds = [fromMm, ...divisionsMm, topsMm[topsMm.length - 1]];
  const upper = bounds.findIndex((bound) => bound >= topsMm[i]);
  const within = topsMm.filter((top) => top > bounds[upper - 1] && top <= bounds[upper]);
  return { depthMm: bounds[upper] - bounds[upper - 1], pours: within.length, place: within.indexOf(topsMm[i]) + 1 };
}
