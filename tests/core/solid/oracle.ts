/** What the tests of solids share: a seeded generator and manifold-3d as the outside judge of sliced volumes. */

import Module, { type Manifold, type ManifoldToplevel } from 'manifold-3d';

/** Mulberry32, numbers in [0, 1); 32 bits of state, public domain, from memory. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

let started: Promise<ManifoldToplevel> | undefined;

export function manifold(): Promise<ManifoldToplevel> {
  started ??= Module().then((module) => {
    module.setup();
    return module;
  });
  return started;
}

/** Volume below height z, by trimming. */
export function trimmedBelow(solid: Manifold, z: number): number {
  const below = solid.trimByPlane([0, 0, -1], -z);
  const volume = below.volume();
  below.delete();
  return volume;
}
