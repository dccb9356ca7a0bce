/**
 * What the browser's database holds. Three small stores and one of files:
 * `pieces` (one small record each: name, which steps, where in them), `steps` (one record per edit, written once and
 * never changed), `snapshots` (by time) and `files` (bytes by their hash).
 *
 * A step's record and the piece's record that points to it go into one transaction, so that a half-written edit can't
 * be read. A journal that is folded into one big record was the other way; it writes every document twice and has
 * to be replayed, and a history of 20 MB would be rewritten whole.
 */

/** Path in the scene → SHA-256 of the file's bytes, hex. */
export type FileHashes = Readonly<Record<string, string>>;

export interface StepRecord {
  readonly piece: string;
  readonly seq: number;
  readonly label: string;
  /** ms since 1970. */
  readonly at: number;
  /** The document as JSON text. */
  readonly text: string;
  readonly files: FileHashes;
  /** The values of `files`, for the index that keeps them from being swept. */
  readonly hashes: readonly string[];
}

export interface SavedMark {
  readonly fileName: string;
  readonly contentHash: string;
  readonly at: number;
  /** The step that the file holds. */
  readonly step: number;
  /** `changes` of the piece when that step was the current one. */
  readonly changes: number;
}

export interface PieceRecord {
  readonly id: string;
  readonly name: string;
  readonly createdAt: number;
  readonly changedAt: number;
  /** Oldest first; `steps[at]` is the piece as it is now, those after it can be redone. */
  readonly steps: readonly number[];
  readonly at: number;
  readonly nextSeq: number;
  /** Edits, undos and redos ever made. */
  readonly changes: number;
  /** Raised whenever a tab becomes the editor; a tab with an older one can't write any more. */
  readonly epoch: number;
  readonly saved: SavedMark | null;
  readonly snapshotAt: number | null;
  readonly forgottenAt: number | null;
  /** Which shape of records this is. */
  readonly kept: number;
}

export interface SnapshotRecord {
  readonly piece: string;
  readonly at: number;
  readonly text: string;
  readonly files: FileHashes;
  readonly hashes: readonly string[];
}

export interface FileRecord {
  readonly hash: string;
  readonly blob: Blob;
  readonly addedAt: number;
}

/** The shape of piece records this program writes. A newer one is only read. */
export const KEPT_AS = 1;
