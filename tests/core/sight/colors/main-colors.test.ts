/** The few colors of a plane: flat ones come back as they are, noise and blurred borders are no paints, a small eye is one. */
import { describe, expect, it } from 'vitest';
import { labOf, lightOf } from '../../../../src/core/sight/color.ts';
import { colorName } from '../../../../src/core/sight/colors/color-name.ts';
import { mainColors } from '../../../../src/core/sight/colors/main-colors.ts';
import { seeded } from '../../solid/oracle.ts';

/** So many pixels of each color. */
const pixels = (...parts: readonly (readonly [hex: string, count: number])[]): Float32Array => Float32Array.from(parts.flatMap(([hex, count]) => Array.from({ length: count }, () => [...lightOf(hex)]).flat()));

const named = (hex: string): string => colorName(labOf(lightOf(hex)));

describe('main colors', () => {
  it('of up to five flat colors are those, with their shares, the most first, in whatever order they come', () => {
    const parts = [['#203040', 400], ['#c87137', 300], ['#f0e0c0', 200], ['#4a7a3a', 70], ['#101010', 30]] as const;
    const expected = parts.map(([hex, count]) => ({ hex, share: count / 1000 }));
    for (const order of [parts, [...parts].reverse()]) {
      expect(mainColors(pixels(...order)).map(({ hex, share }) => ({ hex, share }))).toEqual(expected);
    }
  });

  it('of many colors are at most five, and their shares add up to 1', () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const random = seeded(seed);
      const found = mainColors(Float32Array.from({ length: 9000 }, random));
      expect(found.length).toBeGreaterThan(1);
      expect(found.length).toBeLessThanOrEqual(5);
      expect(found.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
      expect(found.map(({ share }) => share)).toEqual(found.map(({ share }) => share).sort((a, b) => b - a));
    }
  });

  it('of one color with noise on it are one, its mean light', () => {
    const random = seeded(7);
    const [r, g, b] = lightOf('#c87137');
    const light = Float32Array.from({ length: 6000 }, (_, i) => [r, g, b][i % 3] * (0.95 + 0.1 * random()));
    const found = mainColors(light);
    expect(found).toHaveLength(1);
    expect(found[0].share).toBe(1);
    const mean = [0, 1, 2].map((k) => light.reduce((sum, value, i) => sum + (i % 3 === k ? value : 0), 0) / 2000);
    lightOf(found[0].hex).forEach((channel, k) => expect(Math.abs(channel - mean[k])).toBeLessThan(0.004));
  });

  it('take the blurred border of two for neither, but an eye as small for a paint', () => {
    const [one, other] = [lightOf('#c02020'), lightOf('#f0f0f0')];
    const border = Array.from({ length: 40 }, (_, i) => one.map((channel, k) => channel + ((i + 0.5) / 40) * (other[k] - channel))).flat();
    const light = Float32Array.from([...pixels(['#c02020', 500], ['#f0f0f0', 420]), ...border, ...pixels(['#101010', 40])]);
    expect(mainColors(light).map(({ words }) => words).sort()).toEqual(['black', 'red', 'white']);
  });

  it('of nothing are none', () => expect(mainColors(new Float32Array(0))).toEqual([]));
});

// Values: CSS Color Module Level 4, §6.1 Named Colors; the words are what they are called there or what anyone calls them.
it.each([
  ['#ff0000', 'red'], ['#ffa500', 'orange'], ['#ffff00', 'yellow'], ['#008000', 'green'], ['#0000ff', 'blue'], ['#000080', 'dark blue'], ['#8b4513', 'brown'], ['#a0522d', 'brown'],
  ['#f5f5dc', 'cream'], ['#ffffff', 'white'], ['#000000', 'black'], ['#808080', 'gray'], ['#d3d3d3', 'light gray'], ['#fa8072', 'pink'], ['#008080', 'blue-green'], ['#006400', 'green'], ['#ee82ee', 'violet'], ['#ffd700', 'yellow'], ['#d2b48c', 'beige'],
])('%s is called %s', (hex, words) => expect(named(hex)).toBe(words));

// The same table: names there that say a hue of their own.
it.each([
  ['ghost white', '#f8f8ff', /white/], ['floral white', '#fffaf0', /white|cream/], ['white smoke', '#f5f5f5', /white/], ['snow', '#fffafa', /white/], ['mint cream', '#f5fffa', /white/], ['azure', '#f0ffff', /white/], ['ivory', '#fffff0', /white/],
  ['lavender blush', '#fff0f5', /white/], ['alice blue', '#f0f8ff', /white/], ['honeydew', '#f0fff0', /white/], ['old lace', '#fdf5e6', /white|cream/], ['pink', '#ffc0cb', /pink/], ['light pink', '#ffb6c1', /pink/], ['hot pink', '#ff69b4', /pink/],
  ['olive', '#808000', /^olive$/], ['dark olive green', '#556b2f', /^olive green$/], ['magenta', '#ff00ff', /^magenta$/], ['dark red', '#8b0000', /^dark red$/], ['midnight blue', '#191970', /^dark blue$/], ['saddle brown', '#8b4513', /^brown$/], ['orange red', '#ff4500', /^(orange|red)$/],
  ['pale green', '#98fb98', /green/], ['light blue', '#add8e6', /^pale blue$/], ['light yellow', '#ffffe0', /white|yellow|cream/], ['tan', '#d2b48c', /beige/], ['thistle', '#d8bfd8', /violet/], ['indigo', '#4b0082', /^dark violet$/],
] as const)('%s, %s, is called like %s', (_, hex, words) => expect(named(hex)).toMatch(words));

it('no color of the whole grid gets words that nobody says: no dark yellow, no grayish orange, no dark pink, nothing light and grayish', () => {
  const steps = Array.from({ length: 18 }, (_, i) => (15 * i).toString(16).padStart(2, '0'));
  const all = new Set(steps.flatMap((r) => steps.flatMap((g) => steps.map((b) => `#${r}${g}${b}`))));
  for (const hex of all) {
    const words = named(hex);
    expect(words.split(' ').length, `${hex}: ${words}`).toBeLessThanOrEqual(3);
    expect(words, hex).not.toMatch(/light grayish|(dark|grayish) (yellow$|orange|cream|beige|magenta)|dark (grayish )?(rose|pink)|grayish (brown|wine)|undefined/);
    const [L, a, b] = labOf(lightOf(hex));
    // CIE 15: L* of white is 100. Nobody sees much of a hue so near to it, nor of any so near to black.
    if (L > 94 && Math.hypot(a, b) < 12) expect(words, hex).toMatch(/white$|cream/);
    if (L < 8 && Math.hypot(a, b) < 20) expect(words, hex).toMatch(/black$/);
  }
});
