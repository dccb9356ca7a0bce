/**
 * Makes the figure library: one closed mesh a figure and an index of their sizes, under assets/figures.
 *
 * The same bytes every run: no clock, no chance, and the numbers in the index are taken from the
 * coordinates as they are stored.
 */
import { existsSync } from 'node:fs';
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { ManifoldToplevel } from 'manifold-3d';
import type { TriangleMesh } from '../../core/solid/solid.ts';
import { projectRoot } from '../library.ts';
import { RECIPES } from './library.ts';
import type { Recipe } from './library.ts';
import { writePly } from './ply.ts';
import { polygonize } from './polygonize.ts';
import { volumeMm3 } from './shells.ts';

/** What figures.json says of each figure. Sizes are those of its bounds: length along x, width along y, height along z. */
export interface FigureEntry {
  readonly file: string;
  readonly title: string;
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly volumeMl: number;
  readonly triangles: number;
}

const FOLDER = 'assets/figures';
const MM3_PER_ML = 1000;

/**
 * Writes every figure, or those named in `args`, and brings figures.json up to date. Exit code: 0, or 2
 * when a name is not in the library.
 * @throws when a figure does not come out as one closed shell: a fault in its field.
 */
export async function main(args: string[]): Promise<number> {
  const known = RECIPES.map((recipe) => recipe.name);
  const unknown = args.find((name) => !known.includes(name));
  if (unknown !== undefined) {
    console.error(`There is no figure "${unknown}"; the library has ${known.join(', ')}. Name some of those, or none to make all.`);
    return 2;
  }
  const wasm = await startManifold();
  const out = join(projectRoot(), FOLDER);
  await mkdir(out, { recursive: true });
  const index = args.length ? await readIndex(out) : {};
  for (const recipe of RECIPES) {
    if (args.length && !args.includes(recipe.name)) continue;
    const { bytes, entry } = makeFigure(wasm, recipe);
    index[recipe.name] = entry;
    await writeFile(join(out, entry.file), bytes);
    const size = [entry.lengthMm, entry.widthMm, entry.heightMm].map((mm) => mm.toFixed(1)).join(' × ');
    process.stdout.write(`${entry.title}: ${size} mm, ${entry.volumeMl.toFixed(2)} mL, ${entry.triangles} triangles\n`);
  }
  const ordered = Object.fromEntries(known.filter((name) => name in index).map((name) => [name, index[name]]));
  await writeFile(join(out, 'figures.json'), `${JSON.stringify(ordered, null, 2)}\n`);
  return 0;
}

/** The index as it stands; empty before the first run. */
async function readIndex(out: string): Promise<Record<string, FigureEntry>> {
  const path = join(out, 'figures.json');
  return existsSync(path) ? (JSON.parse(await readFile(path, 'utf8')) as Record<string, FigureEntry>) : {};
}

/** The mesh kernel, started. About 50 ms. */
export async function startManifold(): Promise<ManifoldToplevel> {
  const { default: load } = await import('manifold-3d');
  const wasm = await load();
  wasm.setup();
  return wasm;
}

/** One figure as the bytes of its file and its line in the index. */
export function makeFigure(wasm: ManifoldToplevel, recipe: Recipe): { bytes: Uint8Array; entry: FigureEntry } {
  const mesh = settle(polygonize(wasm, recipe.field(), recipe));
  const [lengthMm, widthMm, heightMm] = extent(mesh.positions).map(({ low, high }) => high - low);
  const entry = {
    file: `${recipe.name}.ply`,
    title: recipe.title,
    lengthMm,
    widthMm,
    heightMm,
    volumeMl: volumeMm3(mesh) / MM3_PER_ML,
    triangles: mesh.indices.length / 3,
  };
  return { bytes: writePly(mesh, `${recipe.title}, mm, z up`), entry };
}

/** Centered in x and y, lowest point at z = 0, coordinates as 32-bit floats will hold them. */
function settle(mesh: TriangleMesh): TriangleMesh {
  const [x, y, z] = extent(mesh.positions);
  const shift = [(x.low + x.high) / 2, (y.low + y.high) / 2, z.low];
  return { positions: mesh.positions.map((value, i) => Math.fround(value - shift[i % 3])), indices: mesh.indices };
}

function extent(positions: Float64Array): { low: number; high: number }[] {
  const axes = [0, 1, 2].map(() => ({ low: Infinity, high: -Infinity }));
  positions.forEach((value, i) => {
    const axis = axes[i % 3];
    axis.low = Math.min(axis.low, value);
    axis.high = Math.max(axis.high, value);
  });
  return axes;
}
