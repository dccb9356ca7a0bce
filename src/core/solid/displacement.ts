/**
 * What figures and beds take out of the mold: the one account of displaced and free volume.
 *
 * Volumes are sums of profiles (shape-sum.ts). Where nothing overlaps and nothing crosses a wall no boolean is
 * asked for at all. After the set-up a question costs one profile query a term: about a microsecond for a mesh,
 * less for a closed form. Set-up: bounds O(n log n); one intersection for each solid that crosses a wall and for
 * each pair that no plane parts; one union for each tangle of three or more; work bounded as in shape-union.ts.
 */

import type { Mold } from '../scene/scene.ts';
import { clipToWalls, countedAsMesh, wallOvershoot, type ClippedSolid, type ReachingSolid } from './mold-clip.ts';
import { openingOf } from './mold-opening.ts';
import { moldAreaAt, moldCutter, moldLevelOf, moldVolumeBelow } from './mold.ts';
import { meetingBounds } from './shape-apart.ts';
import { levelWhere } from './shape-level.ts';
import { sectionAt, volumeBetween, type Term } from './shape-sum.ts';
import { overlapsOf, sharedTerms, unitedTerms } from './shape-union.ts';
import { SolidError, type Booleans, type TriangleMesh } from './solid.ts';

export interface SubmergedSolid {
  readonly id: string;
  readonly kind: 'figure' | 'bed';
  /** Share that drinks resin; 0 for figures and solid beds. */
  readonly voidFraction: number;
  readonly solid: ReachingSolid;
}

export interface DisplacementOptions {
  readonly mold: Mold;
  /** Finished height of resin, mm. */
  readonly fillMm: number;
  readonly solids: readonly SubmergedSolid[];
  readonly booleans: Booleans;
}

/** Heights in mm over the floor; nothing exists below it. */
export interface Displacement {
  /** Taken out of the mold between two heights, mL; 0 where `toMm` ≤ `fromMm`. With `freeVolumeMl` it is the empty mold's volume. */
  displacedMl(fromMm: number, toMm: number): number;
  /** Left for resin between two heights, mL, never negative. */
  freeVolumeMl(fromMm: number, toMm: number): number;
  /** Height at which `volumeMl` stands on `fromMm`, to 1e-9 mm; walls extrapolated above the rim. `fromMm` for ≤ 0. */
  levelForFree(fromMm: number, volumeMl: number): number;
  /** Lowest height in [fromMm, toMm) at which beds without voids do not close the whole section; null if they do to `toMm`. */
  opensAt(fromMm: number, toMm: number): number | null;
  /** Pairs that share more than contact, in the order given. Inside the mold only. `lighter`: measured on a lighter copy of one of them. */
  readonly overlaps: readonly { readonly a: string; readonly b: string; readonly volumeMm3: number; readonly lighter: boolean }[];
  /** False when so many pairs overlap that not all were measured; the volumes are right all the same. */
  readonly overlapsComplete: boolean;
  /** Figures that cut wall or floor. */
  readonly outside: readonly string[];
}

const MM3_PER_ML = 1000;
/** mm. A figure may press this far into wall or floor (the contract's one tolerance on heights). */
const CUT_TOLERANCE_MM = 0.05;
/** A shared volume is told of above the greater of these: contact of faceted figures makes slivers. */
const TOLD_OVERLAP_MM3 = 1;
const TOLD_OVERLAP_SHARE = 1e-6;
/** Share of the mold's volume to the fill by which solids may seem to exceed it: facets of a dome that fills the section, 5e-4 of it. */
const EXCESS_SHARE = 1e-3;
/** Curved solids in each other's bounds before their meshes are made coarse: what they share is then right to 1e-3, the rest stays exact. */
const HEAP = 20;
/** mm; a tenth of what is promised. */
const LEVEL_TOLERANCE_MM = 1e-10;

/**
 * @throws {Error} if solids overlap in greater number than can be united (shape-union.ts), and from the queries if
 * the solids take up more than the mold holds: a mesh that is not sound.
 */
export function displacementOf(options: DisplacementOptions): Displacement {
  const { mold, solids, booleans } = options;
  const bounds = solids.map(({ solid }) => solid.bounds);
  const highest = Math.max(options.fillMm, mold.heightMm, ...bounds.map(({ max }) => max[2]));
  let cutterMesh: TriangleMesh | undefined;
  // A millimeter more, so that no top lies in the cutter's own.
  const cutter = (): TriangleMesh => (cutterMesh ??= moldCutter(mold, highest + 1));
  const clipped = meshesToFit(solids).map((solid) => clipToWalls(mold, solid, booleans, cutter));
  const overlaps = overlapsOf(clipped, bounds, booleans);
  const united = (members: readonly number[]): Term[] => unitedTerms(members, clipped, overlaps, booleans);
  const terms = [...united(solidMembers(solids)), ...grainTerms(solids, clipped, overlaps, booleans)];
  const told = overlaps.filter(({ a, b, volumeMm3 }) => {
    const smaller = Math.min(clipped[a].profile.volumeMm3, clipped[b].profile.volumeMm3);
    return volumeMm3 !== null && volumeMm3 > Math.max(TOLD_OVERLAP_MM3, TOLD_OVERLAP_SHARE * smaller);
  });

  const allowed = EXCESS_SHARE * moldVolumeBelow(mold, options.fillMm);
  const moldBetween = (from: number, to: number): number => moldVolumeBelow(mold, to) - moldVolumeBelow(mold, from);
  const displaced = (fromMm: number, toMm: number): number => {
    const from = Math.max(0, fromMm);
    if (!(toMm > from)) return 0;
    const whole = moldBetween(from, toMm);
    const volume = volumeBetween(terms, from, toMm);
    if (volume - whole > allowed || volume < -allowed) throw notSound(from, toMm, volume, whole);
    return Math.min(whole, Math.max(0, volume));
  };
  const free = (fromMm: number, toMm: number): number => {
    const from = Math.max(0, fromMm);
    return toMm > from ? moldBetween(from, toMm) - displaced(from, toMm) : 0;
  };

  const closing = solids.flatMap(({ kind, voidFraction }, i) => (kind === 'bed' && voidFraction === 0 ? [i] : []));
  let opening: ReturnType<typeof openingOf> | undefined;
  const openingOfBeds = (): ReturnType<typeof openingOf> => {
    const touched = new Set(closing.filter((i) => clipped[i].cut));
    for (const { a, b } of overlaps) {
      if (closing.includes(a) && closing.includes(b)) touched.add(a).add(b);
    }
    // A closed form and the facets of what it shares differ by a hair, which would pass for an opening.
    const fitted = clipped.map((one, i) => (touched.has(i) ? countedAsMesh(one) : one));
    return openingOf({
      mold,
      terms: unitedTerms(closing, fitted, overlaps, booleans),
      exactMeshes: () => closing.map((i) => solids[i].solid.mesh()),
      exactHeights: closing.flatMap((i) => [bounds[i].min[2], bounds[i].max[2]]),
      cutMeshes: () => closing.filter((i) => clipped[i].cut).map((i) => clipped[i].inside()),
      exact: touched.size === 0,
    });
  };

  return {
    displacedMl: (fromMm, toMm) => displaced(fromMm, toMm) / MM3_PER_ML,
    freeVolumeMl: (fromMm, toMm) => free(fromMm, toMm) / MM3_PER_ML,
    levelForFree: (fromMm, volumeMl) => {
      const from = Math.max(0, fromMm);
      const target = volumeMl * MM3_PER_ML;
      if (!(target > 0)) return fromMm;
      const above = Math.max(from, highest);
      const beneath = free(from, above);
      if (target > beneath) return moldLevelOf(mold, moldVolumeBelow(mold, above) + target - beneath);
      return levelWhere({
        volumeBelow: (z) => free(from, z),
        areaAt: (z) => moldAreaAt(mold, z) - sectionAt(terms, z),
        lowMm: from,
        highMm: above,
        target,
        toleranceMm: LEVEL_TOLERANCE_MM,
      });
    },
    opensAt: (fromMm, toMm) => {
      if (!(toMm > fromMm)) return null;
      return closing.length === 0 ? fromMm : (opening ??= openingOfBeds())(fromMm, toMm);
    },
    overlaps: told.map(({ a, b, volumeMm3 }) => ({ a: solids[a].id, b: solids[b].id, volumeMm3: volumeMm3!, lighter: [a, b].some((i) => solids[i].solid.joinedMesh !== undefined) })),
    overlapsComplete: overlaps.every(({ volumeMm3 }) => volumeMm3 !== null),
    outside: solids
      .filter(({ kind, solid }) => kind === 'figure' && (-solid.bounds.min[2] > CUT_TOLERANCE_MM || wallOvershoot(mold, solid) > CUT_TOLERANCE_MM))
      .map(({ id }) => id),
  };
}

/** The solids themselves; with lighter meshes those too fine to be joined, with coarse ones curved ones in a heap larger than booleans can hold. */
function meshesToFit(solids: readonly SubmergedSolid[]): ReachingSolid[] {
  const meeting = new Set(meetingBounds(solids.map(({ solid }) => solid.bounds)).flat());
  const heaped = solids.filter(({ solid }, i) => solid.coarseMesh && meeting.has(i)).length > HEAP;
  return solids.map(({ solid }) => {
    const fitting = solid.joinedMesh ?? (heaped ? solid.coarseMesh : undefined);
    if (!fitting) return solid;
    let mesh: TriangleMesh | undefined;
    return { ...solid, mesh: () => (mesh ??= fitting()) };
  });
}

function solidMembers(solids: readonly SubmergedSolid[]): number[] {
  return solids.flatMap(({ voidFraction }, i) => (voidFraction > 0 ? [] : [i]));
}

/** Beds with voids displace their grains, only where no solid and no denser bed is. */
function grainTerms(solids: readonly SubmergedSolid[], clipped: readonly ClippedSolid[], overlaps: Parameters<typeof sharedTerms>[3], booleans: Booleans): Term[] {
  const taken = solidMembers(solids);
  const loose = solids.flatMap(({ voidFraction }, i) => (voidFraction > 0 ? [i] : []));
  loose.sort((i, j) => solids[i].voidFraction - solids[j].voidFraction || i - j);
  const terms: Term[] = [];
  for (const i of loose) {
    const grains = 1 - solids[i].voidFraction;
    for (const { profile, factor } of clipped[i].terms) terms.push({ profile, factor: factor * grains });
    for (const { profile, factor } of sharedTerms(i, taken, clipped, overlaps, booleans)) terms.push({ profile, factor: -factor * grains });
    taken.push(i);
  }
  return terms;
}

function notSound(fromMm: number, toMm: number, volume: number, whole: number): Error {
  return new SolidError(
    `Between ${fromMm} and ${toMm} mm the solids take up ${(volume / MM3_PER_ML).toFixed(3)} mL of a mold that holds ` +
      `${(whole / MM3_PER_ML).toFixed(3)} mL there. A figure's mesh is not sound (it may overlap itself); repair it or use another.`,
  );
}
