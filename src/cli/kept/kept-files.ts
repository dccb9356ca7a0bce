/**
 * What the plan command found out and would find out again: one file for each question, beside the command's bundle, so
 * that it goes when the sources change. Only ever a shortcut: what can't be read or written is worked out anew.
 */
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';

/** Some 100 kB each; with large meshes some MB. */
const MOST_FILES = 200;
const MOST_BYTES = { file: 16e6, all: 256e6 } as const;
const DIGEST_BYTES = 32;

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
        const content = readFileSync(file);
        const bytes = content.subarray(DIGEST_BYTES);
        // A crash or a bad disk can leave other bytes, and a number among them would be believed.
        if (!digestOf(bytes).equals(content.subarray(0, DIGEST_BYTES))) return undefined;
        utimesSync(file, new Date(), new Date());
        return deserialize(bytes) as unknown;
      }),
    put(key, value) {
      const file = fileOf(key);
      const unfinished = `${file}.${process.pid}`;
      orNot(() => {
        const bytes = serialize(value);
        if (bytes.length > MOST_BYTES.file) return;
        mkdirSync(folder, { recursive: true });
        writeFileSync(unfinished, Buffer.concat([digestOf(bytes), bytes]));
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

function digestOf(bytes: Uint8Array): Buffer {
  return createHash('sha256').update(bytes).digest();
}

function forgetOldest(folder: string): void {
  const files = readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    const stat = statSync(path, { throwIfNoEntry: false });
    return stat ? [{ path, bytes: stat.size, usedMs: stat.mtimeMs }] : [];
  });
  let bytes = 0;
  files
    .sort((a, b) => b.usedMs - a.usedMs)
    .forEach((file, newer) => {
      bytes += file.bytes;
      if (newer >= MOST_FILES || bytes > MOST_BYTES.all) rmSync(file.path, { force: true });
    });
}
