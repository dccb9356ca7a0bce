import { describe, expect, it } from 'vitest';
import type { BoxMold, RoundMold } from '../../../src/core/scene/scene.ts';
import { moldAreaAt, moldCutter, moldLevelOf, moldVolumeBelow, moldWallOvershoot } from '../../../src/core/solid/mold.ts';
import { meshProfile } from '../../../src/core/solid/profile.ts';
import { meshVolume } from '../../../src/core/solid/shape-volume.ts';

const BOX: BoxMold = {
  shape: 'box', lengthMm: 200, widthMm: 100, heightMm: 60, draftDeg: 0, cornerRadiusMm: 0, material: 'silicone', wallMm: 8, keep: false,
};
const ROUND: RoundMold = { shape: 'round', diameterMm: 100, heightMm: 60, draftDeg: 0, material: 'silicone', wallMm: 8, keep: false };
const degrees = (radians: number): number => (radians * 180) / Math.PI;

/** Relative. The table gives ten significant digits. */
const TABLE = 1e-9;
/** Relative. A dozen roundings of doubles. */
const ROUNDING = 1e-14;

const MOLDS = [
  { name: 'plain box', mold: BOX },
  { name: 'drafted box with round corners', mold: { ...BOX, draftDeg: 4, cornerRadiusMm: 15 } },
  { name: 'box whose ends are half circles', mold: { ...BOX, draftDeg: 2, cornerRadiusMm: 50 } },
  { name: 'round', mold: ROUND },
  { name: 'drafted round', mold: { ...ROUND, draftDeg: 7 } },
];

describe('volume of a mold, against standard mensuration formulas (values: recomputed to ten digits)', () => {
  it('conical frustum 60/45/80: πh(R² + Rr + r²)/3', () => {
    const mold: RoundMold = { ...ROUND, diameterMm: 90, draftDeg: degrees(Math.atan(15 / 80)) };
    expect(Math.abs(moldVolumeBelow(mold, 80) / 697433.5691 - 1)).toBeLessThan(TABLE);
  });
  it('tapered box 100×60 → 120×80, 50 high: prismatoid', () => {
    const mold: BoxMold = { ...BOX, lengthMm: 100, widthMm: 60, draftDeg: degrees(Math.atan(10 / 50)) };
    expect(Math.abs(moldVolumeBelow(mold, 50) / 386666.6667 - 1)).toBeLessThan(TABLE);
  });
  it('rounded-corner rectangle 200×100 r 15, 40 high: LW − (4 − π)r²', () => {
    const mold: BoxMold = { ...BOX, cornerRadiusMm: 15 };
    expect(Math.abs(moldAreaAt(mold, 12) / 19806.858347 - 1)).toBeLessThan(TABLE);
    expect(Math.abs(moldVolumeBelow(mold, 40) / 792274.33388 - 1)).toBeLessThan(TABLE);
  });
  it('box with upright edges rounded, 100×80×60 r 10', () => {
    const mold: BoxMold = { ...BOX, lengthMm: 100, widthMm: 80, cornerRadiusMm: 10 };
    expect(Math.abs(moldVolumeBelow(mold, 60) / 474849.556 - 1)).toBeLessThan(TABLE);
  });
});

describe.each(MOLDS)('$name', ({ mold }) => {
  it('holds nothing below the floor and goes on above the rim', () => {
    expect(moldVolumeBelow(mold, -5)).toBe(0);
    expect(moldVolumeBelow(mold, 0)).toBe(0);
    expect(moldAreaAt(mold, -0.1)).toBe(0);
    expect(moldVolumeBelow(mold, 90)).toBeGreaterThan(moldVolumeBelow(mold, 60) + 30 * moldAreaAt(mold, 0) * (1 - ROUNDING));
  });
  it('has its section as the slope of its volume (Simpson is exact for a quadratic section)', () => {
    const simpson = (40 / 6) * (moldAreaAt(mold, 10) + 4 * moldAreaAt(mold, 30) + moldAreaAt(mold, 50));
    expect(Math.abs((moldVolumeBelow(mold, 50) - moldVolumeBelow(mold, 10)) / simpson - 1)).toBeLessThan(ROUNDING);
  });
  it('finds the level of a volume to 1e-12 mm', () => {
    for (const z of [1e-6, 0.37, 12, 59.999, 60, 140]) {
      expect(Math.abs(moldLevelOf(mold, moldVolumeBelow(mold, z)) - z)).toBeLessThan(1e-12 * Math.max(1, z / 10));
    }
    expect(moldLevelOf(mold, 0)).toBe(0);
    expect(moldLevelOf(mold, -3)).toBe(0);
  });
  it('gives a cutter whose section has the true area at every height', () => {
    const cutter = moldCutter(mold, 75);
    const profile = meshProfile(cutter);
    expect(profile.bottomMm).toBe(0);
    expect(profile.topMm).toBe(75);
    for (const z of [0, 1, 33.3, 74]) {
      // The polygon's area is made equal; only rounding of some thousand corners is left.
      expect(Math.abs(profile.areaAt(z) / moldAreaAt(mold, z) - 1)).toBeLessThan(1e-11);
      expect(Math.abs(profile.volumeBelow(z) - moldVolumeBelow(mold, z)) / profile.volumeMm3).toBeLessThan(1e-11);
    }
    expect(meshVolume(cutter)).toBeGreaterThan(0);
  });
  it('has the corners of its cutter on its wall', () => {
    // k − 1 of a 2048-sided circle is 1.6e-6: 0.08 µm at 50 mm.
    const { positions: p } = moldCutter(mold, 75);
    for (let i = 0; i < p.length; i += 3) expect(Math.abs(moldWallOvershoot(mold, p[i], p[i + 1], p[i + 2]))).toBeLessThan(2e-4);
  });
});

describe('what lies inside', () => {
  const isInside = (mold: BoxMold, xMm: number, yMm: number, zMm: number, toleranceMm: number) => moldWallOvershoot(mold, xMm, yMm, zMm) <= toleranceMm;

  it('lets a point be outside by the tolerance, square to a leaning wall', () => {
    const mold: BoxMold = { ...BOX, draftDeg: 45 };
    // 1 mm sideways from a wall at 45° is √½ mm from it.
    expect(isInside(mold, 111, 0, 10, Math.SQRT1_2 + 1e-9)).toBe(true);
    expect(isInside(mold, 111, 0, 10, Math.SQRT1_2 - 1e-9)).toBe(false);
  });
  it('rounds the corners', () => {
    const mold: BoxMold = { ...BOX, cornerRadiusMm: 20 };
    const onArc = 20 * Math.SQRT1_2;
    expect(isInside(mold, 80 + onArc, 30 + onArc, 5, 1e-9)).toBe(true);
    expect(isInside(mold, 80 + onArc + 0.1, 30 + onArc, 5, 0.05)).toBe(false);
    expect(isInside(mold, 99, 49, 5, 0.05)).toBe(false);
    expect(isInside(mold, -99.99, 12, 5, 0)).toBe(true);
  });
  it('refuses a cutter that has no height', () => {
    expect(() => moldCutter(ROUND, 0)).toThrow(/above 0 mm/);
  });
});
