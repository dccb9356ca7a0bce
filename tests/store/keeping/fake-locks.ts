/** A lock manager with what the tests need of the standard: ifAvailable, steal, waiting in line. https://w3c.github.io/web-locks/ §4 */
import type { Locks } from '../../../src/store/keeping/tabs.ts';

interface Held {
  readonly steal: () => void;
}

export class FakeLocks implements Locks {
  readonly #held = new Map<string, Held>();

  request(name: string, options: { readonly ifAvailable?: boolean; readonly steal?: boolean }, callback: (lock: unknown) => Promise<void> | undefined): Promise<unknown> {
    const holder = this.#held.get(name);
    if (holder && options.ifAvailable) return Promise.resolve().then(() => callback(null));
    if (holder && !options.steal) return Promise.reject(new Error('waiting in line is not needed here'));
    this.#held.delete(name);
    holder?.steal();
    return new Promise((resolve, reject) => {
      const mine: Held = { steal: () => reject(new DOMException('the lock was stolen', 'AbortError')) };
      this.#held.set(name, mine);
      void Promise.resolve()
        .then(() => callback({ name }))
        .then((value) => {
          if (this.#held.get(name) === mine) this.#held.delete(name);
          resolve(value);
        }, reject);
    });
  }

  isHeld(name: string): boolean {
    return this.#held.has(name);
  }
}
