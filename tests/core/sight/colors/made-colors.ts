/** Colored meshes made for tests, and their guides. */
import type { Creature, EyePoint, Formula, Mold, Placement } from '../../../../src/core/scene/scene.ts';
import { lightOf } from '../../../../src/core/sight/color.ts';
import { coloredBy } from '../../../../src/core/sight/colors/brought.ts';
import type { ColoredMesh, ColoredPart } from '../../../../src/core/sight/colors/colored-mesh.ts';
import type { PlaneGuide } from '../../../../src/core/sight/guide.ts';
import type { Regions } from '../../../../src/core/sight/region.ts';
import { guidesOf, sectionsFrom } from '../../../../src/core/sight/slices.ts';
import type { TriangleMesh } from '../../../../src/core/solid/solid.ts';

const mold: Mold = { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60, draftDeg: 0, cornerRadiusMm: 0, material: 'silicone', wallMm: 8, keep: false };

/** A mesh's triangles told apart by color; `hexOf` gives each one's. */
export function painted({ positions, indices }: TriangleMesh, hexOf: (triangle: number) => string): ColoredMesh {
  const parts = new Map<string, number[]>();
  for (let t = 0; t < indices.length / 3; t++) {
    const hex = hexOf(t);
    parts.set(hex, [...(parts.get(hex) ?? []), ...indices.subarray(3 * t, 3 * t + 3)]);
  }
  return [...parts].map(([hex, own]): ColoredPart => ({ positions, indices: Uint32Array.from(own), light: lightOf(hex) }));
}

export interface Posed {
  readonly heights: readonly number[];
  readonly turnDeg?: readonly [number, number, number];
  readonly cast?: 'face-up' | 'face-down';
  readonly scale?: number;
  readonly read?: EyePoint;
  /** Of the resin, which fills the mold to 60 mm. */
  readonly index?: number;
}

/** In painting order. */
export function coloredGuides(mesh: TriangleMesh, colors: ColoredMesh, regions: Regions, { heights, turnDeg = [0, 0, 0], cast = 'face-up', scale = 1, read, index = 1.5 }: Posed): PlaneGuide[] {
  const creature: Creature = { id: 'c', name: 'Newt', shape: { type: 'mesh', file: 'made.ply' }, xMm: 3, yMm: -2, baseMm: 1, turnDeg, scale, featherMm: 1.5, viewDeg: 45, ...(read && { read }) };
  const placements = heights.map((atMm, i): Placement => ({ kind: 'plane', id: `p${i}`, name: `Newt ${i + 1}`, atMm, paintH: 3, dryH: 12, slices: ['c'] }));
  const scene = { mold, cast, fillMm: 60, fills: [{ toMm: 60, formula: 'r' }], formulas: new Map([['r', { refractiveIndex: index } as Formula]]), placements, creatures: [creature] };
  const { guides, why } = coloredBy(new Map([['c', colors]]), scene, creature, guidesOf(scene, { regions, sectionsOf: sectionsFrom(new Map([['c', { mesh, volumeErrorFraction: 0 }]])) }));
  if (why !== null) throw new Error(why);
  return [...guides];
}

/** Share of each color, by its hex. */
export function sharesOf({ colors }: PlaneGuide): Record<string, number> {
  return Object.fromEntries((colors?.main ?? []).map(({ hex, share }) => [hex, share]));
}

/** A rod along x, its mantle of `around` strips in stripes by the angle from straight up, both sides alike. `degrees`: of a triangle's strip. */
export function rod(radius: number, length: number, around: number): { mesh: TriangleMesh; degrees: (triangle: number) => number } {
  const positions = new Float64Array(6 * around + 6);
  const indices: number[] = [];
  for (let i = 0; i < around; i++) {
    const angle = (2 * Math.PI * i) / around;
    for (const end of [0, 1]) positions.set([end * length, radius * Math.sin(angle), radius * Math.cos(angle)], 3 * (2 * i + end));
    const [a, b] = [2 * i, 2 * ((i + 1) % around)];
    indices.push(a, a + 1, b + 1, a, b + 1, b, 2 * around, a, b, 2 * around + 1, b + 1, a + 1);
  }
  positions.set([0, 0, 0, length, 0, 0], 6 * around);
  const mesh = { positions, indices: Uint32Array.from(indices) };
  // Two triangles of the mantle, then one of each end.
  const degrees = (t: number) => { const at = ((Math.floor(t / 4) + 0.5) * 360) / around; return Math.min(at, 360 - at); };
  return { mesh, degrees };
}
