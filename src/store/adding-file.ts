/**
 * A file on its way into the open piece: copied, a mesh also read and measured by the worker, its bytes kept. It can be
 * stopped at any moment; what is open then stays as it was.
 */
import type { Answer, Progress, SolidForm } from '../work/protocol.ts';
import { addedPath, copied, isMesh } from './piece-files.ts';
import type { LookedAt, ReadingMesh } from './piece-state.ts';

/** ms in which whoever asked for a file sets it in: it may ask the worker for its size first. */
const SETTING_IN_MS = 2000;
/** Files of this size are taken in while the person waits. */
const TOLD_BYTES = 8e6;

/** What the piece lets it do. */
export interface AddingPlace {
  files(): ReadonlyMap<string, Blob>;
  giveFiles(files: ReadonlyMap<string, Blob>): void;
  measure(path: string): Promise<Answer<'measure'>>;
  keepFile(blob: Blob): Promise<void>;
  show(what: { readonly reading?: ReadingMesh | null; readonly lookedAt?: LookedAt | null }): void;
  /** Whether an answer of the worker is still to come. */
  deriving(): boolean;
  /** The worker may have been stopped, or broken: what it owed is to be asked for again. */
  askAgain(): void;
}

export class FileAdding {
  readonly #place: AddingPlace;
  readonly #under = new Set<AbortController>();
  #onReadable = (): void => {};

  constructor(place: AddingPlace) {
    this.#place = place;
  }

  /** Whether any file is on its way. */
  get busy(): boolean {
    return this.#under.size > 0;
  }

  /** What the worker tells of the file, or of one that is being opened. */
  onProgress(progress: Progress | null): void {
    const { lighter, ...reading } = progress ?? {};
    this.#place.show({ reading: progress && (reading as ReadingMesh) });
    // Of a piece that is being opened nothing is shown within the one that still is.
    if (progress && lighter && this.busy) this.#look(progress.name, lighter);
  }

  /** The path to link to. Rejects as `PieceState.addFile` does. */
  async add(name: string, bytes: Blob): Promise<string> {
    const place = this.#place;
    const stop = new AbortController();
    this.#under.add(stop);
    let path: string | null = null;
    try {
      const onShare = (share: number): void => place.show({ reading: { name, stage: 'taking it in', share } });
      const blob = await copied(bytes, { signal: stop.signal, ...(bytes.size > TOLD_BYTES && { onShare }) });
      path = addedPath(name, place.files());
      place.giveFiles(new Map([...place.files(), [path, blob]]));
      if (isMesh(name)) await this.#measured(path, blob, stop.signal);
      await place.keepFile(blob);
      stop.signal.throwIfAborted();
      return path;
    } catch (error) {
      if (path !== null) place.giveFiles(new Map([...place.files()].filter(([other]) => other !== path)));
      place.show({ reading: null, lookedAt: null });
      place.askAgain();
      throw error;
    } finally {
      this.#under.delete(stop);
      // Whoever asked sets it in now; where nobody does, there is nothing to look at.
      setTimeout(() => {
        if (!place.deriving() && !this.busy) place.show({ lookedAt: null });
      }, SETTING_IN_MS);
    }
  }

  stop(): void {
    for (const stop of this.#under) stop.abort(new DOMException('Stopped. Nothing was changed.', 'AbortError'));
  }

  async #measured(path: string, blob: Blob, signal: AbortSignal): Promise<void> {
    // So that it is on the disk by the time it is measured.
    this.#onReadable = () => void this.#place.keepFile(blob).catch(() => {});
    const answer = await this.#place.measure(path);
    this.#onReadable = () => {};
    signal.throwIfAborted();
    // A worker that broke has not been stopped: the person has to hear of it.
    if (!answer.ok) throw new Error(answer.problems.map(({ message }) => message).join(' '));
  }

  #look(name: string, { positions, indices }: SolidForm): void {
    this.#place.show({ lookedAt: { name, positions, indices } });
    this.#onReadable();
  }
}
