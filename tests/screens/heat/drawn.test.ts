import { describe, expect, it } from 'vitest';
import type { HeatSeries } from '../../../src/core/cure/verdict-series.ts';
import { chartShape, depthStrips, gapOf } from '../../../src/screens/heat/chart-shape.ts';
import { seriesTable, seriesWords } from '../../../src/screens/heat/series-words.ts';
import { sliceHatch } from '../../../src/screens/heat/slice-hatch.ts';

const NBSP = '\u00a0';
/** Up to 40 °C in three hours, cool again after twelve; a room of 23 °C. */
const hours = Array.from({ length: 49 }, (_, i) => i / 4);
const hump = (h: number): number => 17 * (h / 3) * Math.exp(1 - h / 3);
const SERIES: HeatSeries = {
  hours,
  lowC: hours.map((h) => 23 + 0.8 * hump(h)), middleC: hours.map((h) => 23 + hump(h)), highC: hours.map((h) => 23 + 1.3 * hump(h)),
  roomC: hours.map(() => 23),
  depth: { atH: 3, heightMm: [1, 5, 10, 15, 19], temperatureC: [30, 38, 40, 36, 28], pourFromMm: 8 },
};
const BOX = { left: 34, right: 430, top: 12, bottom: 166 };
/** Numbers of a path, in pairs. */
const points = (path: string): [number, number][] => [...path.matchAll(/(-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);

describe('a pour’s chart', () => {
  it('keeps its band, its middle and its room in the box, the band about the middle', () => {
    const shape = chartShape(SERIES, BOX);
    for (const [x, y] of [...points(shape.band), ...points(shape.middle), ...points(shape.room)]) {
      expect(x).toBeGreaterThanOrEqual(BOX.left);
      expect(x).toBeLessThanOrEqual(BOX.right);
      expect(y).toBeGreaterThanOrEqual(BOX.top);
      expect(y).toBeLessThanOrEqual(BOX.bottom);
    }
    const band = points(shape.band);
    points(shape.middle).forEach(([x, y], i) => {
      expect(band[i]).toEqual([x, expect.any(Number)]);
      expect(band[i][1], 'y grows downward').toBeLessThanOrEqual(y);
      expect(band[band.length - 1 - i][1]).toBeGreaterThanOrEqual(y);
    });
  });

  it('writes hours and degrees where they are', () => {
    const { hours: along, degrees } = chartShape(SERIES, BOX);
    expect(along.map(({ label }) => label)).toEqual(['0', '2', '4', '6', '8', '10', '12']);
    expect(along[3].x).toBeCloseTo(34 + 396 / 2, 9);
    expect(degrees.map(({ label }) => label)).toEqual(['20', '25', '30', '35', '40', '45']);
  });

  it('says the same in words and in a table', () => {
    const heat = { words: 'cool', rangeC: [36.5, 45.1], afterH: 3 } as const;
    // Over the room by 1.3 · 17 · u·e^(1−u), u = h/3: still over 3 K at the chart's end, u = 4, where it is 4.4 K.
    expect(seriesWords(heat, SERIES)).toBe(`Cool, 36 to 46${NBSP}°C at its warmest, after about 3${NBSP}h.`);
    // Half as warm it is under 3 K from u·e^(1−u) = 0.27 on: u = 3.63 by hand, 10.9 h; the next sample is at 11 h.
    const half = { ...SERIES, highC: hours.map((h) => 23 + 0.65 * hump(h)) };
    expect(seriesWords(heat, half)).toContain(`Within 3${NBSP}°C of the room again after about 11${NBSP}h.`);
    expect(seriesWords(heat, { ...SERIES, highC: hours.map(() => 24) })).toContain('It stays within');
    expect(seriesTable(SERIES).map(({ h }) => h)).toEqual([0, 1.5, 3, 4.5, 6, 7.5, 9, 10.5, 12]);
    expect(seriesTable(SERIES)[2]).toEqual({ h: 3, lowC: 36, highC: 46 });
  });
});

describe('hatching', () => {
  it('is the closer the warmer, and no closer than can be drawn', () => {
    for (let c = 0; c < 100; c++) expect(gapOf(c + 1)).toBeLessThanOrEqual(gapOf(c));
    expect(gapOf(15)).toBe(gapOf(20));
    expect(gapOf(60)).toBe(gapOf(200));
    expect(gapOf(60)).toBeGreaterThanOrEqual(2);
  });

  it('goes through the height from the top down, as warm as its nearest heights', () => {
    const strips = depthStrips(SERIES.depth, 180, 18);
    expect(strips).toHaveLength(18);
    expect(strips[0].temperatureC).toBeLessThan(30);
    expect(Math.max(...strips.map(({ temperatureC }) => temperatureC))).toBeGreaterThan(39);
    expect(strips.reduce((sum, { height }) => sum + height, 0)).toBeCloseTo(180, 9);
  });

  const slice = (xMm: number[], temperatureC: number[]) => ({ atS: 0, yMm: 0, xMm: Float64Array.from(xMm), zMm: Float64Array.from([-5, 0, 20]), temperatureC: Float32Array.from(temperatureC) });

  it('of an even slice has a line for each gap across, in every row', () => {
    const { path, widthPx, heightPx } = sliceHatch(slice([-50, 0, 50], [20, 20, 40, 40]), { halfMm: 50, topMm: 20, widthPx: 400, heightPx: 200 });
    expect([widthPx, heightPx]).toEqual([400, 80]);
    const rows = Math.ceil(80 / 6);
    const perRow = path.split('M').slice(1).length / rows;
    expect(Math.abs(perRow - 400 / gapOf(40))).toBeLessThanOrEqual(1);
  });

  it('has more lines where it is warmer, none where there is nothing, and rings on both sides of their axis', () => {
    const xs = (path: string) => [...path.matchAll(/M([\d.]+) /g)].map(([, x]) => Number(x));
    const uneven = xs(sliceHatch(slice([-50, 0, 50], [NaN, NaN, 25, 50]), { halfMm: 50, topMm: 20, widthPx: 400, heightPx: 200 }).path);
    expect(uneven.filter((x) => x > 200).length).toBeGreaterThan(2 * uneven.filter((x) => x < 200).length);
    const empty = xs(sliceHatch(slice([-50, 0, 50], [NaN, NaN, NaN, 40]), { halfMm: 50, topMm: 20, widthPx: 400, heightPx: 200 }).path);
    expect(Math.min(...empty)).toBeGreaterThanOrEqual(200);
    const rings = xs(sliceHatch(slice([0, 25, 50], [20, 20, 50, 25]), { halfMm: 50, topMm: 20, widthPx: 400, heightPx: 200 }).path);
    const middle = rings.filter((x) => x > 100 && x < 300).length;
    expect(middle).toBeGreaterThan(2 * (rings.length - middle));
    expect(Math.abs(rings.filter((x) => x < 200).length - rings.filter((x) => x > 200).length)).toBeLessThan(0.1 * rings.length);
  });
});
