/**
 * Putting a shape in its place: scale about its own origin; turn about the fixed x, then y, then z axis; then
 * move so that the center of its bounds is at (x, y) and its lowest point at the base.
 *
 * Two steps, so that dragging is cheap: `orientSolid` does the work (for a mesh: one pass and its profile),
 * `placeSolid` only shifts. The bounds are the true ones: of curved primitives by formula, not of their facets.
 */

import type { Shape } from '../scene/scene.ts';
import { facets, type Fineness } from './facets.ts';
import { lighterCopy, type DrawnMesh } from './lighter.ts';
import type { HeightIndex } from './mesh-index.ts';
import { closedProfile, cornersOf, primitiveReach, type Direction, type Primitive } from './primitives.ts';
import { meshProfile } from './profile.ts';
import { turnOf, type Turn } from './shape-turn.ts';
import { meshBounds, movedMesh } from './shape-volume.ts';
import { shifted } from './shift.ts';
import type { ReachingSolid } from './mold-clip.ts';
import { SolidError, type Bounds, type Profile, type TriangleMesh } from './solid.ts';

export interface Pose {
  readonly xMm: number;
  readonly yMm: number;
  readonly baseMm: number;
  readonly turnDeg: readonly [number, number, number];
  readonly scale: number;
}

export interface OrientOptions {
  readonly shape: Shape;
  readonly turnDeg: readonly [number, number, number];
  readonly scale: number;
  /** The shape's closed mesh (mm, z up) when it is a `mesh` or `library` shape. */
  readonly mesh?: TriangleMesh;
}

/** A shape scaled and turned, its bounds centered on the z axis, its lowest point at height 0. */
export interface OrientedSolid {
  /** Extent of the bounds along x, y, z. */
  readonly sizeMm: readonly [number, number, number];
  readonly profile: Profile;
  /** Of a mesh, what its profile was summed from and its sections are cut from. */
  readonly index?: HeightIndex;
  /** Made on the first call. */
  mesh(): TriangleMesh;
  /** Greatest d·p over its points, where a formula gives it. */
  readonly reach?: (direction: Direction) => number;
  /** Of a curved primitive, a mesh of some hundred triangles. */
  readonly coarseMesh?: () => TriangleMesh;
  /** Of a mesh too fine to be joined with others: a lighter closed copy, made on the first call. */
  readonly joinedMesh?: () => TriangleMesh;
}

/** Triangles of a mesh that is joined as it is: the library for it takes some kB for each, and has 2 GB. */
const MOST_JOINED = 1_000_000;
/** Triangles of the copy that is joined instead of a finer one: its volume is right to 1e-4, as measured on rings and stars. */
const JOINED = 300_000;

/**
 * @throws {Error} if a `mesh` or `library` shape comes without its mesh or with an empty one.
 * Cost: closed forms none; other shapes one `meshProfile`.
 */
export function orientSolid(options: OrientOptions): OrientedSolid {
  const { shape, turnDeg, scale, mesh } = options;
  const turn = turnOf(turnDeg);
  if (shape.type === 'mesh' || shape.type === 'library') return orientMesh(requiredMesh(shape, mesh), turn, scale);
  return orientPrimitive(scaledShape(shape, scale), turn);
}

/** Only shifts: the profile by the base, the mesh (copied on its first call) by all three. */
export function placeSolid(oriented: OrientedSolid, at: { xMm: number; yMm: number; baseMm: number }): ReachingSolid {
  const { xMm, yMm, baseMm } = at;
  const [length, width, height] = oriented.sizeMm;
  const { reach, coarseMesh, joinedMesh } = oriented;
  let placed: TriangleMesh | undefined;
  return {
    bounds: {
      min: [xMm - length / 2, yMm - width / 2, baseMm],
      max: [xMm + length / 2, yMm + width / 2, baseMm + height],
    },
    profile: shifted(oriented.profile, baseMm),
    mesh: () => (placed ??= movedMesh(oriented.mesh(), xMm, yMm, baseMm)),
    uprightMesh: () => oriented.mesh(),
    reach: reach && ((d) => reach(d) + d[0] * xMm + d[1] * yMm + d[2] * baseMm),
    coarseMesh: coarseMesh && (() => movedMesh(coarseMesh(), xMm, yMm, baseMm)),
    joinedMesh: joinedMesh && (() => movedMesh(joinedMesh(), xMm, yMm, baseMm)),
  };
}

/** Both steps at once. Errors as `orientSolid`. */
export function poseSolid(shape: Shape, pose: Pose, mesh?: TriangleMesh): ReachingSolid {
  return placeSolid(orientSolid({ shape, turnDeg: pose.turnDeg, scale: pose.scale, mesh }), pose);
}

function requiredMesh(shape: Extract<Shape, { type: 'mesh' | 'library' }>, mesh: TriangleMesh | undefined): TriangleMesh {
  const name = shape.type === 'mesh' ? shape.file : shape.name;
  if (!mesh) throw new SolidError(`The shape "${name}" came without its mesh; read it before placing it.`);
  if (mesh.indices.length === 0) throw new SolidError(`The shape "${name}" has no triangles; use a file that holds a solid.`);
  return mesh;
}

function orientMesh(mesh: TriangleMesh, turn: Turn, scale: number): OrientedSolid {
  // The pose does not depend on where the mesh's origin is: from its middle, digits hold for meshes far away.
  const turned = turnedMesh(mesh, turn, scale, middleOf(meshBounds(mesh)));
  const { min, max } = meshBounds(turned);
  const centered = movedMesh(turned, -(min[0] + max[0]) / 2, -(min[1] + max[1]) / 2, -min[2]);
  const profile = meshProfile(centered);
  let joined: TriangleMesh | undefined;
  const joinedMesh = (): TriangleMesh => (joined ??= doubles(lighterCopy(centered.positions, centered.indices, JOINED)));
  return {
    sizeMm: [max[0] - min[0], max[1] - min[1], max[2] - min[2]],
    profile,
    index: profile.index,
    mesh: () => centered,
    ...(mesh.indices.length / 3 > MOST_JOINED && { joinedMesh }),
  };
}

function orientPrimitive(shape: Primitive, turn: Turn): OrientedSolid {
  const min: [number, number, number] = [0, 0, 0];
  const max: [number, number, number] = [0, 0, 0];
  for (let k = 0; k < 3; k++) {
    const [x, y, z] = [turn[3 * k], turn[3 * k + 1], turn[3 * k + 2]];
    max[k] = primitiveReach(shape, [x, y, z]);
    min[k] = -primitiveReach(shape, [-x, -y, -z]);
  }
  const build = (fineness: Fineness): TriangleMesh =>
    movedMesh(turnedMesh(facets(shape, fineness), turn, 1, [0, 0, 0]), -(min[0] + max[0]) / 2, -(min[1] + max[1]) / 2, -min[2]);
  let solid: TriangleMesh | undefined;
  return {
    sizeMm: [max[0] - min[0], max[1] - min[1], max[2] - min[2]],
    profile: closedProfile(shape, [turn[6], turn[7], turn[8]]) ?? within(meshProfile(build('profile')), max[2] - min[2]),
    mesh: () => (solid ??= build('solid')),
    coarseMesh: cornersOf(shape) ? undefined : () => build('heap'),
    reach: (d) => primitiveReach(shape, ownDirection(turn, d)) - (d[0] * (min[0] + max[0])) / 2 - (d[1] * (min[1] + max[1])) / 2 - d[2] * min[2],
  };
}

/** A direction of the world seen from the shape: the turn's transpose. */
function ownDirection(m: Turn, [x, y, z]: Direction): Direction {
  return [m[0] * x + m[3] * y + m[6] * z, m[1] * x + m[4] * y + m[7] * z, m[2] * x + m[5] * y + m[8] * z];
}

/** Facets reach past the true lowest and highest point by a hair; nothing is told of that. */
function within(profile: Profile, heightMm: number): Profile {
  const { volumeMm3 } = profile;
  return {
    bottomMm: 0,
    topMm: heightMm,
    volumeMm3,
    volumeBelow: (z) => (z > 0 ? (z < heightMm ? profile.volumeBelow(z) : volumeMm3) : 0),
    areaAt: (z) => (z >= 0 && z < heightMm ? profile.areaAt(z) : 0),
    levelOf: (volume) => Math.min(heightMm, Math.max(0, profile.levelOf(volume))),
  };
}

/** Every length of a primitive times the scale, a measured volume times its cube. */
export function scaledShape(shape: Primitive, k: number): Primitive {
  switch (shape.type) {
    case 'sphere': return { ...shape, radiusMm: k * shape.radiusMm };
    case 'cylinder':
    case 'cone': return { ...shape, radiusMm: k * shape.radiusMm, heightMm: k * shape.heightMm };
    case 'cap': return { ...shape, sphereRadiusMm: k * shape.sphereRadiusMm, rimRadiusMm: k * shape.rimRadiusMm };
    case 'measured': return { ...shape, ...scaledSizes(shape, k), volumeMl: k ** 3 * shape.volumeMl };
    default: return { ...shape, ...scaledSizes(shape, k) };
  }
}

function scaledSizes(sizes: { lengthMm: number; widthMm: number; heightMm: number }, k: number): typeof sizes {
  return { lengthMm: k * sizes.lengthMm, widthMm: k * sizes.widthMm, heightMm: k * sizes.heightMm };
}

function doubles({ positions, indices }: DrawnMesh): TriangleMesh {
  return { positions: Float64Array.from(positions), indices };
}

/** A copy scaled and turned about a point, which then is the origin. */
export function turnedMesh(mesh: TriangleMesh, m: Turn, scale: number, from: readonly [number, number, number]): TriangleMesh {
  const { positions: p, indices } = mesh;
  const positions = new Float64Array(p.length);
  for (let i = 0; i < p.length; i += 3) {
    const x = scale * (p[i] - from[0]);
    const y = scale * (p[i + 1] - from[1]);
    const z = scale * (p[i + 2] - from[2]);
    positions[i] = m[0] * x + m[1] * y + m[2] * z;
    positions[i + 1] = m[3] * x + m[4] * y + m[5] * z;
    positions[i + 2] = m[6] * x + m[7] * y + m[8] * z;
  }
  return { positions, indices };
}

export function middleOf({ min, max }: Bounds): [number, number, number] {
  return [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2];
}
