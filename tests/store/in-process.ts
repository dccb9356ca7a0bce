/** The planner without a worker: the same answers, with the library, the demo and the typefaces from the disk. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { openFigureLibrary } from '../../src/cli/library.ts';
import { openBooleans } from '../../src/files/booleans.ts';
import { fontsOnDisk } from '../../src/files/fonts-disk.ts';
import { answer, type Surroundings } from '../../src/work/answer.ts';
import type { Answer, GivenFile, Planner } from '../../src/work/protocol.ts';

export const ROOT = join(import.meta.dirname, '..', '..');
export const DEMO = join(ROOT, 'assets', 'scenes', 'mill-pond.scene.json');
export const ROCK_POOL = join(ROOT, 'assets', 'scenes', 'rock-pool.scene.json');

const onDisk: Surroundings = {
  booleans: () => openBooleans(),
  library: openFigureLibrary(),
  demo: async () => readFileSync(DEMO, 'utf8'),
  readFont: fontsOnDisk(ROOT),
};

export const inProcess: Planner = {
  load: (files) => answer({ kind: 'load', files }, onDisk) as Promise<Answer<'load'>>,
  sheet: (planned, paper) => answer({ kind: 'sheet', planned, paper }, onDisk) as Promise<Answer<'sheet'>>,
  pdf: (planned, paper) => answer({ kind: 'pdf', planned, paper }, onDisk) as Promise<Answer<'pdf'>>,
};

export function given(path: string, text: string): GivenFile {
  return { path, bytes: new TextEncoder().encode(text) };
}

/** The demo's JSON with changes, as a dropped file. */
export function changedDemo(change: (scene: DemoScene) => void, path = 'changed.scene.json'): GivenFile {
  const scene = JSON.parse(readFileSync(DEMO, 'utf8')) as DemoScene;
  change(scene);
  return given(path, JSON.stringify(scene));
}

export interface DemoScene {
  name: string;
  mold: Record<string, unknown>;
  cast: string;
  fillMm: number;
  fills: { toMm: number; formula: string }[];
  placements: ({ id: string } & Record<string, unknown>)[];
  formulas: Record<string, unknown>[];
  bench: Record<string, unknown>;
}
