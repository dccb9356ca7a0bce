/**
 * The figure library as it is stored: sound meshes, and an index that tells the truth about them.
 *
 * The files are read here by their layout alone, so that a slip shared by our writer and our reader shows.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { ManifoldToplevel } from 'manifold-3d';
import { beforeAll, describe, expect, test } from 'vitest';
import { makeFigure, startManifold } from '../../src/cli/figures/figures.ts';
import type { FigureEntry } from '../../src/cli/figures/figures.ts';
import { ball, ellipsoid } from '../../src/cli/figures/field.ts';
import { RECIPES } from '../../src/cli/figures/library.ts';
import { polygonize } from '../../src/cli/figures/polygonize.ts';
import { volumeMm3 } from '../../src/cli/figures/shells.ts';
import { openFigureLibrary } from '../../src/cli/library.ts';
import { simulatedHeat } from '../../src/core/plan/heat-simulated.ts';
import { planScene } from '../../src/core/plan/plan-scene.ts';
import type { Plan } from '../../src/core/plan/plan.ts';
import { openBooleans } from '../../src/files/booleans.ts';
import { openSceneFile } from '../../src/files/disk.ts';
import { loadScene, problemsLine } from '../../src/files/load.ts';

const FOLDER = new URL('../../assets/figures/', import.meta.url);
const index = JSON.parse(readFileSync(new URL('figures.json', FOLDER), 'utf8')) as Record<string, FigureEntry>;
/** Relative: both volumes are sums over the same 32-bit coordinates in doubles. */
const SAME_SUM = 1e-6;
/** mm: half a division of a 32-bit float near 50 mm is 2e-6; the index holds the exact difference of two of them. */
const STORED_MM = 4e-6;
const MAX_BYTES = 3_000_000;

let wasm: ManifoldToplevel;
beforeAll(async () => {
  wasm = await startManifold();
});

interface Stored {
  positions: Float32Array;
  indices: Uint32Array;
}

function readStored(file: string): Stored {
  const bytes = readFileSync(new URL(file, FOLDER));
  const marker = 'end_header\n';
  const start = bytes.indexOf(marker) + marker.length;
  const header = bytes.toString('latin1', 0, start);
  const vertices = Number(/element vertex (\d+)/.exec(header)?.[1]);
  const triangles = Number(/element face (\d+)/.exec(header)?.[1]);
  expect(bytes.length).toBe(start + vertices * 12 + triangles * 13);
  const positions = Float32Array.from({ length: vertices * 3 }, (_, i) => bytes.readFloatLE(start + i * 4));
  const faces = start + vertices * 12;
  for (let i = 0; i < triangles; i++) if (bytes[faces + i * 13] !== 3) throw new Error(`Face ${i} of ${file} is no triangle.`);
  const indices = Uint32Array.from({ length: triangles * 3 }, (_, i) => bytes.readUInt32LE(faces + Math.floor(i / 3) * 13 + 1 + (i % 3) * 4));
  return { positions, indices };
}

/** Directed edges without their opposite, or met twice: none in a closed, consistently wound mesh. */
function looseEdges({ indices }: Stored): number {
  const seen = new Set<number>();
  let repeated = 0;
  const key = (a: number, b: number): number => a * 2 ** 24 + b;
  for (let i = 0; i < indices.length; i++) {
    const k = key(indices[i], indices[i % 3 === 2 ? i - 2 : i + 1]);
    if (seen.has(k)) repeated++;
    seen.add(k);
  }
  let loose = repeated;
  for (const k of seen) if (!seen.has(key(k % 2 ** 24, Math.floor(k / 2 ** 24)))) loose++;
  return loose;
}

describe('the stored figures', () => {
  test('index, recipes and files name the same figures, in under 3 MB', () => {
    expect(Object.keys(index)).toEqual(RECIPES.map((recipe) => recipe.name));
    const files = readdirSync(FOLDER).filter((file) => file.endsWith('.ply'));
    expect(files.sort()).toEqual(Object.values(index).map((entry) => entry.file).sort());
    const total = files.reduce((sum, file) => sum + readFileSync(new URL(file, FOLDER)).length, 0);
    expect(total).toBeLessThan(MAX_BYTES);
  });

  test.each(Object.entries(index))('%s is closed, one shell, wound outward, as large as the index says', (_name, entry) => {
    const mesh = readStored(entry.file);
    expect(looseEdges(mesh)).toBe(0);
    expect(mesh.indices.length / 3).toBe(entry.triangles);
    expect(entry.triangles).toBeGreaterThanOrEqual(4_000);
    expect(entry.triangles).toBeLessThanOrEqual(30_000);

    const solid = new wasm.Manifold(new wasm.Mesh({ numProp: 3, vertProperties: mesh.positions, triVerts: mesh.indices }));
    expect(solid.decompose()).toHaveLength(1);
    expect(solid.volume()).toBeGreaterThan(0);
    const ours = volumeMm3({ positions: Float64Array.from(mesh.positions), indices: mesh.indices });
    expect(Math.abs(ours / 1000 / entry.volumeMl - 1)).toBeLessThan(SAME_SUM);
    expect(Math.abs(solid.volume() / 1000 / entry.volumeMl - 1)).toBeLessThan(SAME_SUM);

    const { min, max } = solid.boundingBox();
    const sizes = [entry.lengthMm, entry.widthMm, entry.heightMm];
    sizes.forEach((size, k) => expect(Math.abs(max[k] - min[k] - size)).toBeLessThan(STORED_MM));
    expect(min[2]).toBe(0);
    expect(Math.abs(max[0] + min[0])).toBeLessThan(STORED_MM);
    expect(Math.abs(max[1] + min[1])).toBeLessThan(STORED_MM);
    solid.delete();
  });

  test('the smallest figure comes out again byte for byte', () => {
    const [name, entry] = Object.entries(index).reduce((least, next) => (next[1].triangles < least[1].triangles ? next : least));
    const recipe = RECIPES.find((candidate) => candidate.name === name);
    if (!recipe) throw new Error(`No recipe makes ${name}.`);
    const made = makeFigure(wasm, recipe);
    expect(Buffer.from(made.bytes).equals(readFileSync(new URL(entry.file, FOLDER)))).toBe(true);
    expect(made.entry).toEqual(entry);
  });
});

async function planOf(name: string): Promise<Plan> {
  const booleans = await openBooleans();
  const files = await openSceneFile(fileURLToPath(new URL(`../../assets/scenes/${name}.scene.json`, import.meta.url)));
  const loading = await loadScene(files, openFigureLibrary(), booleans);
  if (!loading.ok) throw new Error(problemsLine(loading.problems));
  const result = planScene(loading.loaded.scene, { ...loading.loaded, booleans, heat: simulatedHeat(loading.loaded.scene.testCups) });
  if (!result.ok) throw new Error(problemsLine(result.problems));
  return result.plan;
}

describe('the demo scenes', () => {
  test.each([
    ['mill-pond', 7],
    ['rock-pool', 5],
  ])('%s plans in %i pours, without a halt, with one locking pour and both joint routes', async (name, pours) => {
    const plan = await planOf(name);
    expect(plan.findings.filter((finding) => finding.severity === 'halt')).toEqual([]);
    expect(plan.findings.some((finding) => finding.code === 'unknown-field')).toBe(false);
    expect(plan.pours).toHaveLength(pours);
    expect(plan.pours.filter((pour) => pour.locks.length > 0)).toHaveLength(1);
    expect(new Set(plan.pours.slice(1).map((pour) => pour.route))).toEqual(new Set(['wet-on-tacky', 'cure-scuff-wipe']));
    expect(plan.findings.filter((finding) => finding.code === 'floats')).toHaveLength(1);
    // Volumes come from the stored meshes: the whole figure's is scale³ times the index's.
    const scene = JSON.parse(readFileSync(new URL(`../../assets/scenes/${name}.scene.json`, import.meta.url), 'utf8')) as {
      placements: { id: string; scale?: number; shape?: { type: string; name: string } }[];
    };
    for (const { id, scale = 1, shape } of scene.placements) {
      if (shape?.type !== 'library') continue;
      const planned = plan.placements.find((placement) => placement.id === id);
      expect(Math.abs((planned?.volumeMl ?? NaN) / (index[shape.name].volumeMl * scale ** 3) - 1)).toBeLessThan(SAME_SUM);
    }
  });
});

describe('polygonize', () => {
  const box = { min: [-8, -8, -8], max: [8, 8, 8], edgeMm: 0.6, toleranceMm: 0.005 } as const;

  test('a ball of 6 mm has the volume 4/3 π r³ to the triangles’ sagitta', () => {
    const mesh = polygonize(wasm, ball([0.3, -0.2, 0.1], 6), box);
    // Chords of 0.6 mm lie at most 0.6²/(8·6) = 0.0075 mm inside a 6 mm ball, thinning out adds 0.005: 3·0.0125/6 of the volume.
    const deviation = (3 * (0.6 ** 2 / (8 * 6) + 0.005)) / 6;
    expect(Math.abs(volumeMm3(mesh) / ((4 / 3) * Math.PI * 6 ** 3) - 1)).toBeLessThan(deviation);
  });

  test('an ellipsoid has the volume 4/3 π abc', () => {
    const mesh = polygonize(wasm, ellipsoid([0, 0, 0], [7, 5, 4]), box);
    // Sharpest curvature radius b²/a with b the least and a the greatest half size: 16/7 mm, sagitta 0.6²/(8·16/7), over the least half size.
    const deviation = (3 * (0.6 ** 2 / ((8 * 16) / 7) + 0.005)) / 4;
    expect(Math.abs(volumeMm3(mesh) / ((4 / 3) * Math.PI * 7 * 5 * 4) - 1)).toBeLessThan(deviation);
  });

  test('a hollow inside is filled', () => {
    const outer = ball([0, 0, 0], 6);
    const inner = ball([0, 0, 0], 2);
    const hollow = polygonize(wasm, (x, y, z) => Math.max(outer(x, y, z), -inner(x, y, z)), box);
    const solid = polygonize(wasm, outer, box);
    expect(Math.abs(volumeMm3(hollow) / volumeMm3(solid) - 1)).toBeLessThan(SAME_SUM);
  });

  test('a field in two pieces is refused with both sizes', () => {
    const two = (x: number, y: number, z: number): number => Math.min(ball([-4, 0, 0], 2)(x, y, z), ball([4, 0, 0], 2)(x, y, z));
    expect(() => polygonize(wasm, two, box)).toThrow(/2 separate pieces/);
  });
});
