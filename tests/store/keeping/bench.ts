/** A browser's storage for one test, and tabs that open it. */
import { randomUUID } from 'node:crypto';
import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach } from 'vitest';
import type { HeldPiece } from '../../../src/store/keeping/held-piece.ts';
import { openKeeping, type Keeping, type KeepingOptions } from '../../../src/store/keeping/keeping.ts';
import { FakeLocks } from './fake-locks.ts';

/** 2026-05-04T08:00Z, a Monday. */
const START = Date.UTC(2026, 4, 4, 8);

export interface Storage {
  readonly factory: IDBFactory;
  readonly locks: FakeLocks;
  /** The clock of all tabs; a test moves it. */
  now: number;
  /** A tab. */
  tab(options?: Partial<KeepingOptions>): Promise<Keeping>;
}

const open: Keeping[] = [];
let count = 0;

afterEach(() => {
  for (const keeping of open.splice(0)) keeping.dispose();
});

export function newStorage(): Storage {
  // Node's channels go across threads, where other test files run.
  const channel = `keeping test ${randomUUID()}`;
  const storage: Storage = {
    factory: new IDBFactory(),
    locks: new FakeLocks(),
    now: START,
    async tab(options = {}) {
      const keeping = await openKeeping({
        indexedDB: storage.factory,
        locks: storage.locks,
        channel: new BroadcastChannel(channel) as unknown as KeepingOptions['channel'],
        storage: undefined,
        now: () => storage.now,
        newId: () => `piece${++count}`,
        retryMs: [5],
        ...options,
      });
      open.push(keeping);
      return keeping;
    },
  };
  return storage;
}

/** As when the tab is killed: nothing more is written or said. */
export function crash(keeping: Keeping): void {
  keeping.dispose();
}

export const scene = (fillMm: number): unknown => ({ format: 'stillpool.scene', version: 1, fillMm });

export async function opened(keeping: Keeping, id: string): Promise<HeldPiece> {
  const held = await keeping.acquire(id);
  if (!held) throw new Error(`${id} is not kept`);
  return held;
}

/** Waits for what other tabs are told. Throws after 2 s. */
export async function until(condition: () => boolean): Promise<void> {
  for (let waited = 0; waited < 2000; waited += 5) {
    if (condition()) return;
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
  throw new Error(`never came to be: ${condition.toString()}`);
}
