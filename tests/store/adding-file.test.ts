/** A large mesh on its way into the piece: told step by step, looked at before it is measured, stopped at any step. */
import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { addFigure } from '../../src/core/scene/edit/place.ts';
import { digestOf } from '../../src/store/keeping/digest.ts';
import { copied } from '../../src/store/piece-files.ts';
import type { LookedAt, ReadingMesh } from '../../src/store/piece-state.ts';
import { createPieceStore, type PieceStore } from '../../src/store/piece-store.ts';
import { writeStl } from '../bench/big-stl.ts';
import { torus } from '../core/solid/made-meshes.ts';
import { byLabel, InProcess } from './in-process.ts';
import { newStorage } from './keeping/bench.ts';

/** ms. The demo and a mesh of 240,000 triangles, on a machine that others use too. */
const PLANNED = { timeout: 40_000, interval: 10 };
/** R 12, r 3 mm. */
const RING = torus(400, 300, 12, 3);

let ring: Blob;
beforeAll(() => {
  const file = join(mkdtempSync(join(tmpdir(), 'stillpool-')), 'ring.stl');
  writeStl(file, RING);
  ring = new Blob([readFileSync(file)]);
});

async function opened(): Promise<{ store: PieceStore; editor: InProcess; readings: ReadingMesh[]; looks: (LookedAt | null)[] }> {
  const editor = new InProcess(byLabel);
  const memory = { getItem: () => null, setItem: () => {} };
  const store = createPieceStore({ editor, keeping: Promise.resolve(await newStorage().tab()), memories: { lasting: memory, tab: memory } });
  const readings: ReadingMesh[] = [];
  const looks: (LookedAt | null)[] = [];
  await store.getState().openDemo('mill-pond');
  store.subscribe(({ reading, lookedAt }, before) => {
    if (reading && reading !== before.reading) readings.push(reading);
    if (lookedAt !== before.lookedAt) looks.push(lookedAt);
  });
  return { store, editor, readings, looks };
}

describe('a large mesh', () => {
  it('is told of in four steps, each to its share, looked at as a lighter copy, and measured when it is in the piece', async () => {
    const { store, readings, looks } = await opened();
    const file = await store.getState().addFile('ring.stl', ring);
    expect(store.getState().edit((document) => addFigure(document, { shape: { type: 'mesh', file }, name: 'Ring' }))).toBe(true);
    await vi.waitFor(() => expect(store.getState()).toMatchObject({ deriving: false, reading: null, lookedAt: null }), PLANNED);

    expect([...new Set(readings.map(({ stage }) => stage))]).toEqual(['taking it in', 'reading it', 'checking it', 'measuring it']);
    for (const stage of new Set(readings.map((reading) => reading.stage))) {
      const shares = readings.filter((reading) => reading.stage === stage).map(({ share }) => share!);
      expect(shares, stage).toEqual([...shares].sort((a, b) => a - b));
      expect(shares.every((share) => share >= 0 && share <= 1), stage).toBe(true);
    }
    expect(looks).toHaveLength(2);
    const { name, positions, indices } = looks[0]!;
    expect(name).toBe('ring.stl');
    expect(indices.length / 3).toBeLessThanOrEqual(80_000);
    expect(indices.length / 3).toBeGreaterThan(20_000);
    // As wide as the ring: 2 (R + r), to a 32-bit file's rounding.
    expect(Math.max(...positions.filter((_, i) => i % 3 === 0))).toBeCloseTo(15, 4);
    // 2π²Rr²; chords of 300 and 400 pieces miss at most (2π/300)²/6 and as much again.
    const { plan } = store.getState().derived!;
    const { volumeMl } = plan.placements.find((placement) => placement.name === 'Ring')!;
    expect(Math.abs((1000 * volumeMl!) / (2 * Math.PI ** 2 * 12 * 9) - 1)).toBeLessThan(2e-4);
  });

  it.each(['taking it in', 'reading it', 'checking it'])('stopped while %s leaves nothing behind, and the piece goes on', async (stage) => {
    const { store } = await opened();
    const { document, files } = store.getState();
    const stop = store.subscribe(({ reading, cancelReading }) => {
      if (reading?.stage !== stage) return;
      stop();
      cancelReading();
    });
    await expect(store.getState().addFile('ring.stl', ring)).rejects.toMatchObject({ name: 'AbortError' });
    await vi.waitFor(() => expect(store.getState().deriving).toBe(false), PLANNED);
    expect(store.getState()).toMatchObject({ document, reading: null, lookedAt: null, unplanned: [] });
    expect([...store.getState().files.keys()]).toEqual([...files.keys()]);
    expect(store.getState().kept.state).toBe('untouched');
  });

  it('on which the worker broke is told of, not passed over as if the person had stopped it', async () => {
    const { store, editor } = await opened();
    editor.onAsked = ({ kind }) => {
      if (kind === 'measure') queueMicrotask(() => editor.cancel());
    };
    const failed = store.getState().addFile('ring.stl', ring);
    await expect(failed).rejects.toThrow('Stopped.');
    await expect(failed).rejects.not.toMatchObject({ name: 'AbortError' });
  });
});

describe('taking a file in', () => {
  it('part by part gives the same bytes and type; its hash is SHA-256 of them', async () => {
    const bytes = new Uint8Array(9 * 2 ** 20 + 5).map((_, i) => (i * 7919) >> 3);
    const shares: number[] = [];
    const copy = await copied(new Blob([bytes], { type: 'model/stl' }), { onShare: (share) => shares.push(share) });
    expect(copy.type).toBe('model/stl');
    expect(Buffer.from(await copy.arrayBuffer()).equals(bytes)).toBe(true);
    expect(shares).toHaveLength(3);
    expect(await digestOf(copy)).toBe(createHash('sha256').update(bytes).digest('hex'));
    expect((await copied(new Blob([]))).size).toBe(0);
  });
});
