/**
 * Finds where a line of sight meets a solid, through a bounding volume tree that grows between frames. Until it is
 * there, the solid's bounds stand in.
 *
 * A tree over 20,000 triangles takes about 25 ms, over 500,000 half a second; so larger meshes are picked on a lighter
 * copy, made in slices.
 */

import { BufferAttribute, BufferGeometry, Box3, Vector3, type Ray as ThreeRay, type Side } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import type { Bounds } from '../core/solid/solid.ts';
import { lighterSteps, type DrawnMesh } from './lighter.ts';
import { inSlices } from './slices.ts';

const MOST_PICKED = 20_000;

export class PickTree {
  #tree: MeshBVH | null = null;
  #geometry: BufferGeometry | null = null;
  #stop = (): void => {};
  readonly #box = new Box3();
  readonly #at = new Vector3();

  readonly #positions: Float32Array;
  readonly #indices: Uint32Array;
  readonly #onGrown: (picked: DrawnMesh) => void;

  /** `onGrown` is given what it stands on: the mesh, or a lighter copy. */
  constructor(positions: Float32Array, indices: Uint32Array, onGrown: (picked: DrawnMesh) => void) {
    this.#positions = positions;
    this.#indices = indices;
    this.#onGrown = onGrown;
  }

  /** Begins to grow; nothing to do when it has grown already. */
  begin(): void {
    if (this.#tree || this.#indices.length === 0) return;
    this.#stop = inSlices(lighterSteps(this.#positions, this.#indices, MOST_PICKED), (picked) => this.#grow(picked));
  }

  /** Distance along the ray (in the solid's own frame) to the first surface; null: it passes by. */
  hit(ray: ThreeRay, bounds: Bounds, side: Side): number | null {
    if (this.#tree) return this.#tree.raycastFirst(ray, side)?.distance ?? null;
    this.#box.min.set(...bounds.min);
    this.#box.max.set(...bounds.max);
    return ray.intersectBox(this.#box, this.#at)?.distanceTo(ray.origin) ?? null;
  }

  dispose(): void {
    this.#stop();
    this.#geometry?.dispose();
  }

  #grow(picked: DrawnMesh): void {
    const { positions, indices } = picked;
    if (indices.length === 0) return;
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(positions, 3));
    geometry.setIndex(new BufferAttribute(indices, 1));
    this.#geometry = geometry;
    this.#tree = new MeshBVH(geometry, { indirect: true }); // the copy of a light mesh is the caller's form
    this.#onGrown(picked);
  }
}
