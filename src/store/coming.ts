/** A piece on its way in, from the worker or from what is kept: a document that can be edited, with its files. */
import { sceneFile, type SceneFile } from '../core/scene/edit/file.ts';
import { CURRENT_VERSION } from '../core/scene/migrate.ts';
import type { Problem } from '../core/scene/read.ts';
import { messageOf } from '../files/fail.ts';
import type { Answer, OpenedScene } from '../work/protocol.ts';
import { copied } from './piece-files.ts';
import type { PieceState } from './piece-state.ts';

export interface Coming {
  readonly document: SceneFile;
  readonly files: ReadonlyMap<string, Blob>;
  readonly readOnly: PieceState['readOnly'];
}

export interface NotComing {
  readonly problems: readonly Problem[];
}

export async function comingOf(answer: Answer<'open' | 'demo'>): Promise<Coming | NotComing> {
  if (!answer.ok) return answer;
  const { document, files } = answer.value satisfies OpenedScene;
  const own = new Map<string, Blob>();
  for (const [path, blob] of files) own.set(path, await copied(blob));
  return comingFrom(document, own);
}

/** A document from a newer version is shown as if it were of ours, where that can be read, and can't be changed. */
export function comingFrom(document: unknown, files: ReadonlyMap<string, Blob>): Coming | NotComing {
  const version = (document as { version?: unknown } | null)?.version;
  const newer = typeof version === 'number' && version > CURRENT_VERSION;
  const known = sceneFile(newer ? { ...(document as object), version: CURRENT_VERSION } : document);
  if (known.ok) return { document: known.file, files, readOnly: newer ? 'newer' : null };
  const ours = newer ? sceneFile(document) : known;
  return ours.ok ? { document: ours.file, files, readOnly: null } : { problems: ours.problems };
}

export function unreadable(name: string, error: unknown): string {
  return `${name} can’t be read (${messageOf(error)}). Was it moved? Drop the files themselves, or their folder.`;
}
