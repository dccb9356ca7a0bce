/** Paint on planes, against areas of circles, rings, half-planes and lenses (mensuration). */
import { describe, expect, it } from 'vitest';
import type { ArtPlace } from '../../../src/core/scene/art-place.ts';
import { readScene } from '../../../src/core/scene/read.ts';
import { coverageOf, type PlanePaint } from '../../../src/core/sight/coverage.ts';
import type { Loop } from '../../../src/core/sight/region.ts';

function sceneOf(change: object = {}) {
  const reading = readScene({ format: 'stillpool.scene', version: 1, mold: { shape: 'box', lengthMm: 100, widthMm: 60, heightMm: 40 }, fillMm: 30, fills: [{ toMm: 30, formula: 'general' }], ...change });
  if (!reading.ok) throw new Error(reading.problems[0].message);
  return reading.scene;
}

function circle(xMm: number, yMm: number, radiusMm: number, way: 1 | -1 = 1): Loop {
  return Float64Array.from(Array.from({ length: 720 }, (_, i) => [xMm + radiusMm * Math.cos((way * i * Math.PI) / 360), yMm + radiusMm * Math.sin((way * i * Math.PI) / 360)]).flat());
}
const plane = (planeId: string, atMm: number, ...loops: Loop[]): PlanePaint => ({ planeId, atMm, regions: [loops] });
const whole = { across: 1, down: 1, alpha: Uint8Array.of(255) };

describe('paint on planes', () => {
  it('of a disk is πr², of a ring π(R² − r²), within 0.3 %', () => {
    const [disk, ring] = coverageOf(sceneOf(), [plane('a', 10, circle(3, 2, 15)), plane('b', 20, circle(-10, 0, 20), circle(-10, 0, 12, -1))]);
    expect(disk.cm2 / (Math.PI * 2.25)).toBeCloseTo(1, 2.5);
    expect(ring.cm2 / (Math.PI * (4 - 1.44))).toBeCloseTo(1, 2.5);
  });

  it('over the wall does not count: of a disk on the wall half, of a round mold’s plane its own circle', () => {
    const [half] = coverageOf(sceneOf(), [plane('a', 10, circle(50, 0, 20))]);
    expect(half.cm2 / (Math.PI * 2)).toBeCloseTo(1, 2);
    const round = sceneOf({ mold: { shape: 'round', diameterMm: 80, heightMm: 40 } });
    const [all] = coverageOf(round, [plane('a', 10, circle(0, 0, 90))]);
    expect(all.cm2 / (Math.PI * 16)).toBeCloseTo(1, 2);
  });

  it('hides the lens 2r² acos(d/2r) − d/2·√(4r² − d²) of an equal disk beside it, on farther planes alone', () => {
    const [r, d] = [15, 12];
    const lens = 2 * r * r * Math.acos(d / (2 * r)) - (d / 2) * Math.sqrt(4 * r * r - d * d);
    const planes = [plane('low', 10, circle(0, 0, r)), plane('high', 20, circle(d, 0, r)), plane('away', 5, circle(-34, -14, 10))];
    const up = coverageOf(sceneOf(), planes);
    expect(up.map(({ planeId, hides }) => [planeId, hides.map((hidden) => hidden.planeId)])).toEqual([['low', []], ['high', ['low']], ['away', []]]);
    expect(up[1].hides[0].share).toBeCloseTo(lens / (Math.PI * r * r), 2);
    const down = coverageOf(sceneOf({ cast: 'face-down' }), planes);
    expect(down.map(({ hides }) => hides.map(({ planeId }) => planeId))).toEqual([['high'], [], []]);
  });

  it('of a picture is its rectangle, turned and mirrored alike; half-clear counts half', () => {
    const picture = (place: ArtPlace, alpha = 255): PlanePaint => ({ planeId: 'a', atMm: 10, regions: [], picture: { place, widthMm: 30, heightMm: 20, paint: { ...whole, alpha: Uint8Array.of(alpha) } } });
    const flat: ArtPlace = { xMm: 4, yMm: -3, turnDeg: 0, mirror: false };
    expect(coverageOf(sceneOf(), [picture(flat)])[0].cm2).toBeCloseTo(6, 1);
    expect(coverageOf(sceneOf(), [picture({ ...flat, turnDeg: 33, mirror: true })])[0].cm2).toBeCloseTo(6, 1);
    expect(coverageOf(sceneOf(), [picture(flat, 51)])[0].cm2).toBeCloseTo(6 * 0.2, 1);
  });

  it('knows a picture’s left from its right and its top from its bottom, as it lies', () => {
    // Only the upper left quarter is painted: 15 by 10 mm.
    const quarter = { across: 2, down: 2, alpha: Uint8Array.of(255, 0, 0, 0) };
    const at = (place: Partial<ArtPlace>, x: number, y: number): number => {
      const placed: ArtPlace = { xMm: 0, yMm: 0, turnDeg: 0, mirror: false, ...place };
      const [, under] = coverageOf(sceneOf(), [{ planeId: 'dot', atMm: 5, regions: [[circle(x, y, 3)]] }, { planeId: 'a', atMm: 10, regions: [], picture: { place: placed, widthMm: 30, heightMm: 20, paint: quarter } }]);
      return under.hides[0]?.share ?? 0;
    };
    // y points to the back, and a picture's top lies there.
    expect(at({}, -7, 5)).toBeCloseTo(1, 2);
    expect(at({}, 7, 5)).toBe(0);
    expect(at({}, -7, -5)).toBe(0);
    expect(at({ mirror: true }, 7, 5)).toBeCloseTo(1, 2);
    // A quarter turn counterclockwise takes its upper left to the lower left.
    expect(at({ turnDeg: 90 }, -5, -7)).toBeCloseTo(1, 2);
  });

  it('of two pictures’ worth of paint over each other is no more than the plane', () => {
    const paint: PlanePaint = { planeId: 'a', atMm: 10, regions: [[circle(0, 0, 10)], [circle(0, 0, 10)]] };
    expect(coverageOf(sceneOf(), [paint])[0].cm2 / Math.PI).toBeCloseTo(1, 2);
  });
});
