/** Sketched strokes: kept within a tenth of a millimeter, rubbed out exactly, measured by closed forms and by a polygon library. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Stroke, StrokePoint } from '../../../../src/core/scene/scene.ts';
import { coverageOf } from '../../../../src/core/sight/coverage.ts';
import { regionArea, type Regions } from '../../../../src/core/sight/region.ts';
import { erased } from '../../../../src/core/sight/sketch/erase.ts';
import { halfMm, markBounds, strokeLength } from '../../../../src/core/sight/sketch/mark.ts';
import { inkedRegions, paintLoops, sketchRegion } from '../../../../src/core/sight/sketch/regions.ts';
import { SIMPLIFY_MM, keptPoints, simplified } from '../../../../src/core/sight/sketch/simplify.ts';
import { openRegions } from '../../../../src/files/regions.ts';
import { mulberry32 } from '../../../plan/random-scenes.ts';

let regions: Regions;
beforeAll(async () => {
  regions = await openRegions();
});

const stroke = (points: readonly StrokePoint[], more: Partial<Stroke> = {}): Stroke => ({ plane: 'p1', ink: '#1c292d', widthMm: 2, softMm: 0, points, ...more });

/** A hand that wanders, with a pressure that wanders too. */
function scribble(seed: number, n: number, stepMm = 0.8): StrokePoint[] {
  const random = mulberry32(seed);
  let [x, y, way, pressure] = [random() * 40 - 20, random() * 40 - 20, random() * 7, random()];
  return Array.from({ length: n }, () => {
    way += random() - 0.5;
    pressure = Math.min(1, Math.max(0, pressure + 0.2 * (random() - 0.5)));
    x += stepMm * random() * Math.cos(way);
    y += stepMm * random() * Math.sin(way);
    return [x, y, pressure] as const;
  });
}

/** Distance of a point from the nearest place of a line, in place and half width, by plain search over its stretches. */
function offLine(p: readonly number[], line: readonly (readonly number[])[]): number {
  let least = Infinity;
  for (let i = 0; i < Math.max(1, line.length - 1); i++) {
    const [a, b] = [line[i], line[Math.min(i + 1, line.length - 1)]];
    const d = b.map((value, k) => value - a[k]);
    const square = d.reduce((sum, value) => sum + value * value, 0);
    const at = square === 0 ? 0 : Math.min(1, Math.max(0, d.reduce((sum, value, k) => sum + value * (p[k] - a[k]), 0) / square));
    least = Math.min(least, Math.hypot(...p.map((value, k) => value - a[k] - at * d[k])));
  }
  return least;
}

const lifted = (points: readonly StrokePoint[], widthMm: number) => points.map(([x, y, pressure]) => [x, y, halfMm({ widthMm }, pressure)]);
/** Places along a line, some between its points. */
const along = (line: readonly (readonly number[])[]) => line.flatMap((a, i) => (i + 1 < line.length ? [0, 0.3, 0.7].map((at) => a.map((value, k) => value + at * (line[i + 1][k] - value))) : [a]));

describe('a line with fewer points', () => {
  it('never strays over the tolerance either way, in place and in width (100 scribbles)', () => {
    for (let seed = 0; seed < 100; seed++) {
      const widthMm = [0.3, 2, 8, 50][seed % 4];
      const drawn = scribble(seed, 60);
      const kept = keptPoints({ points: drawn, widthMm });
      const [from, to] = [lifted(drawn, widthMm), lifted(kept, widthMm)];
      // A bound that holds for the method (see simplify.ts), and 1e-9 for sums.
      expect(Math.max(...along(from).map((p) => offLine(p, to))), `seed ${seed}`).toBeLessThanOrEqual(SIMPLIFY_MM + 1e-9);
      expect(Math.max(...along(to).map((p) => offLine(p, from))), `seed ${seed}`).toBeLessThanOrEqual(SIMPLIFY_MM + 1e-9);
      expect(kept.length).toBeLessThanOrEqual(drawn.length);
    }
  });

  it('keeps the ends, leaves a straight even line two points and a resting hand one', () => {
    const straight = Array.from({ length: 500 }, (_, i): StrokePoint => [i * 0.1, 7, 1]);
    expect(keptPoints({ points: straight, widthMm: 2 })).toEqual([[0, 7, 1], [49.9, 7, 1]]);
    expect(keptPoints({ points: Array.from({ length: 50 }, (): StrokePoint => [3, 4, 0.5]), widthMm: 2 })).toEqual([[3, 4, 0.5]]);
    expect(keptPoints({ points: [[3.00001, -0.0004, 1]], widthMm: 2 })).toEqual([[3, 0, 1]]);
  });

  it('keeps of a circle about the chords whose sagitta is the tolerance: s = r (1 − cos(π/n)) (mensuration, from memory)', () => {
    const [radius, tolerance] = [20, 0.1];
    const circle = Array.from({ length: 2_001 }, (_, i): StrokePoint => [radius * Math.cos((2 * Math.PI * i) / 2_000), radius * Math.sin((2 * Math.PI * i) / 2_000), 1]);
    const least = Math.PI / Math.acos(1 - tolerance / radius);
    const chords = simplified({ points: circle, widthMm: 2 }, tolerance).length - 1;
    expect(chords).toBeGreaterThanOrEqual(Math.ceil(least));
    expect(chords).toBeLessThanOrEqual(2 * least); // halving over and over: at most the next power of two
  });

  it('keeps a swell of pressure on a straight line', () => {
    expect(keptPoints({ points: [[0, 0, 0.2], [5, 0, 1], [10, 0, 0.2]], widthMm: 4 })).toHaveLength(3);
  });
});

describe('the eraser', () => {
  it('cuts a line where its circle meets it: half a chord is √(R² − d²) (Euclid III 3), the mark’s own half width added to R', () => {
    const line = stroke([[-20, 0, 1], [20, 0, 1]]);
    const [left, right] = erased([line], { path: [[0, 1.5]], radiusMm: 1.5 });
    const half = Math.sqrt(2.5 ** 2 - 1.5 ** 2);
    expect(left.points).toEqual([[-20, 0, 1], [-half, 0, 1]]);
    expect(right.points).toEqual([[half, 0, 1], [20, 0, 1]]);
  });

  it('takes a stretch along which it moved, and nothing of what it passes by', () => {
    const line = stroke([[-20, 0, 1], [20, 0, 1]]);
    const crossed = erased([line], { path: [[-5, 10], [-5, -10], [5, -10], [5, 10]], radiusMm: 1 });
    expect(crossed.map(({ points }) => points.map(([x]) => x))).toEqual([[-20, -7], [-3, 3], [7, 20]]);
    const lines = [line];
    expect(erased(lines, { path: [[0, 2.01], [5, 9]], radiusMm: 1 })).toBe(lines);
    expect(erased([line], { path: [[-30, 0], [30, 0]], radiusMm: 0.1 })).toEqual([]);
    expect(erased([stroke([[1, 1, 1]])], { path: [[1, 2.9]], radiusMm: 1 })).toEqual([]);
  });

  it('leaves no paint under itself and all paint elsewhere, by many places tried; twice is once (100 scribbles)', () => {
    let split = 0;
    for (let seed = 0; seed < 100; seed++) {
      const before = stroke(scribble(seed, 40, 2), { widthMm: 3 });
      const [mx, my] = before.points[20];
      const path = scribble(seed + 1_000, 8, 6).map(([x, y], _, [[x0, y0]]) => [x - x0 + mx, y - y0 + my] as const);
      const eraser = { path, radiusMm: 2 };
      const after = erased([before], eraser);
      if (after.length > 1) split++;
      const clear = (p: readonly number[]) => offLine(p.slice(0, 2), path) - 2 - p[2];
      for (const piece of after) for (const p of along(lifted(piece.points, 3))) expect(clear(p), `seed ${seed}`).toBeGreaterThanOrEqual(-3e-6); // where it was cut: six decimals
      const rests = after.map(({ points }) => lifted(points, 3));
      for (const p of along(lifted(before.points, 3))) {
        // A rest shorter than a hundredth is dropped.
        if (clear(p) > 0.02) expect(Math.min(...rests.map((rest) => offLine(p, rest))), `seed ${seed}`).toBeLessThanOrEqual(3e-6);
      }
      const again = erased(after, eraser);
      expect(Math.abs(again.reduce((sum, one) => sum + strokeLength(one), 0) - after.reduce((sum, one) => sum + strokeLength(one), 0))).toBeLessThanOrEqual(1e-3);
    }
    expect(split).toBeGreaterThan(50);
  });

  it('does the same to the millimeter far from the middle, turned and mirrored', () => {
    const before = stroke(scribble(7, 30, 2), { widthMm: 3 });
    const [mx, my] = before.points[15];
    const path = [[mx - 10, my - 8], [mx, my + 1], [mx + 9, my - 2]] as const;
    const length = (moved: (p: readonly number[]) => [number, number]) => {
      const points = before.points.map((p): StrokePoint => [...moved(p), p[2]]);
      return erased([{ ...before, points }], { path: path.map(moved), radiusMm: 2 }).reduce((sum, one) => sum + strokeLength(one), 0);
    };
    const plain = length(([x, y]) => [x, y]);
    expect(plain).toBeLessThan(strokeLength(before));
    for (const moved of [length(([x, y]) => [-x, y]), length(([x, y]) => [y, -x]), length(([x, y]) => [x + 5_000, y - 5_000])]) expect(Math.abs(moved - plain)).toBeLessThanOrEqual(1e-4);
  });
});

describe('what a sketch covers', () => {
  it('a line covers its length times its width and a circle: L w + π w²/4; soft edges count to their middle', () => {
    const line = [stroke([[0, 0, 1], [30, 10, 1]], { widthMm: 4 })];
    const exact = Math.hypot(30, 10) * 4 + Math.PI * 4;
    // Round ends are chords within 0.01 mm.
    expect(Math.abs(regionArea(sketchRegion(line, regions)) - exact)).toBeLessThan(0.01 * Math.PI * 4);
    const soft = [stroke([[0, 0, 1]], { widthMm: 10, softMm: 2 })];
    expect(Math.abs(regionArea(sketchRegion(soft, regions)) - Math.PI * 16)).toBeLessThan(0.01 * Math.PI * 8);
    expect(sketchRegion([], regions)).toEqual([]);
  });

  it('a swelling line covers two circle sectors and two right trapezoids: belt around two pulleys (mensuration, from memory)', () => {
    const swelling = stroke([[0, 0, 1], [20, 0, 0.375]], { widthMm: 16 });
    const [a, b, apart] = [8, 4, 20];
    const off = Math.acos((a - b) / apart);
    const exact = (a + b) * Math.sqrt(apart ** 2 - (a - b) ** 2) + a * a * (Math.PI - off) + b * b * off;
    expect(Math.abs(regionArea(sketchRegion([swelling], regions)) - exact)).toBeLessThan(0.01 * 2 * Math.PI * 8);
  });

  it('is counted on the card’s grid as the polygon library has it, overlaps once (10 scribbles)', () => {
    const mold = { shape: 'box', lengthMm: 160, widthMm: 160, heightMm: 40, draftDeg: 0, cornerRadiusMm: 0, material: 'silicone', wallMm: 8, keep: false } as const;
    for (let seed = 0; seed < 10; seed++) {
      const sketch = [stroke(scribble(seed, 80, 1.5), { widthMm: 6, softMm: 1 }), stroke(scribble(seed + 50, 40, 2), { widthMm: 4 })];
      const [{ cm2 }] = coverageOf({ mold, cast: 'face-up' }, [{ planeId: 'p1', atMm: 10, regions: [paintLoops(sketch)] }]);
      // Cells of 0.4 mm along edges some hundred of them long.
      expect(Math.abs((100 * cm2) / regionArea(sketchRegion(sketch, regions)) - 1), `seed ${seed}`).toBeLessThan(0.02);
    }
  });

  it('one region a run of ink, in painting order, none outside the box of its paint', () => {
    const [dark, light] = ['#1c292d', '#f7f5ee'];
    const sketch = [dark, dark, light, dark].map((ink, i) => stroke([[i * 10, 0, 1], [i * 10 + 5, 5, 0.5]], { ink }));
    const runs = inkedRegions(sketch, regions);
    expect(runs.map(({ ink }) => ink)).toEqual([dark, light, dark]);
    expect(runs[0].region).toHaveLength(2);
    const { minX, maxX } = markBounds(sketch[2]);
    for (let i = 0; i < runs[1].region[0].length; i += 2) {
      expect(runs[1].region[0][i]).toBeGreaterThanOrEqual(minX - 1e-9);
      expect(runs[1].region[0][i]).toBeLessThanOrEqual(maxX + 1e-9);
    }
  });
});
