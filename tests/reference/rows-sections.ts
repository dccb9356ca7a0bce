/** Sections by closed form and by the mesh library, and what they are for: rings to paint, steps between planes. */
import type { Creature, Placement, Shape } from '../../src/core/scene/scene.ts';
import { barePatches } from '../../src/core/sight/bare.ts';
import { nearestFirst } from '../../src/core/sight/parallax.ts';
import { regionArea, regionPerimeter } from '../../src/core/sight/region.ts';
import { guidesOf, sectionsFrom } from '../../src/core/sight/slices.ts';
import { largestGapMm, seenStepMm } from '../../src/core/sight/spacing.ts';
import { meshProfile } from '../../src/core/solid/profile.ts';
import { sliceable } from '../../src/core/solid/section.ts';
import { meshSections } from '../../src/core/solid/section-mesh.ts';
import type { TriangleMesh } from '../../src/core/solid/solid.ts';
import { openRegions } from '../../src/files/regions.ts';
import { posed, star, torus } from '../core/solid/made-meshes.ts';
import { manifold, seeded } from '../core/solid/oracle.ts';
import { printed, within, type EvidenceRow } from './evidence-row.ts';
import { boxMold, cone, cylinder, degrees, sphere } from './made.ts';

type Turn = readonly [number, number, number];

/** mm² per mm of edge, two thirds of the 0.001 mm that a chord may stray from a curve. */
const chords = (expected: number, edgeMm: number) => ({ expected, tolerance: (2 / 3) * 0.001 * edgeMm });
/** Relative. A torus of 360 × 180 facets: (π/180)² of it and, near its crown, a few times that. */
const FACETS = 1e-3;
/** Relative. The library's 32-bit corners and its grid of 1e-8 mm. */
const LIBRARY = 1e-6;

const areaOf = (shape: Shape, turnDeg: Turn, zMm: number, mesh?: TriangleMesh): number => regionArea(sliceable({ shape, turnDeg, scale: 1, mesh }).placed({ xMm: 0, yMm: 0, baseMm: 0 }).at(zMm));
const ring: Shape = { type: 'mesh', file: 'torus' };
const ringMesh = torus(360, 180, 40, 10);
/** The plane through the middle of the torus, leaning: it is as tall as 2(r + R sin). */
const leaning = Math.asin(10 / 40);

const SEED = 71;
const STAR_MM = 4;

async function starBy(measure: 'area' | 'length' | 'loops', who: 'ours' | 'library'): Promise<number> {
  const made = posed(star(SEED, 20, 3), seeded(SEED), 1, [0, 0, 0]);
  const rounded = Float32Array.from(made.positions);
  if (who === 'ours') {
    const section = meshSections(meshProfile({ positions: Float64Array.from(rounded), indices: made.indices }).index)(STAR_MM);
    return measure === 'area' ? regionArea(section) : measure === 'length' ? regionPerimeter(section) : section.length;
  }
  const library = await manifold();
  const solid = library.Manifold.ofMesh(new library.Mesh({ numProp: 3, vertProperties: rounded, triVerts: made.indices.slice() }));
  const section = solid.slice(STAR_MM);
  const loops = section.toPolygons();
  const got = measure === 'area' ? section.area() : measure === 'loops' ? loops.length : loops.reduce((sum, loop) => sum + loop.reduce((length, [x, y], i) => length + Math.hypot(x - loop.at(i - 1)![0], y - loop.at(i - 1)![1]), 0), 0);
  section.delete();
  solid.delete();
  return got;
}

async function guidesFor(shape: Shape, heights: readonly number[]) {
  const creature: Creature = { id: 'c', name: 'Newt', shape, xMm: 0, yMm: 0, baseMm: 0, turnDeg: [0, 0, 0], scale: 1, featherMm: 1.5, viewDeg: 45 };
  const placements = heights.map((atMm, i): Placement => ({ kind: 'plane', id: `p${i}`, name: '', atMm, paintH: 3, dryH: 12, slices: ['c'] }));
  const regions = await openRegions();
  return { regions, stack: nearestFirst(guidesOf({ mold: boxMold(200, 120, 60), cast: 'face-up', fillMm: 60, fills: [], formulas: new Map(), placements, creatures: [creature] }, { regions, sectionsOf: sectionsFrom(new Map()) }), 'c') };
}

export const rows: readonly EvidenceRow[] = [
  { subject: 'section of a sphere r 50, 20 mm up, as an outline, mm²', source: 'π h(2r − h), by hand', ...chords(5026.548246, 252), got: () => areaOf(sphere(50), [12, 34, 56], 20) },
  { subject: 'cone r 30, 60 high, leaning 25°, cut across 12 mm from its apex: an ellipse, mm²', source: 'half-axes d sin α cos α/A and d sin α/√A, A = cos²β − sin²α, by hand', ...chords(165.2102450091, 50), got: () => areaOf(cone(30, 60), [0, 25, 0], 60 * Math.cos((25 * Math.PI) / 180) + 30 * Math.sin((25 * Math.PI) / 180) - 12) },
  { subject: 'cone r 30, 40 high, lying on its side, cut level through its base’s middle: a parabola, mm²', source: 'segment = ⅔ chord × length (Archimedes): ⅔ · 60 · 25', ...chords(1000, 150), got: () => areaOf(cone(30, 40), [0, degrees(Math.atan2(-40, -30)), 0], 24) },
  { subject: 'the same cone, its axis level, cut 14 mm off it: a hyperbola, mm²', source: '(h/r)(r√(r² − d²) − d² arcosh(r/d)), by hand', ...chords(696.5594434256, 140), got: () => areaOf(cone(30, 40), [0, 90, 0], 16) },
  { subject: 'torus R 40, r 10 lying, 4 mm over its middle: a ring, mm²', source: '4πR√(r² − z²), by hand', ...within(FACETS, 4606.907564), got: () => areaOf(ring, [0, 0, 0], 14, ringMesh) },
  { subject: 'torus leaning by asin(r/R), through its middle: what lies in just one of two circles of radius R, mm²', source: 'Villarceau 1848 (memory); lens of two circles', ...within(FACETS, 3166.346971), got: () => areaOf(ring, [degrees(leaning), 0, 0], 10 + 40 * Math.sin(leaning), ringMesh) },
  { subject: `area of a spiky star’s section, turned at random, seed ${SEED}, mm²`, source: 'manifold-3d 3.5.4, slice, same run', expected: () => starBy('area', 'library'), tolerance: LIBRARY * 400, got: () => starBy('area', 'ours') },
  { subject: `length round it, seed ${SEED}, mm`, source: 'manifold-3d 3.5.4, slice, same run', expected: () => starBy('length', 'library'), tolerance: LIBRARY * 400, got: () => starBy('length', 'ours') },
  { subject: `its loops, seed ${SEED}`, source: 'manifold-3d 3.5.4, slice, same run', expected: () => starBy('loops', 'library'), tolerance: 0, got: () => starBy('loops', 'ours') },
  { subject: 'ring to paint of a ball r 20 at 30 mm up under a plane at 36: what is new, mm²', source: 'π((r² − 10²) − (r² − 16²)), by hand', ...chords(490.0884540, 190), got: async () => regionArea((await guidesFor(sphere(20), [30, 36])).stack[1].fresh) },
  { subject: 'gap that a feather of 1.5 mm hides at 45° in n 1.55, mm', source: 'w/tan(asin(sin 45°/n)), trade notes §4.4, computed there: 2.9', ...printed('2.9'), got: () => largestGapMm(1.5, 45, 1.55) },
  { subject: 'slide of planes 24 mm apart at 45° in n 1.55, mm', source: 'Snell’s law, cases.md 11: 12.3', ...printed('12.3'), got: () => seenStepMm(24, 45, 1.55) },
  { subject: 'upright post r 15, planes 15 mm apart, seen at 45°: what shows bare behind the upper one, mm²', source: 'lune: πr² − lens of two circles 7.69 mm apart (mensuration), by hand', ...chords(228.1416976, 190), got: async () => { const { stack, regions } = await guidesFor(cylinder(15, 40), [10, 25]); return barePatches(stack, { viewDeg: 45, index: 1.55, regions })[1]!.areaMm2; } },
];
