import { describe, expect, it } from 'vitest';
import { facets } from '../../../src/core/solid/facets.ts';
import { orientSolid } from '../../../src/core/solid/pose.ts';
import { capHeight, closedProfile, primitiveVolume, type Primitive } from '../../../src/core/solid/primitives.ts';
import { meshProfile } from '../../../src/core/solid/profile.ts';
import { meshVolume } from '../../../src/core/solid/shape-volume.ts';
import { seeded } from './oracle.ts';

/** Relative. The table's values have ten or more significant digits. */
const TABLE = 1e-9;
/** Relative to the whole volume: a few roundings of doubles. */
const ROUNDING = 1e-13;

const UP = [0, 0, 1] as const;
const DOWN = [0, 0, -1] as const;
const tilt = (degrees: number): readonly [number, number, number] => [0, degrees, 0];
const oriented = (shape: Primitive, turnDeg: readonly [number, number, number] = [0, 0, 0], scale = 1) => orientSolid({ shape, turnDeg, scale });

const SHAPES: readonly Primitive[] = [
  { type: 'sphere', radiusMm: 12 },
  { type: 'ellipsoid', lengthMm: 60, widthMm: 40, heightMm: 20 },
  { type: 'box', lengthMm: 30, widthMm: 20, heightMm: 10 },
  { type: 'cylinder', radiusMm: 15, heightMm: 40 },
  { type: 'cone', radiusMm: 30, heightMm: 40 },
  { type: 'wedge', lengthMm: 200, widthMm: 120, heightMm: 30 },
  { type: 'cap', sphereRadiusMm: 50, rimRadiusMm: 40 },
  { type: 'cap', sphereRadiusMm: 5000, rimRadiusMm: 40 },
  { type: 'measured', volumeMl: 8, lengthMm: 40, widthMm: 20, heightMm: 20 },
];

describe('closed forms, against standard mensuration formulas (values: recomputed to ten digits or more)', () => {
  const below = (shape: Primitive, z: number, turnDeg?: readonly [number, number, number]): number => oriented(shape, turnDeg).profile.volumeBelow(z);
  it.each([
    ['spherical cap R 50, h 20: πh²(3R − h)/3', () => below({ type: 'sphere', radiusMm: 50 }, 20), 54454.27266],
    ['spherical zone R 50, 10 to 30 above center', () => below({ type: 'sphere', radiusMm: 50 }, 80) - below({ type: 'sphere', radiusMm: 50 }, 60), 129852.49635],
    ['half a sphere R 50', () => below({ type: 'sphere', radiusMm: 50 }, 50), 261799.3878],
    ['cap from its rim, a 30, h 10: πh(3a² + h²)/6', () => primitiveVolume({ type: 'cap', sphereRadiusMm: 50, rimRadiusMm: 30 }), 14660.76572],
    ['the same cap, whole, rim down', () => below({ type: 'cap', sphereRadiusMm: 50, rimRadiusMm: 30 }, 10), 14660.76572],
    ['cap h 20 out of a deeper one, upside down', () => below({ type: 'cap', sphereRadiusMm: 50, rimRadiusMm: 48 }, 20, tilt(180)), 54454.27266],
    ['ellipsoid 60×40×20', () => below({ type: 'ellipsoid', lengthMm: 60, widthMm: 40, heightMm: 20 }, 20), 25132.74123],
    ['its lowest 5 mm', () => below({ type: 'ellipsoid', lengthMm: 60, widthMm: 40, heightMm: 20 }, 5), 3926.99082],
    ['cone R 30, h 40', () => below({ type: 'cone', radiusMm: 30, heightMm: 40 }, 40), 37699.11184],
    ['cone point down, to half its height: an eighth', () => below({ type: 'cone', radiusMm: 30, heightMm: 40 }, 20, tilt(180)), 37699.11184 / 8],
    ['cone base down, to half its height: seven eighths', () => below({ type: 'cone', radiusMm: 30, heightMm: 40 }, 20), (37699.11184 * 7) / 8],
    ['lying cylinder r 50, length 200, to 20', () => below({ type: 'cylinder', radiusMm: 50, heightMm: 200 }, 20, tilt(90)), 223647.609],
    ['wedge 200×120×30 to 15: three quarters', () => below({ type: 'wedge', lengthMm: 200, widthMm: 120, heightMm: 30 }, 15), 270000],
  ])('%s', (_, value, expected) => {
    expect(Math.abs(value() / expected - 1)).toBeLessThan(TABLE);
  });
  it('has the height of a cap without losing digits in flat ones', () => {
    // h = a²/2R (1 + a²/4R² + …): 40²/10,000 and a correction of 1.6e-5.
    const ratio = (40 / 5000) ** 2;
    expect(Math.abs(capHeight({ type: 'cap', sphereRadiusMm: 5000, rimRadiusMm: 40 }) - 0.16 * (1 + ratio / 4 + ratio ** 2 / 8))).toBeLessThan(1e-11);
  });
});

describe('cylinder at a slant, faceted, against its closed form', () => {
  /** Relative: what design promises of faceted primitives. */
  const FACETED = 1e-5;
  it('full base cut at a slant, r 50, walls 20 and 60: πr²(h₁ + h₂)/2', () => {
    const lean = Math.atan(0.4);
    const { profile } = oriented({ type: 'cylinder', radiusMm: 50, heightMm: 80 }, tilt((lean * 180) / Math.PI));
    expect(Math.abs(profile.volumeBelow(60 * Math.cos(lean)) / 314159.26536 - 1)).toBeLessThan(FACETED);
  });
  it.each([[30, 32696.51796], [50, 66666.66667], [80, 122369.48717], [100, 157079.63268]])('ungula r 50, height 40, reach %d', (reach, expected) => {
    const lean = Math.atan(40 / reach);
    const { profile } = oriented({ type: 'cylinder', radiusMm: 50, heightMm: 400 }, tilt((lean * 180) / Math.PI));
    expect(Math.abs(profile.volumeBelow(reach * Math.sin(lean)) / expected - 1)).toBeLessThan(FACETED);
  });
  it('cap at a slant: the half ball cut through its center by an upright plane keeps half below', () => {
    const { profile } = oriented({ type: 'cap', sphereRadiusMm: 50, rimRadiusMm: 50 }, tilt(90));
    expect(Math.abs(profile.volumeBelow(50) / profile.volumeMm3 - 0.5)).toBeLessThan(FACETED);
    // Lying on its side, a half ball is half of a ball at every height.
    for (const z of [3, 20, 71]) {
      const ball = oriented({ type: 'sphere', radiusMm: 50 }).profile.volumeBelow(z);
      expect(Math.abs(profile.volumeBelow(z) - ball / 2) / profile.volumeMm3).toBeLessThan(FACETED);
    }
  });
  it('cone lying on its side: half below its axis', () => {
    const { profile } = oriented({ type: 'cone', radiusMm: 30, heightMm: 40 }, tilt(90));
    expect(Math.abs(profile.volumeBelow(30) / profile.volumeMm3 - 0.5)).toBeLessThan(FACETED);
  });
});

describe.each(SHAPES)('$type', (shape) => {
  it('has facets that are closed, wound outward and hold its exact volume', () => {
    for (const fineness of ['solid', 'profile'] as const) {
      const mesh = facets(shape, fineness);
      // 1e-12: a million triangles' rounding at most.
      expect(Math.abs(meshVolume(mesh) / primitiveVolume(shape) - 1)).toBeLessThan(1e-12);
      expect(unmatchedEdges(mesh.indices)).toBe(0);
    }
  });
  it.each([[0, 0, 0], [180, 0, 0], [0, 90, 0], [33, -71, 128]] as const)('turned by %d, %d, %d: parts make the whole, levels are found, scale cubes', (x, y, z) => {
    const { profile, sizeMm } = oriented(shape, [x, y, z]);
    const larger = oriented(shape, [x, y, z], 2.5).profile;
    expect(profile.bottomMm).toBe(0);
    expect(profile.topMm).toBeCloseTo(sizeMm[2], 12);
    expect(profile.volumeBelow(0)).toBe(0);
    expect(profile.volumeBelow(profile.topMm)).toBe(profile.volumeMm3);
    expect(Math.abs(profile.volumeMm3 / primitiveVolume(shape) - 1)).toBeLessThan(1e-12);
    let before = 0;
    for (let i = 1; i <= 40; i++) {
      const height = (i / 40) * profile.topMm;
      const volume = profile.volumeBelow(height);
      expect(volume).toBeGreaterThanOrEqual(before - ROUNDING * profile.volumeMm3);
      before = volume;
      expect(Math.abs(larger.volumeBelow(2.5 * height) / 2.5 ** 3 - volume) / profile.volumeMm3).toBeLessThan(1e-11);
      if (i < 40) {
        const found = profile.levelOf(volume);
        expect(Math.abs(profile.volumeBelow(found) - volume) / profile.volumeMm3).toBeLessThan(ROUNDING);
      }
    }
  });
  it('has its section as the slope of its volume', () => {
    for (const turn of [[0, 0, 0], [0, 90, 0], [20, 30, 40]] as const) {
      const { profile } = oriented(shape, turn);
      for (const share of [0.21, 0.5, 0.83]) {
        const z = share * profile.topMm;
        const step = 1e-4 * profile.topMm;
        const slope = (profile.volumeBelow(z + step) - profile.volumeBelow(z - step)) / (2 * step);
        // Central difference over 2e-4 of the height; where an edge of a flat-sided shape falls in it, as much of the mean section.
        expect(Math.abs(profile.areaAt(z) - slope)).toBeLessThan((1e-3 * profile.volumeMm3) / profile.topMm);
      }
    }
  });
});

describe.each(SHAPES.filter((shape) => closedProfile(shape, UP) !== null))('$type by closed form', (shape) => {
  it('agrees with its facets at every height, standing and on its head', () => {
    for (const up of [UP, DOWN]) {
      const profile = closedProfile(shape, up)!;
      const flip = up === UP ? 0 : 180;
      const turned = oriented(shape, [flip, 0, 0]);
      const mesh = meshProfile(turned.mesh());
      for (const share of [0.03, 0.2, 0.5, 0.77, 0.99]) {
        const z = share * profile.topMm;
        // The coarser of the two meshes, 128 sides and 64 rings: a sag of 3e-4, most of it made good by the volume.
        expect(Math.abs(profile.volumeBelow(z) - mesh.volumeBelow(z)) / profile.volumeMm3).toBeLessThan(2e-4);
      }
    }
  });
});

describe('a ball under any turn', () => {
  it('is cut as its image: seed 7, ellipsoid against the same ellipsoid with its axes exchanged', () => {
    const random = seeded(7);
    for (let i = 0; i < 20; i++) {
      const [l, w, h] = [10 + 50 * random(), 10 + 50 * random(), 10 + 50 * random()];
      const z = 0.9 * Math.min(l, w, h) * random();
      const standing = oriented({ type: 'ellipsoid', lengthMm: l, widthMm: w, heightMm: h }, [0, 90, 360 * random()]).profile;
      const exchanged = oriented({ type: 'ellipsoid', lengthMm: h, widthMm: w, heightMm: l }).profile;
      expect(Math.abs(standing.volumeBelow(z) - exchanged.volumeBelow(z)) / standing.volumeMm3).toBeLessThan(ROUNDING);
    }
  });
});

/** Directed edges without their opposite: 0 for a closed, consistently wound mesh. */
function unmatchedEdges(indices: Uint32Array): number {
  const open = new Set<number>();
  const width = 2 ** 26;
  for (let t = 0; t < indices.length; t += 3) {
    for (let k = 0; k < 3; k++) {
      const a = indices[t + k];
      const b = indices[t + ((k + 1) % 3)];
      if (!open.delete(b * width + a)) open.add(a * width + b);
    }
  }
  return open.size;
}
