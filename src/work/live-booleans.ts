/**
 * Booleans for a hand that is moving things: what was joined before is remembered, small joins are made, large ones
 * are put off. A join that is put off is answered by a guess (apart, or one inside the other), and `about` says so.
 *
 * Results are found by what is in the meshes, so that a bed nobody moves is cut once however often it is posed anew.
 */
import type { Booleans, TriangleMesh } from '../core/solid/solid.ts';
import { meshBounds } from '../core/solid/shape-volume.ts';

/** Triangles that may be joined in one go while live: some 50 ms of the library. */
const LIVE_TRIANGLES = 40_000;
/** Triangles of remembered results: some 30 MB. */
const KEPT_TRIANGLES = 1_000_000;

export class RememberedBooleans {
  readonly #booleans: Booleans;
  /** In order of use, the oldest first. */
  readonly #results = new Map<string, TriangleMesh>();
  readonly #keys = new WeakMap<TriangleMesh, string>();
  #triangles = 0;

  constructor(booleans: Booleans) {
    this.#booleans = booleans;
  }

  /** For one planning. `live`: see above; else everything is joined. */
  forPlanning(live: boolean): { readonly booleans: Booleans; about(): boolean } {
    let budget = live ? LIVE_TRIANGLES : Infinity;
    let about = false;
    const joined = (name: 'union' | 'intersect' | 'subtract', solids: readonly TriangleMesh[], guess: () => TriangleMesh, join: () => TriangleMesh): TriangleMesh => {
      const size = solids.reduce((sum, { indices }) => sum + indices.length / 3, 0);
      // A large mesh that has just been moved was never joined as it is: its key would cost what the guess saves.
      const moved = size > budget && solids.some((solid) => solid.indices.length / 3 > LIVE_TRIANGLES && !this.#keys.has(solid));
      const key = moved ? '' : `${name} ${solids.map((solid) => this.#keyOf(solid)).join(' ')}`;
      const known = moved ? undefined : this.#results.get(key);
      if (known) return this.#used(key, known);
      if (size > budget) {
        about = true;
        return guess();
      }
      budget -= size;
      return this.#remember(key, join());
    };
    return {
      booleans: {
        union: (solids) => joined('union', solids, () => together(solids), () => this.#booleans.union(solids)),
        intersect: (a, b) => joined('intersect', [a, b], () => (within(a, b) ? a : within(b, a) ? b : NOTHING), () => this.#booleans.intersect(a, b)),
        subtract: (a, b) => joined('subtract', [a, b], () => (within(a, b) ? NOTHING : a), () => this.#booleans.subtract(a, b)),
        repair: (mesh) => this.#booleans.repair(mesh),
      },
      about: () => about,
    };
  }

  #used(key: string, mesh: TriangleMesh): TriangleMesh {
    this.#results.delete(key);
    this.#results.set(key, mesh);
    return mesh;
  }

  #remember(key: string, mesh: TriangleMesh): TriangleMesh {
    this.#results.set(key, mesh);
    this.#triangles += mesh.indices.length / 3;
    for (const [old, { indices }] of this.#results) {
      if (this.#triangles <= KEPT_TRIANGLES || old === key) break;
      this.#results.delete(old);
      this.#triangles -= indices.length / 3;
    }
    return mesh;
  }

  #keyOf(mesh: TriangleMesh): string {
    let key = this.#keys.get(mesh);
    if (key === undefined) {
      key = contentKey(mesh);
      this.#keys.set(mesh, key);
    }
    return key;
  }
}

const NOTHING: TriangleMesh = { positions: new Float64Array(0), indices: new Uint32Array(0) };

function together(solids: readonly TriangleMesh[]): TriangleMesh {
  const positions = new Float64Array(solids.reduce((sum, solid) => sum + solid.positions.length, 0));
  const indices = new Uint32Array(solids.reduce((sum, solid) => sum + solid.indices.length, 0));
  let point = 0;
  let corner = 0;
  for (const solid of solids) {
    positions.set(solid.positions, 3 * point);
    for (let i = 0; i < solid.indices.length; i++) indices[corner + i] = solid.indices[i] + point;
    point += solid.positions.length / 3;
    corner += solid.indices.length;
  }
  return { positions, indices };
}

/** Whether the middle of `a`'s bounds lies in `b`'s, and `b`'s are larger. */
function within(a: TriangleMesh, b: TriangleMesh): boolean {
  if (a.indices.length === 0 || b.indices.length === 0) return false;
  const inner = meshBounds(a);
  const outer = meshBounds(b);
  return [0, 1, 2].every((k) => {
    const middle = (inner.min[k] + inner.max[k]) / 2;
    return middle > outer.min[k] && middle < outer.max[k] && outer.max[k] - outer.min[k] >= (inner.max[k] - inner.min[k]) / 2;
  });
}

/** Two 32-bit sums (FNV-1a over words, and one with another start and rotation) with the sizes: equal only by an accident of 1 in 10¹⁹. */
function contentKey({ positions, indices }: TriangleMesh): string {
  let a = 0x811c9dc5;
  let b = 0x9e3779b9;
  const words = new Uint32Array(positions.buffer, positions.byteOffset, 2 * positions.length);
  for (const list of [words, indices]) {
    for (let i = 0; i < list.length; i++) {
      const word = list[i];
      a = Math.imul(a ^ word, 0x01000193);
      b = Math.imul(((b << 5) | (b >>> 27)) ^ word, 0x85ebca6b);
    }
  }
  return `${positions.length}.${indices.length}.${(a >>> 0).toString(36)}.${(b >>> 0).toString(36)}`;
}
