/** Reads the typefaces from the installed packages: for the command line and for tests. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { FontReader } from './fonts.ts';

/** `root` is the folder that holds node_modules. */
export function fontsOnDisk(root: string): FontReader {
  return async (file) => {
    const path = join(root, 'node_modules', '@fontsource', file);
    try {
      return await readFile(path);
    } catch (error) {
      throw new Error(`The typeface ${path} can’t be read (${(error as NodeJS.ErrnoException).code ?? 'unknown'}). Run npm ci in ${root} again.`);
    }
  };
}
