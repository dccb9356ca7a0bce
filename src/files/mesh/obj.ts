/**
 * OBJ: vertices and faces of all objects and groups; textures, normals and materials are passed over.
 * Source: Wavefront "Advanced Visualizer" manual, appendix B1 (Object Files), from memory: 1-based vertex numbers,
 * negative ones count back from the last vertex so far, `v/vt/vn` with parts left out, `\` continues a line.
 */

import { grouped, type Fail } from '../fail.ts';
import { MAX_TRIANGLES, MAX_VERTICES } from '../limits.ts';
import { filled, growingDoubles, push } from './growing.ts';
import { parseNumber } from './number.ts';
import { noPolygons, triangulate } from './polygons.ts';
import { EXPORT_AGAIN, tooMany, type RawMesh } from './raw.ts';
import { cursorOver, lineOf, wordIs, wordText, type Cursor } from './words.ts';

const SLASH = 0x2f;
const BACKSLASH = 0x5c;
const HASH = 0x23;
/** Bytes between two words on how far it has come: some 20 ms. */
const TOLD_BYTES = 2 ** 20;

/** Reads an OBJ. Linear time, but for concave faces (polygons.ts). */
export function readObj(bytes: Uint8Array, fail: Fail, onShare?: (share: number) => void): RawMesh {
  const cursor = cursorOver(bytes);
  let toldAt = 0;
  const vertices = growingDoubles();
  const faces = noPolygons();
  for (; cursor.at < bytes.length; skipStatement(cursor)) {
    if (onShare && cursor.at >= toldAt) {
      onShare(cursor.at / bytes.length);
      toldAt += TOLD_BYTES;
    }
    if (!nextInStatement(cursor)) continue;
    if (wordIs(cursor, 'v')) {
      for (let k = 0; k < 3; k++) push(vertices, coordinate(cursor, fail));
      if (vertices.length > 3 * MAX_VERTICES) throw tooMany('vertices', vertices.length / 3, fail);
    } else if (wordIs(cursor, 'f')) {
      let size = 0;
      for (; nextInStatement(cursor); size++) push(faces.corners, vertexNumber(cursor, vertices.length / 3, fail));
      if (size < 3) throw fail(`a face with ${size} corners on line ${lineOf(cursor)}`, 'at least three', EXPORT_AGAIN);
      push(faces.sizes, size);
      const triangles = faces.corners.length - 2 * faces.sizes.length;
      if (triangles > MAX_TRIANGLES) throw tooMany('triangles', triangles, fail);
    } else if (wordIs(cursor, 'surf') || wordIs(cursor, 'curv')) {
      throw fail(`free-form curves or surfaces on line ${lineOf(cursor)}`, 'faces only', 'Convert the model to a mesh before you export it.');
    }
  }
  if (faces.sizes.length === 0) throw fail(`no faces (and ${grouped(vertices.length / 3)} vertices)`, 'lines with v and f', 'Export a mesh with faces as OBJ.');
  const positions = filled(vertices);
  return { positions, indices: triangulate(positions, faces, fail), unitMm: 1 };
}

function coordinate(cursor: Cursor, fail: Fail): number {
  const there = nextInStatement(cursor);
  const value = there ? parseNumber(cursor.bytes, cursor.from, cursor.at) : NaN;
  if (Number.isNaN(value)) throw fail(there ? `"${wordText(cursor)}" on line ${lineOf(cursor)}` : `a vertex with too few numbers on line ${lineOf(cursor)}`, 'three numbers after v', EXPORT_AGAIN);
  return value;
}

/** Zero-based vertex of a corner such as `7`, `7/1`, `7//3` or `-1`. */
function vertexNumber(cursor: Cursor, known: number, fail: Fail): number {
  const { bytes, from, at } = cursor;
  let end = from;
  while (end < at && bytes[end] !== SLASH) end++;
  const given = parseNumber(bytes, from, end);
  const vertex = given < 0 ? known + given : given - 1;
  if (!Number.isInteger(given) || vertex < 0 || vertex >= MAX_VERTICES) {
    throw fail(`"${wordText(cursor)}" in a face on line ${lineOf(cursor)}`, `the number of a vertex, from 1 or back from -1 (${grouped(known)} so far)`, EXPORT_AGAIN);
  }
  return vertex;
}

/** Moves to the next word of the statement; false at its end. A `\` before the line's end goes on in the next line. */
function nextInStatement(cursor: Cursor): boolean {
  const { bytes } = cursor;
  const end = bytes.length;
  let at = cursor.at;
  for (;;) {
    if (at >= end || isNewline(bytes[at]) || bytes[at] === HASH) break;
    if (bytes[at] <= 0x20) at++;
    else if (bytes[at] === BACKSLASH && continued(bytes, at) > 0) at += continued(bytes, at);
    else break;
  }
  cursor.from = at;
  if (at < end && bytes[at] !== HASH) while (at < end && bytes[at] > 0x20 && !(bytes[at] === BACKSLASH && continued(bytes, at) > 0)) at++;
  cursor.at = at;
  return cursor.from < at;
}

/** Moves to the first byte behind the statement. */
function skipStatement(cursor: Cursor): void {
  const { bytes } = cursor;
  const end = bytes.length;
  let at = cursor.at;
  let comment = false;
  while (at < end && !isNewline(bytes[at])) {
    comment ||= bytes[at] === HASH;
    at += bytes[at] === BACKSLASH && !comment ? Math.max(1, continued(bytes, at)) : 1;
  }
  cursor.at = at + 1;
}

function isNewline(byte: number): boolean {
  return byte === 0x0a || byte === 0x0d;
}

/** Length of a backslash with the line end behind it; 0 when there is none. */
function continued(bytes: Uint8Array, at: number): number {
  if (bytes[at + 1] === 0x0a) return 2;
  if (bytes[at + 1] === 0x0d) return bytes[at + 2] === 0x0a ? 3 : 2;
  return 0;
}
