/** What the tabs of one browser say to each other, and the lock that lets one of them edit a piece. */

export type TabMessage =
  /** The editor has written something. */
  | { readonly kind: 'changed'; readonly piece: string }
  /** Please let go of the piece; it is wanted here. */
  | { readonly kind: 'hand-over'; readonly piece: string }
  /** The editor has let go. */
  | { readonly kind: 'handed'; readonly piece: string }
  /** Whoever had an older epoch is a reader now. */
  | { readonly kind: 'claimed'; readonly piece: string; readonly epoch: number };

/** The part of a BroadcastChannel that is used. */
export interface Channel {
  postMessage(message: unknown): void;
  addEventListener(type: 'message', listener: (event: MessageEvent) => void): void;
  removeEventListener(type: 'message', listener: (event: MessageEvent) => void): void;
  close(): void;
}

export class Tabs {
  readonly #channel: Channel | null;
  readonly #listeners = new Set<(message: TabMessage) => void>();
  readonly #hear = ({ data }: MessageEvent) => {
    for (const listener of [...this.#listeners]) listener(data as TabMessage);
  };

  constructor(channel: Channel | null) {
    this.#channel = channel;
    channel?.addEventListener('message', this.#hear);
  }

  say(message: TabMessage): void {
    this.#channel?.postMessage(message);
  }

  listen(listener: (message: TabMessage) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Answers when such a message comes, or after `limitMs`. */
  async heard(kind: TabMessage['kind'], piece: string, limitMs: number): Promise<void> {
    await new Promise<void>((resolve) => {
      const timer = setTimeout(done, limitMs);
      const stop = this.listen((message) => {
        if (message.kind === kind && message.piece === piece) done();
      });
      function done(): void {
        clearTimeout(timer);
        stop();
        resolve();
      }
    });
  }

  dispose(): void {
    this.#channel?.removeEventListener('message', this.#hear);
    this.#channel?.close();
    this.#listeners.clear();
  }
}

/** The part of navigator.locks that is used. */
export interface Locks {
  request(name: string, options: { readonly ifAvailable?: boolean; readonly steal?: boolean }, callback: (lock: unknown) => Promise<void> | undefined): Promise<unknown>;
}

/** Lets go of a lock; answers when another may have it. */
export type LetGo = () => Promise<void>;

/**
 * The lock of a piece; null when another tab has it. `onStolen`: another tab took it.
 * Without a lock manager (a page from plain http) everyone gets it, and the epoch in the piece's record decides alone.
 */
export function takeLock(locks: Locks | undefined, piece: string, steal: boolean, onStolen: () => void): Promise<LetGo | null> {
  if (!locks) return Promise.resolve(() => Promise.resolve());
  return new Promise((resolve, reject) => {
    let held = false;
    const given = (lock: unknown): Promise<void> | undefined => {
      if (!lock) {
        resolve(null);
        return undefined;
      }
      held = true;
      return new Promise<void>((free) =>
        resolve(() => {
          free();
          return over;
        }),
      );
    };
    const over: Promise<void> = locks.request(`stillpool piece ${piece}`, steal ? { steal: true } : { ifAvailable: true }, given).then(
      () => undefined,
      (error: unknown) => (held ? onStolen() : reject(error)),
    );
  });
}
