/** The database: opened when first needed, upgraded by numbered steps, opened again when it was closed or deleted under us. */
import { StorageTrouble } from './words.ts';

const DATABASE = 'stillpool';

export type StoreName = 'pieces' | 'steps' | 'snapshots' | 'files';

/** Step n leads from version n to n + 1. Steps that were released are never changed. */
const UPGRADES: readonly ((db: IDBDatabase) => void)[] = [
  (db) => {
    db.createObjectStore('pieces', { keyPath: 'id' });
    for (const name of ['steps', 'snapshots']) {
      const store = db.createObjectStore(name, { keyPath: ['piece', name === 'steps' ? 'seq' : 'at'] });
      store.createIndex('hashes', 'hashes', { multiEntry: true });
    }
    db.createObjectStore('files', { keyPath: 'hash' });
  },
];

/** A database with its lifetime. */
export class Connection {
  readonly #factory: IDBFactory | undefined;
  readonly #onBlocked: () => void;
  #opening: Promise<IDBDatabase> | null = null;
  #outdated = false;
  #closed = false;

  /** `onBlocked`: an older tab keeps the database from opening; the opening goes on when that tab lets go. */
  constructor(factory: IDBFactory | undefined, onBlocked: () => void) {
    this.#factory = factory;
    this.#onBlocked = onBlocked;
  }

  /**
   * Runs `work` in one transaction and answers when it is on the disk. An error in `work` undoes all of it.
   * Throws StorageTrouble when there is no database to be had, else what the browser threw.
   */
  async transact<T>(stores: readonly StoreName[], mode: 'readonly' | 'readwrite', work: (tx: IDBTransaction) => Promise<T>): Promise<T> {
    const tx = await this.#begin(stores, mode);
    const end = ended(tx);
    end.catch(() => undefined); // told below; `work` may fail first
    try {
      const result = await work(tx);
      await end;
      return result;
    } catch (error) {
      try {
        tx.abort();
      } catch {
        // It has ended already.
      }
      await end.catch(() => undefined);
      throw tx.error ?? error;
    }
  }

  dispose(): void {
    this.#closed = true;
    this.#opening?.then((db) => db.close(), () => undefined);
    this.#opening = null;
  }

  async #begin(stores: readonly StoreName[], mode: IDBTransactionMode): Promise<IDBTransaction> {
    for (let again = true; ; again = false) {
      const db = await this.open();
      try {
        return db.transaction(stores as StoreName[], mode, { durability: 'strict' });
      } catch (error) {
        // Closed between two transactions; a second failure in a row is the caller's to see.
        this.#opening = null;
        db.close();
        if (!again) throw error;
      }
    }
  }

  /** Throws StorageTrouble: unavailable, newer, outdated. */
  open(): Promise<IDBDatabase> {
    if (this.#closed) return Promise.reject(new StorageTrouble('unavailable'));
    if (this.#outdated) return Promise.reject(new StorageTrouble('outdated'));
    if (!this.#opening) {
      const opening = this.#request();
      this.#opening = opening;
      opening.catch(() => {
        if (this.#opening === opening) this.#opening = null;
      });
    }
    return this.#opening;
  }

  #request(): Promise<IDBDatabase> {
    return new Promise((resolve, reject) => {
      if (!this.#factory) throw new StorageTrouble('unavailable');
      let request: IDBOpenDBRequest;
      try {
        request = this.#factory.open(DATABASE, UPGRADES.length);
      } catch (error) {
        throw new StorageTrouble('unavailable', error);
      }
      request.onblocked = () => this.#onBlocked();
      request.onupgradeneeded = ({ oldVersion }) => {
        for (const upgrade of UPGRADES.slice(oldVersion)) upgrade(request.result);
      };
      request.onerror = () => {
        const full = request.error?.name === 'QuotaExceededError';
        reject(full ? request.error : new StorageTrouble(request.error?.name === 'VersionError' ? 'newer' : 'unavailable', request.error));
      };
      request.onsuccess = () => {
        const db = request.result;
        const forgetIt = () => {
          this.#opening = null;
        };
        db.onclose = forgetIt;
        db.onversionchange = ({ newVersion }) => {
          // null: it is being deleted, and a new one may be made; else a newer program wants it.
          this.#outdated = newVersion !== null;
          forgetIt();
          db.close();
        };
        resolve(db);
      };
    });
  }
}

export function answered<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/** All records of one piece in `steps` or `snapshots`. */
export function ofPiece(piece: string): [from: unknown[], to: unknown[]] {
  return [[piece], [piece, []]]; // an array sorts after every number
}

function ended(tx: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    tx.oncomplete = () => resolve();
    tx.onabort = () => reject(tx.error ?? new DOMException('The transaction was aborted', 'AbortError'));
  });
}
