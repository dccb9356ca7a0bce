/** Air under a solid, by closed forms: a cup upside down holds all its depth, tilted by θ its depth times cos θ. */
import { beforeAll, describe, expect, it } from 'vitest';
import { airPockets } from '../../../src/core/solid/air-pockets.ts';
import { poseSolid } from '../../../src/core/solid/pose.ts';
import type { Booleans, TriangleMesh } from '../../../src/core/solid/solid.ts';
import { openBooleans } from '../../../src/files/booleans.ts';

const UPRIGHT = { xMm: 0, yMm: 0, baseMm: 0, turnDeg: [0, 0, 0], scale: 1 } as const;
const cylinder = (radiusMm: number, heightMm: number, at: object = {}): TriangleMesh => poseSolid({ type: 'cylinder', radiusMm, heightMm }, { ...UPRIGHT, ...at }).mesh();
/** The ceiling's rim lies up to 1 − cos of half a facet inside the circle. */
const FACETS = 1e-3;

let booleans: Booleans;
/** 30 across and 20 high outside, 12 deep inside, open downward. */
let cup: TriangleMesh;
beforeAll(async () => {
  booleans = await openBooleans();
  cup = booleans.subtract(cylinder(15, 20), cylinder(10, 22, { baseMm: -10 }));
});

describe('air', () => {
  it('stays in a cup upside down, to its whole depth', () => {
    const [pocket, ...more] = airPockets(cup, 0.5);
    expect(more).toEqual([]);
    expect(pocket.deepMm).toBeCloseTo(12, 9);
    expect(pocket.topMm).toBeCloseTo(12, 9);
  });

  it.each([10, 35, 60])('stays in the cup tilted by %i degrees, to its depth times the cosine', (tilt) => {
    const { deepMm } = airPockets(poseSolid({ type: 'mesh', file: 'cup' }, { ...UPRIGHT, turnDeg: [tilt, 0, 0] }, cup).mesh(), 0.5)[0];
    expect(Math.abs(deepMm / (12 * Math.cos((tilt * Math.PI) / 180)) - 1)).toBeLessThan(FACETS);
  });

  it('gets out through a hole: of a hole whose top is at 5 of 12, the 7 above it stay', () => {
    const hole = poseSolid({ type: 'box', lengthMm: 40, widthMm: 4, heightMm: 3 }, { ...UPRIGHT, xMm: 20, baseMm: 2 }).mesh();
    expect(airPockets(booleans.subtract(cup, hole), 0.5)[0].deepMm).toBeCloseTo(7, 9);
  });

  it('stays under nothing that bulges, in no cup that stands upright, in no hollow closed all round', () => {
    const ball = poseSolid({ type: 'sphere', radiusMm: 12 }, UPRIGHT).mesh();
    const upright = poseSolid({ type: 'mesh', file: 'cup' }, { ...UPRIGHT, turnDeg: [180, 0, 0] }, cup).mesh();
    const shell = booleans.subtract(ball, poseSolid({ type: 'sphere', radiusMm: 8 }, { ...UPRIGHT, baseMm: 4 }).mesh());
    for (const mesh of [ball, upright, shell, cylinder(10, 5)]) expect(airPockets(mesh, 0.01)).toEqual([]);
  });
});
