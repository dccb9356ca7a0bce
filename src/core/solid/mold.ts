/**
 * The mold's inside: volume, section and walls, by closed form.
 *
 * Draft leans the walls out: every half-size grows by z·tan(draft); the corner radius is the same at every
 * height. The walls go on above the rim by the same rule; below the floor there is nothing. The inside is
 * convex: a frustum, for rounded corners widened by a level disc.
 */

import type { BoxMold, Mold, RoundMold } from '../scene/scene.ts';
import { bandTriangles } from './shape-disc.ts';
import { levelWhere } from './shape-level.ts';
import type { TriangleMesh } from './solid.ts';

/** mm. Levels are promised to 1e-12; the root is closed to a tenth of that. */
const LEVEL_TOLERANCE_MM = 1e-13;

/**
 * Sides of the polygon that stands for a full circle in `moldCutter`. A chord's sag is then 4.7e-6 of the radius,
 * half of it in and half out: ungulas cut by it were measured within 1e-9 of their closed form, wedges cut upright
 * within 1e-6. 2048 sides took booleans three times as long.
 */
const CIRCLE_SIDES = 1024;

/** Area of the level section at height z, mm²; 0 below the floor. */
export function moldAreaAt(mold: Mold, zMm: number): number {
  if (zMm < 0) return 0;
  const growth = zMm * slope(mold);
  if (mold.shape === 'round') return Math.PI * (mold.diameterMm / 2 + growth) ** 2;
  const { lengthMm, widthMm, cornerRadiusMm: r } = mold;
  return (lengthMm + 2 * growth) * (widthMm + 2 * growth) - (4 - Math.PI) * r * r;
}

/**
 * Inside volume below height z, mm³; 0 at and below the floor, walls extrapolated above the rim.
 * Source: standard mensuration formulas (conical frustum, prismatoid, rounded-corner rectangle).
 */
export function moldVolumeBelow(mold: Mold, zMm: number): number {
  if (!(zMm > 0)) return 0;
  const t = slope(mold);
  if (mold.shape === 'round') {
    const r = mold.diameterMm / 2;
    return Math.PI * zMm * (r * r + zMm * t * (r + (zMm * t) / 3));
  }
  const { lengthMm: l, widthMm: w, cornerRadiusMm: r } = mold;
  return zMm * (l * w - (4 - Math.PI) * r * r + zMm * t * (l + w + (4 / 3) * zMm * t));
}

/** Height at which `volumeMm3` fills the empty mold, mm, to 1e-12; 0 for ≤ 0. Walls extrapolated above the rim. */
export function moldLevelOf(mold: Mold, volumeMm3: number): number {
  if (!(volumeMm3 > 0)) return 0;
  const highest = volumeMm3 / moldAreaAt(mold, 0); // sections only widen upward
  if (mold.draftDeg === 0) return highest;
  return levelWhere({
    volumeBelow: (z) => moldVolumeBelow(mold, z),
    areaAt: (z) => moldAreaAt(mold, z),
    lowMm: 0,
    highMm: highest,
    target: volumeMm3,
    toleranceMm: LEVEL_TOLERANCE_MM,
  });
}

/**
 * How far a point lies beyond the wall, mm, square to it; negative inside (there a lower bound in size
 * near corners). A point below the floor is held against the section at the floor.
 */
export function moldWallOvershoot(mold: Mold, xMm: number, yMm: number, zMm: number): number {
  const t = slope(mold);
  const growth = Math.max(0, zMm) * t;
  if (mold.shape === 'round') return (Math.hypot(xMm, yMm) - mold.diameterMm / 2 - growth) / Math.hypot(1, t);
  // Distance to the corner's center line, then out by the radius.
  const r = mold.cornerRadiusMm;
  const dx = Math.abs(xMm) - (mold.lengthMm / 2 - r + growth);
  const dy = Math.abs(yMm) - (mold.widthMm / 2 - r + growth);
  if (dx > 0 && dy > 0) {
    const away = Math.hypot(dx, dy);
    return (away - r) / Math.hypot(1, (t * (dx + dy)) / away);
  }
  return (Math.max(dx, dy) - r) / Math.hypot(1, t);
}

/**
 * The inside from the floor to `topMm` as a closed mesh, counter-clockwise seen from outside, for booleans.
 * At every height its section has exactly the area of the true one: corners of the polygons that stand for
 * arcs are set a little outside (about 1e-6 of the radius).
 *
 * @throws {Error} if `topMm` is not above the floor.
 */
export function moldCutter(mold: Mold, topMm: number): TriangleMesh {
  if (!(topMm > 0)) throw new Error(`The mold's inside was asked for up to ${topMm} mm; give a height above 0 mm.`);
  const outline = mold.shape === 'round' ? roundOutline : boxOutline;
  const low = outline(mold as never, 0);
  const high = outline(mold as never, topMm * slope(mold));
  const n = low.length / 2;
  const positions = new Float64Array(6 * n);
  for (let i = 0; i < n; i++) {
    positions.set([low[2 * i], low[2 * i + 1], 0], 3 * i);
    positions.set([high[2 * i], high[2 * i + 1], topMm], 3 * (n + i));
  }
  const indices = new Uint32Array(3 * (4 * n - 4));
  let at = 0;
  const triangle = (a: number, b: number, c: number): void => {
    indices[at++] = a;
    indices[at++] = b;
    indices[at++] = c;
  };
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    triangle(i, j, n + j);
    triangle(i, n + j, n + i);
  }
  at = bandTriangles(indices, at, { first: 0, count: n, faceUp: false });
  bandTriangles(indices, at, { first: n, count: n, faceUp: true });
  return { positions, indices };
}

function slope(mold: Mold): number {
  return mold.draftDeg === 0 ? 0 : Math.tan((mold.draftDeg * Math.PI) / 180);
}

/** Corners x, y counter-clockwise; polygon area π(R + growth)². */
function roundOutline(mold: RoundMold, growth: number): number[] {
  const step = (2 * Math.PI) / CIRCLE_SIDES;
  const radius = (mold.diameterMm / 2 + growth) * Math.sqrt(step / Math.sin(step));
  const corners: number[] = [];
  for (let i = 0; i < CIRCLE_SIDES; i++) {
    // Half a step off the axes, so that no corner lies in a plane a solid is likely to have.
    const angle = (i + 0.5) * step;
    corners.push(radius * Math.cos(angle), radius * Math.sin(angle));
  }
  return corners;
}

/** Corners x, y counter-clockwise. An arc's ends lie on the flats, its other corners outside by a factor k. */
function boxOutline(mold: BoxMold, growth: number): number[] {
  const r = mold.cornerRadiusMm;
  const x = mold.lengthMm / 2 + growth;
  const y = mold.widthMm / 2 + growth;
  if (r === 0) return [x, -y, x, y, -x, y, -x, -y];
  const sides = CIRCLE_SIDES / 4;
  const step = Math.PI / 2 / sides;
  // ½ sin(step) (2k + (sides − 2)k²) = π/4, solved for k.
  const k = (Math.sqrt(1 + ((sides - 2) * Math.PI) / (2 * Math.sin(step))) - 1) / (sides - 2);
  const corners: number[] = [];
  for (let quarter = 0; quarter < 4; quarter++) {
    const cx = (quarter === 0 || quarter === 3 ? 1 : -1) * (x - r);
    const cy = (quarter < 2 ? 1 : -1) * (y - r);
    for (let i = 0; i <= sides; i++) {
      const angle = (quarter * Math.PI) / 2 + i * step;
      const out = i === 0 || i === sides ? r : k * r;
      corners.push(cx + out * Math.cos(angle), cy + out * Math.sin(angle));
    }
  }
  return corners;
}
