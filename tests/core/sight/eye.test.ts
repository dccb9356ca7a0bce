/** Painting so that it lines up for an eye: by Fermat's principle, by the paraxial closed forms, and as a law of the guides. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Creature, EyePoint, Placement } from '../../../src/core/scene/scene.ts';
import { paraxialScale, planeSight, stretched } from '../../../src/core/sight/eye.ts';
import type { PlaneGuide } from '../../../src/core/sight/guide.ts';
import { centerOf } from '../../../src/core/sight/parts.ts';
import { regionArea, type Regions } from '../../../src/core/sight/region.ts';
import { guidesOf, sectionsFrom } from '../../../src/core/sight/slices.ts';
import { stepsBetween, type Stratum } from '../../../src/core/sight/water.ts';
import { sliceable } from '../../../src/core/solid/section.ts';
import { openRegions } from '../../../src/files/regions.ts';
import { seeded } from '../solid/oracle.ts';
import { boxMold } from '../../reference/made.ts';

let regions: Regions;
beforeAll(async () => {
  regions = await openRegions();
});

const clear = (fromMm: number, toMm: number, index: number): Stratum => ({ fromMm, toMm, index, tint: null });
const eye = (more: Partial<EyePoint> = {}): EyePoint => ({ eyeMm: 500, eyeXMm: 0, eyeYMm: 0, stretch: false, ...more });
const UP = { cast: 'face-up', fillMm: 60 } as const;

/** Where light from a painted point to the eye crosses the face: the way that takes it the least time (Fermat), by ternary search. */
function crossing([px, py]: readonly [number, number], { eyeMm, eyeXMm, eyeYMm }: EyePoint, over: readonly { readonly mm: number; readonly index: number }[]): [number, number] {
  const far = Math.hypot(px - eyeXMm, py - eyeYMm);
  // Through several strata the crossings between them are found the same way, one inside the other.
  const time = (from: number, rest: typeof over): number => {
    const [{ mm, index }] = rest;
    if (rest.length === 1) return index * Math.hypot(far - from, mm);
    return least((at) => index * Math.hypot(at - from, mm) + time(at, rest.slice(1)), from, far).value;
  };
  const { at } = least((x) => Math.hypot(x, eyeMm) + time(x, over), 0, far);
  return [eyeXMm + (at / far) * (px - eyeXMm), eyeYMm + (at / far) * (py - eyeYMm)];
}

function least(of: (x: number) => number, from: number, to: number): { at: number; value: number } {
  let [a, b] = [from, to];
  for (let i = 0; i < 90; i++) {
    const [l, r] = [a + (b - a) / 3, b - (b - a) / 3];
    if (of(l) < of(r)) b = r;
    else a = l;
  }
  return { at: (a + b) / 2, value: of((a + b) / 2) };
}

describe('seen from the eye, paint is where the creature would be without resin', () => {
  it.each(Array.from({ length: 40 }, (_, i) => i + 1))('one resin, seed %i', (seed) => {
    const random = seeded(seed);
    const index = 1.4 + 0.3 * random();
    const read = eye({ eyeMm: 80 + 600 * random(), eyeXMm: 400 * random() - 200, eyeYMm: 200 * random() - 100, stretch: random() < 0.5 });
    const deep = 5 + 50 * random();
    const cast = random() < 0.5 ? 'face-up' : 'face-down';
    const atMm = cast === 'face-up' ? 60 - deep : deep;
    const point: readonly [number, number] = [200 * random() - 100, 120 * random() - 60];
    const { seen, painted } = planeSight({ cast, fillMm: 60 }, read, { strata: [clear(0, 60, index)], atMm });
    const [[px, py]] = painted(seen([Float64Array.from(point)]));
    const [fx, fy] = crossing([px, py], read, [{ mm: deep, index }]);
    // On along the straight line from the eye through the crossing, down to where it is to look.
    const reach = (read.eyeMm + (read.stretch ? deep / index : deep)) / read.eyeMm;
    // A ternary search over a flat minimum is right to the root of a double's last bit, mm.
    expect(Math.hypot(read.eyeXMm + reach * (fx - read.eyeXMm) - point[0], read.eyeYMm + reach * (fy - read.eyeYMm) - point[1])).toBeLessThan(2e-3);
  });

  it('two resins', () => {
    const read = eye({ eyeMm: 150, eyeXMm: -120 });
    const strata = [clear(0, 30, 1.5), clear(30, 60, 1.57)];
    const { seen, painted } = planeSight(UP, read, { strata, atMm: 12 });
    const [[px, py]] = painted(seen([Float64Array.of(50, 20)]));
    const [fx, fy] = crossing([px, py], read, [{ mm: 30, index: 1.57 }, { mm: 18, index: 1.5 }]);
    const reach = (150 + 48) / 150;
    expect(-120 + reach * (fx + 120)).toBeCloseTo(50, 2);
    expect(reach * fy).toBeCloseTo(20, 2);
  });
});

describe('near the point under the eye', () => {
  it.each([[1.55, 24, 500], [1.5, 40, 300], [1.57, 10, 1200]])('n %f, %f mm deep, eye at %f mm: (h + d/n)/(h + d), by hand', (index, deep, eyeMm) => {
    const at = { strata: [clear(0, 60, index)], atMm: 60 - deep };
    const expected = (eyeMm + deep / index) / (eyeMm + deep);
    expect(paraxialScale(UP, eye({ eyeMm }), at)).toBeCloseTo(expected, 12);
    const { seen, painted } = planeSight(UP, eye({ eyeMm }), at);
    expect(painted(seen([Float64Array.of(0.01, 0)]))[0][0] / 0.01).toBeCloseTo(expected, 6);
    // Built as deep as it is to look, nothing near there is left to do.
    expect(paraxialScale(UP, eye({ eyeMm, stretch: true }), at)).toBeCloseTo(1, 12);
  });

  it('without resin (n 1) nothing is moved', () => {
    const { seen, painted } = planeSight(UP, eye({ eyeMm: 90, eyeXMm: 40 }), { strata: [clear(0, 60, 1)], atMm: 5 });
    const [loop] = painted(seen([Float64Array.of(-70, 30, 90, -50, 10, 80)]));
    for (const [i, at] of [-70, 30, 90, -50, 10, 80].entries()) expect(loop[i]).toBeCloseTo(at, 9);
  });
});

describe('straight edges bend', () => {
  it('and are followed to 0.005 mm', () => {
    const read = eye({ eyeMm: 60 });
    const { painted } = planeSight(UP, read, { strata: [clear(0, 60, 1.55)], atMm: 0 });
    const edge = [-90, 40, 90, 40, 0, -60];
    const [loop] = painted([Float64Array.from(edge)]);
    expect(loop.length).toBeGreaterThan(40);
    for (let k = 0; k <= 50; k++) {
      const [[x, y]] = painted([Float64Array.of(-90 + 3.6 * k, 40)]);
      let off = Infinity;
      for (let i = 0; i + 3 < loop.length; i += 2) off = Math.min(off, distance(x, y, loop.subarray(i, i + 4)));
      expect(off).toBeLessThan(0.0055);
    }
  });
});

function distance(x: number, y: number, [ax, ay, bx, by]: Float64Array): number {
  const along = Math.min(1, Math.max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / ((bx - ax) ** 2 + (by - ay) ** 2)));
  return Math.hypot(x - ax - along * (bx - ax), y - ay - along * (by - ay));
}

describe('stretched to look as deep as it is', () => {
  const ball = sliceable({ shape: { type: 'sphere', radiusMm: 12 }, turnDeg: [0, 0, 0], scale: 1 }).placed({ xMm: 0, yMm: 0, baseMm: 6 });

  it('24 mm are built as 37.2 in n 1.55 (acceptance case 11), and cut where they look', () => {
    const built = stretched(ball, [clear(0, 60, 1.55)]);
    expect(built.bounds.max[2] - 6).toBeCloseTo(37.2, 9);
    // A ball's section, π h(2r − h), h over the base as it looks.
    for (const h of [3, 12, 20]) expect(regionArea(built.at(6 + 1.55 * h))).toBeCloseTo(Math.PI * h * (24 - h), 0);
  });

  it('through two resins each draws together its own share, and above the resin nothing does', () => {
    const strata = [clear(0, 20, 1.5), clear(20, 30, 1.6)];
    const built = stretched(ball, strata);
    // 14 mm at 1.5 look 9.33, 10 at 1.6 look 6.25, the rest of the 24 is in air: by hand.
    expect(built.bounds.max[2]).toBeCloseTo(30 + 24 - 14 / 1.5 - 10 / 1.6, 9);
    const h = 14 / 1.5 + 5 / 1.6;
    expect(regionArea(built.at(25))).toBeCloseTo(Math.PI * h * (24 - h), 0);
  });
});

describe('guides of a creature that lines up', () => {
  const guides = (read: EyePoint | undefined, heights: readonly number[], index = 1.55): PlaneGuide[] => {
    const creature: Creature = { id: 'c', name: 'Post', shape: { type: 'cylinder', radiusMm: 15, heightMm: 50 }, xMm: 0, yMm: 0, baseMm: 0, turnDeg: [0, 0, 0], scale: 1, featherMm: 1.5, viewDeg: 45, read };
    const placements = heights.map((atMm, i): Placement => ({ kind: 'plane', id: `p${i}`, name: `Post ${i + 1}`, atMm, paintH: 3, dryH: 12, slices: ['c'] }));
    const formulas = new Map([['g', { refractiveIndex: index }]]) as never;
    return guidesOf({ mold: boxMold(200, 120, 60), cast: 'face-up', fillMm: 60, fills: [{ toMm: 60, formula: 'g' }], formulas, placements, creatures: [creature] }, { regions, sectionsOf: sectionsFrom(new Map()) });
  };

  it('an upright post straight under the eye: deeper discs are seen within nearer ones, as of the post itself', () => {
    const [deep, high] = guides(eye({ eyeMm: 300 }), [10, 40]);
    const scale = (d: number) => (300 + d / 1.55) / (300 + d);
    // Near the axis paraxial to 1e-3 at 15 mm off it: tan/sin differ by θ²/2, (15/320)²/2.
    expect(regionArea(high.outline) / (Math.PI * 225)).toBeCloseTo(scale(20) ** 2, 3);
    expect(regionArea(deep.outline) / (Math.PI * 225)).toBeCloseTo(scale(50) ** 2, 3);
    expect(regionArea(deep.fresh)).toBeLessThan(0.5);
  });

  it('from the left the deeper disc’s left lune is new, and nothing is lost: fresh and hidden are the outline', () => {
    const [deep] = guides(eye({ eyeMm: 300, eyeXMm: -400 }), [10, 40]);
    expect(regionArea(deep.fresh)).toBeGreaterThan(200);
    expect(regionArea(deep.fresh) + regionArea(deep.hidden)).toBeCloseTo(regionArea(deep.outline), 1);
    expect(centerOf(deep.fresh).xMm).toBeLessThan(-10);
  });

  it('an eye that is far away and straight above sees what guides without one show', () => {
    const far = guides(eye({ eyeMm: 10_000 }), [10, 25, 40]);
    const plain = guides(undefined, [10, 25, 40]);
    far.forEach((guide, i) => expect(regionArea(guide.outline) / regionArea(plain[i].outline)).toBeCloseTo(1, 2));
  });
});

it('steps count only what is resin', () => {
  expect(stepsBetween([clear(0, 20, 1.5), clear(20, 50, 1.6)], 60, 10).map(({ mm }) => mm)).toEqual([10, 30]);
});
