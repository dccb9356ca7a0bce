/** From a scene file to the plan's JSON, through the real reader and planner, as the command does it. */

import type { HeatJudge } from '../../src/core/plan/heat-judge.ts';
import { GOAL_SEARCH } from '../../src/core/plan/best/goal-search.ts';
import { planScene } from '../../src/core/plan/plan-scene.ts';
import { readScene } from '../../src/core/scene/read.ts';
import type { Booleans } from '../../src/core/solid/solid.ts';
import type { PlanJson } from './check-types.ts';

/** `heat` judges in place of the model. @throws {Error} with the path where the scene is refused. */
export function planJson(scene: object, booleans: Booleans, heat: HeatJudge | null = null): PlanJson {
  const reading = readScene(JSON.parse(JSON.stringify(scene)));
  if (!reading.ok) throw new Error(`refused on reading: ${reading.problems.map((p) => `${p.path}: ${p.message}`).join('; ')}`);
  const result = planScene(reading.scene, { meshes: new Map(), search: GOAL_SEARCH, booleans, notes: reading.notes, heat });
  if (!result.ok) throw new Error(`refused on planning: ${result.problems.map((p) => `${p.path}: ${p.message}`).join('; ')}`);
  return JSON.parse(JSON.stringify(result.plan)) as PlanJson;
}
