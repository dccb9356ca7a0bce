/** Why a goal has no plan, for the person. */
import type { Scene } from '../../scene/scene.ts';
import { mm, plain } from '../../units/format.ts';
import type { LayerAt } from '../layers.ts';
import type { PlanResult } from '../plan.ts';
import type { NoPlan } from './best-plan.ts';
import { deepestOf } from './formulas.ts';

type Problem = Extract<PlanResult, { ok: false }>['problems'][number];

/** By the field that asks too much. */
export function noPlanProblem(scene: Scene, layers: readonly LayerAt[], why: NoPlan): Problem {
  const { plan, room } = scene;
  if (why !== 'times') {
    const { fromMm, toMm, formula } = layers[why.layer];
    const cups = plan.cupMin === null ? '' : ' (or so many cups that plan.cupMin does not leave time for them)';
    return { path: 'plan.avoid', message: `leaves no pour lines between ${plain(fromMm)} and ${mm(toMm)}, where a pour may be at most ${mm(deepestOf(scene, formula))} deep${cups}. Allow a line there, or pin other heights.` };
  }
  if (room.sleep) return { path: 'room.sleep', message: 'leaves no hours in which a pour can go from liquid to tacky; expected a gap as long as that takes. Shorten the hours, choose a quicker formula, or cure it in another room.' };
  return { path: 'plan.cupMin', message: `found ${plan.cupMin} min; expected no more than a cup stays usable in this room. Mix smaller cups, pour when it is cooler, or choose a slower formula.` };
}
