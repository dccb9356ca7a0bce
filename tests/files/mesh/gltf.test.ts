/** glTF's own traps: node hierarchies, mirroring, strips and fans, small integers, sparse values, what must be refused. */

import { describe, expect, it } from 'vitest';
import { readMesh } from '../../../src/files/mesh/read.ts';
import { embedded, glb, gltfParts, joined, soupOf, turnedBox, utf8, volumeOf } from './writers.ts';

const box = turnedBox();
const { document, binary } = gltfParts(box);
/** The box as 32-bit meters bring it back. */
const BOX = readMesh(glb(document, binary), 'a.glb');
/** Relative, for volumes: rounding of products along a chain of maps. */
const CHAINED = 1e-12;
/** mm, for coordinates under 100 mm after a chain of maps. */
const CHAINED_MM = 1e-11;

const read = (change: Record<string, unknown>, data = binary) => readMesh(glb({ ...document, ...change }, data), 'a.glb');
const close = (a: readonly number[], b: readonly number[]): void => {
  expect(a.length).toBe(b.length);
  a.forEach((value, i) => expect(Math.abs(value - b[i])).toBeLessThan(CHAINED_MM));
};

describe('nodes', () => {
  it('translation, rotation and scale apply in that order from the right, through the hierarchy', () => {
    // Outer: 1 m up (y in glTF, z here). Inner: a quarter turn about glTF's y, after a scale by 2 along its x.
    const half = Math.SQRT1_2;
    const mesh = read({ nodes: [{ children: [1], translation: [0, 1, 0] }, { mesh: 0, rotation: [0, half, 0, half], scale: [2, 1, 1] }] });
    const expected = soupOf(BOX).map((_, i, soup) => {
      const [x, y, z] = soup.slice(i - (i % 3), i - (i % 3) + 3);
      // In our frame: x doubled, then turned by 90° about z, counter-clockwise from above.
      return [-y, 2 * x, z + 1000][i % 3];
    });
    close(soupOf(mesh), expected);
    expect(Math.abs(volumeOf(mesh) / volumeOf(BOX) - 2)).toBeLessThan(CHAINED);
  });

  it('a matrix, column by column, equals its translation, rotation and scale', () => {
    const c = Math.cos(0.4);
    const s = Math.sin(0.4);
    const q = [Math.sin(0.2), 0, 0, Math.cos(0.2)];
    const matrix = [2, 0, 0, 0, 0, 3 * c, 3 * s, 0, 0, -4 * s, 4 * c, 0, 0.01, 0.02, 0.03, 1];
    close(soupOf(read({ nodes: [{ mesh: 0, matrix }] })), soupOf(read({ nodes: [{ mesh: 0, translation: [0.01, 0.02, 0.03], rotation: q, scale: [2, 3, 4] }] })));
  });

  it('a 32-bit quaternion turns without scaling', () => {
    const q = [0.1, -0.7, 0.3, 0.6].map((part, _, all) => Math.fround(part / Math.hypot(...all)));
    expect(Math.abs(volumeOf(read({ nodes: [{ mesh: 0, rotation: q }] })) / volumeOf(BOX) - 1)).toBeLessThan(CHAINED);
  });

  it.each([[[-1, 1, 1]], [[1, -2, 1]], [[-1, -1, -1]], [[-1, -1, 1]]])('scale %j keeps outside outside', (scale) => {
    const factor = Math.abs(scale[0] * scale[1] * scale[2]);
    expect(Math.abs(volumeOf(read({ nodes: [{ mesh: 0, scale }] })) / (factor * volumeOf(BOX)) - 1)).toBeLessThan(CHAINED);
  });

  it('several meshes and a mesh placed twice add up', () => {
    const mesh = read({ scenes: [{ nodes: [0, 1] }], nodes: [{ mesh: 0 }, { mesh: 1, translation: [1, 0, 0] }], meshes: [{ primitives: [{ attributes: { POSITION: 0 }, indices: 1 }] }, { primitives: [{ attributes: { POSITION: 0 }, indices: 1 }, { attributes: { POSITION: 0 }, indices: 1, mode: 4 }] }] });
    expect(mesh.indices.length).toBe(3 * 36);
    expect(Math.abs(volumeOf(mesh) / (3 * volumeOf(BOX)) - 1)).toBeLessThan(1e-9);
  });

  it('only the chosen scene is read; without scenes, all roots; without nodes, all meshes', () => {
    const nodes = [{ mesh: 0 }, { mesh: 0, translation: [9, 0, 0], children: [2] }, { mesh: 0 }];
    expect(read({ nodes, scenes: [{ nodes: [0] }, { nodes: [1] }], scene: 1 }).indices.length).toBe(72);
    expect(read({ nodes, scenes: [{ nodes: [0] }, { nodes: [1] }], scene: undefined }).indices.length).toBe(36);
    expect(read({ nodes, scenes: undefined, scene: undefined }).indices.length).toBe(108);
    expect(soupOf(read({ nodes: undefined, scenes: undefined, scene: undefined }))).toEqual(soupOf(BOX));
  });

  it.each([
    ['itself', [{ mesh: 0, children: [0] }], /node 0 is placed twice, or inside itself/],
    ['a circle', [{ children: [1] }, { children: [2] }, { mesh: 0, children: [0] }], /inside itself/],
    ['two parents', [{ children: [1, 2] }, { children: [3] }, { children: [3] }, { mesh: 0 }], /placed twice/],
    ['200 levels', [...Array.from({ length: 200 }, (_, i) => ({ children: [i + 1] })), { mesh: 0 }], /100 deep/],
    ['a child that is not there', [{ mesh: 0, children: [7] }], /a child of node 0 is 7/],
    ['a mesh that is not there', [{ mesh: 5 }], /node 0\.mesh is 5/],
    ['a broken matrix', [{ mesh: 0, matrix: [1, 2, 3] }], /16 finite numbers/],
    ['a perspective', [{ mesh: 0, matrix: [1, 0, 0, 1, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1] }], /last row/],
    ['a zero quaternion', [{ mesh: 0, rotation: [0, 0, 0, 0] }], /all zeros/],
    ['instancing', [{ mesh: 0, extensions: { EXT_mesh_gpu_instancing: {} } }], /EXT_mesh_gpu_instancing/],
    ['no object', [7], /node 0 is 7/],
  ])('%s is refused', (_, nodes, message) => {
    expect(() => read({ nodes })).toThrow(message);
  });
});

describe('primitives', () => {
  /** A tetrahedron from 0 by 1 m along each axis, glTF frame; its positions as 32-bit floats, then other data. */
  const corners = Float32Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0, 1);
  const withData = (positions: ArrayBufferView, primitive: Record<string, unknown>, accessors: unknown[], ...more: ArrayBufferView[]) => {
    const parts = [positions, ...more].map((a) => new Uint8Array(a.buffer, a.byteOffset, a.byteLength));
    let at = 0;
    const bufferViews = parts.map((part) => {
      const padded = Math.ceil(part.length / 4) * 4;
      at += padded;
      return { buffer: 0, byteOffset: at - padded, byteLength: part.length };
    });
    const data = joined(...parts.map((part) => joined(part, new Uint8Array(Math.ceil(part.length / 4) * 4 - part.length))));
    return { document: { asset: { version: '2.0' }, meshes: [{ primitives: [primitive] }], accessors, bufferViews, buffers: [{ byteLength: data.length }] }, data };
  };
  const readData = (...args: Parameters<typeof withData>) => {
    const made = withData(...args);
    return readMesh(glb(made.document, made.data), 'a.glb');
  };
  const POSITION = { bufferView: 0, componentType: 5126, count: 4, type: 'VEC3' };
  /** mm³: a sixth of a cubic meter, standard mensuration formula. */
  const SIXTH = 1e9 / 6;
  const list = Uint16Array.of(0, 2, 1, 0, 1, 3, 1, 2, 3, 2, 0, 3);

  it.each([[5121, Uint8Array], [5123, Uint16Array], [5125, Uint32Array]] as const)('indices of component type %i', (componentType, Indices) => {
    expect(volumeOf(readData(corners, { attributes: { POSITION: 0 }, indices: 1 }, [POSITION, { bufferView: 1, componentType, count: 12, type: 'SCALAR' }], Indices.from(list)))).toBeCloseTo(SIXTH, 3);
  });

  it('triangles without indices', () => {
    const soup = Float32Array.from([...list].flatMap((v) => [...corners.subarray(3 * v, 3 * v + 3)]));
    expect(volumeOf(readData(soup, { attributes: { POSITION: 0 } }, [{ ...POSITION, count: 12 }]))).toBeCloseTo(SIXTH, 3);
  });

  it('a strip turns every second triangle', () => {
    // 0 1 2 3 0 1: the four sides of the tetrahedron inside out, so mirrored back by the corner order 1 0 2 3 1 0.
    const strip = readData(corners, { attributes: { POSITION: 0 }, indices: 1, mode: 5 }, [POSITION, { bufferView: 1, componentType: 5121, count: 6, type: 'SCALAR' }], Uint8Array.of(1, 0, 2, 3, 1, 0));
    // Triangle i is (i, i + 1 + i mod 2, i + 2 − i mod 2): glTF 2.0 §3.7.2.1.
    expect([...strip.indices]).toEqual([1, 0, 2, 0, 3, 2, 2, 3, 1, 3, 0, 1]);
    expect(volumeOf(strip)).toBeCloseTo(SIXTH, 3);
  });

  it('a fan turns about its first corner', () => {
    const fan = withData(corners, { attributes: { POSITION: 0 }, indices: 1, mode: 6 }, [POSITION, { bufferView: 1, componentType: 5121, count: 5, type: 'SCALAR' }, { bufferView: 2, componentType: 5121, count: 3, type: 'SCALAR' }], Uint8Array.of(3, 0, 1, 2, 0), Uint8Array.of(0, 2, 1));
    fan.document.meshes[0].primitives.push({ attributes: { POSITION: 0 }, indices: 2 });
    expect(volumeOf(readMesh(glb(fan.document, fan.data), 'a.glb'))).toBeCloseTo(SIXTH, 3);
  });

  it('points and lines are passed over', () => {
    const made = withData(corners, { attributes: { POSITION: 0 }, indices: 1 }, [POSITION, { bufferView: 1, componentType: 5123, count: 12, type: 'SCALAR' }], list);
    made.document.meshes[0].primitives.push({ attributes: { POSITION: 0 }, mode: 0 }, { attributes: { POSITION: 0 }, mode: 3 });
    expect(volumeOf(readMesh(glb(made.document, made.data), 'a.glb'))).toBeCloseTo(SIXTH, 3);
    expect(() => readData(corners, { attributes: { POSITION: 0 }, mode: 1 }, [POSITION])).toThrow(/no triangles/);
  });

  it.each([
    ['signed bytes', 5120, Int8Array.of(0, 0, 0, 127, 0, 0, 0, 127, 0, 0, 0, 127)],
    ['unsigned bytes', 5121, Uint8Array.of(0, 0, 0, 255, 0, 0, 0, 255, 0, 0, 0, 255)],
    ['signed shorts', 5122, Int16Array.of(0, 0, 0, 32767, 0, 0, 0, 32767, 0, 0, 0, 32767)],
    ['unsigned shorts', 5123, Uint16Array.of(0, 0, 0, 65535, 0, 0, 0, 65535, 0, 0, 0, 65535)],
  ] as const)('normalized %s reach one, and the others their own number', (_, componentType, positions) => {
    const index = { bufferView: 1, componentType: 5123, count: 12, type: 'SCALAR' };
    const primitive = { attributes: { POSITION: 0 }, indices: 1 };
    expect(volumeOf(readData(positions, primitive, [{ ...POSITION, componentType, normalized: true }, index], list))).toBeCloseTo(SIXTH, 3);
    const mesh = readMesh(glb({ ...withData(positions, primitive, [{ ...POSITION, componentType }, index], list).document, extensionsRequired: ['KHR_mesh_quantization'] }, withData(positions, primitive, [POSITION, index], list).data), 'a.glb', 'mm');
    expect(volumeOf(mesh)).toBeCloseTo(Math.max(...positions) ** 3 / 6, 0);
  });

  it('a stride skips what lies between', () => {
    const wide = new Float32Array(4 * 6);
    for (let v = 0; v < 4; v++) wide.set(corners.subarray(3 * v, 3 * v + 3), 6 * v + 1);
    const made = withData(wide, { attributes: { POSITION: 0 }, indices: 1 }, [{ ...POSITION, byteOffset: 4 }, { bufferView: 1, componentType: 5123, count: 12, type: 'SCALAR' }], list);
    Object.assign(made.document.bufferViews[0], { byteStride: 24 });
    expect(volumeOf(readMesh(glb(made.document, made.data), 'a.glb'))).toBeCloseTo(SIXTH, 3);
  });

  it.each([['in place of', true], ['on nothing but zeros, without', false]])('sparse values %s a bufferView', (_, based) => {
    const moved = Float32Array.of(1, 0, 0, 0, 1, 0, 0, 0, 2);
    const accessor = { ...POSITION, bufferView: based ? 0 : undefined, sparse: { count: 3, indices: { bufferView: 2, componentType: 5121 }, values: { bufferView: 3 } } };
    expect(volumeOf(readData(corners, { attributes: { POSITION: 0 }, indices: 1 }, [accessor, { bufferView: 1, componentType: 5123, count: 12, type: 'SCALAR' }], list, Uint8Array.of(1, 2, 3), moved))).toBeCloseTo(2 * SIXTH, 3);
  });

  it.each([
    ['too many elements', [{ ...POSITION, count: 5 }], /room for all of them/],
    ['4 billion elements', [{ ...POSITION, count: 4e9 }], /at most 36,000,000/],
    ['elements without data', [{ ...POSITION, bufferView: undefined }], /without data/],
    ['an offset', [{ ...POSITION, byteOffset: 1e15 }], /room for all of them/],
    ['a negative offset', [{ ...POSITION, byteOffset: -4 }], /byteOffset is -4/],
    ['a wrong view', [{ ...POSITION, bufferView: 9 }], /bufferView is 9/],
    ['flat positions', [{ ...POSITION, type: 'VEC2' }], /of type "VEC2"; expected VEC3/],
    ['a wrong component', [{ ...POSITION, componentType: 5124 }], /component type 5124/],
    ['a sparse target', [{ ...POSITION, sparse: { count: 1, indices: { bufferView: 1, componentType: 5121 }, values: { bufferView: 0 } } }], /replaces element 200/],
  ])('%s out of range is refused', (_, accessors, message) => {
    expect(() => readData(corners, { attributes: { POSITION: 0 } }, accessors, Uint8Array.of(200))).toThrow(message);
  });

  it('one large list named by a thousand primitives is refused before it is decoded a thousand times', () => {
    const made = withData(new Uint8Array(9e6), { attributes: { POSITION: 0 }, indices: 1 }, [{ ...POSITION, count: 75e4 }, { ...POSITION, componentType: 5121, count: 9e6, type: 'SCALAR' }]);
    made.document.meshes[0].primitives = Array.from({ length: 1000 }, () => ({ attributes: { POSITION: 0 }, indices: 1 }));
    const start = performance.now();
    expect(() => readMesh(glb(made.document, made.data), 'a.glb')).toThrow(/triangles; expected at most 12,000,000/);
    // Measured 1 s; a thousand decodings would take minutes and 100 GB.
    expect(performance.now() - start).toBeLessThan(30_000);
  });
});

describe('containers', () => {
  const whole = glb(document, binary);

  it('a file named .gltf may be a GLB and the other way round', () => {
    expect(soupOf(readMesh(whole, 'a.gltf'))).toEqual(soupOf(BOX));
    expect(soupOf(readMesh(embedded(document, binary), 'a.glb'))).toEqual(soupOf(BOX));
  });

  it.each([0, 1, 2])('base64 with %i bytes of padding', (extra) => {
    const data = joined(binary, new Uint8Array(extra + 3 - (binary.length % 3)));
    expect(soupOf(readMesh(embedded(document, data), 'a.gltf'))).toEqual(soupOf(BOX));
  });

  it.each([
    ['a file beside it', { buffers: [{ byteLength: 10, uri: 'box.bin' }] }, /data are in another file \("box\.bin"\)/],
    ['a web address', { buffers: [{ byteLength: 10, uri: 'https://example.org/box.bin' }] }, /another file/],
    ['plain data', { buffers: [{ byteLength: 10, uri: 'data:text/plain,hello' }] }, /base64/],
    ['other characters', { buffers: [{ byteLength: 3, uri: 'data:;base64,AA*A' }] }, /base64 does not have/],
    ['no data', { buffers: [{ byteLength: 10 }] }, /without data/],
    ['short data', { buffers: [{ byteLength: 1e6, uri: 'data:;base64,AAAA' }] }, /3 of its 1,000,000 bytes/],
    ['Draco', { extensionsRequired: ['KHR_draco_mesh_compression'] }, /compressed geometry \(KHR_draco_mesh_compression\).*without compression/],
    ['meshopt', { extensionsRequired: ['EXT_meshopt_compression'] }, /compressed geometry/],
    ['an unknown need', { extensionsRequired: ['ACME_shapes'] }, /ACME_shapes/],
    ['version 1', { asset: { version: '1.0' } }, /glTF version "1\.0"/],
    ['no asset', { asset: undefined }, /asset is nothing/],
  ])('%s is refused', (_, change, message) => {
    expect(() => readMesh(utf8(JSON.stringify({ ...document, ...change })), 'a.gltf')).toThrow(message);
  });

  it('needs that only change looks are met', () => {
    expect(soupOf(read({ extensionsRequired: ['KHR_materials_unlit', 'KHR_texture_transform'] }))).toEqual(soupOf(BOX));
  });

  it.each([
    ['a cut', whole.subarray(0, whole.length - 1), /cut off/],
    ['a cut in the header', whole.subarray(0, 10), /a GLB header/],
    ['version 3', joined(whole.subarray(0, 4), Uint8Array.of(3, 0, 0, 0), whole.subarray(8)), /GLB version 3/],
    ['a chunk too long', joined(whole.subarray(0, 12), Uint8Array.of(255, 255, 255, 255), whole.subarray(16)), /a chunk that ends/],
    ['no chunk', joined(utf8('glTF'), Uint8Array.of(2, 0, 0, 0, 12, 0, 0, 0)), /without its JSON/],
    ['brackets 200 deep', utf8(`${'['.repeat(200)}${']'.repeat(200)}`), /100 deep/],
  ])('%s is refused', (_, bytes, message) => {
    expect(() => readMesh(bytes, 'a.glb')).toThrow(message);
  });
});
