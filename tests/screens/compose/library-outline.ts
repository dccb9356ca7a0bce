/** How the chooser's silhouettes are made from the figure library: the outline from the front, thinned to what 44 px can show. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Point } from '../../../src/core/sheet/polygon.ts';
import { silhouetteOf } from '../../../src/core/sheet/silhouette.ts';
import { readMesh } from '../../../src/files/mesh/read.ts';

const FIGURES = join(import.meta.dirname, '..', '..', '..', 'assets', 'figures');
/** A drawing 44 px high of a thing 20 mm high: half a pixel is this, mm. */
const THIN_MM = 0.22;

export interface LibraryOutline {
  readonly box: string;
  readonly path: string;
}

export const libraryNames: readonly string[] = Object.keys(JSON.parse(readFileSync(join(FIGURES, 'figures.json'), 'utf8')));

export function outlineOfLibrary(name: string): LibraryOutline {
  const mesh = readMesh(readFileSync(join(FIGURES, `${name}.ply`)), `${name}.ply`);
  const rings = silhouetteOf(mesh).flatMap(({ outer, holes }) => [outer, ...holes]).map((ring) => thinned(ring));
  const xs = rings.flat().map(([x]) => x);
  const zs = rings.flat().map(([, z]) => z);
  const [x0, x1, z0, z1] = [Math.min(...xs), Math.max(...xs), Math.min(...zs), Math.max(...zs)];
  const point = ([x, z]: Point): string => `${(x - x0).toFixed(1)} ${(z1 - z).toFixed(1)}`;
  return { box: `0 0 ${(x1 - x0).toFixed(1)} ${(z1 - z0).toFixed(1)}`, path: rings.map((ring) => `M${ring.map(point).join('L')}Z`).join('') };
}

/** Keeps points that stray from the line between those kept (Douglas and Peucker 1973). */
function thinned(ring: readonly Point[]): Point[] {
  if (ring.length < 5) return [...ring];
  const far = ring.reduce((best, point, i) => (distance(point, ring[0]) > distance(ring[best], ring[0]) ? i : best), 0);
  return [...part(ring.slice(0, far + 1)).slice(0, -1), ...part([...ring.slice(far), ring[0]]).slice(0, -1)];
}

function part(points: readonly Point[]): Point[] {
  if (points.length < 3) return [...points];
  const [a, b] = [points[0], points[points.length - 1]];
  let worst = 0;
  let at = 0;
  for (let i = 1; i < points.length - 1; i++) {
    const length = distance(a, b) || 1;
    const off = Math.abs((b[0] - a[0]) * (a[1] - points[i][1]) - (a[0] - points[i][0]) * (b[1] - a[1])) / length;
    if (off > worst) [worst, at] = [off, i];
  }
  return worst <= THIN_MM ? [a, b] : [...part(points.slice(0, at + 1)).slice(0, -1), ...part(points.slice(at))];
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}
