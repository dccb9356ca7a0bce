/**
 * Refraction on purpose: where to paint so that, from a chosen eye point, paint under resin is seen where the creature itself
 * would be seen without it. An eye sees along a straight line in air to the face, and from there along the bent ray; so from
 * the place on the face both ways are closed forms, exact at every angle.
 */
import type { Creature, EyePoint, Scene } from '../scene/scene.ts';
import type { Sections } from '../solid/section.ts';
import type { Region } from './region.ts';
import { asideMm, faceMm, seenDepthMm, stepsBetween, type Step, type Stratum } from './water.ts';

/** mm. How far a drawn edge may stray from the bent one: a fortieth of a pen's finest line. */
const STRAY_MM = 0.005;
/** Halvings of an edge: 1/256 of it is straight at any size of mold. */
const HALVINGS = 8;

/** Of one plane of a creature: from its section to the show face as the eye sees it there, and from the face to the paint. */
export interface PlaneSight {
  seen(section: Region): Region;
  painted(onFace: Region): Region;
}

/** Looked at straight from far away nothing is moved. */
export const STRAIGHT: PlaneSight = { seen: (section) => section, painted: (onFace) => onFace };

/** For a creature's plane at a height. With `stretch` it is to look as deep as the resin makes it look, without as deep as it lies. */
export function planeSight(scene: Pick<Scene, 'cast' | 'fillMm'>, read: EyePoint, { strata, atMm }: { readonly strata: readonly Stratum[]; readonly atMm: number }): PlaneSight {
  const over = stepsBetween(strata, faceMm(scene), atMm);
  const drawn = onFaceScale(read, over);
  return {
    seen: (section) => section.map((loop) => loop.map((at, i) => centered(at, i, read, drawn))),
    painted: (onFace) => onFace.map((loop) => bentLoop(loop, (x, y) => paintedAt(x, y, read, over))),
  };
}

/** How much smaller paint is than the section it shows, near the point under the eye: (h + Σ d/n)/(h + depth it is to look from). */
export function paraxialScale(scene: Pick<Scene, 'cast' | 'fillMm'>, read: EyePoint, { strata, atMm }: { readonly strata: readonly Stratum[]; readonly atMm: number }): number {
  const over = stepsBetween(strata, faceMm(scene), atMm);
  return onFaceScale(read, over) * (1 + seenDepthMm(over) / read.eyeMm);
}

/** Without resin: a point of the creature lies on a straight line from the eye through this share of its distance. */
export function onFaceScale({ eyeMm, stretch }: EyePoint, over: readonly Step[]): number {
  const deepMm = stretch ? seenDepthMm(over) : over.reduce((sum, { mm }) => sum + mm, 0);
  return eyeMm / (eyeMm + deepMm);
}

function centered(at: number, i: number, { eyeXMm, eyeYMm }: EyePoint, scale: number): number {
  const middle = i % 2 === 0 ? eyeXMm : eyeYMm;
  return middle + scale * (at - middle);
}

/** Where the eye's ray through a place on the face meets the plane, mm. */
export function paintedAt(xMm: number, yMm: number, { eyeMm, eyeXMm, eyeYMm }: EyePoint, over: readonly Step[]): [number, number] {
  const [dx, dy] = [xMm - eyeXMm, yMm - eyeYMm];
  const outMm = Math.hypot(dx, dy);
  if (outMm === 0) return [xMm, yMm];
  const farther = asideMm(over, outMm / Math.hypot(outMm, eyeMm)) / outMm;
  return [xMm + farther * dx, yMm + farther * dy];
}

/** A loop with every point moved, and points added where a straight edge bends. */
function bentLoop(loop: Float64Array, move: (x: number, y: number) => [number, number]): Float64Array {
  const out: number[] = [];
  const edge = (ax: number, ay: number, [px, py]: [number, number], bx: number, by: number, [qx, qy]: [number, number], left: number): void => {
    const middle = move((ax + bx) / 2, (ay + by) / 2);
    if (left === 0 || Math.hypot(middle[0] - (px + qx) / 2, middle[1] - (py + qy) / 2) <= STRAY_MM) return;
    edge(ax, ay, [px, py], (ax + bx) / 2, (ay + by) / 2, middle, left - 1);
    out.push(...middle);
    edge((ax + bx) / 2, (ay + by) / 2, middle, bx, by, [qx, qy], left - 1);
  };
  const n = loop.length;
  for (let i = 0; i < n; i += 2) {
    const [ax, ay, bx, by] = [loop[i], loop[i + 1], loop[(i + 2) % n], loop[(i + 3) % n]];
    const from = move(ax, ay);
    out.push(...from);
    edge(ax, ay, from, bx, by, move(bx, by), HALVINGS);
  }
  return Float64Array.from(out);
}

/**
 * A creature built deeper than it is, so that it looks as deep as it is: resin draws every millimeter of depth together to
 * 1/n, so n are built. Its lowest point stays; outside the resin nothing is stretched.
 */
export function stretched(sections: Sections, strata: readonly Stratum[]): Sections {
  const { min, max } = sections.bounds;
  const baseMm = min[2];
  return {
    bounds: { min, max: [max[0], max[1], builtTop(strata, baseMm, max[2] - baseMm)] },
    at: (zMm) => sections.at(baseMm + readHeight(strata, baseMm, zMm)),
  };
}

/** As the creature is to be cut: stretched where it asks for it. */
export function builtSections(sections: Sections, { read }: Pick<Creature, 'read'>, strata: readonly Stratum[]): Sections {
  return read?.stretch ? stretched(sections, strata) : sections;
}

/** How high over the base a built height is meant to look, mm. */
function readHeight(strata: readonly Stratum[], baseMm: number, zMm: number): number {
  if (zMm <= baseMm) return zMm - baseMm;
  const within = stepsBetween(strata, baseMm, zMm);
  return seenDepthMm(within) + (zMm - baseMm) - within.reduce((sum, { mm }) => sum + mm, 0);
}

/** The built height that looks so high over the base, mm up from the floor. */
export function builtTop(strata: readonly Stratum[], baseMm: number, tallMm: number): number {
  let z = baseMm;
  let left = tallMm;
  const under = Math.min(left, Math.max(0, -baseMm));
  z += under;
  left -= under;
  for (const { mm, stratum: { index } } of stepsBetween(strata, baseMm, Infinity)) {
    const seen = Math.min(left, mm / index);
    z += seen * index;
    left -= seen;
  }
  return z + left;
}
