/** Which pixels of a grid have their middle inside a region: crossings of each row, filled from one to the next. */
import type { Region } from '../region.ts';
import type { Grid } from './picture.ts';

/** 1 inside, 0 outside, row by row from the top. */
export function pixelsInside(region: Region, { leftMm, topMm, width, height, pixelMm }: Grid): Uint8Array {
  const rows: number[][] = Array.from({ length: height }, () => []);
  for (const loop of region) {
    for (let i = 0, j = loop.length - 2; i < loop.length; j = i, i += 2) {
      // In pixels from the middle of the first, right and down.
      const ax = (loop[j] - leftMm) / pixelMm - 0.5, ay = (topMm - loop[j + 1]) / pixelMm - 0.5;
      const bx = (loop[i] - leftMm) / pixelMm - 0.5, by = (topMm - loop[i + 1]) / pixelMm - 0.5;
      if (ay === by) continue;
      const [low, high] = ay < by ? [ay, by] : [by, ay];
      // Half open, so that a corner on a row is crossed once.
      for (let y = Math.max(0, Math.ceil(low)); y < high && y < height; y++) rows[y].push(ax + ((y - ay) / (by - ay)) * (bx - ax));
    }
  }
  const inside = new Uint8Array(width * height);
  rows.forEach((crossings, y) => {
    crossings.sort((a, b) => a - b);
    for (let n = 0; n + 1 < crossings.length; n += 2) {
      inside.fill(1, y * width + within(crossings[n], width), y * width + within(crossings[n + 1], width));
    }
  });
  return inside;
}

const within = (x: number, width: number): number => Math.min(width, Math.max(0, Math.ceil(x)));
