/** Brings an older scene document up to the current version, one numbered step at a time. */
import type { Problem } from './read.ts';

export const CURRENT_VERSION = 1;

/** A pure step from version `from` to `from + 1`. */
export interface Migration {
  readonly from: number;
  step(document: Record<string, unknown>): Record<string, unknown>;
}

/** In order. Version 1 is the first, so there is nothing older to bring up yet. */
const MIGRATIONS: readonly Migration[] = [];

export type Migrated = { readonly ok: true; readonly document: unknown } | { readonly ok: false; readonly problem: Problem };

/** The document at `current`, or why it can't be: not a scene, a version that never was, or one newer than this program. */
export function migrate(document: unknown, migrations = MIGRATIONS, current = CURRENT_VERSION): Migrated {
  const no = (path: string, message: string): Migrated => ({ ok: false, problem: { path, message } });
  if (typeof document !== 'object' || document === null || Array.isArray(document)) {
    return no('', 'The file holds no scene; expected an object { "format": "stillpool.scene", "version": 1, … }.');
  }
  let scene = document as Record<string, unknown>;
  if (scene.format !== 'stillpool.scene') {
    return no('format', `found ${JSON.stringify(scene.format)?.slice(0, 60) ?? 'nothing'}; expected "stillpool.scene". Is this another program’s file?`);
  }
  const { version } = scene;
  const oldest = migrations[0]?.from ?? current;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < oldest) {
    return no('version', `found ${JSON.stringify(version)?.slice(0, 60) ?? 'nothing'}; expected ${oldest === current ? current : `a whole number from ${oldest} to ${current}`}.`);
  }
  if (version > current) {
    return no('version', `found ${version}; this program reads up to ${current}. The file was made by a newer one: update Stillpool to open it.`);
  }
  for (let at = version; at < current; at++) {
    const migration = migrations.find((candidate) => candidate.from === at);
    if (!migration) return no('version', `found ${at}; no step leads from it to ${at + 1}.`);
    scene = { ...migration.step(scene), version: at + 1 };
  }
  return { ok: true, document: scene };
}
