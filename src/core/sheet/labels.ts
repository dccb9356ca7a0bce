/** Keeps texts apart: finds a free spot for a label, and spreads tags along an edge. */
import type { Box } from './polygon.ts';

/** mm. Between two texts. */
const CLEAR_MM = 0.6;

export interface LabelSpots {
  /** Takes the first box that is free of labels, and of figures if `clear`; returns its number, or −1 and takes none. */
  take(boxes: readonly Box[], clear: boolean): number;
}

/** `inside` holds all labels; `taken` are boxes no label may touch, `figures` those it should not. */
export function labelSpots(inside: Box, taken: readonly Box[], figures: readonly Box[]): LabelSpots {
  const labels = [...taken];
  const free = (box: Box, others: readonly Box[]): boolean => others.every((other) => !touching(box, other));
  const within = (box: Box): boolean => box.x0 >= inside.x0 && box.x1 <= inside.x1 && box.y0 >= inside.y0 && box.y1 <= inside.y1;
  return {
    take(boxes, clear) {
      const at = boxes.findIndex((box) => within(box) && free(box, labels) && (!clear || free(box, figures)));
      if (at >= 0) labels.push(boxes[at]);
      return at;
    },
  };
}

function touching(a: Box, b: Box): boolean {
  return a.x0 < b.x1 + CLEAR_MM && b.x0 < a.x1 + CLEAR_MM && a.y0 < b.y1 + CLEAR_MM && b.y0 < a.y1 + CLEAR_MM;
}

/**
 * Positions as near as can be to the wished ones (in ascending order), at least `gap` apart and between `low` and `high`:
 * least squares by pooling neighbors (pool adjacent violators). Where they don't all fit they are set evenly, closer
 * than `gap`; the caller sees that by `(count − 1) · gap > high − low`.
 */
export function spread(wished: readonly number[], gap: number, low: number, high: number): number[] {
  const step = wished.length > 1 ? Math.min(gap, (high - low) / (wished.length - 1)) : 0;
  const pools: { sum: number; count: number }[] = [];
  wished.forEach((at, i) => {
    pools.push({ sum: at - i * step, count: 1 });
    while (pools.length > 1) {
      const [before, last] = pools.slice(-2);
      if (before.sum / before.count <= last.sum / last.count) break;
      pools.splice(-2, 2, { sum: before.sum + last.sum, count: before.count + last.count });
    }
  });
  const top = high - (wished.length - 1) * step;
  return pools.flatMap(({ sum, count }) => Array<number>(count).fill(Math.min(Math.max(sum / count, low), Math.max(low, top)))).map((base, i) => base + i * step);
}
