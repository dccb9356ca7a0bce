/** What to paint, through the store and the worker's answers: against an ellipsoid's closed forms, asked when it must be and not oftener. */
import { describe, expect, it, vi } from 'vitest';
import { creature as creatureIn, paintFigure, raiseCreatures, removeCreature, setCreature, setInAgain } from '../../src/core/scene/edit/creature.ts';
import { setPlaneHours } from '../../src/core/scene/edit/hold.ts';
import { boxOf, polygonArea, ringsOf } from '../../src/core/sheet/polygon.ts';
import { regionArea } from '../../src/core/sight/region.ts';
import { createPieceStore, type PieceStore } from '../../src/store/piece-store.ts';
import { scene } from '../plan/planning.ts';
import { given, InProcess } from './in-process.ts';
import { newStorage } from './keeping/bench.ts';

/** ms. A piece planned on a machine that others use too. */
const PLANNED = { timeout: 20_000, interval: 10 };
const nothing = { getItem: () => null, setItem: () => {} };
/** Half-sizes a, b, c of the ellipsoid, mm; its middle 20 up. */
const [A, B, C] = [25, 10, 8];
const koi = { id: 'c1', name: 'Koi', shape: { type: 'ellipsoid', lengthMm: 2 * A, widthMm: 2 * B, heightMm: 2 * C }, xMm: 5, yMm: -3, baseMm: 20 - C };
const plane = (id: string, atMm: number) => ({ id, kind: 'plane', name: `Koi ${id}`, atMm, slices: ['c1'] });

async function opened(document: object): Promise<{ store: PieceStore; editor: InProcess }> {
  const editor = new InProcess();
  const store = createPieceStore({ editor, keeping: newStorage().tab(), memories: { lasting: nothing, tab: nothing } });
  await store.getState().openFiles('a.scene.json', async () => [given('a.scene.json', JSON.stringify(document))]);
  await atRest(store);
  return { store, editor };
}
const atRest = (store: PieceStore) => vi.waitFor(() => {
  const { derived, document, deriving } = store.getState();
  expect([deriving, derived?.checkingHeat]).toEqual([false, false]);
  expect(derived?.document).toBe(document);
}, PLANNED);
const asked = ({ asked: requests }: InProcess) => requests.filter(({ kind }) => kind === 'painted').length;
const known = (store: PieceStore) => vi.waitFor(() => {
  expect(store.getState().painted).not.toBeNull();
  return store.getState().painted!;
}, PLANNED);

describe('what to paint', () => {
  it('an ellipsoid in the resin: sections πab(1 − z²/c²), its outline from the front πac, newly visible what no plane over it covers', async () => {
    const { store } = await opened({ ...scene({ fillMm: 40 }), placements: [plane('p1', 16), plane('p2', 20), plane('p3', 24)], creatures: [koi] });
    const { guides, creatures } = await known(store);
    const section = (z: number): number => Math.PI * A * B * (1 - ((z - 20) / C) ** 2);
    expect(guides.map(({ planeId, order }) => [planeId, order])).toEqual([['p1', 1], ['p2', 2], ['p3', 3]]);
    for (const { outline, atMm } of guides) expect(regionArea(outline) / section(atMm)).toBeCloseTo(1, 2);
    expect(regionArea(guides[2].fresh) / section(24)).toBeCloseTo(1, 2);
    expect(regionArea(guides[1].fresh) / (section(20) - section(24))).toBeCloseTo(1, 1.5);
    // Its lower half lies under its middle.
    expect(regionArea(guides[0].fresh)).toBeCloseTo(0, 6);
    const [{ outline, contours, topMm, why }] = creatures;
    expect([topMm, why]).toEqual([20 + C, null]);
    // Rings of holes would count twice; it has none.
    expect(outline.reduce((sum, polygon) => sum + polygonArea(polygon), 0) / (Math.PI * A * C)).toBeCloseTo(1, 1.5);
    const box = boxOf(outline.flatMap(ringsOf));
    expect([box.x0, box.x1, box.y0, box.y1].map((mm) => Math.round(mm))).toEqual([5 - A, 5 + A, 20 - C, 20 + C]);
    for (const { atMm, loops } of contours) expect(regionArea(loops) / section(atMm)).toBeCloseTo(1, 1.5);
  }, 60_000);

  it('is asked anew when the creature or its planes change, not for anything else, and gone with the creature', async () => {
    const { store, editor } = await opened({ ...scene({ fillMm: 40 }), placements: [plane('p1', 20)], creatures: [koi] });
    const first = await known(store);
    expect(asked(editor)).toBe(1);
    store.getState().edit((before) => setPlaneHours(before, ['p1'], { paintH: 5 }));
    await atRest(store);
    const { edit } = store.getState();
    edit((before) => ({ ok: true, file: { ...before, name: 'Another name' }, label: 'named' }));
    await atRest(store);
    const times = asked(editor);
    edit((before) => raiseCreatures(before, ['c1'], 3));
    await atRest(store);
    await vi.waitFor(() => expect(store.getState().painted?.guides[0].atMm).toBe(23), PLANNED);
    expect(asked(editor)).toBe(times + 1);
    expect(store.getState().painted).not.toBe(first);
    edit((before) => setCreature(before, 'c1', { scale: 0.5 }));
    await vi.waitFor(() => expect(store.getState().painted?.creatures[0].topMm).toBeCloseTo(23 - C + C, 6), PLANNED);
    edit((before) => removeCreature(before, 'c1'));
    await atRest(store);
    expect(store.getState().painted).toBeNull();
  }, 60_000);

  it('a figure painted and set in again: the creature may be selected, then the figure', async () => {
    const figure = { id: 'f1', kind: 'figure', name: 'Koi', shape: koi.shape, baseMm: 12, material: 'pla' };
    const { store } = await opened({ ...scene({ fillMm: 40 }), placements: [figure] });
    expect(store.getState().painted).toBeNull();
    expect(store.getState().edit((before) => paintFigure(before, 'f1', { gapMm: 4, tallMm: 16, minDepthMm: 3 }))).toBe(true);
    store.getState().select(['c1']);
    const { guides } = await known(store);
    await atRest(store);
    expect(store.getState().selected).toEqual(['c1']);
    expect(guides.length).toBe(4);
    store.getState().edit((before) => setInAgain(before, 'c1'));
    await atRest(store);
    expect(creatureIn(store.getState().document!, 'c1')).toBeUndefined();
    expect([store.getState().painted, store.getState().selected]).toEqual([null, []]);
    expect(store.getState().document!.placements).toEqual([figure]);
  }, 60_000);
});
