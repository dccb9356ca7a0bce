/** `npm run cure -- CASE.json`: heat and cure of one case, by the solver that judges the pours. */
import { readFileSync } from 'node:fs';
import { readCase, type CureCase } from '../core/cure/case.ts';
import { solveCase, type CaseSolution } from '../core/cure/solve-case.ts';
import { problemLine } from '../core/scene/read.ts';
import { oneLine, orRefused, Refusal } from './refusal.ts';
import { fromHere, optionsFrom, written } from './terminal.ts';

const USAGE = 'npm run --silent cure -- CASE.json [--json]';
/** A file over this is no case; 10,000 room entries take 0.5 MB. */
const MOST_BYTES = 10_000_000;

/** Unknown fields that are named. */
const MOST_TOLD = 5;

/** A smaller share of unaccounted heat says nothing more. */
const LEAST_PERCENT = 0.001;

/** Exit code: 0 solved, 2 nothing, 3 a fault of the program. */
export function main(args: readonly string[]): Promise<number> {
  return orRefused(async () => {
    const { values, positionals } = optionsFrom({ args, allowPositionals: true, options: { json: { type: 'boolean' } } }, USAGE);
    if (positionals.length !== 1) throw new Refusal(`Found ${positionals.length} files; expected one. ${USAGE}`);
    const [shownAs] = positionals;
    const solution = solved(readCaseFile(fromHere(shownAs), shownAs), shownAs);
    await written(values.json ? `${JSON.stringify(solution, null, 2)}\n` : table(solution));
    return 0;
  });
}

function readCaseFile(file: string, shownAs: string): CureCase {
  const reading = readCase(parsedJson(textOf(file, shownAs), shownAs));
  if (reading.ok) {
    const { aside } = reading;
    if (aside.length > 0) console.error(oneLine(`${shownAs}: left aside ${aside.slice(0, MOST_TOLD).join(', ')}${aside.length > MOST_TOLD ? ' and others' : ''}: not ${aside.length > 1 ? 'fields' : 'a field'} of a case. Check the spelling.`));
    return reading.case;
  }
  throw new Refusal(`${shownAs}: ${reading.problems.map(problemLine).join(' ')}`);
}

function textOf(file: string, shownAs: string): string {
  let bytes: Buffer;
  try {
    bytes = readFileSync(file);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    const why = code === 'ENOENT' ? 'there is no such file' : code === 'EISDIR' ? 'this is a folder; expected a file' : `can’t be read (${code ?? 'unknown'})`;
    throw new Refusal(`${shownAs}: ${why}. Check the path.`);
  }
  if (bytes.length > MOST_BYTES) throw new Refusal(`${shownAs}: found ${bytes.length} bytes; expected a case of at most ${MOST_BYTES}.`);
  return bytes.toString('utf8').replace(/^\uFEFF/, '');
}

function parsedJson(text: string, shownAs: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new Refusal(`${shownAs}: is not JSON (${(error as Error).message}); expected a case { "material": …, "kinetics": …, "room": …, "pours": … }.`);
  }
}

function solved(cureCase: CureCase, shownAs: string): CaseSolution {
  try {
    return solveCase(cureCase);
  } catch (error) {
    throw new Refusal(`${shownAs}: ${(error as Error).message}`);
  }
}

/** One line a pour. Hours to 0.01, the middle's peak beside the hottest point's. */
function table({ pours, energyBalance }: CaseSolution): string {
  const hours = (seconds: number | null) => (seconds === null ? 'not yet' : (seconds / 3600).toFixed(2));
  const rows = [
    ['pour', 'hottest °C', 'middle °C', 'after h', 'gel after h'],
    ...pours.map(({ peakC, midPeakC, midPeakAtS, midGelS }, k) => [String(k + 1), peakC.toFixed(1), midPeakC.toFixed(1), hours(midPeakAtS), hours(midGelS)]),
  ];
  const widths = rows[0].map((_, column) => Math.max(...rows.map((row) => row[column].length)));
  const lines = rows.map((row) => row.map((cell, column) => cell.padStart(widths[column])).join('   '));
  const percent = 100 * energyBalance;
  const unaccounted = percent < LEAST_PERCENT ? `less than ${LEAST_PERCENT}` : percent.toPrecision(2);
  return `${lines.join('\n')}\nHeat unaccounted for: ${unaccounted} % of that released.\n`;
}
