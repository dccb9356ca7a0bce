/**
 * Sliced volumes, sections and levels of meshes against manifold-3d, which trims and slices the very same solid:
 * under a random turn and scale, at the origin and 2^20 mm (1.05 km) from it on every axis.
 */
import type { TriangleMesh } from '../../src/core/solid/solid.ts';
import { meshProfile } from '../../src/core/solid/profile.ts';
import { moved, posed, star, torus } from '../core/solid/made-meshes.ts';
import { seeded } from '../core/solid/oracle.ts';
import type { EvidenceRow } from './evidence-row.ts';
import { in32Bits, judge, meshFrom, solidFrom, trimmedBelow, type Solid } from './judge.ts';

/** A power of two, so that 32-bit coordinates are still exact as doubles after the move. */
const FAR_MM = 2 ** 20;
/** Share of the whole volume. Both compute in doubles; some ten thousand roundings, measured under 1e-14. */
const ROUNDING = 1e-12;
/**
 * The same for solids with flat faces, whose 32-bit corners are no longer quite in a plane. There manifold-3d's own two
 * ways to cut at one height, trimByPlane and splitByPlane, were seen 2e-9 apart; this is five times that.
 */
const FLAT_FACED = 1e-8;
/** Share of the section. manifold-3d slices into a polygon library that rounds coordinates to about 1e-8 mm. */
const SECTION = 1e-9;
/** mm. A hundred times 1e-8 of the height of some 50 mm: thin sections are where little volume is much height. */
const LEVEL_MM = 1e-6;

interface Sample {
  readonly name: string;
  readonly flat?: true;
  make(): Promise<TriangleMesh>;
}

const SAMPLES: readonly Sample[] = [
  { name: 'bumpy torus', make: async () => torus(96, 48, 30, 12, 2) },
  { name: 'spiky star', make: async () => star(71, 40, 4) },
  { name: 'goblet (manifold-3d: revolve)', flat: true, make: goblet },
  { name: 'twisted bar with a bore (manifold-3d: extrude, difference)', flat: true, make: twistedBar },
  { name: 'hollow ball (manifold-3d: difference)', make: async () => fromParts(({ sphere }) => sphere(30, 64).subtract(sphere(24, 48))) },
  { name: 'block with three crossed bores (manifold-3d: difference)', flat: true, make: boredBlock },
  { name: 'gyroid sponge (manifold-3d: level set)', flat: true, make: gyroid },
];

export const rows = async (): Promise<EvidenceRow[]> => {
  const all: EvidenceRow[] = [];
  for (const [i, sample] of SAMPLES.entries()) all.push(...(await rowsOf(sample, 401 + i)));
  return all;
};

async function rowsOf({ name, flat, make }: Sample, seed: number): Promise<EvidenceRow[]> {
  const random = seeded(seed);
  const mesh = in32Bits(posed(await make(), random, 0.3 + 2 * random(), [0, 0, 0]));
  const solid = await solidFrom(mesh);
  const { min, max } = solid.boundingBox();
  const height = (share: number): number => Math.fround(min[2] + share * (max[2] - min[2]));
  const [low, high] = [height(0.15 + 0.3 * random()), height(0.55 + 0.3 * random())];
  const away = moved(mesh, FAR_MM, -FAR_MM, FAR_MM);
  const share = (flat ? FLAT_FACED : ROUNDING) * solid.volume();
  const area = solid.slice(high).area();
  const text = `${name}, seed ${seed}, ${mesh.indices.length / 3} triangles`;
  return [
    { subject: `${text}: under ${low.toFixed(2)} mm, mm³`, source: 'manifold-3d 3.5.4, trimByPlane, volume', expected: () => trimmedBelow(solid, low), tolerance: share, got: () => meshProfile(mesh).volumeBelow(low) },
    { subject: `${text}, 1 km away: between ${low.toFixed(2)} and ${high.toFixed(2)} mm, mm³`, source: 'manifold-3d 3.5.4 at the origin, trimByPlane twice, volume', expected: () => trimmedBelow(solid, high) - trimmedBelow(solid, low), tolerance: share, got: () => spanOf(away, FAR_MM + low, FAR_MM + high) },
    ...(seed % 2 === 1 ? [{ subject: `${text}: section at ${high.toFixed(2)} mm, mm²`, source: 'manifold-3d 3.5.4, slice, area', expected: area, tolerance: SECTION * area, got: () => meshProfile(mesh).areaAt(high) }] : []),
    ...(seed % 4 === 0 ? [{ subject: `${text}, 1 km away: level of what manifold-3d finds under ${high.toFixed(2)} mm, mm`, source: 'manifold-3d 3.5.4, trimByPlane, volume', expected: high, tolerance: LEVEL_MM, got: () => meshProfile(away).levelOf(trimmedBelow(solid, high)) - FAR_MM }] : []),
  ];
}

function spanOf(mesh: TriangleMesh, from: number, to: number): number {
  const profile = meshProfile(mesh);
  return profile.volumeBelow(to) - profile.volumeBelow(from);
}

async function fromParts(make: (library: Awaited<ReturnType<typeof judge>>['Manifold']) => Solid): Promise<TriangleMesh> {
  return meshFrom(make((await judge()).Manifold));
}

function goblet(): Promise<TriangleMesh> {
  return fromParts(({ revolve }) => revolve([[[0, 0], [18, 0], [18, 3], [3, 5], [3, 25], [14, 34], [20, 60], [18, 60], [12, 36], [0, 30]]], 72));
}

function twistedBar(): Promise<TriangleMesh> {
  const outline = Array.from({ length: 14 }, (_, i): [number, number] => {
    const [angle, radius] = [(2 * Math.PI * i) / 14, i % 2 ? 9 : 20];
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });
  return fromParts(({ extrude, cylinder }) => extrude([outline], 70, 40, 150).subtract(cylinder(70, 5, 5, 48)));
}

function boredBlock(): Promise<TriangleMesh> {
  return fromParts(({ cube, cylinder }) => {
    const bore = cylinder(80, 8, 8, 64, true);
    return cube([40, 30, 50], true).subtract(bore).subtract(bore.rotate(90, 0, 0)).subtract(bore.rotate(0, 90, 0));
  });
}

function gyroid(): Promise<TriangleMesh> {
  const k = (2 * Math.PI) / 20;
  const inside = ([x, y, z]: readonly number[]): number => Math.cos(k * x) * Math.sin(k * y) + Math.cos(k * y) * Math.sin(k * z) + Math.cos(k * z) * Math.sin(k * x) - 0.4;
  return fromParts(({ levelSet }) => levelSet((point) => inside(point), { min: [-18, -18, -18], max: [18, 18, 18] }, 1.5));
}
