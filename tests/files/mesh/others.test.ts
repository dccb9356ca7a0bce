/**
 * Files that other libraries write: @gltf-transform/core (MIT) with its own world matrices as the judge, and
 * @jscadui/3mf-export (MIT). Both come with manifold-3d; no package here carries a ready-made mesh file.
 */

import { Document, NodeIO, type Node } from '@gltf-transform/core';
import { zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { readMesh } from '../../../src/files/mesh/read.ts';
import { seeded } from '../../core/solid/oracle.ts';
import { soupOf, turnedBox, utf8, volumeOf } from './writers.ts';

const box = turnedBox([1, 2, 3], [0.1, 0.2, 0.3]);
/** Relative to the farthest coordinate: the other library multiplies the same doubles in another order. */
const REORDERED = 1e-12;

/** A forest of nodes with random translations, turns and scales, some of them mirrored. */
function forest(seed: number): { document: Document; expected: number[]; volume: number } {
  const random = seeded(seed);
  const between = (low: number, high: number): number => low + (high - low) * random();
  const document = new Document();
  const buffer = document.createBuffer();
  const positions = document.createAccessor().setType('VEC3').setArray(Float32Array.from(box.positions)).setBuffer(buffer);
  const indices = document.createAccessor().setType('SCALAR').setArray(Uint16Array.from(box.indices)).setBuffer(buffer);
  const mesh = document.createMesh().addPrimitive(document.createPrimitive().setAttribute('POSITION', positions).setIndices(indices));
  const scene = document.createScene();
  document.getRoot().setDefaultScene(scene);
  const nodes: Node[] = [];
  for (let i = 0; i < 12; i++) {
    const q = [between(-1, 1), between(-1, 1), between(-1, 1), between(-1, 1)];
    const length = Math.hypot(...q);
    const node = document.createNode().setMesh(mesh).setTranslation([between(-5, 5), between(-5, 5), between(-5, 5)])
      .setRotation(q.map((part) => part / length) as [number, number, number, number])
      .setScale([between(0.5, 1.5) * (random() < 0.3 ? -1 : 1), between(0.5, 1.5), between(0.5, 1.5)]);
    if (nodes.length > 0 && random() < 0.7) nodes[Math.floor(random() * nodes.length)].addChild(node);
    else scene.addChild(node);
    nodes.push(node);
  }
  const array = positions.getArray()!;
  const expected: number[] = [];
  let volume = 0;
  for (const node of nodes) {
    const m = node.getWorldMatrix();
    const determinant = m[0] * (m[5] * m[10] - m[6] * m[9]) - m[4] * (m[1] * m[10] - m[2] * m[9]) + m[8] * (m[1] * m[6] - m[2] * m[5]);
    volume += Math.abs(determinant) * volumeOf({ positions: Float64Array.from(array), indices: box.indices }) * 1e9;
    for (let v = 0; v < array.length; v += 3) {
      const [x, y, z] = [0, 1, 2].map((row) => 1000 * (m[row] * array[v] + m[row + 4] * array[v + 1] + m[row + 8] * array[v + 2] + m[row + 12]));
      expected.push(x, -z, y);
    }
  }
  return { document, expected, volume };
}

describe('@gltf-transform/core', () => {
  it.each([1, 2, 3, 4, 5])('a forest of nodes stands where its world matrices say, right side out (seed %i)', async (seed) => {
    const { document, expected, volume } = forest(seed);
    const mesh = readMesh(await new NodeIO().writeBinary(document), 'a.glb');
    const points = (flat: ArrayLike<number>): string[] => Array.from({ length: flat.length / 3 }, (_, i) => [0, 1, 2].map((k) => flat[3 * i + k].toFixed(5)).join()).sort();
    expect(points(mesh.positions)).toEqual(points(expected));
    expect(Math.abs(volumeOf(mesh) / volume - 1)).toBeLessThan(1000 * REORDERED);
  });

  it('an embedded glTF is read too', async () => {
    const { document, volume } = forest(6);
    const { json, resources } = await new NodeIO().writeJSON(document, {});
    for (const buffer of json.buffers ?? []) buffer.uri = `data:application/octet-stream;base64,${Buffer.from(resources[buffer.uri!]).toString('base64')}`;
    expect(Math.abs(volumeOf(readMesh(utf8(JSON.stringify(json)), 'a.gltf')) / volume - 1)).toBeLessThan(1000 * REORDERED);
  });
});

interface Export {
  to3dmodel(model: unknown): string;
  fileForContentTypes: { name: string; content: string };
  FileForRelThumbnail: new () => { name: string; content: string; add3dModel(path: string): void };
}

describe('@jscadui/3mf-export', () => {
  it('a component placed by a build item is read in the file\'s unit', async () => {
    // The package brings no types; a name that is not a literal keeps the compiler from asking for them.
    const name: string = '@jscadui/3mf-export';
    const { to3dmodel, fileForContentTypes, FileForRelThumbnail } = (await import(name)) as Export;
    const relations = new FileForRelThumbnail();
    relations.add3dModel('3D/3dmodel.model');
    const shift = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 10, 20, 30, 1];
    const model = to3dmodel({
      meshes: [{ id: '1', vertices: box.positions, indices: box.indices }],
      components: [{ id: '2', name: 'newt', children: [{ objectID: '1', transform: shift }] }],
      items: [{ objectID: '2' }],
      precision: 17,
      header: { unit: 'centimeter', title: 'box' },
    });
    const bytes = zipSync({ '3D/3dmodel.model': utf8(model), [fileForContentTypes.name]: utf8(fileForContentTypes.content), [relations.name]: utf8(relations.content) });
    const soup = soupOf(readMesh(bytes, 'a.3mf'));
    const expected = soupOf(box).map((c, i) => 10 * (c + [10, 20, 30][i % 3]));
    expect(soup.length).toBe(expected.length);
    soup.forEach((value, i) => expect(Math.abs(value - expected[i])).toBeLessThan(1000 * REORDERED));
  });
});
