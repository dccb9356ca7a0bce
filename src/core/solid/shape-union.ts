/**
 * Solids that overlap, counted once.
 *
 * Pairs are found by bounds, cleared by a plane between them where there is one, and only then intersected.
 * A cluster in which no three overlap mutually is counted by its pairs: the sum of the wholes less what each pair
 * shares, so that solids keep their exact profiles. Only a tangle of three or more is built by a union.
 */

import type { ClippedSolid } from './mold-clip.ts';
import { meshProfile } from './profile.ts';
import { meetingBounds, planeBetween } from './shape-apart.ts';
import type { Term } from './shape-sum.ts';
import { withoutSliver } from './shape-volume.ts';
import { SolidError, type Booleans, type Bounds, type Profile, type TriangleMesh } from './solid.ts';

export interface Overlap {
  /** Positions in the list given, a < b. */
  readonly a: number;
  readonly b: number;
  /** mm³ shared inside the mold; null: not measured, the work bound was reached. */
  readonly volumeMm3: number | null;
  readonly shared: Profile | null;
}

/** Work put into pair intersections before the rest goes straight to a union: triangles, and a start for each pair; about 10 s. */
const PAIR_WORK = 2_000_000;
const PAIR_START = 2_000;
/** What a vertex costs in the search for a plane, in the same coin. */
const PLANE_VERTEX = 0.02;
/** Triangles of one union. 900,000 took 1.2 GB; beyond 2 GB the library fails. */
const UNION_TRIANGLES = 1_200_000;

/** Every pair that shares volume inside the mold. Cost: one intersection a pair that no bounds and no plane part. */
export function overlapsOf(solids: readonly ClippedSolid[], bounds: readonly Bounds[], booleans: Booleans): Overlap[] {
  const overlaps: Overlap[] = [];
  let spent = 0;
  for (const [a, b] of meetingBounds(bounds)) {
    const first = solids[a].inside();
    const second = solids[b].inside();
    if (first.indices.length === 0 || second.indices.length === 0) continue;
    if (sameSurface(first, second)) {
      const shared = solids[a].cut ? meshProfile(first) : solids[a].profile;
      overlaps.push({ a, b, volumeMm3: shared.volumeMm3, shared });
      continue;
    }
    spent += (PLANE_VERTEX * (first.positions.length + second.positions.length)) / 3;
    if (spent <= PAIR_WORK && planeBetween(first, second)) continue;
    spent += PAIR_START + (first.indices.length + second.indices.length) / 3;
    if (spent > PAIR_WORK) {
      overlaps.push({ a, b, volumeMm3: null, shared: null });
      continue;
    }
    const smaller = Math.min(solids[a].profile.volumeMm3, solids[b].profile.volumeMm3);
    const mesh = withoutSliver(booleans.intersect(first, second), smaller);
    if (mesh.indices.length === 0) continue;
    // One wholly inside the other is shared whole: its profile is there already.
    const whole = mesh === first ? solids[a] : mesh === second ? solids[b] : null;
    const shared = whole && !whole.cut ? whole.profile : meshProfile(mesh);
    overlaps.push({ a, b, volumeMm3: shared.volumeMm3, shared });
  }
  return overlaps;
}

/**
 * What the named solids take up together, nothing counted twice.
 *
 * @throws {Error} if more solids overlap at one place than can be united in bounded memory.
 */
export function unitedTerms(members: readonly number[], solids: readonly ClippedSolid[], overlaps: readonly Overlap[], booleans: Booleans): Term[] {
  const chosen = new Set(members);
  const inner = overlaps.filter(({ a, b }) => chosen.has(a) && chosen.has(b));
  const neighbors = neighborsOf(inner);
  const terms: Term[] = [];
  const seen = new Set<number>();
  for (const start of members) {
    if (seen.has(start)) continue;
    const cluster = clusterAround(start, neighbors);
    for (const member of cluster) seen.add(member);
    const within = inner.filter(({ a }) => cluster.has(a));
    if (tangled(within, neighbors)) {
      for (const member of cluster) terms.push(...solids[member].correction());
      terms.push({ profile: meshProfile(unionOf([...cluster], solids, booleans)), factor: 1 });
    } else {
      for (const member of cluster) terms.push(...solids[member].terms);
      for (const { shared } of within) terms.push({ profile: shared!, factor: -1 });
    }
  }
  return terms;
}

/** What solid `index` shares with the named others together, positive terms, nothing counted twice. */
export function sharedTerms(index: number, others: readonly number[], solids: readonly ClippedSolid[], overlaps: readonly Overlap[], booleans: Booleans): Term[] {
  const chosen = new Set(others);
  const own = overlaps.filter(({ a, b }) => (a === index && chosen.has(b)) || (b === index && chosen.has(a)));
  const partners = new Set(own.map(({ a, b }) => (a === index ? b : a)));
  const tangle = own.some(({ shared }) => shared === null) || overlaps.some(({ a, b }) => partners.has(a) && partners.has(b));
  if (!tangle) return own.map(({ shared }) => ({ profile: shared!, factor: 1 }));
  const mesh = withoutSliver(booleans.intersect(solids[index].inside(), unionOf([...partners], solids, booleans)), solids[index].profile.volumeMm3);
  return mesh.indices.length === 0 ? [] : [{ profile: meshProfile(mesh), factor: 1 }];
}

function neighborsOf(overlaps: readonly Overlap[]): Map<number, Set<number>> {
  const neighbors = new Map<number, Set<number>>();
  for (const { a, b } of overlaps) {
    neighbors.set(a, (neighbors.get(a) ?? new Set()).add(b));
    neighbors.set(b, (neighbors.get(b) ?? new Set()).add(a));
  }
  return neighbors;
}

function clusterAround(start: number, neighbors: ReadonlyMap<number, ReadonlySet<number>>): Set<number> {
  const cluster = new Set([start]);
  // A set grows while it is walked: new members are met in turn.
  for (const member of cluster) for (const next of neighbors.get(member) ?? []) cluster.add(next);
  return cluster;
}

/** Three that overlap pairwise may share one place; so may a pair that was not measured. */
function tangled(overlaps: readonly Overlap[], neighbors: ReadonlyMap<number, ReadonlySet<number>>): boolean {
  return overlaps.some(({ a, b, shared }) => {
    if (shared === null) return true;
    const ofB = neighbors.get(b)!;
    for (const third of neighbors.get(a)!) if (ofB.has(third)) return true;
    return false;
  });
}

/** A copy pasted in its own place: the dearest case for a boolean, and known without one. */
function sameSurface(a: TriangleMesh, b: TriangleMesh): boolean {
  return (
    a.positions.length === b.positions.length &&
    a.indices.length === b.indices.length &&
    a.positions.every((value, i) => value === b.positions[i]) &&
    a.indices.every((value, i) => value === b.indices[i])
  );
}

function unionOf(members: readonly number[], solids: readonly ClippedSolid[], booleans: Booleans): TriangleMesh {
  const meshes: TriangleMesh[] = [];
  for (const member of members) {
    const mesh = solids[member].inside();
    if (!meshes.some((other) => sameSurface(other, mesh))) meshes.push(mesh);
  }
  const triangles = meshes.reduce((sum, mesh) => sum + mesh.indices.length / 3, 0);
  if (triangles > UNION_TRIANGLES) {
    throw new SolidError(
      `${members.length} solids that overlap one another have ${triangles.toLocaleString('en-US')} triangles together; ` +
        `at most ${UNION_TRIANGLES.toLocaleString('en-US')} can be united. Set some of them apart or use simpler meshes.`,
    );
  }
  return meshes.length === 1 ? meshes[0] : booleans.union(meshes);
}
