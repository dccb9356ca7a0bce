/** `npm run cure -- CASE.json`: heat and cure of one case, by the solver that judges the pours. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { readCase, type CureCase } from '../core/cure/case.ts';
import { solveCase, type CaseSolution } from '../core/cure/solve-case.ts';
import { problemLine } from '../core/scene/read.ts';

const USAGE = 'npm run --silent cure -- CASE.json [--json]';
/** A file over this is no case; 10,000 room entries take 0.5 MB. */
const MOST_BYTES = 10_000_000;

/** Unknown fields that are named. */
const MOST_TOLD = 5;

/** A smaller share of unaccounted heat says nothing more. */
const LEAST_PERCENT = 0.001;

/** A request that can't be served: one line on stderr, exit 2, no output. */
class Refusal extends Error {}

/** Exit code: 0 solved, 2 nothing. */
export async function main(args: readonly string[]): Promise<number> {
  try {
    const { file, shownAs, json } = readOptions(args);
    const solution = solved(readCaseFile(file, shownAs), shownAs);
    await written(json ? `${JSON.stringify(solution, null, 2)}\n` : table(solution));
    return 0;
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    console.error(oneLine(error.message));
    return 2;
  }
}

function readOptions(args: readonly string[]): { file: string; shownAs: string; json: boolean } {
  const { values, positionals } = parsed(args);
  if (positionals.length !== 1) throw new Refusal(`Found ${positionals.length} files; expected one. ${USAGE}`);
  // npm runs scripts in the package's folder; what the person typed counts from where they stood.
  return { file: resolve(process.env.INIT_CWD ?? process.cwd(), positionals[0]), shownAs: positionals[0], json: values.json ?? false };
}

function parsed(args: readonly string[]) {
  try {
    return parseArgs({ args: [...args], allowPositionals: true, options: { json: { type: 'boolean' } } });
  } catch (error) {
    throw new Refusal(`${(error as Error).message.split('.')[0]}. ${USAGE}`);
  }
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

function oneLine(text: string): string {
  return text.replace(/\s+/g, ' ');
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

/** Waits until stdout has taken it all: a pipe takes less than a long answer at once. */
function written(text: string): Promise<void> {
  return new Promise((done, fail) => process.stdout.write(text, (error) => (error && (error as NodeJS.ErrnoException).code !== 'EPIPE' ? fail(error) : done())));
}
