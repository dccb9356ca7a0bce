/** The worker's answers without a worker: the library, the demos and the typefaces from the disk; one request at a time. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { openFigureLibrary } from '../../src/cli/library.ts';
import { openBooleans } from '../../src/files/booleans.ts';
import { openRegions } from '../../src/files/regions.ts';
import { fontsOnDisk } from '../../src/files/fonts-disk.ts';
import { Answers, type Surroundings } from '../../src/work/answers.ts';
import type { Answer, DerivedScene, Editor, GivenFile, Kind, Progress, Request, RequestOf } from '../../src/work/protocol.ts';

const ROOT = join(import.meta.dirname, '..', '..');
const sceneOf = (name: string): string => join(ROOT, 'assets', 'scenes', `${name}.scene.json`);
export const DEMO = sceneOf('mill-pond');
export const ROCK_POOL = sceneOf('rock-pool');

export const onDisk: Surroundings = {
  booleans: () => openBooleans(),
  library: openFigureLibrary(),
  demo: async (name) => readFileSync(sceneOf(name), 'utf8'),
  readFont: fontsOnDisk(ROOT),
  regions: () => openRegions(),
};

/** The demos by their labels alone: a store's tests need no simulation, which takes a second a time. */
export const byLabel: Surroundings = {
  ...onDisk,
  demo: async (name) => JSON.stringify({ ...JSON.parse(readFileSync(sceneOf(name), 'utf8')), heat: { model: 'label' } }),
};

/** Stands for the worker's client; requests wait for each other as in the worker. */
export class InProcess implements Editor {
  readonly asked: Request[] = [];
  onAsked: (request: Request) => void = () => {};
  private readonly surroundings: Surroundings;
  private answers: Answers;
  private tell: (progress: Progress | null) => void = () => {};
  private last: Promise<unknown> = Promise.resolve();
  private stopped: (() => void)[] = [];

  constructor(surroundings = onDisk) {
    this.surroundings = surroundings;
    this.answers = this.fresh();
  }

  ask<K extends Kind>(request: RequestOf<K>): Promise<Answer<K>> {
    this.asked.push(request);
    this.onAsked(request);
    const { answers } = this;
    const answer = this.last.then(() => answers.answer(request));
    this.last = answer;
    const canceled = new Promise<Answer<Kind>>((resolve) => {
      this.stopped.push(() => resolve({ ok: false, canceled: true, problems: [{ path: '', message: 'Stopped.' }] }));
    });
    return Promise.race([answer, canceled]) as Promise<Answer<K>>;
  }

  cancel(): void {
    this.answers = this.fresh();
    for (const stop of this.stopped.splice(0)) stop();
  }

  private fresh(): Answers {
    return new Answers(this.surroundings, (progress) => this.tell(progress));
  }

  onProgress(listener: (progress: Progress | null) => void): void {
    this.tell = listener;
  }
}

/** A scene derived from its text and files. */
export async function derivedFrom(files: readonly GivenFile[] | null): Promise<DerivedScene> {
  const editor = new InProcess();
  const opened = await editor.ask<'open' | 'demo'>(files === null ? { kind: 'demo', name: 'mill-pond' } : { kind: 'open', files });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  await editor.ask<'use'>({ kind: 'use', files: [...opened.value.files].map(([path, blob]) => ({ id: path, path, blob })) });
  const derived = await editor.ask<'derive'>({ kind: 'derive', document: opened.value.document, live: false });
  if (!derived.ok) throw new Error(JSON.stringify(derived.problems));
  return derived.value;
}

export function given(path: string, content: string | Uint8Array<ArrayBuffer>): GivenFile {
  return { path, blob: new Blob([content]) };
}

/** The demo's JSON with changes, as a dropped file. */
export function changedDemo(change: (scene: DemoScene) => void, path = 'changed.scene.json'): GivenFile {
  const scene = JSON.parse(readFileSync(DEMO, 'utf8')) as DemoScene;
  change(scene);
  return given(path, JSON.stringify(scene));
}

export interface DemoScene {
  name: string;
  version: number;
  mold: Record<string, unknown>;
  cast: string;
  fillMm: number;
  fills: { toMm: number; formula: string }[];
  placements: ({ id: string } & Record<string, unknown>)[];
  formulas: Record<string, unknown>[];
  bench: Record<string, unknown>;
}
