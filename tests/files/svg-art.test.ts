/** A drawing's painted outlines against closed forms and the rules of SVG 1.1; attacks get nothing but numbers through. */
import { describe, expect, it } from 'vitest';
import type { ArtShape } from '../../src/core/sheet/template-art.ts';
import { ringArea } from '../../src/core/sheet/polygon.ts';
import { sceneFail } from '../../src/files/fail.ts';
import { readSvgArt } from '../../src/files/svg-art.ts';
import { SVG_ATTACKS, SVG_BOMB } from './svg-attacks.ts';

/** Share of the width that a curve's points may stray. */
const TOLERANCE = 1e-6;
const bytes = (text: string) => new TextEncoder().encode(text);
const read = (svg: string) => readSvgArt(bytes(svg), sceneFail('art.svg'), TOLERANCE);
/** A drawing of 100 × 100, so that a share is a hundredth. */
const shapes = (inside: string, attributes = ''): readonly ArtShape[] => read(`<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100" ${attributes}>${inside}</svg>`).shapes;
/** Unsigned area of all rings in the drawing's own units; rings apart. */
const area = ({ rings }: ArtShape): number => rings.reduce((sum, { points }) => sum + Math.abs(ringArea(points)), 0) * 1e4;
const corners = ({ rings }: ArtShape): number[][] => rings[0].points.map(([x, y]) => [x * 100, y * 100].map((value) => Math.round(value * 1e9) / 1e9));
/** Chords of a convex curve of length L lose at most 2/3 · L · tolerance; 100 wide. */
const LOST = 400 * TOLERANCE * 100;

describe('areas of painted shapes', () => {
  it.each([
    ['a circle, πr²', '<circle cx="50" cy="50" r="30"/>', Math.PI * 900],
    ['an ellipse turned and stretched, πab · |det|', '<ellipse cx="20" cy="10" rx="12" ry="5" transform="rotate(25) scale(2 1.5)"/>', Math.PI * 60 * 3],
    ['a rectangle with round corners, wh − (4 − π)r²', '<rect x="5" y="5" width="60" height="40" rx="8"/>', 2400 - (4 - Math.PI) * 64],
    ['a rectangle with corners wider than it, an ellipse', '<rect width="60" height="40" rx="90" ry="90"/>', Math.PI * 600],
    ['a parabola’s segment, ⅔ of its triangle’s box (Archimedes)', '<path d="M10 90 Q40 -30 70 90z"/>', (2 / 3) * 60 * 60],
    ['a cubic arch with its handles h up, 3/5 · w · h (Green)', '<path d="M10 80 C10 30 60 30 60 80z"/>', 0.6 * 50 * 50],
    ['two arcs of a circle, flags run together', '<path d="M20 50a30 30 0 1160 0 30 30 0 11-60 0z"/>', Math.PI * 900],
    ['an arc whose radii are too small grows to a half circle (F.6.6)', '<path d="M20 50A1 1 0 0 1 80 50z"/>', (Math.PI * 900) / 2],
    ['skewing keeps the area', '<rect width="20" height="10" transform="translate(30 30) skewX(30)"/>', 200],
  ])('%s', (_, inside, expected) => {
    const [shape] = shapes(inside);
    expect(Math.abs(area(shape) - expected)).toBeLessThan(LOST);
  });

  it.each([
    ['cubic', 'M0 50C0 20 30 20 30 50S60 80 60 50', 2 * 0.6 * 30 * 30],
    ['quadratic', 'M0 50Q10 20 20 50T40 50', 2 * (2 / 3) * 20 * 15],
  ])('a smooth %s mirrors the handle before it: as much under the line as over it', (_, d, expected) => {
    const { points } = shapes(`<path d="${d}"/>`)[0].rings[0];
    const over = points.slice(1).reduce((sum, [x, y], i) => sum + Math.abs((y + points[i][1]) / 2 - 0.5) * (x - points[i][0]), 0) * 1e4;
    expect(Math.abs(over - expected)).toBeLessThan(LOST);
  });
});

describe('places', () => {
  it('transforms nest as in SVG 1.1 §7.5: the outer is applied last', () => {
    expect(corners(shapes('<g transform="translate(50 90)"><g transform="rotate(-90)"><g transform="translate(10,0) scale(2)"><path d="M0 0H10V5z"/></g></g></g>')[0])).toEqual([[50, 80], [50, 60], [60, 60]]);
  });

  it('turns about a point, and takes a matrix column by column', () => {
    expect(corners(shapes('<path transform="rotate(90 10 10)" d="M10 10h10v5z"/>')[0])).toEqual([[10, 10], [10, 20], [5, 20]]);
    expect(corners(shapes('<path transform="matrix(1 2 3 4 5 6)" d="M1 1h1v1z"/>')[0])).toEqual([[9, 12], [10, 14], [13, 18]]);
  });

  it.each([
    ['meets in the middle', '', [[25, 0], [75, 0], [75, 100], [25, 100]]],
    ['meets at the left', 'preserveAspectRatio="xMinYMin"', [[0, 0], [50, 0], [50, 100], [0, 100]]],
    ['slices', 'preserveAspectRatio="xMidYMax slice"', [[0, -100], [100, -100], [100, 100], [0, 100]]],
    ['stretches', 'preserveAspectRatio="none"', [[0, 0], [100, 0], [100, 100], [0, 100]]],
  ])('a viewBox %s (SVG 1.1 §7.8)', (_, how, expected) => {
    expect(corners(shapes('<rect x="1" y="2" width="10" height="20"/>', `viewBox="1 2 10 20" ${how}`)[0])).toEqual(expected);
  });

  it('repeats a symbol where it is used, in its own box', () => {
    const svg = '<symbol id="s" viewBox="0 0 1 1"><path d="M0 0h1v1z"/></symbol><use href="#s" x="10" y="20" width="30" height="30"/><use href="#s" x="50" width="10" height="10"/>';
    expect(shapes(svg).map(corners)).toEqual([[[10, 20], [40, 20], [40, 50]], [[50, 0], [60, 0], [60, 10]]]);
  });

  it.each([['width="10cm" height="5cm"', 0.5], ['viewBox="0 0 30 60"', 2], ['width="40" viewBox="0 0 30 60"', 2], ['width="100%" viewBox="0 0 30 60"', 2], ['', 0.5]])('%s is high against its width by %d, as a browser shows it', (size, expected) => {
    expect(read(`<svg ${size}><path d="M0 0h1"/></svg>`).highPerWide).toBeCloseTo(expected, 12);
  });
});

describe('what is painted', () => {
  it('comes from attributes, style sheets by weight, and the style attribute, in this order', () => {
    const svg = '<style>/* x */ .a{fill:none;stroke:#000} path.a{stroke-width:4px} #b{stroke:none} @media print{.a{fill:red}}</style>';
    expect(shapes(`${svg}<path class="a" fill="red" d="M0 0h9v9z"/>`)[0]).toMatchObject({ fill: null, stroke: 0.04 });
    expect(shapes(`${svg}<path class="a" id="b" d="M0 0h9v9z"/><path class="x a" style="stroke-width:2" d="M0 0h9v9z"/>`)).toMatchObject([{ stroke: 0.02 }]);
  });

  it('is inherited, scaled with its place, and left out where nothing is seen', () => {
    expect(shapes('<g fill="none" stroke="red" stroke-width="2" transform="scale(3)"><line x2="9"/></g>')[0]).toMatchObject({ fill: null, stroke: 0.06 });
    for (const unseen of ['display="none"', 'opacity="0"', 'visibility="hidden"', 'fill="none"', 'fill="transparent"', 'fill="#00000000"', 'fill="rgba(0,0,0,0)"', 'fill-opacity="0"']) expect(shapes(`<rect width="9" height="9" ${unseen}/>`), unseen).toEqual([]);
    expect(shapes('<rect width="9" height="9" fill="url(#g)"/><rect width="9" height="9" fill="rgb(0,0,0)"/>')).toHaveLength(2);
  });

  it('fills by its rule', () => {
    expect(shapes('<path fill-rule="evenodd" d="M0 0h9v9z"/><path d="M0 0h9v9z"/>').map(({ fill }) => fill)).toEqual(['evenodd', 'nonzero']);
  });

  it('tells what it can’t draw', () => {
    expect(read('<svg><text>pond</text><image width="9" height="9"/><g clip-path="url(#c)"><rect width="9" height="9"/></g></svg>').leftOut).toHaveLength(3);
  });

  it('is drawn up to a mistake in a path (SVG 1.1 F.2)', () => {
    expect(corners(shapes('<path d="M0 0L10 0 10 10 L x 9 9"/>')[0])).toEqual([[0, 0], [10, 0], [10, 10]]);
    expect(shapes('<path d="L10 10 20 20"/><path d=""/>')).toEqual([]);
  });
});

describe('refusals', () => {
  it.each([['', 'no drawing'], ['<html/>', '<html>'], ['<svg><g></svg>', 'closes nothing'], ['<svg', 'cut off'], [SVG_BOMB, 'elements']])('%.20s …', (svg, word) => {
    expect(() => read(svg)).toThrow(word);
    expect(() => read(svg)).toThrow(/^art\.svg: .*; expected /);
  });
});

describe('far outside the drawing', () => {
  it('shapes end at a thousand widths, so that joining outlines never runs out of digits', () => {
    const all = shapes('<circle r="1e308" cx="5"/><circle r="1e12"/><path d="M0 0L1e30 5L5 1e200z"/><path d="M0 0L50 1e9" stroke="#000" stroke-width="1e40"/>');
    expect(all.length).toBeGreaterThan(1);
    const farthest = all.flatMap(({ rings, stroke }) => [stroke, ...rings.flatMap(({ points }) => points.map(([x, y]) => Math.max(Math.abs(x), Math.abs(y))))]).reduce((a, b) => Math.max(a, b));
    expect(farthest).toBe(1000);
  });
});

describe('a drawing that attacks', () => {
  it.each(Object.entries(SVG_ATTACKS))('%s: numbers or a refusal', (_, svg) => {
    let art;
    try {
      art = read(svg);
    } catch (error) {
      expect((error as Error).message).toMatch(/^art\.svg: /);
      return;
    }
    const numbers = (value: unknown): boolean => typeof value === 'number' || typeof value === 'boolean' || value === null || value === 'nonzero' || value === 'evenodd' || (typeof value === 'object' && Object.values(value).every(numbers));
    expect(numbers(art.shapes)).toBe(true);
    expect(JSON.stringify(art)).not.toMatch(/attack|javascript|http|script/i);
  });
});
