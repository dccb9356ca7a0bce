/** Meshes whose volume a formula gives exactly, and meshes of round things with the error their facets leave. */
import { inspectMesh } from '../../src/core/solid/inspect.ts';
import { sound } from '../../src/core/solid/mesh-sound.ts';
import { meshProfile } from '../../src/core/solid/profile.ts';
import type { TriangleMesh } from '../../src/core/solid/solid.ts';
import { openBooleans } from '../../src/files/booleans.ts';
import { box, icosphere, joined, posed, soup, torus, turnedInsideOut } from '../core/solid/made-meshes.ts';
import { seeded } from '../core/solid/oracle.ts';
import { printed, within, type EvidenceRow } from './evidence-row.ts';
import { degrees } from './made.ts';
import { judge, meshFrom } from './judge.ts';
import { dodecahedron, icosahedron, meshOf, octahedron, tetrahedron } from './polyhedra.ts';
import { poseSolid } from '../../src/core/solid/pose.ts';

const TABLE = 'physics-tables §11';
/** Share by which the small circle's 256 chords thin a torus's lowest 5 mm (10 (1 − cos π/256) = 0.75 µm of sag on 5 mm, over a chord): under 1e-3. */
const TORUS_FACETS = 1e-3;
/** Share of the whole that 256-sided rounding (12 % of the volume at (2π/256)²/6) and 32-bit corners leave. */
const ROUNDED_FACETS = 3e-5;
/** Share. A parabola by 400 chords, corners in 32 bits. */
const PARABOLA_CHORDS = 2e-5;
/** A regular polygon of 32 and of 64 sides over its circle. */
const GON_32 = 0.99358685;
const GON_64 = 0.99839439;

const volumeOf = (mesh: TriangleMesh): number => meshProfile(mesh).volumeMm3;
const turnedAtRandom = (mesh: TriangleMesh, seed: number): TriangleMesh => posed(mesh, seeded(seed), 1, [3, -7, 11]);
const coarseTorus = torus(32, 16, 40, 10);
const standing = (mesh: TriangleMesh, turnDeg: readonly [number, number, number]) =>
  poseSolid({ type: 'mesh', file: 'made' }, { xMm: 0, yMm: 0, baseMm: 0, turnDeg, scale: 1 }, mesh).profile;
const withoutLid = (): TriangleMesh => {
  const { positions, indices } = box(10, 10, 10);
  return { positions, indices: indices.slice(6) };
};
const repaired = async (mesh: TriangleMesh): Promise<number> => volumeOf(sound(mesh, await openBooleans()).mesh);

export const rows: readonly EvidenceRow[] = [
  { subject: 'tetrahedron (1,2,3) (4,1,2) (2,5,1) (3,2,7), mm³', source: `V = |det|/6, ${TABLE}`, ...printed('8.333333'), got: () => volumeOf(meshOf([[1, 2, 3], [4, 1, 2], [2, 5, 1], [3, 2, 7]], [[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]])) },
  { subject: 'regular tetrahedron, edge 10, turned (seed 11), mm³', source: `V = a³/(6√2), ${TABLE}`, ...printed('117.85113'), got: () => volumeOf(turnedAtRandom(tetrahedron(10), 11)) },
  { subject: 'regular octahedron, edge 10, turned (seed 12), mm³', source: `V = √2 a³/3, ${TABLE}`, ...printed('471.40452'), got: () => volumeOf(turnedAtRandom(octahedron(10), 12)) },
  { subject: 'regular dodecahedron, edge 10, turned (seed 13), mm³', source: `V = (15 + 7√5)a³/4, ${TABLE}`, ...printed('7663.11896'), got: () => volumeOf(turnedAtRandom(dodecahedron(10), 13)) },
  { subject: 'regular icosahedron, edge 10, turned (seed 14), mm³', source: `V = 5(3 + √5)a³/12, ${TABLE}`, ...printed('2181.69499'), got: () => volumeOf(turnedAtRandom(icosahedron(10), 14)) },
  { subject: 'tetrahedron standing on a face, under half its height, mm³', source: 'similar solids: 7/8 of a³/(6√2), by hand', ...printed('103.1197389'), got: () => { const profile = standing(tetrahedron(10), [45, -degrees(Math.atan(Math.SQRT1_2)), 0]); return profile.volumeBelow(profile.topMm / 2); } },
  { subject: 'middle section of the octahedron on its corner: the square of its edges, mm²', source: 'A = a², by hand', ...within(1e-12, 100), got: () => { const profile = standing(octahedron(10), [0, 0, 20]); return profile.areaAt(profile.topMm / 2); } },
  { subject: 'icosphere of 5120 triangles, radius 1, turned (seed 15)', source: `recomputed by an outside script, ${TABLE}`, ...printed('4.179738948'), got: () => volumeOf(turnedAtRandom(icosphere(1, 4), 15)) },
  { subject: 'the same icosphere inside-out, as inspected', source: `its volume with the other sign, ${TABLE}`, ...printed('-4.179738948'), got: () => inspectMesh(turnedInsideOut(icosphere(1, 4))).volumeMm3! },
  { subject: 'torus mesh 32 × 16, R 40, r 10, turned (seed 16), mm³', source: `V = Rr²NM sin(2π/N) sin(2π/M)/2, ${TABLE}`, ...printed('76449.62206755'), got: () => volumeOf(turnedAtRandom(coarseTorus, 16)) },
  { subject: 'middle section of that torus: two polygons of 32 sides, share of the ring between two circles', source: `regular 32-gon over its circle, ${TABLE}`, ...printed(String(GON_32)), got: () => meshProfile(coarseTorus).areaAt(0) / 5026.548245743669 },
  { subject: 'lowest 5 mm of a torus R 40, r 10 (mesh 512 × 256), mm³', source: `2πR × circular segment (Pappus), ${TABLE}`, ...within(TORUS_FACETS, 15436.14888), got: () => meshProfile(torus(512, 256, 40, 10)).volumeBelow(-5) },
  {
    subject: 'box 100×80×60 rounded r 10 all over (manifold-3d: hull of eight balls), mm³', source: `inner box + slabs + quarter cylinders + ball, ${TABLE}`, ...within(ROUNDED_FACETS, 460737.45797),
    got: async () => {
      const { Manifold } = await judge();
      const ball = Manifold.sphere(10, 256);
      const corners = [-40, 40].flatMap((x) => [-30, 30].flatMap((y) => [-20, 20].map((z) => ball.translate(x, y, z))));
      return volumeOf(meshFrom(Manifold.hull(corners)));
    },
  },
  {
    subject: 'tray 200×100×40, floor and upright edges rounded r 10 (manifold-3d: hull), mm³', source: TABLE, ...within(ROUNDED_FACETS, 784359.87756),
    got: async () => {
      const { Manifold } = await judge();
      const [ball, post] = [Manifold.sphere(10, 256).translate(0, 0, 10), Manifold.cylinder(30, 10, 10, 256).translate(0, 0, 10)];
      const corners = [-90, 90].flatMap((x) => [-40, 40].flatMap((y) => [ball, post].map((part) => part.translate(x, y, 0))));
      return volumeOf(meshFrom(Manifold.hull(corners)));
    },
  },
  {
    subject: 'paraboloid r 30, 40 high, turned in 64 sides (manifold-3d: revolve), mm³', source: `πR²h/2 × the 64-gon over its circle: 56548.66776 × ${GON_64}, ${TABLE}`, ...within(PARABOLA_CHORDS, 56548.66776 * GON_64),
    got: async () => volumeOf(await paraboloid()),
  },
  {
    subject: 'the same paraboloid on its tip, under half its height, mm³', source: 'V grows with h²: a quarter of πR²h/2, by hand; 64-gon as above', ...within(4 * PARABOLA_CHORDS, (56548.66776 * GON_64) / 4),
    got: async () => meshProfile(await paraboloid()).volumeBelow(20),
  },
  { subject: 'hollow ball: icospheres r 50 and 40 inside each other, 5120 triangles each, mm³', source: `4.179738948 × (50³ − 40³), ${TABLE}`, ...within(1e-9, 4.179738948 * 61000), got: async () => repaired(joined(icosphere(50, 4), turnedInsideOut(icosphere(40, 4)))) },
  { subject: 'cube of 10 as loose triangles, welded and inspected, mm³', source: 'a³, by hand', ...within(1e-14, 1000), got: () => inspectMesh(soup(box(10, 10, 10))).volumeMm3! },
  { subject: 'cube of 10 without its lid, closed again, mm³', source: 'a³, by hand', ...within(1e-12, 1000), got: () => repaired(withoutLid()) },
  { subject: 'two cubes of 10 in one file, half a cube over each other, mm³', source: 'a³ × 3/2, counted once, by hand', ...within(1e-12, 1500), got: () => repaired(joined(box(10, 10, 10), { ...box(10, 10, 10), positions: box(10, 10, 10).positions.map((x, i) => (i % 3 === 0 ? x + 5 : x)) })) },
];

/** Tip at height 0. */
async function paraboloid(): Promise<TriangleMesh> {
  const { Manifold } = await judge();
  const curve = Array.from({ length: 401 }, (_, i): [number, number] => [(30 * i) / 400, 40 * (i / 400) ** 2]);
  return meshFrom(Manifold.revolve([[...curve, [0, 40]]], 64));
}
