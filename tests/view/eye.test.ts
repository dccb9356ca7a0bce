/** The named looks hold the whole piece, as large as the margins allow; nothing done by hand loses it. */
import { describe, expect, it } from 'vitest';
import { between, fitted, lookFrom, panned, seenAt, sightThrough, turned, zoomed, type Eye, type Frame } from '../../src/view/eye.ts';
import type { SeenFrom } from '../../src/view/props.ts';
import { seeded } from './seeded.ts';

const MOLD = { min: [-108, -68, -8], max: [108, 68, 60] } as const;
const FRAME: Frame = { width: 660, height: 720, margin: { left: 24, right: 46, top: 52, bottom: 28 } };
/** px: doubles through two projections of some hundred mm leave under 1e-9; a thousandth of a px is not seen. */
const PX = 1e-3;

function cornersSeen(eye: Eye, bounds: { min: readonly number[]; max: readonly number[] }, frame: Frame) {
  return [0, 1, 2, 3, 4, 5, 6, 7].map((c) => seenAt(eye, [0, 1, 2].map((k) => ((c >> k) & 1 ? bounds.max[k] : bounds.min[k])) as unknown as [number, number, number], frame));
}

describe('framing', () => {
  it.each(['corner', 'front', 'end', 'above', 'below'] as SeenFrom[])('%s: every corner inside the margins, and two opposite margins touched', (seen) => {
    const points = cornersSeen(lookFrom(seen, MOLD, FRAME), MOLD, FRAME);
    const [left, right] = [Math.min(...points.map((p) => p.x)), FRAME.width - Math.max(...points.map((p) => p.x))];
    const [top, bottom] = [Math.min(...points.map((p) => p.y)), FRAME.height - Math.max(...points.map((p) => p.y))];
    expect(left).toBeGreaterThan(24 - PX);
    expect(right).toBeGreaterThan(46 - PX);
    expect(top).toBeGreaterThan(52 - PX);
    expect(bottom).toBeGreaterThan(28 - PX);
    const spareAcross = left - 24 + (right - 46);
    const spareDown = top - 52 + (bottom - 28);
    expect(Math.min(spareAcross, spareDown)).toBeLessThan(PX);
  });

  it('random boxes, pictures and directions, seed 11: inside the margins and tight', () => {
    const random = seeded(11);
    for (let i = 0; i < 300; i++) {
      const half = [1, 2, 3].map(() => 1 + 400 * random());
      const bounds = { min: [-half[0], -half[1], 0] as const, max: [half[0], half[1], half[2]] as const };
      const frame: Frame = { width: 120 + 1500 * random(), height: 120 + 900 * random(), margin: { left: 10, right: 20, top: 30, bottom: 5 } };
      const points = cornersSeen(fitted(7 * random(), 1.5 * random(), bounds, frame), bounds, frame);
      const spare = [Math.min(...points.map((p) => p.x)) - 10, frame.width - 20 - Math.max(...points.map((p) => p.x)), Math.min(...points.map((p) => p.y)) - 30, frame.height - 5 - Math.max(...points.map((p) => p.y))];
      expect(Math.min(...spare)).toBeGreaterThan(-PX);
      expect(Math.min(spare[0] + spare[1], spare[2] + spare[3])).toBeLessThan(PX);
    }
  });

  it('sight through a seen point passes through the point, seed 12', () => {
    const random = seeded(12);
    for (let i = 0; i < 200; i++) {
      const eye = turned(lookFrom('corner', MOLD, FRAME), 6 * random(), random() - 0.5);
      const point = [200 * random() - 100, 120 * random() - 60, 60 * random()] as const;
      const { x, y } = seenAt(eye, point, FRAME);
      const { origin, direction } = sightThrough(eye, [x, y], FRAME);
      const along = [0, 1, 2].reduce((sum, k) => sum + (point[k] - origin[k]) * direction[k], 0);
      const away = Math.hypot(...[0, 1, 2].map((k) => origin[k] + along * direction[k] - point[k]));
      expect(away).toBeLessThan(1e-9); // mm: rounding of doubles at some hundred mm
    }
  });
});

describe('from below', () => {
  it('x goes to the right and y down, as when the cast piece is turned over', () => {
    const eye = lookFrom('below', MOLD, FRAME);
    const [middle, right, back] = ([[0, 0, 0], [50, 0, 0], [0, 50, 0]] as const).map((point) => seenAt(eye, point, FRAME));
    expect(right.x - middle.x).toBeGreaterThan(1);
    expect(Math.abs(right.y - middle.y)).toBeLessThan(PX);
    expect(back.y - middle.y).toBeGreaterThan(1);
    // The floor is nearer than the rim.
    expect(seenAt(eye, [0, 0, 0], FRAME).ahead).toBeLessThan(seenAt(eye, [0, 0, 60], FRAME).ahead);
  });

  it('turned by hand stays below, and from above stays above', () => {
    expect(turned(lookFrom('below', MOLD, FRAME), 1, 3).elevation).toBeLessThan(0);
    expect(turned(lookFrom('corner', MOLD, FRAME), 1, -3).elevation).toBeGreaterThan(0);
  });
});

describe('by hand', () => {
  it('never loses the piece, seed 13: the middle of the picture stays at the mold, after 3,000 wild moves', () => {
    const random = seeded(13);
    let eye = lookFrom('corner', MOLD, FRAME);
    for (let i = 0; i < 3000; i++) {
      const kind = random();
      const at = [2000 * random() - 1000, 2000 * random() - 1000] as const;
      eye = kind < 0.33 ? turned(eye, 4 * random() - 2, 4 * random() - 2) : kind < 0.66 ? panned(eye, at, MOLD, FRAME) : zoomed(eye, Math.exp(4 * random() - 2), at, MOLD, FRAME);
      const stray = 0.15 * 216 + 1e-9;
      eye.target.forEach((v, k) => {
        expect(v).toBeGreaterThanOrEqual(MOLD.min[k] - stray);
        expect(v).toBeLessThanOrEqual(MOLD.max[k] + stray);
      });
      expect(eye.elevation).toBeGreaterThan(0);
      expect(eye.distanceMm / eye.fitMm).toBeLessThanOrEqual(1.7 + 1e-12);
      expect(eye.distanceMm).toBeGreaterThan(0);
    }
  });

  it('coming nearer keeps what is under the pointer there', () => {
    const eye = lookFrom('above', MOLD, FRAME);
    const point = [30, 20, eye.target[2]] as const; // in the plane of the target, where the slide is exact
    const before = seenAt(eye, point, FRAME);
    const after = seenAt(zoomed(eye, 1.4, [before.x - FRAME.width / 2, before.y - FRAME.height / 2], MOLD, FRAME), point, FRAME);
    expect(Math.hypot(after.x - before.x, after.y - before.y)).toBeLessThan(PX);
  });

  it('moves between looks the shorter way round, from one exactly to the other', () => {
    const [a, b] = [lookFrom('end', MOLD, FRAME), turned(lookFrom('end', MOLD, FRAME), 2 * Math.PI - 0.2, 0)];
    expect(between(a, b, 0.5).azimuth).toBeLessThan(0);
    expect(between(a, b, 0).distanceMm).toBeCloseTo(a.distanceMm, 9); // through a logarithm and back
    expect(between(a, b, 0).target).toEqual(a.target);
    expect(between(a, b, 1).distanceMm).toBeCloseTo(b.distanceMm, 9);
    expect(Math.cos(between(a, b, 1).azimuth)).toBeCloseTo(Math.cos(b.azimuth), 12);
  });
});
