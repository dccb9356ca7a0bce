/** Laws of templates: parts make the whole, mirrored twice is the original, hatches and stencils keep to their outlines. */
import { describe, expect, it } from 'vitest';
import type { SheetItem } from '../../../src/core/sheet/document.ts';
import { flatItems, textBox } from '../../../src/core/sheet/document.ts';
import type { Point, Ring } from '../../../src/core/sheet/polygon.ts';
import { polygonArea } from '../../../src/core/sheet/polygon.ts';
import { bridged } from '../../../src/core/sheet/template-bridges.ts';
import { hatchInside } from '../../../src/core/sheet/template-hatch.ts';
import { drawPlane } from '../../../src/core/sheet/template-drawing.ts';
import { moldRing, templateFrame } from '../../../src/core/sheet/template-mold.ts';
import { layTemplatePages, paperFormats } from '../../../src/core/sheet/template-pages.ts';
import { CLEAR_OF_LINES_MM, numberSpots } from '../../../src/core/sheet/template-numbers.ts';
import type { ArtShape } from '../../../src/core/sheet/template-art.ts';
import { paintedRegion } from '../../../src/core/sheet/template-opening.ts';
import { OVERLAP_MM, shifted, tilesOf } from '../../../src/core/sheet/template-tiles.ts';
import { templateStems } from '../../../src/core/sheet/template-planes.ts';
import { artInMold } from '../../../src/core/scene/art-place.ts';
import type { Mold, Plane } from '../../../src/core/scene/scene.ts';
import { moldAreaAt } from '../../../src/core/solid/mold.ts';
import { insideRegion, loopArea, regionArea, type Region } from '../../../src/core/sight/region.ts';
import { seeded } from '../../view/seeded.ts';
import { DRAWING, PLANE, regions, templatesOf } from './made-templates.ts';

/** mm. Sums of doubles over a mold's size. */
const ROUNDING_MM = 1e-9;
/** mm. What a drawing may be larger than its page before it is cut. */
const FITS_MM = 1e-6;
const random = seeded(20261128);
const between = (low: number, high: number): number => low + (high - low) * random();

describe('windows over a drawing', () => {
  it('cover all of it, none larger than the page, neighbors sharing 10 mm, in 200 random sizes (seed 20261128)', () => {
    for (let i = 0; i < 200; i++) {
      const bounds = { x0: between(-900, 0), y0: between(-900, 0), x1: between(1, 900), y1: between(1, 900) };
      const [wide, high] = [between(60, 280), between(60, 280)];
      const { columns, rows, windows } = tilesOf(bounds, wide, high);
      expect(windows).toHaveLength(columns * rows);
      windows.forEach((window, k) => {
        const [row, column] = [Math.floor(k / columns), k % columns];
        const fits = window.x1 - window.x0 <= wide + FITS_MM && window.y1 - window.y0 <= high + FITS_MM;
        const across = column > 0 ? Math.abs(windows[k - 1].x1 - window.x0 - OVERLAP_MM) < ROUNDING_MM : window.x0 === bounds.x0;
        const down = row > 0 ? Math.abs(windows[k - columns].y1 - window.y0 - OVERLAP_MM) < ROUNDING_MM : window.y0 === bounds.y0;
        if (!fits || !across || !down) expect.unreachable(`case ${i}, window ${k}: ${JSON.stringify({ window, bounds, wide, high })}`);
      });
      const last = windows[windows.length - 1];
      expect([last.x1, last.y1]).toEqual([bounds.x1, bounds.y1]);
    }
  });
});

describe('parts of a template', () => {
  it('are the whole drawing each, clipped to windows that cover it, in 10 random molds and printers (seed 20261128)', () => {
    let parted = 0;
    for (let i = 0; i < 10; i++) {
      const mold = { shape: 'box', lengthMm: between(60, 900), widthMm: between(60, 700), heightMm: 60, draftDeg: between(0, 10) };
      const bars = { xMm: between(90, 110), yMm: between(90, 110) };
      const [file] = templatesOf({ mold, cast: random() < 0.5 ? 'face-up' : 'face-down' }, { bars, paper: random() < 0.5 ? 'a4' : 'letter' });
      const { pages, widthMm, heightMm, originXMm, originYMm, scale } = file.pages;
      expect(file.whole[0].pages).toHaveLength(1);
      const whole = file.whole[0].pages[0];
      const [wholeX, wholeY] = [whole.part!.atMm[0] - whole.part!.window.x0, whole.part!.atMm[1] - whole.part!.window.y0];
      const drawn = shifted(whole.items, -wholeX, -wholeY).filter((item) => item.kind === 'group');
      expect(drawn).toHaveLength(1);
      for (const page of pages) {
        const { window, atMm } = page.part!;
        // On the paper, its margins left white: 10 mm and 15 below.
        const onPaper = (x: number, y: number): Point => [originXMm + scale![0] * x, originYMm + scale![1] * y];
        const [x0, y0] = onPaper(...atMm);
        const [x1, y1] = onPaper(atMm[0] + window.x1 - window.x0, atMm[1] + window.y1 - window.y0);
        expect(x0 >= 10 - ROUNDING_MM && y0 >= 10 && x1 <= widthMm - 10 + FITS_MM && y1 <= heightMm - 15 + FITS_MM).toBe(true);
        if (pages.length === 1) continue;
        parted++;
        const group = page.items.find((item) => item.kind === 'group')!;
        const inside = shifted(group.items, window.x0 - atMm[0], window.y0 - atMm[1]);
        const art = inside.filter((item) => item.kind === 'group')[0];
        expect(distance(art, drawn[0])).toBeLessThan(ROUNDING_MM);
      }
    }
    expect(parted).toBeGreaterThan(10);
  });

  it('keep their words apart from each other and on the page', () => {
    for (const cast of ['face-up', 'face-down']) {
      for (const lengthMm of [90, 200, 420]) {
        for (const { pages } of templatesOf({ cast, name: 'A pond of most uncommon length, painted twice over', mold: { shape: 'box', lengthMm, widthMm: 120, heightMm: 60 } }, { bars: { xMm: 104, yMm: 98 } })) {
          const live = pages.widthMm / pages.scale![0];
          for (const page of pages.pages) {
            const boxes = page.items.filter((item) => item.kind === 'text').map(textBox);
            boxes.forEach((a, i) => {
              expect(a.x0 >= -0.1 && a.x1 <= live).toBe(true);
              boxes.slice(i + 1).forEach((b) => expect(a.x1 <= b.x0 + 0.1 || b.x1 <= a.x0 + 0.1 || a.y1 <= b.y0 + 0.1 || b.y1 <= a.y0 + 0.1).toBe(true));
            });
          }
        }
      }
    }
  });
});

/** Greatest distance of corresponding points; infinite where the items differ otherwise. */
function distance(a: SheetItem, b: SheetItem): number {
  const rings = (item: SheetItem): readonly Ring[] => flatItems([item]).flatMap((one) => (one.kind === 'path' ? one.rings : []));
  const [p, q] = [rings(a).flat(), rings(b).flat()];
  return p.length !== q.length || p.length === 0 ? Infinity : Math.max(...p.map(([x, y], i) => Math.hypot(x - q[i][0], y - q[i][1])));
}

const MOLD: Mold = { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60, cornerRadiusMm: 0, draftDeg: 0, material: 'silicone', wallMm: 8, keep: false };

describe('a face-down casting', () => {
  const artOf = (cast: string, art: Record<string, unknown>): readonly Point[] => {
    const [file] = templatesOf({ cast, placements: [{ ...PLANE, art: { ...PLANE.art, ...art } }] });
    const group = file.whole[0].pages[0].items.find((item) => item.kind === 'group')!;
    const { atMm, window } = file.whole[0].pages[0].part!;
    return flatItems(shifted([group], window.x0 - atMm[0], window.y0 - atMm[1])).flatMap((item) => (item.kind === 'path' ? item.rings.flat() : []));
  };

  it('is the face-up template mirrored left to right, about the art’s middle, and said so', () => {
    for (const art of [{}, { turnDeg: 33 }, { turnDeg: -120, mirror: true }, { turnDeg: 10, yMm: 12 }]) {
      const [up, down] = [artOf('face-up', art), artOf('face-down', art)];
      expect(down.length).toBe(up.length);
      down.forEach(([x, y], i) => expect(Math.abs(x + up[i][0]) + Math.abs(y - up[i][1])).toBeLessThan(ROUNDING_MM));
    }
    const words = (cast: string): string => flatItems(templatesOf({ cast })[0].pages.pages[0].items).map((item) => (item.kind === 'text' ? item.text : '')).join(' ');
    expect(words('face-down')).toContain('Mirrored, as it is cast face-down');
    expect(words('face-up')).not.toContain('irrored');
  });

  it('mirrored twice is the original, to the last digit, for 300 places (seed 20261128)', () => {
    for (let i = 0; i < 300; i++) {
      const place = { xMm: between(-90, 90), yMm: between(-50, 50), turnDeg: i % 7 === 0 ? 0 : between(-400, 400), mirror: random() < 0.5 };
      expect(artInMold(artInMold(place, 'face-down'), 'face-down')).toEqual(place);
      expect(artInMold(place, 'face-up')).toEqual(place);
    }
  });

  it('drawn of what is turned over already is the face-up template, to the last digit', () => {
    for (const art of [{ turnDeg: 33, xMm: 12 }, { turnDeg: -7, yMm: 3, mirror: true }]) {
      const plane = (change: object) => ({ ...PLANE, art: { ...PLANE.art, xMm: 0, yMm: 0, mirror: false, ...art, ...change }, paintH: 0, dryH: 0 }) as Plane;
      const drawn = (cast: 'face-up' | 'face-down', change: object) => drawPlane({ mold: MOLD, cast }, templateFrame({ mold: MOLD, fillMm: 55 }), { plane: plane(change), art: DRAWING, guides: [] }, { measure: () => 0, printable: (text) => text });
      expect(drawn('face-down', { turnDeg: -art.turnDeg, mirror: !('mirror' in art && art.mirror) })).toEqual(drawn('face-up', {}));
    }
  });
});

describe('the wall’s line', () => {
  it.each([
    { shape: 'box', lengthMm: 200, widthMm: 120, cornerRadiusMm: 0, draftDeg: 5 },
    { shape: 'box', lengthMm: 200, widthMm: 120, cornerRadiusMm: 30, draftDeg: 5 },
    { shape: 'round', diameterMm: 150, draftDeg: 3 },
  ])('holds the area of the mold’s section: %o', (mold) => {
    const whole = { heightMm: 60, material: 'silicone', wallMm: 8, keep: false, ...mold } as Mold;
    for (const z of [0, 20, 55]) {
      // Chords stray by 0.002 mm at most, along no more than a perimeter of 700 mm.
      expect(Math.abs(polygonArea({ outer: moldRing(whole, z), holes: [] }) - moldAreaAt(whole, z))).toBeLessThan(0.002 * 700);
    }
  });
});

describe('a hatch', () => {
  it('lies inside its outline and its length times the pitch is the outline’s area', () => {
    const ring: Ring = Array.from({ length: 90 }, (_, i): Point => [40 * Math.cos((2 * Math.PI * i) / 90), 25 * Math.sin((2 * Math.PI * i) / 90)]);
    const hole: Ring = [[-10, -5], [10, -5], [10, 5], [-10, 5]];
    for (const angleDeg of [0, 45, -45, 90, 13]) {
      const lines = hatchInside([ring, hole], { angleDeg, pitchMm: 0.1 });
      const length = lines.reduce((sum, [a, b]) => sum + Math.hypot(a[0] - b[0], a[1] - b[1]), 0);
      const area = polygonArea({ outer: ring, holes: [hole] });
      // A sum of chords a tenth of a mm apart: the trapezoid rule's error along the ends.
      expect(Math.abs(length * 0.1 - area) / area).toBeLessThan(0.005);
      for (const [a, b] of lines) expect(insideRegion([Float64Array.from(ring.flat()), Float64Array.from([...hole].reverse().flat())], (a[0] + b[0]) / 2, (a[1] + b[1]) / 2)).toBe(true);
    }
  });

  it('of nothing is nothing', () => {
    expect(hatchInside([], { angleDeg: 45, pitchMm: 1 })).toEqual([]);
    expect(hatchInside([[[0, 0], [5, 0]]], { angleDeg: 0, pitchMm: 1 })).toEqual([]);
  });
});

describe('what is painted, as a region', () => {
  const square = (r: number): Point[] => [[-r, -r], [r, -r], [r, r], [-r, r]];
  const ring: ArtShape = { rings: [square(10), square(5).reverse()], kind: 'fill', stroke: 0 };
  /** mm². The region library's grid along edges of some 60 mm. */
  const GRID_MM2 = 1e-5;

  it.each([['looked at from above', 1], ['mirrored', -1]])('keeps its holes, %s', (_, side) => {
    expect(Math.abs(regionArea(paintedRegion([ring], { place: ([u, v]) => [side * u, -v], regions })) - 300)).toBeLessThan(GRID_MM2);
  });

  it('is what any shape paints; of the frame of a picture nothing is known', () => {
    const shapes: ArtShape[] = [ring, { rings: [square(6)], kind: 'stroke', stroke: 1 }, { rings: [square(20)], kind: 'frame', stroke: 0 }];
    expect(Math.abs(regionArea(paintedRegion(shapes, { place: ([u, v]) => [u, -v], regions })) - 400)).toBeLessThan(GRID_MM2);
  });
});

describe('a page of a piece that must not be poured', () => {
  const lettering = { measure: (text: string, _: unknown, pt: number) => 0.17 * pt * text.length, printable: (text: string) => text };
  const halt = (i: number) => ({ code: 'layer-too-thin', severity: 'halt', subject: `layer ${i}`, message: `Pour ${i} would be too thin to level, and so it must not be poured as it is planned here. `.repeat(3), remedy: '', pours: [i] }) as const;
  const sheet = { kind: 'template', title: 'Slice', subtitle: '', piece: 'Pond', facts: ['20 up.'], printFacts: [], halts: [1, 2, 3, 4, 5].map(halt), bounds: { x0: 0, y0: 0, x1: 200, y1: 130 }, items: [] } as const;
  const said = (halts: readonly ReturnType<typeof halt>[]) => layTemplatePages({ ...sheet, halts }, paperFormats('a4', undefined)[0], { lettering, before: 0, of: 1 }).map(({ items }) => flatItems(items).map((item) => (item.kind === 'text' ? item.text : '')).join(' '));

  it('is not cut into parts for the sake of its reasons: the first is told, the others are counted', () => {
    const pages = said(sheet.halts);
    expect(pages).toHaveLength(1);
    expect(pages[0]).toContain('DO NOT POUR');
    expect(pages[0]).toContain('Pour 1 would be too thin');
    expect(pages[0]).not.toContain('Pour 2');
    expect(pages[0]).toContain('And 4 more: see the build sheet.');
  });

  it.each(paperFormats('a4', undefined).map((format) => [format.widthMm, format] as const))('%d mm wide, is not even cut where the drawing fills it: the board is in the head, the first reason at the foot', (_, format) => {
    const facts = { ...sheet, facts: ['Drawn as you look down into the mold. '.repeat(3)] };
    const at = (y1: number, halts: typeof sheet.halts | []) => layTemplatePages({ ...facts, halts, bounds: { ...sheet.bounds, x1: 170, y1 } }, format, { lettering, before: 0, of: 1 });
    // As high as fits without any reason, to the tenth of a mm.
    let high = 100;
    for (const step of [20, 2, 0.1]) while (at(high + step, []).length === 1) high += step;
    for (const halts of [sheet.halts, sheet.halts.slice(0, 1) as unknown as typeof sheet.halts]) {
      const pages = at(high, halts);
      expect(pages).toHaveLength(1);
      const texts = flatItems(pages[0].items).filter((item) => item.kind === 'text');
      expect(texts.map(({ text }) => text)).toContain('DO NOT POUR');
      expect(texts.some(({ text }) => text.startsWith('Pour 1 would be too thin') && text.endsWith('see the build sheet.') === halts.length > 1)).toBe(true);
      const boxes = texts.map(textBox);
      for (const [i, a] of boxes.entries()) {
        expect(a.x0 >= 0 && a.x1 <= format.liveWidthMm + 1e-9 && a.y1 <= format.liveHeightMm).toBe(true);
        for (const b of boxes.slice(i + 1)) expect(a.x1 <= b.x0 || b.x1 <= a.x0 || a.y1 <= b.y0 || b.y1 <= a.y0, `${texts[i].text} over another`).toBe(true);
      }
    }
  });

  it('tells up to three where there is room', () => {
    const [page] = layTemplatePages({ ...sheet, bounds: { ...sheet.bounds, y1: 100 } }, paperFormats('a4', undefined)[0], { lettering, before: 0, of: 1 });
    const words = flatItems(page.items).map((item) => (item.kind === 'text' ? item.text : '')).join(' ');
    expect(words).toContain('Pour 3 would');
    expect(words).toContain('And 2 more');
  });
});

describe('stencils', () => {
  const circle = (r: number, x = 0, y = 0): Float64Array => Float64Array.from({ length: 128 }, (_, i) => (i % 2 === 0 ? x + r * Math.cos((Math.PI * i) / 64) : y + r * Math.sin((Math.PI * (i - 1)) / 64)));
  const backward = (loop: Float64Array): Float64Array => Float64Array.from({ length: loop.length }, (_, i) => loop[i % 2 === 0 ? loop.length - 2 - i : loop.length - i]);

  it('hold every island by a bridge: nothing falls out of 25 random openings (seed 20261128)', () => {
    for (let i = 0; i < 25; i++) {
      const islands: Region = Array.from({ length: 1 + Math.floor(between(0, 6)) }, () => backward(circle(between(1, 9), between(-30, 30), between(-30, 30))));
      const opening = regions.minus([circle(45)], regions.unite(islands.map((loop) => [backward(loop)])));
      const { cut, bridges, islands: count } = bridged(opening, regions);
      expect(count).toBe(opening.filter((loop) => loopArea(loop) < 0).length);
      expect(bridges.length).toBeGreaterThanOrEqual(count);
      expect(cut.filter((loop) => loopArea(loop) < 0)).toEqual([]);
      // Only bridges are lost: 3 mm wide, none longer than the opening.
      expect(regionArea(opening) - regionArea(cut)).toBeLessThanOrEqual(bridges.length * 3 * 92);
      expect(regionArea(regions.minus(cut, opening))).toBeLessThan(1e-4);
    }
  });

  it('an opening without islands stays as it is', () => {
    expect(bridged([circle(9)], regions)).toEqual({ cut: [circle(9)], bridges: [], islands: 0 });
  });

  const guided = (radii: readonly (readonly [number, number])[]) => {
    const planes = radii.map((_, i) => ({ id: `p${i}`, kind: 'plane', name: `Slice ${i + 1}`, atMm: 10 + 5 * i }));
    const guides = radii.map(([r, x], i) => ({ planeId: `p${i}`, name: `Slice ${i + 1}`, atMm: 10 + 5 * i, depthMm: 45 - 5 * i, creatureId: 'c', outline: [circle(r, x)], fresh: [circle(r, x)], hidden: [], feather: [], hints: [], shading: '', order: i + 1, within: [] }));
    const stencils = templatesOf({ placements: planes }, { guides, art: new Map() }).at(-1)!;
    return stencils.pages.pages.map((page) => flatItems(page.items).map((item) => (item.kind === 'text' ? item.text : '')).join(' ').replaceAll('\u00a0', ' '));
  };

  it('that lie within each other share a sheet, whichever is the larger; others get their own; each is on one', () => {
    expect(guided([[10, 0], [20, 0], [15, 0]])).toEqual([expect.stringContaining('1 Slice 1, 2 Slice 2, 3 Slice 3.')]);
    const sheets = guided([[10, 0], [10, 40], [20, 0]]);
    expect(sheets).toHaveLength(2);
    expect(sheets[0]).toContain('1 Slice 1, 3 Slice 3.');
    expect(sheets[1]).toContain('2 Slice 2.');
  });

  it('with less than 4 mm of paper between their lines don’t share a sheet: such a ring tears; alike they do', () => {
    expect(guided([[10, 0], [13, 0]])).toHaveLength(2);
    expect(guided([[10, 0], [16, 2.5]])).toHaveLength(2);
    expect(guided([[10, 0], [14.2, 0]])).toHaveLength(1);
    expect(guided([[10, 0], [10, 0]])).toHaveLength(1);
  });

  it('have their number inside their own line, at every part, off every line', () => {
    const radii = [9, 14, 20];
    const lines = [...radii.map((r) => circle(r)), circle(6, 40)];
    radii.forEach((r, i) => {
      const spots = numberSpots(i === 0 ? [circle(r), circle(6, 40)] : [circle(r)], { lines, taken: [], share: i / 3 });
      expect(spots).toHaveLength(i === 0 ? 2 : 1);
      const [x, y] = spots[0];
      // A circle's distance is | |p| − r |; its chords of 64 lie up to 0.03 mm inside.
      expect(Math.hypot(x, y)).toBeLessThan(r);
      for (const other of radii) expect(Math.abs(Math.hypot(x, y) - other)).toBeGreaterThan(CLEAR_OF_LINES_MM - 0.03);
      if (i === 0) expect(Math.hypot(spots[1][0] - 40, spots[1][1])).toBeLessThan(6 - CLEAR_OF_LINES_MM + 0.03);
    });
  });

  it('name the planes that have nothing to cut', () => {
    const file = templatesOf({ placements: [PLANE, { id: 'p2', kind: 'plane', name: 'Ripples', atMm: 30 }] }).at(-1)!;
    const words = flatItems(file.pages.pages[0].items).map((item) => (item.kind === 'text' ? item.text : '')).join(' ');
    expect(words).toContain('1 Lily shadows.');
    expect(words).toContain('Ripples: no outline to cut.');
    // The ring of the drawing has an island.
    expect(words).toMatch(/an island would fall out/);
  });

  it('open what the drawing paints, to its area', () => {
    const [ring] = DRAWING.kind === 'drawing' ? DRAWING.shapes.slice(1, 2) : [];
    const painted = paintedRegion([ring], { place: ([u, v]) => [120 * u, -120 * v], regions });
    // 48 × 48 less 24 × 24.
    expect(Math.abs(regionArea(painted) - (48 * 48 - 24 * 24))).toBeLessThan(1e-4);
  });
});

describe('a plane that slices a creature', () => {
  const box = (x0: number, y0: number, x1: number, y1: number): Float64Array => Float64Array.of(x0, y0, x1, y0, x1, y1, x0, y1);
  const guide = {
    planeId: 'p1', name: 'Slice', atMm: 20, depthMm: 35, creatureId: 'c', outline: [box(-30, 0, 30, 40)], fresh: [box(10, 0, 30, 40)], hidden: [box(-30, 0, 10, 40)], feather: [box(8, 0, 10, 40)],
    hints: [{ kind: 'appears', atXMm: 20, atYMm: 30, words: 'An eye may begin here.' }, { kind: 'ends', atXMm: -20, atYMm: 5, words: 'A fin ends.' }], shading: 'Nearly as dark as the back.', order: 1, within: ['the body first', 'the glint last'],
  } as const;
  const [file] = templatesOf({ placements: [{ id: 'p1', kind: 'plane', name: 'Slice', atMm: 20 }] }, { guides: [guide], art: new Map() });
  const [page, notes] = file.pages.pages;
  const words = (items: readonly SheetItem[]): string => flatItems(items).map((item) => (item.kind === 'text' ? item.text : '')).join(' ').replaceAll('\u00a0', ' ');

  it('draws what to paint in the strongest line, at its place, back up', () => {
    const { part } = page;
    const drawn = shifted(page.items, part!.window.x0 - part!.atMm[0], part!.window.y0 - part!.atMm[1]).filter((item) => item.kind === 'path' && item.closed && item.strokeMm === 0.6);
    expect(drawn.flatMap((item) => (item.kind === 'path' ? item.rings : [])).map((ring) => ring.map(([x, y]) => [Math.round(x * 1e6) / 1e6, Math.round(y * 1e6) / 1e6]))).toEqual([[[10, 0], [30, 0], [30, -40], [10, -40]]]);
  });

  it('numbers what may begin or end there, and tells it with the order of painting on a page after', () => {
    expect(words(page.items)).toMatch(/page 1 of 2.* 1 +2 /);
    for (const said of ['page 2 of 2', 'the body first', 'the glint last', 'Nearly as dark as the back.', '1 An eye may begin here.', '2 A fin ends.', 'Let the paint fade out here']) expect(words(notes.items).replaceAll(/ +/g, ' ')).toContain(said);
    expect(file.whole).toHaveLength(1);
  });
});

describe('files of templates', () => {
  it('have names that are safe and differ', () => {
    const names = ['Lily shadows', 'Lily  shadows!', '../../etc/passwd', 'CON', '', '   ', 'Nénuphar œuf', 'Пруд', '\u202eevil\u0000', 'a'.repeat(500), '.hidden', 'a/b\\c:d*e?f"g<h>i|j'];
    const stems = templateStems(names.map((name, i) => ({ id: String(i), kind: 'plane', name, atMm: i, paintH: 0, dryH: 0 }) as Plane));
    expect(stems.slice(0, 7)).toEqual(['01-lily-shadows', '02-lily-shadows', '03-etc-passwd', '04-con', '05-plane', '06-plane', '07-nenuphar-œuf']);
    expect(new Set(stems).size).toBe(stems.length);
    for (const stem of stems) expect(stem).toMatch(/^\d\d-[\p{L}\p{N}-]{1,60}$/u);
  });

  it('say what to do where a drawing takes more pages than anyone joins', () => {
    expect(() => templatesOf({ mold: { shape: 'box', lengthMm: 9000, widthMm: 4000, heightMm: 60 } })).toThrow(/Lily shadows at 1:1 takes [\d,]+ pages; expected at most 150\. /);
  });
});
