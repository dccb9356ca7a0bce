import { describe, expect, it } from 'vitest';
import { facets } from '../../../src/core/solid/facets.ts';
import { orientSolid, placeSolid, poseSolid } from '../../../src/core/solid/pose.ts';
import type { Primitive } from '../../../src/core/solid/primitives.ts';
import { meshBounds, meshVolume, movedMesh } from '../../../src/core/solid/shape-volume.ts';
import { turnOf } from '../../../src/core/solid/shape-turn.ts';
import { manifold, seeded, trimmedBelow } from './oracle.ts';

const SHAPES: readonly Primitive[] = [
  { type: 'sphere', radiusMm: 12 },
  { type: 'ellipsoid', lengthMm: 60, widthMm: 40, heightMm: 20 },
  { type: 'box', lengthMm: 30, widthMm: 20, heightMm: 10 },
  { type: 'cylinder', radiusMm: 15, heightMm: 40 },
  { type: 'cone', radiusMm: 30, heightMm: 40 },
  { type: 'wedge', lengthMm: 80, widthMm: 50, heightMm: 30 },
  { type: 'cap', sphereRadiusMm: 50, rimRadiusMm: 40 },
  { type: 'measured', volumeMl: 8, lengthMm: 40, widthMm: 20, heightMm: 20 },
];
/** Share of the size by which bounds of the finest facets may differ from the true ones: 256 rings and sides. */
const FACET_BOUNDS = 3e-4;
const randomTurn = (random: () => number): [number, number, number] => [360 * random(), 360 * random(), 360 * random()];

describe('the order of turns: about the fixed x, then y, then z axis', () => {
  it('turns a quarter about each exactly', () => {
    const turned = (turnDeg: [number, number, number], [x, y, z]: [number, number, number]): number[] => {
      const m = turnOf(turnDeg);
      return [m[0] * x + m[1] * y + m[2] * z, m[3] * x + m[4] * y + m[5] * z, m[6] * x + m[7] * y + m[8] * z].map((v) => v + 0);
    };
    expect(turned([90, 0, 0], [1, 2, 3])).toEqual([1, -3, 2]);
    expect(turned([0, 90, 0], [1, 2, 3])).toEqual([3, 2, -1]);
    expect(turned([0, 0, 90], [1, 2, 3])).toEqual([-2, 1, 3]);
    // x: (1, −3, 2); y: (2, −3, −1); z: (3, 2, −1).
    expect(turned([90, 90, 90], [1, 2, 3])).toEqual([3, 2, -1]);
    expect(turned([-270, 450, 810], [1, 2, 3])).toEqual([3, 2, -1]);
  });
});

describe.each(SHAPES)('$type in its place', (shape) => {
  it.each([1, 2, 3, 4, 5])('has true bounds at the place asked for, seed %d', (seed) => {
    const random = seeded(seed);
    const pose = { xMm: 40 * random() - 20, yMm: 40 * random() - 20, baseMm: 50 * random(), turnDeg: randomTurn(random), scale: 0.5 + 2 * random() };
    const { bounds, profile } = poseSolid(shape, pose);
    expect((bounds.min[0] + bounds.max[0]) / 2).toBeCloseTo(pose.xMm, 12);
    expect((bounds.min[1] + bounds.max[1]) / 2).toBeCloseTo(pose.yMm, 12);
    expect(bounds.min[2]).toBe(pose.baseMm);
    expect(profile.bottomMm).toBeCloseTo(pose.baseMm, 12);
    expect(profile.topMm).toBeCloseTo(bounds.max[2], 12);
    const fine = turnedFacets(shape, pose.turnDeg, pose.scale);
    for (let k = 0; k < 3; k++) {
      const size = bounds.max[k] - bounds.min[k];
      expect(Math.abs(size - (fine.max[k] - fine.min[k])) / size).toBeLessThan(FACET_BOUNDS);
    }
  });
  it('knows its reach: in every direction the farthest of its finest facets, seed 11', () => {
    const random = seeded(11);
    const turnDeg = randomTurn(random);
    const solid = poseSolid(shape, { xMm: 3, yMm: -7, baseMm: 20, turnDeg, scale: 1 });
    const m = turnOf(turnDeg);
    const { positions: p } = facets(shape, 'profile');
    const mesh = turnedFacets(shape, turnDeg, 1);
    const size = Math.hypot(...[0, 1, 2].map((k) => solid.bounds.max[k] - solid.bounds.min[k]));
    // Where the facets' own frame went: the true bounds' middle and bottom lie at (3, −7, 20).
    const offset = [3 - (mesh.max[0] + mesh.min[0]) / 2, -7 - (mesh.max[1] + mesh.min[1]) / 2, 20 - mesh.min[2]];
    for (let i = 0; i < 20; i++) {
      const [x, y, z] = [random() - 0.5, random() - 0.5, random() - 0.5];
      const length = Math.hypot(x, y, z);
      const d = [x / length, y / length, z / length] as const;
      let farthest = -Infinity;
      for (let v = 0; v < p.length; v += 3) {
        let along = d[0] * offset[0] + d[1] * offset[1] + d[2] * offset[2];
        for (let k = 0; k < 3; k++) along += d[k] * (m[3 * k] * p[v] + m[3 * k + 1] * p[v + 1] + m[3 * k + 2] * p[v + 2]);
        farthest = Math.max(farthest, along);
      }
      expect(Math.abs(solid.reach!(d) - farthest) / size).toBeLessThan(FACET_BOUNDS);
    }
  });
  it('only shifts its profile when it moves', () => {
    const oriented = orientSolid({ shape, turnDeg: [20, 30, 40], scale: 1 });
    const low = placeSolid(oriented, { xMm: 0, yMm: 0, baseMm: 0 });
    const high = placeSolid(oriented, { xMm: 9, yMm: 2, baseMm: 16 });
    for (const z of [0.5, 3, 7.25]) {
      // 16 + z is exact for these heights.
      expect(high.profile.volumeBelow(16 + z)).toBe(low.profile.volumeBelow(z));
      expect(high.profile.areaAt(16 + z)).toBe(low.profile.areaAt(z));
    }
    expect(meshBounds(high.mesh()).min[2] - meshBounds(low.mesh()).min[2]).toBeCloseTo(16, 12);
  });
});

describe('sliced volumes, against manifold-3d turned by its own angles and trimmed', () => {
  /** Relative to the whole. 512 sides fall short of a ball by 5e-5 of the whole; shares of the whole agree far better. */
  const TRIMMED = 1e-5;
  const SIDES = 512;
  it.each([1, 2, 3, 4])('ellipsoid, seed %d', async (seed) => {
    const { Manifold } = await manifold();
    const random = seeded(seed);
    const [l, w, h] = [10 + 60 * random(), 10 + 60 * random(), 10 + 60 * random()];
    const turnDeg = randomTurn(random);
    const unit = Manifold.sphere(0.5, SIDES);
    const body = unit.scale([l, w, h]).rotate(turnDeg);
    compare(poseSolid({ type: 'ellipsoid', lengthMm: l, widthMm: w, heightMm: h }, { xMm: 0, yMm: 0, baseMm: 5, turnDeg, scale: 1 }).profile, body, TRIMMED);
  });
  it.each([1, 2, 3, 4])('cylinder, cone, box and wedge, seed %d', async (seed) => {
    const { Manifold, CrossSection } = await manifold();
    const random = seeded(100 + seed);
    const turnDeg = randomTurn(random);
    const pose = { xMm: 1, yMm: 2, baseMm: 3, turnDeg, scale: 1 };
    compare(poseSolid({ type: 'cylinder', radiusMm: 15, heightMm: 40 }, pose).profile, Manifold.cylinder(40, 15, 15, SIDES).rotate(turnDeg), TRIMMED);
    compare(poseSolid({ type: 'cone', radiusMm: 30, heightMm: 40 }, pose).profile, Manifold.cylinder(40, 30, 0, SIDES).rotate(turnDeg), TRIMMED);
    compare(poseSolid({ type: 'box', lengthMm: 30, widthMm: 20, heightMm: 10 }, pose).profile, Manifold.cube([30, 20, 10]).rotate(turnDeg), TRIMMED);
    // Drawn in x and height, pushed along a third axis, then set upright.
    const wedge = Manifold.extrude(new CrossSection([[[-40, 0], [40, 0], [40, 30]]]), 50).rotate([90, 0, 0]).rotate(turnDeg);
    compare(poseSolid({ type: 'wedge', lengthMm: 80, widthMm: 50, heightMm: 30 }, pose).profile, wedge, TRIMMED);
  });
  it('cap, seed 9', async () => {
    const { Manifold } = await manifold();
    const turnDeg = randomTurn(seeded(9));
    const cap = Manifold.sphere(50, SIDES).translate([0, 0, -30]).trimByPlane([0, 0, 1], 0).rotate(turnDeg);
    compare(poseSolid({ type: 'cap', sphereRadiusMm: 50, rimRadiusMm: 40 }, { xMm: 0, yMm: 0, baseMm: 0, turnDeg, scale: 1 }).profile, cap, 2 * TRIMMED);
  });
});

describe('a mesh in its place', () => {
  const shape = { type: 'mesh', file: 'newt.stl' } as const;
  const mesh = facets({ type: 'wedge', lengthMm: 80, widthMm: 50, heightMm: 30 });
  it.each([1, 2, 3])('does not depend on where its origin is: 1 km away, seed %d', (seed) => {
    const random = seeded(seed);
    const pose = { xMm: 4, yMm: 5, baseMm: 6, turnDeg: randomTurn(random), scale: 1 + random() };
    const near = poseSolid(shape, pose, mesh);
    const far = poseSolid(shape, pose, movedMesh(mesh, 1e6, -7e5, 3e5));
    for (const z of [7, 12, 30]) {
      // A coordinate of 1e6 mm is known to 1e-10 mm.
      expect(Math.abs(far.profile.volumeBelow(z) - near.profile.volumeBelow(z)) / near.profile.volumeMm3).toBeLessThan(1e-10);
    }
    expect(near.bounds.min[2]).toBe(6);
    expect(meshVolume(near.mesh()) / meshVolume(mesh)).toBeCloseTo(pose.scale ** 3, 12);
  });
  it('says so when the mesh is missing or empty', () => {
    const pose = { xMm: 0, yMm: 0, baseMm: 0, turnDeg: [0, 0, 0] as const, scale: 1 };
    expect(() => poseSolid(shape, pose)).toThrow(/"newt.stl" came without its mesh/);
    expect(() => poseSolid({ type: 'library', name: 'snail' }, pose, { positions: new Float64Array(), indices: new Uint32Array() })).toThrow(/"snail" has no triangles/);
  });
});

/** Bounds of the finest facets, turned about the shape's own origin. */
function turnedFacets(shape: Primitive, turnDeg: readonly [number, number, number], scale: number) {
  const m = turnOf(turnDeg);
  const { positions: p, indices } = facets(shape, 'profile');
  const positions = new Float64Array(p.length);
  for (let i = 0; i < p.length; i += 3) {
    for (let k = 0; k < 3; k++) positions[i + k] = scale * (m[3 * k] * p[i] + m[3 * k + 1] * p[i + 1] + m[3 * k + 2] * p[i + 2]);
  }
  return meshBounds({ positions, indices });
}

/** Shares of the whole below five heights; each judged by its own whole, so that facets' missing volume cancels. */
function compare(profile: { bottomMm: number; topMm: number; volumeMm3: number; volumeBelow(z: number): number }, body: Parameters<typeof trimmedBelow>[0], tolerance: number): void {
  const { min, max } = body.boundingBox();
  const whole = body.volume();
  for (const share of [0.05, 0.3, 0.5, 0.8, 0.97]) {
    const ours = profile.volumeBelow(profile.bottomMm + share * (profile.topMm - profile.bottomMm)) / profile.volumeMm3;
    const theirs = trimmedBelow(body, min[2] + share * (max[2] - min[2])) / whole;
    expect(Math.abs(ours - theirs)).toBeLessThan(tolerance);
  }
  body.delete();
}
