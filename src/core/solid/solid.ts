/** What the planner asks of any solid. Lengths mm, areas mm², volumes mm³, z up from the mold floor. */

/** A closed triangle mesh is wound counter-clockwise seen from outside. */
export interface TriangleMesh {
  /** x, y, z per vertex, mm, doubles. */
  readonly positions: Float64Array;
  /** Three vertex numbers per triangle. */
  readonly indices: Uint32Array;
}

export interface Bounds {
  readonly min: readonly [number, number, number];
  readonly max: readonly [number, number, number];
}

/** How much of a solid lies below each height. Non-decreasing in z, 0 below `bottomMm`, `volumeMm3` above `topMm`. */
export interface Profile {
  readonly bottomMm: number;
  readonly topMm: number;
  readonly volumeMm3: number;
  /** Volume below height z, mm³. */
  volumeBelow(zMm: number): number;
  /** Area of the horizontal section at z, mm². At a flat face: the limit from above. */
  areaAt(zMm: number): number;
  /** The lowest height below which `volumeMm3` lies; bottom for ≤ 0, top for ≥ the whole. */
  levelOf(volumeMm3: number): number;
}

/** A placement's shape, scaled, turned and moved to its place in the mold. */
export interface PosedSolid {
  readonly bounds: Bounds;
  readonly profile: Profile;
  /** The same solid as a closed mesh (curved primitives finely faceted, volume kept); made on the first call. */
  mesh(): TriangleMesh;
  /** That mesh with its lowest point at 0, before it was moved to its place: one object wherever it stands. */
  uprightMesh(): TriangleMesh;
}

/** Boolean operations on closed meshes, given to the core by files/booleans (manifold-3d). */
export interface Booleans {
  union(solids: readonly TriangleMesh[]): TriangleMesh;
  /** What of `a` is inside `b`. */
  intersect(a: TriangleMesh, b: TriangleMesh): TriangleMesh;
  /** What of `a` is outside `b`. */
  subtract(a: TriangleMesh, b: TriangleMesh): TriangleMesh;
  /** Does beforehand what joining this solid takes, where that helps: the first join of a large one is then as quick as the next. */
  prepare?(solid: TriangleMesh): void;
  /** A closed mesh made of an open, inside-out or self-overlapping one, or null where it can't be. */
  repair(mesh: TriangleMesh): TriangleMesh | null;
}

/** A mesh as its file gave it (mm, z up), with what had to be done to it. */
export interface MeshReading {
  readonly mesh: TriangleMesh;
  readonly watertight: boolean;
  /** What was wrong and what was done, in plain words; empty for a sound mesh. */
  readonly repairs: readonly string[];
  /** Bound on the volume's relative error after a repair or an estimate; 0 for a sound mesh; null: no volume can be trusted. */
  readonly volumeErrorFraction: number | null;
}

/** Solids that can't be measured or joined: unsound meshes, more of them than there is memory for. The message says which and what to do. */
export class SolidError extends Error {
  override readonly name = 'SolidError';
}
