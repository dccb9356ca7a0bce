/** PLY's own traps: types, lists, order of elements, counts that lie. */

import { describe, expect, it } from 'vitest';
import { readMesh } from '../../../src/files/mesh/read.ts';
import { joined, ply, soupOf, turnedBox, utf8 } from './writers.ts';

const read = (bytes: Uint8Array) => soupOf(readMesh(bytes, 'a.ply'));
const HEAD = 'ply\nformat ascii 1.0\n';
const VERTICES = 'element vertex 4\nproperty float x\nproperty float y\nproperty float z\n';
const FACES = 'element face 4\nproperty list uchar int vertex_index\n';
const VERTEX_DATA = '0 0 0\n1 0 0\n0 1 0\n0 0 1\n';
const FACE_DATA = '3 0 2 1\n3 0 1 3\n3 1 2 3\n3 2 0 3\n';
const TETRAHEDRON = read(utf8(`${HEAD}${VERTICES}${FACES}end_header\n${VERTEX_DATA}${FACE_DATA}`));

describe('PLY', () => {
  it('a tetrahedron is read', () => {
    expect(TETRAHEDRON.length).toBe(36);
    expect(TETRAHEDRON.slice(0, 9)).toEqual([0, 0, 0, 0, 1, 0, 1, 0, 0]);
  });

  it.each([
    ['faces before vertices', `${HEAD}${FACES}${VERTICES}end_header\n${FACE_DATA}${VERTEX_DATA}`],
    ['Windows line ends', `${HEAD}${VERTICES}${FACES}end_header\n${VERTEX_DATA}${FACE_DATA}`.replace(/\n/g, '\r\n')],
    ['everything in one line', `${HEAD}${VERTICES}${FACES}end_header\n${`${VERTEX_DATA}${FACE_DATA}`.replace(/\n/g, ' ')}`],
    ['comments and an element without properties', `${HEAD}comment element x\nobj_info 3\n${VERTICES}element nothing 4000000000\n${FACES}end_header\n${VERTEX_DATA}${FACE_DATA}`],
    ['axes in another order', `${HEAD}element vertex 4\nproperty double z\nproperty int8 x\nproperty uint16 y\n${FACES}end_header\n0 0 0\n0 1 0\n0 0 1\n1 0 0\n${FACE_DATA}`],
  ])('is read with %s', (_, text) => {
    expect(read(utf8(text))).toEqual(TETRAHEDRON);
  });

  it('both byte orders carry every type of number alike', () => {
    const types = { char: [-1, 'Int8'], uchar: [200, 'Uint8'], short: [-300, 'Int16'], ushort: [60000, 'Uint16'], int: [-70000, 'Int32'], uint: [9e8, 'Uint32'], float: [0.5, 'Float32'], double: [Math.PI, 'Float64'] } as const;
    for (const [type, [value, method]] of Object.entries(types)) {
      const size = Number(/\d+/.exec(method)![0]) / 8;
      for (const little of [true, false]) {
        const data = new Uint8Array(9 * size + 7);
        const view = new DataView(data.buffer);
        [value, 0, 0, 0, 1, 0, 0, 0, 1].forEach((v, i) => (view as unknown as Record<string, (at: number, v: number, little: boolean) => void>)[`set${method}`](i * size, v, little));
        data.set([3, 0, 1, 2], 9 * size);
        const header = `ply\nformat binary_${little ? 'little' : 'big'}_endian 1.0\nelement vertex 3\nproperty ${type} x\nproperty ${type} y\nproperty ${type} z\nelement face 1\nproperty list uchar uchar vertex_indices\nend_header\n`;
        expect(read(joined(utf8(header), data)), `${type}, little-endian ${little}`).toEqual([value, 0, 0, 0, 1, 0, 0, 0, 1]);
      }
    }
  });

  it('an unsigned number above 2^31 is not taken for a negative one', () => {
    const data = new Uint8Array(43);
    new DataView(data.buffer).setUint32(0, 4e9, true);
    data.set([3, 0, 1, 2], 36);
    const header = 'ply\nformat binary_little_endian 1.0\nelement vertex 3\nproperty uint x\nproperty uint y\nproperty uint z\nelement face 1\nproperty list uchar uchar vertex_indices\nend_header\n';
    expect(() => read(joined(utf8(header), data))).toThrow('vertex 1 has x = 4000000000 mm; expected finite coordinates within 1,000 km');
  });

  it('faces of four corners are cut', () => {
    expect(read(utf8(`${HEAD}${VERTICES}element face 1\nproperty list uchar int vertex_indices\nend_header\n0 0 0\n1 0 0\n1 1 0\n0 1 0\n4 0 1 2 3`)).length).toBe(18);
  });

  it.each([
    ['4 billion vertices', `${HEAD}${VERTICES.replace('4', '4000000000')}${FACES}end_header\n${VERTEX_DATA}`, /announces 4,000,000,000 of "vertex" before room for/],
    ['4 billion faces', `${HEAD}${VERTICES}${FACES.replace('4', '4000000000')}end_header\n${VERTEX_DATA}${FACE_DATA}`, /announces 4,000,000,000 of "face"/],
    ['a list of 4 billion', `${HEAD}${VERTICES}${FACES}end_header\n${VERTEX_DATA}4000000000 0 1 2 3 3 3 3 3 3 3 3 3 3 3 3 3`, /the text ends inside the data/],
    ['a negative length', `${HEAD}${VERTICES}${FACES}end_header\n${VERTEX_DATA}-3 0 2 1\n3 0 1 3\n3 1 2 3\n3 2 0 3`, /of length -3/],
    ['a negative vertex', `${HEAD}${VERTICES}${FACES}end_header\n${VERTEX_DATA}3 0 -2 1\n3 0 1 3\n3 1 2 3\n3 2 0 3`, /vertex -2 in face 1/],
    ['no z', `${HEAD}${VERTICES.replace('float z', 'float w')}${FACES}end_header\n${VERTEX_DATA}${FACE_DATA}`, /expected x, y and z/],
    ['two x', `${HEAD}${VERTICES.replace('float z', 'float x')}${FACES}end_header\n${VERTEX_DATA}${FACE_DATA}`, /expected x, y and z/],
    ['no header end', `${HEAD}${VERTICES}${FACES}`, /no "end_header"/],
    ['an unknown format', `ply\nformat binary_middle_endian 1.0\n${VERTICES}${FACES}end_header\n`, /format "binary_middle_endian"/],
    ['an unknown type', `${HEAD}${VERTICES.replace('float x', 'toString x')}${FACES}end_header\n`, /a type unknown to PLY/],
    ['points only', `${HEAD}${VERTICES}end_header\n${VERTEX_DATA}`, /no faces \(and 4 vertices\)/],
    ['a wrong beginning', `plx\nformat ascii 1.0\n`, /begins with "plx/],
  ])('%s is refused', (_, text, message) => {
    expect(() => read(utf8(text))).toThrow(message);
  });

  it('binary data that end early are refused', () => {
    const whole = ply(turnedBox(), 'binary_little_endian');
    expect(() => read(whole.subarray(0, whole.length - 1))).toThrow(/cut off/);
  });
});
