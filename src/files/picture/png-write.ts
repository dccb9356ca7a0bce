/** A picture as PNG, the same bytes for the same pixels. Source: W3C PNG Specification, 3rd edition, §5, §7.2, §9.2. */
import { zlibSync } from 'fflate';
import { crc32 } from '../crc32.ts';

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
const RGBA = 6;
/** Each byte is told by how it differs from the one above it: guides change little from row to row. */
const UP = 2;

/** `rgba`: four bytes a pixel, row by row from the top. */
export function pngOf(width: number, height: number, rgba: Uint8Array | Uint8ClampedArray): Uint8Array {
  const row = 4 * width;
  const lines = new Uint8Array((row + 1) * height);
  for (let y = 0, out = 0; y < height; y++) {
    lines[out++] = UP;
    for (let x = 0, at = y * row; x < row; x++, at++) lines[out++] = rgba[at] - (y > 0 ? rgba[at - row] : 0);
  }
  const header = new Uint8Array(13);
  const view = new DataView(header.buffer);
  view.setUint32(0, width);
  view.setUint32(4, height);
  header.set([8, RGBA, 0, 0, 0], 8);
  const chunks = [chunk('IHDR', header), chunk('IDAT', zlibSync(lines)), chunk('IEND', new Uint8Array(0))];
  const bytes = new Uint8Array(SIGNATURE.length + chunks.reduce((sum, { length }) => sum + length, 0));
  bytes.set(SIGNATURE);
  let at = SIGNATURE.length;
  for (const part of chunks) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}

/** Length, name, data, checksum of name and data. */
function chunk(name: string, data: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(12 + data.length);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, data.length);
  for (let i = 0; i < 4; i++) bytes[4 + i] = name.charCodeAt(i);
  bytes.set(data, 8);
  view.setUint32(8 + data.length, crc32(bytes.subarray(4, 8 + data.length)));
  return bytes;
}
