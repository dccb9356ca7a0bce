import { beforeAll, describe, expect, it } from 'vitest';
import { wrappedVolume } from '../../../src/core/solid/mesh-columns.ts';
import { inspectMesh } from '../../../src/core/solid/inspect.ts';
import { sound } from '../../../src/core/solid/mesh-sound.ts';
import { meshProfile } from '../../../src/core/solid/profile.ts';
import type { Booleans, TriangleMesh } from '../../../src/core/solid/solid.ts';
import { openBooleans } from '../../../src/files/booleans.ts';
import { box, icosphere, joined, moved, posed, soup, torus, turnedInsideOut } from './made-meshes.ts';
import { seeded } from './oracle.ts';

/** Share of the volume: sums of exact parts. */
const SUM_SHARE = 1e-12;

let booleans: Booleans;
beforeAll(async () => {
  booleans = await openBooleans();
});

const ball = icosphere(10, 3);
const ballMm3 = meshProfile(ball).volumeMm3;
const hollow = turnedInsideOut(icosphere(6, 3));
const sound_ = (mesh: TriangleMesh) => sound(mesh, booleans);

/** Without the triangles of these numbers. */
function without(mesh: TriangleMesh, ...triangles: readonly number[]): TriangleMesh {
  return { positions: mesh.positions, indices: mesh.indices.filter((_, i) => !triangles.includes(Math.floor(i / 3))) };
}

/** Every triangle turned or not by the flip of a coin. */
function shuffledWinding(mesh: TriangleMesh, random: () => number): TriangleMesh {
  const indices = mesh.indices.slice();
  for (let i = 0; i < indices.length; i += 3) if (random() < 0.5) [indices[i], indices[i + 1]] = [indices[i + 1], indices[i]];
  return { positions: mesh.positions, indices };
}

/** A tube bent so far that its ends overlap: one shell that runs through itself. */
function overbentTube(turn: number): TriangleMesh {
  const [along, around, large, small] = [200, 40, 20, 5];
  const positions: number[] = [];
  const indices: number[] = [];
  for (let i = 0; i <= along; i++) {
    for (let j = 0; j < around; j++) {
      const u = (turn * i) / along;
      const v = (2 * Math.PI * j) / around;
      positions.push((large + small * Math.cos(v)) * Math.cos(u), (large + small * Math.cos(v)) * Math.sin(u), small * Math.sin(v));
    }
  }
  const [first, last] = [positions.length / 3, positions.length / 3 + 1];
  for (const u of [0, turn]) positions.push(large * Math.cos(u), large * Math.sin(u), 0);
  for (let j = 0; j < around; j++) {
    const next = (j + 1) % around;
    for (let i = 0; i < along; i++) {
      const [a, b] = [i * around, (i + 1) * around];
      indices.push(a + j, b + j, b + next, a + j, b + next, a + next);
    }
    indices.push(first, j, next, last, along * around + next, along * around + j);
  }
  return { positions: Float64Array.from(positions), indices: Uint32Array.from(indices) };
}

describe('inspectMesh', () => {
  it('finds nothing in a sound mesh and hands it back itself', () => {
    const seen = inspectMesh(ball);
    expect(seen.mesh).toBe(ball);
    expect(seen).toMatchObject({
      empty: false, notFinite: 0, outOfRange: 0, degenerate: 0, openEdges: 0, crowdedEdges: 0, inconsistentEdges: 0,
      shells: 1, insideOutShells: 0, insideOut: false, watertight: true,
    });
    expect(Math.abs(seen.volumeMm3! / ballMm3 - 1)).toBeLessThan(SUM_SHARE);
  });

  it('welds a soup, 0 and −0 alike', () => {
    const cube = moved(box(2, 2, 2), -1, -1, 0);
    const loose = soup(cube);
    loose.positions.forEach((at, i) => (loose.positions[i] = at === 0 && i % 2 === 0 ? -0 : at));
    const seen = inspectMesh(loose);
    expect([seen.mesh.positions.length / 3, seen.watertight]).toEqual([8, true]);
    expect(Math.abs(seen.volumeMm3! / 8 - 1)).toBeLessThan(SUM_SHARE);
    expect(inspectMesh(soup(ball)).mesh.positions.length).toBe(ball.positions.length);
  });

  it('counts what is wrong', () => {
    expect(inspectMesh({ positions: new Float64Array(0), indices: new Uint32Array(0) })).toMatchObject({ empty: true, watertight: false });
    expect(inspectMesh(without(ball, 5))).toMatchObject({ openEdges: 3, watertight: false, volumeMm3: null });
    expect(inspectMesh(without(ball, 5, 900, 901))).toMatchObject({ watertight: false });
    expect(inspectMesh(turnedInsideOut(ball))).toMatchObject({ insideOut: true, insideOutShells: 1, watertight: true });
    const flipped = ball.indices.slice();
    flipped.subarray(30, 33).reverse();
    expect(inspectMesh({ positions: ball.positions, indices: flipped })).toMatchObject({ inconsistentEdges: 3, watertight: false });
    const spare = Uint32Array.of(...ball.indices, 4, 4, 9, 0, 1, 0);
    expect(inspectMesh({ positions: ball.positions, indices: spare })).toMatchObject({ degenerate: 2, collapsed: 2, watertight: true });
    expect(inspectMesh({ positions: ball.positions, indices: Uint32Array.of(0, 1, 99_999, 3) })).toMatchObject({ outOfRange: 2, watertight: false });
    const positions = ball.positions.slice();
    positions[4] = NaN;
    positions[9] = -Infinity;
    expect(inspectMesh({ positions, indices: ball.indices })).toMatchObject({ notFinite: 2, watertight: false });
    expect(inspectMesh({ positions: ball.positions.map(() => 1e308), indices: ball.indices })).toMatchObject({ notFinite: 0, empty: true });
  });

  it('keeps needles that hold a mesh together, and counts them', () => {
    // A face whose edge has a vertex in its middle on one side only, closed by a triangle without area.
    const positions = Float64Array.of(0, 0, 0, 4, 0, 0, 0, 4, 0, 0, 0, 4, 2, 0, 0);
    const indices = Uint32Array.of(0, 2, 4, 4, 2, 1, 0, 4, 1, 0, 1, 3, 1, 2, 3, 0, 3, 2);
    expect(inspectMesh({ positions, indices })).toMatchObject({ degenerate: 1, collapsed: 0, watertight: true });
  });

  it('tells shells, hollows and shells inside-out apart', () => {
    const seen = inspectMesh(joined(ball, hollow, moved(turnedInsideOut(ball), 50, 0, 0), moved(ball, 0, 90, 0)));
    expect(seen).toMatchObject({ shells: 4, insideOutShells: 1, watertight: true });
    expect([...new Set(seen.shellOf)]).toEqual([0, 1, 2, 3]);
  });

  it('takes two boxes that share an edge as closed, the edge as crowded', () => {
    const seen = inspectMesh(joined(box(2, 2, 2), moved(box(2, 2, 2), 2, 2, 0)));
    expect(seen).toMatchObject({ crowdedEdges: 1, watertight: true });
    expect(Math.abs(seen.volumeMm3! / 16 - 1)).toBeLessThan(SUM_SHARE);
  });

  it('takes a million triangles of soup in linear time', () => {
    // 0.5 s alone on the slowest machine measured; the limit only tells linear from quadratic.
    const start = performance.now();
    expect(inspectMesh(soup(torus(1000, 500, 40, 12)))).toMatchObject({ watertight: true, shells: 1 });
    expect(performance.now() - start).toBeLessThan(10_000);
  });
});

describe.each([51, 52, 53])('wrappedVolume of solids turned at random, seed %i', (seed) => {
  const random = seeded(seed);
  const a = posed(torus(60, 30, 20, 8), random, 1, [0, 0, 0]);
  const b = posed(ball, random, 1, [a.positions[0], a.positions[1], a.positions[2]]);

  it('finds a sound solid wrapped once everywhere', () => {
    const wrapped = wrappedVolume(a);
    expect([wrapped.againMm3, wrapped.insideOutMm3]).toEqual([0, 0]);
    // A grid of 256 lines: boundary cells, 1/256 of the extent wide, are counted in or out at random.
    expect(Math.abs(wrapped.solidMm3 / meshProfile(a).volumeMm3 - 1)).toBeLessThan(2e-3);
  });

  it('finds what two share, against manifold-3d', () => {
    const shared = meshProfile(booleans.intersect(a, b)).volumeMm3;
    expect(Math.abs(wrappedVolume(joined(a, b)).againMm3 / shared - 1)).toBeLessThan(2e-2);
    expect(Math.abs(wrappedVolume(joined(a, turnedInsideOut(moved(b, 100, 0, 0)))).insideOutMm3 / ballMm3 - 1)).toBeLessThan(1e-2);
  });
});

describe('sound', () => {
  it('tells areas as a person would write them', () => {
    // The lid of a 300 × 200 box is 60,000 mm²; a mesh with a face twice has no open edge to tell of.
    const open = without(box(300, 200, 100), 0, 1);
    const told = sound_(open).repairs.join(' ');
    expect(told).toContain('(4 open edges) with 60,000\u00a0mm² of plain caps');
    expect(told).not.toMatch(/e\+/);
    const twice = { positions: ball.positions, indices: Uint32Array.of(...ball.indices, ...ball.indices.subarray(0, 3)) };
    expect(sound_(twice).repairs.join(' ')).not.toMatch(/\(0 /);
  });

  it('passes sound meshes unchanged', () => {
    for (const mesh of [ball, joined(ball, hollow), joined(ball, moved(ball, 40, 0, 0)), torus(60, 30, 20, 8), moved(ball, 1e6, 1e6, 1e6)]) {
      const reading = sound_(mesh);
      expect(reading).toEqual({ mesh, watertight: true, repairs: [], volumeErrorFraction: 0 });
      expect(reading.mesh).toBe(mesh);
    }
  });

  it('turns what is inside-out, whole or in part', () => {
    for (const mesh of [turnedInsideOut(ball), joined(turnedInsideOut(ball), moved(ball, 50, 0, 0))]) {
      const reading = sound_(mesh);
      expect(reading).toMatchObject({ watertight: true, volumeErrorFraction: 0 });
      expect(reading.repairs.join()).toMatch(/inside-out/);
      expect(Math.abs(meshProfile(reading.mesh).volumeMm3 / (inspectMesh(mesh).shells * ballMm3) - 1)).toBeLessThan(SUM_SHARE);
    }
  });

  it.each([61, 62])('winds triangles alike that a file turned at random, seed %i', (seed) => {
    const reading = sound_(soup(shuffledWinding(ball, seeded(seed))));
    expect(reading).toMatchObject({ watertight: true, volumeErrorFraction: 0 });
    expect(Math.abs(meshProfile(reading.mesh).volumeMm3 / ballMm3 - 1)).toBeLessThan(SUM_SHARE);
  });

  it('caps a hole and states no less than the error it makes', () => {
    for (const triangles of [[5], [5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19], Array.from({ length: 160 }, (_, i) => i)]) {
      const reading = sound_(without(ball, ...triangles));
      const off = Math.abs(meshProfile(reading.mesh).volumeMm3 / ballMm3 - 1);
      expect(reading.watertight).toBe(true);
      expect(reading.volumeErrorFraction).toBeGreaterThanOrEqual(off);
      expect(reading.volumeErrorFraction).toBeLessThan(0.5);
    }
  });

  it('gives no number where half of the surface is missing', () => {
    const half = Array.from({ length: ball.indices.length / 6 }, (_, i) => i);
    expect(sound_(without(ball, ...half))).toMatchObject({ watertight: false, volumeErrorFraction: null });
  });

  it('sews up cracks left by rounded coordinates', () => {
    const loose = soup(ball);
    const rounded = { positions: loose.positions.map((at, i) => at + (Math.floor(i / 9) % 2) * 4e-6), indices: loose.indices };
    expect(inspectMesh(rounded).openEdges).toBeGreaterThan(1000);
    const reading = sound_(rounded);
    const off = Math.abs(meshProfile(reading.mesh).volumeMm3 / ballMm3 - 1);
    expect(reading.repairs).toHaveLength(1);
    expect(reading.volumeErrorFraction).toBeGreaterThanOrEqual(off);
    expect(reading.volumeErrorFraction).toBeLessThan(1e-3);
  });

  it('unites shells that overlap, and a solid lost inside another', () => {
    const other = moved(ball, 12, 1, 2);
    const shared = meshProfile(booleans.intersect(ball, other)).volumeMm3;
    for (const [mesh, expected] of [
      [joined(ball, other), 2 * ballMm3 - shared],
      [joined(ball, icosphere(4, 2)), ballMm3],
      [joined(ball, ball), ballMm3],
    ] as const) {
      const reading = sound_(mesh);
      const off = Math.abs(meshProfile(reading.mesh).volumeMm3 / expected - 1);
      expect(reading.repairs.join()).toMatch(/United/);
      expect(reading.volumeErrorFraction).toBeGreaterThanOrEqual(off);
      expect(reading.volumeErrorFraction).toBeLessThan(1e-5);
    }
  });

  it('states the error of one shell that runs through itself', () => {
    const tube = overbentTube(2 * Math.PI + 0.4);
    const once = meshProfile(overbentTube(2 * Math.PI)).volumeMm3;
    const reading = sound_(tube);
    const off = meshProfile(reading.mesh).volumeMm3 / once - 1;
    expect(reading.watertight).toBe(true);
    expect(reading.repairs.join()).toMatch(/runs through itself/);
    expect(reading.volumeErrorFraction).toBeGreaterThanOrEqual(off);
    expect(off).toBeGreaterThan(0.05);
    expect(sound_(overbentTube(4 * Math.PI))).toMatchObject({ watertight: false, volumeErrorFraction: null });
  });

  it('refuses what encloses nothing, each with its reason', () => {
    const cases: [TriangleMesh, RegExp][] = [
      [{ positions: new Float64Array(0), indices: new Uint32Array(0) }, /no triangles/],
      [{ positions: Float64Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0), indices: Uint32Array.of(0, 1, 2) }, /encloses no volume/],
      [{ positions: Float64Array.of(0, 0, 0, 1, 0, 0, 0, NaN, 0), indices: Uint32Array.of(0, 1, 2) }, /not a number/],
      [{ positions: Float64Array.of(0, 0, 0), indices: Uint32Array.of(0, 0, 7) }, /not there/],
      [{ positions: ball.positions.map((at) => at * 1e200), indices: ball.indices }, /encloses no volume|could be off/],
    ];
    for (const [mesh, why] of cases) {
      const reading = sound_(mesh);
      expect(reading).toMatchObject({ watertight: false, volumeErrorFraction: null });
      expect(reading.repairs.at(-1)).toMatch(why);
    }
  });
});
