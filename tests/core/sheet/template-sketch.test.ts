/** Sketches on templates: to size, where they lie in the mold, within the wall, each ink by its number; read back by pdfjs-dist. */
import { describe, expect, it } from 'vitest';
import type { PathItem } from '../../../src/core/sheet/document.ts';
import { flatItems } from '../../../src/core/sheet/document.ts';
import { polygonArea, type Ring } from '../../../src/core/sheet/polygon.ts';
import { drawSketch } from '../../../src/core/sheet/template-sketch.ts';
import type { Stroke } from '../../../src/core/scene/scene.ts';
import { sheetPdf } from '../../../src/files/pdf.ts';
import { readPdf } from '../../files/pdf-lines.ts';
import { fonts, regions, templatesOf } from './made-templates.ts';

const wall = Float64Array.of(-100, -60, 100, -60, 100, 60, -100, 60);
const by = { wall, regions, lettering: fonts };
const stroke = (points: Stroke['points'], more: Partial<Stroke> = {}): Stroke => ({ plane: 'p1', ink: '#1c292d', widthMm: 4, softMm: 0, points, ...more });
/** A round mark of 8 mm left of the middle and behind it. */
const dot = stroke([[-50, 30, 1]], { widthMm: 8 });
const bar = stroke([[-50, -20, 1], [50, -20, 1]]);
/** mm. Round ends are chords this near (sketch/regions.ts); what a PDF is right to. */
const SAG_MM = 0.01;
const DRAWN_MM = 0.01;

const outlines = (strokes: readonly Stroke[]): readonly Ring[] => flatItems(drawSketch(strokes, by).items).filter((item): item is PathItem => item.kind === 'path').flatMap(({ rings }) => rings);
/** mm², either way round. */
const area = (rings: readonly Ring[]): number => rings.reduce((sum, outer) => sum + polygonArea({ outer, holes: [] }), 0);
const span = (ring: Ring, axis: 0 | 1): [number, number] => [Math.min(...ring.map((point) => point[axis])), Math.max(...ring.map((point) => point[axis]))];

describe('a sketch on paper', () => {
  it('is the outline of its mark: a bar with round ends, L w + π w²/4', () => {
    const [ring] = outlines([bar]);
    expect(Math.abs(area([ring]) - (400 + 4 * Math.PI))).toBeLessThan(SAG_MM * 4 * Math.PI);
    // Back is up on paper: y turns round, x stays.
    expect(span(ring, 1)).toEqual([18, 22]);
    const [low, high] = span(outlines([dot])[0], 0);
    expect(Math.max(Math.abs(low + 54), Math.abs(high + 46))).toBeLessThan(SAG_MM);
  });

  it('ends at the wall and shows of an ink only what no later one covers', () => {
    expect(Math.abs(area(outlines([stroke([[0, 0, 1], [300, 0, 1]])])) - (400 + 2 * Math.PI))).toBeLessThan(SAG_MM * 4 * Math.PI);
    const crossing = stroke([[0, -40, 1], [0, 40, 1]], { ink: '#f6f3ea' });
    // The later bar whole, the earlier one in two, a square of 4 × 4 less.
    const rings = outlines([bar, crossing]);
    expect(rings).toHaveLength(3);
    expect(Math.abs(area(rings) - (400 + 320 + 8 * Math.PI - 16))).toBeLessThan(SAG_MM * 8 * Math.PI);
  });

  it('tells inks by numbers and in words, one ink in words alone', () => {
    const two = drawSketch([bar, { ...dot, ink: '#9c4a2b' }], by);
    expect(two.items.flatMap((item) => (item.kind === 'text' ? [item.text] : []))).toEqual(['1', '2']);
    expect(two.notes[1]).toMatch(/^Its inks: 1\u00a0.+ and 2\u00a0.+\.$/);
    expect(drawSketch([bar], by).notes[1]).toMatch(/^It is all in .+\.$/);
    expect(drawSketch([], by)).toEqual({ items: [], notes: [] });
  });
});

describe('a template with a sketch as PDF, read by pdfjs-dist', () => {
  const scene = (cast: string) => ({ cast, placements: [{ id: 'p1', kind: 'plane', name: 'Lily shadows', atMm: 20 }], strokes: [bar, dot] });

  it.each(['face-up', 'face-down'])('%s: to size and where it lies in the mold, so turned round for a viewer through the floor', async (cast) => {
    const [file, stencils] = templatesOf(scene(cast), { art: new Map() });
    const [page] = await readPdf(await sheetPdf(file.pages, fonts));
    const inside = page.paths.find((path) => path.length === 5 && Math.abs(span(path, 0)[1] - span(path, 0)[0] - 200) < DRAWN_MM && Math.abs(span(path, 1)[1] - span(path, 1)[0] - 120) < DRAWN_MM)!;
    const [left, back] = [span(inside, 0)[0], span(inside, 1)[0]];
    const rounds = page.paths.filter((path) => path.length > 12).map((path) => ({ x: span(path, 0).map((x) => x - left), y: span(path, 1).map((y) => y - back) }));
    for (const expected of [{ x: [48, 152], y: [78, 82] }, { x: [46, 54], y: [26, 34] }]) {
      const found = rounds.some(({ x, y }) => [...x, ...y].every((value, i) => Math.abs(value - [...expected.x, ...expected.y][i]) < DRAWN_MM + SAG_MM));
      expect(found, JSON.stringify(expected)).toBe(true);
    }
    expect(page.text).toContain('The thin lines are your sketch');
    expect(page.text.includes('Mirrored')).toBe(cast === 'face-down');
    expect(page.text).not.toContain('no picture on it yet');
    expect((await readPdf(await sheetPdf(stencils.pages, fonts)))[0].text).toContain('Cut along the line');
  });
});
