/** Reading and writing pieces, snapshots and files: each function is one transaction. */
import { answered, ofPiece, type Connection } from './connection.ts';
import type { PieceWithSteps } from './history.ts';
import type { FileRecord, PieceRecord, SnapshotRecord, StepRecord } from './records.ts';
import { dropped } from './thinning.ts';
import { StorageTrouble } from './words.ts';

export async function listPieces(connection: Connection): Promise<PieceRecord[]> {
  return connection.transact(['pieces'], 'readonly', (tx) => answered<PieceRecord[]>(tx.objectStore('pieces').getAll()));
}

export async function loadPiece(connection: Connection, id: string): Promise<PieceWithSteps | null> {
  return connection.transact(['pieces', 'steps'], 'readonly', (tx) => read(tx, id));
}

/** Reads the piece and shuts out whoever edited it before, in one. */
export async function claimPiece(connection: Connection, id: string): Promise<PieceWithSteps | null> {
  return connection.transact(['pieces', 'steps'], 'readwrite', async (tx) => {
    const piece = await read(tx, id);
    if (!piece) return null;
    const record = { ...piece.record, epoch: piece.record.epoch + 1 };
    tx.objectStore('pieces').put(record);
    return { record, steps: piece.steps };
  });
}

/** For a piece that nobody edits now. Answers the record as it is after; null: there is no such piece. */
export async function changeRecord(connection: Connection, id: string, change: (record: PieceRecord) => PieceRecord): Promise<PieceRecord | null> {
  return connection.transact(['pieces'], 'readwrite', async (tx) => {
    const record = await answered<PieceRecord | undefined>(tx.objectStore('pieces').get(id));
    if (!record) return null;
    const changed = change(record);
    tx.objectStore('pieces').put(changed);
    return changed;
  });
}

export interface PieceWrite {
  readonly record: PieceRecord;
  readonly steps: readonly StepRecord[];
  /** Numbers of steps no longer in the history. */
  readonly dropped: readonly number[];
  readonly snapshots: readonly SnapshotRecord[];
  /** Files that the steps need and that may not be stored yet. */
  readonly files: readonly FileRecord[];
  /** The piece was stored before. */
  readonly known: boolean;
  readonly now: number;
}

/** Throws StorageTrouble `taken-over` when another tab claimed the piece, `gone` when a stored piece is no longer there. */
export async function writePiece(connection: Connection, write: PieceWrite): Promise<void> {
  const { record, steps, snapshots, files } = write;
  const stores = ['pieces', 'steps', ...(snapshots.length > 0 ? ['snapshots' as const] : []), ...(files.length > 0 ? ['files' as const] : [])] as const;
  await connection.transact(stores, 'readwrite', async (tx) => {
    const there = await answered<PieceRecord | undefined>(tx.objectStore('pieces').get(record.id));
    if (write.known && !there) throw new StorageTrouble('gone');
    if (there && there.epoch !== record.epoch) throw new StorageTrouble('taken-over');
    for (const file of files) {
      const key = await answered(tx.objectStore('files').getKey(file.hash));
      if (key === undefined) tx.objectStore('files').put(file);
    }
    for (const step of steps) tx.objectStore('steps').put(step);
    for (const seq of write.dropped) tx.objectStore('steps').delete([record.id, seq]);
    if (snapshots.length > 0) {
      const store = tx.objectStore('snapshots');
      for (const snapshot of snapshots) store.put(snapshot);
      const keys = await answered(store.getAllKeys(rangeOf(record.id)));
      for (const at of dropped(keys.map((key) => (key as [string, number])[1]), write.now)) store.delete([record.id, at]);
    }
    tx.objectStore('pieces').put(record);
  });
}

/** Oldest first. */
export async function listSnapshots(connection: Connection, id: string): Promise<SnapshotRecord[]> {
  return connection.transact(['snapshots'], 'readonly', (tx) => answered<SnapshotRecord[]>(tx.objectStore('snapshots').getAll(rangeOf(id))));
}

export async function readFile(connection: Connection, hash: string): Promise<Blob | null> {
  const found = await connection.transact(['files'], 'readonly', (tx) => answered<FileRecord | undefined>(tx.objectStore('files').get(hash)));
  return found?.blob ?? null;
}

export async function writeFile(connection: Connection, file: FileRecord): Promise<void> {
  await connection.transact(['files'], 'readwrite', async (tx) => {
    if ((await answered(tx.objectStore('files').getKey(file.hash))) === undefined) tx.objectStore('files').put(file);
  });
}

/** Which of these are not stored. */
export async function missingFiles(connection: Connection, hashes: readonly string[]): Promise<string[]> {
  return connection.transact(['files'], 'readonly', async (tx) => {
    const keys = await Promise.all(hashes.map((hash) => answered(tx.objectStore('files').getKey(hash))));
    return hashes.filter((_, i) => keys[i] === undefined);
  });
}

/** Deletes pieces forgotten at or before `forgottenBy`, with their steps and snapshots. */
export async function purgeForgotten(connection: Connection, forgottenBy: number): Promise<void> {
  await connection.transact(['pieces', 'steps', 'snapshots'], 'readwrite', async (tx) => {
    const pieces = await answered<PieceRecord[]>(tx.objectStore('pieces').getAll());
    for (const { id, forgottenAt } of pieces) {
      if (forgottenAt === null || forgottenAt > forgottenBy) continue;
      tx.objectStore('pieces').delete(id);
      tx.objectStore('steps').delete(rangeOf(id));
      tx.objectStore('snapshots').delete(rangeOf(id));
    }
  });
}

/**
 * Deletes files that no step and no snapshot of any piece needs, added at or before `addedBy` and not in `wanted`.
 * One transaction over all of them: nothing can come to need a file between the question and the deletion.
 */
export async function sweepFiles(connection: Connection, addedBy: number, wanted: ReadonlySet<string>): Promise<string[]> {
  return connection.transact(['steps', 'snapshots', 'files'], 'readwrite', async (tx) => {
    const hashes = (await answered(tx.objectStore('files').getAllKeys())) as string[];
    const swept: string[] = [];
    for (const hash of hashes) {
      if (wanted.has(hash)) continue;
      const uses = await Promise.all([tx.objectStore('steps'), tx.objectStore('snapshots')].map((store) => answered(store.index('hashes').count(hash))));
      if (uses.some((count) => count > 0)) continue;
      const { addedAt } = await answered<FileRecord>(tx.objectStore('files').get(hash));
      if (addedAt > addedBy) continue;
      tx.objectStore('files').delete(hash);
      swept.push(hash);
    }
    return swept;
  });
}

async function read(tx: IDBTransaction, id: string): Promise<PieceWithSteps | null> {
  const [record, steps] = await Promise.all([
    answered<PieceRecord | undefined>(tx.objectStore('pieces').get(id)),
    answered<StepRecord[]>(tx.objectStore('steps').getAll(rangeOf(id))),
  ]);
  if (!record) return null;
  const wanted = new Set(record.steps);
  return { record, steps: new Map(steps.filter(({ seq }) => wanted.has(seq)).map((step) => [step.seq, step])) };
}

function rangeOf(id: string): IDBKeyRange {
  const [from, to] = ofPiece(id);
  return IDBKeyRange.bound(from, to);
}
