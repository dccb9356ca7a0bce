/** The piece's store over the real answers and the real keeping, with a database in memory. */
import { readFileSync } from 'node:fs';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { setHeight } from '../../src/core/scene/edit/move.ts';
import { newPiece } from '../../src/core/scene/edit/new-piece.ts';
import { addFigure, addPlane } from '../../src/core/scene/edit/place.ts';
import { thing } from '../../src/core/scene/edit/things.ts';
import type { SceneFile } from '../../src/core/scene/edit/file.ts';
import type { Keeping } from '../../src/store/keeping/keeping.ts';
import type { Memory } from '../../src/store/piece-memory.ts';
import { createPieceStore, type PieceStore } from '../../src/store/piece-store.ts';
import { byLabel, changedDemo, given, InProcess, onDisk, ROCK_POOL } from './in-process.ts';
import { newStorage } from './keeping/bench.ts';

/** ms. A demo planned on a machine that others use too. */
const PLANNED = { timeout: 20_000, interval: 10 };

class MapMemory extends Map<string, string> implements Memory {
  getItem(key: string): string | null {
    return this.get(key) ?? null;
  }
  setItem(key: string, value: string): void {
    this.set(key, value);
  }
}

interface Tab {
  readonly store: PieceStore;
  readonly editor: InProcess;
  readonly keeping: Keeping;
}

/** One browser: what its tabs share. */
function browser() {
  const storage = newStorage();
  const lasting = new MapMemory();
  return {
    async tab(memory: Memory = new MapMemory(), surroundings = byLabel): Promise<Tab> {
      const keeping = await storage.tab();
      const editor = new InProcess(surroundings);
      return { store: createPieceStore({ editor, keeping: Promise.resolve(keeping), memories: { lasting, tab: memory } }), editor, keeping };
    },
  };
}

const planned = (store: PieceStore) => vi.waitFor(() => {
  const { derived, document, deriving } = store.getState();
  expect(deriving).toBe(false);
  expect(derived?.document).toBe(document);
}, PLANNED);
const kept = (store: PieceStore) => vi.waitFor(() => expect(store.getState().kept.state).toBe('kept'), PLANNED);
const heightOf = (store: PieceStore, id: string): unknown => {
  const placement = thing(store.getState().document!, id)!;
  return placement.kind === 'plane' ? placement.atMm : placement.baseMm;
};
/** Where the gauge draws the plane p1: as far as planning has come. */
const drawnAt = (store: PieceStore) => store.getState().derived!.section.planes.find(({ id }) => id === 'p1')!.atMm;
const raised = (id: string, mm: number) => (file: SceneFile) => setHeight(file, id, mm);

describe('the piece’s store', () => {
  let here: ReturnType<typeof browser>;
  let tab: Tab;
  let store: PieceStore;
  beforeEach(async () => {
    here = browser();
    tab = await here.tab();
    ({ store } = tab);
  });

  it('begins with the demo, planned, drawn, and not kept before it is changed', async () => {
    await store.start();
    const { derived, document, kept: safety, chosenPour } = store.getState();
    expect(derived!.document).toBe(document);
    expect(derived!.section.bands.map(({ pour }) => pour)).toEqual(derived!.plan.pours.map(({ index }) => index));
    const solids = derived!.scene.placements.filter(({ kind }) => kind !== 'plane').map(({ id }) => id);
    expect([...derived!.silhouettes.keys()]).toEqual(solids);
    expect(derived!.solids.map(({ id }) => id)).toEqual(solids);
    expect(derived!.about).toBe(false);
    expect(chosenPour).toBeNull();
    expect(safety.state).toBe('untouched');
    expect(await tab.keeping.recents()).toEqual([]);
  });

  it('edits, undoes, redoes, and gives back the same document', async () => {
    await store.start();
    const before = store.getState().document;
    expect(store.getState().edit(raised('p1', 22))).toBe(true);
    expect(heightOf(store, 'p1')).toBe(22);
    const label = store.getState().undoStep!.label;
    expect(label).toMatch(/lily shadows/i);
    await planned(store);
    expect(drawnAt(store)).toBe(22);
    await kept(store);
    store.getState().undo();
    await vi.waitFor(() => expect(store.getState().document).toBe(before));
    expect(store.getState()).toMatchObject({ undoStep: null, redoStep: { label } });
    store.getState().redo();
    await vi.waitFor(() => expect(heightOf(store, 'p1')).toBe(22));
    expect(store.getState()).toMatchObject({ undoStep: { label }, redoStep: null });
  });

  it('says why an edit is refused and changes nothing', async () => {
    await store.start();
    const { document } = store.getState();
    expect(store.getState().edit(() => ({ ok: false, reason: 'Not so deep.' }))).toBe(false);
    expect(store.getState()).toMatchObject({ document, refusal: 'Not so deep.', undoStep: null });
    store.getState().edit(raised('p1', 21));
    expect(store.getState().refusal).toBeNull();
  });

  it('keeps edits, undo and redo over a reload, and opens what this tab had open', async () => {
    const memory = new MapMemory();
    const first = await here.tab(memory);
    await first.store.start();
    first.store.getState().edit(raised('p1', 22));
    first.store.getState().edit(raised('p1', 23));
    first.store.getState().edit(raised('p1', 24));
    await kept(first.store);
    first.store.getState().undo();
    await vi.waitFor(() => expect(heightOf(first.store, 'p1')).toBe(23));
    await kept(first.store);
    first.keeping.dispose();

    const again = await here.tab(memory);
    await again.store.start();
    expect(heightOf(again.store, 'p1')).toBe(23);
    again.store.getState().undo();
    await vi.waitFor(() => expect(heightOf(again.store, 'p1')).toBe(22));
    again.store.getState().redo();
    await vi.waitFor(() => expect(heightOf(again.store, 'p1')).toBe(23));
    again.store.getState().redo();
    await vi.waitFor(() => expect(heightOf(again.store, 'p1')).toBe(24));
    expect(again.store.getState().redoStep).toBeNull();
  });

  it('makes one undo step of a drag, derives while it lasts, and puts back what is canceled', async () => {
    await store.start();
    const before = store.getState().document;
    for (const mm of [21, 22, 23]) store.getState().drag(raised('p1', mm), 'move');
    expect(store.getState()).toMatchObject({ dragging: true, undoStep: null });
    await vi.waitFor(() => expect(drawnAt(store)).toBe(23), PLANNED);
    store.getState().drag(raised('p1', 24), 'end');
    expect(heightOf(store, 'p1')).toBe(24);
    await kept(store);
    store.getState().drag(raised('p1', 30), 'move');
    store.getState().drag(raised('p1', 30), 'cancel');
    expect(heightOf(store, 'p1')).toBe(24);
    store.getState().undo();
    await vi.waitFor(() => expect(store.getState().document).toBe(before));
    expect(store.getState().undoStep).toBeNull();
  });

  it('asks for one planning at a time while dragging, and ends with the last place', async () => {
    await store.start();
    await planned(store);
    const asked = () => tab.editor.asked.filter(({ kind }) => kind === 'derive').length;
    const before = asked();
    for (let i = 1; i <= 50; i++) store.getState().drag(raised('p1', 20 + i / 10), 'move');
    expect(asked() - before).toBe(1);
    store.getState().drag(raised('p1', 25), 'end');
    await planned(store);
    expect(drawnAt(store)).toBe(25);
    // The first place, the last of the drag, where it was let go, and its heat wholly.
    expect(asked() - before).toBeLessThanOrEqual(4);
  });

  it('keeps the drawn arrays of what was only moved or turned about its height', async () => {
    await store.start();
    const newt = () => store.getState().derived!.solids.find(({ id }) => id === 'f1')!;
    const before = newt();
    store.getState().edit(raised('f1', 24));
    await planned(store);
    expect(newt().positions).toBe(before.positions);
    expect(newt().bounds.min[2]).toBeCloseTo(24, 9);
  });

  it('leaves the piece as it was when another can’t be opened, and says what is wrong', async () => {
    await store.start();
    const { document } = store.getState();
    await store.getState().openFiles('broken.scene.json', async () => [given('broken.scene.json', '{ "format": ')]);
    expect(store.getState()).toMatchObject({ document, opening: null, trouble: { title: 'broken.scene.json can’t be opened', unchanged: true } });
    await store.getState().openFiles('gone.scene.json', () => Promise.reject(new Error('not found')));
    expect(store.getState().trouble!.problems[0].message).toContain('gone.scene.json can’t be read (not found)');
    await store.getState().openFiles('deep.scene.json', async () => [changedDemo((scene) => void (scene.fillMm = -3))]);
    expect(store.getState().trouble!.problems.map(({ path }) => path)).toContain('fillMm');
    await store.getState().openFiles('bare.scene.json', async () => [changedDemo((scene) => void (scene.placements[0].shape = { type: 'mesh', file: 'assets/gone.stl' }))]);
    expect(store.getState().trouble!.problems[0].message).toContain('"assets/gone.stl"');
    expect(store.getState().document).toBe(document);
    store.getState().edit(raised('p1', 22));
    await planned(store);
    expect(store.getState().unplanned).toEqual([]);
  });

  it('shows the piece asked for last, whichever is read first', async () => {
    await store.start();
    let arrive!: (files: ReturnType<typeof changedDemo>[]) => void;
    const slow = store.getState().openFiles('slow.scene.json', () => new Promise((resolve) => (arrive = resolve)));
    await store.getState().openFiles('rock-pool.scene.json', async () => [given('rock-pool.scene.json', readFileSync(ROCK_POOL, 'utf8'))]);
    const { document } = store.getState();
    arrive([changedDemo((scene) => void (scene.name = 'Too late'))]);
    await slow;
    expect(store.getState().document).toBe(document);
    expect(document!.name).not.toBe('Too late');
  });

  it('keeps an opened file at once, knows the file, and says what it does not hold', async () => {
    await store.getState().openFiles('pond.scene.json', async () => [changedDemo(() => undefined, 'pond.scene.json')]);
    await kept(store);
    expect(store.getState().kept).toMatchObject({ unsaved: null, fileName: 'pond.scene.json' });
    store.getState().edit(raised('p1', 22));
    expect(store.getState().kept.unsaved).toMatchObject({ edits: 1 });
    const { done } = await store.getState().packed('scene');
    done('pond.scene.json');
    expect(store.getState().kept.unsaved).toBeNull();
    await store.getState().refreshRecents();
    expect(store.getState().recents).toMatchObject([{ fileName: 'pond.scene.json', open: true }]);
  });

  it('gives a new piece without touching the one that was open', async () => {
    await store.start();
    store.getState().edit(raised('p1', 22));
    expect(store.getState().startPiece(newPiece({ seen: 'above', keep: false, mold: { shape: 'round', diameterMm: 90, heightMm: 40 } }))).toBe(true);
    await vi.waitFor(() => expect(store.getState().document!.mold).toMatchObject({ diameterMm: 90 }), PLANNED);
    store.getState().edit((file) => addPlane(file));
    await kept(store);
    await store.getState().refreshRecents();
    const pond = store.getState().recents.find(({ open }) => !open)!;
    await store.getState().openRecent(pond.id);
    expect(heightOf(store, 'p1')).toBe(22);
  });

  it('adds a mesh, keeps it with the piece, and packs it into the bundle it opens again', async () => {
    await store.start();
    const newt = readFileSync(new URL('../../assets/figures/newt.ply', import.meta.url));
    const path = await store.getState().addFile('My newt!.ply', new Blob([newt]));
    expect(path).toBe('assets/My newt.ply');
    store.getState().edit((file) => addFigure(file, { shape: { type: 'mesh', file: path }, baseMm: 21, hold: 'rod' }));
    await planned(store);
    await kept(store);
    const { document } = store.getState();
    const { blob } = await store.getState().packed('bundle');
    const other = await here.tab();
    await other.store.getState().openFiles('pond.stillpool', async () => [{ path: 'pond.stillpool', blob }]);
    expect(other.store.getState().trouble).toBeNull();
    expect(other.store.getState().document).toEqual(document);
    expect(await other.store.getState().files.get(path)!.arrayBuffer()).toEqual(await new Blob([newt]).arrayBuffer());
    await planned(other.store);
    expect(other.store.getState().derived!.plan).toEqual(store.getState().derived!.plan);
    // And from the browser's own keeping.
    tab.keeping.dispose();
    const again = await here.tab();
    await again.store.start();
    expect(again.store.getState().derived?.solids.length).toBe(store.getState().derived!.solids.length);
  });

  it('refuses a mesh that can’t be read and keeps its files as they were', async () => {
    await store.start();
    const { files } = store.getState();
    await expect(store.getState().addFile('bad.stl', new Blob(['solid']))).rejects.toThrow(/bad\.stl/);
    expect([...store.getState().files.keys()]).toEqual([...files.keys()]);
  });

  it('stops reading a mesh on the person’s word and goes on after it', async () => {
    await store.start();
    const newt = readFileSync(new URL('../../assets/figures/newt.ply', import.meta.url));
    const adding = store.getState().addFile('newt.ply', new Blob([newt]));
    const refused = expect(adding).rejects.toThrow('Stopped');
    tab.editor.onAsked = ({ kind }) => {
      if (kind === 'measure') queueMicrotask(() => store.getState().cancelReading());
    };
    await refused;
    store.getState().edit(raised('p1', 22));
    await planned(store);
    expect(store.getState().unplanned).toEqual([]);
  });

  it('opens a piece in two tabs: one edits, the other follows; taking over changes places', async () => {
    await store.start();
    store.getState().edit(raised('p1', 22));
    await kept(store);
    const other = await here.tab();
    await other.store.start();
    expect(other.store.getState().readOnly).toBe('another-tab');
    expect(other.store.getState().edit(raised('p1', 30))).toBe(false);
    expect(other.store.getState().refusal).toContain('another tab');
    store.getState().edit(raised('p1', 23));
    await vi.waitFor(() => expect(heightOf(other.store, 'p1')).toBe(23), PLANNED);
    await other.store.getState().takeOver();
    expect(other.store.getState().readOnly).toBeNull();
    await vi.waitFor(() => expect(store.getState().readOnly).toBe('another-tab'), PLANNED);
    expect(other.store.getState().edit(raised('p1', 25))).toBe(true);
    await vi.waitFor(() => expect(heightOf(store, 'p1')).toBe(25), PLANNED);
    other.store.getState().undo();
    await vi.waitFor(() => expect(heightOf(store, 'p1')).toBe(23), PLANNED);
  });

  it('shows a file from a newer version as far as it can be read, unchangeable, and saves it as it came', async () => {
    await store.getState().openFiles('later.scene.json', async () => [changedDemo((scene) => void Object.assign(scene, { version: 2, moons: 3 }), 'later.scene.json')]);
    expect(store.getState()).toMatchObject({ readOnly: 'newer', trouble: null });
    expect(store.getState().derived!.plan.pours.length).toBeGreaterThan(0);
    expect(store.getState().edit(raised('p1', 22))).toBe(false);
    const { blob } = await store.getState().packed('scene');
    expect(JSON.parse(await blob.text())).toMatchObject({ version: 2, moons: 3 });
    expect(await tab.keeping.recents()).toEqual([]);
  });

  it('keeps what is chosen within what there is', async () => {
    await store.start();
    const { plan } = store.getState().derived!;
    store.getState().choosePour(99);
    expect(store.getState().chosenPour).toBe(plan.pours.length);
    store.getState().choosePour(null);
    expect(store.getState().chosenPour).toBeNull();
    store.getState().showFinding(99);
    expect(store.getState().findingAt).toBe(plan.findings.length - 1);
    store.getState().select(['f1', 'p1']);
    store.getState().select(['f1'], 'toggle');
    expect(store.getState().selected).toEqual(['p1']);
    store.getState().edit((file) => ({ ok: true, file: { ...file, placements: file.placements!.filter(({ id }) => id !== 'p1') }, label: 'out' }));
    await planned(store);
    expect(store.getState().selected).toEqual([]);
  });

  it('lays the sheet out once for each paper and plan, and its PDF has as many pages', async () => {
    ({ store } = await here.tab(undefined, onDisk));
    await store.start();
    await store.getState().makeSheet();
    expect(store.getState().sheet.kind, 'no sheet before the heat is checked').toBe('none');
    await planned(store);
    await store.getState().makeSheet();
    const { sheet } = store.getState();
    await store.getState().makeSheet();
    expect(store.getState().sheet).toBe(sheet);
    store.getState().setPaper('letter');
    await store.getState().makeSheet();
    const letter = store.getState().sheet;
    if (letter.kind !== 'ready') throw new Error(`the sheet is ${letter.kind}`);
    expect(letter.document.paper).toBe('letter');
    const { getDocument } = await import('pdfjs-dist/legacy/build/pdf.mjs');
    const pdf = await getDocument({ data: (await store.getState().makePdf())! }).promise;
    expect(pdf.numPages).toBe(letter.document.pages.length);
    store.getState().setUnits({ length: 'in' });
    expect(store.getState().sheet.kind, 'another sheet for other units').toBe('none');
    await store.getState().makeSheet();
    const inInches = store.getState().sheet;
    if (inInches.kind !== 'ready') throw new Error(`the sheet is ${inInches.kind}`);
    const section = await (await getDocument({ data: (await store.getState().makePdf())! }).promise).getPage(1 + inInches.document.pages.findIndex(({ kind }) => kind === 'section'));
    expect((await section.getTextContent()).items.map((item) => ('str' in item ? item.str : ''))).toContain('height, in');
    store.getState().edit(raised('p1', 22));
    await planned(store);
    expect(store.getState().sheet.kind).toBe('none');
  }, 60_000);
});
