/** Pictures decoded and written, held to libvips (sharp, which @gltf-transform/core brings): libpng and libjpeg-turbo. */
import { describe, expect, it } from 'vitest';
import sharp from 'sharp';
import { crc32 } from '../../../src/files/crc32.ts';
import { meshFail } from '../../../src/files/fail.ts';
import { MAX_PICTURE_PIXELS } from '../../../src/files/limits.ts';
import { pngOf } from '../../../src/files/picture/png-write.ts';
import { readPicture } from '../../../src/files/picture/read.ts';

const fail = meshFail('newt.glb');
const WIDTH = 37;
const HEIGHT = 21;

/** Smooth ramps with some noise, from a fixed seed. */
function pixels(channels: number): Uint8Array {
  let seed = 7;
  return Uint8Array.from({ length: WIDTH * HEIGHT * channels }, (_, i) => {
    seed = (seed * 16807) % 2147483647;
    const [at, k] = [Math.floor(i / channels), i % channels];
    return (5 * (at % WIDTH) + 9 * Math.floor(at / WIDTH) * (k + 1) + (seed % 9)) % 256;
  });
}

const made = (channels: 1 | 3 | 4 = 3) => sharp(pixels(channels), { raw: { width: WIDTH, height: HEIGHT, channels } });
/** As libvips itself reads it: sRGB bytes without alpha. */
const judged = async (bytes: Uint8Array) => new Uint8Array(await sharp(bytes).removeAlpha().toColorspace('srgb').raw({ depth: 'uchar' }).toBuffer());

describe('PNG', () => {
  it.each([
    ['true color', () => made(3).png()],
    ['true color with alpha', () => made(4).png()],
    ['gray', () => made(3).toColorspace('b-w').png()],
    ['a palette of 256', () => made(3).png({ palette: true, colours: 256 })],
    ['a palette of 16', () => made(3).png({ palette: true, colours: 16 })],
    ['a palette of 4', () => made(3).png({ palette: true, colours: 4 })],
    ['a palette of 2', () => made(3).png({ palette: true, colours: 2 })],
    ['rows told by one filter', () => made(3).png({ adaptiveFiltering: false })],
    ['rows told by all filters', () => made(3).png({ adaptiveFiltering: true })],
    ['interlaced', () => made(3).png({ progressive: true })],
    ['interlaced palette of 4', () => made(3).png({ palette: true, colours: 4, progressive: true })],
  ])('%s is read as libpng reads it', async (_, image) => {
    const bytes = new Uint8Array(await image().toBuffer());
    const { width, height, rgb } = readPicture(bytes, fail);
    expect([width, height]).toEqual([WIDTH, HEIGHT]);
    expect(Buffer.compare(rgb, await judged(bytes))).toBe(0);
  });

  it('16 bits are read to the nearest of 256 steps', async () => {
    const deep = Uint16Array.from(pixels(3), (byte, i) => Math.min(65535, 257 * byte + (i % 100)));
    const bytes = new Uint8Array(await sharp(deep, { raw: { width: WIDTH, height: HEIGHT, channels: 3 } }).toColorspace('rgb16').png().toBuffer());
    const { rgb } = readPicture(bytes, fail);
    rgb.forEach((byte, i) => expect(Math.abs(byte - deep[i] / 257)).toBeLessThanOrEqual(0.5));
  });

  it('what is written libpng reads back pixel for pixel, and so do we', async () => {
    const rgba = pixels(4);
    const bytes = pngOf(WIDTH, HEIGHT, rgba);
    expect(Buffer.compare(rgba, await sharp(bytes).raw().toBuffer())).toBe(0);
    expect(readPicture(bytes, fail).rgb.every((byte, i) => byte === rgba[4 * Math.floor(i / 3) + (i % 3)])).toBe(true);
  });
});

describe('JPEG', () => {
  it.each([
    ['baseline', () => made(3).jpeg({ quality: 92 })],
    ['progressive', () => made(3).jpeg({ quality: 92, progressive: true })],
    ['gray', () => made(3).toColorspace('b-w').jpeg({ quality: 92 })],
    ['full color resolution', () => made(3).jpeg({ quality: 92, chromaSubsampling: '4:4:4' })],
  ])('%s is read as libjpeg reads it, but for rounding and how colors are spread', async (name, image) => {
    const bytes = new Uint8Array(await image().toBuffer());
    const { width, height, rgb } = readPicture(bytes, fail);
    expect([width, height]).toEqual([WIDTH, HEIGHT]);
    const other = await judged(bytes);
    const mean = rgb.reduce((sum, byte, i) => sum + Math.abs(byte - other[i]), 0) / rgb.length;
    // Half of the colors' resolution is spread smoothly there and in squares here.
    expect(mean).toBeLessThan(name === 'gray' || name.startsWith('full') ? 1 : 12);
  });
});

describe('what is no honest picture', () => {
  it.each(['png', 'jpeg'] as const)('a %s cut off anywhere is refused, by a message that says what to do', async (kind) => {
    const bytes = new Uint8Array(await made(3)[kind]().toBuffer());
    for (const share of [0.02, 0.1, 0.3, 0.5, 0.7, 0.9]) {
      expect(() => readPicture(bytes.subarray(0, Math.floor(share * bytes.length)), fail), String(share)).toThrow(/^newt\.glb: |^"?newt\.glb.*(again|PNG or JPEG)/);
    }
  });

  it('flipped bytes are refused or read, never more', async () => {
    for (const kind of ['png', 'jpeg'] as const) {
      const bytes = new Uint8Array(await made(3)[kind]().toBuffer());
      for (let at = 0; at < bytes.length; at += 7) {
        const bad = bytes.slice();
        bad[at] ^= 0x5a;
        try {
          const { width, height, rgb } = readPicture(bad, fail, 4096);
          expect(rgb.length).toBe(3 * width * height);
        } catch (error) {
          expect((error as Error).name).toBe('MeshFileError');
        }
      }
    }
  });

  it('a size beyond the limit is refused before memory is taken', () => {
    const bytes = pngOf(4, 4, new Uint8Array(64));
    new DataView(bytes.buffer).setUint32(16, 60_000);
    new DataView(bytes.buffer).setUint32(20, 60_000);
    expect(() => readPicture(bytes, fail)).toThrow('pictures of 3,600,000,000 pixels (one is 60,000 × 60,000)');
    expect(() => readPicture(pngOf(4, 4, new Uint8Array(64)), fail, 15)).toThrow('at most 67,108,864 in all');
    expect(MAX_PICTURE_PIXELS).toBe(8192 ** 2);
  });

  it('more pixels than its size says are left out; fewer are refused', () => {
    const high = (rows: number): Uint8Array => {
      const bytes = pngOf(8, 8, new Uint8Array(256).fill(9));
      const view = new DataView(bytes.buffer);
      view.setUint32(20, rows);
      view.setUint32(29, crc32(bytes.subarray(12, 29)));
      return bytes;
    };
    expect(readPicture(high(7), fail).rgb).toEqual(new Uint8Array(168).fill(9));
    expect(() => readPicture(high(9), fail)).toThrow(/a PNG with 264 of its 297 bytes of pixels/);
  });
});
