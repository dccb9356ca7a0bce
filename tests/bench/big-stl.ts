/** Large closed figures as binary STL files, the same bytes for the same seed. */
import { closeSync, openSync, writeSync } from 'node:fs';
import type { TriangleMesh } from '../../src/core/solid/solid.ts';
import { posed, torus } from '../core/solid/made-meshes.ts';
import { seeded } from '../core/solid/oracle.ts';

const HEADER_BYTES = 84;
const COUNT_AT = 80;
const TRIANGLE_BYTES = 50;
const CORNERS_AT = 12;
/** Triangles written in one go. */
const A_CHUNK = 100_000;

/** A lumpy ring of `around` × `across` × 2 triangles, some 34 mm across, turned by the seed. */
export function ring(around: number, across: number, seed: number): TriangleMesh {
  return posed(torus(around, across, 12, 5, 0.4), seeded(seed), 1, [0, 0, 0]);
}

/** Three corners of its own for every triangle, as the format has them; normals are left 0. */
export function writeStl(path: string, { positions, indices }: TriangleMesh): void {
  const file = openSync(path, 'w');
  try {
    const triangles = indices.length / 3;
    const header = Buffer.alloc(HEADER_BYTES);
    header.writeUInt32LE(triangles, COUNT_AT);
    writeSync(file, header);
    const chunk = Buffer.alloc(A_CHUNK * TRIANGLE_BYTES);
    for (let from = 0; from < triangles; from += A_CHUNK) {
      const count = Math.min(A_CHUNK, triangles - from);
      for (let t = 0; t < count; t++) {
        for (let k = 0; k < 9; k++) {
          chunk.writeFloatLE(positions[3 * indices[3 * (from + t) + ((k / 3) | 0)] + (k % 3)], t * TRIANGLE_BYTES + CORNERS_AT + 4 * k);
        }
      }
      writeSync(file, chunk, 0, count * TRIANGLE_BYTES);
    }
  } finally {
    closeSync(file);
  }
}
