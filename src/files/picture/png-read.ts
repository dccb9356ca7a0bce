/**
 * PNG of every kind to red, green and blue; alpha, gamma and profiles are left out.
 * Source: W3C PNG Specification, 3rd edition, §5.3 (chunks), §8 (interlacing), §9 (filters), §13.12 (sample depths).
 */
import { unzlibSync } from 'fflate';
import type { Picture } from '../../core/sight/colors/picture.ts';
import { crc32 } from '../crc32.ts';
import { grouped, quoted, type Fail } from '../fail.ts';

const CUT_OFF = 'The picture is cut off or damaged; export it again.';
/** Samples a pixel by color type. */
const SAMPLES: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };
const DEPTHS: Readonly<Record<number, readonly number[]>> = { 0: [1, 2, 4, 8, 16], 2: [8, 16], 3: [1, 2, 4, 8], 4: [8, 16], 6: [8, 16] };
const PALETTE = 3;
/** Adam7: first column and row, and steps. */
const PASSES = [[0, 0, 8, 8], [4, 0, 8, 8], [0, 4, 4, 8], [2, 0, 4, 4], [0, 2, 2, 4], [1, 0, 2, 2], [0, 1, 1, 2]] as const;

interface Header {
  readonly width: number;
  readonly height: number;
  readonly depth: number;
  readonly type: number;
  readonly interlaced: boolean;
}

/** `bytes` begin with PNG's signature; its size has been found bearable. Linear time. */
export function readPng(bytes: Uint8Array, fail: Fail): Picture {
  const { header, palette, packed } = chunksOf(bytes, fail);
  const { width, height, depth, type, interlaced } = header;
  const bits = SAMPLES[type] * depth;
  const passes = interlaced ? PASSES : ([[0, 0, 1, 1]] as const);
  const sizes = passes.map(([x, y, dx, dy]) => {
    const [w, h] = [Math.ceil((width - x) / dx), Math.ceil((height - y) / dy)];
    return w > 0 && h > 0 ? { w, h, row: Math.ceil((w * bits) / 8) } : { w: 0, h: 0, row: 0 };
  });
  const length = sizes.reduce((sum, { h, row }) => sum + h * (row + 1), 0);
  const lines = inflated(packed, length, fail);
  const rgb = new Uint8Array(3 * width * height);
  const take = sampler(header, palette, fail);
  let at = 0;
  passes.forEach(([x0, y0, dx, dy], i) => {
    const { w, h, row } = sizes[i];
    unfilter(lines.subarray(at, at + h * (row + 1)), { row, step: Math.max(1, bits >> 3) }, fail);
    for (let y = 0; y < h; y++, at += row + 1) {
      for (let x = 0; x < w; x++) take(lines, at + 1, x, rgb, 3 * ((y0 + y * dy) * width + x0 + x * dx));
    }
  });
  return { width, height, rgb };
}

function chunksOf(bytes: Uint8Array, fail: Fail): { header: Header; palette: Uint8Array | null; packed: readonly Uint8Array[] } {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let header: Header | null = null;
  let palette: Uint8Array | null = null;
  const packed: Uint8Array[] = [];
  for (let at = 8; ; ) {
    if (at + 12 > bytes.length) throw fail('a PNG without its end', 'all of it', CUT_OFF);
    const length = view.getUint32(at);
    const name = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    const end = at + 12 + length;
    if (end > bytes.length) throw fail(`a PNG whose part "${quoted(name)}" ends at byte ${grouped(end)} of ${grouped(bytes.length)}`, 'all of it', CUT_OFF);
    const data = bytes.subarray(at + 8, at + 8 + length);
    const needed = ['IHDR', 'PLTE', 'IDAT'].includes(name);
    if (needed && crc32(bytes.subarray(at + 4, at + 8 + length)) !== view.getUint32(at + 8 + length)) throw fail(`a PNG whose part "${name}" does not add up to its checksum`, 'an undamaged one', CUT_OFF);
    if (name === 'IHDR' && length >= 13) header = headerOf(view, at + 8, fail);
    else if (name === 'PLTE') palette = data;
    else if (name === 'IDAT') packed.push(data);
    else if (name === 'IEND') break;
    at = end;
  }
  if (!header) throw fail('a PNG without its header', 'one', CUT_OFF);
  return { header, palette, packed };
}

function headerOf(view: DataView, at: number, fail: Fail): Header {
  const [depth, type, packing, filtering, interlace] = [8, 9, 10, 11, 12].map((offset) => view.getUint8(at + offset));
  if (!(DEPTHS[type] ?? []).includes(depth) || packing !== 0 || filtering !== 0 || interlace > 1) throw fail(`a PNG of color type ${type} at ${depth} bits, interlaced ${interlace}`, 'a kind that PNG has', CUT_OFF);
  return { width: view.getUint32(at), height: view.getUint32(at + 4), depth, type, interlaced: interlace === 1 };
}

function inflated(packed: readonly Uint8Array[], length: number, fail: Fail): Uint8Array {
  const joined = new Uint8Array(packed.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of packed) {
    joined.set(part, at);
    at += part.length;
  }
  let lines: Uint8Array;
  try {
    // One byte more than there should be: whatever follows is left out without taking memory.
    lines = unzlibSync(joined, { out: new Uint8Array(length + 1) });
  } catch {
    throw fail('a PNG whose pixels can’t be unpacked', 'an undamaged one', CUT_OFF);
  }
  if (lines.length < length) throw fail(`a PNG with ${grouped(lines.length)} of its ${grouped(length)} bytes of pixels`, 'all of them', CUT_OFF);
  return lines;
}

/** Undoes each row's filter where it stands; `step` is how far back the same sample of the pixel before lies. */
function unfilter(lines: Uint8Array, { row, step }: { row: number; step: number }, fail: Fail): void {
  for (let start = 0; start < lines.length; start += row + 1) {
    const filter = lines[start];
    if (filter > 4) throw fail(`a PNG with a row of filter ${filter}`, '0 to 4', CUT_OFF);
    if (filter === 0) continue;
    const first = start === 0;
    for (let i = 1; i <= row; i++) {
      const at = start + i;
      const left = i > step ? lines[at - step] : 0;
      const up = first ? 0 : lines[at - row - 1];
      const upLeft = first || i <= step ? 0 : lines[at - row - 1 - step];
      lines[at] += filter === 1 ? left : filter === 2 ? up : filter === 3 ? (left + up) >> 1 : paeth(left, up, upLeft);
    }
  }
}

/** Which of three neighbors is nearest to left + up − upper left (§9.4). */
function paeth(left: number, up: number, upLeft: number): number {
  const [a, b, c] = [Math.abs(up - upLeft), Math.abs(left - upLeft), Math.abs(left + up - 2 * upLeft)];
  return a <= b && a <= c ? left : b <= c ? up : upLeft;
}

type Sampler = (line: Uint8Array, at: number, x: number, rgb: Uint8Array, out: number) => void;

/** Takes a pixel of a row, its samples brought to 0 to 255. */
function sampler({ depth, type }: Header, palette: Uint8Array | null, fail: Fail): Sampler {
  if (type === PALETTE && (!palette || palette.length < 3)) throw fail('a PNG without its palette', 'one', CUT_OFF);
  const most = 2 ** depth - 1;
  const sample = (line: Uint8Array, at: number, n: number): number => {
    if (depth === 8) return line[at + n];
    if (depth === 16) return Math.round((256 * line[at + 2 * n] + line[at + 2 * n + 1]) / 257);
    const bit = n * depth;
    return (line[at + (bit >> 3)] >> (8 - depth - (bit & 7))) & most;
  };
  const samples = SAMPLES[type];
  if (type === PALETTE) {
    const colors = palette!;
    return (line, at, x, rgb, out) => {
      // An entry that is not there is black.
      const entry = 3 * sample(line, at, x);
      for (let k = 0; k < 3; k++) rgb[out + k] = colors[entry + k] ?? 0;
    };
  }
  if (samples < 3) {
    const scale = depth < 8 ? 255 / most : 1;
    return (line, at, x, rgb, out) => rgb.fill(scale * sample(line, at, x * samples), out, out + 3);
  }
  return (line, at, x, rgb, out) => {
    for (let k = 0; k < 3; k++) rgb[out + k] = sample(line, at, x * samples + k);
  };
}
