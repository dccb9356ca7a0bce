/** `npm run bench`: every row is measured against a named baseline in the same run, on the same machine. */
import { parseArgs } from 'node:util';
import { pageBench } from './page.bench.ts';
import { planBench } from './plan.bench.ts';
import { profileBench } from './profile.bench.ts';
import type { BenchRow } from './rows.ts';

const BENCHES: readonly (() => Promise<BenchRow[]>)[] = [profileBench, planBench, pageBench];

/** Exit code 0: a bench reports, it doesn't judge. */
export async function main(args: string[]): Promise<number> {
  const { values } = parseArgs({ args, options: { json: { type: 'boolean' } } });
  const rows: BenchRow[] = [];
  for (const bench of BENCHES) {
    const measured = await bench();
    rows.push(...measured);
    if (!values.json) for (const row of measured) process.stdout.write(`${line(row)}\n`);
  }
  if (values.json) process.stdout.write(`${JSON.stringify(rows, null, 2)}\n`);
  return 0;
}

function line({ name, ours, baseline, ratio, aim, unit }: BenchRow): string {
  const short = (value: number) => (Math.abs(value) >= 1e5 || (value !== 0 && Math.abs(value) < 1e-3) ? value.toExponential(2) : String(Number(value.toPrecision(4))));
  return `${name}: ${short(ours)} ${unit} against ${short(baseline)} ${unit}, ratio ${short(ratio)} (aim ${short(aim)})`;
}
