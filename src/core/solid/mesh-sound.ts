/**
 * From a mesh as its file gave it to one whose volume can be trusted, or to a plain no.
 *
 * Order: weld, sew cracks, wind alike, cap holes, turn inside-out shells, then look along lines
 * (mesh-columns.ts) for volume that is wrapped twice or inside-out and unite what overlaps. Each step runs
 * only where the one before left something to do, and each that guesses adds to the stated error.
 */
import { percent, plain } from '../units/format.ts';
import { wrappedVolume, type Wrapped } from './mesh-columns.ts';
import { closedCracks } from './mesh-cracks.ts';
import { closedHoles } from './mesh-holes.ts';
import { insideOutShells, measureShells, turnedShells } from './mesh-shells.ts';
import { rewound } from './mesh-winding.ts';
import { inspectMesh, type MeshInspection } from './inspect.ts';
import type { Booleans, MeshReading, TriangleMesh } from './solid.ts';

/** Open edges this share of the largest extent apart are one edge: six digits in a text file leave 1e-6 to 1e-5. */
const CRACK_SHARE = 1e-5;
/** `closedCracks` moves a vertex by at most this many tolerances in each direction. */
const CRACK_REACH = 4;
/** Wrapped twice or inside-out under this share of the volume is touching faces and rounding. */
const OVERLAP_SHARE = 1e-6;
/** Booleans may pass coordinates through 32 bits: half a unit in the 24th digit, doubled for the new corners. */
const BOOLEAN_ROUNDING = 2 ** -23;
/** Volume counted again over the volume there is: two shells in one place have 1. */
const MOST_WRAPPED = 5;
/** Of the time that a sound mesh takes, as measured on four million triangles; the lines take the rest. */
const INSPECTING_SHARE = 0.85;
/** A volume that may be off by more than this is no volume. A figure open at its whole base comes to about 0.25. */
const MOST_ERROR = 0.5;

/** A mesh on its way: what it is now, what was done, and by how much its volume may be off by now. */
interface Work {
  seen: MeshInspection;
  errorMm3: number;
  readonly repairs: string[];
}

/**
 * Make a mesh sound.
 *
 * - A sound mesh passes unchanged (a soup of triangles is welded), `repairs` empty, error 0.
 * - Collapsed triangles are dropped, shells that face inward and are no hollow are turned: error 0.
 * - Holes get caps. What the surface did there is unknown; the bound is half a ball over a disc of the caps'
 *   area, of all holes together: 2/3 π (A/π)^3/2 over the volume.
 * - Volume wrapped more than once, by several shells or by one that runs through itself, goes through
 *   `booleans.repair`. What that can't part (one shell through itself, hundreds of shells) stays, with the sampled share and the
 *   difference between the sampled and the integrated volume as the error. An overlap narrower than the
 *   lines' distance (1/256 of the extents, coarser only for meshes of many large triangles) may be missed.
 * - Where the bound passes half of the volume, or nothing closed comes out: `watertight: false`,
 *   `volumeErrorFraction: null`.
 * Never throws on any mesh; `booleans.repair` may be slow on hundreds of thousands of overlapping triangles.
 * `onShare` is told now and then which share of the work on a sound mesh is done; repairs come after its last word.
 */
export function sound(mesh: TriangleMesh, booleans: Booleans, onShare: (share: number) => void = () => {}): MeshReading {
  const work: Work = { seen: inspectMesh(mesh, (share) => onShare(INSPECTING_SHARE * share)), errorMm3: 0, repairs: [] };
  onShare(INSPECTING_SHARE);
  const unusable = whyUnusable(work.seen);
  if (unusable !== null) return refused(work, unusable);
  if (work.seen.collapsed > 0) work.repairs.push(`Dropped ${counted(work.seen.collapsed, 'triangle')} without area.`);
  if (!work.seen.watertight) close(work);
  if (!work.seen.watertight) return refused(work, 'The surface could not be closed; mend the model in the program it was made with.');
  turn(work);
  part(work, booleans);
  const volume = work.seen.volumeMm3;
  if (volume === null || !Number.isFinite(volume) || !(volume > 0)) {
    return refused(work, 'The surface encloses no volume; it needs a thickness.');
  }
  // Of the least that the true volume can be.
  const error = work.errorMm3 / Math.max(0, volume - work.errorMm3);
  if (!(error <= MOST_ERROR)) {
    return refused(work, `Its volume could be off by more than ${percent(MOST_ERROR)}; measure the object in water instead, or mend the model.`);
  }
  return { mesh: work.seen.mesh, watertight: true, repairs: work.repairs, volumeErrorFraction: error };
}

function whyUnusable(seen: MeshInspection): string | null {
  if (seen.outOfRange > 0) return `${counted(seen.outOfRange, 'corner')} of the mesh name points that are not there; the file is damaged.`;
  if (seen.notFinite > 0) return `${counted(seen.notFinite, 'point')} of the mesh have a coordinate that is not a number; the file is damaged.`;
  if (seen.empty) return 'The mesh has no triangles with any area; export it again.';
  return null;
}

function refused(work: Work, why: string): MeshReading {
  return { mesh: work.seen.mesh, watertight: false, repairs: [...work.repairs, why], volumeErrorFraction: null };
}

/** Sew, wind alike, cap; adds the error of each. */
function close(work: Work): void {
  const openBefore = work.seen.openEdges;
  if (openBefore > 0) {
    const toleranceMm = CRACK_SHARE * largestExtent(work.seen.mesh);
    const sewn = closedCracks(work.seen.mesh, toleranceMm);
    if (sewn !== work.seen.mesh) {
      const seen = inspectMesh(sewn);
      if (seen.openEdges < openBefore) {
        work.seen = seen;
        work.repairs.push(`Sewed up ${counted(openBefore - seen.openEdges, 'open edge')}.`);
        work.errorMm3 += CRACK_REACH * toleranceMm * areaOf(sewn);
      }
    }
  }
  if (work.seen.inconsistentEdges > 0) {
    work.repairs.push(`Turned triangles round that faced against their neighbors (${counted(work.seen.inconsistentEdges, 'edge')}).`);
    work.seen = inspectMesh(rewound(work.seen.mesh));
  }
  if (work.seen.watertight || work.seen.empty) return;
  const edges = work.seen.openEdges;
  const before = areaOf(work.seen.mesh);
  work.seen = inspectMesh(closedHoles(work.seen.mesh));
  const cap = Math.max(0, areaOf(work.seen.mesh) - before);
  work.errorMm3 += (2 / 3) * Math.PI * (cap / Math.PI) ** 1.5;
  work.repairs.push(`Closed the holes in the surface${edges > 0 ? ` (${counted(edges, 'open edge')})` : ''} with ${plain(Number(cap.toPrecision(3)), 2)}\u00a0mm² of plain caps.`);
}

function turn(work: Work): void {
  const { seen } = work;
  if (seen.insideOutShells === 0) return;
  const shells = measureShells(seen.mesh, seen.shellOf, seen.shells);
  work.seen = inspectMesh(turnedShells(seen.mesh, seen.shellOf, insideOutShells(shells)));
  work.repairs.push(seen.shells === 1 ? 'Turned the surface, which was inside-out.' : `Turned ${counted(seen.insideOutShells, 'inside-out part')}.`);
}

/** Unite what overlaps; what can't be parted becomes error. */
function part(work: Work, booleans: Booleans): void {
  const wrapped = wrappedVolume(work.seen.mesh);
  if (!overlaps(wrapped)) return;
  // A single shell through itself can't be parted, and debris wrapped many times over not in bearable time.
  // Where more than two triangles meet at an edge, what counts as one shell may be several.
  const several = work.seen.shells > 1 || work.seen.crowdedEdges > 0;
  const parting = several && wrapped.againMm3 + wrapped.insideOutMm3 <= MOST_WRAPPED * wrapped.solidMm3;
  const united = parting ? booleans.repair(work.seen.mesh) : null;
  const seen = united === null ? null : inspectMesh(united);
  if (seen !== null && seen.watertight && seen.volumeMm3 !== null && seen.volumeMm3 > 0) {
    const rest = wrappedVolume(seen.mesh);
    if (rest.againMm3 + rest.insideOutMm3 < wrapped.againMm3 + wrapped.insideOutMm3) {
      work.seen = seen;
      work.repairs.push('United parts that overlapped, so that what they share counts once.');
      work.errorMm3 += BOOLEAN_ROUNDING * largestExtent(seen.mesh) * areaOf(seen.mesh);
      if (overlaps(rest)) keepOverlap(work, rest);
      return;
    }
  }
  keepOverlap(work, wrapped);
}

function overlaps(wrapped: Wrapped): boolean {
  return wrapped.againMm3 + wrapped.insideOutMm3 > OVERLAP_SHARE * wrapped.solidMm3;
}

function keepOverlap(work: Work, wrapped: Wrapped): void {
  const again = wrapped.againMm3 + wrapped.insideOutMm3;
  const sampled = wrapped.solidMm3 + wrapped.againMm3 - wrapped.insideOutMm3;
  work.errorMm3 += again + Math.abs(sampled - (work.seen.volumeMm3 ?? 0));
  work.repairs.push(`The surface runs through itself; about ${percent(Number((again / wrapped.solidMm3).toPrecision(2)))} of the volume is counted twice.`);
}

function areaOf({ positions: p, indices }: TriangleMesh): number {
  let doubled = 0;
  for (let i = 0; i < indices.length; i += 3) {
    const a = 3 * indices[i], b = 3 * indices[i + 1], c = 3 * indices[i + 2];
    const ux = p[b] - p[a], uy = p[b + 1] - p[a + 1], uz = p[b + 2] - p[a + 2];
    const vx = p[c] - p[a], vy = p[c + 1] - p[a + 1], vz = p[c + 2] - p[a + 2];
    doubled += Math.sqrt((uy * vz - uz * vy) ** 2 + (uz * vx - ux * vz) ** 2 + (ux * vy - uy * vx) ** 2);
  }
  return doubled / 2;
}

function largestExtent({ positions: p, indices }: TriangleMesh): number {
  let largest = 0;
  for (let d = 0; d < 3; d++) {
    let min = Infinity, max = -Infinity;
    for (let i = 0; i < indices.length; i++) {
      const at = p[3 * indices[i] + d];
      if (at < min) min = at;
      if (at > max) max = at;
    }
    largest = Math.max(largest, max - min);
  }
  return largest;
}

function counted(n: number, what: string): string {
  return `${n} ${what}${n === 1 ? '' : 's'}`;
}
