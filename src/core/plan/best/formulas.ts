/** A scene whose layers may be poured in formulas of the planner's choice: what that means for lift, limits and fills. */
import { mixOf } from '../../resin/formula.ts';
import type { Fill, Scene } from '../../scene/scene.ts';
import { fillAt, type LayerAt } from '../layers.ts';

/** Formulas that a layer of one formula may be poured in. */
function choices(scene: Scene, formula: string): readonly string[] {
  return scene.plan.goal === 'even' ? [formula] : (scene.plan.formulas ?? [formula]);
}

/** The scene with every fill in the densest formula it may get: in it things rise soonest, so their locks hold in all. */
export function withDensest(scene: Scene): Scene {
  if (scene.plan.goal === 'even' || scene.plan.formulas === null) return scene;
  const density = (id: string) => mixOf(scene.formulas.get(id)!).densityGPerMl;
  return { ...scene, fills: scene.fills.map((fill) => ({ ...fill, formula: choices(scene, fill.formula).reduce((a, b) => (density(b) > density(a) ? b : a)) })) };
}

/** The greatest depth of the formulas a layer may get, mm. */
export function deepestOf(scene: Scene, formula: string): number {
  return Math.max(...choices(scene, formula).map((id) => scene.formulas.get(id)!.maxDepthMm));
}

/** The fills as they are poured: a fill for each layer whose formula was chosen. */
export function fillsOf(scene: Scene, layers: readonly LayerAt[]): readonly Fill[] {
  if (scene.plan.goal === 'even' || scene.plan.formulas === null) return scene.fills;
  return layers.map(({ fromMm, toMm, formula }) => ({ ...fillAt(scene, (fromMm + toMm) / 2), toMm, formula }));
}
