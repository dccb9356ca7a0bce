/** A drawing's painted outlines against closed forms and the rules of SVG 1.1; attacks get nothing but numbers through. */
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { isPainted, rulesOf } from '../../src/files/svg-style.ts';
import type { ArtShape } from '../../src/core/sheet/template-art.ts';
import { ringArea } from '../../src/core/sheet/polygon.ts';
import { sceneFail } from '../../src/files/fail.ts';
import { readSvgArt } from '../../src/files/svg-art.ts';
import { openRegions } from '../../src/files/regions.ts';
import { SVG_ATTACKS, SVG_BOMB } from './svg-attacks.ts';
import { BEYOND_LIBRSVG, SVG_DRAWINGS, drawnAgain } from './svg-drawings.ts';

const regions = await openRegions();
/** mm that a curve's points may stray; drawings are 100 mm wide, so that a share is a hundredth. */
const STRAY_MM = 1e-4;
const bytes = (text: string) => new TextEncoder().encode(text);
const read = (svg: string) => readSvgArt(bytes(svg), sceneFail('art.svg'), { widthMm: 100, strayMm: STRAY_MM, regions });
const drawing = (inside: string, attributes = '') => read(`<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100" ${attributes}>${inside}</svg>`);
const shapes = (inside: string, attributes = ''): readonly ArtShape[] => drawing(inside, attributes).shapes;
/** In the drawing's own units. */
const area = ({ rings }: ArtShape): number => rings.reduce((sum, ring) => sum + ringArea(ring), 0) * 1e4;
const areas = (inside: string): number => shapes(inside).reduce((sum, shape) => sum + area(shape), 0);
/** Sorted: the region library begins where it likes. */
const sorted = (points: readonly (readonly number[])[]): number[][] => points.map(([x, y]) => [x, y]).sort(([ax, ay], [bx, by]) => ax - bx || ay - by);
const corners = ({ rings }: ArtShape): number[][] => sorted(rings[0].map(([x, y]) => [x * 100, y * 100].map((value) => Math.round(value * 1e6) / 1e6)));
/** Chords of a convex curve of length L lose at most 2/3 · L · tolerance. */
const LOST = 400 * STRAY_MM;
/** The region library's grid along edges of some 100 mm. */
const GRID_MM2 = 1e-5;

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
    expect(Math.abs(area(shapes(`<path d="${d}"/>`)[0]) - expected)).toBeLessThan(LOST);
  });

  it('fills by its rule: squares within each other, either way round (SVG 2 §13.4.2)', () => {
    for (const [inner, sameWay] of [['M30 30h20v20h-20z', true], ['M30 30v20h20v-20z', false]] as const) {
      expect(Math.abs(areas(`<path fill-rule="evenodd" d="M20 20h40v40h-40z${inner}"/>`) - 1200)).toBeLessThan(GRID_MM2);
      expect(Math.abs(areas(`<path d="M20 20h40v40h-40z${inner}"/>`) - (sameWay ? 1600 : 1200))).toBeLessThan(GRID_MM2);
    }
  });
});

describe('areas of strokes (SVG 2 §13.5)', () => {
  const stroked = (d: string, style = ''): number => areas(`<path d="${d}" fill="none" stroke="#000" stroke-width="6" ${style}/>`);
  it.each([
    ['butt ends: length × width', 'M10 10h30', '', 180],
    ['round ends, two half circles', 'M10 10h30', 'stroke-linecap="round"', 180 + 9 * Math.PI],
    ['square ends, half a width each', 'M10 10h30', 'stroke-linecap="square"', 180 + 36],
    ['a right corner with a miter', 'M10 10h30v30', '', 2 * 180],
    ['rounded', 'M10 10h30v30', 'stroke-linejoin="round"', 2 * 180 - 9 + (9 * Math.PI) / 4],
    ['beveled', 'M10 10h30v30', 'stroke-linejoin="bevel"', 2 * 180 - 4.5],
    ['beveled past its limit: √2 at a right corner', 'M10 10h30v30', 'stroke-miterlimit="1.41"', 2 * 180 - 4.5],
    ['mitered up to it', 'M10 10h30v30', 'stroke-miterlimit="1.42"', 2 * 180],
    ['a ring of lines', 'M10 10h40v40h-40z', '', 46 ** 2 - 34 ** 2],
    ['dashes 5 and gaps 3: 25 of 40', 'M10 10h40', 'stroke-dasharray="5 3"', 25 * 6],
    ['an odd number of lengths, twice: 5, 2, 3, 5, 2, 3', 'M10 10h40', 'stroke-dasharray="5 2 3"', (5 + 3 + 2 + 5 + 3 + 2) * 6],
    ['begun later', 'M10 10h40', 'stroke-dasharray="10 30" stroke-dashoffset="35"', 10 * 6],
    ['dots: dashes of no length, round', 'M10 10h40', 'stroke-dasharray="0 9" stroke-linecap="round"', 5 * 9 * Math.PI],
    ['a length that is said to be 4: dashes of a quarter', 'M10 10h40', 'pathLength="4" stroke-dasharray="1"', 20 * 6],
    ['a negative length draws it whole', 'M10 10h40', 'stroke-dasharray="5 -1"', 240],
  ])('%s', (_, d, style, expected) => {
    expect(Math.abs(stroked(d, style) - expected)).toBeLessThan(LOST);
  });

  it('a circle’s is a ring, stretched with it; as wide as it is said to be where its width is to stay', () => {
    const circle = (more: string): number => areas(`<circle r="10" fill="none" stroke="#000" stroke-width="4" ${more}/>`);
    expect(Math.abs(circle('transform="translate(50 50) scale(3 2)"') - 6 * Math.PI * (12 ** 2 - 8 ** 2))).toBeLessThan(LOST);
    expect(Math.abs(circle('transform="translate(50 50) scale(3)" vector-effect="non-scaling-stroke"') - Math.PI * (32 ** 2 - 28 ** 2))).toBeLessThan(LOST);
  });

  it('no hole is left where a stroke is wider than what it goes round', () => {
    expect(Math.abs(areas('<circle cx="50" cy="50" r="5" fill="none" stroke="#000" stroke-width="20"/>') - Math.PI * 15 ** 2)).toBeLessThan(LOST);
  });
});

describe('clips and masks (CSS Masking Level 1 §6, §7.10)', () => {
  const RECT = '<rect width="100" height="100" clip-path="url(#c)"/>';
  const HALF = '<rect width="50" height="100"/>';
  it.each([
    ['circles that overlap count once', `<clipPath id="c"><circle cx="50" cy="50" r="20"/><circle cx="50" cy="50" r="10"/></clipPath>${RECT}`, 400 * Math.PI],
    ['an empty one hides all', `<clipPath id="c"/>${RECT}`, 0],
    ['shares of a box that has no height hide all', '<clipPath id="c" clipPathUnits="objectBoundingBox"><rect width="1" height="1"/></clipPath><line x2="50" stroke="#000" stroke-width="9" clip-path="url(#c)"/>', 0],
    ['a clip on the clip is cut out of it, in what is clipped', `<clipPath id="d" clipPathUnits="objectBoundingBox"><rect width=".5" height="1"/></clipPath><clipPath id="c" clip-path="url(#d)"><rect width="80" height="10"/></clipPath>${RECT}`, 500],
  ])('%s', (_, svg, expected) => {
    expect(Math.abs(areas(svg) - expected)).toBeLessThan(LOST);
    expect(drawing(svg).leftOut).toEqual([]);
  });

  it.each([
    ['named and not there', RECT, 10_000],
    ['no clip but a gradient', `<linearGradient id="c"/>${RECT}`, 10_000],
    ['made of itself', `<clipPath id="c" clip-path="url(#c)">${HALF}</clipPath>${RECT}`, 5_000],
    ['made of each other', `<clipPath id="d" clip-path="url(#c)">${HALF}</clipPath><clipPath id="c" clip-path="url(#d)"><rect width="100" height="50"/></clipPath>${RECT}`, 2_500],
    ['lost in a part of a clip', `<clipPath id="c"><rect width="50" height="100" clip-path="url(#no)"/></clipPath>${RECT}`, 5_000],
    ['a mask of itself', '<mask id="m"><rect width="50" height="100" fill="#fff" mask="url(#m)"/></mask><rect width="100" height="100" mask="url(#m)"/>', 5_000],
  ])('one that is %s hides nothing, and is told', (_, svg, expected) => {
    const { leftOut } = drawing(svg);
    expect(Math.abs(areas(svg) - expected)).toBeLessThan(GRID_MM2);
    expect(leftOut).toHaveLength(1);
    expect(leftOut[0]).toMatch(/not there, or is made of itself/);
  });

  it.each([
    ['lettering', `<clipPath id="c"><text>pond</text></clipPath>${RECT}`, /lettering/],
    ['a CSS shape', '<rect width="100" height="100" style="clip-path:circle(40%)"/>', /CSS shape/],
    ['gray', '<mask id="m"><rect width="50" height="50" fill="#888"/></mask><rect width="100" height="100" mask="url(#m)"/>', /black and white/],
    ['half white', '<mask id="m"><g opacity=".5"><rect width="50" height="50" fill="#fff"/></g></mask><rect width="100" height="100" mask="url(#m)"/>', /black and white/],
    ['a picture', '<mask id="m"><image width="50" height="50"/></mask><rect width="100" height="100" mask="url(#m)"/>', /black and white/],
  ])('of %s is told, and all is drawn', (_, svg, words) => {
    expect(areas(svg)).toBeCloseTo(10_000, 4);
    expect(drawing(svg).leftOut).toEqual([expect.stringMatching(words)]);
  });
});

describe('drawings as drawing programs write them, as librsvg paints them', () => {
  const WIDE = 400;
  it.each(Object.entries(SVG_DRAWINGS).filter(([name]) => !BEYOND_LIBRSVG.has(name)))('%s', async (_, svg) => {
    const { shapes: painted, highPerWide } = read(svg);
    const size = { width: WIDE, height: Math.round(WIDE * highPerWide), fit: 'fill' } as const;
    const { width } = await sharp(bytes(svg)).metadata();
    const alpha = (text: string, density: number) => sharp(bytes(text), { density }).resize(size).ensureAlpha().extractChannel(3).raw().toBuffer();
    const [ours, theirs] = await Promise.all([alpha(drawnAgain(painted, highPerWide, WIDE), 72), alpha(svg, (72 * WIDE) / width)]);
    // An edge may fall to either side of a pixel's middle; nothing else differs.
    expect(ours.filter((value, i) => Math.abs(value - theirs[i]) > 160)).toHaveLength(0);
    const covered = (pixels: Uint8Array): number => pixels.reduce((sum, value) => sum + value, 0) / 255;
    expect(Math.abs(covered(ours) - covered(theirs)) / covered(theirs)).toBeLessThan(0.002);
  });
});

describe('places', () => {
  it('transforms nest as in SVG 1.1 §7.5: the outer is applied last', () => {
    expect(corners(shapes('<g transform="translate(50 90)"><g transform="rotate(-90)"><g transform="translate(10,0) scale(2)"><path d="M0 0H10V5z"/></g></g></g>')[0])).toEqual([[50, 60], [50, 80], [60, 60]]);
  });

  it('turns about a point, and takes a matrix column by column', () => {
    expect(corners(shapes('<path transform="rotate(90 10 10)" d="M10 10h10v5z"/>')[0])).toEqual([[5, 20], [10, 10], [10, 20]]);
    expect(corners(shapes('<rect width="10" height="5" style="transform:rotate(90deg);transform-origin:10px 0"/>')[0])).toEqual([[5, -10], [5, 0], [10, -10], [10, 0]]);
    expect(corners(shapes('<path transform="matrix(1 2 3 4 5 6)" d="M1 1h1v1z"/>')[0])).toEqual([[9, 12], [10, 14], [13, 18]]);
  });

  it.each([
    ['meets in the middle', '', [[25, 0], [75, 0], [75, 100], [25, 100]]],
    ['meets at the left', 'preserveAspectRatio="xMinYMin"', [[0, 0], [50, 0], [50, 100], [0, 100]]],
    ['slices', 'preserveAspectRatio="xMidYMax slice"', [[0, -100], [100, -100], [100, 100], [0, 100]]],
    ['stretches', 'preserveAspectRatio="none"', [[0, 0], [100, 0], [100, 100], [0, 100]]],
  ])('a viewBox %s (SVG 1.1 §7.8)', (_, how, expected) => {
    expect(corners(shapes('<rect x="1" y="2" width="10" height="20"/>', `viewBox="1 2 10 20" ${how}`)[0])).toEqual(sorted(expected));
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
    expect(shapes(`${svg}<path class="a" fill="red" d="M0 0h9v9z"/>`)[0]).toMatchObject({ kind: 'stroke', stroke: 0.04 });
    expect(shapes(`${svg}<path class="a" id="b" d="M0 0h9v9z"/><path class="x a" style="stroke-width:2" d="M0 0h9v9z"/>`)).toMatchObject([{ stroke: 0.02 }]);
  });

  it('is inherited, scaled with its place, and left out where nothing is seen', () => {
    expect(shapes('<g fill="none" stroke="red" stroke-width="2" transform="scale(3)"><line x2="9"/></g>')[0]).toMatchObject({ kind: 'stroke', stroke: 0.06 });
    for (const unseen of ['display="none"', 'opacity="0"', 'visibility="hidden"', 'fill="none"', 'fill="transparent"', 'fill="#00000000"', 'fill="rgba(0,0,0,0)"', 'fill="rgb(0 0 0 / 0%)"', 'fill="url(#nowhere)"', 'fill="url(other.svg#g)"', 'fill-opacity="0"']) expect(shapes(`<rect width="9" height="9" ${unseen}/>`), unseen).toEqual([]);
    expect(shapes('<linearGradient id="g"/><rect width="9" height="9" fill="url(#g)"/><rect width="9" height="9" fill="rgb(0,0,0)"/>')).toHaveLength(2);
  });

  it('tells what it can’t draw', () => {
    expect(read('<svg><text>pond</text><image width="9" height="9"/><path d="M0 0h9" stroke="#000" marker-end="url(#a)"/><rect width="9" height="9" filter="url(#f)"/></svg>').leftOut).toHaveLength(4);
    expect(read('<svg><rect clip-path="url(#c)" width="9" height="9"/><clipPath id="c"/><text visibility="hidden">pond</text></svg>').leftOut).toEqual([]);
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
    const farthest = all.flatMap(({ rings, stroke }) => [stroke, ...rings.flatMap((ring) => ring.map(([x, y]) => Math.max(Math.abs(x), Math.abs(y))))]).reduce((a, b) => Math.max(a, b));
    expect(farthest).toBeCloseTo(1000, 6);
  });
});

describe('what would take long', () => {
  it('lines that run back and forth too densely are refused, with what to do', () => {
    const zigzag = Array.from({ length: 30_000 }, (_, i) => `${(i / 300).toFixed(3)} ${i % 2 === 0 ? 0 : 90}`).join('L');
    expect(() => shapes(`<path d="M${zigzag}z"/>`)).toThrow(/too densely; expected fewer points. Simplify/);
  });

  it('no number is too large or too small', () => {
    const wild = ['1e308', '-1e308', '1e-308', '0', '1e20', 'NaN'];
    for (const a of wild) for (const b of wild) {
      const read = shapes(`<g transform="scale(${a} ${b})"><path d="M0 0L5 ${a}C1 2 3 4 ${b} 6A${a} ${b} 0 0 1 9 9z" stroke="#000" stroke-width="${a}" stroke-linejoin="round" stroke-linecap="round" stroke-dasharray="${b} ${a} 1" stroke-dashoffset="${a}" clip-path="url(#c)"/></g><clipPath id="c" clipPathUnits="objectBoundingBox"><circle r="${b}"/></clipPath>`);
      // NaN and infinity would be null.
      expect(JSON.stringify(read)).not.toContain('null');
    }
  });

  it('is not looked at again and again: style sheets and values of several 100,000 letters', () => {
    const long = (text: string): string => text.repeat(400_000 / text.length);
    for (const css of [long('a'), long('@'), long('/*'), long('{'), long('a{}'), long('a,')]) expect(shapes(`<style>${css}</style><rect width="9" height="9" style="${long('a')}"/>`)).toHaveLength(1);
    expect(shapes(`<rect width="9" height="9" transform="${long('scale(')}" fill="${long('rgb(')}"/>`)).toHaveLength(1);
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
    const numbers = (value: unknown): boolean => typeof value === 'number' || value === 'fill' || value === 'stroke' || value === 'frame' || (typeof value === 'object' && value !== null && Object.values(value).every(numbers));
    expect(numbers(art.shapes)).toBe(true);
    expect(JSON.stringify(art)).not.toMatch(/attack|javascript|http|script/i);
  });
});

it('takes ten thousand references in a row and as many media within each other without losing its stack', () => {
  const paints = 'url(#a)'.repeat(10_000);
  expect(isPainted(paints, '1', { color: 'black', exists: () => false })).toBe(false);
  expect(rulesOf(`${'@media all{'.repeat(10_000)}rect{fill:red}`).size).toBe(0);
  expect(rulesOf('@media all{@media screen{rect{fill:red}}}').size).toBe(1);
});
