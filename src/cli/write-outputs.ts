/**
 * The files a command writes: all of them, each whole, or none.
 * Everything is written beside its place first and moved there at the end: what was there stays until all are ready.
 */
import { mkdirSync, renameSync, rmdirSync, rmSync, statSync, writeFileSync } from 'node:fs';

export interface Output {
  /** The option that asked for it, for messages. */
  readonly name: string;
  readonly path: string;
  readonly content: Uint8Array | string;
}

/** Files that stand beside their places. `keep` moves them there, `drop` takes them away. */
export interface StagedOutputs {
  keep(): void;
  drop(): void;
}

/** A file can't be written; nothing was. */
export class WriteRefusal extends Error {}

/**
 * `folder` is made first where it is missing: files may be asked for inside the folder that templates go to.
 * @throws WriteRefusal, with nothing left behind, when one of them can't be written.
 */
export function stagedOutputs(outputs: readonly Output[], folder?: string): StagedOutputs {
  const unfinished = outputs.map(({ path }) => `${path}.${process.pid}.tmp`);
  const made = folder !== undefined && madeNow(folder);
  const drop = () => {
    for (const path of unfinished) rmSync(path, { force: true });
    if (made) rmdirSync(folder);
  };
  const each = (work: (output: Output, unfinished: string) => void) =>
    outputs.forEach((output, i) => {
      try {
        work(output, unfinished[i]);
      } catch (error) {
        drop();
        throw new WriteRefusal(`--${output.name}: can’t write "${output.path}" (${(error as NodeJS.ErrnoException).code ?? 'unknown'}). Choose a folder that exists and can be written to.`);
      }
    });
  each(({ path, content }, beside) => {
    // A file can't be moved onto a folder; better known now than when another has been moved already.
    if (statSync(path, { throwIfNoEntry: false })?.isDirectory()) throw Object.assign(new Error(), { code: 'EISDIR' });
    writeFileSync(beside, content);
  });
  return { keep: () => each(({ path }, beside) => renameSync(beside, path)), drop };
}

/** False where it stands already or can't be made; whoever writes into it tells why. */
function madeNow(folder: string): boolean {
  try {
    mkdirSync(folder);
    return true;
  } catch {
    return false;
  }
}
