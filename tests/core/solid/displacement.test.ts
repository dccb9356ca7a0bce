import { beforeAll, describe, expect, it } from 'vitest';
import type { BoxMold, Mold, RoundMold, Shape } from '../../../src/core/scene/scene.ts';
import { displacementOf, type Displacement, type SubmergedSolid } from '../../../src/core/solid/displacement.ts';
import { moldCutter, moldVolumeBelow } from '../../../src/core/solid/mold.ts';
import { poseSolid } from '../../../src/core/solid/pose.ts';
import { meshVolume } from '../../../src/core/solid/shape-volume.ts';
import type { Booleans, TriangleMesh } from '../../../src/core/solid/solid.ts';
import { openBooleans } from '../../../src/files/booleans.ts';
import { torus } from './made-meshes.ts';
import { manifold, seeded } from './oracle.ts';

const BOX: BoxMold = {
  shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60, draftDeg: 0, cornerRadiusMm: 0, material: 'silicone', wallMm: 8, keep: false,
};
const ROUND: RoundMold = { shape: 'round', diameterMm: 100, heightMm: 60, draftDeg: 0, material: 'silicone', wallMm: 8, keep: false };

/** Relative. Closed forms and exact polyhedra: a few roundings. */
const ROUNDING = 1e-12;
/** Relative. What is promised of solids cut by a round wall. */
const ROUND_WALL = 1e-5;

let booleans: Booleans;
beforeAll(async () => {
  booleans = await openBooleans();
});

type Place = Partial<{ x: number; y: number; base: number; turn: readonly [number, number, number]; scale: number; void: number; kind: 'figure' | 'bed' }>;
function solid(id: string, shape: Shape, place: Place = {}): SubmergedSolid {
  const { x = 0, y = 0, base = 0, turn = [0, 0, 0], scale = 1, kind = 'figure' } = place;
  return { id, kind, voidFraction: place.void ?? 0, solid: poseSolid(shape, { xMm: x, yMm: y, baseMm: base, turnDeg: turn, scale }) };
}
const bed = (id: string, shape: Shape, place: Place = {}): SubmergedSolid => solid(id, shape, { ...place, kind: 'bed' });
const box = (lengthMm: number, widthMm: number, heightMm: number): Shape => ({ type: 'box', lengthMm, widthMm, heightMm });
const sphere = (radiusMm: number): Shape => ({ type: 'sphere', radiusMm });
const within = (mold: Mold, ...solids: SubmergedSolid[]): Displacement => displacementOf({ mold, fillMm: mold.heightMm, solids, booleans });

/** Booleans that must not be asked. */
const NONE: Booleans = {
  union: () => { throw new Error('union asked'); },
  intersect: () => { throw new Error('intersect asked'); },
  subtract: () => { throw new Error('subtract asked'); },
  repair: () => { throw new Error('repair asked'); },
};

describe('acceptance cases 4 and 5 (hand arithmetic)', () => {
  it('4: 42 mL of figure in 20 to 35 mm of a 150 mm square leaves 295.5 mL; forgetting it raises the level 1.87 mm', () => {
    const water = within({ ...BOX, lengthMm: 150, widthMm: 150 }, solid('f', box(60, 70, 10), { base: 22 }));
    expect(Math.abs(water.displacedMl(20, 35) / 42 - 1)).toBeLessThan(ROUNDING);
    expect(Math.abs(water.freeVolumeMl(20, 35) / 295.5 - 1)).toBeLessThan(ROUNDING);
    // 42 mL over 22.5 mL a millimeter.
    expect(Math.abs(water.levelForFree(20, 337.5) - (35 + 42 / 22.5))).toBeLessThan(1e-9);
  });
  it('5: over a bed rising 0 to 30 mm stand 90 mL to 15 mm and 270 mL more to 30', () => {
    const water = within(BOX, bed('slope', { type: 'wedge', lengthMm: 200, widthMm: 120, heightMm: 30 }));
    expect(Math.abs(water.freeVolumeMl(0, 15) / 90 - 1)).toBeLessThan(ROUNDING);
    expect(Math.abs(water.freeVolumeMl(15, 30) / 270 - 1)).toBeLessThan(ROUNDING);
    expect(Math.abs(water.levelForFree(0, 90) - 15)).toBeLessThan(1e-9);
  });
  it('5: a flat gravel bed of 10 mm with 40 % voids drinks 96 mL', () => {
    const water = within(BOX, bed('gravel', box(200, 120, 10), { void: 0.4 }));
    expect(Math.abs(water.freeVolumeMl(0, 10) / 96 - 1)).toBeLessThan(ROUNDING);
    expect(water.opensAt(0, 40)).toBe(0);
  });
});

describe('a wedge clipped by a round wall: the ungula (standard mensuration formula, values recomputed)', () => {
  it.each([[30, 32696.51796], [50, 66666.66667], [80, 122369.48717], [100, 157079.63268]])('r 50, height 40, reach %d', (reach, expected) => {
    const water = within(ROUND, bed('w', { type: 'wedge', lengthMm: reach, widthMm: 120, heightMm: 40 }, { x: 50 - reach / 2 }));
    expect(Math.abs((1000 * water.displacedMl(0, 60)) / expected - 1)).toBeLessThan(ROUND_WALL);
  });
});

describe('a bed cut by a round wall along a chord: the circular segment (standard mensuration formula)', () => {
  it.each([5, 12.34, 33])('segment %d mm wide, 20 high', (width) => {
    const water = within(ROUND, bed('b', box(60, 120, 20), { x: 50 - width + 30 }));
    const area = 2500 * Math.acos((50 - width) / 50) - (50 - width) * Math.sqrt(100 * width - width * width);
    expect(Math.abs((1000 * water.displacedMl(0, 60)) / (20 * area) - 1)).toBeLessThan(ROUND_WALL);
  });
});

describe('two spheres share a lens: π(R + r − d)²(d² + 2d(R + r) − 3(R − r)²)/12d (standard mensuration formula)', () => {
  const lens = (r: number, s: number, d: number): number => (Math.PI * (r + s - d) ** 2 * (d * d + 2 * d * (r + s) - 3 * (r - s) ** 2)) / (12 * d);
  /** Share of the lens. Facets of a ball lie up to 5e-4 of its radius in and out; over a lens that mostly cancels. */
  const FACETED_LENS = 1e-4;
  it.each([[20, 20, 15], [20, 20, 30], [25, 12, 20], [20, 10, 28]])('radii %d and %d, %d apart', (r, s, d) => {
    const mold = { ...BOX, heightMm: 80 };
    const water = within(mold, solid('a', sphere(r), { x: -10, base: 5 }), solid('b', sphere(s), { x: -10 + d, base: 5 + r - s }));
    const expected = lens(r, s, d);
    expect(water.overlaps).toHaveLength(1);
    expect(water.overlaps[0]).toMatchObject({ a: 'a', b: 'b' });
    expect(Math.abs(water.overlaps[0].volumeMm3 / expected - 1)).toBeLessThan(FACETED_LENS);
    const whole = (4 / 3) * Math.PI * (r ** 3 + s ** 3);
    expect(Math.abs(1000 * water.displacedMl(0, 80) - (whole - expected)) / whole).toBeLessThan(FACETED_LENS * (expected / whole));
  });
  it('that touch share nothing and stay exact', () => {
    const water = within(BOX, solid('a', sphere(10), { x: -10 }), solid('b', sphere(10), { x: 10 }));
    expect(water.overlaps).toEqual([]);
    expect(Math.abs((1000 * water.displacedMl(0, 60)) / ((8 / 3) * Math.PI * 1000) - 1)).toBeLessThan(ROUNDING);
  });
});

describe('nothing is counted twice', () => {
  it('three boxes that share one place (sieve of their shared boxes, by hand)', () => {
    // 40³ each, moved 10 mm along x, y, z: pairs share 30·30·40, 30·40·30, 40·30·30 with the first two of offsets 10.
    const water = within(BOX,
      solid('a', box(40, 40, 40)), solid('b', box(40, 40, 40), { x: 10, y: 10 }), solid('c', box(40, 40, 40), { x: 10, base: 10 }));
    // a∩b 30·30·40, a∩c 30·40·30, b∩c: x whole 40, y 30, z 30; all three 30·30·30.
    const expected = 3 * 64000 - 36000 - 36000 - 36000 + 27000;
    expect(Math.abs((1000 * water.displacedMl(0, 60)) / expected - 1)).toBeLessThan(1e-6);
    expect(water.overlaps.map(({ a, b }) => a + b)).toEqual(['ab', 'ac', 'bc']);
    for (const { volumeMm3 } of water.overlaps) expect(Math.abs(volumeMm3 / 36000 - 1)).toBeLessThan(1e-6);
  });
  it('the same figure set twice displaces once', () => {
    for (const copies of [2, 3]) {
      const water = within(BOX, ...Array.from({ length: copies }, (_, i) => solid(`f${i}`, { type: 'cone', radiusMm: 20, heightMm: 30 }, { base: 4, turn: [25, 10, 0] })));
      expect(Math.abs((1000 * water.displacedMl(0, 60)) / ((Math.PI * 400 * 30) / 3) - 1)).toBeLessThan(1e-6);
    }
  });
  it('a copy moved by a hair displaces hardly more', () => {
    const cone: Shape = { type: 'cone', radiusMm: 20, heightMm: 30 };
    const water = within(BOX, solid('a', cone, { turn: [25, 10, 0] }), solid('b', cone, { turn: [25, 10, 0], x: 1e-3 }));
    const more = 1000 * water.displacedMl(0, 60) - (Math.PI * 400 * 30) / 3;
    // 1 µm over at most the cone's shadow of 40 by 40 mm.
    expect(more).toBeGreaterThan(0);
    expect(more).toBeLessThan(1.6);
  });
  it('a figure sunk in gravel displaces whole, the gravel only around it', () => {
    const water = within(BOX, bed('gravel', box(200, 120, 10), { void: 0.4 }), solid('f', box(20, 20, 20), { base: 2 }));
    // 8 mm of the figure stand in the gravel.
    expect(Math.abs(1000 * water.displacedMl(0, 60) - (8000 + 0.6 * (240000 - 3200)))).toBeLessThan(1e-3);
  });
  it('of two gravels in one place the denser counts, whichever comes first', () => {
    const coarse = bed('coarse', box(100, 120, 10), { x: -50, void: 0.5 });
    const fine = bed('fine', box(100, 120, 10), { x: -30, void: 0.3 });
    for (const order of [[coarse, fine], [fine, coarse]]) {
      const water = within(BOX, ...order);
      expect(Math.abs(1000 * water.displacedMl(0, 60) - (0.7 * 120000 + 0.5 * 20 * 120 * 10))).toBeLessThan(1e-3);
    }
  });
  it('three gravels and a figure in one place', () => {
    const water = within(BOX,
      bed('a', box(100, 120, 10), { void: 0.5 }), bed('b', box(60, 120, 10), { void: 0.2 }), bed('c', box(80, 120, 10), { void: 0.4 }), solid('f', box(20, 120, 5)));
    const expected = 20 * 120 * 5 + 0.8 * (60 * 120 * 10 - 20 * 120 * 5) + 0.6 * 20 * 120 * 10 + 0.5 * 20 * 120 * 10;
    expect(Math.abs(1000 * water.displacedMl(0, 60) - expected)).toBeLessThan(1e-2);
  });
  it('faces in contact are no overlap: a figure on a bed, beds side by side', () => {
    const water = displacementOf({
      mold: BOX, fillMm: 55, booleans: NONE,
      solids: [bed('left', box(100, 120, 10), { x: -50 }), bed('right', box(100, 120, 10), { x: 50 }), solid('f', sphere(10), { base: 10, x: 3 })],
    });
    expect(water.overlaps).toEqual([]);
    expect(water.opensAt(0, 55)).toBe(10);
  });
  it('a figure resting on a slope shares nothing', () => {
    // A box turned with the slope, 30/200, its lower edge set on it: the edge lies 15 cos − 10 sin beside the middle of its bounds.
    const lean = Math.atan(30 / 200);
    const edge = -(30 * Math.cos(lean) + 20 * Math.sin(lean)) / 2 + 20 * Math.sin(lean);
    const x = 20;
    const slope = bed('slope', { type: 'wedge', lengthMm: 200, widthMm: 120, heightMm: 30 });
    const set = (base: number): Displacement => within(BOX, slope, solid('f', box(30, 30, 20), { turn: [0, (-lean * 180) / Math.PI, 0], x, base }));
    const base = 15 + (x + edge) * Math.tan(lean);
    expect(set(base).overlaps).toEqual([]);
    // Pressed in by 1 mm it shares 1 mm × cos(lean) square to the slope, over its whole foot.
    const pressed = set(base - 1).overlaps;
    expect(pressed).toHaveLength(1);
    expect(Math.abs(pressed[0].volumeMm3 - 900 * Math.cos(lean))).toBeLessThan(0.01);
  });
});

describe('nothing outside the mold is counted', () => {
  it('a bed larger than the mold, a figure through the wall, one through the floor', () => {
    const water = within(BOX, bed('flat', box(300, 300, 10)));
    expect(Math.abs((1000 * water.displacedMl(0, 60)) / 240000 - 1)).toBeLessThan(1e-6);
    const wall = within(BOX, solid('f', box(40, 40, 40), { x: 90, base: 5 }));
    expect(Math.abs((1000 * wall.displacedMl(0, 60)) / (30 * 40 * 40) - 1)).toBeLessThan(1e-6);
    expect(wall.outside).toEqual(['f']);
    const floor = within(BOX, solid('f', sphere(20), { base: -20 }));
    expect(Math.abs((1000 * floor.displacedMl(-30, 60)) / ((2 / 3) * Math.PI * 8000) - 1)).toBeLessThan(ROUNDING);
    expect(floor.outside).toEqual(['f']);
    expect(within(BOX, solid('f', sphere(20), { x: 200 })).displacedMl(0, 60)).toBe(0);
  });
  it('half a ball whose center lies on the wall', () => {
    const water = within(BOX, solid('f', sphere(20), { x: 100, base: 10 }));
    expect(Math.abs((1000 * water.displacedMl(0, 60)) / ((2 / 3) * Math.PI * 8000) - 1)).toBeLessThan(1e-4);
  });
  it('a ball that pokes 3 mm through the wall loses that cap and nothing below it', () => {
    const water = within(BOX, solid('f', sphere(20), { x: 83 }));
    const cap = (h: number): number => (Math.PI * h * h * (60 - h)) / 3;
    const whole = (4 / 3) * Math.PI * 8000;
    expect(Math.abs(1000 * water.displacedMl(0, 60) - (whole - cap(3))) / whole).toBeLessThan(1e-5);
    // The cut begins at 20 − √(400 − 17²) = 9.5 mm: below it the closed form holds to rounding of the facets' own sums.
    expect(Math.abs(1000 * water.displacedMl(0, 6) / cap(6) - 1)).toBeLessThan(1e-9);
  });
  it('a figure may press 0.05 mm into wall and floor, a bed any depth', () => {
    const at = (x: number, base: number): readonly string[] => within(BOX, solid('f', sphere(20), { x, base })).outside;
    expect(at(80, 0)).toEqual([]);
    expect(at(80.049, 0)).toEqual([]);
    expect(at(80.051, 0)).toEqual(['f']);
    expect(at(0, -0.049)).toEqual([]);
    expect(at(0, -0.051)).toEqual(['f']);
    expect(within(BOX, bed('b', sphere(20), { x: 100, base: -9 })).outside).toEqual([]);
  });
  it('a ball that touches a round wall is inside, also a large one, and above the rim the wall goes on', () => {
    const at = (angle: number, away: number, r: number, base = 0): readonly string[] =>
      within({ ...ROUND, diameterMm: 600 }, solid('f', sphere(r), { x: away * Math.cos(angle), y: away * Math.sin(angle), base })).outside;
    for (const angle of [0, 0.7, 2.2, 4]) {
      expect(at(angle, 100, 200)).toEqual([]);
      expect(at(angle, 100.06, 200)).toEqual(['f']);
    }
    expect(at(1, 200, 120, 300)).toEqual(['f']);
  });
  it('a leaning wall gives room higher up', () => {
    const mold = { ...BOX, draftDeg: 10 };
    expect(within(mold, solid('f', box(204, 20, 5), { base: 20 })).outside).toEqual([]);
    expect(within(mold, solid('f', box(204, 20, 5), { base: 5 })).outside).toEqual(['f']);
    // A ball of 10 mm, its center 30 mm up, touches the wall x cos 10° − z sin 10° = 100 cos 10°.
    const [c, s] = [Math.cos(Math.PI / 18), Math.sin(Math.PI / 18)];
    const touching = (100 * c + 30 * s - 10) / c;
    expect(within(mold, solid('f', sphere(10), { x: touching + 0.045, base: 20 })).outside).toEqual([]);
    expect(within(mold, solid('f', sphere(10), { x: touching + 0.055, base: 20 })).outside).toEqual(['f']);
  });
});

describe('where the section opens', () => {
  const wedge: Shape = { type: 'wedge', lengthMm: 200, widthMm: 120, heightMm: 30 };
  it('over a flat bed at its height, to the last bit', () => {
    for (const mold of [BOX, { ...BOX, cornerRadiusMm: 12 }]) {
      expect(within(mold, bed('b', box(200, 120, 10))).opensAt(0, 55)).toBe(10);
      expect(within(mold, bed('b', box(321, 222, 10))).opensAt(0, 55)).toBe(10);
      expect(within(mold, bed('b', box(321, 222, 12), { base: -2 })).opensAt(4, 55)).toBe(10);
    }
    for (const shape of [box(150, 150, 10), { type: 'cylinder', radiusMm: 50, heightMm: 10 }, { type: 'cylinder', radiusMm: 70, heightMm: 10 }] as Shape[]) {
      expect(within(ROUND, bed('b', shape)).opensAt(0, 55)).toBe(10);
    }
  });
  it('over a flat bed with a dome sunk in it, and over a dome wider than the mold', () => {
    const flat = bed('b', box(200, 120, 10));
    const dome: Shape = { type: 'cap', sphereRadiusMm: 40, rimRadiusMm: 30 };
    expect(within(BOX, flat, bed('d', dome, { base: 5 })).opensAt(0, 55)).toBe(10);
    expect(within(BOX, flat, bed('d', dome, { base: 5 }), bed('e', dome, { base: 4, x: 20 })).opensAt(0, 55)).toBe(10);
    // R 80, rim 60: h = 80 − √(6400 − 3600); over the wall at 50 the dome stands √(6400 − 2500) − √2800.
    const expected = Math.sqrt(3900) - Math.sqrt(2800);
    const water = within(ROUND, bed('d', { type: 'cap', sphereRadiusMm: 80, rimRadiusMm: 60 }));
    // Facets of 96 sides: a sag of 80 µm at 80 mm.
    expect(Math.abs(water.opensAt(0, 55)! - expected)).toBeLessThan(0.08);
    expect(water.freeVolumeMl(0, expected)).toBeLessThan(1e-3 * (moldVolumeBelow(ROUND, expected) / 1000));
  });
  it('over a slope where the slope begins', () => {
    expect(within(BOX, bed('b', wedge)).opensAt(0, 55)).toBe(0);
    expect(within(ROUND, bed('b', wedge)).opensAt(0, 55)).not.toBe(0);
    expect(within(BOX, bed('b', wedge), bed('c', box(200, 120, 10))).opensAt(0, 55)).toBe(10);
    expect(within(BOX, bed('b', wedge, { base: 6 }), bed('c', box(200, 120, 6))).opensAt(0, 55)).toBe(6);
  });
  it('where the wall cuts a larger slope: 50 mm along a rise of 30 in 200', () => {
    const height = within({ ...BOX, lengthMm: 100 }, bed('b', wedge)).opensAt(0, 55)!;
    // Corners come from booleans of 32-bit reach: 1e-5 mm.
    expect(Math.abs(height - 7.5)).toBeLessThan(1e-5);
    expect(Math.abs(within(ROUND, bed('b', wedge)).opensAt(0, 55)! - 7.5)).toBeLessThan(1e-3);
  });
  it('not at all when closed to the top; at once where no bed closes it', () => {
    const water = within(BOX, bed('b', box(200, 120, 10)));
    expect(water.opensAt(0, 10)).toBe(null);
    expect(water.opensAt(2, 7.5)).toBe(null);
    expect(water.opensAt(10, 12)).toBe(10);
    expect(water.opensAt(11, 12)).toBe(11);
    expect(water.opensAt(12, 12)).toBe(null);
    expect(within(BOX).opensAt(3, 12)).toBe(3);
    expect(within(BOX, solid('f', box(200, 120, 10))).opensAt(0, 12)).toBe(0);
    expect(within({ ...BOX, draftDeg: 3 }, bed('b', box(200, 120, 10))).opensAt(0, 12)).toBeLessThan(1e-3);
  });
});

describe('liquid on top', () => {
  it('stands where the free volume says, to 1e-9 mm, seed 21', () => {
    const mold = { ...ROUND, draftDeg: 5 };
    const water = within(mold, bed('b', { type: 'wedge', lengthMm: 100, widthMm: 100, heightMm: 20 }), solid('f', sphere(12), { base: 25, x: 10 }));
    const random = seeded(21);
    for (let i = 0; i < 40; i++) {
      const from = 50 * random();
      const to = from + 0.01 + 60 * random();
      const volume = water.freeVolumeMl(from, to);
      // Near the closed floor a section of almost nothing turns rounding of volume into height.
      if (volume > 0.1) expect(Math.abs(water.levelForFree(from, volume) - to)).toBeLessThan(1e-9);
    }
    expect(water.levelForFree(12, 0)).toBe(12);
  });
  it('stops under a slab that closes the section and goes on above it', () => {
    const water = within(BOX, bed('slab', box(200, 120, 10), { base: 20 }));
    expect(Math.abs(water.levelForFree(0, 480) - 20)).toBeLessThan(1e-9);
    expect(Math.abs(water.levelForFree(0, 504) - 31)).toBeLessThan(1e-9);
    expect(Math.abs(water.levelForFree(50, 480) - 70)).toBeLessThan(1e-9);
    expect(water.opensAt(20, 60)).toBe(30);
  });
});

describe('the whole is the sum of its parts, seeds 1 to 8', () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 8])('seed %d: against a direct union, intersection and cut by manifold-3d', async (seed) => {
    const random = seeded(seed);
    const mold: Mold = seed % 2 === 0 ? { ...ROUND, draftDeg: 6 * random() } : { ...BOX, lengthMm: 100, widthMm: 80, cornerRadiusMm: 15 * random(), draftDeg: 6 * random() };
    const shapes: Shape[] = [sphere(14), box(30, 20, 25), { type: 'cylinder', radiusMm: 12, heightMm: 30 }, { type: 'cone', radiusMm: 18, heightMm: 30 }, { type: 'wedge', lengthMm: 50, widthMm: 30, heightMm: 15 }];
    const solids = Array.from({ length: 5 }, (_, i) =>
      solid(`f${i}`, shapes[i], { x: 90 * random() - 45, y: 90 * random() - 45, base: 40 * random() - 5, turn: [360 * random(), 360 * random(), 360 * random()] }));
    const water = within(mold, ...solids);
    const { Manifold, Mesh } = await manifold();
    const body = ({ positions, indices }: TriangleMesh) => Manifold.ofMesh(new Mesh({ numProp: 3, vertProperties: Float32Array.from(positions), triVerts: indices }));
    const wet = Manifold.union(solids.map(({ solid: s }) => body(s.mesh()))).intersect(body(moldCutter(mold, 100)));
    const below = (z: number): number => wet.trimByPlane([0, 0, -1], -z).volume();
    let sum = 0;
    for (let z = 0; z < 80; z += 8) {
      const part = water.displacedMl(z, z + 8);
      sum += part;
      // The oracle sees facets throughout; ours only where solids meet: 2e-4 of the solids' 60 mL.
      expect(Math.abs(1000 * water.displacedMl(0, z + 8) - below(z + 8))).toBeLessThan(12);
      const gross = (moldVolumeBelow(mold, z + 8) - moldVolumeBelow(mold, z)) / 1000;
      expect(part).toBeGreaterThanOrEqual(0);
      expect(Math.abs(water.freeVolumeMl(z, z + 8) + part - gross) / gross).toBeLessThan(1e-9);
    }
    expect(Math.abs(sum - water.displacedMl(0, 80))).toBeLessThan(1e-9 * sum);
  });
});

describe('many solids', () => {
  it('500 balls, each within the bounds of its neighbors yet apart from them, ask for no boolean, seed 5', () => {
    const random = seeded(5);
    const solids: SubmergedSolid[] = [];
    // Face-centered packing, 10 mm between centers, radii just under 5: most pairs of bounds overlap, no balls do.
    const edge = 10 * Math.SQRT2;
    for (let k = 0; solids.length < 500; k++) {
      for (let j = 0; j < 12 && solids.length < 500; j++) {
        for (let i = 0; i < 12 && solids.length < 500; i++) {
          if ((i + j + k) % 2 === 1) continue;
          solids.push(solid(`s${solids.length}`, sphere(4.9 + 0.05 * random()), { x: ((i - 6) * edge) / 2, y: ((j - 6) * edge) / 2, base: (k * edge) / 2 }));
        }
      }
    }
    const water = displacementOf({ mold: { ...BOX, heightMm: 100 }, fillMm: 90, solids, booleans: NONE });
    const expected = solids.reduce((sum, { solid: s }) => sum + s.profile.volumeMm3, 0);
    expect(Math.abs((1000 * water.displacedMl(0, 200)) / expected - 1)).toBeLessThan(ROUNDING);
    expect(water.overlaps).toEqual([]);
  });
  it('500 boxes in one heap are united in bounded time, seed 6', () => {
    const random = seeded(6);
    const solids = Array.from({ length: 500 }, (_, i) => solid(`s${i}`, box(20, 20, 20), { x: 100 * random() - 50, y: 80 * random() - 40, base: 30 * random(), turn: [360 * random(), 0, 0] }));
    const water = within(BOX, ...solids);
    expect(water.displacedMl(0, 60)).toBeGreaterThan(0);
    expect(water.displacedMl(0, 60)).toBeLessThan(moldVolumeBelow(BOX, 60) / 1000);
    expect(Math.abs(water.displacedMl(0, 20) + water.displacedMl(20, 60) - water.displacedMl(0, 60))).toBeLessThan(1e-9 * water.displacedMl(0, 60));
  });
});

describe('a part that is only the rounding of a contact', () => {
  it('is no part: an inside-out sliver from the wall is not handed on', () => {
    const corner = Float64Array.from([0, 0, 0, 1e-4, 0, 0, 0, 1e-4, 0, 0, 0, 1e-4]);
    const sliver: TriangleMesh = { positions: corner, indices: Uint32Array.from([0, 1, 2, 0, 3, 1, 0, 2, 3, 1, 3, 2]) };
    expect(meshVolume(sliver)).toBeLessThan(0);
    let asked = 0;
    const water = displacementOf({
      mold: BOX, fillMm: 55,
      solids: [solid('out', box(20, 20, 20), { x: 110 }), solid('in', box(30, 20, 20), { x: 95 })],
      booleans: { ...NONE, intersect: () => { asked++; return sliver; } },
    });
    expect(asked).toBe(2);
    expect(water.overlaps).toEqual([]);
    expect(water.displacedMl(0, 55)).toBe(0);
  });
});

describe('a mesh that is not sound', () => {
  it('does not pass for a number: a shell wound twice that fills more than the mold', () => {
    const one = poseSolid(box(190, 110, 50), { xMm: 0, yMm: 0, baseMm: 0, turnDeg: [0, 0, 0], scale: 1 }).mesh();
    const twice: TriangleMesh = { positions: one.positions, indices: Uint32Array.from([...one.indices, ...one.indices]) };
    expect(meshVolume(twice)).toBe(2 * meshVolume(one));
    const pose = { xMm: 0, yMm: 0, baseMm: 0, turnDeg: [0, 0, 0] as const, scale: 1 };
    const water = within(BOX, { id: 'm', kind: 'figure', voidFraction: 0, solid: poseSolid({ type: 'mesh', file: 'm.stl' }, pose, twice) });
    expect(() => water.displacedMl(0, 50)).toThrow(/not sound/);
  });
});

describe('a mesh too fine to be joined', () => {
  it('1.2 million triangles half sunk in a slab: by symmetry they share half of 2π²Rr², counted once', () => {
    // A torus of R 12, r 5 is its own mirror image in the plane at half its height.
    const whole = 2 * Math.PI ** 2 * 12 * 5 ** 2;
    const mesh = torus(1000, 600, 12, 5);
    const ring: SubmergedSolid = { id: 'ring', kind: 'figure', voidFraction: 0, solid: poseSolid({ type: 'mesh', file: 'ring.stl' }, { xMm: 0, yMm: 0, baseMm: 0, turnDeg: [0, 0, 0], scale: 1 }, mesh) };
    const water = within(BOX, bed('slab', box(150, 100, 5)), ring);
    expect(water.overlaps).toMatchObject([{ a: 'slab', b: 'ring', lighter: true }]);
    // The copy's points are means of cells about 0.1 mm wide: they lie inside by about h²/(24 r), 1e-4 of the volume; the rest is room for the grid's place.
    expect(Math.abs(water.overlaps[0].volumeMm3 / (whole / 2) - 1)).toBeLessThan(1e-3);
    expect(Math.abs(water.displacedMl(0, 60) / ((150 * 100 * 5 + whole / 2) / 1000) - 1)).toBeLessThan(1e-4);
    // Above the slab nothing is shared: exact, but for the facets' 2e-5.
    expect(Math.abs(water.displacedMl(5, 60) / (whole / 2000) - 1)).toBeLessThan(1e-4);
  });
});
