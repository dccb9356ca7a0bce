/**
 * STL, binary and ASCII. The stored normals are ignored: the corners' order says which side is out.
 * Source: the StereoLithography Interface Specification (3D Systems, 1989), from memory: 80-byte header, uint32 count,
 * then 50 bytes a triangle (normal, three corners as float32, attribute), little-endian.
 */

import { grouped, type Fail } from '../fail.ts';
import { MAX_TRIANGLES } from '../limits.ts';
import { filled, growingDoubles, push } from './growing.ts';
import { EXPORT_AGAIN, tooMany, type RawMesh } from './raw.ts';
import { cursorOver, lineOf, nextNumber, nextWord, skipLine, wordIs, wordText } from './words.ts';

const HEADER_BYTES = 84;
const COUNT_AT = 80;
const TRIANGLE_BYTES = 50;
const CORNERS_AT = 12;
/** Where a text must have shown a keyword by. */
const SNIFFED_BYTES = 1024;
/** Triangles between two words on how far it has come: some 20 ms. */
const TOLD_TRIANGLES = 2 ** 17;

/** Reads an STL; three vertices of its own for every triangle. Linear time. */
export function readStl(bytes: Uint8Array, fail: Fail, onShare?: (share: number) => void): RawMesh {
  const positions = isAscii(bytes) ? readAscii(bytes, fail, onShare) : readBinary(bytes, fail, onShare);
  const indices = new Uint32Array(positions.length / 3);
  for (let i = 0; i < indices.length; i++) indices[i] = i;
  return { positions, indices, unitMm: 1 };
}

/** Many binary files begin with "solid" too: an exact size says binary, then a keyword among printable bytes says text. */
function isAscii(bytes: Uint8Array): boolean {
  if (bytes.length >= HEADER_BYTES && HEADER_BYTES + TRIANGLE_BYTES * countIn(bytes) === bytes.length) return false;
  const cursor = cursorOver(bytes.subarray(0, SNIFFED_BYTES));
  if (!nextWord(cursor) || !wordIs(cursor, 'solid')) return false;
  const start = new TextDecoder().decode(cursor.bytes);
  return !start.includes('\0') && (bytes.length <= SNIFFED_BYTES || /facet|endsolid/i.test(start));
}

function countIn(bytes: Uint8Array): number {
  return new DataView(bytes.buffer, bytes.byteOffset).getUint32(COUNT_AT, true);
}

function readBinary(bytes: Uint8Array, fail: Fail, onShare?: (share: number) => void): Float64Array {
  if (bytes.length < HEADER_BYTES) {
    throw fail(`${grouped(bytes.length)} bytes that are neither "solid …" nor a binary header`, `at least ${HEADER_BYTES} bytes`, 'This is no STL, or it is cut off; export it again.');
  }
  const count = countIn(bytes);
  const room = bytes.length - HEADER_BYTES;
  if (count * TRIANGLE_BYTES > room) {
    throw fail(`a header that counts ${grouped(count)} triangles before room for ${grouped(Math.floor(room / TRIANGLE_BYTES))}`, 'as many as it counts', 'The file is cut off or is no STL; copy or export it again.');
  }
  if (count > MAX_TRIANGLES) throw tooMany('triangles', count, fail);
  // Padding is harmless, but whole triangles that the count leaves out would make a wrong volume.
  const end = HEADER_BYTES + count * TRIANGLE_BYTES;
  if (bytes.length - end >= TRIANGLE_BYTES && bytes.subarray(end).some((byte) => byte !== 0)) {
    throw fail(`a header that counts ${grouped(count)} triangles and room for ${grouped(Math.floor(room / TRIANGLE_BYTES))}`, 'the same number', EXPORT_AGAIN);
  }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const positions = new Float64Array(9 * count);
  for (let t = 0, at = HEADER_BYTES + CORNERS_AT, out = 0; t < count; t++, at += TRIANGLE_BYTES) {
    if (onShare && t % TOLD_TRIANGLES === 0) onShare(t / count);
    for (let k = 0; k < 36; k += 4) positions[out++] = view.getFloat32(at + k, true);
  }
  return positions;
}

function readAscii(bytes: Uint8Array, fail: Fail, onShare?: (share: number) => void): Float64Array {
  const cursor = cursorOver(bytes);
  const positions = growingDoubles();
  let corners = 0;
  let inSolid = false;
  let inFacet = false;
  while (nextWord(cursor)) {
    if (wordIs(cursor, 'vertex') && inFacet) {
      if (++corners > 3) throw fail(`a facet with more than three corners on line ${lineOf(cursor)}`, 'triangles', 'Triangulate the mesh before you export it.');
      push(positions, nextNumber(cursor, 'a corner', fail));
      push(positions, nextNumber(cursor, 'a corner', fail));
      push(positions, nextNumber(cursor, 'a corner', fail));
    } else if (wordIs(cursor, 'facet') && inSolid && !inFacet) {
      inFacet = true;
      corners = 0;
    } else if (wordIs(cursor, 'endfacet') && inFacet) {
      if (corners !== 3) throw fail(`a facet with ${corners} corners on line ${lineOf(cursor)}`, 'three', EXPORT_AGAIN);
      if (positions.length > 9 * MAX_TRIANGLES) throw tooMany('triangles', positions.length / 9, fail);
      if (onShare && (positions.length / 9) % TOLD_TRIANGLES === 0) onShare(cursor.at / bytes.length);
      inFacet = false;
    } else if (wordIs(cursor, 'normal') && inFacet) {
      // Some exporters write "nan" here; three words of any kind pass.
      for (let i = 0; i < 3; i++) nextWord(cursor);
    } else if (wordIs(cursor, 'solid') && !inSolid) {
      inSolid = true;
      skipLine(cursor);
    } else if (wordIs(cursor, 'endsolid') && inSolid && !inFacet) {
      inSolid = false;
      skipLine(cursor);
    } else if (!(inFacet && (wordIs(cursor, 'outer') || wordIs(cursor, 'loop') || wordIs(cursor, 'endloop')))) {
      throw fail(`"${wordText(cursor)}" on line ${lineOf(cursor)}`, inFacet ? 'vertex or endfacet' : inSolid ? 'facet or endsolid' : 'solid', EXPORT_AGAIN);
    }
  }
  if (inSolid) throw fail(`the text ends ${inFacet ? 'inside a facet' : 'without endsolid'} after ${grouped(Math.floor(positions.length / 9))} triangles`, 'endsolid', 'The file is cut off; copy or export it again.');
  return filled(positions);
}
