/**
 * The files a command writes: all of them, each whole, or none.
 * Everything is written beside its place first and moved there at the end; what stood there is kept until all have moved.
 */
import { copyFileSync, existsSync, mkdirSync, renameSync, rmdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { Refusal } from './refusal.ts';

/** Where a file will be, and the option that asked for it. */
export interface Target {
  readonly name: string;
  readonly path: string;
}

export interface Output extends Target {
  readonly content: Uint8Array | string;
}

/**
 * `folder` is made first where it is missing: files may be asked for inside the folder that templates go to.
 * @throws Refusal, with everything as it was, when one of them can't be written.
 */
export function writeOutputs(outputs: readonly Output[], folder?: string): void {
  const undo: (() => void)[] = [];
  const files = outputs.map((output) => ({ ...output, fresh: `${output.path}.${process.pid}.tmp`, former: `${output.path}.${process.pid}.old` }));
  const each = (work: (file: (typeof files)[number]) => void) => {
    for (const file of files) {
      try {
        work(file);
      } catch (error) {
        for (const step of undo.reverse()) step();
        throw new Refusal(`--${file.name}: can’t write "${file.path}" (${(error as NodeJS.ErrnoException).code ?? 'unknown'}). Choose a folder that exists and can be written to.`);
      }
    }
  };
  if (folder !== undefined && madeNow(folder)) undo.push(() => rmdirSync(folder));
  each(({ path, content, fresh }) => {
    const stands = statSync(path, { throwIfNoEntry: false });
    // A device would be replaced by a file; better known now than when others have moved.
    if (stands && !stands.isFile()) throw Object.assign(new Error(), { code: stands.isDirectory() ? 'EISDIR' : 'not a plain file' });
    undo.push(() => rmSync(fresh, { force: true }));
    writeFileSync(fresh, content);
  });
  each(({ path, fresh, former }) => {
    const stood = existsSync(path);
    if (stood) {
      copyFileSync(path, former);
      undo.push(() => rmSync(former, { force: true }));
    }
    renameSync(fresh, path);
    undo.push(() => (stood ? renameSync(former, path) : rmSync(path)));
  });
  for (const { former } of files) rmSync(former, { force: true });
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
