/** Where a rising function crosses 0: bracketed in growing strides, then by secant and halving (Illinois; Dowell & Jarratt 1971, BIT 11:168). */

export interface RootSearch {
  /** Where to begin, and the first stride. */
  readonly from: number;
  readonly stride: number;
  /** Nothing is looked for beyond them. */
  readonly lowest: number;
  readonly highest: number;
  /** Ends when the bracket is this narrow … */
  readonly apart: number;
  /** … or the function this near under 0. */
  readonly under: number;
}

const MOST_TRIES = 60;
/** A secant closer to an end of the bracket than this share of it would stand still. */
const MARGIN = 0.02;

/** The largest place found where it is not over 0: `lowest − 1` stride when it is over 0 everywhere, `highest` when it never is. */
export function risingRoot(f: (x: number) => number, { from, stride, lowest, highest, apart, under }: RootSearch): number {
  let low: { x: number; y: number } | null = null;
  let high: { x: number; y: number } | null = null;
  let x = Math.min(highest, Math.max(lowest, from));
  let step = stride;
  let before = 0;
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const y = f(x);
    if (y <= 0) {
      if (y >= -under || x >= highest) return x;
      // The same end moved twice running: the other counts half, or the secant would creep.
      if (high && before < 0) high.y /= 2;
      low = { x, y };
    } else {
      if (x <= lowest) return lowest - stride;
      if (low && before > 0) low.y /= 2;
      high = { x, y };
    }
    before = y;
    if (low && high) {
      if (high.x - low.x <= apart) return low.x;
      const margin = MARGIN * (high.x - low.x);
      x = Math.min(high.x - margin, Math.max(low.x + margin, (low.x * high.y - high.x * low.y) / (high.y - low.y)));
    } else {
      x = low ? Math.min(highest, x + step) : Math.max(lowest, x - step);
      step *= 2;
    }
  }
  return low ? low.x : lowest - stride;
}
