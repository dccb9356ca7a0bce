/** Holds the import table of DEVELOPERS.md: imports point down it only, and the core stays pure. */
import { readFileSync, readdirSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const SRC = join(import.meta.dirname, '..', 'src');

/** What each folder may import beside itself. */
const ALLOWED: Record<string, readonly string[]> = {
  core: [],
  files: ['core'],
  work: ['files', 'core'],
  store: ['work', 'files', 'core'],
  view: ['store', 'work', 'files', 'core'],
  screens: ['view', 'store', 'work', 'files', 'core'],
  cli: ['files', 'core'],
  'main.tsx': ['screens', 'store', 'work', 'files', 'core'],
};
/** Packages that do arithmetic only, and so may be used by the core. */
const PURE_PACKAGES = ['valibot'];

describe('architecture', () => {
  const files = sources(SRC);

  it('finds the sources', () => {
    expect(files.length).toBeGreaterThan(30);
    for (const file of files) expect(ALLOWED, `${file} lies in no known folder`).toHaveProperty([folderOf(file)]);
  });

  it.each(files)('%s imports only what lies below it', (file) => {
    for (const target of importsOf(join(SRC, file))) {
      if (!target.startsWith('.')) {
        if (folderOf(file) === 'core') expect(PURE_PACKAGES, `${file} imports ${target}`).toContain(target);
        continue;
      }
      const folder = folderOf(relative(SRC, join(SRC, dirname(file), target)));
      if (folder === '..') continue; // assets beside src: checked by the build
      expect([folderOf(file), ...ALLOWED[folderOf(file)]], `${file} imports ${target}`).toContain(folder);
    }
  });

  it('has no file over 500 lines', () => {
    const long = files.filter((file) => readFileSync(join(SRC, file), 'utf8').split('\n').length > 500);
    expect(long).toEqual([]);
  });
});

function sources(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(ts|tsx)$/.test(name) && !name.endsWith('.d.ts'))
    .map((name) => name.split(sep).join('/'));
}

function folderOf(file: string): string {
  return file.split(/[\\/]/)[0];
}

function importsOf(file: string): string[] {
  return ts.preProcessFile(readFileSync(file, 'utf8'), true, true).importedFiles.map((found) => found.fileName);
}
