/**
 * Our own figures as the page fetches them: the same mesh to the last bit at a third of a PLY's size, whether or not the
 * server packs what it sends. Byte planes of the coordinates, and corners counted down from the next new vertex, deflate well.
 */
import { unzlibSync, zlibSync } from 'fflate';
import type { TriangleMesh } from '../core/solid/solid.ts';

/** Vertices and triangles, 32 bits each, little-endian. */
const HEADER_BYTES = 8;
const WORD_BYTES = 4;

/** @throws {RangeError} if a coordinate is no 32-bit number: it would come back as another. */
export function packFigure({ positions, indices }: TriangleMesh): Uint8Array<ArrayBuffer> {
  const floats = Float32Array.from(positions);
  const odd = positions.findIndex((value, i) => value !== floats[i]);
  if (odd >= 0) throw new RangeError(`Found the coordinate ${positions[odd]}; figures are packed in 32 bits. Make the figure with such coordinates.`);
  const corners = new Uint32Array(indices.length);
  let next = 0;
  indices.forEach((vertex, i) => {
    corners[i] = next - vertex;
    if (vertex >= next) next = vertex + 1;
  });
  const packed = zlibSync(joined(planesOf(floats), planesOf(corners)), { level: 9 });
  const header = new Uint8Array(HEADER_BYTES);
  new DataView(header.buffer).setUint32(0, positions.length / 3, true);
  new DataView(header.buffer).setUint32(WORD_BYTES, indices.length / 3, true);
  return joined(header, packed);
}

/** What `packFigure` was given. */
export function unpackFigure(bytes: Uint8Array): TriangleMesh {
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  const numbers = 3 * view.getUint32(0, true);
  const corners = 3 * view.getUint32(WORD_BYTES, true);
  const planes = unzlibSync(bytes.subarray(HEADER_BYTES));
  const floats = new Float32Array(fromPlanes(planes.subarray(0, WORD_BYTES * numbers)));
  const indices = new Uint32Array(fromPlanes(planes.subarray(WORD_BYTES * numbers, WORD_BYTES * (numbers + corners))));
  let next = 0;
  for (let i = 0; i < indices.length; i++) {
    // In 32 bits, as it was taken: a vertex past the next new one is below 0 there.
    indices[i] = next - indices[i];
    if (indices[i] >= next) next = indices[i] + 1;
  }
  return { positions: Float64Array.from(floats), indices };
}

/** First bytes of all words, then second ones, and so on. */
function planesOf(words: Float32Array | Uint32Array): Uint8Array<ArrayBuffer> {
  const view = new DataView(words.buffer, words.byteOffset, words.byteLength);
  const planes = new Uint8Array(words.byteLength);
  for (let k = 0, to = 0; k < WORD_BYTES; k++) {
    for (let at = k; at < words.byteLength; at += WORD_BYTES) planes[to++] = view.getUint8(at);
  }
  return planes;
}

function fromPlanes(planes: Uint8Array): ArrayBuffer {
  const words = new Uint8Array(planes.length);
  for (let k = 0, from = 0; k < WORD_BYTES; k++) {
    for (let at = k; at < planes.length; at += WORD_BYTES) words[at] = planes[from++];
  }
  return words.buffer;
}

function joined(first: Uint8Array, second: Uint8Array): Uint8Array<ArrayBuffer> {
  const both = new Uint8Array(first.length + second.length);
  both.set(first);
  both.set(second, first.length);
  return both;
}
