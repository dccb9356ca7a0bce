/** Proportions from a picture's header: bytes written by hand after the formats' standards. */
import { describe, expect, it } from 'vitest';
import { pictureLook } from '../../src/files/picture-size.ts';

const bytes = (...parts: (string | readonly number[])[]): Uint8Array => Uint8Array.from(parts.flatMap((part) => (typeof part === 'string' ? [...part].map((letter) => letter.charCodeAt(0)) : part)));
const png = (wide: number, high: number) => bytes([0x89], 'PNG\r\n\x1a\n', [0, 0, 0, 13], 'IHDR', [0, 0, wide >> 8, wide & 255, 0, 0, high >> 8, high & 255, 8, 6, 0, 0, 0]);
/** SOI, JFIF, Exif with one entry, a table, SOF0. */
const jpeg = (wide: number, high: number, orientation: number, little = true) => {
  const two = (n: number) => (little ? [n & 255, n >> 8] : [n >> 8, n & 255]);
  const four = (n: number) => (little ? [...two(n), 0, 0] : [0, 0, ...two(n)]);
  const tiff = [...(little ? [0x49, 0x49] : [0x4d, 0x4d]), ...two(42), ...four(8), ...two(1), ...two(0x112), ...two(3), ...four(1), ...two(orientation), 0, 0, ...four(0)];
  return bytes([0xff, 0xd8, 0xff, 0xe0, 0, 16], 'JFIF\0', [1, 1, 0, 0, 1, 0, 1, 0, 0], [0xff, 0xe1, 0, 8 + tiff.length], 'Exif\0\0', tiff, [0xff, 0xdb, 0, 3, 0, 0xff, 0xc0, 0, 11, 8, high >> 8, high & 255, wide >> 8, wide & 255, 1, 1, 0x11, 0]);
};
const riff = (kind: string, body: readonly number[]) => bytes('RIFF', [0, 0, 0, 0], 'WEBP', kind, [0, 0, 0, 0], body, Array<number>(16).fill(0));

describe('a picture’s height over its width', () => {
  it.each([
    ['PNG', png(400, 300), 0.75],
    ['JPEG', jpeg(400, 300, 1), 0.75],
    ['JPEG upside down', jpeg(400, 300, 3), 0.75],
    ['JPEG on its side, as a phone writes it', jpeg(400, 300, 6), 4 / 3],
    ['JPEG on its side, the other byte order', jpeg(400, 300, 8, false), 4 / 3],
    // Width and height less one in 24 bits.
    ['extended WebP', riff('VP8X', [0, 0, 0, 0, 0x8f, 1, 0, 0x2b, 1, 0]), 0.75],
    // 14 bits each, less one, after the signature 0x2f.
    ['lossless WebP', riff('VP8L', [0x2f, 0x8f, 0xc1, 0x4a, 0]), 0.75],
    ['lossy WebP', riff('VP8 ', [0, 0, 0, 0x9d, 1, 0x2a, 0x90, 1, 0x2c, 1]), 0.75],
  ])('%s', (_, picture, expected) => expect(pictureLook(picture)!.highPerWide).toBeCloseTo(expected, 12));

  it('says how it is turned', () => {
    for (const turn of [1, 2, 3, 4, 5, 6, 7, 8]) expect(pictureLook(jpeg(400, 300, turn, turn % 2 === 0))!.turn).toBe(turn);
    expect(pictureLook(jpeg(400, 300, 9))!.turn).toBe(1);
  });

  it('is none of what is no picture, nor of one that is cut off anywhere', () => {
    for (const other of [bytes(), bytes('<svg/>'), bytes('GIF89a')]) expect(pictureLook(other)).toBeNull();
    const whole = jpeg(400, 300, 6);
    for (let length = 0; length < whole.length - 10; length++) expect(pictureLook(whole.subarray(0, length))).toBeNull();
  });
});
