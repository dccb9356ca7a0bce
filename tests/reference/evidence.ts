/** `npm run evidence [-- --json]`: every check against an outside reference, as a table. */
import { examine, type Evidence, type EvidenceRow } from './evidence-row.ts';
import { ALL_ROWS } from './rows.ts';

const USAGE = 'Use: npm run evidence [-- --json]';

/** Exit code: 0 when every check holds, 1 when one does not, 2 for an option there is none. Without `rows`, all there are. */
export async function main(args: readonly string[], rows?: readonly EvidenceRow[]): Promise<number> {
  const unknown = args.find((arg) => arg !== '--json');
  if (unknown !== undefined) {
    console.error(`Found the option “${unknown}”. ${USAGE}`);
    return 2;
  }
  const evidence = await evidenceOf(rows ?? (await everyRow()));
  process.stdout.write(args.includes('--json') ? `${JSON.stringify(evidence, null, 1)}\n` : table(evidence));
  return evidence.every(({ ok }) => ok) ? 0 : 1;
}

/** All rows in the order they are told. */
export async function everyRow(): Promise<EvidenceRow[]> {
  const rows: EvidenceRow[] = [];
  for (const some of ALL_ROWS) rows.push(...(typeof some === 'function' ? await some() : some));
  return rows;
}

/** One after the other: some share a library's memory. */
export async function evidenceOf(rows: readonly EvidenceRow[]): Promise<Evidence[]> {
  const evidence: Evidence[] = [];
  for (const row of rows) evidence.push(await examine(row));
  return evidence;
}

/** For people: one line a check, its source below it, and a count at the end. */
export function table(evidence: readonly Evidence[]): string {
  const lines = evidence.map(({ subject, source, expected, got, tolerance, ok }) =>
    [`${ok ? 'ok ' : 'NOT'}  ${subject}`, `       expected ${shown(expected)} ± ${Number(tolerance.toPrecision(2))}, got ${shown(got)}`, `       ${source}`].join('\n'),
  );
  const failed = evidence.filter(({ ok }) => !ok).length;
  return `${lines.join('\n')}\n${evidence.length - failed} of ${evidence.length} checks hold${failed > 0 ? `, ${failed} do not` : ''}.\n`;
}

function shown(value: Evidence['expected']): string {
  return typeof value === 'string' ? value : String(Number(value.toPrecision(12)));
}
