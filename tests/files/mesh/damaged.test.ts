/** Files of every format cut and corrupted at random: each ends quickly in MeshFileError or in a mesh that keeps the rules. */

import { describe, expect, it } from 'vitest';
import { MAX_COORDINATE_MM } from '../../../src/files/limits.ts';
import { MeshFileError, readMesh } from '../../../src/files/mesh/read.ts';
import { seeded } from '../../core/solid/oracle.ts';
import { embedded, glb, gltfParts, objText, ply, stlBinary, stlText, threemfOf, turnedBox } from './writers.ts';

const box = turnedBox();
const { document, binary } = gltfParts(box);
const FILES: readonly [string, Uint8Array][] = [
  ['a.stl', stlBinary(box)], ['text.stl', stlText(box)], ['a.obj', objText(box)], ['a.ply', ply(box, 'ascii')], ['little.ply', ply(box, 'binary_little_endian')],
  ['big.ply', ply(box, 'binary_big_endian')], ['a.glb', glb(document, binary)], ['a.gltf', embedded(document, binary)], ['a.3mf', threemfOf(box)],
];
const SEEDS = [1, 2, 3, 4];
const DAMAGES_A_SEED = 150;
/** ms for one damaged file of a few kB on a busy machine; most take under one. */
const SLOWEST_MS = 5000;

function damaged(bytes: Uint8Array, random: () => number): Uint8Array {
  const at = (): number => Math.floor(random() * bytes.length);
  const copy = bytes.slice();
  switch (Math.floor(random() * 5)) {
    case 0: return copy.subarray(0, at());
    case 1: {
      for (let left = 1 + Math.floor(random() * 8); left > 0; left--) copy[at()] = Math.floor(random() * 256);
      return copy;
    }
    case 2: {
      copy[at()] ^= 1 << Math.floor(random() * 8);
      return copy;
    }
    case 3: {
      // A piece moved over another one: keywords, counts and offsets in wrong places.
      const [from, to] = [at(), at()];
      copy.copyWithin(to, from, from + 40);
      return copy;
    }
    default: {
      const [from, to] = [at(), at()].sort((a, b) => a - b);
      return Uint8Array.from([...copy.subarray(0, from), ...copy.subarray(to)]);
    }
  }
}

describe.each(FILES)('%s', (name, bytes) => {
  it.each(SEEDS)(`damaged ${DAMAGES_A_SEED} times (seed %i)`, (seed) => {
    const random = seeded(seed);
    let refused = 0;
    for (let i = 0; i < DAMAGES_A_SEED; i++) {
      const bad = damaged(bytes, random);
      const start = performance.now();
      try {
        const mesh = readMesh(bad, name);
        expect(mesh.indices.length).toBeGreaterThan(0);
        expect(mesh.indices.length % 3).toBe(0);
        expect(mesh.indices.every((v) => v < mesh.positions.length / 3)).toBe(true);
        expect(mesh.positions.every((c) => Math.abs(c) <= MAX_COORDINATE_MM)).toBe(true);
      } catch (error) {
        if (!(error instanceof MeshFileError)) throw new Error(`damage ${i}: ${String(error)}`, { cause: error });
        expect(error.message).toMatch(/^\S+: .+; expected .+\. .+\.$/s);
        refused++;
      }
      expect(performance.now() - start).toBeLessThan(SLOWEST_MS);
    }
    // Not every damage can be seen, but none seen at all would mean that nothing is checked.
    expect(refused).toBeGreaterThan(DAMAGES_A_SEED / 10);
  });
});
