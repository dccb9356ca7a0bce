/** Sections against closed forms, against manifold-3d's own, and against the profile they must integrate to. */
import { describe, expect, it } from 'vitest';
import type { Shape } from '../../../src/core/scene/scene.ts';
import { loopArea, regionArea, regionPerimeter, type Region } from '../../../src/core/sight/region.ts';
import { facets } from '../../../src/core/solid/facets.ts';
import { poseSolid } from '../../../src/core/solid/pose.ts';
import type { Primitive } from '../../../src/core/solid/primitives.ts';
import { meshProfile } from '../../../src/core/solid/profile.ts';
import { sliceable } from '../../../src/core/solid/section.ts';
import { ARC_MM } from '../../../src/core/solid/section-arc.ts';
import { meshSections } from '../../../src/core/solid/section-mesh.ts';
import type { TriangleMesh } from '../../../src/core/solid/solid.ts';
import { box, icosphere, joined, moved, posed, soup, star, torus, turnedInsideOut } from './made-meshes.ts';
import { manifold, seeded } from './oracle.ts';

/** Relative to the squared or plain extent: a handful of roundings. */
const ROUNDING = 1e-12;
/** mm² as a share of the squared height: the library's sections keep eight decimals of a millimeter (measured, no source). */
const SLICE_SHARE = 1e-8;

type Turn = readonly [number, number, number];
const degrees = (radians: number) => (radians * 180) / Math.PI;
const sectionOf = (shape: Shape, turnDeg: Turn, zMm: number, scale = 1): Region => sliceable({ shape, turnDeg, scale }).placed({ xMm: 3, yMm: -7, baseMm: 5 }).at(5 + zMm);
/** mm². What chords may miss of an area: two thirds of their stray along the edge. */
const arcArea = (perimeterMm: number) => ARC_MM * perimeterMm;
/** mm. And of a length: a chord over an arc of stray e and bend κ misses eκ/3 of its length, 2πe/3 over a whole turn. */
const ARC_LENGTH_MM = Math.PI * ARC_MM;

/** Perimeter of an ellipse: π(a + b) Σ C(1/2, n)² hⁿ, h = ((a − b)/(a + b))² (Gauss–Kummer series; DLMF 19.9, from memory). */
function ellipsePerimeter(a: number, b: number): number {
  const h = ((a - b) / (a + b)) ** 2;
  let sum = 0;
  let binomial = 1;
  for (let n = 0; n < 200; n++) {
    sum += binomial ** 2 * h ** n;
    binomial *= (0.5 - n) / (n + 1);
  }
  return Math.PI * (a + b) * sum;
}

describe('round solids by their equations', () => {
  it.each([1, 2, 3])('a sphere gives circles whatever its turn, seed %i', (seed) => {
    const random = seeded(seed);
    for (let n = 0; n < 10; n++) {
      const r = 1 + 60 * random();
      const z = 2 * r * random();
      const radius = Math.sqrt(z * (2 * r - z));
      const section = sectionOf({ type: 'sphere', radiusMm: r }, [360 * random(), 360 * random(), 360 * random()], z);
      expect(Math.abs(regionArea(section) - Math.PI * radius ** 2)).toBeLessThan(arcArea(2 * Math.PI * radius));
      expect(Math.abs(regionPerimeter(section) - 2 * Math.PI * radius)).toBeLessThan(ARC_LENGTH_MM);
      for (const loop of section) for (let i = 0; i < loop.length; i += 2) expect(Math.abs(Math.hypot(loop[i] - 3, loop[i + 1] + 7) - radius)).toBeLessThan(ROUNDING * r * 10);
    }
  });

  it('an ellipsoid on its side gives ellipses (x²/a² + z²/c² = 1 cut at its middle: half-axes a and b)', () => {
    const section = sectionOf({ type: 'ellipsoid', lengthMm: 60, widthMm: 40, heightMm: 20 }, [0, 0, 33], 10);
    expect(Math.abs(regionArea(section) - Math.PI * 30 * 20)).toBeLessThan(arcArea(160));
    expect(Math.abs(regionPerimeter(section) - ellipsePerimeter(30, 20))).toBeLessThan(ARC_LENGTH_MM);
  });

  it.each([0, 20, 45, 60])('a cylinder leaning %i° gives an ellipse of half-axes r and r/cos (plane section of a cylinder, by hand)', (lean) => {
    const section = sectionOf({ type: 'cylinder', radiusMm: 20, heightMm: 200 }, [lean, 0, 70], (200 * Math.cos((lean * Math.PI) / 180) + 40 * Math.sin((lean * Math.PI) / 180)) / 2);
    const long = 20 / Math.cos((lean * Math.PI) / 180);
    expect(Math.abs(regionArea(section) - Math.PI * 20 * long)).toBeLessThan(arcArea(300));
    expect(Math.abs(regionPerimeter(section) - ellipsePerimeter(20, long))).toBeLessThan(ARC_LENGTH_MM);
  });

  it('a lying cylinder gives a strip of the chord’s width', () => {
    expect(Math.abs(regionArea(sectionOf({ type: 'cylinder', radiusMm: 50, heightMm: 200 }, [0, 90, 0], 20)) - 200 * 80)).toBeLessThan(1e-8);
  });

  /** Cone half-angle α, plane at distance d from the apex, its normal β off the axis: half-axes d sin α cos α / A and d sin α / √A, A = cos²β − sin²α (analytic geometry, by hand). */
  it.each([0, 10, 25, 40])('a cone leaning %i° gives an ellipse', (beta) => {
    const [r, h] = [30, 60];
    const alpha = Math.atan(r / h);
    const b = (beta * Math.PI) / 180;
    const { sizeMm } = sliceable({ shape: { type: 'cone', radiusMm: r, heightMm: h }, turnDeg: [0, beta, 0], scale: 1 });
    const d = 12;
    const section = sectionOf({ type: 'cone', radiusMm: r, heightMm: h }, [0, beta, 0], h * Math.cos(b) + r * Math.sin(b) - d);
    expect(sizeMm[2]).toBeCloseTo(Math.max(h * Math.cos(b), r * Math.sin(b)) + r * Math.sin(b), 9);
    const a = Math.cos(b) ** 2 - Math.sin(alpha) ** 2;
    const long = (d * Math.sin(alpha) * Math.cos(alpha)) / a;
    const short = (d * Math.sin(alpha)) / Math.sqrt(a);
    expect(Math.abs(regionArea(section) - Math.PI * long * short)).toBeLessThan(arcArea(ellipsePerimeter(long, short)));
    expect(Math.abs(regionPerimeter(section) - ellipsePerimeter(long, short))).toBeLessThan(ARC_LENGTH_MM);
  });

  /** Lying on a generator, cut parallel to it: a parabola's segment is 2/3 of chord × length (Archimedes, Quadrature of the Parabola). */
  it.each([-20, 0, 11, 25])('a cone lying on its side gives a parabola, its chord %i mm off the base’s middle', (q) => {
    const [r, h] = [30, 40];
    const slant = Math.hypot(r, h);
    const section = sectionOf({ type: 'cone', radiusMm: r, heightMm: h }, [0, degrees(Math.atan2(-h, -r)), 0], ((q + r) * h) / slant);
    const expected = (2 / 3) * 2 * Math.sqrt(r * r - q * q) * (((r - q) / (2 * r)) * slant);
    expect(Math.abs(regionArea(section) - expected)).toBeLessThan(arcArea(150));
  });

  /** Axis level, cut d from it: a hyperbola's segment, (h/r)(r√(r² − d²) − d² arcosh(r/d)) (integral of the chord, by hand). */
  it.each([1, 5, 14, 29])('a cone with its axis level gives a hyperbola %i mm off the axis', (d) => {
    const [r, h] = [30, 40];
    const expected = (h / r) * (r * Math.sqrt(r * r - d * d) - d * d * Math.acosh(r / d));
    for (const z of [r - d, r + d]) expect(Math.abs(regionArea(sectionOf({ type: 'cone', radiusMm: r, heightMm: h }, [0, 90, 0], z)) - expected)).toBeLessThan(arcArea(140));
  });

  it('a cone cut through its apex is a triangle: half base times height', () => {
    expect(regionArea(sectionOf({ type: 'cone', radiusMm: 30, heightMm: 40 }, [0, 90, 0], 30))).toBeCloseTo(1200, 8);
  });

  const shapes: Primitive[] = [
    { type: 'sphere', radiusMm: 12 },
    { type: 'ellipsoid', lengthMm: 60, widthMm: 40, heightMm: 20 },
    { type: 'cylinder', radiusMm: 15, heightMm: 40 },
    { type: 'cone', radiusMm: 30, heightMm: 40 },
    { type: 'cap', sphereRadiusMm: 50, rimRadiusMm: 40 },
    { type: 'cap', sphereRadiusMm: 20, rimRadiusMm: 20 },
    { type: 'box', lengthMm: 30, widthMm: 20, heightMm: 10 },
    { type: 'wedge', lengthMm: 80, widthMm: 50, heightMm: 30 },
    { type: 'measured', volumeMl: 8, lengthMm: 40, widthMm: 20, heightMm: 20 },
  ];
  /** Share of the bounds in plan: the facets have 96 sides, (2π/96)². */
  const FACET_SHARE = 4e-3;

  it.each(shapes)('$type has the section of its facets at any turn and size, seeds 1 to 12', (shape) => {
    for (let seed = 1; seed <= 12; seed++) {
      const random = seeded(seed);
      const pick = () => (random() < 0.3 ? 90 * Math.floor(4 * random()) : 360 * random());
      const turnDeg = [pick(), pick(), pick()] as const;
      const mesh = poseSolid({ type: 'mesh', file: 'made' }, { xMm: 3, yMm: -7, baseMm: 5, turnDeg, scale: 1.5 }, facets(shape, 'solid')).mesh();
      const cut = meshSections(meshProfile(mesh).index);
      const { sizeMm } = sliceable({ shape, turnDeg, scale: 1.5 });
      for (let n = 0; n < 4; n++) {
        const z = sizeMm[2] * (0.02 + 0.96 * random());
        const [ours, theirs] = [sectionOf(shape, turnDeg, z, 1.5), cut(5 + z)];
        expect(Math.abs(regionArea(ours) - regionArea(theirs)), `seed ${seed}, ${z} mm`).toBeLessThan(FACET_SHARE * sizeMm[0] * sizeMm[1]);
        expect(ours.every((loop) => loopArea(loop) > 0)).toBe(true);
      }
      expect(sectionOf(shape, turnDeg, sizeMm[2], 1.5)).toEqual([]);
      expect(sectionOf(shape, turnDeg, -1e-9, 1.5)).toEqual([]);
    }
  });
});

/** mm² and mm: a torus of m × n facets falls short of its section by some (π/n)² of it. */
const FINE = { around: 360, across: 180 };
const facetShare = (Math.PI / FINE.across) ** 2 * 2;

describe('a torus of R 40, r 10 (facets 360 × 180)', () => {
  const [R, r] = [40, 10];
  const mesh = torus(FINE.around, FINE.across, R, r);
  const cutAt = (turnDeg: Turn, fromMiddle: number): Region => {
    const slices = sliceable({ shape: { type: 'mesh', file: 'torus' }, turnDeg, scale: 1, mesh });
    return slices.placed({ xMm: 0, yMm: 0, baseMm: -slices.sizeMm[2] / 2 }).at(fromMiddle);
  };

  it.each([0.5, 4, 8.3])('lying, is a ring: 4πR√(r² − z²) in area, 4πR round, %f mm up', (z) => {
    const section = cutAt([0, 0, 0], z);
    expect(section.length).toBe(2);
    expect(Math.abs(regionArea(section) / (4 * Math.PI * R * Math.sqrt(r * r - z * z)) - 1)).toBeLessThan(8 * facetShare);
    expect(Math.abs(regionPerimeter(section) / (4 * Math.PI * R) - 1)).toBeLessThan(facetShare);
  });

  it('upright, cut through its axis, is two circles', () => {
    const section = cutAt([0, 90, 0], 1e-7);
    expect(section.length).toBe(2);
    expect(Math.abs(regionArea(section) / (2 * Math.PI * r * r) - 1)).toBeLessThan(facetShare);
    expect(Math.abs(regionPerimeter(section) / (4 * Math.PI * r) - 1)).toBeLessThan(facetShare);
  });

  it('leaning by asin(r/R), is what lies in just one of two circles of radius R (Villarceau 1848)', () => {
    const section = cutAt([degrees(Math.asin(r / R)), 0, 0], 0);
    const lens = 2 * R * R * Math.acos(r / R) - 2 * r * Math.sqrt(R * R - r * r);
    // At the two points where the plane touches, facets open or close a slit.
    expect(Math.abs(regionArea(section) / (2 * (Math.PI * R * R - lens)) - 1)).toBeLessThan(8 * facetShare);
    expect(Math.abs(regionPerimeter(section) / (4 * Math.PI * R) - 1)).toBeLessThan(0.01);
  });
});

/** Corner heights in order, each once. */
function cornerHeights(mesh: TriangleMesh): number[] {
  return [...new Set(Array.from(mesh.indices, (v) => mesh.positions[3 * v + 2]))].sort((a, b) => a - b);
}

describe.each([41, 42, 43, 44])('meshes turned at random, seed %i', (seed) => {
  const random = seeded(seed);
  const meshes: readonly (readonly [string, TriangleMesh])[] = [
    ['spiky star', posed(star(seed, 20, 3), random, 0.5 + random(), [0, 0, 0])],
    ['bumpy torus', posed(torus(40, 24, 22, 8, 2), random, 1, [2, -3, 4])],
    ['hollow ball', joined(posed(icosphere(20, 2), random, 1, [0, 0, 0]), turnedInsideOut(icosphere(9, 2)))],
  ];

  it.each(meshes)('a %s has manifold-3d’s sections: area, perimeter and loops', async (_, made) => {
    const library = await manifold();
    const rounded = Float32Array.from(made.positions);
    const mesh = { positions: Float64Array.from(rounded), indices: made.indices };
    const solid = library.Manifold.ofMesh(new library.Mesh({ numProp: 3, vertProperties: rounded, triVerts: mesh.indices.slice() }));
    const profile = meshProfile(mesh);
    const span = profile.topMm - profile.bottomMm;
    const cut = meshSections(profile.index);
    for (let n = 0; n < 12; n++) {
      const z = profile.bottomMm + span * random();
      const section = solid.slice(z);
      const theirs = section.toPolygons().map((loop) => Float64Array.from(loop.flat()));
      section.delete();
      const ours = cut(z);
      expect(Math.abs(regionArea(ours) - regionArea(theirs)), `${z} mm`).toBeLessThan(SLICE_SHARE * span ** 2);
      expect(Math.abs(regionPerimeter(ours) - regionPerimeter(theirs)), `${z} mm`).toBeLessThan(1e-6 * span);
      expect(ours.length).toBe(theirs.length);
    }
    solid.delete();
  });

  it.each(meshes)('a %s: areas integrate to the volume (a rule for cubics is exact for the parabola between two corner heights)', (_, mesh) => {
    const profile = meshProfile(mesh);
    const cut = meshSections(profile.index);
    const heights = cornerHeights(mesh);
    // Simpson's two ends are corners' own heights, where the section is that just above: so an open rule of three inner points.
    const inner = [1 / 4, 1 / 2, 3 / 4];
    let volume = 0;
    for (let i = 1; i < heights.length; i++) {
      const [low, high] = [heights[i - 1], heights[i]];
      const [a, b, c] = inner.map((share) => regionArea(cut(low + share * (high - low))));
      // Open formula of Newton and Cotes on three inner points (Milne's rule), exact for cubics; from memory.
      volume += ((high - low) / 3) * (2 * a - b + 2 * c);
    }
    expect(Math.abs(volume / profile.volumeMm3 - 1)).toBeLessThan(1e-10);
  });

  it.each(meshes)('a %s closes at every corner’s height, with the area just above', (_, mesh) => {
    const profile = meshProfile(mesh);
    const cut = meshSections(profile.index);
    const heights = cornerHeights(mesh);
    const step = Math.ceil(heights.length / 120);
    for (let i = 0; i < heights.length; i += step) expect(Math.abs(regionArea(cut(heights[i])) - profile.areaAt(heights[i]))).toBeLessThan(ROUNDING * 1e3 * profile.volumeMm3 ** (2 / 3));
  });
});

describe('corners, edges and faces in the plane', () => {
  it('a stack of two boxes has just above each face what lies there', () => {
    const cut = meshSections(meshProfile(joined(box(10, 10, 4), moved(box(5, 5, 6), 2, 2, 4))).index);
    expect([0, 2, 4, 7, 10].map((z) => regionArea(cut(z)))).toEqual([100, 100, 25, 25, 0]);
    expect(cut(4).length).toBe(1);
  });

  it('two boxes that share an upright edge are both there, welded or not', () => {
    const pair = joined(box(10, 10, 4), moved(box(10, 10, 4), 10, 10, 0));
    for (const mesh of [pair, soup(pair)]) {
      const section = meshSections(meshProfile(mesh).index)(2);
      expect(regionArea(section)).toBe(200);
      expect(regionPerimeter(section)).toBe(80);
    }
  });

  it('a soup of triangles is welded as it is cut', () => {
    const ball = icosphere(15, 3);
    const [whole, parts] = [ball, soup(ball)].map((mesh) => meshSections(meshProfile(mesh).index));
    for (const z of [-14.9, -3, 0, 7.1]) {
      expect(parts(z).length).toBe(1);
      expect(Math.abs(regionArea(parts(z)) - regionArea(whole(z)))).toBeLessThan(ROUNDING * 1e3);
    }
  });

  it('a hollow is a hole: clockwise, taken off', () => {
    const cut = meshSections(meshProfile(joined(box(10, 10, 10), moved(turnedInsideOut(box(4, 4, 4)), 3, 3, 3))).index);
    expect(cut(5).map((loop) => loopArea(loop)).sort((a, b) => a - b)).toEqual([-16, 100]);
  });

  it('an open mesh is refused by name of the height, not drawn wrong', () => {
    const ball = icosphere(10, 1);
    const { index } = meshProfile(ball);
    const open = { ...index, corners: index.corners.map((v, i) => (i < 3 ? index.corners[0] : v)) };
    const heights = cornerHeights(ball);
    expect(() => heights.map((z) => meshSections(open)(z + 0.01))).toThrow(/open .* mm up.*repair it/);
  });
});
