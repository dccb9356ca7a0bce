/** The figure library on disk: assets/figures, listed in figures.json. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { FigureLibrary } from '../files/load.ts';

/** The repository's root, told by the runner. */
export function projectRoot(): string {
  return process.env.STILLPOOL_ROOT ?? process.cwd();
}

export function openFigureLibrary(): FigureLibrary {
  const folder = join(projectRoot(), 'assets', 'figures');
  const index = join(folder, 'figures.json');
  const figures: Record<string, { file: string }> = existsSync(index) ? JSON.parse(readFileSync(index, 'utf8')) : {};
  return {
    names: Object.keys(figures),
    async read(name) {
      if (!Object.hasOwn(figures, name)) return undefined;
      const { file } = figures[name];
      return { bytes: readFileSync(join(folder, file)), file };
    },
  };
}
