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

const MOST_PICKED = 20_000;
/** Work between two frames, ms. */
const A_SLICE_MS = 8;

export class PickTree {
  #tree: MeshBVH | null = null;
  #geometry: BufferGeometry | null = null;
  #lighter: DrawnMesh | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  readonly #box = new Box3();
  readonly #at = new Vector3();

  readonly #positions: Float32Array;
  readonly #indices: Uint32Array;

  constructor(positions: Float32Array, indices: Uint32Array) {
    this.#positions = positions;
    this.#indices = indices;
  }

  /** Begins to grow; nothing to do when it has grown already. */
  begin(): void {
    if (this.#tree || this.#indices.length === 0) return;
    const steps = lighterSteps(this.#positions, this.#indices, MOST_PICKED);
    const work = (): void => {
      const until = performance.now() + A_SLICE_MS;
      for (;;) {
        const step = steps.next();
        if (step.done) {
          this.#timer = setTimeout(() => this.#grow(step.value.positions, step.value.indices), 0);
          return;
        }
        if (performance.now() > until) break;
      }
      this.#timer = setTimeout(work, 0);
    };
    this.#timer = setTimeout(work, 0);
  }

  /** The lighter copy it stands on, or null: not grown yet, or the mesh is light itself. */
  get lighter(): DrawnMesh | null {
    return this.#lighter;
  }

  /** Distance along the ray (in the solid's own frame) to the first surface; null: it passes by. */
  hit(ray: ThreeRay, bounds: Bounds, side: Side): number | null {
    if (this.#tree) return this.#tree.raycastFirst(ray, side)?.distance ?? null;
    this.#box.min.set(...bounds.min);
    this.#box.max.set(...bounds.max);
    return ray.intersectBox(this.#box, this.#at)?.distanceTo(ray.origin) ?? null;
  }

  dispose(): void {
    clearTimeout(this.#timer);
    this.#geometry?.dispose();
  }

  #grow(positions: Float32Array, indices: Uint32Array): void {
    if (indices.length === 0) return;
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(positions, 3));
    geometry.setIndex(new BufferAttribute(indices, 1));
    this.#geometry = geometry;
    if (indices.length < this.#indices.length) this.#lighter = { positions, indices };
    this.#tree = new MeshBVH(geometry, { indirect: true }); // the copy of a light mesh is the caller's form
  }
}
