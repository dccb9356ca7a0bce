/**
 * Reading a zip that nobody vouches for. The central directory is checked whole before a byte is
 * unpacked: counts, sizes, ratios, names, overlaps. Unpacking then stops at the declared size.
 *
 * Source: PKWARE APPNOTE 6.3.10 (local header §4.3.7, central directory §4.3.12, zip64 §4.3.14 and §4.5.3,
 * end record §4.3.16). fflate's own `unzip` trusts local headers and grows its buffer without a limit,
 * hence only its inflater is used.
 */

import { Inflate } from 'fflate';
import { crc32 } from './crc32.ts';
import { grouped, quoted, type Fail } from './fail.ts';
import { FREELY_PACKED_BYTES, MAX_PACKING_RATIO, MAX_UNPACKED_BYTES, MAX_ZIP_ENTRIES } from './limits.ts';

export const LOCAL_HEADER = 0x04034b50;
export const CENTRAL_HEADER = 0x02014b50;
export const END_RECORD = 0x06054b50;
const ZIP64_END_RECORD = 0x06064b50;
const ZIP64_LOCATOR = 0x07064b50;

const LOCAL_HEADER_BYTES = 30;
const CENTRAL_HEADER_BYTES = 46;
const END_RECORD_BYTES = 22;
const ZIP64_END_RECORD_BYTES = 56;
const ZIP64_LOCATOR_BYTES = 20;
const LONGEST_COMMENT = 0xffff;
const IN_ZIP64 = 0xffffffff;

const ENCRYPTED_FLAGS = 0x0001 | 0x0040 | 0x2000;
export const STORED = 0;
export const DEFLATED = 8;

/** Bytes given to the inflater at once. It can make 1,032 times as many of them before it is asked again: 17 MB. */
const INFLATE_STEP = 16384;

export interface ZipArchive {
  /** Names of all files in the order of the directory; folders are left out. */
  readonly names: readonly string[];
  /** Unpacked size in bytes; undefined when there is no such file. */
  size(name: string): number | undefined;
  /** The unpacked bytes, checked against size and checksum; undefined when there is no such file. */
  read(name: string): Uint8Array | undefined;
}

interface Entry {
  readonly name: string;
  readonly method: number;
  readonly crc: number;
  readonly packed: number;
  readonly unpacked: number;
  readonly headerAt: number;
  dataAt: number;
}

/** True when the bytes begin like a zip's first entry, or are an empty zip. */
export function looksLikeZip(bytes: Uint8Array): boolean {
  return bytes.length >= 4 && bytes[0] === 0x50 && bytes[1] === 0x4b && ((bytes[2] === 3 && bytes[3] === 4) || (bytes[2] === 5 && bytes[3] === 6));
}

/**
 * Opens a zip in memory; O(directory) time, nothing unpacked.
 * Throws what `fail` makes for anything truncated, encrypted, overlapping, ambiguous or out of the limits.
 */
export function openZip(bytes: Uint8Array, fail: Fail): ZipArchive {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const directory = findDirectory(view, fail);
  const entries = readDirectory(bytes, view, directory, fail);
  checkSizes(entries, fail);
  locateData(bytes, view, entries, directory.at, fail);

  const files = new Map(entries.filter((entry) => !entry.name.endsWith('/')).map((entry) => [entry.name, entry]));
  return {
    names: [...files.keys()],
    size: (name) => files.get(name)?.unpacked,
    read(name) {
      const entry = files.get(name);
      return entry && unpack(bytes.subarray(entry.dataAt, entry.dataAt + entry.packed), entry, fail);
    },
  };
}

const SEND_AGAIN = 'The file is damaged; copy or export it again.';

function damaged(fail: Fail, found: string, expected: string): Error {
  return fail(found, expected, SEND_AGAIN);
}

interface Directory {
  readonly at: number;
  readonly bytes: number;
  readonly entries: number;
}

function findDirectory(view: DataView, fail: Fail): Directory {
  const size = view.byteLength;
  const lowest = Math.max(0, size - END_RECORD_BYTES - LONGEST_COMMENT);
  let at = size - END_RECORD_BYTES;
  while (at >= lowest && !(view.getUint32(at, true) === END_RECORD && at + END_RECORD_BYTES + view.getUint16(at + 20, true) <= size)) at--;
  if (at < lowest || at < 0) throw damaged(fail, `no end of a zip in its ${grouped(size)} bytes`, 'a whole zip file');
  let directory = { entries: view.getUint16(at + 10, true), bytes: view.getUint32(at + 12, true), at: view.getUint32(at + 16, true) };
  if (view.getUint16(at + 4, true) !== view.getUint16(at + 6, true) || view.getUint16(at + 8, true) !== directory.entries) {
    throw fail('a zip split over several files', 'one whole zip', 'Pack it as one file.');
  }
  const locator = at - ZIP64_LOCATOR_BYTES;
  if (locator >= 0 && view.getUint32(locator, true) === ZIP64_LOCATOR) {
    const record = uint64(view, locator + 8);
    if (record > locator - ZIP64_END_RECORD_BYTES || view.getUint32(record, true) !== ZIP64_END_RECORD) {
      throw damaged(fail, 'a zip64 locator that points nowhere', 'an end record');
    }
    directory = { entries: uint64(view, record + 32), bytes: uint64(view, record + 40), at: uint64(view, record + 48) };
  }
  if (directory.entries > MAX_ZIP_ENTRIES) {
    throw fail(`${grouped(directory.entries)} entries in the zip`, `at most ${grouped(MAX_ZIP_ENTRIES)}`, 'Leave out what the scene does not use.');
  }
  if (directory.at + directory.bytes > at) throw damaged(fail, 'a zip directory that reaches past the end of the file', 'a whole zip file');
  return directory;
}

function readDirectory(bytes: Uint8Array, view: DataView, directory: Directory, fail: Fail): Entry[] {
  const decoder = new TextDecoder('utf-8');
  const end = directory.at + directory.bytes;
  const entries: Entry[] = [];
  const seen = new Set<string>();
  let at = directory.at;
  for (let i = 0; i < directory.entries; i++) {
    if (at + CENTRAL_HEADER_BYTES > end || view.getUint32(at, true) !== CENTRAL_HEADER) {
      throw damaged(fail, `a zip directory that breaks off at entry ${i + 1} of ${directory.entries}`, 'an entry there');
    }
    const nameBytes = view.getUint16(at + 28, true);
    const extraBytes = view.getUint16(at + 30, true);
    const extraAt = at + CENTRAL_HEADER_BYTES + nameBytes;
    const next = extraAt + extraBytes + view.getUint16(at + 32, true);
    if (next > end) throw damaged(fail, `a zip directory that breaks off at entry ${i + 1} of ${directory.entries}`, 'a whole entry there');
    const name = decoder.decode(bytes.subarray(at + CENTRAL_HEADER_BYTES, extraAt));
    const method = view.getUint16(at + 10, true);
    if (view.getUint16(at + 8, true) & ENCRYPTED_FLAGS) {
      throw fail(`"${quoted(name)}" is encrypted`, 'a zip without a password', 'Pack it again without a password.');
    }
    if (method !== STORED && method !== DEFLATED) {
      throw fail(`"${quoted(name)}" is packed by method ${method}`, 'stored or deflated entries (methods 0 and 8)', 'Pack it again as an ordinary zip.');
    }
    if (seen.has(name)) throw fail(`"${quoted(name)}" is in the zip twice`, 'each name once', 'Pack it again; it is not clear which one is meant.');
    seen.add(name);
    const sizes = { unpacked: view.getUint32(at + 24, true), packed: view.getUint32(at + 20, true), headerAt: view.getUint32(at + 42, true) };
    entries.push({ name, method, crc: view.getUint32(at + 16, true), ...widened(view, sizes, extraAt, extraAt + extraBytes, fail), dataAt: 0 });
    at = next;
  }
  return entries;
}

interface Sizes {
  unpacked: number;
  packed: number;
  headerAt: number;
}

/** Replaces the sizes that are only in the zip64 extra field, which holds just those, in this order. */
function widened(view: DataView, sizes: Sizes, from: number, to: number, fail: Fail): Sizes {
  const missing = (['unpacked', 'packed', 'headerAt'] as const).filter((key) => sizes[key] === IN_ZIP64);
  if (missing.length === 0) return sizes;
  for (let at = from; at + 4 <= to; at += 4 + view.getUint16(at + 2, true)) {
    if (view.getUint16(at, true) !== 1) continue;
    if (view.getUint16(at + 2, true) < 8 * missing.length || at + 4 + 8 * missing.length > to) break;
    missing.forEach((key, i) => (sizes[key] = uint64(view, at + 4 + 8 * i)));
    return sizes;
  }
  throw damaged(fail, 'a zip64 entry without its sizes', 'them in its extra field');
}

function checkSizes(entries: readonly Entry[], fail: Fail): void {
  let total = 0;
  for (const { name, method, packed, unpacked } of entries) {
    total += unpacked;
    if (total > MAX_UNPACKED_BYTES) {
      throw fail(`its entries unpack to more than ${grouped(MAX_UNPACKED_BYTES)} bytes (at "${quoted(name)}")`, 'less', 'Use smaller meshes and pictures.');
    }
    if (method === STORED && packed !== unpacked) throw damaged(fail, `"${quoted(name)}" is stored with two different sizes`, 'one');
    if (unpacked > FREELY_PACKED_BYTES && unpacked > MAX_PACKING_RATIO * packed) {
      throw fail(
        `"${quoted(name)}" unpacks ${grouped(packed)} bytes to ${grouped(unpacked)}`,
        `at most ${MAX_PACKING_RATIO} times its packed size`,
        'It looks made to fill the memory; don\'t open it, or pack it again yourself.',
      );
    }
  }
}

/** Finds each entry's data through its local header, and refuses entries that share bytes. */
function locateData(bytes: Uint8Array, view: DataView, entries: readonly Entry[], directoryAt: number, fail: Fail): void {
  const decoder = new TextDecoder('utf-8');
  let free = 0;
  for (const entry of [...entries].sort((a, b) => a.headerAt - b.headerAt)) {
    const at = entry.headerAt;
    const name = quoted(entry.name);
    if (at + LOCAL_HEADER_BYTES > directoryAt || view.getUint32(at, true) !== LOCAL_HEADER) {
      throw damaged(fail, `no data of "${name}" where the zip says they are`, 'its header');
    }
    const nameEnd = at + LOCAL_HEADER_BYTES + view.getUint16(at + 26, true);
    entry.dataAt = nameEnd + view.getUint16(at + 28, true);
    if (entry.dataAt + entry.packed > directoryAt) throw damaged(fail, `the data of "${name}" run past their end`, `${grouped(entry.packed)} bytes`);
    if (at < free) throw damaged(fail, `"${name}" shares its bytes with another entry`, 'entries side by side');
    if (decoder.decode(bytes.subarray(at + LOCAL_HEADER_BYTES, nameEnd)) !== entry.name) {
      throw damaged(fail, `"${name}" has another name beside its data`, 'the same name twice');
    }
    free = entry.dataAt + entry.packed;
  }
}

function unpack(packed: Uint8Array, entry: Entry, fail: Fail): Uint8Array {
  const bytes = entry.method === STORED ? packed : inflate(packed, entry, fail);
  const name = quoted(entry.name);
  if (bytes.length !== entry.unpacked) throw damaged(fail, `"${name}" unpacks to ${grouped(bytes.length)} bytes`, `${grouped(entry.unpacked)}`);
  if (crc32(bytes) !== entry.crc) throw damaged(fail, `"${name}" does not match its checksum`, 'the bytes that were packed');
  return bytes;
}

function inflate(packed: Uint8Array, entry: Entry, fail: Fail): Uint8Array {
  // Grown as it fills: a declared size is a claim until the bytes are there.
  let out = new Uint8Array(Math.min(entry.unpacked, Math.max(FREELY_PACKED_BYTES, 4 * packed.length)));
  let length = 0;
  const stream = new Inflate((chunk) => {
    if (length + chunk.length > entry.unpacked) {
      throw damaged(fail, `"${quoted(entry.name)}" unpacks to more than the ${grouped(entry.unpacked)} bytes it declares`, 'the declared size');
    }
    if (length + chunk.length > out.length) {
      const larger = new Uint8Array(Math.min(entry.unpacked, Math.max(2 * out.length, length + chunk.length)));
      larger.set(out.subarray(0, length));
      out = larger;
    }
    out.set(chunk, length);
    length += chunk.length;
  });
  try {
    for (let at = 0; at < packed.length; at += INFLATE_STEP) {
      stream.push(packed.subarray(at, at + INFLATE_STEP), at + INFLATE_STEP >= packed.length);
    }
  } catch (error) {
    if (isInflateError(error)) throw damaged(fail, `"${quoted(entry.name)}" can't be unpacked (${quoted(error.message)})`, 'deflated data');
    throw error;
  }
  return out.subarray(0, length);
}

/** fflate's errors carry a number; a damaged stream can also make it index past its tables. */
function isInflateError(error: unknown): error is Error {
  return error instanceof Error && (typeof (error as { code?: unknown }).code === 'number' || error instanceof TypeError || error instanceof RangeError);
}

/** A file's offset or size; beyond 2^53 it is no longer exact, and refused by every check it meets. */
function uint64(view: DataView, at: number): number {
  return view.getUint32(at, true) + view.getUint32(at + 4, true) * 2 ** 32;
}
