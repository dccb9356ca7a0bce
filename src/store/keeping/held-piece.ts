/** A piece that is open in this tab, as its editor or as a reader of what another tab edits. */
import type { Connection } from './connection.ts';
import { currentStep, unsavedOf, withEdit, withMove, type HistoryLimits, type PieceWithSteps, type Unsaved } from './history.ts';
import { KEPT_AS, type FileHashes, type SavedMark, type SnapshotRecord, type StepRecord } from './records.ts';
import { claimPiece, listSnapshots, loadPiece } from './stored.ts';
import { takeLock, type LetGo, type Locks, type TabMessage, type Tabs } from './tabs.ts';
import { SNAPSHOT_EVERY_MS } from './thinning.ts';
import { liveOf, type Live, type Writer } from './writer.ts';

/** How long a tab that is asked for a piece may take to write what it has. */
const HAND_OVER_MS = 1500;

export interface Piece {
  readonly id: string;
  readonly name: string;
  readonly document: unknown;
  readonly files: FileHashes;
  /** Number of the current step; `markSaved` wants it. */
  readonly step: number;
  /** What undo and redo would take back or bring back; null: nothing. */
  readonly undo: string | null;
  readonly redo: string | null;
  readonly changedAt: number;
  readonly savedToFile: SavedMark | null;
  readonly unsaved: Unsaved | null;
}

export interface Snapshot {
  readonly at: number;
  readonly document: unknown;
  readonly files: FileHashes;
}

export interface Surroundings {
  readonly connection: Connection;
  readonly writer: Writer;
  readonly tabs: Tabs;
  readonly locks: Locks | undefined;
  readonly now: () => number;
  readonly limits: HistoryLimits;
  readonly newestDocument: number;
  /** Changes of this piece can't be kept any more: another tab has it. */
  readonly onLost: () => void;
  readonly onReleased: (piece: HeldPiece) => void;
}

export class HeldPiece {
  readonly #around: Surroundings;
  readonly #listeners = new Set<() => void>();
  readonly #stop: () => void;
  #live: Live;
  #letGo: LetGo | null;
  #shown: { readonly of: PieceWithSteps; readonly piece: Piece } | null = null;
  #reloading: Promise<void> | null = null;
  #reloadAgain = false;
  #released = false;

  /** Use `Keeping.create` or `acquire`. `letGo`: frees the lock; null: a reader. */
  constructor(around: Surroundings, live: Live, letGo: LetGo | null) {
    this.#around = around;
    this.#live = live;
    this.#letGo = letGo;
    this.#stop = around.tabs.listen((message) => this.#heard(message));
  }

  get role(): 'editor' | 'reader' {
    return this.#letGo ? 'editor' : 'reader';
  }

  /** `newer`: written by a newer program; it can be looked at and saved, not changed. */
  get readOnly(): 'newer' | null {
    const version = (this.piece.document as { version?: unknown } | null)?.version;
    const newer = this.#live.now.record.kept > KEPT_AS || (typeof version === 'number' && version > this.#around.newestDocument);
    return newer ? 'newer' : null;
  }

  /** Changes made here that another tab's taking over left unkept. The piece shows them until `reload`. */
  get lost(): boolean {
    return this.#live.lost && this.#live.revision > this.#live.written;
  }

  get piece(): Piece {
    const { now } = this.#live;
    if (this.#shown?.of !== now) this.#shown = { of: now, piece: pieceOf(now) };
    return this.#shown.piece;
  }

  /** For the writer's owner. */
  get live(): Live {
    return this.#live;
  }

  /** Told when the piece, the role or what is kept changes. */
  subscribe(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Answers when the edit is on the disk (true) or never will be (false); the piece shows it at once. Throws for a reader. */
  edit(label: string, document: unknown, files: FileHashes = this.piece.files): Promise<boolean> {
    this.#mayChange();
    const { now: clock, limits } = this.#around;
    const text = JSON.stringify(document);
    if (text === undefined) throw new TypeError('A piece’s document is not JSON (undefined or a function); give the scene’s document.');
    const at = clock();
    const before = this.#live.now;
    this.#live.now = withEdit(before, { label, text, files: { ...files }, at }, limits);
    if (before.record.snapshotAt === null || at - before.record.snapshotAt >= SNAPSHOT_EVERY_MS) this.#snapshot(currentStep(before), at);
    return this.#changed();
  }

  /** null when there is nothing to undo. */
  undo(): Promise<boolean> | null {
    return this.#move(-1);
  }

  redo(): Promise<boolean> | null {
    return this.#move(1);
  }

  rename(name: string): Promise<boolean> {
    return this.#setRecord({ name, changedAt: this.#around.now() });
  }

  /** `step`: the one whose document went into the file, which may not be the current one any more. */
  markSaved(fileName: string, contentHash: string, step: number = this.piece.step): Promise<boolean> {
    const { changes, steps, at } = this.#live.now.record;
    const place = steps.indexOf(step);
    const since = place < 0 ? 0 : Math.abs(at - place);
    return this.#setRecord({ saved: { fileName, contentHash, at: this.#around.now(), step, changes: changes - since } });
  }

  /** Oldest first. */
  async snapshots(): Promise<Snapshot[]> {
    const stored = await listSnapshots(this.#around.connection, this.piece.id);
    return stored.map(({ at, text, files }) => ({ at, document: JSON.parse(text), files }));
  }

  /** An edit like any other: it can be undone. */
  restore({ document, files }: Snapshot, label = 'Go back to a snapshot'): Promise<boolean> {
    return this.edit(label, document, files);
  }

  /** Reads what is stored. Changes that could not be kept are given up. */
  async reload(): Promise<void> {
    if (this.role === 'editor') return;
    if (this.#reloading) {
      this.#reloadAgain = true;
      return this.#reloading;
    }
    this.#reloading = this.#load();
    await this.#reloading.finally(() => (this.#reloading = null));
  }

  /** On the person's word: the other tab writes what it has and becomes a reader; one that doesn't answer is shut out. */
  async takeOver(): Promise<void> {
    if (this.role === 'editor' || this.#released) return;
    const { tabs, locks, connection } = this.#around;
    const { id } = this.piece;
    const stolen = () => this.#stolen();
    let letGo = await takeLock(locks, id, false, stolen);
    if (!letGo || !locks) {
      const handed = tabs.heard('handed', id, HAND_OVER_MS);
      tabs.say({ kind: 'hand-over', piece: id });
      await handed;
      letGo = await takeLock(locks, id, true, stolen);
    }
    const claimed = await claimPiece(connection, id).catch((error: unknown) => {
      void letGo?.();
      throw error;
    });
    if (!claimed || this.#released) return void letGo?.();
    this.#live = liveOf(claimed, true);
    this.#letGo = letGo;
    tabs.say({ kind: 'claimed', piece: id, epoch: claimed.record.epoch });
    this.#tell();
  }

  /** Answers when everything is written, and the piece is free for other tabs. */
  async release(): Promise<void> {
    if (this.#released) return;
    if (this.role === 'editor' && this.#live.revision > this.#live.written) await this.#around.writer.write(this.#live);
    await this.#end();
  }

  /** Lets go at once. */
  dispose(): void {
    void this.#end();
  }

  /** The lock or the record went to another tab. */
  async becomeReader(): Promise<void> {
    if (this.role === 'reader') return;
    this.#around.writer.lose(this.#live);
    const freed = this.#letGo?.();
    this.#letGo = null;
    if (this.lost) this.#around.onLost();
    this.#tell();
    await freed;
  }

  tellWritten(): void {
    this.#around.tabs.say({ kind: 'changed', piece: this.piece.id });
    this.#tell();
  }

  async #end(): Promise<void> {
    if (this.#released) return;
    this.#released = true;
    const letGo = this.#letGo;
    this.#letGo = null;
    this.#stop();
    this.#listeners.clear();
    this.#around.onReleased(this);
    await letGo?.();
  }

  /** For the lock's callback. */
  #stolen(): void {
    void this.becomeReader();
  }

  #setRecord(change: Partial<PieceWithSteps['record']>): Promise<boolean> {
    if (this.role === 'reader') throw new Error(NOT_EDITOR);
    if (this.#live.now.record.kept > KEPT_AS) throw new Error(NEWER);
    const { record, steps } = this.#live.now;
    this.#live.now = { record: { ...record, ...change }, steps };
    return this.#changed();
  }

  #move(by: -1 | 1): Promise<boolean> | null {
    this.#mayChange();
    const moved = withMove(this.#live.now, by, this.#around.now());
    if (!moved) return null;
    this.#live.now = moved;
    return this.#changed();
  }

  #snapshot({ piece, at, text, files, hashes }: StepRecord, now: number): void {
    this.#live.snapshots.push({ piece, at, text, files, hashes } satisfies SnapshotRecord);
    const { record, steps } = this.#live.now;
    this.#live.now = { record: { ...record, snapshotAt: now }, steps };
  }

  #changed(): Promise<boolean> {
    this.#live.revision++;
    const kept = this.#around.writer.write(this.#live);
    this.#tell();
    return kept;
  }

  #mayChange(): void {
    if (this.role === 'reader') throw new Error(NOT_EDITOR);
    if (this.readOnly) throw new Error(NEWER);
  }

  async #load(): Promise<void> {
    do {
      this.#reloadAgain = false;
      const found = await loadPiece(this.#around.connection, this.piece.id);
      if (this.role === 'editor' || this.#released) return;
      if (found) this.#live = liveOf(found, true);
      this.#tell();
    } while (this.#reloadAgain);
  }

  #heard(message: TabMessage): void {
    if (message.piece !== this.piece.id) return;
    if (this.role === 'reader') {
      // A failed reading leaves what is shown; the next change asks again.
      if ((message.kind === 'changed' || message.kind === 'claimed') && !this.lost) this.reload().catch(() => undefined);
      return;
    }
    if (message.kind === 'hand-over') void this.#handOver();
    if (message.kind === 'claimed' && message.epoch > this.#live.now.record.epoch) void this.becomeReader();
  }

  async #handOver(): Promise<void> {
    const { id } = this.piece;
    if (this.#live.revision > this.#live.written) {
      await Promise.race([this.#around.writer.write(this.#live), new Promise((resolve) => setTimeout(resolve, HAND_OVER_MS / 2))]);
    }
    await this.becomeReader();
    this.#around.tabs.say({ kind: 'handed', piece: id });
  }

  #tell(): void {
    for (const listener of [...this.#listeners]) listener();
  }
}

const NEWER = 'This piece was made with a newer version and can’t be changed here; reload the page to get that version, or start a new piece.';
const NOT_EDITOR = 'This piece is open for editing in another tab; take it over there first, or change it in that tab.';

function pieceOf(now: PieceWithSteps): Piece {
  const { record, steps } = now;
  const { text, files, seq, label } = currentStep(now);
  const redo = record.at + 1 < record.steps.length ? steps.get(record.steps[record.at + 1])!.label : null;
  return {
    id: record.id,
    name: record.name,
    document: JSON.parse(text),
    files,
    step: seq,
    undo: record.at > 0 ? label : null,
    redo,
    changedAt: record.changedAt,
    savedToFile: record.saved,
    unsaved: unsavedOf(record),
  };
}
