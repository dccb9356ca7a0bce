/** Packed figures: the mesh they were made from, to the last bit, and far smaller than its file. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { deflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { packFigure, unpackFigure } from '../../src/files/figure-pack.ts';
import { readMesh } from '../../src/files/mesh/read.ts';

const FIGURES = join(import.meta.dirname, '..', '..', 'assets', 'figures');

describe('a packed figure', () => {
  it.each(readdirSync(FIGURES).filter((name) => name.endsWith('.ply')))('%s comes back as it was, in at most 0.8 of its deflated file', (name) => {
    const file = readFileSync(join(FIGURES, name));
    const mesh = readMesh(file, name);
    const packed = packFigure(mesh);
    expect(unpackFigure(packed)).toEqual(mesh);
    // zlib's own deflate of the whole file is what a packing server would send.
    expect(packed.length).toBeLessThan(0.8 * deflateSync(file, { level: 9 }).length);
  });

  it('also with vertices that come out of order, or not at all', () => {
    const mesh = { positions: Float64Array.of(0, 0, 0, 1.5, -2, 3, 4, 5, 6, 7, 8, 9, 1e-3 * 0, 1, 2), indices: Uint32Array.of(4, 0, 2, 2, 3, 4) };
    expect(unpackFigure(packFigure(mesh))).toEqual(mesh);
  });

  it('a coordinate of more than 32 bits is refused', () => {
    expect(() => packFigure({ positions: Float64Array.of(0.1, 0, 0), indices: new Uint32Array(0) })).toThrow('Found the coordinate 0.1');
  });
});
