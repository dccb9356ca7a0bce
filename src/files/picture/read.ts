/**
 * A PNG or JPEG to its pixels, by the same code in Node and in a worker: a browser's own decoder would give them only
 * through a canvas, which some falsify lest the page know them by it. JPEG comes from a library.
 */
import { decode } from 'jpeg-js';
import type { Picture } from '../../core/sight/colors/picture.ts';
import { grouped, type Fail } from '../fail.ts';
import { MAX_PICTURE_PIXELS } from '../limits.ts';
import { isJpeg, isPng } from '../picture-size.ts';
import { readPng } from './png-read.ts';

const SMALLER = 'Make the picture smaller before you export the mesh.';
const CUT_OFF = 'The picture is cut off or damaged; export it again.';
/** MB that the library may take while it decodes; a JPEG of the most pixels takes 900. */
const DECODING_MB = 1200;

/** How large it says it is, or null where it is no PNG or JPEG or ends before it says so. */
function pictureSize(bytes: Uint8Array): readonly [number, number] | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (isPng(bytes)) return bytes.length < 24 ? null : [view.getUint32(16), view.getUint32(20)];
  if (!isJpeg(bytes)) return null;
  for (let at = 2; at + 9 <= bytes.length && bytes[at] === 0xff; ) {
    const marker = bytes[at + 1];
    if (marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker)) return [view.getUint16(at + 7), view.getUint16(at + 5)];
    at += marker === 0xff ? 1 : 2 + view.getUint16(at + 2);
  }
  return null;
}

/** `room`: pixels that may still come, found before memory is taken. */
export function readPicture(bytes: Uint8Array, fail: Fail, room = MAX_PICTURE_PIXELS): Picture {
  if (!isPng(bytes) && !isJpeg(bytes)) throw fail('a picture that is neither', 'PNG or JPEG', 'Export it with pictures as PNG or JPEG.');
  const size = pictureSize(bytes);
  if (!size || size[0] === 0 || size[1] === 0) throw fail('a picture without a size', 'a whole PNG or JPEG', CUT_OFF);
  const [width, height] = size;
  if (width * height > room) throw fail(`pictures of ${grouped(MAX_PICTURE_PIXELS - room + width * height)} pixels (one is ${grouped(width)} × ${grouped(height)})`, `at most ${grouped(MAX_PICTURE_PIXELS)} in all`, SMALLER);
  return isPng(bytes) ? readPng(bytes, fail) : readJpeg(bytes, fail);
}

function readJpeg(bytes: Uint8Array, fail: Fail): Picture {
  try {
    const { width, height, data } = decode(bytes, { useTArray: true, formatAsRGBA: false, tolerantDecoding: false, maxResolutionInMP: Infinity, maxMemoryUsageInMB: DECODING_MB });
    return { width, height, rgb: data };
  } catch (error) {
    // The library throws plain errors for what is wrong with the file.
    throw fail(`a JPEG that can’t be read (${error instanceof Error ? error.message.slice(0, 60) : 'unknown'})`, 'a whole one', CUT_OFF);
  }
}
