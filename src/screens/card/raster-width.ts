/**
 * The width of a PNG or JPEG on paper, where the file states its density: PNG's pHYs chunk (W3C PNG 11.3.4.3),
 * JPEG's JFIF header (ITU-T T.871). Screen densities that programs write without meaning them count as none.
 */
import { MM_PER_INCH } from '../../core/units/quantity.ts';

/** Dots per inch that stand for "nobody chose": common practice, no source. */
const MEANINGLESS_DPI = [72, 96];
const DPI_SLACK = 0.5;

/** mm, or null where the file states no density that means something. */
export function rasterWidthMm(bytes: Uint8Array, kind: string): number | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const found = kind === 'image/png' ? pngWidth(view) : kind === 'image/jpeg' ? jpegWidth(view) : null;
  if (!found || !(found.pixels > 0) || !(found.perMm > 0)) return null;
  const dpi = found.perMm * MM_PER_INCH;
  return MEANINGLESS_DPI.some((usual) => Math.abs(dpi - usual) < DPI_SLACK) ? null : found.pixels / found.perMm;
}

interface Stated {
  readonly pixels: number;
  readonly perMm: number;
}

function pngWidth(view: DataView): Stated | null {
  let pixels = 0;
  for (let at = 8; at + 12 <= view.byteLength; ) {
    const length = view.getUint32(at);
    const type = view.getUint32(at + 4);
    if (type === 0x49484452 && at + 12 + 13 <= view.byteLength) pixels = view.getUint32(at + 8);
    // The unit 1 is the meter; 0 states only the pixel's shape.
    if (type === 0x70485973 && at + 8 + 9 <= view.byteLength) return view.getUint8(at + 16) === 1 ? { pixels, perMm: view.getUint32(at + 8) / 1000 } : null;
    if (type === 0x49444154) return null;
    at += 12 + length;
  }
  return null;
}

function jpegWidth(view: DataView): Stated | null {
  let perMm = 0;
  for (let at = 2; at + 4 <= view.byteLength && view.getUint8(at) === 0xff; ) {
    const marker = view.getUint8(at + 1);
    const length = view.getUint16(at + 2);
    const isJfif = marker === 0xe0 && length >= 14 && at + 14 <= view.byteLength && view.getUint32(at + 4) === 0x4a464946;
    if (isJfif) perMm = view.getUint16(at + 12) / ({ 1: MM_PER_INCH, 2: 10 }[view.getUint8(at + 11)] ?? Infinity);
    const isFrame = marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
    if (isFrame) return at + 9 <= view.byteLength ? { pixels: view.getUint16(at + 7), perMm } : null;
    at += 2 + length;
  }
  return null;
}
