/**
 * Brings the edits of the open piece to its keeping, in order. A piece that nobody has changed is not kept yet: the
 * first edit makes it. An edit that brings a new mesh waits for the mesh to be on the disk, and those after it wait too.
 */
import type { SceneFile } from '../core/scene/edit/file.ts';
import { linksOf } from '../files/links.ts';
import type { HeldPiece } from './keeping/held-piece.ts';
import type { Keeping } from './keeping/keeping.ts';
import type { FileHashes } from './keeping/records.ts';
import { copied } from './piece-files.ts';

/** A piece before its first edit. */
export interface Origin {
  readonly name: string;
  readonly document: unknown;
  readonly files: ReadonlyMap<string, Blob>;
  readonly from?: { readonly fileName: string; readonly contentHash: string };
}

/** Documents of steps that are known as objects, so that undo gives back the same one. */
const MOST_DOCUMENTS = 200;

/** How long a piece that is left may keep the next one waiting: a browser that can't write must not. */
const LEAVING_MS = 1500;

/** One piece and what is on its way to it. */
interface Line {
  origin: Origin | null;
  held: HeldPiece | null;
  queued: number;
  last: Promise<void>;
  readonly documents: Map<number, SceneFile>;
  unsubscribe: () => void;
}

export class PieceKeeper {
  readonly #keeping: Promise<Keeping>;
  /** The piece, its role or what is kept changed. */
  readonly #onChange: () => void;
  readonly #hashes = new WeakMap<Blob, Promise<string>>();
  #line: Line = newLine(null);
  #leaving: Promise<unknown> = Promise.resolve();

  constructor(keeping: Promise<Keeping>, onChange: () => void) {
    this.#keeping = keeping;
    this.#onChange = onChange;
  }

  get held(): HeldPiece | null {
    return this.#line.held;
  }

  /** Edits that have not reached the keeping yet. */
  get queued(): number {
    return this.#line.queued;
  }

  /** The document as it is kept now; null while the piece is not kept. */
  get document(): SceneFile | null {
    const { held, documents } = this.#line;
    return held && (documents.get(held.piece.step) ?? (held.piece.document as SceneFile));
  }

  /** From now on a piece that is not kept; `now`: keep it at once. The one before is let go of when it is written. */
  begin(origin: Origin, now: boolean): void {
    this.#leave();
    const line = newLine(origin);
    this.#line = line;
    if (now) void this.#enqueue(line, () => this.#create(line));
  }

  /** From now on a piece that is kept. */
  hold(held: HeldPiece): void {
    if (this.#line.held === held) return;
    this.#leave();
    this.#line = newLine(null);
    this.#take(this.#line, held);
  }

  /** One step. `files`: what the document may link to. */
  edit(label: string, document: SceneFile, files: ReadonlyMap<string, Blob>): void {
    const line = this.#line;
    const { held, queued } = line;
    const links = new Set(linksOf(document).map(({ path }) => path));
    const known = held?.piece.files ?? {};
    if (held && queued === 0 && [...links].every((path) => path in known)) {
      this.#step(line, label, document, Object.fromEntries([...links].map((path) => [path, known[path]])));
      return;
    }
    void this.#enqueue(line, async () => {
      const hashes = await this.#filesOf(links, files);
      if (!line.held) await this.#create(line);
      this.#step(line, label, document, hashes);
    });
  }

  /** The document after it; null: there was none. What is queued goes first. */
  async move(by: 'undo' | 'redo'): Promise<SceneFile | null> {
    const line = this.#line;
    if (line.queued > 0) await line.last;
    const { held } = line;
    if (line !== this.#line || !held || held.role === 'reader' || held[by]() === null) return null;
    return this.document;
  }

  /** Bytes of a piece's files; those that are nowhere any more are left out. */
  async filesOf(held: HeldPiece): Promise<Map<string, Blob>> {
    const keeping = await this.#keeping;
    const files = new Map<string, Blob>();
    for (const [path, hash] of Object.entries(held.piece.files)) {
      const kept = await keeping.file(hash);
      if (!kept) continue;
      // In memory: what is open outlives a browser that empties its storage.
      const blob = await copied(kept);
      this.#hashes.set(blob, Promise.resolve(hash));
      files.set(path, blob);
    }
    return files;
  }

  /** The piece before is written and let go of, or has had its time for that. */
  async left(): Promise<void> {
    await Promise.race([this.#leaving, new Promise((resolve) => setTimeout(resolve, LEAVING_MS))]);
  }

  /** Puts a file's bytes on the disk before an edit needs them. */
  async keepFile(blob: Blob): Promise<void> {
    await this.#hashOf(blob);
  }

  #leave(): void {
    const line = this.#line;
    line.unsubscribe();
    this.#leaving = line.last.then(() => line.held?.release());
  }

  #enqueue(line: Line, work: () => Promise<void>): Promise<void> {
    line.queued++;
    line.last = line.last.then(work).finally(() => {
      line.queued--;
      if (line === this.#line) this.#onChange();
    });
    return line.last;
  }

  async #create(line: Line): Promise<void> {
    const { name, document, files, from } = line.origin!;
    const keeping = await this.#keeping;
    const hashes = await this.#filesOf(new Set(files.keys()), files);
    this.#take(line, await keeping.create({ name, document, files: hashes, from }));
    line.documents.set(line.held!.piece.step, document as SceneFile);
  }

  #take(line: Line, held: HeldPiece): void {
    line.held = held;
    line.origin = null;
    if (line === this.#line) line.unsubscribe = held.subscribe(this.#onChange);
  }

  #step({ held, documents }: Line, label: string, document: SceneFile, hashes: FileHashes): void {
    // Taken over by another tab since the edit was made: its notice says what that means.
    if (!held || held.role === 'reader') return;
    void held.edit(label, document, hashes);
    const { step, name } = held.piece;
    documents.set(step, document);
    documents.delete(step - MOST_DOCUMENTS);
    if ((document.name ?? '') !== name) void held.rename(document.name ?? '');
  }

  async #filesOf(paths: ReadonlySet<string>, files: ReadonlyMap<string, Blob>): Promise<FileHashes> {
    const hashes: Record<string, string> = {};
    for (const path of paths) {
      const blob = files.get(path);
      if (blob) hashes[path] = await this.#hashOf(blob);
    }
    return hashes;
  }

  #hashOf(blob: Blob): Promise<string> {
    let hash = this.#hashes.get(blob);
    if (!hash) {
      hash = this.#keeping.then((keeping) => keeping.putFile(blob));
      this.#hashes.set(blob, hash);
    }
    return hash;
  }
}

function newLine(origin: Origin | null): Line {
  return { origin, held: null, queued: 0, last: Promise.resolve(), documents: new Map(), unsubscribe: () => {} };
}
