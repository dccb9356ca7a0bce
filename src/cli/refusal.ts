/** How a command says no. */
import { SceneFileError } from '../files/fail.ts';

/** A request that can't be served: one line on stderr, exit 2, nothing on stdout and no file. */
export class Refusal extends Error {}

/** The exit code of `work`; 2 where it refuses, with the reason told. */
export async function orRefused(work: () => Promise<number>): Promise<number> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof Refusal || error instanceof SceneFileError)) throw error;
    console.error(oneLine(error.message));
    return 2;
  }
}

export function oneLine(text: string): string {
  return text.replace(/\s+/g, ' ');
}
