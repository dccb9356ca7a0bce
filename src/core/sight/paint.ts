/**
 * Paint to read in color: what to paint so that it looks the wanted color through the water over it. Light comes back as
 * paint × what the water leaves, channel by channel in linear light; so the paint is wanted ÷ what is left. Where that is
 * brighter than white no paint can, and the nearest that can be seen is looked for by CIEDE2000, among colors of the wanted
 * one's hue: past gray the formula jumps (Sharma, Wu & Dalal 2005, on its discontinuities), and would now and then call a
 * gray of the other side nearer to a strong color than the same hue paler.
 */
import { colorDifference } from './color-difference.ts';
import { decoded, hexOf, labOf, lightOf, type Lab, type Light } from './color.ts';
import { differenceWords } from './color-words.ts';
import { colorName } from './colors/color-name.ts';

export interface PaintToRead {
  /** `#rrggbb`, all three. */
  readonly wanted: string;
  readonly paint: string;
  /** What that paint looks like through the water. */
  readonly seen: string;
  /** Whether some paint looks as wanted. */
  readonly possible: boolean;
  /** Of the seen color from the wanted one, CIEDE2000; 0 where it is possible. */
  readonly difference: number;
  readonly words: string;
}

/** Half a step of 256 over white is white. */
const WHITE = decoded(1 + 0.5 / 255);
/** Points a channel of the first search, and of each finer one; steps until a quarter of one of 256. */
const FIRST = 17;
const FINER = 5;
const FINEST = 1 / 1024;
/** Places that the finer searches begin from. */
const STARTS = 6;

export function paintToRead(wanted: string, left: Light): PaintToRead {
  const { light, possible, difference } = paintFor(lightOf(wanted), left);
  const seen = through(light, left);
  return { wanted: wanted.toLowerCase(), paint: hexOf(light), seen: hexOf(seen), possible, difference, words: wordsOf({ wanted: labOf(lightOf(wanted)), paint: light, seen: labOf(seen), possible, difference }) };
}

/** In linear light: the paint, or the one whose look comes nearest. `left` is above 0 in each channel. */
export function paintFor(wanted: Light, left: Light): { readonly light: Light; readonly possible: boolean; readonly difference: number } {
  const needed = map3((i) => wanted[i] / left[i]);
  if (needed.every((channel) => channel <= WHITE)) return { light: map3((i) => Math.min(1, needed[i])), possible: true, difference: 0 };
  const { light, difference } = nearest(labOf(wanted), left);
  return { light, possible: false, difference };
}

/** What a paint looks like through water that leaves so much of each channel. */
export function through(paint: Light, left: Light): Light {
  return map3((i) => paint[i] * left[i]);
}

interface Candidate {
  /** As files write it, where equal steps look about equal. */
  readonly at: Light;
  readonly difference: number;
}

function nearest(wanted: Lab, left: Light): { light: Light; difference: number } {
  const tried = (at: Light): Candidate => {
    const seen = labOf(through(map3((i) => decoded(at[i])), left));
    return { at, difference: otherHue(wanted, seen) ? Infinity : colorDifference(wanted, seen) };
  };
  // What is nearest to a color outside lies on the surface of what can be.
  const first = grid([0.5, 0.5, 0.5], 0.5, FIRST).filter((at) => at.some((channel) => channel === 0 || channel === 1)).map(tried).sort((a, b) => a.difference - b.difference);
  const starts = first.reduce<Candidate[]>((chosen, each) => (chosen.length < STARTS && chosen.every(({ at }) => apart(at, each.at) > 2.5 / (FIRST - 1)) ? [...chosen, each] : chosen), []);
  const found = starts.map((start) => {
    let best = start;
    for (let reach = 1 / (FIRST - 1); reach > FINEST; ) {
      const better = grid(best.at, reach, FINER).map(tried).reduce((a, b) => (b.difference < a.difference ? b : a), best);
      // Drawn together only once nothing better lies round it, so that a long valley is followed to its end.
      if (better === best) reach /= 2;
      best = better;
    }
    return best;
  });
  const { at, difference } = found.reduce((a, b) => (b.difference < a.difference ? b : a));
  return { light: map3((i) => decoded(at[i])), difference };
}

/** Whether two colors are of different hues: over 60° apart, gray being of any. */
export function otherHue([, a1, b1]: Lab, [, a2, b2]: Lab): boolean {
  return a1 * a2 + b1 * b2 < 0.5 * Math.hypot(a1, b1) * Math.hypot(a2, b2);
}

/** So many points a channel within `reach` of a place, inside 0 to 1. */
function grid(around: Light, reach: number, points: number): Light[] {
  const [r, g, b] = around.map((middle) => [...new Set(Array.from({ length: points }, (_, k) => Math.min(1, Math.max(0, middle + reach * ((2 * k) / (points - 1) - 1)))))]);
  return r.flatMap((x) => g.flatMap((y) => b.map((z): Light => [x, y, z])));
}

const apart = (a: Light, b: Light): number => Math.max(...a.map((channel, i) => Math.abs(channel - b[i])));

const map3 = (of: (i: 0 | 1 | 2) => number): Light => [of(0), of(1), of(2)];

function wordsOf({ wanted, paint, seen, possible, difference }: { wanted: Lab; paint: Light; seen: Lab; possible: boolean; difference: number }): string {
  const mixed = differenceWords(wanted, labOf(paint));
  const named = `${colorName(labOf(paint))}, ${hexOf(paint)}`;
  if (possible) return mixed === null ? `Paint it as it is to look, ${hexOf(paint)}: the water hardly changes it.` : `Paint it ${mixed}: ${named}.`;
  const looks = difference < 1 ? 'it looks all but the same' : `it will look ${differenceWords(wanted, seen) ?? 'a little different'}`;
  return `No paint looks quite so through this water. The nearest is ${named}: ${looks}.`;
}
