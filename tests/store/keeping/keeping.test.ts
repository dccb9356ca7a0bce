import { describe, expect, it } from 'vitest';
import type { Keeping, KeepingOptions } from '../../../src/store/keeping/keeping.ts';
import { faulty } from './faulty-factory.ts';
import { crash, newStorage, opened, scene, until } from './bench.ts';

const bytes = (...values: number[]): Uint8Array<ArrayBuffer> => Uint8Array.from(values);
const bytesOf = async (keeping: Keeping, hash: string): Promise<Uint8Array> => new Uint8Array(await (await keeping.file(hash))!.arrayBuffer());
const HOUR = 3_600_000;

describe('keeping a piece', () => {
  it('has every edit, the undo stack and the place in it after the tab is gone', async () => {
    const storage = newStorage();
    const first = await storage.tab();
    const held = await first.create({ name: 'Mill pond', document: scene(0) });
    for (const fill of [1, 2, 3]) expect(await held.edit(`Fill ${fill}`, scene(fill))).toBe(true);
    expect(await held.undo()).toBe(true);
    const { id } = held.piece;
    crash(first);

    const again = await opened(await storage.tab(), id);
    expect(again.role).toBe('editor');
    expect(again.piece).toMatchObject({ name: 'Mill pond', document: scene(2), undo: 'Fill 2', redo: 'Fill 3' });
    await again.redo();
    expect(again.piece).toMatchObject({ document: scene(3), undo: 'Fill 3', redo: null });
    expect(again.redo()).toBeNull();
    for (const fill of [2, 1, 0]) {
      await again.undo();
      expect(again.piece.document).toEqual(scene(fill));
    }
    expect(again.undo()).toBeNull();
    await again.edit('Fill 9', scene(9));
    expect(again.piece).toMatchObject({ undo: 'Fill 9', redo: null });
  });

  it('bounds the history by steps and by bytes, the oldest go first, the newest never', async () => {
    const storage = newStorage();
    const few = await (await storage.tab({ limits: { steps: 3, bytes: 1e6 } })).create({ name: 'Few', document: scene(0) });
    for (let fill = 1; fill <= 5; fill++) await few.edit(`Fill ${fill}`, scene(fill));
    await few.undo();
    await few.undo();
    expect(few.undo()).toBeNull();
    expect(few.piece.document).toEqual(scene(3));

    const big = await (await storage.tab({ limits: { steps: 200, bytes: 1000 } })).create({ name: 'Big', document: 'x'.repeat(10) });
    await big.edit('Huge', 'y'.repeat(2000));
    expect(big.piece).toMatchObject({ document: 'y'.repeat(2000), undo: null });
    const steps = await stored(storage.factory, 'steps');
    expect(steps).toHaveLength(3 + 1); // dropped ones are not left on the disk
  });

  it('says what no file holds', async () => {
    const storage = newStorage();
    const keeping = await storage.tab();
    const held = await keeping.create({ name: 'Mill pond', document: scene(0) });
    expect(held.piece.unsaved).toBeNull();
    void held.edit('Fill 1', scene(1));
    void held.edit('Fill 2', scene(2));
    expect(held.piece.unsaved).toEqual({ edits: 2, since: storage.now });
    const { step } = held.piece;
    storage.now += HOUR;
    void held.edit('Fill 3', scene(3)); // while the file is written
    await keeping.markSaved(held, 'pond.stillpool', 'hash', step);
    expect(held.piece.unsaved).toEqual({ edits: 1, since: storage.now });
    void held.undo();
    expect(held.piece.unsaved).toBeNull();
    void held.undo();
    await held.edit('Fill 7', scene(7)); // the saved step is no longer in the history
    expect(held.piece.unsaved?.edits).toBeGreaterThan(0);
    const [recent] = await keeping.recents();
    expect(recent).toMatchObject({ name: 'Mill pond', savedToFile: { fileName: 'pond.stillpool', contentHash: 'hash' }, unsaved: held.piece.unsaved });
    const fromFile = await keeping.create({ name: 'Opened', document: scene(5), from: { fileName: 'a.scene.json', contentHash: 'h' } });
    expect(fromFile.piece.unsaved).toBeNull();
    await fromFile.edit('Fill 6', scene(6));
    expect(fromFile.piece.unsaved).toEqual({ edits: 1, since: storage.now });
  });

  it('asks for lasting storage once, inside the first save to a file', async () => {
    let asked = 0;
    const storage = newStorage();
    const keeping = await storage.tab({ storage: { persist: () => (asked++, Promise.reject(new Error('no'))) } as KeepingOptions['storage'] });
    const held = await keeping.create({ name: 'A', document: scene(0) });
    await held.edit('Fill 1', scene(1));
    expect(asked).toBe(0);
    await keeping.markSaved(held, 'a.stillpool', 'h');
    await keeping.markSaved(held, 'a.stillpool', 'h');
    expect(asked).toBe(1);
  });

  it('lists, renames, forgets and remembers', async () => {
    const storage = newStorage();
    const keeping = await storage.tab();
    const a = await keeping.create({ name: 'A', document: scene(0) });
    storage.now += 1000;
    const b = await keeping.create({ name: 'B', document: scene(0) });
    await a.edit('Fill 1', scene(1));
    await b.release();
    const names = async () => (await keeping.recents()).map(({ name }) => name);
    storage.now += 1000;
    await a.edit('Fill 2', scene(2));
    expect(await names()).toEqual(['A', 'B']);
    await keeping.rename(b.piece.id, 'Brook');
    await keeping.rename(a.piece.id, 'Alder');
    expect(await names()).toEqual(['Alder', 'Brook']);
    const { id } = a.piece;
    expect(await keeping.forget(id)).toBe(true);
    expect(await names()).toEqual(['Brook']);
    expect(await keeping.acquire(id)).toBeNull();
    await keeping.remember(id);
    expect((await opened(keeping, id)).piece.document).toEqual(scene(2));
    await keeping.forget(id);
    await keeping.makeRoom();
    expect(await keeping.remember(id)).toBe(false);
    expect(await stored(storage.factory, 'steps')).toHaveLength(1);
    expect(await keeping.rename('nobody', 'x')).toBe(false);
  });

  it('takes snapshots by time, of the piece as it was, and going back to one is an edit', async () => {
    const storage = newStorage();
    let written = 0;
    const indexedDB = faulty(storage.factory, { before: (method, store) => void (method === 'put' && store === 'snapshots' && written++) });
    const held = await (await storage.tab({ indexedDB })).create({ name: 'A', document: scene(0) });
    for (let fill = 1; fill <= 30; fill++) {
      storage.now += 60_000;
      await held.edit(`Fill ${fill}`, scene(fill));
    }
    const snapshots = await held.snapshots();
    expect(snapshots.map(({ document }) => document)).toEqual([scene(0), scene(10), scene(20)]);
    expect(written).toBe(3);
    await held.restore(snapshots[1], 'Back to 08:10');
    expect(held.piece).toMatchObject({ document: scene(10), undo: 'Back to 08:10' });
    await held.undo();
    expect(held.piece.document).toEqual(scene(30));
  });

  it('keeps files as long as an edit or a snapshot of any piece needs them, then sweeps them', async () => {
    const storage = newStorage();
    let keeping = await storage.tab({ limits: { steps: 2, bytes: 1e6 } });
    const newt = await keeping.putFile(new Blob([bytes(1, 2, 3)]));
    const lily = await keeping.putFile(new Blob([bytes(4)]));
    const unused = await keeping.putFile(new Blob([bytes(5)]));
    expect(await keeping.putFile(new Blob([bytes(1, 2, 3)]))).toBe(newt);
    const a = await keeping.create({ name: 'A', document: scene(0), files: { 'assets/newt.stl': newt } });
    const b = await keeping.create({ name: 'B', document: scene(0), files: { 'assets/lily.png': lily } });
    await b.edit('Without', scene(1), {}); // the snapshot before it needs the lily
    await b.edit('Again', scene(2), {});
    await b.edit('And again', scene(3), {});
    await a.edit('Turn', scene(1));
    crash(keeping);

    storage.now += 25 * HOUR;
    keeping = await storage.tab();
    expect(await bytesOf(keeping, newt)).toEqual(bytes(1, 2, 3));
    expect(await bytesOf(keeping, lily)).toEqual(bytes(4));
    expect(await keeping.file(unused)).toBeNull();
    const again = await opened(keeping, a.piece.id);
    expect(again.piece.files).toEqual({ 'assets/newt.stl': newt });
    await keeping.forget(b.piece.id);
    await keeping.makeRoom();
    expect(await keeping.file(lily)).toBeNull();
    expect(await keeping.file(newt)).not.toBeNull();
  });

  it('opens a piece of a newer version for looking only', async () => {
    const storage = newStorage();
    const newer = await storage.tab({ newestDocument: 2 });
    const made = await newer.create({ name: 'From tomorrow', document: { version: 2 } });
    expect(made.readOnly).toBeNull();
    await made.edit('Edit', { version: 2, more: true });
    crash(newer);
    const held = await opened(await storage.tab(), made.piece.id);
    expect(held.readOnly).toBe('newer');
    expect(held.piece.document).toEqual({ version: 2, more: true });
    expect(() => held.edit('x', scene(1))).toThrow(/newer version/);
    expect(() => held.undo()).toThrow(/newer version/);
    expect(held.piece.document).toEqual({ version: 2, more: true });
  });

  it('writes nothing to a piece before it was read', async () => {
    const storage = newStorage();
    const first = await storage.tab();
    const { piece } = await first.create({ name: 'A', document: scene(1) });
    await until(() => first.status.state === 'kept');
    crash(first);
    const asked: string[] = [];
    const keeping = await storage.tab({ indexedDB: faulty(storage.factory, { before: (method, store) => void asked.push(`${method} ${store}`) }) });
    await keeping.acquire(piece.id);
    const writes = asked.findIndex((request) => /^(put|delete)/.test(request));
    expect(asked.slice(0, writes)).toEqual(expect.arrayContaining(['get pieces', 'getAll steps']));
    expect(asked.filter((request) => /^(put|delete)/.test(request))).toEqual(['put pieces']);
  });

  it('refuses a document that is no JSON', async () => {
    const held = await (await newStorage().tab()).create({ name: 'A', document: scene(1) });
    expect(() => held.edit('x', undefined)).toThrow(/not JSON/);
    expect(held.piece.document).toEqual(scene(1));
  });
});

async function stored(factory: IDBFactory, store: string): Promise<unknown[]> {
  const db = await new Promise<IDBDatabase>((resolve, reject) => {
    const request = factory.open('stillpool');
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  const all = await new Promise<unknown[]>((resolve) => {
    const request = db.transaction(store).objectStore(store).getAll();
    request.onsuccess = () => resolve(request.result);
  });
  db.close();
  return all;
}
