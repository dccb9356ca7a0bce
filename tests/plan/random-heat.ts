/** Random scenes under simulated heat, for the tests (a hundred) and the bench (a thousand). */
import type { CureFamily } from '../../src/core/cure/family-types.ts';
import { simulatedHeat } from '../../src/core/plan/heat-simulated.ts';
import type { Booleans } from '../../src/core/solid/solid.ts';
import type { SceneJson } from './check-types.ts';
import { checkPlan } from './checker.ts';
import { planJson } from './plan-json.ts';
import { TG, TL } from './planning.ts';
import { randomScene } from './random-scenes.ts';

/** A family for each of many labels takes longer than the plans: every so many scenes keep their own. */
const OWN_LABELS_EVERY = 10;

export interface ScenesHeld {
  /** Seed and rule of each that breaks one. */
  readonly broken: readonly string[];
  readonly pours: number;
  /** ms of this process's own time for one plan. */
  readonly meanMs: number;
  readonly mostMs: number;
}

/** Plans scenes as the command does and holds them against the contract by the checker that shares nothing with the planner. */
export function holdScenes(booleans: Booleans, firstSeed: number, count: number): ScenesHeld {
  const families = new Map<string, CureFamily>();
  const broken: string[] = [];
  let [cpuMs, mostMs, pours] = [0, 0, 0];
  for (let i = 0; i < count; i++) {
    const random = randomScene(firstSeed + i);
    const scene = { ...(i % OWN_LABELS_EVERY === 0 ? random : withKnownLabels(random)), heat: { model: 'simulated' } };
    const from = process.cpuUsage();
    const plan = planJson(scene, booleans, simulatedHeat([], { families }));
    const { user, system } = process.cpuUsage(from);
    const ms = (user + system) / 1000;
    [cpuMs, mostMs, pours] = [cpuMs + ms, Math.max(mostMs, ms), pours + plan.pours.length];
    broken.push(...checkPlan(scene, plan).map((problem) => `seed ${firstSeed + i}: ${problem}`));
  }
  return { broken, pours, meanMs: cpuMs / count, mostMs };
}

/** The same scene with labels that were met before. */
function withKnownLabels(random: SceneJson): SceneJson {
  const known = [TG, TL];
  return { ...random, formulas: (random.formulas ?? []).map((formula, i) => ({ ...known[i % 2], id: formula.id })) } as SceneJson;
}
