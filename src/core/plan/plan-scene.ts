/** The plan of a scene with all that is told of it. Pure: the same scene, meshes and start give the same plan. */
import type { Scene } from '../scene/scene.ts';
import type { PlanResult } from './plan.ts';
import { planGiven, type Given } from './planning.ts';
import { TELLING } from './telling.ts';

/** Plans a scene, or says by path why it can't be: a pour that fits no bench hours, a mold without room, hundreds of pours. */
export function planScene(scene: Scene, given: Omit<Given, 'telling'>): PlanResult {
  return planGiven(scene, { ...given, telling: TELLING });
}
