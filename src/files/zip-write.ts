/**
 * Writing a zip whose bytes depend on nothing but names and contents: fixed dates, given order.
 * Source: PKWARE APPNOTE 6.3.10 §4.3.7, §4.3.12, §4.3.16.
 */

import { deflateSync } from 'fflate';
import { crc32 } from './crc32.ts';
import { MAX_PACKING_RATIO } from './limits.ts';
import { CENTRAL_HEADER, DEFLATED, END_RECORD, LOCAL_HEADER, STORED } from './zip.ts';

/** 1980-01-01 00:00, the earliest date zip can say. */
const DOS_DATE = (1 << 5) | 1;
const VERSION_NEEDED = 20;
/** Names are UTF-8. */
const UTF8_FLAG = 0x0800;
const LOCAL_HEADER_BYTES = 30;
const CENTRAL_HEADER_BYTES = 46;
const END_RECORD_BYTES = 22;
/** What is packed tighter than this is stored instead, so that no reader takes it for a bomb. */
const TIGHTEST = MAX_PACKING_RATIO / 2;

export interface ZipFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** A zip of at most 65,535 files and 4 GB, which the caller sees to. */
export function writeZip(files: readonly ZipFile[]): Uint8Array {
  const encoder = new TextEncoder();
  const entries = files.map(({ name, bytes }) => {
    const deflated = deflateSync(bytes, { level: 6 });
    const worth = deflated.length < bytes.length && bytes.length <= TIGHTEST * deflated.length;
    return { name: encoder.encode(name), size: bytes.length, crc: crc32(bytes), method: worth ? DEFLATED : STORED, data: worth ? deflated : bytes };
  });
  const localBytes = entries.reduce((sum, entry) => sum + LOCAL_HEADER_BYTES + entry.name.length + entry.data.length, 0);
  const centralBytes = entries.reduce((sum, entry) => sum + CENTRAL_HEADER_BYTES + entry.name.length, 0);
  const out = new Uint8Array(localBytes + centralBytes + END_RECORD_BYTES);
  const view = new DataView(out.buffer);

  let at = 0;
  let central = localBytes;
  for (const entry of entries) {
    view.setUint32(central, CENTRAL_HEADER, true);
    view.setUint16(central + 4, VERSION_NEEDED, true);
    writeCommon(view, central + 6, entry);
    view.setUint32(central + 42, at, true);
    out.set(entry.name, central + CENTRAL_HEADER_BYTES);
    central += CENTRAL_HEADER_BYTES + entry.name.length;

    view.setUint32(at, LOCAL_HEADER, true);
    writeCommon(view, at + 4, entry);
    out.set(entry.name, at + LOCAL_HEADER_BYTES);
    out.set(entry.data, at + LOCAL_HEADER_BYTES + entry.name.length);
    at += LOCAL_HEADER_BYTES + entry.name.length + entry.data.length;
  }
  view.setUint32(central, END_RECORD, true);
  view.setUint16(central + 8, entries.length, true);
  view.setUint16(central + 10, entries.length, true);
  view.setUint32(central + 12, centralBytes, true);
  view.setUint32(central + 16, localBytes, true);
  return out;
}

interface Packed {
  readonly name: Uint8Array;
  readonly size: number;
  readonly crc: number;
  readonly method: number;
  readonly data: Uint8Array;
}

/** The fields that both headers hold in the same order: version, flags, method, time, date, checksum, sizes, name. */
function writeCommon(view: DataView, at: number, entry: Packed): void {
  view.setUint16(at, VERSION_NEEDED, true);
  view.setUint16(at + 2, UTF8_FLAG, true);
  view.setUint16(at + 4, entry.method, true);
  view.setUint16(at + 8, DOS_DATE, true);
  view.setUint32(at + 10, entry.crc, true);
  view.setUint32(at + 14, entry.data.length, true);
  view.setUint32(at + 18, entry.size, true);
  view.setUint16(at + 22, entry.name.length, true);
}
