/** Pointing at painted creatures: their form as slabs, what lies in front of what, and how what was drawn goes along with them. */
import { Box3, Ray as ThreeRay, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import type { Scene } from '../../src/core/scene/scene.ts';
import { poseSolid } from '../../src/core/solid/pose.ts';
import { hitContours } from '../../src/view/contours.ts';
import { carryOf, formOf } from '../../src/view/form.ts';
import { pickAlong, type Pickable } from '../../src/view/picking.ts';
import type { Place, ViewContour } from '../../src/view/props.ts';
import type { Ray } from '../../src/view/ray.ts';
import { seeded } from './seeded.ts';

const square = (half: number): number[] => [-half, -half, half, -half, half, half, -half, half];
const at = (heights: readonly number[], ...loops: number[][]): ViewContour[] => heights.map((atMm) => ({ atMm, loops }));

describe('a form of level outlines', () => {
  it('is met where three.js meets the same box, or passed by, seed 5', () => {
    const random = seeded(5);
    const between = (low: number, high: number): number => low + (high - low) * random();
    for (const farMm of [0, 1e4]) {
      let hits = 0;
      for (let n = 0; n < 500; n++) {
        const [x, y, half, low, tall] = [farMm + between(-9, 9), between(-9, 9), between(1, 20), between(-5, 30), between(1, 30)];
        const contours = at([0.5, 1.5, 2.5].map((share) => low + (share * tall) / 3), square(half).map((side, i) => side + (i % 2 === 0 ? x : y)));
        const origin = new Vector3(farMm + between(-200, 200), between(-200, 200), between(80, 200));
        const toward = new Vector3(x + between(-18, 18), y + between(-18, 18), low + between(-10, 40));
        const ray = new ThreeRay(origin, toward.sub(origin).normalize());
        const box = new Box3(new Vector3(x - half, y - half, low), new Vector3(x + half, y + half, low + tall));
        const expected = ray.intersectBox(box, new Vector3())?.distanceTo(origin) ?? null;
        const found = hitContours(contours, { origin: origin.toArray(), direction: ray.direction.toArray() });
        if (expected === null) expect(found).toBeNull();
        else expect(Math.abs(found! - expected)).toBeLessThan(1e-7); // doubles at 10 m, over a sight as flat as a tenth
        if (expected !== null) hits++;
      }
      expect(hits).toBeGreaterThan(100);
      expect(hits).toBeLessThan(450);
    }
  });

  it('is open where its outline has a hole, level sights meet it, none meets nothing', () => {
    const ring = at([10, 14], square(20), square(8).reverse());
    const down = (x: number): Ray => ({ origin: [x, 0, 100], direction: [0, 0, -1] });
    expect(hitContours(ring, down(0))).toBeNull();
    expect(hitContours(ring, down(12))).toBe(84); // half way beyond the upper outline
    expect(hitContours(ring, { origin: [-50, 0, 9], direction: [1, 0, 0] })).toBe(30);
    expect(hitContours(ring, { origin: [-50, 0, 7], direction: [1, 0, 0] })).toBeNull();
    expect(hitContours(ring, { origin: [0, 0, 9], direction: [1, 0, 0] })).toBe(8); // from within its hole
    expect(hitContours(ring, { origin: [50, 0, 9], direction: [1, 0, 0] })).toBeNull(); // behind
    expect(hitContours([], down(0))).toBeNull();
  });
});

describe('what was drawn with a thing', () => {
  it('comes along to where the thing is posed anew, seed 6', () => {
    const random = seeded(6);
    const shape = { type: 'wedge', lengthMm: 40, widthMm: 22, heightMm: 9 } as const;
    const posed = ({ turnZDeg, ...place }: Place) => poseSolid(shape, { ...place, turnDeg: [25, -10, turnZDeg], scale: 1.3 }).mesh().positions;
    for (let n = 0; n < 50; n++) {
      const [drawn, from, to] = Array.from({ length: 3 }, (): Place => ({ xMm: 90 * random(), yMm: -60 * random(), baseMm: 12, turnZDeg: 360 * (random() - 0.5) }));
      const { turnRad, xMm, yMm } = carryOf(formOf(Float32Array.from(posed(drawn))), drawn.turnZDeg, from, to);
      const [before, after] = [posed(from), posed(to)];
      for (let i = 0; i < before.length; i += 3) {
        const [c, s] = [Math.cos(turnRad), Math.sin(turnRad)];
        // The form is held in single precision: 1e-7 of 100 mm.
        expect(Math.hypot(c * before[i] - s * before[i + 1] + xMm - after[i], s * before[i] + c * before[i + 1] + yMm - after[i + 1])).toBeLessThan(5e-5);
      }
    }
  });
});

describe('what is pointed at', () => {
  const scene = {
    placements: [{ id: 'f1', kind: 'figure' }, { id: 'b1', kind: 'bed' }, { id: 'p1', kind: 'plane' }],
    creatures: [{ id: 'c1' }, { id: 'c2' }],
  } as unknown as Pick<Scene, 'placements' | 'creatures'>;
  const ray: Ray = { origin: [1, 2, 100], direction: [0, 0, -1] };
  const picked = (bodies: Record<string, number>, paint: { distance: number; creature: string | null } | null = null, visible = true) => {
    const drawn: Pickable = {
      bodies: new Map(Object.entries(bodies).map(([id, distance]) => [id, { group: { visible }, hit: () => distance }])),
      sheets: new Map([['p1', { object: { visible }, hit: () => paint }]]),
    };
    const found = pickAlong(ray, scene, drawn);
    return found && `${found.kind} ${found.id} ${found.point.join(' ')}`;
  };

  it('is the nearest; a guide means its creature, paint its plane', () => {
    expect(picked({ f1: 50, b1: 80 })).toBe('figure f1 1 2 50');
    expect(picked({ f1: 50, b1: 30 })).toBe('bed b1 1 2 70');
    expect(picked({ f1: 50 }, { distance: 40, creature: null })).toBe('plane p1 1 2 60');
    expect(picked({ f1: 50 }, { distance: 40, creature: 'c2' })).toBe('creature c2 1 2 60');
    expect(picked({ f1: 30 }, { distance: 40, creature: 'c2' })).toBe('figure f1 1 2 70');
    expect(picked({ f1: 50, c1: 40 }, { distance: 60, creature: 'c1' }, false)).toBeNull();
    expect(picked({})).toBeNull();
  });

  it('is a form that is only imagined where no figure nor guide is seen through it, and the ground is behind', () => {
    expect(picked({ c1: 40, c2: 30 })).toBe('creature c2 1 2 70');
    expect(picked({ c1: 40, b1: 80 })).toBe('creature c1 1 2 60');
    expect(picked({ c1: 40, b1: 20 })).toBe('bed b1 1 2 80');
    expect(picked({ c1: 40 }, { distance: 60, creature: null })).toBe('creature c1 1 2 60');
    expect(picked({ c1: 40, f1: 70 })).toBe('figure f1 1 2 30');
    expect(picked({ c1: 40 }, { distance: 60, creature: 'c2' })).toBe('creature c2 1 2 40');
  });
});
