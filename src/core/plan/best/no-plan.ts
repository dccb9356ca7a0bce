/** Why a goal has no plan, for the person. */
import type { Scene } from '../../scene/scene.ts';
import { mm, plain } from '../../units/format.ts';
import { MINUTES_PER_HOUR } from '../../units/time.ts';
import type { LayerAt } from '../layers.ts';
import type { PlanResult } from '../plan.ts';
import { NO_AWAKE_HOURS } from '../sleep.ts';
import type { NoPlan } from './best-plan.ts';
import { deepestOf } from './formulas.ts';

/** Hours in decimals carry noise far below this, minutes. */
const ROUNDING_MIN = 1e-6;

type Problem = Extract<PlanResult, { ok: false }>['problems'][number];

/** By the field that asks too much. */
export function noPlanProblem(scene: Scene, layers: readonly LayerAt[], why: NoPlan): Problem {
  const { plan, room } = scene;
  if (why !== 'times') {
    const { fromMm, toMm, formula } = layers[why.layer];
    const pourMin = scene.bench.pourH * MINUTES_PER_HOUR;
    if (plan.cupMin !== null && plan.cupMin > pourMin + ROUNDING_MIN) {
      return { path: 'plan.cupMin', message: `found ${plain(plan.cupMin)} min for one cup; expected at most the ${plain(pourMin)} min that a pour takes (bench.pourH). Give a pour more time, or a cup less.` };
    }
    const cups = plan.cupMin === null ? '' : ` (or a pour takes more cups than its ${plain(pourMin)} min leave at ${plain(plan.cupMin)} min each: plan.cupMin)`;
    if (plan.avoid.length === 0 && plan.cupMin !== null) {
      return { path: 'plan.cupMin', message: `found ${plain(plan.cupMin)} min for one cup; a pour between ${plain(fromMm)} and ${mm(toMm)} then has no time for the cups it takes in its ${plain(pourMin)} min (bench.pourH), or a cup is not usable for so long. Give a pour more time, a cup less, or allow larger cups.` };
    }
    return { path: 'plan.avoid', message: `leaves no pour lines between ${plain(fromMm)} and ${mm(toMm)}, where a pour may be at most ${mm(deepestOf(scene, formula))} deep${cups}. Allow a line there, or pin other heights.` };
  }
  if (room.sleep) return NO_AWAKE_HOURS;
  return { path: 'plan.cupMin', message: `found ${plan.cupMin} min; expected no more than a cup stays usable in this room. Mix smaller cups, pour when it is cooler, or choose a slower formula.` };
}
