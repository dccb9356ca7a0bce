/**
 * Boolean operations over manifold-3d (3.5.4), for the core's `Booleans`.
 *
 * Its meshes come and go in 32 bits (the JavaScript package has no 64-bit mesh class), while it computes in
 * doubles. So solids are first moved to their own common center, or that of a large one among them; going in,
 * each vertex then gets its double back through `warpBatch`, found by its 32-bit place; coming out, `warpBatch`
 * reads the doubles, which come in the order of the mesh's vertices. What is left of 32 bits: two vertices that share a 32-bit place
 * become one place, under 1e-7 of the extent apart.
 */
import openManifold from 'manifold-3d';
import type { Box, Manifold, ManifoldToplevel } from 'manifold-3d';
import { inspectMesh } from '../core/solid/inspect.ts';
import { closedCracks } from '../core/solid/mesh-cracks.ts';
import { closedHoles } from '../core/solid/mesh-holes.ts';
import { turnedShells } from '../core/solid/mesh-shells.ts';
import { weldMesh, weldPoints } from '../core/solid/mesh-weld.ts';
import { rewound } from '../core/solid/mesh-winding.ts';
import { SolidError, type Booleans, type TriangleMesh } from '../core/solid/solid.ts';
import { KeptSolid, type Point } from './kept-solid.ts';

export interface BooleansOptions {
  /** Where the library's wasm file is; by default beside its script. A bundled page passes its own address. */
  readonly wasmUrl?: string;
}

/** Rims within this share of the extent are one, as in core/solid/mesh-sound.ts. */
const CRACK_SHARE = 1e-5;
/** A hollow belongs to an outward shell that holds all of it but this share: rounding. */
const HELD_SHARE = 1e-6;

/** Share of surface × extent: a volume this little below 0 is the rounding of a sliver between touching solids. */
const SLIVER_SHARE = 1e-9;
/** Union of 2,000 small shells took 15 s; of debris with more the library does not come back. */
const MOST_SHELLS = 500;
/** Each pair asked costs an intersection, a few ms for shells of some thousand triangles. */
const MOST_PAIRS = 500;

/** Triangles of a solid that is kept for the next operation; one is, with some 100 MB for 500,000. */
const KEPT_TRIANGLES = { least: 50_000, most: 1_500_000 } as const;

let started: Promise<ManifoldToplevel> | undefined;
let kept: KeptSolid | undefined;

/**
 * Start the library, once per process or worker; later calls share it and their options are not looked at.
 *
 * Solids must be closed and face outward; hollows are shells that face inward. `union`, `intersect` and
 * `subtract` take each solid as it is: one that overlaps itself is not parted, `repair` does that for up to
 * 500 separate shells (null beyond). Empty solids are allowed; an empty result is a mesh of no triangles.
 * Every operation throws an Error that names the operation and the solid where one can't be taken.
 * @throws Error when the wasm file can't be had; the next call tries again
 */
export async function openBooleans(options: BooleansOptions = {}): Promise<Booleans> {
  return booleansOver(await joiningLibrary(options));
}

/** The library itself, started once; what it makes is the caller's to free. Errors as `openBooleans`. */
export async function joiningLibrary(options: BooleansOptions = {}): Promise<ManifoldToplevel> {
  const { wasmUrl } = options;
  started ??= openManifold(wasmUrl === undefined ? undefined : { locateFile: () => wasmUrl }).then((library) => {
    library.setup();
    return library;
  });
  try {
    return await started;
  } catch (cause) {
    started = undefined;
    throw new Error(`The solid-joining library could not be started (${reason(cause)}); reload the page, or install the packages again.`, { cause });
  }
}

function booleansOver(library: ManifoldToplevel): Booleans {
  return {
    union(solids) {
      const full = solids.filter((solid) => solid.indices.length > 0);
      if (full.length === 0) return empty();
      if (full.length === 1) return full[0];
      return inLibrary(library, 'union', full, (parts) => library.Manifold.union(parts));
    },
    intersect(a, b) {
      if (a.indices.length === 0 || b.indices.length === 0) return empty();
      return inLibrary(library, 'intersection', [a, b], ([first, second]) => first.intersect(second));
    },
    subtract(a, b) {
      if (a.indices.length === 0 || b.indices.length === 0) return a;
      return inLibrary(library, 'difference', [a, b], ([first, second]) => first.subtract(second));
    },
    prepare(solid) {
      if (!largestKept([solid])) return;
      try {
        inLibrary(library, 'preparation', [solid], () => library.Manifold.union([]));
      } catch {
        // What can't be joined is told when it is.
      }
    },
    repair(mesh) {
      const closed = closedMesh(mesh);
      if (closed === null) return null;
      const seen = inspectMesh(closed);
      if (!seen.watertight || seen.shells > MOST_SHELLS || seen.volumeMm3 === 0) return null;
      // One shell has nothing to be parted from.
      if (seen.shells === 1 && seen.crowdedEdges === 0) return seen.insideOut ? turnedShells(seen.mesh, seen.shellOf, Uint8Array.of(1)) : seen.mesh;
      try {
        const result = inLibrary(library, 'repair', [closed], ([whole], keep) => parted(library, whole, keep));
        return result.indices.length === 0 ? null : result;
      } catch {
        return null;
      }
    },
  };
}

/** Run one operation: in, compute, out, and free whatever was made on the way. */
function inLibrary(
  library: ManifoldToplevel, operation: string, solids: readonly TriangleMesh[],
  compute: (parts: Manifold[], keep: (made: Manifold) => Manifold) => Manifold,
): TriangleMesh {
  const made = new Set<Manifold>();
  const keep = (manifold: Manifold): Manifold => {
    made.add(manifold);
    return manifold;
  };
  try {
    const take = (solid: TriangleMesh, at: Point): Manifold => {
      const subject = `${operation}: solid ${solids.indexOf(solid) + 1} of ${solids.length}`;
      const whole = keep(toManifold(library, solid, at, subject, keep));
      if (operation !== 'repair' && turnedInsideOut(whole)) throw new SolidError(`${subject} is inside-out (${whole.volume().toPrecision(4)} mm³); repair it first.`);
      return whole;
    };
    const large = operation === 'repair' ? undefined : largestKept(solids);
    const known = large && kept?.centerOf(large);
    const center = known ?? commonCenter(large ? [large] : solids);
    if (large && !known) {
      const whole = take(large, center);
      made.delete(whole);
      kept?.manifold.delete();
      kept = new KeptSolid(whole, large, center);
    }
    const parts = solids.map((solid) => (solid === large ? kept!.manifold : take(solid, center)));
    return fromManifold(keep(compute(parts, keep)), center, operation);
  } catch (cause) {
    if (cause instanceof SolidError) throw cause;
    // Its memory may be spent, and is not to be trusted after that: the next call starts anew.
    started = undefined;
    kept = undefined;
    throw new SolidError(`${operation}: these solids are too much to be joined (${reason(cause)}); use simpler meshes or set them apart.`, { cause });
  } finally {
    for (const manifold of made) manifold.delete();
  }
}

/** The one that is worth keeping: the largest that is large. */
function largestKept(solids: readonly TriangleMesh[]): TriangleMesh | undefined {
  const largest = solids.reduce((most, solid) => (solid.indices.length > most.indices.length ? solid : most));
  const triangles = largest.indices.length / 3;
  return triangles >= KEPT_TRIANGLES.least && triangles <= KEPT_TRIANGLES.most ? largest : undefined;
}

function turnedInsideOut(solid: Manifold): boolean {
  const { min, max } = solid.boundingBox();
  return solid.volume() < -SLIVER_SHARE * solid.surfaceArea() * Math.max(max[0] - min[0], max[1] - min[1], max[2] - min[2]);
}

function toManifold(
  library: ManifoldToplevel, solid: TriangleMesh, center: Point, subject: string, keep: (made: Manifold) => Manifold,
): Manifold {
  const places = new Float64Array(solid.positions.length);
  for (let i = 0; i < places.length; i++) places[i] = solid.positions[i] - center[i % 3];
  if (!places.every(Number.isFinite)) throw new SolidError(`${subject} has a coordinate that is not a finite number; inspect it first.`);
  const rounded = Float32Array.from(places);
  let coarse: Manifold;
  try {
    coarse = keep(library.Manifold.ofMesh(new library.Mesh({ numProp: 3, vertProperties: rounded, triVerts: solid.indices.slice() })));
  } catch (cause) {
    throw new SolidError(`${subject} can't be taken (${reason(cause)}), a closed solid was expected; repair it first.`, { cause });
  }
  // Without the 32-bit tolerance, or short edges within it would be merged away.
  return keep(coarse.warpBatch((vertices) => restore(vertices, places, rounded))).setTolerance(0);
}

/** Give each vertex the double place of the first point with its 32-bit place. */
function restore(vertices: Float64Array, places: Float64Array, rounded: Float32Array): void {
  const both = new Float64Array(rounded.length + vertices.length);
  both.set(rounded);
  both.set(vertices, rounded.length);
  const first = weldPoints(both);
  const points = rounded.length / 3;
  for (let v = 0; 3 * v < vertices.length; v++) {
    const from = first[points + v];
    if (from < points) vertices.set(places.subarray(3 * from, 3 * from + 3), 3 * v);
  }
}

function fromManifold(result: Manifold, center: Point, operation: string): TriangleMesh {
  const status = result.status();
  if (status !== 'NoError') throw new SolidError(`${operation}: no solid came out (${status}); repair the solids first.`);
  if (result.isEmpty()) return empty();
  let positions = new Float64Array(0);
  result
    .warpBatch((vertices) => {
      positions = vertices.slice();
    })
    .delete();
  const { triVerts } = result.getMesh();
  for (let i = 0; i < positions.length; i++) positions[i] += center[i % 3];
  return { positions, indices: triVerts.slice() };
}

/** The mesh welded, sewn, wound alike and capped; null where its numbers can't be used. */
function closedMesh(mesh: TriangleMesh): TriangleMesh | null {
  const vertices = Math.floor(mesh.positions.length / 3);
  if (mesh.indices.length % 3 !== 0 || !mesh.positions.every(Number.isFinite) || mesh.indices.some((v) => v >= vertices)) return null;
  let extent = 0;
  for (const [min, max] of boundsOf([mesh])) extent = Math.max(extent, max - min);
  return closedHoles(rewound(closedCracks(weldMesh(mesh).mesh, CRACK_SHARE * extent)));
}

/**
 * Union of a mesh's shells. Each hollow is taken out of the smallest outward shell that holds it, so that an
 * island inside a hollow stays and a neighbor that reaches into one fills it; an inward shell that no other
 * holds is turned round.
 */
function parted(library: ManifoldToplevel, whole: Manifold, keep: (made: Manifold) => Manifold): Manifold {
  const shells = whole.decompose().map(keep);
  const solids = shells.filter((shell) => shell.volume() > 0).sort((a, b) => a.volume() - b.volume());
  const hollows = shells.filter((shell) => shell.volume() < 0).map((shell) => keep(insideOut(library, shell, keep)));
  const taken: Manifold[][] = solids.map(() => []);
  const strays: Manifold[] = [];
  const boxes = solids.map((solid) => solid.boundingBox());
  let pairs = 0;
  for (const hollow of hollows) {
    const inner = hollow.boundingBox();
    const owner = solids.findIndex((solid, n) => {
      if (!surrounds(boxes[n], inner)) return false;
      if (++pairs > MOST_PAIRS) throw new SolidError(`repair: over ${MOST_PAIRS} pairs of shells to compare; mend the model.`);
      return holds(solid, hollow);
    });
    if (owner < 0) strays.push(hollow);
    else taken[owner].push(hollow);
  }
  const parts = solids.map((solid, n) => (taken[n].length === 0 ? solid : keep(library.Manifold.difference([solid, ...taken[n]]))));
  return library.Manifold.union([...parts, ...strays]);
}

function surrounds(outer: Box, inner: Box): boolean {
  for (let d = 0; d < 3; d++) if (inner.min[d] < outer.min[d] || inner.max[d] > outer.max[d]) return false;
  return true;
}

function holds(solid: Manifold, hollow: Manifold): boolean {
  const shared = solid.intersect(hollow);
  const held = shared.volume() >= hollow.volume() * (1 - HELD_SHARE);
  shared.delete();
  return held;
}

function insideOut(library: ManifoldToplevel, shell: Manifold, keep: (made: Manifold) => Manifold): Manifold {
  const mesh = fromManifold(shell, [0, 0, 0], 'repair');
  return toManifold(library, { positions: mesh.positions, indices: mesh.indices.reverse() }, [0, 0, 0], 'repair: a hollow', keep);
}

function boundsOf(solids: readonly TriangleMesh[]): [number, number][] {
  return [0, 1, 2].map((axis) => {
    let min = Infinity, max = -Infinity;
    for (const { positions } of solids) {
      for (let i = axis; i < positions.length; i += 3) {
        if (positions[i] < min) min = positions[i];
        if (positions[i] > max) max = positions[i];
      }
    }
    return [min, max];
  });
}

function commonCenter(solids: readonly TriangleMesh[]): Point {
  const [x, y, z] = boundsOf(solids).map(([min, max]) => min + (max - min) / 2);
  return [x, y, z];
}

function empty(): TriangleMesh {
  return { positions: new Float64Array(0), indices: new Uint32Array(0) };
}

function reason(cause: unknown): string {
  return cause instanceof Error ? cause.message : String(cause);
}
