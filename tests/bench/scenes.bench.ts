/** Whole plans under simulated heat: what one costs against the label alone, and 1,000 random scenes held against the contract. */
import { join } from 'node:path';
import { openFigureLibrary } from '../../src/cli/library.ts';
import { simulatedHeat } from '../../src/core/plan/heat-simulated.ts';
import { planScene } from '../../src/core/plan/plan-scene.ts';
import { openBooleans } from '../../src/files/booleans.ts';
import { openSceneFile } from '../../src/files/disk.ts';
import { loadScene } from '../../src/files/load.ts';
import { holdScenes } from '../plan/random-heat.ts';
import type { BenchRow } from './rows.ts';

const ROUNDS = 5;
const SCENES = 1_000;
const FIRST_SEED = 70_000;
/** Milliseconds of processor for a plan with all its families: nobody waits longer for a command. */
const PLAN_AIM_MS = 2_000;

export async function scenesBench(): Promise<BenchRow[]> {
  const root = process.env.STILLPOOL_ROOT ?? process.cwd();
  const booleans = await openBooleans();
  const loading = await loadScene(await openSceneFile(join(root, 'assets/scenes/mill-pond.scene.json')), openFigureLibrary(), booleans);
  if (!loading.ok) throw new Error(loading.problems.map(({ path, message }) => `${path}: ${message}`).join(' '));
  const { scene, ...given } = loading.loaded;
  const timed = (heatModel: 'simulated' | 'label') => median(Array.from({ length: ROUNDS }, () => cpuMs(() => planScene({ ...scene, heatModel }, { ...given, booleans, heat: simulatedHeat(scene.testCups) }))));
  const [byLabelMs, simulatedMs] = [timed('label'), timed('simulated')];
  const held = holdScenes(booleans, FIRST_SEED, SCENES);
  const flawed = new Set(held.broken.map((problem) => problem.split(':')[0])).size;
  return [
    { name: 'heat: plan the demo scene, families and all (aim: at most, ms of processor; baseline: by the label)', ours: simulatedMs, baseline: byLabelMs, ratio: simulatedMs / byLabelMs, aim: PLAN_AIM_MS, unit: 'ms' },
    { name: `heat: of ${SCENES} random scenes, those whose plan allows more than the label or breaks a rule (aim: none)`, ours: flawed, baseline: SCENES, ratio: flawed / SCENES, aim: 0, unit: 'scenes' },
  ];
}

/** Of this process's own time: others on the machine don't count. */
function cpuMs(work: () => unknown): number {
  const from = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(from);
  return (user + system) / 1000;
}

function median(values: number[]): number {
  return values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
}
