/**
 * PLY: ASCII and both binaries; vertices and faces, whatever else there is beside them.
 * Source: G. Turk, "The PLY Polygon File Format" (1994), from memory, with the type names of its header and the
 * later ones (`int8` … `float64`).
 */

import { grouped, quoted, type Fail } from '../fail.ts';
import { MAX_TRIANGLES, MAX_VERTICES } from '../limits.ts';
import { push } from './growing.ts';
import { noPolygons, triangulate, type Polygons } from './polygons.ts';
import { EXPORT_AGAIN, tooMany, type RawMesh } from './raw.ts';
import { cursorOver, nextNumber } from './words.ts';

const LONGEST_HEADER = 65536;
const CUT_OFF = 'The file is cut off; copy or export it again.';

const TYPES = {
  char: 'int8', uchar: 'uint8', short: 'int16', ushort: 'uint16', int: 'int32', uint: 'uint32', float: 'float32', double: 'float64',
  int8: 'int8', uint8: 'uint8', int16: 'int16', uint16: 'uint16', int32: 'int32', uint32: 'uint32', float32: 'float32', float64: 'float64',
} as const;
type Type = (typeof TYPES)[keyof typeof TYPES];
const BYTES: Readonly<Record<Type, number>> = { int8: 1, uint8: 1, int16: 2, uint16: 2, int32: 4, uint32: 4, float32: 4, float64: 8 };

interface Property {
  readonly name: string;
  readonly type: Type;
  /** Of a list: the type of its length. */
  readonly countType?: Type;
}

interface Element {
  readonly name: string;
  readonly count: number;
  readonly properties: Property[];
}

interface Header {
  readonly format: string;
  readonly elements: readonly Element[];
  readonly dataAt: number;
}

/** The values behind the header, one after the other. */
interface Values {
  read(type: Type): number;
  /** Most rows of the element that can still follow. */
  room(element: Element): number;
}

/** Reads a PLY. Linear time, but for concave faces (polygons.ts). */
export function readPly(bytes: Uint8Array, fail: Fail): RawMesh {
  return readWith(bytes, readHeader(bytes, fail), null, fail);
}

/** The same with its vertices' red, green and blue; null where it has none. */
export function readColoredPly(bytes: Uint8Array, fail: Fail): (RawMesh & { readonly colors: PlyColors }) | null {
  const header = readHeader(bytes, fail);
  const vertices = header.elements.find(({ name }) => name === 'vertex');
  const channels = CHANNELS.map((names) => vertices?.properties.find(({ name, countType }) => !countType && names.includes(name)));
  if (channels.includes(undefined)) return null;
  // A header that counts more than there is is refused where rows are read; until then nothing is taken for it.
  const rows = Math.min(vertices!.count, bytes.length, MAX_VERTICES);
  const colors: PlyColors = { values: new Float32Array(3 * rows), full: channels.map((channel) => FULL[channel!.type] ?? 1) };
  return { ...readWith(bytes, header, colors, fail), colors };
}

/** Red, green and blue per vertex, each from 0 to `full`, as their program wrote them. */
export interface PlyColors {
  readonly values: Float32Array;
  readonly full: readonly number[];
}

const CHANNELS: readonly (readonly string[])[] = [['red', 'r', 'diffuse_red'], ['green', 'g', 'diffuse_green'], ['blue', 'b', 'diffuse_blue']];
/** Of whole numbers; others go from 0 to 1 (common practice, no source). */
const FULL: Partial<Record<Type, number>> = { uint8: 255, uint16: 65535, uint32: 4294967295, int8: 127, int16: 32767, int32: 2147483647 };

function readWith(bytes: Uint8Array, header: Header, colors: PlyColors | null, fail: Fail): RawMesh {
  const values = header.format === 'ascii' ? textValues(bytes, header.dataAt, fail) : binaryValues(bytes, header.dataAt, header.format === 'binary_little_endian', fail);
  let positions: Float64Array | undefined;
  const faces = noPolygons();
  for (const element of header.elements) {
    if (element.properties.length === 0 || element.count === 0) continue;
    const room = values.room(element);
    if (element.count > room) throw fail(`a header that announces ${grouped(element.count)} of "${quoted(element.name)}" before room for ${grouped(room)}`, 'as many as it announces', CUT_OFF);
    if (element.name === 'vertex') positions = readVertices(element, values, colors, fail);
    else if (element.name === 'face') readFaces(element, values, faces, fail);
    else skipRows(element, values, fail);
  }
  if (!positions) throw fail('no vertices', 'an element "vertex" with x, y and z', EXPORT_AGAIN);
  if (faces.sizes.length === 0) throw fail(`no faces (and ${grouped(positions.length / 3)} vertices)`, 'an element "face"', 'A point cloud has no volume; export a mesh.');
  return { positions, indices: triangulate(positions, faces, fail), unitMm: 1 };
}

function readHeader(bytes: Uint8Array, fail: Fail): Header {
  const text = Array.from(bytes.subarray(0, LONGEST_HEADER), (byte) => String.fromCharCode(byte)).join('');
  if (!/^ply[ \t]*[\r\n]/.test(text)) throw fail(`it begins with "${quoted(text.slice(0, 8))}"`, '"ply"', 'Check that this is a PLY file.');
  const end = /[\r\n]end_header[ \t]*(\r\n|\n|\r)/.exec(text);
  if (!end) throw fail(`no "end_header" in its first ${grouped(Math.min(bytes.length, LONGEST_HEADER))} bytes`, 'a whole header', CUT_OFF);
  let format: string | undefined;
  const elements: Element[] = [];
  for (const line of text.slice(0, end.index).split(/\r\n|\n|\r/)) {
    const words = line.trim().split(/[ \t]+/);
    if (words[0] === 'format') format = words[1];
    else if (words[0] === 'element') elements.push({ name: words[1] ?? '', count: countOf(words[2], line, fail), properties: [] });
    else if (words[0] === 'property') {
      const element = elements[elements.length - 1];
      if (!element) throw fail(`"${quoted(line)}" before any element`, 'an element first', EXPORT_AGAIN);
      element.properties.push(
        words[1] === 'list'
          ? { name: words[4] ?? '', type: typeOf(words[3], line, fail), countType: typeOf(words[2], line, fail) }
          : { name: words[2] ?? '', type: typeOf(words[1], line, fail) },
      );
    }
  }
  if (format !== 'ascii' && format !== 'binary_little_endian' && format !== 'binary_big_endian') {
    throw fail(`format "${quoted(format ?? '')}"`, 'ascii, binary_little_endian or binary_big_endian', EXPORT_AGAIN);
  }
  return { format, elements, dataAt: end.index + end[0].length };
}

function countOf(word: string | undefined, line: string, fail: Fail): number {
  const count = /^\d+$/.test(word ?? '') ? Number(word) : NaN;
  if (Number.isNaN(count)) throw fail(`"${quoted(line)}"`, 'a name and a count', EXPORT_AGAIN);
  return count;
}

function typeOf(word: string | undefined, line: string, fail: Fail): Type {
  if (word === undefined || !Object.hasOwn(TYPES, word)) throw fail(`a type unknown to PLY in "${quoted(line)}"`, Object.keys(TYPES).join(', '), EXPORT_AGAIN);
  return TYPES[word as keyof typeof TYPES];
}

function binaryValues(bytes: Uint8Array, from: number, littleEndian: boolean, fail: Fail): Values {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = view.byteLength;
  let at = from;
  return {
    read(type) {
      const here = at;
      at += BYTES[type];
      if (at > end) throw fail(`the data end after ${grouped(end)} bytes`, 'more of them', CUT_OFF);
      switch (type) {
        case 'int8': return view.getInt8(here);
        case 'uint8': return view.getUint8(here);
        case 'int16': return view.getInt16(here, littleEndian);
        case 'uint16': return view.getUint16(here, littleEndian);
        case 'int32': return view.getInt32(here, littleEndian);
        case 'uint32': return view.getUint32(here, littleEndian);
        case 'float32': return view.getFloat32(here, littleEndian);
        case 'float64': return view.getFloat64(here, littleEndian);
      }
    },
    room: (element) => Math.floor((end - at) / element.properties.reduce((sum, { type, countType }) => sum + BYTES[countType ?? type], 0)),
  };
}

function textValues(bytes: Uint8Array, from: number, fail: Fail): Values {
  const cursor = cursorOver(bytes);
  cursor.at = from;
  return {
    read: () => nextNumber(cursor, 'the data', fail),
    // A digit and a blank a value; the last needs no blank.
    room: (element) => Math.floor((bytes.length - cursor.at + 1) / (2 * element.properties.length)),
  };
}

function readVertices(element: Element, values: Values, colors: PlyColors | null, fail: Fail): Float64Array {
  if (element.count > MAX_VERTICES) throw tooMany('vertices', element.count, fail);
  const axes = element.properties.map(({ name, countType }) => (countType ? -1 : ['x', 'y', 'z'].indexOf(name)));
  for (const axis of [0, 1, 2]) {
    if (axes.filter((a) => a === axis).length !== 1) throw fail(`vertices with the properties ${quoted(element.properties.map((p) => p.name).join(', '))}`, 'x, y and z', EXPORT_AGAIN);
  }
  const positions = new Float64Array(3 * element.count);
  const channels = element.properties.map(({ name, countType }) => (colors && !countType ? CHANNELS.findIndex((names) => names.includes(name)) : -1));
  for (let v = 0; v < element.count; v++) {
    for (let p = 0; p < axes.length; p++) {
      const property = element.properties[p];
      if (property.countType) skipList(property, values, fail);
      else if (axes[p] >= 0) positions[3 * v + axes[p]] = values.read(property.type);
      else if (channels[p] >= 0) colors!.values[3 * v + channels[p]] = values.read(property.type);
      else values.read(property.type);
    }
  }
  return positions;
}

function readFaces(element: Element, values: Values, faces: Polygons, fail: Fail): void {
  const corners = element.properties.find(({ name, countType }) => countType && (name === 'vertex_indices' || name === 'vertex_index'));
  if (!corners) throw fail(`faces with the properties ${quoted(element.properties.map((p) => p.name).join(', '))}`, 'a list "vertex_indices"', EXPORT_AGAIN);
  for (let f = 0; f < element.count; f++) {
    for (const property of element.properties) {
      if (property !== corners) {
        if (property.countType) skipList(property, values, fail);
        else values.read(property.type);
        continue;
      }
      const size = listLength(property, values, fail);
      if (size < 3) throw fail(`face ${grouped(f + 1)} with ${size} corners`, 'at least three', EXPORT_AGAIN);
      for (let i = 0; i < size; i++) {
        const vertex = values.read(property.type);
        if (!(Number.isInteger(vertex) && vertex >= 0 && vertex < MAX_VERTICES)) throw fail(`vertex ${vertex} in face ${grouped(f + 1)}`, 'the number of a vertex, from 0', EXPORT_AGAIN);
        push(faces.corners, vertex);
      }
      push(faces.sizes, size);
      const triangles = faces.corners.length - 2 * faces.sizes.length;
      if (triangles > MAX_TRIANGLES) throw tooMany('triangles', triangles, fail);
    }
  }
}

function skipRows(element: Element, values: Values, fail: Fail): void {
  for (let row = 0; row < element.count; row++) {
    for (const property of element.properties) {
      if (property.countType) skipList(property, values, fail);
      else values.read(property.type);
    }
  }
}

function skipList(property: Property, values: Values, fail: Fail): void {
  for (let left = listLength(property, values, fail); left > 0; left--) values.read(property.type);
}

function listLength({ name, countType }: Property, values: Values, fail: Fail): number {
  const length = values.read(countType!);
  if (!(Number.isInteger(length) && length >= 0)) throw fail(`a list "${quoted(name)}" of length ${length}`, 'a whole number', EXPORT_AGAIN);
  return length;
}
