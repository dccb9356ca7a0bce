import { describe, expect, it } from 'vitest';
import { heightIndex } from '../../../src/core/solid/mesh-index.ts';
import { meshProfile } from '../../../src/core/solid/profile.ts';
import { shifted } from '../../../src/core/solid/shift.ts';
import type { Profile, TriangleMesh } from '../../../src/core/solid/solid.ts';
import { directVolumeBelow } from './direct-sum.ts';
import { box, icosphere, joined, moved, posed, soup, spindle, star, torus, turnedInsideOut } from './made-meshes.ts';
import { manifold, seeded, trimmedBelow } from './oracle.ts';

/** Share of the whole volume: what the issue asks of the profile against the direct sum. */
const DIRECT_SHARE = 1e-12;
/** physics.md §7 gives its mesh volumes to ten digits. */
const BOOK_SHARE = 1e-9;
/** Share of the whole: a handful of roundings of sums over a few triangles. */
const FEW_ROUNDINGS = 1e-14;
/** mm per mm³ over mm²: a level may lie a volume's rounding, 2⁻⁴⁸ of it, below the true one, and as much for the sums. */
const LEVEL_SHARE = 2 ** -47;
/** mm³ as a share: both sides hold the same 32-bit coordinates; 1 km off they move by 1e-10 of about 30 mm. */
const TRIM_SHARE = 1e-9;
/** mm² as a share of the squared height: sections come back from a clipper that keeps eight decimals of a millimeter (measured here, no source). */
const SLICE_SHARE = 1e-8;

const KILOMETER = 1e6;

/** Heights that matter: between, at and beside vertices, below and above all. */
function heightsOf(mesh: TriangleMesh, profile: Profile, random: () => number): number[] {
  const span = profile.topMm - profile.bottomMm;
  const vertices = mesh.positions.length / 3;
  const between = Array.from({ length: 12 }, () => profile.bottomMm + span * random());
  const at = Array.from({ length: 12 }, () => mesh.positions[3 * Math.floor(vertices * random()) + 2]);
  return [...between, ...at, profile.bottomMm, profile.topMm, profile.bottomMm - span, profile.topMm + span];
}

describe('volumes known in closed form', () => {
  it('is that of the torus of 32 by 16 (physics.md §7: 76,449.622 mm³)', () => {
    expect(meshProfile(torus(32, 16, 40, 10)).volumeMm3 / 76_449.622).toBeCloseTo(1, 8);
  });

  it('is that of the unit icosphere parted four times (physics.md §7: 4.179738948)', () => {
    expect(Math.abs(meshProfile(icosphere(1, 4)).volumeMm3 / 4.179738948 - 1)).toBeLessThan(BOOK_SHARE);
  });

  it('is that of a fine torus in its bottom 5 mm (physics.md §7: 15,436.149 mm³)', () => {
    // A torus of m by n facets falls short by about 2π²/3 · (1/m² + 1/n²) or, near the bottom, 3 times that.
    const shortfall = 3 * 6.6 * (1 / 1024 ** 2 + 1 / 512 ** 2);
    const profile = meshProfile(torus(1024, 512, 40, 10));
    expect(Math.abs(profile.volumeBelow(-5) / 15_436.149 - 1)).toBeLessThan(shortfall);
  });

  it.each([0, 0.25, 1, 7.5, 11.999, 12])('leaves abc/6 (1 − z/c)³ above %f mm in a corner tetrahedron', (z) => {
    const [a, b, c] = [5, 9, 12];
    const positions = Float64Array.of(0, 0, 0, a, 0, 0, 0, b, 0, 0, 0, c);
    const profile = meshProfile({ positions, indices: Uint32Array.of(0, 2, 1, 0, 1, 3, 1, 2, 3, 0, 3, 2) });
    const whole = (a * b * c) / 6;
    const rest = (1 - z / c) ** 3;
    expect(Math.abs(profile.volumeBelow(z) - whole * (1 - rest))).toBeLessThanOrEqual(FEW_ROUNDINGS * whole);
    expect(Math.abs(profile.areaAt(z) - (a * b) / 2 * (1 - z / c) ** 2)).toBeLessThanOrEqual(FEW_ROUNDINGS * a * b);
  });

  it('keeps its relative digits at the very bottom under a tall solid', () => {
    const profile = meshProfile(joined(box(10, 10, 1e-6), moved(box(10, 10, 1000), 20, 0, 0)));
    const z = 1e-9;
    expect(Math.abs(profile.volumeBelow(z) / (200 * z) - 1)).toBeLessThan(FEW_ROUNDINGS);
  });
});

it('loses nothing over 131,072 buckets of a constant section', () => {
  // Without the carried rounding the sums drift by 1.5e-12 of the whole here.
  const solid = joined(box(1000.1, 1000.3, 99.7), moved(torus(700, 360, 40, 10), 2000, 0, 99.6));
  const profile = meshProfile(solid);
  for (const z of [10.1, 33.3, 55.5, 80.7, 99.2, 99.9, 105]) {
    expect(Math.abs(profile.volumeBelow(z) - directVolumeBelow(solid, z))).toBeLessThan(DIRECT_SHARE * profile.volumeMm3 / 5);
  }
});

describe('flat faces', () => {
  const steps = meshProfile(joined(box(10, 10, 4), moved(box(5, 5, 6), 2, 2, 4)));

  it('have the section just above them', () => {
    expect(steps.areaAt(0)).toBe(100);
    expect(steps.areaAt(2)).toBe(100);
    expect(steps.areaAt(4)).toBe(25);
    expect(steps.areaAt(10)).toBe(0);
    expect(steps.areaAt(-1e-9)).toBe(0);
  });

  it('are the level of what lies below them', () => {
    expect(Math.abs(steps.levelOf(400) - 4)).toBeLessThan((400 / 100) * LEVEL_SHARE);
    expect(Math.abs(steps.levelOf(425) - 5)).toBeLessThan((425 / 25) * LEVEL_SHARE);
  });

  it('give the lowest level where nothing lies between two parts', () => {
    const apart = meshProfile(joined(box(10, 10, 3), moved(box(10, 10, 3), 1, 1, 8)));
    expect(apart.areaAt(3)).toBe(0);
    expect(apart.areaAt(5)).toBe(0);
    expect(apart.areaAt(8)).toBe(100);
    expect(Math.abs(apart.levelOf(300) - 3)).toBeLessThan((300 / 100) * LEVEL_SHARE);
  });

  it('count nothing where all triangles lie in one plane', () => {
    const sheet = meshProfile({ positions: Float64Array.of(0, 0, 7, 4, 0, 7, 0, 4, 7), indices: Uint32Array.of(0, 1, 2, 0, 2, 1) });
    expect([sheet.volumeMm3, sheet.bottomMm, sheet.topMm, sheet.areaAt(7), sheet.volumeBelow(9), sheet.levelOf(1)]).toEqual([0, 7, 7, 0, 0, 7]);
  });
});

describe.each([11, 12, 13])('against the direct sum over all triangles, seed %i', (seed) => {
  const shapes: [string, TriangleMesh][] = [
    ['spiky star', star(seed, 20, 4)],
    ['bumpy torus', torus(90, 40, 30, 12, 2)],
    ['soup of a sphere', soup(icosphere(15, 3))],
    ['fan of tall triangles', spindle(1000, 40, 900)],
  ];
  const places = { 'at the origin': [0, 0, 0], '1 km away': [KILOMETER, -KILOMETER, KILOMETER] } as const;
  for (const [shape, mesh] of shapes) {
    for (const [place, by] of Object.entries(places)) {
      it.each([1, 1e-4, 170])(`agrees for a ${shape} turned at random ${place}, scale %f`, (scale) => {
        const random = seeded(seed * 1000 + scale);
        const solid = posed(mesh, random, scale, by);
        const profile = meshProfile(solid);
        for (const z of heightsOf(solid, profile, random)) {
          const expected = directVolumeBelow(solid, z);
          expect(Math.abs(profile.volumeBelow(z) - expected), `at ${z} mm`).toBeLessThanOrEqual(DIRECT_SHARE * profile.volumeMm3);
        }
      });
    }
  }

  it('agrees for nearly horizontal faces', () => {
    const random = seeded(seed);
    const plate = box(100, 100, 2);
    const solid = { positions: plate.positions.map((at, i) => (i % 3 === 2 ? at + 1e-9 * random() : at)), indices: plate.indices };
    const profile = meshProfile(solid);
    for (const z of [...heightsOf(solid, profile, random), 3e-10, 6e-10, 2 + 5e-10]) {
      expect(Math.abs(profile.volumeBelow(z) - directVolumeBelow(solid, z))).toBeLessThanOrEqual(DIRECT_SHARE * profile.volumeMm3);
    }
  });

  it('is untouched by triangles without area', () => {
    const solid = star(seed, 10, 2);
    const extra = Uint32Array.of(...solid.indices, 3, 3, 8, 5, 5, 5, 0, 9, 0);
    const [plain, padded] = [meshProfile(solid), meshProfile({ positions: solid.positions, indices: extra })];
    for (const z of heightsOf(solid, plain, seeded(seed))) {
      expect(Math.abs(padded.volumeBelow(z) - plain.volumeBelow(z))).toBeLessThanOrEqual(FEW_ROUNDINGS * plain.volumeMm3);
    }
  });
});

describe.each([21, 22, 23, 24])('against manifold-3d, seed %i', (seed) => {
  it.each([0, KILOMETER])('measures what trimming and slicing leave, %i mm off the origin', async (off) => {
    const random = seeded(seed);
    const library = await manifold();
    const near = posed(seed % 2 === 0 ? star(seed, 20, 3) : torus(60, 30, 22, 8, 2), random, 0.5 + random(), [0, 0, 0]);
    const rounded = Float32Array.from(near.positions);
    const solid = library.Manifold.ofMesh(new library.Mesh({ numProp: 3, vertProperties: rounded, triVerts: near.indices.slice() }));
    const profile = meshProfile(moved({ positions: Float64Array.from(rounded), indices: near.indices }, off, -off, off));
    const span = profile.topMm - profile.bottomMm;
    for (let n = 0; n < 20; n++) {
      const z = profile.bottomMm - off + span * random();
      expect(Math.abs(profile.volumeBelow(z + off) - trimmedBelow(solid, z))).toBeLessThan(TRIM_SHARE * profile.volumeMm3);
      const section = solid.slice(z);
      expect(Math.abs(profile.areaAt(z + off) - section.area())).toBeLessThan(SLICE_SHARE * span ** 2);
      section.delete();
    }
    solid.delete();
  });
});

describe.each([31, 32])('whatever the mesh, seed %i', (seed) => {
  const solid = posed(star(seed, 25, 4), seeded(seed), 1, [3, 4, 5]);
  const profile = meshProfile(solid);
  const { volumeMm3: whole, bottomMm, topMm } = profile;

  it('never falls with height and ends at the whole', () => {
    let last = 0;
    for (let k = 0; k <= 2000; k++) {
      const volume = profile.volumeBelow(bottomMm + ((topMm - bottomMm) * k) / 2000);
      expect(volume).toBeGreaterThanOrEqual(last - FEW_ROUNDINGS * whole);
      last = volume;
    }
    expect(last).toBe(whole);
  });

  it('has a section that is the slope of its volume', () => {
    const random = seeded(seed);
    for (let n = 0; n < 50; n++) {
      const z = bottomMm + (topMm - bottomMm) * (0.05 + 0.9 * random());
      const step = 1e-5;
      const slope = (profile.volumeBelow(z + step) - profile.volumeBelow(z - step)) / (2 * step);
      // Central difference: rounding 1e-15 · whole / step, bend of the section over 1e-5 mm.
      expect(Math.abs(profile.areaAt(z) - slope)).toBeLessThan(1e-14 * whole / step + 1e-3);
    }
  });

  it('finds the level of any volume', () => {
    const random = seeded(seed);
    for (let n = 0; n < 60; n++) {
      const volume = whole * (n < 20 ? random() ** 8 : n < 40 ? 1 - random() ** 8 : random());
      const z = profile.levelOf(volume);
      expect(Math.abs(profile.volumeBelow(z) - volume)).toBeLessThanOrEqual(FEW_ROUNDINGS * whole);
    }
    expect([profile.levelOf(-1), profile.levelOf(0), profile.levelOf(whole), profile.levelOf(2 * whole)]).toEqual([bottomMm, bottomMm, topMm, topMm]);
  });

  it('scales with the third power and keeps its whole when turned', () => {
    const bigger = meshProfile({ positions: solid.positions.map((at) => 4 * at), indices: solid.indices });
    expect(Math.abs(bigger.volumeBelow(4 * (bottomMm + 7)) / (64 * profile.volumeBelow(bottomMm + 7)) - 1)).toBeLessThan(FEW_ROUNDINGS);
    const turned = meshProfile(posed(solid, seeded(seed + 1), 1, [0, 0, 0]));
    expect(Math.abs(turned.volumeMm3 / whole - 1)).toBeLessThan(1e-13);
  });

  it('stores every triangle once, however tall', () => {
    const tall = heightIndex(spindle(4000, 40, 900));
    expect(tall.cellStart[tall.cellStart.length - 1]).toBe(8000);
    expect(tall.corners.length).toBe(24_000);
  });

  it.each([-1234.5, 0.1, 1e6])('is the same moved by %f mm', (dz) => {
    const up = shifted(profile, dz);
    const again = meshProfile(moved(solid, 0, 0, dz));
    expect([up.volumeMm3, up.bottomMm, up.topMm]).toEqual([whole, bottomMm + dz, topMm + dz]);
    expect([up.volumeBelow(up.bottomMm), up.volumeBelow(up.topMm), up.areaAt(up.topMm)]).toEqual([0, whole, 0]);
    // A height 1 km up is only known to 1e-10 mm; over a section of the bounds' area that is what may differ.
    const section = 50 * 50;
    for (let k = 1; k < 20; k++) {
      const z = up.bottomMm + ((topMm - bottomMm) * k) / 20;
      const slack = FEW_ROUNDINGS * whole + 2 * section * Math.abs(z) * Number.EPSILON;
      expect(Math.abs(up.volumeBelow(z) - again.volumeBelow(z))).toBeLessThanOrEqual(slack);
      expect(Math.abs(up.levelOf(up.volumeBelow(z)) - again.levelOf(up.volumeBelow(z)))).toBeLessThan(1e-8);
    }
  });
});

describe('what it can not measure', () => {
  const solid = icosphere(10, 2);

  it('is nothing for a mesh without triangles', () => {
    const nothing = meshProfile({ positions: new Float64Array(0), indices: new Uint32Array(0) });
    expect([nothing.volumeMm3, nothing.volumeBelow(1), nothing.areaAt(0), nothing.levelOf(1)]).toEqual([0, 0, 0, 0]);
  });

  it('is refused by name', () => {
    expect(() => meshProfile(turnedInsideOut(solid))).toThrow(/inside-out: its volume comes to -\d/);
    expect(() => meshProfile({ positions: solid.positions, indices: solid.indices.slice(3) })).toThrow(/open: .* mm²/);
    expect(() => meshProfile({ positions: solid.positions, indices: Uint32Array.of(0, 1, 5000) })).toThrow(/names vertex 5000, but there are 162/);
    for (const bad of [NaN, Infinity]) {
      for (const axis of [0, 1, 2]) {
        const positions = solid.positions.slice();
        positions[30 + axis] = bad;
        expect(() => meshProfile({ positions, indices: solid.indices })).toThrow(/not a finite number/);
      }
    }
    expect(() => shifted(meshProfile(solid), NaN)).toThrow(/moved by NaN mm/);
  });
});
