import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { createSceneStore } from '../../src/store/scene-store.ts';
import type { GivenFile } from '../../src/work/protocol.ts';
import { changedDemo, given, inProcess, ROCK_POOL } from './in-process.ts';

/** A promise with its handle, to let files arrive in any order. */
function later(): { files: Promise<GivenFile[]>; arrive: (files: GivenFile[]) => void } {
  let arrive!: (files: GivenFile[]) => void;
  const files = new Promise<GivenFile[]>((resolve) => (arrive = resolve));
  return { files, arrive };
}

const rockPool = (): GivenFile => given('rock-pool.scene.json', readFileSync(ROCK_POOL, 'utf8'));

describe('the scene store', () => {
  it('opens the demo with its plan, its outlines and its section', async () => {
    const store = createSceneStore(inProcess);
    const opening = store.getState().openDemo();
    expect(store.getState()).toMatchObject({ opening: 'the demo scene', shown: null });
    await opening;
    const { shown, opening: left, trouble } = store.getState();
    expect(left).toBeNull();
    expect(trouble).toBeNull();
    expect(shown!.plan.scene).toBe(shown!.scene.name);
    expect(shown!.section.bands.map(({ pour }) => pour)).toEqual(shown!.plan.pours.map(({ index }) => index));
    const solids = shown!.scene.placements.filter(({ kind }) => kind !== 'plane').map(({ id }) => id);
    expect([...shown!.silhouettes.keys()]).toEqual(solids);
  });

  it('keeps the scene when another can’t be read, and says what is wrong', async () => {
    const store = createSceneStore(inProcess);
    await store.getState().openDemo();
    const before = store.getState().shown;
    await store.getState().openFiles('broken.scene.json', async () => [given('broken.scene.json', '{ "format": ')]);
    expect(store.getState().shown).toBe(before);
    expect(store.getState().trouble!.title).toBe('broken.scene.json can’t be opened');
    expect(store.getState().trouble!.problems).toHaveLength(1);
    store.getState().dismissTrouble();
    expect(store.getState().trouble).toBeNull();
  });

  it('tells problems by their paths, and that a file vanished', async () => {
    const store = createSceneStore(inProcess);
    await store.getState().openFiles('a.scene.json', async () => [changedDemo((scene) => void (scene.fillMm = -3))]);
    expect(store.getState().trouble!.problems.map(({ path }) => path)).toContain('fillMm');
    await store.getState().openFiles('gone.scene.json', () => Promise.reject(new Error('not found')));
    expect(store.getState().trouble!.problems[0].message).toContain('gone.scene.json can’t be read (not found)');
    expect(store.getState().shown).toBeNull();
  });

  it('shows the scene asked for last, whichever is read first', async () => {
    const store = createSceneStore(inProcess);
    const slow = later();
    const quick = later();
    const first = store.getState().openFiles('slow.scene.json', () => slow.files);
    const second = store.getState().openFiles('rock-pool.scene.json', () => quick.files);
    quick.arrive([rockPool()]);
    await second;
    const shown = store.getState().shown;
    slow.arrive([changedDemo((scene) => void (scene.name = 'Too late'))]);
    await first;
    expect(store.getState().shown).toBe(shown);
    expect(shown!.scene.name).not.toBe('Too late');
  });

  it('chooses a pour, and none when it is chosen again; a new scene starts without', async () => {
    const store = createSceneStore(inProcess);
    await store.getState().openDemo();
    store.getState().choosePour(2);
    expect(store.getState().chosenPour).toBe(2);
    store.getState().choosePour(2);
    expect(store.getState().chosenPour).toBeNull();
    store.getState().choosePour(3);
    await store.getState().openFiles('rock-pool.scene.json', async () => [rockPool()]);
    expect(store.getState().chosenPour).toBeNull();
  });

  it('steps through findings and stops at both ends', async () => {
    const store = createSceneStore(inProcess);
    await store.getState().openDemo();
    const count = store.getState().shown!.plan.findings.length;
    store.getState().showFinding(count + 5);
    expect(store.getState().findingAt).toBe(count - 1);
    store.getState().showFinding(-1);
    expect(store.getState().findingAt).toBe(0);
  });

  it('lays the sheet out once for each paper, and its PDF has as many pages', async () => {
    const store = createSceneStore(inProcess);
    await store.getState().openDemo();
    await store.getState().makeSheet();
    const sheet = store.getState().sheet;
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
  });
});
