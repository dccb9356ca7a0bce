/**
 * How high a picture is against its width, and how it is turned, from its own header: PNG (W3C PNG 3rd edition §11.2.1), JPEG (ITU-T T.81
 * B.2.2, turned as its Exif says: Exif 2.3 §4.6.4), WebP (RFC 9649 §2.5 to 2.7).
 */

export interface PictureLook {
  readonly highPerWide: number;
  /** Exif's orientation, 1 to 8: where the stored first row and column are seen. 1: at the top and left. */
  readonly turn: number;
}

/** By its first bytes: W3C PNG §5.2, ITU-T T.81 B.1.1.3. */
export const isPng = (bytes: Uint8Array): boolean => [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a].every((byte, i) => bytes[i] === byte);
export const isJpeg = (bytes: Uint8Array): boolean => bytes[0] === 0xff && bytes[1] === 0xd8;

/** Null for what is none of these, or damaged. */
export function pictureLook(bytes: Uint8Array): PictureLook | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  try {
    const size = pngSize(view) ?? jpegSize(view) ?? webpSize(view);
    if (!size || !(size[0] > 0 && size[1] > 0)) return null;
    const turn = size[2] ?? 1;
    return { highPerWide: size[1] / size[0], turn: turn >= 1 && turn <= 8 ? turn : 1 };
  } catch (error) {
    // Past the end of a file that is cut off.
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** As it is looked at; the turn is Exif's orientation, 5 to 8 show rows as columns. */
type Size = readonly [width: number, height: number, turn?: number];

function pngSize(view: DataView): Size | null {
  if (view.byteLength < 24 || view.getUint32(0) !== 0x89504e47) return null;
  return view.getUint32(12) === 0x49484452 ? [view.getUint32(16), view.getUint32(20)] : null;
}

function jpegSize(view: DataView): Size | null {
  if (view.byteLength < 4 || view.getUint16(0) !== 0xffd8) return null;
  let turn = 1;
  for (let at = 2; view.getUint8(at) === 0xff; ) {
    const marker = view.getUint8(at + 1);
    if (marker === 0xff) {
      at++;
      continue;
    }
    if (marker === 0xe1) turn = Math.max(turn, exifTurn(view, at + 4));
    if (marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc) {
      const [height, width] = [view.getUint16(at + 5), view.getUint16(at + 7)];
      return turn >= 5 ? [height, width, turn] : [width, height, turn];
    }
    if (marker === 0xda || marker === 0xd9) return null;
    at += 2 + view.getUint16(at + 2);
  }
  return null;
}

function exifTurn(view: DataView, at: number): number {
  if (view.getUint32(at) !== 0x45786966) return 1;
  const tiff = at + 6;
  const little = view.getUint16(tiff) === 0x4949;
  const directory = tiff + view.getUint32(tiff + 4, little);
  const count = view.getUint16(directory, little);
  for (let i = 0; i < count; i++) {
    const entry = directory + 2 + 12 * i;
    if (view.getUint16(entry, little) === 0x0112) return view.getUint16(entry + 8, little);
  }
  return 1;
}

function webpSize(view: DataView): Size | null {
  if (view.byteLength < 30 || view.getUint32(0) !== 0x52494646 || view.getUint32(8) !== 0x57454250) return null;
  const kind = view.getUint32(12);
  if (kind === 0x56503858) return [1 + (view.getUint32(24, true) & 0xffffff), 1 + (view.getUint16(27, true) | (view.getUint8(29) << 16))];
  if (kind === 0x5650384c) {
    const bits = view.getUint32(21, true);
    return [1 + (bits & 0x3fff), 1 + ((bits >>> 14) & 0x3fff)];
  }
  return kind === 0x56503820 ? [view.getUint16(26, true) & 0x3fff, view.getUint16(28, true) & 0x3fff] : null;
}
