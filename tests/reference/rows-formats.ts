/**
 * Mesh and bundle files: a turned star of 1280 triangles (32-bit coordinates, seed 91) written in every format, read
 * back through our readers and measured, against manifold-3d's volume of the same solid; unit definitions; zip.
 */
import { Document, NodeIO } from '@gltf-transform/core';
import { unzipSync, zipSync } from 'fflate';
import { inspectMesh } from '../../src/core/solid/inspect.ts';
import { meshBounds } from '../../src/core/solid/shape-volume.ts';
import type { TriangleMesh } from '../../src/core/solid/solid.ts';
import { readBundle, writeBundle } from '../../src/files/bundle.ts';
import { crc32 } from '../../src/files/crc32.ts';
import { readMesh } from '../../src/files/mesh/read.ts';
import { box, posed, star } from '../core/solid/made-meshes.ts';
import { seeded } from '../core/solid/oracle.ts';
import { embedded, gltfParts, meshXml, modelXml, objText, ply, stlBinary, stlText, threemf, threemfOf, utf8 } from '../files/mesh/writers.ts';
import { within, type EvidenceRow } from './evidence-row.ts';
import { in32Bits, solidFrom } from './judge.ts';

/** Share. Coordinates come back bit by bit; both sums round. */
const SAME_BITS = 1e-12;
/** Share. glTF holds meters in 32 bits: 2^-24 of 30 mm on every corner, over spikes 2 mm thin. */
const METERS_IN_32_BITS = 3e-6;
/** Share. Exact definitions, a few roundings. */
const ROUNDING = 1e-14;

const sample = in32Bits(posed(star(91, 30, 3), seeded(91), 1, [5, -8, 13]));
const measured = (bytes: Uint8Array, name: string, unit?: 'in'): number => inspectMesh(readMesh(bytes, name, unit)).volumeMm3!;
const CUBE = box(1, 1, 1);
const SCENE_TEXT = '{ "name": "Mühlteich, später Abend" }';
const BYTES = Uint8Array.from({ length: 5000 }, (_, i) => (i * i) % 251);

export const rows = async (): Promise<EvidenceRow[]> => {
  const volume = (await solidFrom(sample)).volume();
  const { document, binary } = gltfParts(sample);
  const read = (name: string, file: string, make: () => Uint8Array | Promise<Uint8Array>, share = SAME_BITS, times = 1): EvidenceRow => ({
    subject: `${name}, mm³`,
    source: `manifold-3d 3.5.4, volume of the mesh that was written${times === 1 ? '' : ` × ${times}`}`,
    expected: times * volume,
    tolerance: share * times * volume,
    got: async () => measured(await make(), file),
  });
  return [
    read('star in a binary STL whose header begins with “solid”', 'star.stl', () => stlBinary(sample, 'solid star of facets')),
    read('star in an ASCII STL', 'star.stl', () => stlText(sample)),
    read('star in an OBJ', 'star.obj', () => objText(sample)),
    read('star in an ASCII PLY', 'star.ply', () => ply(sample, 'ascii')),
    read('star in a little-endian PLY', 'star.ply', () => ply(sample, 'binary_little_endian')),
    read('star in a big-endian PLY', 'star.ply', () => ply(sample, 'binary_big_endian')),
    read('star in a glTF with its buffer inside', 'star.gltf', () => embedded(document, binary), METERS_IN_32_BITS),
    read('star in a GLB by @gltf-transform 4.5.1, under a node that turns, doubles and moves it', 'star.glb', () => glbByAnother(sample), SAME_BITS, 8),
    read('star in a 3MF as two components, one of them doubled inside a turned one', 'star.3mf', () => nested3mf(), SAME_BITS, 9),
    { subject: 'STL cube of side 1 read as inches, mm³', source: '1 in³ = 16.387064 mL: NIST Handbook 44 appendix C', ...within(ROUNDING, 16387.064), got: () => measured(stlBinary(CUBE), 'cube.stl', 'in') },
    { subject: '3MF cube of side 1 in feet, mm³', source: '1 ft³ = 28.316846592 L: NIST Handbook 44 appendix C', ...within(ROUNDING, 28316846.592), got: () => measured(threemfOf(CUBE, 'foot'), 'cube.3mf') },
    { subject: 'glTF box 1 wide, 2 high (y), 3 deep, in meters: its height, mm', source: 'glTF 2.0 §3.4: meters, +Y up', ...within(ROUNDING, 2000), got: async () => { const { min, max } = meshBounds(readMesh(await glbByAnother(box(1, 2, 3), [0, 0, 0, 1], 1), 'box.glb')); return max[2] - min[2]; } },
    { subject: 'CRC-32 of “123456789”', source: 'the check value of CRC-32/ISO-HDLC, 0xCBF43926 (RFC 1952; memory)', expected: 0xcbf43926, tolerance: 0, got: () => crc32(utf8('123456789')) },
    { subject: 'a bundle zipped by fflate 0.8.3, its scene read by us', source: 'the text that fflate packed', expected: SCENE_TEXT, tolerance: 0, got: () => readBundle(zipSync({ 'scene.json': utf8(SCENE_TEXT), 'assets/a.bin': BYTES })).sceneText },
    { subject: 'a file of 5000 bytes in a bundle of ours, unpacked by fflate 0.8.3: bytes that came back', source: 'fflate’s unzipSync', expected: 5000, tolerance: 0, got: () => unzipSync(writeBundle(SCENE_TEXT, [['assets/a.bin', BYTES]]))['assets/a.bin'].reduce((same, byte, i) => same + Number(byte === BYTES[i]), 0) },
  ];
};

/** Numbers go in as glTF's meters and y up, as they are; `sample` is then a thousand times too large, which the node mends. */
async function glbByAnother(mesh: TriangleMesh, turn: [number, number, number, number] = [0.5, 0.5, 0.5, 0.5], scale = 0.002): Promise<Uint8Array> {
  const document = new Document();
  const buffer = document.createBuffer();
  const position = document.createAccessor().setType('VEC3').setArray(Float32Array.from(mesh.positions)).setBuffer(buffer);
  const indices = document.createAccessor().setType('SCALAR').setArray(new Uint32Array(mesh.indices)).setBuffer(buffer);
  const primitive = document.createPrimitive().setAttribute('POSITION', position).setIndices(indices);
  const node = document.createNode().setMesh(document.createMesh().addPrimitive(primitive)).setRotation(turn).setScale([scale, scale, scale]).setTranslation([0.1, -0.2, 0.3]);
  document.createScene().addChild(node);
  return new NodeIO().writeBinary(document);
}

function nested3mf(): Uint8Array {
  const doubled = '<object id="2" type="model"><components><component objectid="1" transform="2 0 0 0 2 0 0 0 2 100 0 0"/></components></object>';
  const both = '<object id="3" type="model"><components><component objectid="2" transform="0 1 0 -1 0 0 0 0 1 0 300 0"/><component objectid="1"/></components></object>';
  return threemf(modelXml(`<resources><object id="1" type="model">${meshXml(sample)}</object>${doubled}${both}</resources><build><item objectid="3"/></build>`));
}
