/**
 * What the plan command found out and would find out again: one file for each question, beside the command's bundle, so
 * that it goes when the sources change. Only ever a shortcut: what can't be read or written is worked out anew.
 */
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';

/** Some 100 kB each. */
const MOST_FILES = 200;
const MOST_BYTES = 16e6;

export interface Kept {
  /** What was kept under this key, the same to the last bit; undefined: nothing. */
  get(key: string): unknown;
  put(key: string, value: unknown): void;
}

/** Keeps nothing where there is no folder. */
export function keptIn(folder: string | undefined): Kept {
  if (!folder) return { get: () => undefined, put: () => {} };
  const fileOf = (key: string) => join(folder, createHash('sha256').update(key).digest('hex'));
  return {
    get: (key) =>
      orNot(() => {
        const file = fileOf(key);
        const value: unknown = deserialize(readFileSync(file));
        utimesSync(file, new Date(), new Date());
        return value;
      }),
    put(key, value) {
      const file = fileOf(key);
      const unfinished = `${file}.${process.pid}`;
      const bytes = serialize(value);
      if (bytes.length > MOST_BYTES) return;
      orNot(() => {
        mkdirSync(folder, { recursive: true });
        writeFileSync(unfinished, bytes);
        renameSync(unfinished, file);
        forgetOldest(folder);
      });
      orNot(() => rmSync(unfinished, { force: true }));
    },
  };
}

function orNot<T>(work: () => T): T | undefined {
  try {
    return work();
  } catch {
    return undefined;
  }
}

function forgetOldest(folder: string): void {
  const names = readdirSync(folder);
  if (names.length <= MOST_FILES) return;
  const usedMs = (name: string) => statSync(join(folder, name), { throwIfNoEntry: false })?.mtimeMs ?? 0;
  const byAge = names.map((name) => ({ name, at: usedMs(name) })).sort((a, b) => a.at - b.at);
  for (const { name } of byAge.slice(0, names.length - MOST_FILES)) rmSync(join(folder, name), { force: true });
}
