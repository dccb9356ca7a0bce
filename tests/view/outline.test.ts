/** The mold's outline is the mold, and exactly the walls between the eye and the inside are cut away. */
import { describe, expect, it } from 'vitest';
import type { BoxMold, RoundMold } from '../../src/core/scene/scene.ts';
import { moldAreaAt } from '../../src/core/solid/mold.ts';
import { drawMold, waterBands, waterLevel } from '../../src/view/drawing.ts';
import { innerAt, keptFrom, moldBounds, outerAt, outlineOf, type Outline } from '../../src/view/outline.ts';
import { COLORS } from './paper.ts';

const BOX: BoxMold = { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60, draftDeg: 0, cornerRadiusMm: 0, material: 'silicone', wallMm: 8, keep: false };
const ROUND: RoundMold = { shape: 'round', diameterMm: 150, heightMm: 54, draftDeg: 0, material: 'hdpe', wallMm: 4, keep: false };

/** Area inside the outline at a height, mm². */
function areaOf(outline: Outline, z: number, at = innerAt): number {
  return outline.stretches.reduce((sum, { at: a, next }) => {
    const [p, q] = [at(outline, a, z), at(outline, next, z)];
    return sum + (p[0] * q[1] - p[1] * q[0]) / 2;
  }, 0);
}

describe('outline', () => {
  it.each([
    ['a sharp box', BOX], ['one with draft', { ...BOX, draftDeg: 8 }], ['rounded corners', { ...BOX, cornerRadiusMm: 20 }],
    ['rounded, leaning', { ...BOX, cornerRadiusMm: 20, draftDeg: 5 }], ['round', ROUND], ['round, leaning', { ...ROUND, draftDeg: 2 }],
  ])('%s encloses the mold’s own area at every height', (_, mold) => {
    const outline = outlineOf(mold);
    // Chords instead of arcs: 120 in a circle take π²·2/(3·120²) = 0.05 % off, 10 in a corner less of a smaller part.
    for (const z of [0, 17, 54]) expect(Math.abs(areaOf(outline, z) / moldAreaAt(mold, z) - 1)).toBeLessThan(6e-4);
  });

  it('the outer face stands one wall off', () => {
    expect(areaOf(outlineOf(BOX), 10, outerAt)).toBeCloseTo(216 * 136, 9);
    expect(moldBounds(outlineOf(BOX))).toEqual({ min: [-108, -68, -8], max: [108, 68, 60] });
  });

  it.each([
    ['the right front corner', [300, -500, 300], 2], ['the front', [0, -500, 100], 1], ['above', [0, 0, 700], 0], ['the right end', [500, 0, 100], 1],
  ] as const)('from %s the box loses the walls in the way', (_, eye, lost) => {
    const outline = outlineOf(BOX);
    const kept = keptFrom(outline, eye);
    const walls = outline.stretches.map((stretch, i) => ({ stretch, kept: kept[i] })).filter(({ stretch }) => !stretch.corner);
    expect(walls.filter((wall) => !wall.kept).length).toBe(lost);
    for (const { stretch, kept: drawn } of walls) {
      const [x, y] = innerAt(outline, stretch.at, 30);
      expect(drawn).toBe((eye[0] - x) * stretch.normal[0] + (eye[1] - y) * stretch.normal[1] < 0);
    }
  });

  it('a round mold at three radii opens by 2·acos(1/3) of its turn', () => {
    const outline = outlineOf(ROUND);
    const open = keptFrom(outline, [225, 0, 100]).filter((kept) => !kept).length / outline.stretches.length;
    expect(Math.abs(open - (2 * Math.acos(1 / 3)) / (2 * Math.PI))).toBeLessThan(2 / 120); // one stretch at either end
  });
});

describe('water', () => {
  const pours = [{ index: 1, fromMm: 0, toMm: 20 }, { index: 2, fromMm: 20, toMm: 25 }, { index: 3, fromMm: 25, toMm: 55 }];

  it('stands at the top of the pour chosen', () => {
    expect([undefined, 0, 1, 2, 3].map((poured) => waterLevel(pours, poured, 55))).toEqual([55, 0, 20, 25, 55]);
    expect(waterLevel([], undefined, 55)).toBe(55);
  });

  it('shows lines of poured, coming and present levels, all round', () => {
    const outline = outlineOf(BOX);
    const look = { outline, fillMm: 55, levelMm: 25, bands: waterBands(pours, 55, COLORS), colors: COLORS };
    const drawing = drawMold(look, keptFrom(outline, [300, -500, 300]));
    const heights = (lines: readonly number[]): number[] => [...new Set(lines.filter((_, i) => i % 3 === 2))];
    expect(heights([...drawing.pourLines, ...drawing.frontLines])).toEqual([20]);
    expect(heights(drawing.levelLine)).toEqual([25]);
    expect(heights(drawing.dottedLines)).toEqual([55]);
    expect(drawing.levelLine.length / 6).toBe(4);
    expect(Math.max(...drawing.veil.positions.filter((_, i) => i % 3 === 2))).toBe(25);
  });

  it.each([BOX, ROUND])('from below nothing opaque lies between the eye and the inside of a $shape mold', (mold) => {
    const outline = outlineOf(mold);
    const eye = [0, 0, -900] as const;
    const { paper, cut } = drawMold({ outline, fillMm: 40, levelMm: 40, bands: waterBands([], 40, COLORS), colors: COLORS }, keptFrom(outline, eye), true);
    for (const { positions } of [paper, cut]) {
      for (let i = 0; i < positions.length; i += 9) {
        const corners = [0, 3, 6].map((k) => positions.slice(i + k, i + k + 3));
        expect(Math.min(...corners.map(([, , z]) => z))).toBeGreaterThanOrEqual(0);
        const [x, y] = [0, 1].map((k) => (corners[0][k] + corners[1][k] + corners[2][k]) / 3);
        // Flat on the floor there is only the walls' own section.
        if (corners.every(([, , z]) => z === 0)) expect(mold.shape === 'box' ? Math.max(Math.abs(x) / 100, Math.abs(y) / 60) : Math.hypot(x, y) / 75).toBeGreaterThanOrEqual(0.99);
      }
    }
  });

  it('an empty mold has no surface', () => {
    const outline = outlineOf(BOX);
    const drawing = drawMold({ outline, fillMm: 55, levelMm: 0, bands: waterBands(pours, 55, COLORS), colors: COLORS }, keptFrom(outline, [0, 0, 900]));
    expect([drawing.surface.positions.length, drawing.veil.positions.length, drawing.levelLine.length]).toEqual([0, 0, 0]);
  });
});
