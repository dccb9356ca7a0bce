/**
 * The primitives by closed form: volume, reach in any direction, and the displacement profile wherever a
 * formula gives it. Frames: sphere and ellipsoid about their center; the others stand on height 0.
 *
 * A profile depends only on `up`, the world's vertical seen from the shape: turns about it change nothing.
 * Sources: standard mensuration formulas (sphere, spherical cap and segment, cone, lying cylinder's circular
 * segment). Ellipsoid: an affine image of the sphere, so that sections keep their ratio under any turn.
 */

import type { Shape } from '../scene/scene.ts';
import { levelWhere } from './shape-level.ts';
import type { Profile } from './solid.ts';

export type Primitive = Exclude<Shape, { type: 'mesh' } | { type: 'library' }>;

/** A unit direction in the shape's own frame. */
export type Direction = readonly [number, number, number];

/** Share of the height: the doubles' spacing with a margin for the formulas' rounding. */
const LEVEL_TOLERANCE = 1e-15;

/** Volume in mm³. */
export function primitiveVolume(shape: Primitive): number {
  switch (shape.type) {
    case 'sphere': return (4 / 3) * Math.PI * shape.radiusMm ** 3;
    case 'ellipsoid': return (Math.PI / 6) * shape.lengthMm * shape.widthMm * shape.heightMm;
    case 'box': return shape.lengthMm * shape.widthMm * shape.heightMm;
    case 'wedge': return (shape.lengthMm * shape.widthMm * shape.heightMm) / 2;
    case 'measured': return shape.volumeMl * 1000;
    case 'cylinder': return Math.PI * shape.radiusMm ** 2 * shape.heightMm;
    case 'cone': return (Math.PI * shape.radiusMm ** 2 * shape.heightMm) / 3;
    case 'cap': return segmentVolume(shape.sphereRadiusMm, capHeight(shape));
  }
}

/** How far the shape reaches in a direction: the greatest value of d·p over its points, mm. */
export function primitiveReach(shape: Primitive, d: Direction): number {
  const across = Math.hypot(d[0], d[1]);
  switch (shape.type) {
    case 'sphere': return shape.radiusMm;
    case 'ellipsoid': return Math.hypot(shape.lengthMm * d[0], shape.widthMm * d[1], shape.heightMm * d[2]) / 2;
    case 'cylinder': return shape.radiusMm * across + Math.max(0, shape.heightMm * d[2]);
    case 'cone': return Math.max(shape.radiusMm * across, shape.heightMm * d[2]);
    case 'cap': {
      const r = shape.sphereRadiusMm;
      const center = capHeight(shape) - r;
      return r * d[2] + center >= 0 ? r + center * d[2] : shape.rimRadiusMm * across;
    }
    default: {
      const corners = cornersOf(shape)!;
      let reach = -Infinity;
      for (let i = 0; i < corners.length; i += 3) {
        reach = Math.max(reach, corners[i] * d[0] + corners[i + 1] * d[1] + corners[i + 2] * d[2]);
      }
      return reach;
    }
  }
}

/**
 * The exact profile of a shape turned so that `up` points up, its lowest point at height 0; null where there is
 * no closed form (flat-sided shapes, whose meshes are exact, and cylinder, cone and cap at a slant).
 */
export function closedProfile(shape: Primitive, up: Direction): Profile | null {
  const volume = primitiveVolume(shape);
  const upright = up[0] === 0 && up[1] === 0;
  switch (shape.type) {
    case 'sphere':
    case 'ellipsoid': return ballProfile(volume, 2 * primitiveReach(shape, up));
    case 'cylinder': {
      const { radiusMm: r, heightMm: h } = shape;
      if (upright) return profileFrom(h, volume, (z) => (volume * z) / h, () => volume / h);
      if (up[2] !== 0) return null;
      return profileFrom(2 * r, volume, (z) => h * circleSegment(r, z), (z) => 2 * h * Math.sqrt(z * (2 * r - z)));
    }
    case 'cone': {
      if (!upright) return null;
      const { radiusMm: r, heightMm: h } = shape;
      const base = Math.PI * r * r;
      return up[2] > 0
        ? profileFrom(h, volume, (z) => (base * z * (1 - (z / h) * (1 - z / (3 * h)))), (z) => base * (1 - z / h) ** 2)
        : profileFrom(h, volume, (z) => volume * (z / h) ** 3, (z) => base * (z / h) ** 2);
    }
    case 'cap': {
      if (!upright) return null;
      const r = shape.sphereRadiusMm;
      const h = capHeight(shape);
      return up[2] > 0
        ? profileFrom(h, volume, (z) => volume - segmentVolume(r, h - z), (z) => Math.PI * (h - z) * (2 * r - h + z))
        : profileFrom(h, volume, (z) => segmentVolume(r, z), (z) => Math.PI * z * (2 * r - z));
    }
    default: return null;
  }
}

/** Height of the smaller cap, R − √(R² − a²), without losing the digits of flat ones. */
export function capHeight(shape: Extract<Primitive, { type: 'cap' }>): number {
  const { sphereRadiusMm: r, rimRadiusMm: a } = shape;
  return (a * a) / (r + Math.sqrt(Math.max(0, r * r - a * a)));
}

/** Corners x, y, z of the flat-sided primitives, eight of a box, six of a wedge; null for curved ones. */
export function cornersOf(shape: Primitive): Float64Array | null {
  if (shape.type !== 'box' && shape.type !== 'measured' && shape.type !== 'wedge') return null;
  const plan = shape.type === 'measured' ? measuredPlanScale(shape) : 1;
  const x = (shape.lengthMm * plan) / 2;
  const y = (shape.widthMm * plan) / 2;
  const h = shape.heightMm;
  const floor = [-x, -y, 0, x, -y, 0, x, y, 0, -x, y, 0];
  const lid = shape.type === 'wedge' ? [x, -y, h, x, y, h] : [-x, -y, h, x, -y, h, x, y, h, -x, y, h];
  return Float64Array.from([...floor, ...lid]);
}

/** A measured object is a prism of its full height; its plan shrinks until the volume is the measured one. */
function measuredPlanScale(shape: Extract<Primitive, { type: 'measured' }>): number {
  return Math.sqrt((shape.volumeMl * 1000) / (shape.lengthMm * shape.widthMm * shape.heightMm));
}

/** Spherical segment of height h, πh²(3R − h)/3. */
function segmentVolume(r: number, h: number): number {
  return (Math.PI * h * h * (3 * r - h)) / 3;
}

/** Circular segment of height h, r² acos((r − h)/r) − (r − h)√(2rh − h²). */
function circleSegment(r: number, h: number): number {
  const chordHalf = Math.sqrt(h * (2 * r - h));
  return r * r * Math.atan2(chordHalf, r - h) - (r - h) * chordHalf;
}

function ballProfile(volume: number, height: number): Profile {
  return profileFrom(
    height,
    volume,
    (z) => volume * (z / height) ** 2 * (3 - (2 * z) / height),
    (z) => ((6 * volume) / height) * (z / height) * (1 - z / height),
  );
}

/** A profile from its formulas for 0 < z < height. */
function profileFrom(height: number, volume: number, below: (z: number) => number, area: (z: number) => number): Profile {
  const volumeBelow = (z: number): number => (z > 0 ? (z < height ? below(z) : volume) : 0);
  // At a flat face the limit from above: the base's own area at 0, nothing at the top.
  const areaAt = (z: number): number => (z >= 0 && z < height ? area(z) : 0);
  return {
    bottomMm: 0,
    topMm: height,
    volumeMm3: volume,
    volumeBelow,
    areaAt,
    levelOf: (target) => {
      if (!(target > 0)) return 0;
      if (target >= volume) return height;
      // Rounding of the volume is worth this much height; a finer bracket would chase noise.
      return levelWhere({ volumeBelow, areaAt, lowMm: 0, highMm: height, target, toleranceMm: height * LEVEL_TOLERANCE });
    },
  };
}
