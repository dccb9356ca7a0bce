import { describe, expect, it } from 'vitest';
import { planeBetween } from '../../../src/core/solid/shape-apart.ts';
import type { TriangleMesh } from '../../../src/core/solid/solid.ts';
import { icosphere, posed, star } from './made-meshes.ts';
import { seeded } from './oracle.ts';

/** Times an icosahedron's faces are parted: 40,962 vertices, far over a sample. */
const FINE = 6;
const RADIUS_MM = 10;
/** mm between mirror images; wide enough for the walk's steps, narrow against the spikes. */
const GAP_MM = 0.5;
/** mm that mirror images reach into each other: less than one vertex in ten lies that far out. */
const BITE_MM = 0.05;

/** Its image in the plane across x that lies `gapMm / 2` beyond its farthest vertex. */
function mirrored({ positions, indices }: TriangleMesh, gapMm: number): TriangleMesh {
  let farthest = -Infinity;
  for (let i = 0; i < positions.length; i += 3) farthest = Math.max(farthest, positions[i]);
  return { positions: positions.map((at, i) => (i % 3 === 0 ? 2 * farthest + gapMm - at : at)), indices: indices.slice().reverse() };
}

describe('a plane between two large meshes', () => {
  for (const seed of [1, 2, 3, 4]) {
    it(`is found between mirror images that are apart, none between such as reach into each other, seed ${seed}`, () => {
      for (const mesh of [icosphere(RADIUS_MM, FINE), star(seed, RADIUS_MM, FINE)]) {
        const one = posed(mesh, seeded(seed), 1, [3, -4, 5]);
        expect(planeBetween(one, mirrored(one, GAP_MM))).toBe(true);
        expect(planeBetween(mirrored(one, GAP_MM), one)).toBe(true);
        expect(planeBetween(one, mirrored(one, -BITE_MM))).toBe(false);
      }
    });
    it(`is not found where a sample misses the one vertex that reaches over, seed ${seed}`, () => {
      const one = posed(icosphere(RADIUS_MM, FINE), seeded(seed), 1, [0, 0, 0]);
      const other = mirrored(one, GAP_MM);
      const far = { positions: one.positions.slice(), indices: one.indices };
      // A needle at a vertex that no sample of every twentieth holds.
      far.positions.set([2 * RADIUS_MM, 0, 0], 3);
      expect(planeBetween(far, other)).toBe(false);
    });
  }
});
