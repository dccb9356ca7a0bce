/**
 * A large solid as the joining library has it, kept from one operation to the next. A figure that is dragged is the same
 * solid at another place: it is found by its triangles and by points that are all shifted alike, and the others are
 * brought into its frame. Taking in 500,000 triangles anew costs 0.7 s, finding them again 5 ms.
 */
import type { Manifold } from 'manifold-3d';
import type { TriangleMesh } from '../core/solid/solid.ts';

export type Point = readonly [number, number, number];

/** mm. Shifts of the same point in doubles differ by their rounding, 1e-13 at a meter. */
const SAME_MM = 1e-10;

export class KeptSolid {
  readonly manifold: Manifold;
  readonly #indices: Uint32Array;
  /** In the library's frame. */
  readonly #places: Float64Array;

  /** Owns the manifold from now on. `center`: the library's origin, mm. */
  constructor(manifold: Manifold, { positions, indices }: TriangleMesh, center: Point) {
    this.manifold = manifold;
    this.#indices = indices;
    this.#places = positions.map((place, i) => place - center[i % 3]);
  }

  /** Where the library's origin is when this is that solid, mm; null: it is another one. */
  centerOf({ positions, indices }: TriangleMesh): Point | null {
    const places = this.#places;
    if (indices !== this.#indices || positions.length !== places.length) return null;
    const [x, y, z] = [positions[0] - places[0], positions[1] - places[1], positions[2] - places[2]];
    for (let i = 0; i < places.length; i += 3) {
      const off = Math.max(Math.abs(positions[i] - places[i] - x), Math.abs(positions[i + 1] - places[i + 1] - y), Math.abs(positions[i + 2] - places[i + 2] - z));
      if (!(off <= SAME_MM)) return null;
    }
    return [x, y, z];
  }
}
