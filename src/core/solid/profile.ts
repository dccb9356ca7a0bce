/**
 * The displacement profile of a closed triangle mesh: volume, section area and level, exact for the mesh.
 * The sums are in mesh-index.ts; here they become a `Profile`, and a level is found from a volume.
 */
import { heightIndex, sumBelow, type HeightIndex } from './mesh-index.ts';
import type { Profile, TriangleMesh } from './solid.ts';

/**
 * Largest imbalance of upward and downward projected area, as a share of their sum, in a closed mesh.
 * Rounding alone stays near 1e-15 · √triangles; one open triangle in ten million would be near 1e-7.
 */
const CLOSED_SHARE = 1e-9;
/** Rounding of one projected area as a share of the squared extent: dominates in thin upright sheets. */
const CLOSED_EXTENT_SHARE = 1e-12;
/** A volume under this share of gross area × height is rounding, not an inside-out mesh. */
const FLAT_SHARE = 1e-12;
/** Rounding of a volume, relative: a level is the lowest height that reaches the volume less this. */
const VOLUME_ROUNDING = 2 ** -48;
/** Bisection alone halves doubles' whole range in about 1,100 steps, a bracket of one solid in 60. */
const MAX_LEVEL_STEPS = 200;
/** A bracket that did not halve in this many Newton steps is halved outright. */
const PATIENCE = 3;

/** With the index behind it, from which sections are cut (section-mesh.ts). */
export interface MeshProfile extends Profile {
  readonly index: HeightIndex;
}

/**
 * Profile of a closed mesh, in the mesh's own heights.
 *
 * Build O(n), no comparison sort; `volumeBelow` and `areaAt` O(triangles near z); `levelOf` a few of these
 * (Newton kept inside a bracket: 6–12 as measured, never over 200). Keeps the mesh's `positions`; do not write to them.
 * Rounding: about 1e-15 of the whole volume; neighboring heights may differ from monotone by as much.
 * The surface is taken as it is: what it wraps twice counts twice (see mesh-sound.ts).
 * An empty mesh has an empty profile at height 0.
 * @throws RangeError on a vertex number out of range, a coordinate that is not finite, an open or an inside-out mesh
 */
export function meshProfile(mesh: TriangleMesh): MeshProfile {
  const index = heightIndex(mesh);
  const volumeMm3 = wholeVolume(index, mesh);
  const { bottomMm, topMm } = index;
  const sums = new Float64Array(2);
  return {
    index,
    bottomMm,
    topMm,
    volumeMm3,
    volumeBelow(zMm) {
      if (!(zMm > bottomMm)) return 0;
      if (zMm >= topMm) return volumeMm3;
      sumBelow(index, zMm, sums);
      return Math.min(volumeMm3, Math.max(0, sums[0] / 6));
    },
    areaAt(zMm) {
      if (!(zMm >= bottomMm) || zMm >= topMm) return 0;
      sumBelow(index, zMm, sums);
      return Math.max(0, -sums[1] / 2);
    },
    levelOf(volume) {
      if (!(volume > 0)) return bottomMm;
      if (volume >= volumeMm3) return topMm;
      return levelIn(index, volume * (1 - VOLUME_ROUNDING), volumeMm3, sums);
    },
  };
}

function wholeVolume(index: HeightIndex, mesh: TriangleMesh): number {
  const heightMm = index.topMm - index.bottomMm;
  const volume = index.endedMoment[index.buckets] / 6;
  const open = index.endedArea[index.buckets];
  if (!Number.isFinite(volume) || !Number.isFinite(index.grossArea)) {
    throw new RangeError('The mesh has a coordinate that is not a finite number; inspect the mesh before measuring it.');
  }
  const gap = Math.abs(open);
  if (gap > CLOSED_SHARE * index.grossArea && gap > CLOSED_EXTENT_SHARE * squaredExtent(mesh)) {
    throw new RangeError(
      `The mesh is open: its upward and downward faces differ by ${(gap / 2).toPrecision(3)} mm² where a closed mesh has 0; repair it before measuring it.`,
    );
  }
  if (volume < -FLAT_SHARE * index.grossArea * heightMm) {
    throw new RangeError(
      `The mesh is inside-out: its volume comes to ${volume.toPrecision(4)} mm³ where more than 0 was expected; turn its triangles round before measuring it.`,
    );
  }
  return Math.max(0, volume);
}

function squaredExtent(mesh: TriangleMesh): number {
  const { positions, indices } = mesh;
  let minX = Infinity, maxX = -Infinity, minY = Infinity, maxY = -Infinity;
  for (let i = 0; i < indices.length; i++) {
    const x = positions[3 * indices[i]];
    const y = positions[3 * indices[i] + 1];
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  return indices.length === 0 ? 0 : (maxX - minX) ** 2 + (maxY - minY) ** 2;
}

/** Lowest height at which the volume below reaches `target`, 0 < target < whole. */
function levelIn(index: HeightIndex, target: number, whole: number, sums: Float64Array): number {
  let low = index.bottomMm;
  let high = index.topMm;
  const finest = Math.max(high - low, Math.abs(low), Math.abs(high)) * Number.EPSILON;
  let z = low + (high - low) * (target / whole);
  let width = high - low;
  let waited = 0;
  for (let step = 0; step < MAX_LEVEL_STEPS && high - low > finest; step++) {
    if (!(z > low && z < high)) z = low + (high - low) / 2;
    if (z === low || z === high) break;
    sumBelow(index, z, sums);
    const excess = sums[0] / 6 - target;
    if (excess >= 0) high = z;
    else low = z;
    if (high - low <= width / 2) {
      width = high - low;
      waited = 0;
    } else waited++;
    const newton = -excess / (-sums[1] / 2);
    if (waited >= PATIENCE || !Number.isFinite(newton)) {
      z = low + (high - low) / 2;
      width = high - low;
      waited = 0;
    } else {
      // A step past the root, so that the bracket closes from both sides.
      z += newton + (excess >= 0 ? -finest : finest);
    }
  }
  return high;
}
