/** Pieces that are kept beside the open one: their list, and what one of them holds, to be planned with and not to be opened. */
import type { PieceFile } from '../work/protocol.ts';
import type { Keeping } from './keeping/keeping.ts';
import type { RecentPiece } from './piece-state.ts';

export interface KeptPiece {
  readonly id: string;
  readonly name: string;
  /** Parsed JSON; not checked yet. */
  readonly document: unknown;
  readonly files: readonly PieceFile[];
}

/** Newest first; none where they can't be read. */
export async function recentPieces(keeping: Promise<Keeping>, openId: () => string | undefined): Promise<RecentPiece[]> {
  const all = await (await keeping).recents().catch(() => []);
  const openNow = openId();
  return all.map(({ id, name, changedAt, savedToFile }) => ({ id, name, changedAt, fileName: savedToFile?.fileName ?? null, open: id === openNow }));
}

/** As it was last written. Null: it is not kept any more, or can't be read. Files that are nowhere any more are left out. */
export async function keptPiece(opening: Promise<Keeping>, id: string): Promise<KeptPiece | null> {
  const keeping = await opening;
  try {
    const found = await keeping.look(id);
    if (!found) return null;
    const files: PieceFile[] = [];
    for (const [path, hash] of Object.entries(found.files)) {
      const blob = await keeping.file(hash);
      if (blob) files.push({ id: hash, path, blob });
    }
    return { id, name: found.name, document: found.document, files };
  } catch {
    return null;
  }
}
