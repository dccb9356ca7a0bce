import { beforeAll, describe, expect, it } from 'vitest';
import { inspectMesh } from '../../src/core/solid/inspect.ts';
import { meshProfile } from '../../src/core/solid/profile.ts';
import type { Booleans, TriangleMesh } from '../../src/core/solid/solid.ts';
import { openBooleans } from '../../src/files/booleans.ts';
import { box, icosphere, joined, moved, posed, soup, torus, turnedInsideOut } from '../core/solid/made-meshes.ts';
import { seeded } from '../core/solid/oracle.ts';

/** Share of the volume: doubles went in and came out; what is left are roundings of new corners. */
const DOUBLE_SHARE = 1e-12;
/** The same 1 km away, where a coordinate is known to 1e-10 mm of about 10 mm. */
const FAR_SHARE = 1e-9;
const NOTHING: TriangleMesh = { positions: new Float64Array(0), indices: new Uint32Array(0) };

let booleans: Booleans;
beforeAll(async () => {
  booleans = await openBooleans();
});

const volumeOf = (mesh: TriangleMesh): number => meshProfile(mesh).volumeMm3;

describe('two boxes that overlap by a third each way', () => {
  const a = box(3, 3, 3);
  const b = moved(box(3, 3, 3), 2, 2, 2);

  it.each([[0, DOUBLE_SHARE], [1e6, FAR_SHARE]])('have 53, 1 and 26 mm³ of union, shared and left, %f mm off the origin', (off, share) => {
    const [first, second] = [moved(a, off, off, -off), moved(b, off, off, -off)];
    expect(Math.abs(volumeOf(booleans.union([first, second])) / 53 - 1)).toBeLessThan(share);
    expect(Math.abs(volumeOf(booleans.intersect(first, second)) - 1)).toBeLessThan(30 * share);
    expect(Math.abs(volumeOf(booleans.subtract(first, second)) / 26 - 1)).toBeLessThan(share);
  });

  it('give closed meshes that face outward', () => {
    for (const result of [booleans.union([a, b]), booleans.intersect(a, b), booleans.subtract(a, b)]) {
      expect(inspectMesh(result)).toMatchObject({ watertight: true, insideOut: false, crowdedEdges: 0 });
    }
  });
});

describe.each([41, 42, 43])('solids turned at random, seed %i', (seed) => {
  it('keep what they share: |A ∪ B| + |A ∩ B| = |A| + |B| and |A − B| + |A ∩ B| = |A|', () => {
    const random = seeded(seed);
    const a = posed(torus(60, 30, 20, 8), random, 1, [random(), random(), random()]);
    const b = posed(icosphere(12, 4), random, 1, [15 * random(), 15 * random(), random()]);
    const [whole, shared, left] = [booleans.union([a, b]), booleans.intersect(a, b), booleans.subtract(a, b)].map(volumeOf);
    const [va, vb] = [a, b].map(volumeOf);
    expect(shared).toBeGreaterThan(0);
    expect(Math.abs(whole + shared - va - vb)).toBeLessThan(DOUBLE_SHARE * (va + vb));
    expect(Math.abs(left + shared - va)).toBeLessThan(DOUBLE_SHARE * (va + vb));
  });

  it('pass through a boolean with a far box in all their digits', () => {
    const a = posed(torus(60, 30, 20, 8), seeded(seed), 1, [0.1, 0.2, 0.3]);
    const [there] = [booleans.intersect(a, moved(box(200, 200, 200), -100, -100, -100))];
    expect(Math.abs(volumeOf(there) / volumeOf(a) - 1)).toBeLessThan(DOUBLE_SHARE);
  });
});

describe('a large solid that is joined again at another place', () => {
  // 55,000 triangles: above what is kept between operations. Half a turn about x is a symmetry of it.
  const ring = torus(250, 110, 20, 8);
  const below = moved(box(400, 400, 100), -200, -200, -100);

  it('has half its volume below its own middle wherever it is, and what it shares adds up', () => {
    const random = seeded(7);
    for (let place = 0; place < 4; place++) {
      const [x, y, z] = [60 * random(), 60 * random(), 10 * random()];
      const there = moved(ring, x, y, z);
      const shared = booleans.intersect(there, moved(below, 0, 0, z));
      expect(Math.abs(volumeOf(shared) / (volumeOf(ring) / 2) - 1)).toBeLessThan(DOUBLE_SHARE);
      // It is where it was put, not where it was kept.
      expect(Math.abs(Math.max(...shared.positions.filter((_, i) => i % 3 === 0)) - (x + 28))).toBeLessThan(1e-9);
      const [whole, common] = [booleans.union([below, there]), booleans.intersect(below, there)].map(volumeOf);
      const parts = volumeOf(below) + volumeOf(there);
      expect(Math.abs(whole + common - parts)).toBeLessThan(DOUBLE_SHARE * parts);
    }
  });

  it('is taken in anew when it has another form, though its triangles are the same', () => {
    const half = moved(below, 0, 0, 0);
    expect(volumeOf(booleans.intersect(ring, half)) / (volumeOf(ring) / 2)).toBeCloseTo(1, 11);
    const stretched = { positions: ring.positions.map((at, i) => (i % 3 === 1 ? 1.5 * at : at)), indices: ring.indices };
    expect(volumeOf(booleans.intersect(stretched, half)) / (0.75 * volumeOf(ring))).toBeCloseTo(1, 11);
  });

  it('is the same solid when it was prepared, and what can not be joined is told only when it is', () => {
    booleans.prepare?.(moved(ring, 5, 6, 7));
    expect(volumeOf(booleans.intersect(ring, below)) / (volumeOf(ring) / 2)).toBeCloseTo(1, 11);
    const inward = turnedInsideOut(ring);
    expect(booleans.prepare?.(inward)).toBe(undefined);
    expect(() => booleans.intersect(inward, below)).toThrow('inside-out');
    expect(volumeOf(booleans.intersect(ring, below)) / (volumeOf(ring) / 2)).toBeCloseTo(1, 11);
  });

  it('meets another large one', () => {
    const other = posed(torus(250, 120, 20, 8), seeded(8), 1, [10, 5, 1]);
    const [a, b] = [moved(ring, 1, 2, 3), moved(other, 1, 2, 3)];
    const [whole, shared, left] = [booleans.union([a, b]), booleans.intersect(a, b), booleans.subtract(a, b)].map(volumeOf);
    const parts = volumeOf(a) + volumeOf(b);
    expect(shared).toBeGreaterThan(0);
    expect(Math.abs(whole + shared - parts)).toBeLessThan(DOUBLE_SHARE * parts);
    expect(Math.abs(left + shared - volumeOf(a))).toBeLessThan(DOUBLE_SHARE * parts);
  });
});

it('keeps a step of 4e-6 mm on a box of 100 mm, which 32 bits would not hold', () => {
  const whole = volumeOf(booleans.union([box(100, 100, 10), moved(box(50, 50, 10 + 4e-6), 7, 8, 0)]));
  // 0.01 mm³ of 100,000: the coordinates' own rounding, 2e-15 mm on 10 mm, is 1e-10 of it.
  expect(Math.abs((whole - 100_000) / 0.01 - 1)).toBeLessThan(1e-6);
});

describe('nothing', () => {
  const solid = icosphere(4, 2);

  it('is a mesh without triangles, and harmless', () => {
    expect(booleans.union([])).toEqual(NOTHING);
    expect(booleans.union([NOTHING, solid, NOTHING])).toBe(solid);
    expect(booleans.intersect(solid, NOTHING)).toEqual(NOTHING);
    expect(booleans.intersect(solid, moved(solid, 100, 0, 0))).toEqual(NOTHING);
    expect(booleans.subtract(solid, NOTHING)).toBe(solid);
    expect(booleans.subtract(NOTHING, solid)).toBe(NOTHING);
    expect(booleans.subtract(solid, solid).indices.length).toBe(0);
    expect(booleans.repair(NOTHING)).toBe(null);
  });
});

describe('what can not be joined', () => {
  const solid = icosphere(4, 2);
  const open = { positions: solid.positions, indices: solid.indices.slice(3) };

  it('is named with the operation', () => {
    expect(() => booleans.union([solid, open])).toThrow(/union: solid 2 of 2 can't be taken \(Not manifold\).*repair it first/);
    expect(() => booleans.subtract(turnedInsideOut(solid), solid)).toThrow(/difference: solid 1 of 2 is inside-out/);
    const positions = solid.positions.slice();
    positions[5] = NaN;
    expect(() => booleans.intersect(solid, { positions, indices: solid.indices })).toThrow(/intersection: solid 2 of 2 has a coordinate/);
  });
});

describe('repair', () => {
  const ball = icosphere(10, 3);
  const shared = (mesh: TriangleMesh): number => volumeOf(booleans.intersect(mesh, moved(mesh, 10, 0, 0)));

  it('unites shells that overlap', () => {
    const two = joined(ball, moved(ball, 10, 0, 0));
    const repaired = booleans.repair(two);
    expect(Math.abs(volumeOf(repaired!) / (2 * volumeOf(ball) - shared(ball)) - 1)).toBeLessThan(DOUBLE_SHARE);
  });

  it('keeps a hollow, an island in it, and fills it where a neighbor reaches in', () => {
    const hollow = turnedInsideOut(icosphere(6, 3));
    const island = icosphere(2, 2);
    const rod = moved(box(30, 1, 1), 3, 0, 0);
    const rodAlone = volumeOf(booleans.subtract(rod, ball)) + volumeOf(booleans.intersect(rod, icosphere(6, 3)));
    const kept = volumeOf(ball) - volumeOf(icosphere(6, 3)) + volumeOf(island);
    expect(Math.abs(volumeOf(booleans.repair(joined(ball, hollow, island))!) / kept - 1)).toBeLessThan(DOUBLE_SHARE);
    expect(Math.abs(volumeOf(booleans.repair(joined(ball, hollow, island, rod))!) / (kept + rodAlone) - 1)).toBeLessThan(DOUBLE_SHARE);
  });

  it('turns, welds and caps', () => {
    expect(Math.abs(volumeOf(booleans.repair(turnedInsideOut(ball))!) / volumeOf(ball) - 1)).toBeLessThan(DOUBLE_SHARE);
    expect(Math.abs(volumeOf(booleans.repair(soup(ball))!) / volumeOf(ball) - 1)).toBeLessThan(DOUBLE_SHARE);
    const lidless = { positions: box(4, 5, 6).positions, indices: box(4, 5, 6).indices.filter((_, i) => i < 6 || i >= 12) };
    expect(Math.abs(volumeOf(booleans.repair(lidless)!) / 120 - 1)).toBeLessThan(DOUBLE_SHARE);
  });

  it('gives up with null where nothing closed comes out', () => {
    expect(booleans.repair({ positions: Float64Array.of(0, 0, 0, NaN, 0, 0, 0, 1, 0), indices: Uint32Array.of(0, 1, 2) })).toBe(null);
    expect(booleans.repair({ positions: Float64Array.of(0, 0, 0), indices: Uint32Array.of(0, 1, 2) })).toBe(null);
    expect(booleans.repair({ positions: Float64Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0), indices: Uint32Array.of(0, 1, 2) })).toBe(null);
  });
});

it('frees what it made: a thousand operations leave the memory of ten', async () => {
  const solid = icosphere(5, 2);
  const other = moved(solid, 3, 0, 0);
  const run = (times: number): void => {
    for (let n = 0; n < times; n++) booleans.union([solid, other]);
  };
  run(10);
  const before = process.memoryUsage().external;
  run(1000);
  // A union of these kept alive is about 100 kB; a thousand would be 100 MB.
  expect(process.memoryUsage().external - before).toBeLessThan(30e6);
});
