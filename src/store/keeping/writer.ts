/**
 * Brings pieces from memory to the disk. Memory leads: what has to be written is the difference between a piece as it is
 * now and what is known to be stored, so a failed write is simply tried again, with all that came since.
 */
import type { Connection } from './connection.ts';
import type { PieceWithSteps } from './history.ts';
import type { FileRecord, SnapshotRecord } from './records.ts';
import { writePiece } from './stored.ts';
import { StorageTrouble, troubleOf, type KeepingTrouble } from './words.ts';

/** A piece in memory of which this tab is the editor. */
export interface Live {
  now: PieceWithSteps;
  /** Steps known to be stored. */
  stored: Set<number>;
  known: boolean;
  /** Counts changes in memory; `written` is the count that is on the disk. */
  revision: number;
  written: number;
  snapshots: SnapshotRecord[];
  waiting: { readonly revision: number; readonly tell: (kept: boolean) => void }[];
  /** Another tab has it: never written again. */
  lost: boolean;
}

export interface WriterOptions {
  readonly now: () => number;
  /** ms to wait before the next try, by how many failed; the last is repeated. */
  readonly retryMs: readonly number[];
  /** Files of this tab by hash, stored or not. */
  readonly files: ReadonlyMap<string, FileRecord>;
  readonly onWritten: (live: Live, tookMs: number) => void;
  readonly onLost: (live: Live) => void;
  /** A stored piece was no longer there; it is being written again whole. */
  readonly onGone: () => void;
  /** null: writing works again. */
  readonly onTrouble: (trouble: KeepingTrouble | null) => void;
}

export function liveOf(now: PieceWithSteps, stored: boolean): Live {
  return { now, stored: new Set(stored ? now.record.steps : []), known: stored, revision: stored ? 0 : 1, written: 0, snapshots: [], waiting: [], lost: false };
}

export class Writer {
  readonly #connection: Connection;
  readonly #options: WriterOptions;
  readonly #lives = new Set<Live>();
  #running = false;
  #failures = 0;
  #wake: (() => void) | null = null;
  #disposed = false;

  constructor(connection: Connection, options: WriterOptions) {
    this.#connection = connection;
    this.#options = options;
  }

  /** Changes not on the disk yet. */
  get waiting(): number {
    let sum = 0;
    for (const live of this.#lives) sum += live.revision - live.written;
    return sum;
  }

  /** Writes what changed. Answers when it is on the disk: true; never will be: false. */
  write(live: Live): Promise<boolean> {
    if (live.lost || this.#disposed) return Promise.resolve(false);
    this.#lives.add(live);
    const kept = new Promise<boolean>((tell) => live.waiting.push({ revision: live.revision, tell }));
    if (!this.#running) void this.#run();
    return kept;
  }

  /** Tries at once what waits for its next try. */
  retry(): void {
    this.#wake?.();
  }

  /** From now on nothing of this piece is written. */
  lose(live: Live): void {
    live.lost = true;
    this.#lives.delete(live);
    for (const { tell } of live.waiting.splice(0)) tell(live.revision === live.written);
  }

  dispose(): void {
    this.#disposed = true;
    for (const live of [...this.#lives]) this.lose(live);
    this.#wake?.();
  }

  async #run(): Promise<void> {
    this.#running = true;
    for (let live = this.#next(); live && !this.#disposed; live = this.#next()) {
      try {
        await this.#writeOne(live);
        if (this.#failures > 0) this.#options.onTrouble(null);
        this.#failures = 0;
      } catch (error) {
        if (!this.#disposed && !live.lost) await this.#failed(live, error);
      }
    }
    this.#running = false;
  }

  #next(): Live | undefined {
    for (const live of this.#lives) {
      if (live.revision > live.written) return live;
      this.#lives.delete(live);
    }
    return undefined;
  }

  async #writeOne(live: Live): Promise<void> {
    const { now, revision } = live;
    const snapshots = [...live.snapshots];
    const inHistory = new Set(now.record.steps);
    const steps = now.record.steps.filter((seq) => !live.stored.has(seq)).map((seq) => now.steps.get(seq)!);
    const needed = new Set([...steps, ...snapshots].flatMap(({ hashes }) => hashes));
    const files = [...needed].flatMap((hash) => this.#options.files.get(hash) ?? []);
    const dropped = [...live.stored].filter((seq) => !inHistory.has(seq));
    const began = this.#options.now();
    await writePiece(this.#connection, { record: now.record, steps, dropped, snapshots, files, known: live.known, now: began });
    live.stored = inHistory;
    live.known = true;
    live.written = revision;
    live.snapshots = live.snapshots.filter((snapshot) => !snapshots.includes(snapshot));
    // Another piece's turn comes before this one's next.
    this.#lives.delete(live);
    if (!live.lost) this.#lives.add(live);
    this.#options.onWritten(live, this.#options.now() - began);
    live.waiting = live.waiting.filter(({ revision: wanted, tell }) => {
      if (wanted > revision) return true;
      tell(true);
      return false;
    });
  }

  async #failed(live: Live, error: unknown): Promise<void> {
    const kind = error instanceof StorageTrouble ? error.kind : null;
    if (kind === 'taken-over') {
      this.lose(live);
      this.#options.onLost(live);
      return;
    }
    if (kind === 'gone') {
      live.stored = new Set();
      live.known = false;
      this.#options.onGone();
      return;
    }
    this.#options.onTrouble(troubleOf(error));
    const { retryMs } = this.#options;
    const waitMs = retryMs[Math.min(this.#failures++, retryMs.length - 1)];
    await new Promise<void>((resolve) => {
      const timer = setTimeout(resolve, waitMs);
      this.#wake = () => {
        clearTimeout(timer);
        resolve();
      };
    });
    this.#wake = null;
    // The others get their turn too.
    if (this.#lives.delete(live) && !live.lost) this.#lives.add(live);
  }
}
