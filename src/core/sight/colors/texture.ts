/**
 * A mesh's picture, ready to be looked up: its colors in linear light, halved again and again so that a pixel of a guide
 * takes in all of the picture that it covers, and no speck of it alone. Between its pixels it is bilinear.
 * Source: glTF 2.0 Specification (Khronos) §3.8.4 (samplers, wrapping; a picture's pixel centers lie at (i + ½)/n).
 */
import { decoded } from '../color.ts';
import type { Picture } from './picture.ts';

export type Wrap = 'repeat' | 'clamp' | 'mirror';

export interface Texture {
  /** The whole picture first, then half of it across and down, down to one pixel. */
  readonly levels: readonly Level[];
  readonly wrapU: Wrap;
  readonly wrapV: Wrap;
}

interface Level {
  readonly width: number;
  readonly height: number;
  /** Linear light in steps of 1/65535. */
  readonly rgb: Uint16Array;
}

/** Pixels a side. What is finer is halved first: it would be 0.15 mm on a creature of 30 cm. */
const FINEST_SIDE = 2048;
const FULL = 65535;
const LINEAR = Uint16Array.from({ length: 256 }, (_, byte) => Math.round(FULL * decoded(byte / 255)));

export function textureOf({ width, height, rgb }: Picture, wrapU: Wrap, wrapV: Wrap): Texture {
  let level: Level = Math.max(width, height) > FINEST_SIDE ? halved(width, height, (i) => LINEAR[rgb[i]]) : { width, height, rgb: Uint16Array.from(rgb, (byte) => LINEAR[byte]) };
  const next = (): Level => halved(level.width, level.height, (i) => level.rgb[i]);
  while (Math.max(level.width, level.height) > FINEST_SIDE) level = next();
  const levels = [level];
  while (level.width > 1 || level.height > 1) {
    level = next();
    levels.push(level);
  }
  return { levels, wrapU, wrapV };
}

/** Half as many pixels across and down, each the mean of the two or four under it. */
function halved(width: number, height: number, at: (i: number) => number): Level {
  const [w, h] = [Math.ceil(width / 2), Math.ceil(height / 2)];
  const rgb = new Uint16Array(3 * w * h);
  for (let y = 0, out = 0; y < h; y++) {
    const rows = [2 * y * width, Math.min(2 * y + 1, height - 1) * width];
    for (let x = 0; x < w; x++) {
      const columns = [2 * x, Math.min(2 * x + 1, width - 1)];
      for (let k = 0; k < 3; k++, out++) {
        let sum = 0;
        for (const row of rows) for (const column of columns) sum += at(3 * (row + column) + k);
        rgb[out] = Math.round(sum / 4);
      }
    }
  }
  return { width: w, height: h, rgb };
}

/** The level whose pixels are about as large as those of a guide, when `pixels` of the whole picture lie across one of them. */
export function levelFor({ levels }: Texture, pixels: number): number {
  return Math.min(levels.length - 1, Math.max(0, Math.round(Math.log2(Math.max(pixels, 1e-6)))));
}

/** Linear light at a place, into `out`. */
export function lookUp({ levels, wrapU, wrapV }: Texture, level: number, u: number, v: number, out: Float64Array): void {
  const { width, height, rgb } = levels[level];
  const x = u * width - 0.5;
  const y = v * height - 0.5;
  const [left, top] = [Math.floor(x), Math.floor(y)];
  const [right, low] = [x - left, y - top];
  const [x0, x1] = [wrapped(left, width, wrapU), wrapped(left + 1, width, wrapU)];
  const [y0, y1] = [wrapped(top, height, wrapV) * width, wrapped(top + 1, height, wrapV) * width];
  for (let k = 0; k < 3; k++) {
    const above = (1 - right) * rgb[3 * (y0 + x0) + k] + right * rgb[3 * (y0 + x1) + k];
    const below = (1 - right) * rgb[3 * (y1 + x0) + k] + right * rgb[3 * (y1 + x1) + k];
    out[k] = ((1 - low) * above + low * below) / FULL;
  }
}

function wrapped(i: number, n: number, wrap: Wrap): number {
  if (i >= 0 && i < n) return i;
  if (wrap === 'clamp') return i < 0 ? 0 : n - 1;
  if (wrap === 'repeat') return ((i % n) + n) % n;
  const twice = ((i % (2 * n)) + 2 * n) % (2 * n);
  return twice < n ? twice : 2 * n - 1 - twice;
}
