/**
 * What wraps a glTF document: a GLB's chunks, or JSON with its buffers as data URIs.
 * Source: glTF 2.0 Specification (Khronos) §4.4 GLB File Format, §3.6.1.2 Buffers.
 */

import { grouped, quoted, type Fail } from '../fail.ts';
import { parseStrictJson } from '../json.ts';
import { objectOf, type Json } from './gltf-json.ts';
import { EXPORT_AGAIN } from './raw.ts';

const GLB_HEADER_BYTES = 12;
const CHUNK_HEADER_BYTES = 8;
const JSON_CHUNK = 0x4e4f534a;
const BINARY_CHUNK = 0x004e4942;
const CUT_OFF = 'The file is cut off; copy or export it again.';

export interface GltfContainer {
  readonly document: Json;
  /** The GLB's binary chunk, if there is one. */
  readonly binary?: Uint8Array;
}

export function looksLikeGlb(bytes: Uint8Array): boolean {
  return bytes.length >= 4 && bytes[0] === 0x67 && bytes[1] === 0x6c && bytes[2] === 0x54 && bytes[3] === 0x46;
}

/** Opens a GLB or glTF of either extension. */
export function openGltf(bytes: Uint8Array, fail: Fail): GltfContainer {
  return looksLikeGlb(bytes) ? openGlb(bytes, fail) : { document: parseDocument(bytes, fail) };
}

function openGlb(bytes: Uint8Array, fail: Fail): GltfContainer {
  if (bytes.length < GLB_HEADER_BYTES) throw fail(`${bytes.length} bytes`, 'a GLB header', CUT_OFF);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const version = view.getUint32(4, true);
  if (version !== 2) throw fail(`GLB version ${version}`, 'version 2', 'Export it as glTF 2.0.');
  const length = view.getUint32(8, true);
  if (length > bytes.length) throw fail(`${grouped(bytes.length)} bytes of the ${grouped(length)} that its header counts`, 'all of them', CUT_OFF);
  let document: Json | undefined;
  let binary: Uint8Array | undefined;
  for (let at = GLB_HEADER_BYTES; at + CHUNK_HEADER_BYTES <= length; ) {
    const from = at + CHUNK_HEADER_BYTES;
    const to = from + view.getUint32(at, true);
    const kind = view.getUint32(at + 4, true);
    if (to > length) throw fail(`a chunk that ends at byte ${grouped(to)} of ${grouped(length)}`, 'chunks inside the file', CUT_OFF);
    if (kind === JSON_CHUNK) document ??= parseDocument(bytes.subarray(from, to), fail);
    else if (kind === BINARY_CHUNK) binary ??= bytes.subarray(from, to);
    at = to;
  }
  if (!document) throw fail('a GLB without its JSON chunk', 'one', EXPORT_AGAIN);
  return { document, binary };
}

function parseDocument(bytes: Uint8Array, fail: Fail): Json {
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw fail('a glTF document that is not UTF-8 text', 'JSON', 'Check that this is a glTF file.');
  }
  return objectOf(parseStrictJson(text, fail), 'the document', fail);
}

/** The bytes of a `data:…;base64,…` URI. Anything else is refused: a mesh file brings all it needs. */
export function decodeDataUri(uri: string, fail: Fail): Uint8Array {
  if (!/^data:/i.test(uri)) throw fail(`its data are in another file ("${quoted(uri)}")`, 'a file that holds everything', 'Export it as GLB, or as glTF with embedded buffers.');
  const comma = uri.slice(0, 200).indexOf(',');
  if (comma < 0 || !/;base64$/i.test(uri.slice(0, comma))) throw fail(`a data URI that begins with "${quoted(uri.slice(0, 40))}"`, 'data:…;base64,…', EXPORT_AGAIN);
  return decodeBase64(uri, comma + 1, fail);
}

const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const SIXES = Int8Array.from({ length: 128 }, (_, code) => ALPHABET.indexOf(String.fromCharCode(code)));

/** RFC 4648 §4, without line breaks; `atob` would make a string of the bytes first. */
function decodeBase64(text: string, from: number, fail: Fail): Uint8Array {
  let end = text.length;
  while (end > from && end > text.length - 2 && text[end - 1] === '=') end--;
  const bytes = new Uint8Array(Math.floor(((end - from) * 3) / 4));
  let held = 0;
  let bits = 0;
  let out = 0;
  for (let at = from; at < end; at++) {
    const code = text.charCodeAt(at);
    const six = code < 128 ? SIXES[code] : -1;
    if (six < 0) throw fail('a buffer with characters that base64 does not have', 'base64', 'The file is damaged; export it again.');
    held = ((held << 6) | six) & 0xffffff;
    bits += 6;
    if (bits >= 8) {
      bits -= 8;
      bytes[out++] = (held >> bits) & 255;
    }
  }
  return bytes;
}
