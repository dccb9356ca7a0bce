/** Meshes read and solids joined that are known from earlier runs; the joining library is started only when something is to be joined. */
import { createHash } from 'node:crypto';
import type { Booleans, MeshReading, TriangleMesh } from '../../core/solid/solid.ts';
import { openBooleans } from '../../files/booleans.ts';
import type { MeshFile, ReadingOnce } from '../../files/load.ts';
import type { Kept } from './kept-files.ts';

/** Thrown through the work, which is then done again with the library at hand. */
class NotStarted extends Error {}

/** Does `work` with booleans; it may be begun twice, so it leaves nothing behind before it is done. */
export async function withKeptBooleans<T>(kept: Kept, work: (booleans: Booleans) => Promise<T>): Promise<T> {
  let started: Booleans | null = null;
  const booleans = keptBooleans(kept, () => {
    if (!started) throw new NotStarted();
    return started;
  });
  try {
    return await work(booleans);
  } catch (error) {
    if (!(error instanceof NotStarted)) throw error;
    started = await openBooleans();
    return work(booleans);
  }
}

function keptBooleans(kept: Kept, library: () => Booleans): Booleans {
  const digests = new WeakMap<TriangleMesh, string>();
  const digest = (mesh: TriangleMesh): string => {
    const known = digests.get(mesh) ?? digestOf(mesh);
    digests.set(mesh, known);
    return known;
  };
  const joined = <T extends TriangleMesh | null>(name: string, solids: readonly TriangleMesh[], join: () => T): T => {
    const key = [name, ...solids.map(digest)].join(' ');
    const known = kept.get(key) as { mesh: T } | undefined;
    if (known) return known.mesh;
    const mesh = join();
    kept.put(key, { mesh });
    return mesh;
  };
  return {
    union: (solids) => joined('union', solids, () => library().union(solids)),
    intersect: (a, b) => joined('intersect', [a, b], () => library().intersect(a, b)),
    subtract: (a, b) => joined('subtract', [a, b], () => library().subtract(a, b)),
    repair: (mesh) => joined('repair', [mesh], () => library().repair(mesh)),
  };
}

/** Meshes as they were read and mended from the same bytes, also those too large to be kept: work that is begun twice reads them once. */
export function readOnce(kept: Kept): ReadingOnce {
  const before = new Map<string, MeshReading>();
  return ({ bytes, name, unit }: MeshFile, read) => {
    const key = `mesh ${JSON.stringify([name, unit])} ${createHash('sha256').update(bytes).digest('hex')}`;
    const known = before.get(key) ?? (kept.get(key) as MeshReading | undefined);
    const reading = known ?? read();
    before.set(key, reading);
    if (!known) kept.put(key, reading);
    return reading;
  };
}

function digestOf({ positions, indices }: TriangleMesh): string {
  return `${positions.length} ${createHash('sha256').update(positions).update(indices).digest('hex')}`;
}
