/** Where a thing comes to stand: closed forms of a wedge and a ball, and what counts as ground. */
import { describe, expect, it } from 'vitest';
import { poseSolid } from '../../../src/core/solid/pose.ts';
import { supportAt, topAt, type StandingSurface } from '../../../src/core/solid/support.ts';
import type { Shape } from '../../../src/core/scene/scene.ts';

/** Doubles through a dozen operations on lengths up to 1 km, mm. */
const ROUNDING_MM = 1e-8;
/** A drawn ball is a polyhedron: a hundred facets round leave r(1 − cos(π/100)) at most, of 10 mm. */
const FACET_MM = 0.05;

function surface(shape: Shape, kind: 'figure' | 'bed', move: Partial<StandingSurface> = {}): StandingSurface {
  const { positions, indices } = poseSolid(shape, { xMm: 0, yMm: 0, baseMm: 0, turnDeg: [0, 0, 0], scale: 1 }).mesh();
  return { kind, positions, indices, turnDeg: 0, aboutMm: [0, 0], byMm: [0, 0, 0], ...move };
}

const SLOPE: Shape = { type: 'wedge', lengthMm: 200, widthMm: 120, heightMm: 16 };
const BALL: Shape = { type: 'sphere', radiusMm: 10 };

describe('the top of a slope', () => {
  it.each([[-100, 0], [-50, 30], [0, -59], [99, 10]])('at %d, %d is on its incline', (x, y) => {
    expect(Math.abs(topAt(surface(SLOPE, 'bed'), x, y)! - (16 * (x + 100)) / 200)).toBeLessThan(ROUNDING_MM);
  });

  it('moves and turns with the bed, also far from the origin', () => {
    const far: StandingSurface = surface(SLOPE, 'bed', { turnDeg: 90, byMm: [1e6, -2e6, 3] });
    // Turned a quarter counter-clockwise, it rises along y.
    expect(Math.abs(topAt(far, 1e6 + 7, -2e6 + 50)! - (16 * 150) / 200 - 3)).toBeLessThan(ROUNDING_MM);
  });

  it('is nothing beside it', () => {
    expect(topAt(surface(SLOPE, 'bed'), 101, 0)).toBeNull();
    expect(topAt(surface(SLOPE, 'bed'), 0, 61)).toBeNull();
  });
});

it('is the upper of a ball’s two faces', () => {
  for (const [x, y] of [[0, 0], [3, 4], [-6, 6]]) expect(Math.abs(topAt(surface(BALL, 'figure'), x, y)! - 10 - Math.sqrt(100 - x * x - y * y))).toBeLessThan(FACET_MM);
});

it('ignores triangles seen edge-on', () => {
  expect(topAt({ kind: 'bed', positions: [0, 0, 0, 0, 0, 9, 0, 0, 5], indices: [0, 1, 2], turnDeg: 0, aboutMm: [0, 0], byMm: [0, 0, 0] }, 0, 0)).toBeNull();
});

describe('what a thing stands on', () => {
  const ask = (baseMm: number, surfaces: readonly StandingSurface[], planesMm: readonly number[] = []) => supportAt({ xMm: 0, yMm: 0, baseMm, surfaces, planesMm });

  it('is the floor where there is nothing', () => expect(ask(0, [])).toBe(0));
  it('is the highest plane not above its feet', () => expect(ask(20, [], [5, 20, 44])).toBe(20));
  it('is not a plane it stood below', () => expect(ask(2.9, [surface(SLOPE, 'bed')], [20])).toBeCloseTo(8, 9));
  it('is the bed where that stands out of the plane', () => expect(ask(5, [surface(SLOPE, 'bed')], [5])).toBeCloseTo(8, 9));
  it('is another figure only for one that was above it', () => {
    expect(ask(0, [surface(BALL, 'figure')])).toBe(0);
    expect(Math.abs(ask(20, [surface(BALL, 'figure')]) - 20)).toBeLessThan(FACET_MM);
  });
});
