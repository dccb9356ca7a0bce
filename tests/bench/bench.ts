/** `npm run bench`: every row is measured against a named baseline in the same run, on the same machine. */
import { parseArgs } from 'node:util';
import { bestBench } from './best.bench.ts';
import { bodyBench } from './body.bench.ts';
import { familyBench } from './family.bench.ts';
import { heatBench } from './heat.bench.ts';
import { pageBench } from './page.bench.ts';
import { planBench } from './plan.bench.ts';
import { profileBench } from './profile.bench.ts';
import { scenesBench } from './scenes.bench.ts';
import { sectionBench } from './section.bench.ts';
import type { BenchRow } from './rows.ts';

const BENCHES: Readonly<Record<string, () => Promise<BenchRow[]>>> = { profile: profileBench, section: sectionBench, plan: planBench, best: bestBench, heat: heatBench, family: familyBench, scenes: scenesBench, body: bodyBench, page: pageBench };

const USAGE = `npm run --silent bench -- [--only ${Object.keys(BENCHES).join('|')}] [--json]`;

/** Null: there is something among them that is no option. */
function optionsOf(args: string[]) {
  try {
    return parseArgs({ args, options: { json: { type: 'boolean' }, only: { type: 'string' }, help: { type: 'boolean', short: 'h' } } }).values;
  } catch (error) {
    console.error((error as Error).message);
    return null;
  }
}

/**
 * `--only NAME` measures one of them. Exit code 0: a bench reports, it doesn't judge; 1: one could not be measured
 * (said on stderr), and the rows of the others are given all the same; 2: there is none of that name.
 */
export async function main(args: string[]): Promise<number> {
  const values = optionsOf(args);
  if (values === null || values.help) {
    (values ? process.stdout : process.stderr).write(`${USAGE}\n`);
    return values ? 0 : 2;
  }
  if (values.only !== undefined && !Object.hasOwn(BENCHES, values.only)) {
    console.error(`--only: found "${values.only}"; expected one of ${Object.keys(BENCHES).join(', ')}.`);
    return 2;
  }
  const rows: BenchRow[] = [];
  let failed = false;
  for (const [name, bench] of Object.entries(BENCHES)) {
    if (values.only !== undefined && name !== values.only) continue;
    try {
      const measured = await bench();
      rows.push(...measured);
      if (!values.json) for (const row of measured) process.stdout.write(`${line(row)}\n`);
    } catch (error) {
      failed = true;
      console.error(`The ${name} bench could not be measured: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
  if (values.json) process.stdout.write(`${JSON.stringify(rows, null, 2)}\n`);
  return failed ? 1 : 0;
}

function line({ name, ours, baseline, ratio, aim, unit }: BenchRow): string {
  const short = (value: number) => (Math.abs(value) >= 1e5 || (value !== 0 && Math.abs(value) < 1e-3) ? value.toExponential(2) : String(Number(value.toPrecision(4))));
  return `${name}: ${short(ours)} ${unit} against ${short(baseline)} ${unit}, ratio ${short(ratio)} (aim ${short(aim)})`;
}
