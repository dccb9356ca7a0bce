/** What if, through the store and the worker's answers: nothing is changed, and taken up it is the plan that was told, to the last digit. */
import { describe, expect, it, vi } from 'vitest';
import { leadOf, tried, type Trial } from '../../src/core/plan/what-if.ts';
import { differenceSentence } from '../../src/core/plan/what-if-sentence.ts';
import { createPieceStore, type PieceStore } from '../../src/store/piece-store.ts';
import { scene } from '../plan/planning.ts';
import { given, InProcess } from './in-process.ts';
import { newStorage } from './keeping/bench.ts';

/** ms. A piece planned on a machine that others use too. */
const PLANNED = { timeout: 20_000, interval: 10 };
const nothing = { getItem: () => null, setItem: () => {} };

const atRest = (store: PieceStore) => vi.waitFor(() => {
  const { derived, document, deriving } = store.getState();
  expect([deriving, derived?.checkingHeat]).toEqual([false, false]);
  expect(derived?.document).toBe(document);
}, PLANNED);

async function opened(document: object): Promise<PieceStore> {
  const store = createPieceStore({ editor: new InProcess(), keeping: newStorage().tab(), memories: { lasting: nothing, tab: nothing } });
  await store.getState().openFiles('a.scene.json', async () => [given('a.scene.json', JSON.stringify(document))]);
  await atRest(store);
  return store;
}

describe('what if, on the page', () => {
  it.each(['label', 'simulated'])('changes nothing, and taken up it is the plan that was told (%s)', async (model) => {
    const store = await opened({ ...scene({ fillMm: 12 }), heat: { model } });
    const { document, derived } = store.getState();
    const trials: Trial[] = [{ kind: 'room', temperatureC: 18 }, { kind: 'hours', on: null, from: '09:00', to: '22:00' }];
    const edit = tried(document!, trials);
    if (!edit.ok) throw new Error(edit.reason);
    const answer = await store.getState().planWith(edit.file);
    if (!answer?.ok) throw new Error('no answer');
    expect(store.getState()).toMatchObject({ document, derived, undoStep: null });
    expect(differenceSentence(leadOf(document!, trials), derived!, answer.value)).toMatch(/^At 18\u00a0°C, with hands there 09:00 to 22:00: .* later/);
    expect(store.getState().edit((before) => tried(before, trials))).toBe(true);
    await atRest(store);
    expect(store.getState().derived!.plan).toEqual(answer.value.plan);
    store.getState().undo();
    await vi.waitFor(() => expect(store.getState().document).toEqual(document), PLANNED);
    await atRest(store);
    expect(store.getState().derived!.plan).toEqual(derived!.plan);
  }, 60_000);

  it('says why there is no plan', async () => {
    const store = await opened(scene({ fillMm: 12 }));
    const edit = tried(store.getState().document!, [{ kind: 'hours', on: null, from: '08:00', to: '08:15' }]);
    const answer = edit.ok ? await store.getState().planWith(edit.file) : null;
    expect(answer).toMatchObject({ ok: false, problems: [{ path: 'bench.hours', message: expect.stringContaining('at a stretch') }] });
  });
});
