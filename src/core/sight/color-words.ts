/** How one color differs from another, in a painter's words. */
import { colorDifference } from './color-difference.ts';
import type { Lab } from './color.ts';

/** By CIEDE2000 (common practice, no source): under the first nobody sees it. */
const SEEN = 1;
const HOW_MUCH: readonly { readonly upTo: number; readonly words: string }[] = [
  { upTo: 5, words: 'a little ' },
  { upTo: 10, words: '' },
  { upTo: Infinity, words: 'much ' },
];
/** Of the whole difference: what is less goes without saying. */
const WORTH_SAYING = 0.4;
/** Chroma under which a color has no hue to speak of. */
const GRAY = 8;

/** `a little darker and greener`; null: no one sees it. */
export function differenceWords(from: Lab, to: Lab): string | null {
  const difference = colorDifference(from, to);
  if (difference < SEEN) return null;
  const [dL, da, db] = to.map((value, i) => value - from[i]);
  const [C1, C2] = [from, to].map(([, a, b]) => Math.hypot(a, b));
  const dC = C2 - C1;
  const dH = Math.sqrt(Math.max(0, da * da + db * db - dC * dC));
  const hue = Math.abs(da) > Math.abs(db) ? (da > 0 ? 'redder' : 'greener') : db > 0 ? 'yellower' : 'bluer';
  // From gray and into it, which way says more than how much.
  const strength = Math.min(C1, C2) < GRAY && dC > 0 ? hue : dC > 0 ? 'stronger' : 'grayer';
  const C = (C1 + C2) / 2;
  // Steps of strong colors look smaller: weighed as CIEDE2000 weighs them.
  const sides = [
    { size: Math.abs(dL), words: dL > 0 ? 'lighter' : 'darker' },
    { size: Math.abs(dC) / (1 + 0.045 * C), words: strength },
    { size: dH / (1 + 0.015 * C), words: hue },
  ].sort((a, b) => b.size - a.size);
  const said = [...new Set(sides.filter(({ size }) => size >= WORTH_SAYING * sides[0].size).map(({ words }) => words))].slice(0, 2);
  return `${HOW_MUCH.find(({ upTo }) => difference < upTo)!.words}${said.join(' and ')}`;
}
