/**
 * Keeps pieces in the browser: every edit on the disk within a second, undo and redo over a reload, snapshots by time,
 * one editor per piece. The file is the truth, this is a cache; `Piece.unsaved` says what no file holds.
 * A failed write stays visible in the status, the edit stays in memory and is tried again.
 */
import { Connection } from './connection.ts';
import { currentStep, HISTORY_LIMITS, stepOf, unsavedOf, type HistoryLimits, type PieceWithSteps, type Unsaved } from './history.ts';
import { HeldPiece, type Surroundings } from './held-piece.ts';
import { KEPT_AS, type FileHashes, type FileRecord, type PieceRecord } from './records.ts';
import { digestOf, type Digest } from './digest.ts';
import { changeRecord, claimPiece, listPieces, loadPiece, missingFiles, purgeForgotten, readFile, sweepFiles, writeFile } from './stored.ts';
import { Tabs, takeLock, type Channel, type LetGo, type Locks } from './tabs.ts';
import { trouble, troubleOf, type KeepingTrouble } from './words.ts';
import { liveOf, Writer, type Live } from './writer.ts';

const HOUR_MS = 3_600_000;
/** A piece forgotten in another tab that is still open can be remembered there this long. */
const FORGOTTEN_FOR_MS = 24 * HOUR_MS;
/** A file may be read in some time before the edit that uses it; only older ones are swept. */
const SWEEP_AFTER_MS = 24 * HOUR_MS;

export interface KeepingOptions {
  /** undefined: the browser keeps nothing for the page. */
  readonly indexedDB: IDBFactory | undefined;
  readonly locks: Locks | undefined;
  readonly channel: Channel | null;
  /** `navigator.storage`; `persist` is asked for once, inside the first save to a file. */
  readonly storage: { persist?(): Promise<boolean>; persisted?(): Promise<boolean> } | undefined;
  /** ms since 1970. */
  readonly now: () => number;
  /** An id nobody else has. */
  readonly newId: () => string;
  /** The newest document version that may be changed here. */
  readonly newestDocument: number;
  readonly limits: HistoryLimits;
  readonly digest: Digest;
  /** ms before a failed write is tried again, by how many failed in a row; the last is repeated. */
  readonly retryMs: readonly number[];
}

/** The browser's own, without the channel: it has to be closed again and is made only where it is used. */
function keepingDefaults(): Omit<KeepingOptions, 'channel'> {
  return {
    indexedDB: theFactory(),
    locks: globalThis.navigator?.locks as Locks | undefined,
    storage: globalThis.navigator?.storage,
    now: () => Date.now(),
    newId: () => Array.from(crypto.getRandomValues(new Uint32Array(4)), (word) => word.toString(36).padStart(7, '0')).join(''),
    newestDocument: 1,
    limits: HISTORY_LIMITS,
    digest: digestOf,
    retryMs: [250, 500, 1000, 2000, 5000],
  };
}

export interface KeepingStatus {
  /** `kept`: all of it is on the disk. `keeping`: being written. `failing`: it can't be; see `trouble`. */
  readonly state: 'kept' | 'keeping' | 'failing';
  /** Changes that are in memory only. */
  readonly waiting: number;
  readonly trouble: KeepingTrouble | null;
  /** What happened and is over, until `dismiss`. */
  readonly notices: readonly KeepingTrouble[];
  /** ms from put to complete of the last write; null before it. */
  readonly lastWriteMs: number | null;
  /** Hashes of files that pieces open here need and nobody has any more: give them again with `putFile`. */
  readonly missing: readonly string[];
}

export interface RecentPiece {
  readonly id: string;
  readonly name: string;
  readonly changedAt: number;
  readonly savedToFile: PieceRecord['saved'];
  readonly unsaved: Unsaved | null;
}

export interface NewPiece {
  readonly name: string;
  readonly document: unknown;
  readonly files?: FileHashes;
  /** The file it was opened from. */
  readonly from?: { readonly fileName: string; readonly contentHash: string };
}

/** Answers when storage was tried; a browser that keeps nothing is a `trouble` in the status, not an error. */
export async function openKeeping(options: Partial<KeepingOptions> = {}): Promise<Keeping> {
  const channel = options.channel === undefined ? theChannel() : options.channel;
  const keeping = new Keeping({ ...keepingDefaults(), ...options, channel });
  await keeping.start();
  return keeping;
}

export class Keeping {
  readonly #options: KeepingOptions;
  readonly #connection: Connection;
  readonly #writer: Writer;
  readonly #tabs: Tabs;
  readonly #held = new Map<string, HeldPiece>();
  readonly #files = new Map<string, FileRecord>();
  /** Files of which the writing failed. */
  readonly #unstored = new Set<string>();
  readonly #listeners = new Set<() => void>();
  #status: KeepingStatus = { state: 'kept', waiting: 0, trouble: null, notices: [], lastWriteMs: null, missing: [] };
  #askedToPersist = false;

  constructor(options: KeepingOptions) {
    this.#options = options;
    this.#connection = new Connection(options.indexedDB, () => this.#set({ trouble: trouble('blocked') }));
    this.#tabs = new Tabs(options.channel);
    this.#writer = new Writer(this.#connection, {
      now: options.now,
      retryMs: options.retryMs,
      files: this.#files,
      onWritten: (live, lastWriteMs) => {
        this.#set({ lastWriteMs, trouble: this.#unstored.size > 0 ? this.#status.trouble : null });
        if (this.#unstored.size > 0) void this.#storeFiles();
        this.#heldOf(live)?.tellWritten();
      },
      onLost: (live) => void this.#heldOf(live)?.becomeReader(),
      onGone: () => {
        this.#notice(trouble('gone'));
        void this.#lookForFiles();
      },
      onTrouble: (now) => this.#set({ trouble: now }),
    });
  }

  /** Opens the database and clears away what was forgotten. `openKeeping` does this. */
  async start(): Promise<void> {
    const opened = this.#connection.open().then(
      () => this.#set({ trouble: null }),
      (error: unknown) => this.#set({ trouble: troubleOf(error) }),
    );
    // An older tab may block the opening for as long as it is open; the page must not wait for it.
    const blocked = new Promise<void>((resolve) => {
      const stop = this.subscribe(() => {
        if (this.#status.trouble?.kind === 'blocked') resolve();
      });
      void opened.then(stop);
    });
    await Promise.race([opened, blocked]);
    if (this.#status.trouble) return;
    await this.#tidy(FORGOTTEN_FOR_MS, SWEEP_AFTER_MS).catch((error: unknown) => this.#set({ trouble: troubleOf(error) }));
  }

  get status(): KeepingStatus {
    return this.#status;
  }

  subscribe(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  dismiss(): void {
    this.#set({ notices: [] });
  }

  /** Tries at once what failed. */
  retry(): void {
    this.#writer.retry();
  }

  /** Newest first, without the forgotten ones. Throws StorageTrouble. */
  async recents(): Promise<RecentPiece[]> {
    const all = await listPieces(this.#connection);
    return all
      .filter(({ forgottenAt }) => forgottenAt === null)
      .sort((a, b) => b.changedAt - a.changedAt)
      .map((record) => ({ id: record.id, name: record.name, changedAt: record.changedAt, savedToFile: record.saved, unsaved: unsavedOf(record) }));
  }

  /** A new piece, edited here. Needs no storage: without one it lives in this tab. */
  async create({ name, document, files = {}, from }: NewPiece): Promise<HeldPiece> {
    const { newId, now, locks } = this.#options;
    const id = newId();
    const at = now();
    const step = stepOf(id, 1, { label: 'Start', text: JSON.stringify(document), files, at });
    const saved = from ? { ...from, at, step: 1, changes: 0 } : null;
    const record: PieceRecord = { id, name, createdAt: at, changedAt: at, steps: [1], at: 0, nextSeq: 2, changes: 0, epoch: 1, saved, snapshotAt: null, forgottenAt: null, kept: KEPT_AS };
    const letGo = await takeLock(locks, id, false, () => void this.#held.get(id)?.becomeReader());
    if (!letGo) throw new Error(`The id ${id} of a new piece is in use; ids must be new.`);
    const held = this.#hold(liveOf({ record, steps: new Map([[1, step]]) }, false), letGo);
    void this.#writer.write(held.live);
    this.#set({});
    return held;
  }

  /**
   * Opens a kept piece, as its editor if no other tab is. Nothing is written before it was read.
   * null: there is no such piece. Throws StorageTrouble when it can't be read.
   */
  async acquire(id: string): Promise<HeldPiece | null> {
    const open = this.#held.get(id);
    if (open) return open;
    const letGo = await takeLock(this.#options.locks, id, false, () => void this.#held.get(id)?.becomeReader());
    let found: PieceWithSteps | null;
    try {
      found = await loadPiece(this.#connection, id);
      // A piece of a newer kind is not touched at all.
      if (found && letGo && found.record.kept <= KEPT_AS) found = await claimPiece(this.#connection, id);
    } catch (error) {
      await letGo?.();
      throw error;
    }
    if (!found || found.record.forgottenAt !== null) {
      await letGo?.();
      return null;
    }
    const meanwhile = this.#held.get(id);
    if (meanwhile) {
      await letGo?.();
      return meanwhile;
    }
    const held = this.#hold(liveOf(found, true), letGo);
    if (letGo) this.#tabs.say({ kind: 'claimed', piece: id, epoch: found.record.epoch });
    void this.#lookForFiles();
    return held;
  }

  /** What a kept piece holds as it was last written; it is not opened, and whoever edits it goes on. null: there is no such piece. Throws StorageTrouble. */
  async look(id: string): Promise<{ readonly name: string; readonly document: unknown; readonly files: FileHashes } | null> {
    const found = await loadPiece(this.#connection, id);
    if (!found || found.record.forgottenAt !== null) return null;
    const { text, files } = currentStep(found);
    return { name: found.record.name, document: JSON.parse(text), files };
  }

  /** The file went to the disk: the first time, the browser is asked not to clear its storage. */
  markSaved(held: HeldPiece, fileName: string, contentHash: string, step = held.piece.step): Promise<boolean> {
    const { storage } = this.#options;
    if (!this.#askedToPersist && storage?.persist) {
      this.#askedToPersist = true;
      // Not waited for, as a browser may ask the person; a refusal changes nothing: the file is the truth.
      storage.persist().catch(() => false);
    }
    return held.markSaved(fileName, contentHash, step);
  }

  /** Of a piece that may be open here. False: there is none. Throws when another tab edits it. */
  async rename(id: string, name: string): Promise<boolean> {
    const open = this.#held.get(id);
    if (open) return open.rename(name);
    return this.#change(id, (record) => ({ ...record, name }));
  }

  /** Gone from the recents; `remember` brings it back until the page closes. An open one is released first. */
  async forget(id: string): Promise<boolean> {
    await this.#held.get(id)?.release();
    const at = this.#options.now();
    return this.#change(id, (record) => ({ ...record, forgottenAt: at }));
  }

  remember(id: string): Promise<boolean> {
    return this.#change(id, (record) => ({ ...record, forgottenAt: null }));
  }

  /** When the storage is full: what was forgotten is deleted now, with files that nothing uses. */
  async makeRoom(): Promise<void> {
    await this.#tidy(0, 0);
    this.retry();
  }

  /**
   * Keeps a file's bytes, which must not change any more; answers their hash, to be put into a piece's `files`. A failure
   * to write is in the status, and the file is written again with the first edit that uses it.
   */
  async putFile(blob: Blob): Promise<string> {
    const hash = await this.#options.digest(blob);
    const file = this.#files.get(hash) ?? { hash, blob, addedAt: this.#options.now() };
    this.#files.set(hash, file);
    this.#unstored.add(hash);
    await this.#storeFiles();
    if (this.#status.missing.includes(hash)) void this.#lookForFiles();
    return hash;
  }

  /** null: nobody has it any more; ask the person for the file. The bytes may go with the browser's storage: copy what must stay. */
  async file(hash: string): Promise<Blob | null> {
    return this.#files.get(hash)?.blob ?? (await readFile(this.#connection, hash));
  }

  /** Lets go of everything at once. Use `HeldPiece.release` to wait for what is being written. */
  dispose(): void {
    for (const held of [...this.#held.values()]) held.dispose();
    this.#writer.dispose();
    this.#tabs.dispose();
    this.#connection.dispose();
    this.#listeners.clear();
  }

  async #tidy(forgottenForMs: number, sweepAfterMs: number): Promise<void> {
    const now = this.#options.now();
    await purgeForgotten(this.#connection, now - forgottenForMs);
    await sweepFiles(this.#connection, now - sweepAfterMs, this.#wanted());
  }

  async #storeFiles(): Promise<void> {
    const failing = this.#status.trouble;
    try {
      for (const hash of [...this.#unstored]) {
        await writeFile(this.#connection, this.#files.get(hash)!);
        this.#unstored.delete(hash);
      }
      if (failing && this.#writer.waiting === 0) this.#set({ trouble: null });
    } catch (error) {
      this.#set({ trouble: troubleOf(error) });
    }
  }

  /** Everything that this tab has in memory may be written with the next edit. */
  #wanted(): Set<string> {
    const wanted = new Set(this.#files.keys());
    for (const { live } of this.#held.values()) {
      for (const { hashes } of [...live.now.steps.values(), ...live.snapshots]) for (const hash of hashes) wanted.add(hash);
    }
    return wanted;
  }

  async #change(id: string, change: (record: PieceRecord) => PieceRecord): Promise<boolean> {
    const letGo = await takeLock(this.#options.locks, id, false, () => undefined);
    if (!letGo) throw new Error('This piece is open in another tab; close it there first.');
    try {
      const changed = await changeRecord(this.#connection, id, change);
      return changed !== null;
    } finally {
      await letGo();
    }
  }

  #hold(live: Live, letGo: LetGo | null): HeldPiece {
    const { now, locks, limits, newestDocument } = this.#options;
    const around: Surroundings = {
      connection: this.#connection,
      writer: this.#writer,
      tabs: this.#tabs,
      locks,
      now,
      limits,
      newestDocument,
      onLost: () => this.#notice(trouble('taken-over')),
      onReleased: (piece) => this.#held.delete(piece.piece.id),
    };
    const held = new HeldPiece(around, live, letGo);
    this.#held.set(live.now.record.id, held);
    held.subscribe(() => this.#set({}));
    return held;
  }

  #heldOf(live: Live): HeldPiece | undefined {
    const held = this.#held.get(live.now.record.id);
    return held?.live === live ? held : undefined;
  }

  /** Which files of the open pieces are nowhere, and puts back those that this tab still has. */
  async #lookForFiles(): Promise<void> {
    try {
      const needed = new Set([...this.#held.values()].flatMap(({ piece }) => Object.values(piece.files)));
      const absent = await missingFiles(this.#connection, [...needed]);
      for (const hash of absent) {
        const file = this.#files.get(hash);
        if (file) await writeFile(this.#connection, file);
      }
      if (this.#status.missing.length === 0 && absent.every((hash) => this.#files.has(hash))) return;
      this.#set({ missing: absent.filter((hash) => !this.#files.has(hash)) });
    } catch (error) {
      this.#set({ trouble: troubleOf(error) });
    }
  }

  #notice(notice: KeepingTrouble): void {
    this.#set({ notices: [...this.#status.notices.filter(({ kind }) => kind !== notice.kind), notice] });
  }

  #set(change: Partial<KeepingStatus>): void {
    const next = { ...this.#status, ...change };
    const waiting = this.#writer.waiting;
    this.#status = { ...next, waiting, state: next.trouble ? 'failing' : waiting > 0 ? 'keeping' : 'kept' };
    for (const listener of [...this.#listeners]) listener();
  }
}

function theChannel(): Channel | null {
  return typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel('stillpool');
}

/** Reading `indexedDB` throws where storage is turned off for the page. */
function theFactory(): IDBFactory | undefined {
  try {
    return globalThis.indexedDB;
  } catch {
    return undefined;
  }
}
