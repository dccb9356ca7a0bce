/** Random edits, undos, redos and saves, with a crash before any one request; what is found must be what the tab had, no older than what it was told is kept. */
import { describe, expect, it } from 'vitest';
import type { HeldPiece } from '../../../src/store/keeping/held-piece.ts';
import { mulberry32 } from '../../plan/random-scenes.ts';
import { faulty } from './faulty-factory.ts';
import { crash, newStorage, opened, scene } from './bench.ts';

const LIMITS = { steps: 6, bytes: 1e6 };
const SEEDS = Array.from({ length: 60 }, (_, i) => i + 1);

/** A list and a place in it, as simple as can be. */
interface Model {
  readonly docs: readonly number[];
  readonly at: number;
}

function next({ docs, at }: Model, act: 'undo' | 'redo' | number): Model {
  if (act === 'undo') return { docs, at: Math.max(0, at - 1) };
  if (act === 'redo') return { docs, at: Math.min(docs.length - 1, at + 1) };
  const all = [...docs.slice(0, at + 1), act].slice(-LIMITS.steps);
  return { docs: all, at: all.length - 1 };
}

describe('a crash between any two requests', () => {
  it.each(SEEDS)('loses nothing that was kept and leaves nothing torn, seed %i', async (seed) => {
    const random = mulberry32(seed);
    const storage = newStorage();
    const state = { requests: 0, crashAt: Infinity };
    const crashed = () => state.requests >= state.crashAt;
    const die = () => { if (crashed()) throw new DOMException('killed', 'AbortError'); };
    const factory = faulty(storage.factory, { before: () => (die(), void state.requests++), begin: die });
    const tab = await storage.tab({ indexedDB: factory, limits: LIMITS });
    const held = await tab.create({ name: 'A', document: scene(0) });
    let model: Model = { docs: [0], at: 0 };
    const had: Model[] = [model];
    let kept = -1;
    await held.edit('Edit 1', scene(1));
    model = next(model, 1);
    had.push(model);
    kept = 1;
    state.crashAt = state.requests + 1 + Math.floor(random() * 120);
    for (let n = 2; n < 60 && !crashed(); n++) {
      const draw = random();
      const act = draw < 0.25 ? 'undo' : draw < 0.4 ? 'redo' : n;
      storage.now += Math.floor(random() * 300_000);
      const done = act === 'undo' ? held.undo() : act === 'redo' ? held.redo() : held.edit(`Edit ${n}`, scene(n));
      model = next(model, act);
      had.push(model);
      const place = had.length - 1;
      const told = done?.then((ok) => { if (ok) kept = Math.max(kept, place); });
      if (random() < 0.5 && told) await Promise.race([told, new Promise((resolve) => setTimeout(resolve, 20))]);
    }
    state.crashAt = 0;
    await new Promise((resolve) => setTimeout(resolve, 2));
    crash(tab);
    const keptThen = kept;

    const again = await opened(await storage.tab({ limits: LIMITS }), held.piece.id);
    const found = await walked(again);
    const equal = had.findLastIndex((was) => JSON.stringify(was) === JSON.stringify(found));
    expect(equal, `found ${JSON.stringify(found)}, which the tab never had`).toBeGreaterThanOrEqual(0);
    expect(equal, 'older than what was kept').toBeGreaterThanOrEqual(keptThen);
  });
});

/** All of the history, by undoing to its start and redoing to its end. */
async function walked(held: HeldPiece): Promise<Model> {
  const fill = () => (held.piece.document as { fillMm: number }).fillMm;
  let at = 0;
  while (await held.undo()) at++;
  const docs = [fill()];
  while (await held.redo()) docs.push(fill());
  return { docs, at };
}
