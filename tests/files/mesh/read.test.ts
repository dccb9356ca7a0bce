/** All formats of one closed mesh agree, in coordinates, volume and units; manifold-3d is the outside judge of the volume. */

import { describe, expect, it } from 'vitest';
import { MESH_ENDINGS, MeshFileError, readMesh } from '../../../src/files/mesh/read.ts';
import type { TriangleMesh } from '../../../src/core/solid/solid.ts';
import { manifold } from '../../core/solid/oracle.ts';
import { embedded, glb, gltfParts, objText, ply, soupOf, stlBinary, stlText, threemfOf, turnedBox, volumeOf } from './writers.ts';

const box = turnedBox();
/** The box's own volume: length × width × height. */
const BOX_MM3 = Math.PI * 7 * Math.E * 5 * Math.SQRT2 * 9;
/** Half a unit in the last place of a 32-bit float, relative. */
const FLOAT_STEP = 2 ** -24;
/** mm; the largest coordinate of the box is under 32, so a 32-bit one is off by at most half of 2^-19. */
const FLOAT_MM = 32 * FLOAT_STEP;
/** Relative; decimal digits bring doubles back unchanged, so only the sum's rounding is left. */
const SUMMED = 1e-14;
/** Relative, of a volume from 32-bit coordinates: surface × error ÷ volume, and 1300 mm² × 2e-6 mm ÷ 3800 mm³ is 7e-7. */
const FLOAT_VOLUME = 1e-6;

const { document, binary } = gltfParts(box);
const FILES: readonly [name: string, bytes: Uint8Array, coordinateMm: number, volume: number][] = [
  ['binary.stl', stlBinary(box), FLOAT_MM, FLOAT_VOLUME],
  ['solid.stl', stlBinary(box, 'solid facet endsolid'), FLOAT_MM, FLOAT_VOLUME],
  ['text.STL', stlText(box), 0, SUMMED],
  ['box.obj', objText(box), 0, SUMMED],
  ['ascii.ply', ply(box, 'ascii'), 0, SUMMED],
  ['little.ply', ply(box, 'binary_little_endian'), 0, SUMMED],
  ['big.ply', ply(box, 'binary_big_endian'), 0, SUMMED],
  ['box.glb', glb(document, binary), 2 * FLOAT_MM, FLOAT_VOLUME],
  ['box.gltf', embedded(document, binary), 2 * FLOAT_MM, FLOAT_VOLUME],
  ['box.3mf', threemfOf(box), 0, SUMMED],
];

const scaled = (mesh: TriangleMesh, by: number): TriangleMesh => ({ positions: mesh.positions.map((c) => c * by), indices: mesh.indices });

function farthest(a: readonly number[], b: readonly number[]): number {
  expect(a.length).toBe(b.length);
  return a.reduce((most, value, i) => Math.max(most, Math.abs(value - b[i])), 0);
}

describe('one box in every format', () => {
  it('is the box that the closed form describes (length × width × height)', () => {
    expect(Math.abs(volumeOf(box) / BOX_MM3 - 1)).toBeLessThan(SUMMED);
  });

  it.each(FILES)('%s gives the same triangles in the same order', (name, bytes, coordinateMm) => {
    expect(farthest(soupOf(readMesh(bytes, name)), soupOf(box))).toBeLessThanOrEqual(coordinateMm);
  });

  it.each(FILES)('%s gives the volume of the closed form', (name, bytes, _, volume) => {
    expect(Math.abs(volumeOf(readMesh(bytes, name)) / BOX_MM3 - 1)).toBeLessThan(volume);
  });

  it.each(FILES)('%s gives the volume that manifold-3d measures', async (name, bytes) => {
    const { Manifold, Mesh } = await manifold();
    const mesh = readMesh(bytes, name);
    const solid = Manifold.ofMesh(joinedCorners(mesh, Mesh));
    expect(solid.status()).toBe('NoError');
    expect(Math.abs(volumeOf(mesh) / solid.volume() - 1)).toBeLessThan(2 * FLOAT_VOLUME);
    solid.delete();
  });

  it.each(['cm', 'm', 'in'] as const)('a unit given (%s) replaces the file\'s in every format', (unit) => {
    const mm = { cm: 10, m: 1000, in: 25.4 }[unit];
    for (const [name, bytes, coordinateMm] of FILES) {
      // glTF's own numbers are meters.
      const by = /gl/.test(name) ? mm / 1000 : mm;
      // One rounding of the product more than in mm.
      expect(farthest(soupOf(readMesh(bytes, name, unit)), soupOf(scaled(box, by))), name).toBeLessThanOrEqual(by * coordinateMm + 32 * by * 2 ** -52);
    }
  });

  it('the bytes may lie anywhere in a larger buffer', () => {
    for (const [name, bytes] of FILES) {
      const larger = new Uint8Array(bytes.length + 21).fill(0x41);
      larger.set(bytes, 7);
      expect(soupOf(readMesh(larger.subarray(7, 7 + bytes.length), name)), name).toEqual(soupOf(readMesh(bytes, name)));
    }
  });
});

/** manifold-3d wants shared corners: those with the same 32-bit place are one. */
function joinedCorners(mesh: TriangleMesh, Mesh: Awaited<ReturnType<typeof manifold>>['Mesh']) {
  const places = new Map<string, number>();
  const vertProperties: number[] = [];
  const triVerts = [...mesh.indices].map((v) => {
    const place = [...mesh.positions.subarray(3 * v, 3 * v + 3)].map(Math.fround);
    const key = place.join();
    if (!places.has(key)) {
      places.set(key, places.size);
      vertProperties.push(...place);
    }
    return places.get(key)!;
  });
  return new Mesh({ numProp: 3, vertProperties: Float32Array.from(vertProperties), triVerts: Uint32Array.from(triVerts) });
}

describe('what any format must keep', () => {
  const refused = (bytes: Uint8Array, name: string): string => {
    try {
      readMesh(bytes, name);
    } catch (error) {
      expect(error).toBeInstanceOf(MeshFileError);
      return (error as Error).message;
    }
    throw new Error(`${name} was read`);
  };

  it('vertices that no triangle uses are left out, since they would widen the bounds', () => {
    const stray: TriangleMesh = { positions: Float64Array.of(1e6, 1e6, 1e6, ...box.positions, -1e6, 0, 0), indices: box.indices.map((v) => v + 1) };
    for (const [name, bytes] of [['a.obj', objText(stray)], ['a.ply', ply(stray, 'ascii')], ['a.3mf', threemfOf(stray)]] as const) {
      const mesh = readMesh(bytes, name);
      expect(mesh.positions.length, name).toBe(24);
      expect(soupOf(mesh), name).toEqual(soupOf(box));
    }
  });

  it.each(MESH_ENDINGS)('an empty .%s is refused', (ending) => {
    expect(refused(new Uint8Array(0), `newt.${ending}`)).toMatch(/^newt\.\w+: it is empty; expected a mesh\./);
  });

  it.each(MESH_ENDINGS)('a .%s of other bytes is refused', (ending) => {
    refused(Uint8Array.from({ length: 300 }, (_, i) => (i * 37) % 251), `newt.${ending}`);
    refused(new TextEncoder().encode('once upon a time'), `newt.${ending}`);
    refused(new Uint8Array(300), `newt.${ending}`);
  });

  it('a mesh without triangles is refused, however well formed', () => {
    const none: TriangleMesh = { positions: box.positions, indices: new Uint32Array(0) };
    for (const [name, bytes] of [['a.stl', stlBinary(none)], ['b.stl', stlText(none)], ['a.obj', objText(none)], ['a.ply', ply(none, 'ascii')], ['a.3mf', threemfOf(none)]] as const) {
      expect(refused(bytes, name)).toMatch(/no (triangles|faces)/);
    }
  });

  it.each([NaN, Infinity, -Infinity, 1e308])('a coordinate of %s is refused', (value) => {
    const bad: TriangleMesh = { positions: box.positions.map((c, i) => (i === 7 ? value : c)), indices: box.indices };
    const gltf = gltfParts(bad);
    const files: [string, Uint8Array][] = [['a.stl', stlBinary(bad)], ['b.stl', stlText(bad)], ['a.obj', objText(bad)], ['a.ply', ply(bad, 'ascii')], ['b.ply', ply(bad, 'binary_big_endian')], ['a.glb', glb(gltf.document, gltf.binary)], ['a.3mf', threemfOf(bad)]];
    for (const [name, bytes] of files) expect(refused(bytes, name)).toMatch(/finite|a number|three numbers/);
  });

  it('a triangle with a vertex out of range is refused', () => {
    const bad: TriangleMesh = { positions: box.positions, indices: box.indices.map((v, i) => (i === 4 ? 8 : v)) };
    const gltf = gltfParts(bad);
    const files: [string, Uint8Array][] = [['a.obj', objText(bad)], ['a.ply', ply(bad, 'ascii')], ['b.ply', ply(bad, 'binary_little_endian')], ['a.glb', glb(gltf.document, gltf.binary)], ['a.3mf', threemfOf(bad)]];
    for (const [name, bytes] of files) expect(refused(bytes, name)).toMatch(/uses vertex [89]/);
  });

  it('an unknown ending is refused with the known ones', () => {
    expect(refused(Uint8Array.of(1, 2, 3), 'newt.step')).toContain('.stl, .obj, .ply, .glb, .gltf, .3mf');
    expect(refused(Uint8Array.of(1, 2, 3), 'newt')).toContain('.stl');
  });

  it('a name without an ending is read by its first bytes', () => {
    for (const [, bytes] of FILES.filter(([name]) => /ply|glb|3mf/.test(name))) expect(readMesh(bytes, 'newt').indices.length).toBe(36);
  });

  it('a hostile file name stays one short line', () => {
    const message = refused(new Uint8Array(0), `${'x'.repeat(10_000)}\n\u001b[31m.stl`);
    expect(message.length).toBeLessThan(300);
    expect(message).not.toMatch(/\n|\u001b/);
  });
});
