/** How a command is asked and how it answers. */
import { resolve } from 'node:path';
import { parseArgs, type ParseArgsConfig } from 'node:util';
import type { Plan } from '../core/plan/plan.ts';
import { Refusal } from './refusal.ts';

/** @throws Refusal, with `usage`, for an option there is none or a value that is missing. */
export function optionsFrom<T extends ParseArgsConfig>(config: T, usage: string) {
  try {
    return parseArgs(config);
  } catch (error) {
    throw new Refusal(`${(error as Error).message.split('.')[0]}. ${usage}`);
  }
}

/** npm runs scripts in the package's folder; what the person typed counts from where they stood. */
export function fromHere(path: string): string {
  return resolve(process.env.INIT_CWD ?? process.cwd(), path);
}

/** Waits until stdout has taken it all: a pipe takes less than a long answer at once. */
export function written(text: string): Promise<void> {
  return new Promise((done, fail) => process.stdout.write(text, (error) => (error && (error as NodeJS.ErrnoException).code !== 'EPIPE' ? fail(error) : done())));
}

/** Of a command that gave its plans: 1 where any has a halt. */
export function exitCode(plans: readonly Plan[]): 0 | 1 {
  return plans.some(({ findings }) => findings.some(({ severity }) => severity === 'halt')) ? 1 : 0;
}
