import { describe, expect, it } from 'vitest';
import { faulty } from './faulty-factory.ts';
import { crash, newStorage, opened, scene, until } from './bench.ts';

describe('two tabs', () => {
  it('one edits, the other reads and sees every change', async () => {
    const storage = newStorage();
    const editor = await (await storage.tab()).create({ name: 'A', document: scene(0) });
    await editor.edit('Fill 1', scene(1));
    const reader = await opened(await storage.tab(), editor.piece.id);
    expect([editor.role, reader.role]).toEqual(['editor', 'reader']);
    expect(reader.piece.document).toEqual(scene(1));
    expect(() => reader.edit('x', scene(9))).toThrow(/open for editing in another tab/);
    expect(() => reader.undo()).toThrow(/another tab/);
    expect(() => reader.rename('x')).toThrow(/another tab/);
    let told = 0;
    reader.subscribe(() => told++);
    for (let fill = 2; fill <= 5; fill++) await editor.edit(`Fill ${fill}`, scene(fill));
    await until(() => reader.piece.undo === 'Fill 5');
    expect(reader.piece.document).toEqual(scene(5));
    expect(told).toBeGreaterThan(0);
  });

  it('the reader takes over: the editor’s last edits are written first, and it is told', async () => {
    const storage = newStorage();
    const first = await (await storage.tab()).create({ name: 'A', document: scene(0) });
    await first.edit('Fill 1', scene(1));
    const second = await opened(await storage.tab(), first.piece.id);
    const kept = first.edit('Fill 2', scene(2));
    let told = 0;
    first.subscribe(() => told++);
    await second.takeOver();
    expect([first.role, second.role]).toEqual(['reader', 'editor']);
    expect(await kept).toBe(true);
    expect(told).toBeGreaterThan(0);
    expect(first.lost).toBe(false);
    expect(second.piece.document).toEqual(scene(2));
    await second.edit('Fill 3', scene(3));
    await until(() => first.piece.undo === 'Fill 3');
    await first.takeOver();
    expect([first.role, second.role]).toEqual(['editor', 'reader']);
    await first.undo();
    await until(() => second.piece.redo === 'Fill 3');
  });

  it('an editor that could not write is shut out, keeps its changes in sight and is told', async () => {
    const storage = newStorage();
    let failing = false;
    const stuck = await storage.tab({
      indexedDB: faulty(storage.factory, { before: (method) => { if (failing && method === 'put') throw new DOMException('disk', 'UnknownError'); } }),
      retryMs: [20_000],
    });
    const first = await stuck.create({ name: 'A', document: scene(0) });
    await first.edit('Fill 1', scene(1));
    const second = await opened(await storage.tab(), first.piece.id);
    failing = true;
    const kept = first.edit('Fill 2', scene(2));
    await until(() => stuck.status.state === 'failing');
    await second.takeOver();
    expect(second.piece.document).toEqual(scene(1));
    expect(await kept).toBe(false);
    await until(() => first.role === 'reader');
    expect(first.lost).toBe(true);
    expect(first.piece.document).toEqual(scene(2));
    expect(stuck.status.notices).toMatchObject([{ kind: 'taken-over' }]);
    failing = false;
    stuck.retry();
    const third = await opened(await storage.tab(), first.piece.id);
    await second.edit('Fill 3', scene(3));
    await until(() => third.piece.undo === 'Fill 3');
    await new Promise((resolve) => setTimeout(resolve, 50)); // as long as a reload would take, and more
    expect(first.piece.document).toEqual(scene(2)); // not overwritten by what the other tab does
    await first.reload();
    expect(first.piece.document).toEqual(scene(3));
    expect(first.lost).toBe(false);
  });

  it('an editor that was asleep can’t write over the one that took its place', async () => {
    const storage = newStorage();
    const asleep = await storage.tab({ channel: null, locks: undefined });
    const first = await asleep.create({ name: 'A', document: scene(0) });
    await first.edit('Fill 1', scene(1));
    const second = await opened(await storage.tab({ channel: null, locks: undefined }), first.piece.id);
    await second.edit('Fill 2', scene(2));
    expect(await first.edit('Fill 9', scene(9))).toBe(false);
    expect(first.role).toBe('reader');
    expect(asleep.status.notices).toMatchObject([{ kind: 'taken-over' }]);
    const third = await opened(await storage.tab({ channel: null }), first.piece.id);
    expect(third.piece).toMatchObject({ document: scene(2), undo: 'Fill 2', redo: null });
  });

  it('without a lock manager the last to open edits, and the other is told by message', async () => {
    const storage = newStorage();
    const first = await (await storage.tab({ locks: undefined })).create({ name: 'A', document: scene(0) });
    await first.edit('Fill 1', scene(1));
    const second = await opened(await storage.tab({ locks: undefined }), first.piece.id);
    expect(second.role).toBe('editor');
    await until(() => first.role === 'reader');
    await second.edit('Fill 2', scene(2));
    await until(() => first.piece.undo === 'Fill 2');
  });

  it('a piece is free when its tab is closed or lets go, and not to be forgotten before', async () => {
    const storage = newStorage();
    const tab = await storage.tab();
    const first = await tab.create({ name: 'A', document: scene(0) });
    await first.edit('Fill 1', scene(1));
    const other = await storage.tab();
    await expect(other.forget(first.piece.id)).rejects.toThrow(/another tab/);
    void first.edit('Fill 2', scene(2));
    await first.release();
    const second = await opened(other, first.piece.id);
    expect(second.role).toBe('editor');
    expect(second.piece.document).toEqual(scene(2));
    crash(other);
    await until(() => !storage.locks.isHeld(`stillpool piece ${first.piece.id}`));
    expect((await opened(await storage.tab(), first.piece.id)).role).toBe('editor');
  });

  it('a reader takes over from a tab that is gone without waiting for it', async () => {
    const storage = newStorage();
    const tab = await storage.tab();
    const first = await tab.create({ name: 'A', document: scene(0) });
    await first.edit('Fill 1', scene(1));
    const second = await opened(await storage.tab(), first.piece.id);
    crash(tab);
    await until(() => !storage.locks.isHeld(`stillpool piece ${second.piece.id}`));
    await second.takeOver();
    expect(second.role).toBe('editor');
    expect(await second.edit('Fill 2', scene(2))).toBe(true);
  });
});
