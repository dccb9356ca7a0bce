/** An upright slice through the casting as hatching: upright lines, the closer the warmer. */
import type { BodySlice } from '../../core/cure/body/record.ts';
import { gapOf } from './chart-shape.ts';

export interface SliceHatch {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly path: string;
}

/** A row of lines is this high, px. */
const ROW_PX = 6;

export interface SliceView {
  /** Half of what is seen across, mm, and how high. */
  readonly halfMm: number;
  readonly topMm: number;
  /** At most, px. */
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Rings are mirrored about the axis. Where there is nothing there are no lines. True to scale. */
export function sliceHatch(slice: BodySlice, { halfMm, topMm, widthPx, heightPx }: SliceView): SliceHatch {
  const scale = Math.min(widthPx / (2 * halfMm), heightPx / topMm);
  const [wide, high] = [2 * halfMm * scale, topMm * scale];
  const parts: string[] = [];
  for (let y = 0; y < high - 0.5; y += ROW_PX) {
    const tall = Math.min(ROW_PX, high - y);
    const row = lineOf(slice.zMm, (high - y - tall / 2) / scale);
    // A line stands wherever the sum of lines a px passes the next whole number.
    let sum = 0.5;
    for (let x = 0.5; row >= 0 && x < wide; x++) {
      const c = temperatureAt(slice, x / scale - halfMm, row);
      if (!Number.isFinite(c)) continue;
      sum += 1 / gapOf(c);
      if (sum < 1) continue;
      sum -= 1;
      parts.push(`M${x.toFixed(1)} ${y.toFixed(1)}v${tall.toFixed(1)}`);
    }
  }
  return { widthPx: wide, heightPx: high, path: parts.join('') };
}

function temperatureAt({ xMm, temperatureC }: BodySlice, x: number, row: number): number {
  const rings = xMm[0] >= 0;
  const column = lineOf(xMm, rings ? Math.abs(x) : x);
  return column < 0 ? NaN : temperatureC[row * (xMm.length - 1) + column];
}

/** Between which lines a place lies; −1: outside. */
function lineOf(lines: Float64Array, place: number): number {
  if (place < lines[0] || place >= lines[lines.length - 1]) return -1;
  let [low, high] = [0, lines.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (lines[middle] <= place) low = middle;
    else high = middle;
  }
  return low;
}
