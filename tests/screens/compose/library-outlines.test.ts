/** The chooser's silhouettes are those of the figure library as it is now. `STILLPOOL_DRAW=1` writes them anew. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { LIBRARY_OUTLINES } from '../../../src/screens/compose/library-outlines.ts';
import { libraryNames, outlineOfLibrary } from './library-outline.ts';

const FILE = join(import.meta.dirname, '..', '..', '..', 'src', 'screens', 'compose', 'library-outlines.ts');

if (process.env.STILLPOOL_DRAW) {
  const rows = libraryNames.map((name) => {
    const { box, path } = outlineOfLibrary(name);
    return `  '${name}': { box: '${box}', path: '${path}' },`;
  });
  writeFileSync(FILE, `/** Silhouettes of our own figures for the chooser, mm. Drawn by tests/screens/compose/library-outlines.test.ts from assets/figures. */\n\nexport const LIBRARY_OUTLINES: Readonly<Record<string, { readonly box: string; readonly path: string }>> = {\n${rows.join('\n')}\n};\n`);
}

it.each(libraryNames)('%s is drawn as its mesh is', (name) => {
  expect(LIBRARY_OUTLINES[name]).toEqual(outlineOfLibrary(name));
});

it('draws nothing that is no longer in the library', () => {
  expect(Object.keys(LIBRARY_OUTLINES).sort()).toEqual([...libraryNames].sort());
});
