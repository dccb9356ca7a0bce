/**
 * Closed meshes of the primitives, in their own frame, counter-clockwise seen from outside.
 *
 * Curved ones are turned outlines: rings of regular polygons whose area is the circle's (corners a little
 * outside), then widened level by level so that the mesh has the volume of the closed form to rounding.
 * Corners are set off the axes by an odd angle, so that they do not fall into planes that cuts are made in.
 */

import { cornersOf, primitiveVolume, type Primitive } from './primitives.ts';
import { bandTriangles } from './shape-disc.ts';
import { turnOf } from './shape-turn.ts';
import { meshVolume } from './shape-volume.ts';
import type { TriangleMesh } from './solid.ts';

/**
 * `solid`: for booleans and pictures. `profile`: where slices of the mesh itself must be right to 1e-5.
 * `heap`: for booleans among so many that `solid` would not fit in memory.
 */
export type Fineness = 'solid' | 'profile' | 'heap';

/**
 * Sides of a turned solid. A volume cut from it is off by at most about (2π/sides)²/12 of the whole:
 * 5e-5 at 256 and 8e-7 at 2048. Doubly curved shapes cost sides × rings and get fewer: half a ball lying on its
 * side, 256 × 128, was measured at most 1.8e-6 of the whole off at any height; what two balls of 96 × 48 share, 2e-5 (a thin lens) to 3e-7.
 * Booleans take about 4 µs a triangle and more where many meet in one corner, so `solid` has no more than it needs.
 */
const STRAIGHT_SIDES: Record<Fineness, number> = { heap: 48, solid: 256, profile: 2048 };
const CURVED_SIDES: Record<Fineness, number> = { heap: 24, solid: 96, profile: 256 };
/** Rings per half turn of the outline. */
const RINGS: Record<Fineness, number> = { heap: 12, solid: 48, profile: 256 };
/** A flat cap has few rings by angle alone; its height still needs this many. */
const FEWEST_CAP_RINGS: Record<Fineness, number> = { heap: 6, solid: 24, profile: 96 };
/** Degrees. Keeps a sphere's poles and rings out of level and upright planes. */
const ODD_TURN_DEG = [17.3, 28.7, 41.9] as const;
/** Share of one side by which corners are set off the x axis. */
const ODD_PHASE = 0.3819660112501051;

/** Sizes in mm as the shape gives them (not scaled). Base at height 0 where there is one, else centered. */
export function facets(shape: Primitive, fineness: Fineness = 'solid'): TriangleMesh {
  switch (shape.type) {
    case 'sphere': return ball(shape.radiusMm, shape.radiusMm, shape.radiusMm, fineness);
    case 'ellipsoid': return ball(shape.lengthMm / 2, shape.widthMm / 2, shape.heightMm / 2, fineness);
    case 'box':
    case 'measured':
    case 'wedge': return polyhedron(shape);
    case 'cylinder': {
      const { radiusMm: r, heightMm: h } = shape;
      return exactly(turned([[r, 0], [r, h]], STRAIGHT_SIDES[fineness]), primitiveVolume(shape));
    }
    case 'cone': {
      const { radiusMm: r, heightMm: h } = shape;
      return exactly(turned([[r, 0], [0, h]], STRAIGHT_SIDES[fineness]), primitiveVolume(shape));
    }
    case 'cap': return capMesh(shape.sphereRadiusMm, shape.rimRadiusMm, fineness, primitiveVolume(shape));
  }
}

const BOX_TRIANGLES = [0, 2, 1, 0, 3, 2, 4, 5, 6, 4, 6, 7, 0, 1, 5, 0, 5, 4, 1, 2, 6, 1, 6, 5, 2, 3, 7, 2, 7, 6, 3, 0, 4, 3, 4, 7];
const WEDGE_TRIANGLES = [0, 2, 1, 0, 3, 2, 1, 2, 5, 1, 5, 4, 0, 1, 4, 3, 5, 2, 0, 4, 5, 0, 5, 3];

function polyhedron(shape: Primitive): TriangleMesh {
  return {
    positions: cornersOf(shape)!,
    indices: Uint32Array.from(shape.type === 'wedge' ? WEDGE_TRIANGLES : BOX_TRIANGLES),
  };
}

/** An ellipsoid of half-sizes a, b, c about the origin: a faceted unit sphere, oddly turned, then stretched. */
function ball(a: number, b: number, c: number, fineness: Fineness): TriangleMesh {
  const outline: [number, number][] = [];
  const rings = RINGS[fineness];
  for (let i = 0; i <= rings; i++) {
    const angle = (Math.PI * i) / rings;
    outline.push([i === 0 || i === rings ? 0 : Math.sin(angle), -Math.cos(angle)]);
  }
  const { positions: p, indices } = turned(outline, CURVED_SIDES[fineness]);
  const grow = Math.cbrt((4 * Math.PI) / 3 / meshVolume({ positions: p, indices }));
  const m = turnOf(ODD_TURN_DEG);
  for (let i = 0; i < p.length; i += 3) {
    const x = p[i], y = p[i + 1], z = p[i + 2];
    p[i] = a * grow * (m[0] * x + m[1] * y + m[2] * z);
    p[i + 1] = b * grow * (m[3] * x + m[4] * y + m[5] * z);
    p[i + 2] = c * grow * (m[6] * x + m[7] * y + m[8] * z);
  }
  return { positions: p, indices };
}

/** Rim down at height 0, the smaller cap of the sphere. */
function capMesh(sphereRadius: number, rimRadius: number, fineness: Fineness, volume: number): TriangleMesh {
  const half = Math.asin(Math.min(1, rimRadius / sphereRadius));
  const rings = Math.max(FEWEST_CAP_RINGS[fineness], Math.ceil((RINGS[fineness] * half) / Math.PI));
  const outline: [number, number][] = [];
  for (let i = 0; i <= rings; i++) {
    const angle = half * (1 - i / rings);
    // Height over the rim plane as a difference of cosines, by a product that keeps its digits in flat caps.
    const z = 2 * sphereRadius * Math.sin((half + angle) / 2) * Math.sin((half - angle) / 2);
    outline.push([i === rings ? 0 : i === 0 ? rimRadius : sphereRadius * Math.sin(angle), z]);
  }
  return exactly(turned(outline, CURVED_SIDES[fineness]), volume);
}

/** Widens a mesh about the z axis, heights kept, until it holds `volume`. */
function exactly(mesh: TriangleMesh, volume: number): TriangleMesh {
  const wider = Math.sqrt(volume / meshVolume(mesh));
  for (let i = 0; i < mesh.positions.length; i += 3) {
    mesh.positions[i] *= wider;
    mesh.positions[i + 1] *= wider;
  }
  return mesh;
}

/** Turns an outline [radius, height], given upward, about the z axis; radius 0 at an end is a point, else a flat face. */
function turned(outline: readonly (readonly [number, number])[], sides: number): TriangleMesh {
  const step = (2 * Math.PI) / sides;
  const areaTrue = Math.sqrt(step / Math.sin(step));
  const rings = outline.filter(([radius]) => radius > 0);
  const positions = new Float64Array(3 * (rings.length * sides + outline.length - rings.length));
  rings.forEach(([radius, z], ring) => {
    for (let i = 0; i < sides; i++) {
      const angle = (i + ODD_PHASE) * step;
      positions.set([radius * areaTrue * Math.cos(angle), radius * areaTrue * Math.sin(angle), z], 3 * (ring * sides + i));
    }
  });
  const pointBelow = outline[0][0] === 0;
  const pointAbove = outline[outline.length - 1][0] === 0;
  const bottom = rings.length * sides;
  const top = bottom + (pointBelow ? 1 : 0);
  if (pointBelow) positions[3 * bottom + 2] = outline[0][1];
  if (pointAbove) positions[3 * top + 2] = outline[outline.length - 1][1];

  const last = (rings.length - 1) * sides;
  const faces = (pointBelow ? sides : sides - 2) + (pointAbove ? sides : sides - 2);
  const indices = new Uint32Array(3 * (2 * last + faces));
  let at = 0;
  for (let i = 0; i < sides; i++) {
    const j = (i + 1) % sides;
    for (let ring = 0; ring < last; ring += sides) {
      indices.set([ring + i, ring + j, ring + sides + j, ring + i, ring + sides + j, ring + sides + i], at);
      at += 6;
    }
    if (pointBelow) {
      indices.set([bottom, j, i], at);
      at += 3;
    }
    if (pointAbove) {
      indices.set([top, last + i, last + j], at);
      at += 3;
    }
  }
  if (!pointBelow) at = bandTriangles(indices, at, { first: 0, count: sides, faceUp: false });
  if (!pointAbove) bandTriangles(indices, at, { first: last, count: sides, faceUp: true });
  return { positions, indices };
}
