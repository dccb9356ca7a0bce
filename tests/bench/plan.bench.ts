/**
 * Planning the demo scene headless with a warm cache, against starting bare Node.
 * In process time (user and system, all threads): the clock also measures what else the machine is doing.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BenchRow } from './rows.ts';

const ROUNDS = 5;
/** Seconds the whole command may take. */
const AIM_S = 1;
/** The process itself tells at its end what it took, on a pipe of its own. */
const TELL = `data:text/javascript,${encodeURIComponent('import { writeSync } from "node:fs"; process.on("exit", () => { const { user, system } = process.cpuUsage(); writeSync(3, String((user + system) / 1e6)); });')}`;

export async function planBench(): Promise<BenchRow[]> {
  const root = process.env.STILLPOOL_ROOT ?? process.cwd();
  const demo = join(root, 'assets/scenes/mill-pond.scene.json');
  const folder = mkdtempSync(join(tmpdir(), 'stillpool-bench-'));
  try {
    const byLabel = join(folder, 'by-label.scene.json');
    writeFileSync(byLabel, JSON.stringify({ ...(JSON.parse(readFileSync(demo, 'utf8')) as object), heat: { model: 'label' } }));
    const baseline = median(() => seconds(['-e', '0']));
    return [['heat by the label', byLabel], ['heat simulated', demo]].map(([heat, scene]) => {
      const plan = [join(root, 'src/cli/run.mjs'), 'plan', scene, '--json'];
      seconds(plan); // fills the cache
      const ours = median(() => seconds(plan));
      return { name: `plan the demo scene, ${heat}, whole command, warm cache (aim: seconds of process time; baseline: bare node)`, ours, baseline, ratio: ours / baseline, aim: AIM_S, unit: 's' };
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function seconds(args: string[]): number {
  const done = spawnSync(process.execPath, ['--import', TELL, ...args], { stdio: ['ignore', 'ignore', 'ignore', 'pipe'] });
  const told = Number(done.output[3]?.toString());
  if (done.status !== 0 || !(told > 0)) throw new Error(`${args.join(' ')} ended with ${done.status}`);
  return told;
}

function median(measured: () => number): number {
  return Array.from({ length: ROUNDS }, measured).sort((a, b) => a - b)[Math.floor(ROUNDS / 2)];
}
