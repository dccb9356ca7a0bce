/** How a command says no. */
import { messageOf, SceneFileError } from '../files/fail.ts';

/** A request that can't be served: one line on stderr, exit 2, nothing on stdout and no file. */
export class Refusal extends Error {}

/** The exit code of `work`; 2 where it refuses, with the reason told, 3 for a fault of the program: whoever reads the code takes neither for a plan. */
export async function orRefused(work: () => Promise<number>): Promise<number> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof Refusal || error instanceof SceneFileError) {
      console.error(oneLine(error.message));
      return 2;
    }
    console.error(`Something went wrong in here, not in your file: ${oneLine(messageOf(error))}. Your file is as it was, and there is no answer.`);
    if (error instanceof Error) console.error(error.stack);
    return 3;
  }
}

export function oneLine(text: string): string {
  return text.replace(/\s+/g, ' ');
}
