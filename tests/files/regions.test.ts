/** Flat regions: closed forms of rectangles, circles and their rounded copies, and laws that hold for any. */
import { beforeAll, describe, expect, it } from 'vitest';
import { insideRegion, loopArea, regionArea, regionBounds, regionPerimeter, type Region, type Regions } from '../../src/core/sight/region.ts';
import { openRegions } from '../../src/files/regions.ts';
import { seeded } from '../core/solid/oracle.ts';

/** mm² per mm of edge: the library's grid. */
const GRID = 1e-7;
/** mm: chords of round joins. */
const JOIN_MM = 0.011;

let regions: Regions;
beforeAll(async () => {
  regions = await openRegions();
});

const rectangle = (x: number, y: number, w: number, h: number): Region => [Float64Array.of(x, y, x + w, y, x + w, y + h, x, y + h)];
const ngon = (n: number, r: number, cx = 0, cy = 0): Region => [Float64Array.from({ length: 2 * n }, (_, i) => (i % 2 === 0 ? cx + r * Math.cos((2 * Math.PI * (i >> 1)) / n) : cy + r * Math.sin((2 * Math.PI * (i >> 1)) / n)))];
const ring: Region = [...rectangle(0, 0, 10, 10), Float64Array.of(3, 3, 3, 7, 7, 7, 7, 3)];

describe('measures', () => {
  it('a ring is its outside less its hole, both edges long', () => {
    expect([regionArea(ring), regionPerimeter(ring)]).toEqual([84, 56]);
    expect(regionBounds(ring)).toEqual({ minX: 0, minY: 0, maxX: 10, maxY: 10 });
    expect([insideRegion(ring, 1, 1), insideRegion(ring, 5, 5), insideRegion(ring, 11, 5)]).toEqual([true, false, false]);
  });

  it('a regular polygon of n sides has n r² sin(2π/n)/2 and 2 n r sin(π/n) (mensuration, from memory), far from the origin too', () => {
    for (const at of [0, 1e6]) {
      const hexagon = ngon(6, 10, at, -at);
      expect(Math.abs(regionArea(hexagon) - 150 * Math.sqrt(3))).toBeLessThan(1e-13 * Math.max(1, at) * 60 + 1e-9);
      expect(Math.abs(regionPerimeter(hexagon) - 60)).toBeLessThan(1e-8);
    }
  });

  it('nothing has no bounds and no area', () => {
    expect([regionBounds([]), regionArea([]), regionPerimeter([])]).toEqual([null, 0, 0]);
  });
});

describe('operations', () => {
  it('two rectangles that overlap by 4 × 5', () => {
    const [a, b] = [rectangle(0, 0, 10, 10), rectangle(6, 5, 10, 10)];
    expect(regionArea(regions.unite([a, b]))).toBeCloseTo(180, 6);
    expect(regionArea(regions.minus(a, b))).toBeCloseTo(80, 6);
    expect(regionArea(regions.meet(a, b))).toBeCloseTo(20, 6);
  });

  it('a hole punched comes back clockwise, and filled again is gone', () => {
    const punched = regions.minus(rectangle(0, 0, 10, 10), rectangle(3, 3, 4, 4));
    expect(punched.map(loopArea).sort((x, y) => x - y)).toEqual([-16, 100]);
    expect(regions.unite([punched, rectangle(2, 2, 6, 6)]).map(loopArea)).toEqual([100]);
  });

  it.each([0.3, 1.5, 6])('a rectangle grown by %f mm gains perimeter × d + πd² (Steiner 1840)', (d) => {
    expect(Math.abs(regionArea(regions.grow(rectangle(0, 0, 30, 20), d)) - (600 + 100 * d + Math.PI * d * d))).toBeLessThan(2 * Math.PI * d * JOIN_MM);
  });

  it('shrunk, it loses a frame; too far, nothing is left', () => {
    expect(regionArea(regions.grow(rectangle(0, 0, 30, 20), -2))).toBeCloseTo(26 * 16, 6);
    expect(regions.grow(rectangle(0, 0, 30, 20), -10.5)).toEqual([]);
  });

  it('empty ones are fine anywhere', () => {
    const a = rectangle(0, 0, 2, 2);
    expect([regions.unite([]), regions.meet(a, []), regions.minus([], a), regions.grow([], 3)]).toEqual([[], [], [], []]);
    expect(regionArea(regions.unite([[], a, []]))).toBeCloseTo(4, 9);
    expect(regions.minus(a, [])).toBe(a);
  });

  it.each([51, 52, 53])('parts sum to the whole for random polygons: |A∪B| + |A∩B| = |A| + |B|, |A−B| = |A| − |A∩B|, seed %i', (seed) => {
    const random = seeded(seed);
    for (let n = 0; n < 25; n++) {
      const [a, b] = [0, 1].map(() => ngon(3 + Math.floor(9 * random()), 2 + 10 * random(), 20 * random(), 20 * random()));
      const shared = regionArea(regions.meet(a, b));
      const tolerance = GRID * (regionPerimeter(a) + regionPerimeter(b));
      expect(Math.abs(regionArea(regions.unite([a, b])) + shared - regionArea(a) - regionArea(b))).toBeLessThan(tolerance);
      expect(Math.abs(regionArea(regions.minus(a, b)) + shared - regionArea(a))).toBeLessThan(tolerance);
    }
  });
});
