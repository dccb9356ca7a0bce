/** Pieces kept beside the open one: read as they were last written, with their files, without being opened. */
import { describe, expect, it } from 'vitest';
import { keptPiece, recentPieces } from '../../src/store/other-pieces.ts';
import { newStorage, scene } from './keeping/bench.ts';

describe('other kept pieces', () => {
  it('are read whole while another tab goes on editing them', async () => {
    const storage = newStorage();
    const [editing, looking] = [await storage.tab(), await storage.tab()];
    const newt = await editing.putFile(new Blob(['newt']));
    const held = await editing.create({ name: 'Reef', document: scene(20), files: { 'newt.stl': newt } });
    await held.edit('deeper', scene(24), { 'newt.stl': newt });
    const seen = await keptPiece(Promise.resolve(looking), held.piece.id);
    expect(seen).toMatchObject({ name: 'Reef', document: scene(24), files: [{ id: newt, path: 'newt.stl' }] });
    expect(await seen!.files[0].blob.text()).toBe('newt');
    expect(await recentPieces(Promise.resolve(looking), () => undefined)).toMatchObject([{ name: 'Reef', open: false }]);
    await held.edit('deeper still', scene(26), {});
    expect(held.role).toBe('editor');
    expect(await keptPiece(Promise.resolve(looking), held.piece.id)).toMatchObject({ document: scene(26), files: [] });
  });

  it('are gone when they were forgotten, or were never there', async () => {
    const keeping = await newStorage().tab();
    const held = await keeping.create({ name: 'Reef', document: scene(20) });
    await held.release();
    await keeping.forget(held.piece.id);
    expect(await keptPiece(Promise.resolve(keeping), held.piece.id)).toBeNull();
    expect(await keptPiece(Promise.resolve(keeping), 'nobody')).toBeNull();
  });
});
