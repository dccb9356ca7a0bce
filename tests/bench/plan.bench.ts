/** Planning the demo scene headless with a warm cache, against starting bare Node. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import type { BenchRow } from './rows.ts';

const ROUNDS = 7;
/** Seconds the whole command may take. */
const AIM_S = 1;

export async function planBench(): Promise<BenchRow[]> {
  const root = process.env.STILLPOOL_ROOT ?? process.cwd();
  const plan = [join(root, 'src/cli/run.mjs'), 'plan', join(root, 'assets/scenes/mill-pond.scene.json'), '--json'];
  seconds(plan); // fills the cache
  const ours = median(Array.from({ length: ROUNDS }, () => seconds(plan)));
  const baseline = median(Array.from({ length: ROUNDS }, () => seconds(['-e', '0'])));
  return [{ name: `plan the demo scene, whole command, warm cache (aim: seconds; baseline: bare node)`, ours, baseline, ratio: ours / baseline, aim: AIM_S, unit: 's' }];
}

function seconds(args: string[]): number {
  const from = process.hrtime.bigint();
  const done = spawnSync(process.execPath, args, { stdio: 'ignore' });
  if (done.status !== 0) throw new Error(`${args.join(' ')} ended with ${done.status}`);
  return Number(process.hrtime.bigint() - from) / 1e9;
}

function median(values: number[]): number {
  return values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
}
