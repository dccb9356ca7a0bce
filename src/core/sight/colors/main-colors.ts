/**
 * The few colors that a painter mixes for a plane. Colors are counted in small cells of sRGB; boxes of cells are cut in CIE
 * L*a*b* where a cut takes away the most of their spread (median cut, Heckbert 1982, with the cut of Wu 1991; both from
 * memory). Nothing is random: the same picture gives the same colors.
 */
import { colorDifference } from '../color-difference.ts';
import { encoded, hexOf, labOf, type Lab, type Light } from '../color.ts';
import { colorName } from './color-name.ts';

export interface MainColor {
  /** `#rrggbb`, the mean of what it stands for in linear light. */
  readonly hex: string;
  /** `dark orange`, for a print without colors. */
  readonly words: string;
  /** Of what shows, 0 to 1. */
  readonly share: number;
}

/** As many paints as a painter mixes for one plane (common practice, no source). */
const MOST = 5;
/** Of what shows: less is a touch with what is on the brush already. */
const LEAST_SHARE = 0.02;
/** Of what shows: a larger one is a paint of its own, even where it looks like a mixture of two others. */
const BLEND_SHARE = 0.08;
/** Steps along a mixture of two colors that are compared. */
const MIXED_STEPS = 12;
/** CIEDE2000. Nearer colors are one paint. */
const ONE_PAINT = 6;
/** Mean distance in L*a*b* inside a box under which one paint does for all of it. */
const SPREAD = 3;
/** Steps of a channel that are counted as one cell. */
const CELL_BITS = 3;

/** `light`: linear light of pixels, three numbers each. The largest share first; shares add up to 1. */
export function mainColors(light: Float32Array): MainColor[] {
  let boxes: (readonly Cell[])[] = [cellsOf(light)];
  if (boxes[0].length === 0) return [];
  while (boxes.length < MOST) {
    const cuts = boxes.map((box) => (spread(box) > SPREAD ? bestCut(box) : null));
    const widest = cuts.reduce((best, cut, i) => (cut && cut.gain > (cuts[best]?.gain ?? 0) ? i : best), 0);
    const cut = cuts[widest];
    if (!cut) break;
    boxes = boxes.flatMap((box, i) => (i === widest ? [cut.below, cut.above] : [box]));
  }
  const pixels = light.length / 3;
  return joined(boxes.map(meanOf))
    .map(({ sum, count }) => ({ light: each((k) => sum[k] / count), share: count / pixels }))
    .sort((a, b) => b.share - a.share)
    .map(({ light: mean, share }): MainColor => ({ hex: hexOf(mean), words: colorName(labOf(mean)), share }));
}

interface Paint {
  /** Of linear light. */
  readonly sum: Light;
  readonly count: number;
}

interface Cell extends Paint {
  readonly lab: Lab;
}

function cellsOf(light: Float32Array): Cell[] {
  const side = 1 << (8 - CELL_BITS);
  const sums = new Float64Array(4 * side ** 3);
  for (let i = 0; i < light.length; i += 3) {
    let cell = 0;
    for (let k = 0; k < 3; k++) cell = cell * side + (Math.round(255 * encoded(Math.min(1, Math.max(0, light[i + k])))) >> CELL_BITS);
    for (let k = 0; k < 3; k++) sums[4 * cell + k] += light[i + k];
    sums[4 * cell + 3]++;
  }
  const cells: Cell[] = [];
  for (let o = 0; o < sums.length; o += 4) {
    const count = sums[o + 3];
    if (count > 0) cells.push({ sum: [sums[o], sums[o + 1], sums[o + 2]], count, lab: labOf(each((k) => sums[o + k] / count)) });
  }
  return cells;
}

/** Root of the mean square distance from the mean. */
function spread(box: readonly Cell[]): number {
  const { count, squares } = moments(box);
  return Math.sqrt(squares / count);
}

/** `squares`: summed square distance from the mean. */
function moments(box: readonly Cell[]): { count: number; squares: number } {
  let [count, squares] = [0, 0];
  const sum = [0, 0, 0];
  for (const cell of box) {
    count += cell.count;
    for (let k = 0; k < 3; k++) {
      sum[k] += cell.count * cell.lab[k];
      squares += cell.count * cell.lab[k] ** 2;
    }
  }
  return { count, squares: squares - (sum[0] ** 2 + sum[1] ** 2 + sum[2] ** 2) / count };
}

interface Cut {
  readonly below: readonly Cell[];
  readonly above: readonly Cell[];
  /** How much of the summed square distance it takes away. */
  readonly gain: number;
}

/** Across one of the three axes, where the two sides' means lie farthest apart for their weight. */
function bestCut(box: readonly Cell[]): Cut | null {
  let best: { sorted: readonly Cell[]; at: number; gain: number } | null = null;
  for (const axis of [0, 1, 2] as const) {
    const sorted = [...box].sort((a, b) => a.lab[axis] - b.lab[axis]);
    const whole = weightsOf(sorted);
    let [count, l, a, b] = [0, 0, 0, 0];
    for (let i = 0; i + 1 < sorted.length; i++) {
      const cell = sorted[i];
      count += cell.count;
      l += cell.count * cell.lab[0];
      a += cell.count * cell.lab[1];
      b += cell.count * cell.lab[2];
      if (cell.lab[axis] === sorted[i + 1].lab[axis]) continue;
      const rest = whole.count - count;
      const apart = [l, a, b].reduce((sum, s, k) => sum + (s / count - (whole.lab[k] - s) / rest) ** 2, 0);
      const gain = ((count * rest) / whole.count) * apart;
      if (!best || gain > best.gain) best = { sorted, at: i + 1, gain };
    }
  }
  return best && { below: best.sorted.slice(0, best.at), above: best.sorted.slice(best.at), gain: best.gain };
}

function weightsOf(box: readonly Cell[]): { count: number; lab: Lab } {
  const sum = (of: (cell: Cell) => number): number => box.reduce((total, cell) => total + of(cell), 0);
  return { count: sum(({ count }) => count), lab: each((k) => sum(({ count, lab }) => count * lab[k])) };
}

function meanOf(box: readonly Cell[]): Paint {
  return box.reduce<Paint>(together, { sum: [0, 0, 0], count: 0 });
}

/** Paints that look alike, that are hardly used, or that are the blurred border of two others, made one with the nearest, the nearest pair first. */
function joined(paints: readonly Paint[]): readonly Paint[] {
  const total = paints.reduce((sum, { count }) => sum + count, 0);
  const left = [...paints];
  while (left.length > 1) {
    let pair: { i: number; j: number; apart: number } | null = null;
    const touches = left.map((paint) => paint.count < LEAST_SHARE * total || (paint.count < BLEND_SHARE * total && isBlend(paint, left)));
    for (let i = 0; i < left.length; i++) {
      for (let j = i + 1; j < left.length; j++) {
        const apart = colorDifference(labOf(mean(left[i])), labOf(mean(left[j])));
        const one = apart < ONE_PAINT || touches[i] || touches[j];
        if (one && (!pair || apart < pair.apart)) pair = { i, j, apart };
      }
    }
    if (!pair) break;
    left[pair.i] = together(left[pair.i], left[pair.j]);
    left.splice(pair.j, 1);
  }
  return left;
}

/** Whether it looks like light of two others mixed, both of which there is more of. */
function isBlend(paint: Paint, all: readonly Paint[]): boolean {
  const lab = labOf(mean(paint));
  const larger = all.filter(({ count }) => count > paint.count).map(mean);
  return larger.some((one, i) => larger.slice(i + 1).some((other) => {
    const mixtures = Array.from({ length: MIXED_STEPS - 1 }, (_, n) => (n + 1) / MIXED_STEPS);
    return mixtures.some((share) => colorDifference(lab, labOf(each((k) => one[k] + share * (other[k] - one[k])))) < ONE_PAINT);
  }));
}

const together = (a: Paint, b: Paint): Paint => ({ sum: each((k) => a.sum[k] + b.sum[k]), count: a.count + b.count });
const mean = ({ sum, count }: Paint): Light => each((k) => sum[k] / count);
const each = (of: (k: 0 | 1 | 2) => number): [number, number, number] => [of(0), of(1), of(2)];
