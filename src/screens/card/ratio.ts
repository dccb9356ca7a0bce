/** A ratio as labels write it: `2:1`, `100 : 45`, `2 to 1`, `3/1`. */

/** Longer than any ratio on a label. */
const TEXT_MAX = 40;

/** Part A and part B, both above 0; null where it is no ratio. A comma is a decimal one. */
export function readRatio(text: string): readonly [number, number] | null {
  if (text.length > TEXT_MAX) return null;
  const found = /^\s*(\d+(?:[.,]\d+)?)\s*(?::|\/|to)\s*(\d+(?:[.,]\d+)?)\s*$/i.exec(text);
  if (!found) return null;
  const [a, b] = [found[1], found[2]].map((part) => Number(part.replace(',', '.')));
  return a > 0 && b > 0 ? [a, b] : null;
}
