import { describe, expect, it } from 'vitest';
import type { Keeping } from '../../../src/store/keeping/keeping.ts';
import { faulty, type Faults } from './faulty-factory.ts';
import { crash, newStorage, opened, scene, until, type Storage } from './bench.ts';

const full = (): DOMException => new DOMException('no room', 'QuotaExceededError');

/** A tab whose writes of a store fail while `failing.with` answers an error. */
async function failingTab(storage: Storage, store = 'steps'): Promise<{ keeping: Keeping; failing: { with: (() => DOMException) | null; late: boolean } }> {
  const failing: { with: (() => DOMException) | null; late: boolean } = { with: null, late: false };
  const faults: Faults = {
    before(method, name) {
      if (!failing.with || method !== 'put' || name !== store) return;
      if (failing.late) return failing.with();
      throw failing.with();
    },
  };
  return { keeping: await storage.tab({ indexedDB: faulty(storage.factory, faults) }), failing };
}

describe('a write that fails', () => {
  it.each([
    ['full storage, at the request', full, false, 'full'],
    ['full storage, at the end', full, true, 'full'],
    ['any other error', () => new DOMException('disk', 'UnknownError'), true, 'write-failed'],
  ] as const)('(%s) stays visible, keeps the edits and is tried again', async (_, error, late, kind) => {
    const storage = newStorage();
    const { keeping, failing } = await failingTab(storage);
    const held = await keeping.create({ name: 'A', document: scene(0) });
    await held.edit('Fill 1', scene(1));
    failing.with = error;
    failing.late = late;
    const kept = [held.edit('Fill 2', scene(2)), held.edit('Fill 3', scene(3))];
    await until(() => keeping.status.state === 'failing');
    expect(keeping.status.trouble).toMatchObject({ kind, todo: expect.stringMatching(/Save to a file now/) });
    expect(keeping.status.waiting).toBe(2);
    expect(held.piece.document).toEqual(scene(3));
    const other = await storage.tab();
    const reader = await opened(other, held.piece.id);
    expect(reader.piece).toMatchObject({ document: scene(1), undo: 'Fill 1', redo: null }); // nothing half-written
    failing.with = null;
    expect(await Promise.all(kept)).toEqual([true, true]);
    expect(keeping.status).toMatchObject({ state: 'kept', waiting: 0, trouble: null });
    await until(() => reader.piece.undo === 'Fill 3');
    expect(reader.piece.document).toEqual(scene(3));
  });

  it('of a file is told, and the file goes with the first edit that needs it', async () => {
    const storage = newStorage();
    const { keeping, failing } = await failingTab(storage, 'files');
    failing.with = full;
    const hash = await keeping.putFile(new Blob([Uint8Array.of(1, 2)]));
    expect(keeping.status).toMatchObject({ state: 'failing', trouble: { kind: 'full' } });
    const held = await keeping.create({ name: 'A', document: scene(0), files: { 'a.stl': hash } });
    await new Promise((resolve) => setTimeout(resolve, 50)); // some tries
    expect(keeping.status.waiting).toBe(1);
    expect(await (await storage.tab()).recents()).toEqual([]); // no piece without its file
    failing.with = null;
    await until(() => keeping.status.state === 'kept');
    crash(keeping);
    const again = await storage.tab();
    expect((await opened(again, held.piece.id)).piece.files).toEqual({ 'a.stl': hash });
    expect(new Uint8Array(await (await again.file(hash))!.arrayBuffer())).toEqual(Uint8Array.of(1, 2));
  });

  it('does not keep another piece from being written', async () => {
    const storage = newStorage();
    let bad = '';
    const keeping = await storage.tab({
      indexedDB: faulty(storage.factory, { before: () => undefined, begin: () => { if (bad) throw new DOMException(bad, 'UnknownError'); } }),
    });
    const a = await keeping.create({ name: 'A', document: scene(0) });
    const b = await keeping.create({ name: 'B', document: scene(0) });
    bad = 'no transactions';
    const kept = Promise.all([a.edit('Fill 1', scene(1)), b.edit('Fill 1', scene(1))]);
    await until(() => keeping.status.state === 'failing');
    expect(keeping.status.waiting).toBeGreaterThanOrEqual(2);
    bad = '';
    expect(await kept).toEqual([true, true]);
  });
});

describe('storage that is not there', () => {
  it.each([
    ['none at all', undefined],
    ['refused at opening', { open: () => { throw new DOMException('denied', 'SecurityError'); } } as unknown as IDBFactory],
  ])('(%s): a piece is made and edited in this tab, and the page is told', async (_, indexedDB) => {
    const keeping = await newStorage().tab({ indexedDB });
    expect(keeping.status).toMatchObject({ state: 'failing', trouble: { kind: 'unavailable' } });
    const held = await keeping.create({ name: 'A', document: scene(0) });
    void held.edit('Fill 1', scene(1));
    void held.undo();
    expect(held.piece).toMatchObject({ document: scene(0), redo: 'Fill 1' });
    expect(keeping.status.waiting).toBe(3);
    await expect(keeping.recents()).rejects.toMatchObject({ kind: 'unavailable' });
    await expect(keeping.acquire('x')).rejects.toMatchObject({ kind: 'unavailable' });
  });

  it('written by a newer program is left alone', async () => {
    const storage = newStorage();
    await new Promise((resolve) => {
      const request = storage.factory.open('stillpool', 99);
      request.onsuccess = () => resolve(request.result.close());
    });
    const keeping = await storage.tab();
    expect(keeping.status.trouble?.kind).toBe('newer');
    const held = await keeping.create({ name: 'A', document: scene(0) });
    void held.edit('Fill 1', scene(1));
    await until(() => keeping.status.waiting === 2);
    expect(held.piece.document).toEqual(scene(1));
  });

  it('deleted under us: what is open is written again whole, lost files are named', async () => {
    const storage = newStorage();
    const first = await storage.tab();
    const hash = await first.putFile(new Blob([Uint8Array.of(7)]));
    const made = await first.create({ name: 'A', document: scene(0), files: { 'a.stl': hash } });
    await made.edit('Fill 1', scene(1));
    crash(first);
    const keeping = await storage.tab();
    const held = await opened(keeping, made.piece.id);
    await new Promise((resolve, reject) => {
      const request = storage.factory.deleteDatabase('stillpool');
      request.onsuccess = resolve;
      request.onerror = reject;
    });
    expect(await held.edit('Fill 2', scene(2))).toBe(true);
    expect(keeping.status.notices).toMatchObject([{ kind: 'gone', todo: expect.stringMatching(/Save to a file now/) }]);
    await until(() => keeping.status.missing.length === 1);
    expect(keeping.status.missing).toEqual([hash]);
    expect(await keeping.putFile(new Blob([Uint8Array.of(7)]))).toBe(hash);
    await until(() => keeping.status.missing.length === 0);
    keeping.dismiss();
    expect(keeping.status.notices).toEqual([]);
    crash(keeping);
    const again = await opened(await storage.tab(), made.piece.id);
    expect(again.piece).toMatchObject({ document: scene(2), undo: 'Fill 2' });
    await again.undo();
    await again.undo();
    expect(again.piece.document).toEqual(scene(0));
  });

  it('wanted by a newer program in another tab is let go, the edits stay here', async () => {
    const storage = newStorage();
    const keeping = await storage.tab();
    const held = await keeping.create({ name: 'A', document: scene(0) });
    await held.edit('Fill 1', scene(1));
    const upgraded = await new Promise<IDBDatabase>((resolve) => {
      const request = storage.factory.open('stillpool', 99);
      request.onsuccess = () => resolve(request.result);
    });
    void held.edit('Fill 2', scene(2));
    await until(() => keeping.status.trouble?.kind === 'outdated');
    expect(keeping.status).toMatchObject({ state: 'failing', waiting: 1, trouble: { todo: expect.stringMatching(/reload/) } });
    expect(held.piece.document).toEqual(scene(2));
    upgraded.close();
  });

  it('held by an older tab: the page does not wait, and goes on when that tab closes', async () => {
    const storage = newStorage();
    // As an older program would: it does not let go when asked.
    const old = await new Promise<IDBDatabase>((resolve) => {
      const request = storage.factory.open('other', 1);
      request.onsuccess = () => resolve(request.result);
    });
    const redirected = { open: () => storage.factory.open('other', 2) } as unknown as IDBFactory;
    const upgradeAsFirst = faultyUpgrade(redirected);
    const keeping = await storage.tab({ indexedDB: upgradeAsFirst });
    expect(keeping.status.trouble?.kind).toBe('blocked');
    const held = await keeping.create({ name: 'A', document: scene(0) });
    const kept = held.edit('Fill 1', scene(1));
    old.close();
    expect(await kept).toBe(true);
    expect(keeping.status).toMatchObject({ state: 'kept', trouble: null });
  });
});

/** Lets version 1 → 2 of another database stand for 0 → 1 of ours. */
function faultyUpgrade(factory: IDBFactory): IDBFactory {
  return {
    open: (name: string) => {
      const request = factory.open(name);
      return new Proxy(request, {
        get: (_, key) => Reflect.get(request, key, request),
        set: (_, key, value) => Reflect.set(request, key, key === 'onupgradeneeded' ? () => value({ oldVersion: 0 }) : value, request),
      });
    },
  } as unknown as IDBFactory;
}
