/**
 * A solid against the mold's walls: how far it reaches beyond them, and what of it is inside.
 *
 * The inside is convex, so the farthest point beyond a wall is the farthest along that wall's normal: found by
 * the solid's reach where a formula gives it, else from its vertices. The floor needs no cutting: nothing below
 * height 0 is ever asked for.
 */

import type { Mold } from '../scene/scene.ts';
import { moldWallOvershoot } from './mold.ts';
import { meshProfile } from './profile.ts';
import type { Direction } from './primitives.ts';
import { CONTACT_MM } from './shape-apart.ts';
import type { Term } from './shape-sum.ts';
import { withoutSliver } from './shape-volume.ts';
import type { Booleans, PosedSolid, Profile, TriangleMesh } from './solid.ts';

/** A posed solid that may know more of itself than its mesh: the primitives do. */
export interface ReachingSolid extends PosedSolid {
  /** The greatest d·p over its points, mm, exact. */
  readonly reach?: (direction: Direction) => number;
  /** Some hundred triangles of the same volume, for heaps; made on every call. */
  readonly coarseMesh?: () => TriangleMesh;
  /** Of a mesh too fine to be joined with others: a lighter closed copy to join instead. Its profile is the exact one. */
  readonly joinedMesh?: () => TriangleMesh;
}

export interface ClippedSolid {
  readonly profile: Profile;
  /** What of it is inside the walls; a closed mesh, empty if nothing is. */
  inside(): TriangleMesh;
  /** Counts what is inside. */
  readonly terms: readonly Term[];
  /** Added to the profile of a mesh made from `inside()`: what its facets miss of the true shape. */
  correction(): readonly Term[];
  /** Whether `terms` came from a boolean. */
  readonly cut: boolean;
}

/** Wall normals tried before the best is refined; every half degree, with the four flats among them. */
const NORMALS = 720;
const REFINEMENTS = 40;

/** Greatest distance of any point of the solid beyond the walls (extrapolated above the rim), mm; ≤ 0 inside. */
export function wallOvershoot(mold: Mold, solid: ReachingSolid): number {
  const { min, max } = solid.bounds;
  // Walls never lean in: bounds that fit at their lowest height fit everywhere.
  let most = -Infinity;
  for (const x of [min[0], max[0]]) {
    for (const y of [min[1], max[1]]) most = Math.max(most, moldWallOvershoot(mold, x, y, min[2]));
  }
  if (most <= CONTACT_MM) return most;
  return solid.reach ? overshootByReach(mold, solid.reach) : overshootOfVertices(mold, solid.mesh());
}

/**
 * The solid with what is beyond the walls taken off. One intersection when it crosses them, nothing otherwise.
 * `cutter` is called only then.
 */
export function clipToWalls(mold: Mold, solid: ReachingSolid, booleans: Booleans, cutter: () => TriangleMesh): ClippedSolid {
  const { profile } = solid;
  const whole: Term = { profile, factor: 1 };
  // A mesh's own profile is that of its facets: they miss nothing, but those of a lighter copy do.
  const facetsMiss = (): Term[] => (solid.reach || solid.joinedMesh ? [whole, { profile: meshProfile(solid.mesh()), factor: -1 }] : []);
  if (wallOvershoot(mold, solid) <= CONTACT_MM) {
    return { profile, inside: () => solid.mesh(), terms: [whole], correction: facetsMiss, cut: false };
  }
  const inside = withoutSliver(booleans.intersect(solid.mesh(), cutter()), profile.volumeMm3);
  const none = inside.indices.length === 0;
  const insideTerm: Term[] = none ? [] : [{ profile: meshProfile(inside), factor: 1 }];
  // Of a solid that loses more than half, what is left lies far from most of its facets: their miss is not its own.
  const mostlyOutside = none || insideTerm[0].profile.volumeMm3 < profile.volumeMm3 / 2;
  const correction = mostlyOutside ? [] : facetsMiss();
  return { profile, inside: () => inside, terms: [...correction, ...insideTerm], correction: () => correction, cut: true };
}

/** The same solid counted by its facets alone: where sections of neighbors must fit together without a gap. */
export function countedAsMesh(solid: ClippedSolid): ClippedSolid {
  const mesh = solid.inside();
  return { ...solid, terms: mesh.indices.length === 0 ? [] : [{ profile: meshProfile(mesh), factor: 1 }], correction: () => [] };
}

function overshootOfVertices(mold: Mold, mesh: TriangleMesh): number {
  const p = mesh.positions;
  let most = -Infinity;
  for (let i = 0; i < p.length; i += 3) most = Math.max(most, moldWallOvershoot(mold, p[i], p[i + 1], p[i + 2]));
  return most;
}

function overshootByReach(mold: Mold, reach: (d: Direction) => number): number {
  const step = (2 * Math.PI) / NORMALS;
  let best = 0;
  let most = -Infinity;
  for (let i = 0; i < NORMALS; i++) {
    const over = overshootAlong(mold, reach, i * step);
    if (over > most) {
      most = over;
      best = i * step;
    }
  }
  for (let i = 0, width = step; i < REFINEMENTS; i++, width *= 0.6) {
    for (const angle of [best - width, best + width]) {
      const over = overshootAlong(mold, reach, angle);
      if (over > most) {
        most = over;
        best = angle;
      }
    }
  }
  return most;
}

/** Beyond the plane that touches the wall where it faces `angle`. */
function overshootAlong(mold: Mold, reach: (d: Direction) => number, angle: number): number {
  const c = Math.abs(Math.cos(angle)) < Number.EPSILON ? 0 : Math.cos(angle);
  const s = Math.abs(Math.sin(angle)) < Number.EPSILON ? 0 : Math.sin(angle);
  const t = mold.draftDeg === 0 ? 0 : Math.tan((mold.draftDeg * Math.PI) / 180);
  const box = mold.shape === 'box';
  const lean = box ? t * (Math.abs(c) + Math.abs(s)) : t;
  const wall = box
    ? (mold.lengthMm / 2 - mold.cornerRadiusMm) * Math.abs(c) + (mold.widthMm / 2 - mold.cornerRadiusMm) * Math.abs(s) + mold.cornerRadiusMm
    : mold.diameterMm / 2;
  const size = Math.hypot(c, s, lean);
  return reach([c / size, s / size, -lean / size]) - wall / size;
}
