/** What a reader of one format hands to read.ts: the file's own unit, z already up, nothing welded. */

import { grouped, type Fail } from '../fail.ts';
import { MAX_TRIANGLES, MAX_VERTICES } from '../limits.ts';

export interface RawMesh {
  /** x, y, z per vertex, in the file's unit. */
  readonly positions: Float64Array;
  /** Three vertex numbers per triangle, not checked yet. */
  readonly indices: Uint32Array;
  /** Millimeters in one unit of the file; 1 where the format has none. */
  readonly unitMm: number;
}

export const EXPORT_AGAIN = 'Export the mesh again.';

export function tooMany(what: 'triangles' | 'vertices', count: number, fail: Fail): Error {
  const limit = what === 'triangles' ? MAX_TRIANGLES : MAX_VERTICES;
  return fail(`${grouped(count)} ${what}`, `at most ${grouped(limit)}`, 'Reduce the mesh before you export it.');
}
