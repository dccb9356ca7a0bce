/**
 * The mold's inside outline as a ring of nodes, counter-clockwise from above, and which stretches of its wall are
 * drawn: those whose inner face is turned to the eye. The others are cut away, so that one looks in.
 *
 * A sharp corner is three nodes at one place: the last of one wall, the outer corner, the first of the next. So a
 * wall that ends beside a cut one ends square.
 */

import type { Mold } from '../core/scene/scene.ts';
import type { Bounds } from '../core/solid/solid.ts';
import type { Vec3 } from './eye.ts';

export interface OutlineNode {
  /** At the floor. */
  readonly x: number;
  readonly y: number;
  /** The node moves out by this times z·tan(draft). */
  readonly leanX: number;
  readonly leanY: number;
  /** The outer face stands this times the wall's thickness farther out. */
  readonly outX: number;
  readonly outY: number;
}

/** From node `at` to the next one. */
export interface Stretch {
  readonly at: number;
  readonly next: number;
  /** Outward, level, of length 1. */
  readonly normal: readonly [number, number];
  /** It is a sharp corner's outer piece: drawn when both walls beside it are. */
  readonly corner: boolean;
}

export interface Outline {
  readonly nodes: readonly OutlineNode[];
  readonly stretches: readonly Stretch[];
  /** tan(draft). */
  readonly lean: number;
  readonly wallMm: number;
  readonly heightMm: number;
}

/** Stretches of a full circle; a chord of a 300 mm mold leaves its arc by under 0.1 mm. */
const ROUND_STRETCHES = 120;
/** Stretches of a rounded corner. */
const CORNER_STRETCHES = 10;

export function outlineOf(mold: Mold): Outline {
  const nodes = mold.shape === 'round' ? circle(mold.diameterMm / 2) : box(mold.lengthMm / 2, mold.widthMm / 2, mold.cornerRadiusMm);
  const stretches = nodes.map((node, at): Stretch => {
    const next = (at + 1) % nodes.length;
    const [dx, dy] = [nodes[next].x - node.x, nodes[next].y - node.y];
    const length = Math.hypot(dx, dy);
    return length > 0 ? { at, next, normal: [dy / length, -dx / length], corner: false } : { at, next, normal: [0, 0], corner: true };
  });
  return { nodes, stretches, lean: Math.tan((mold.draftDeg * Math.PI) / 180), wallMm: mold.wallMm, heightMm: mold.heightMm };
}

/** The inner face of a node at a height. */
export function innerAt(outline: Outline, node: number, zMm: number): Vec3 {
  const { x, y, leanX, leanY } = outline.nodes[node];
  const lean = zMm * outline.lean;
  return [x + leanX * lean, y + leanY * lean, zMm];
}

/** The outer face of a node at a height; under the floor it goes straight down. */
export function outerAt(outline: Outline, node: number, zMm: number): Vec3 {
  const { outX, outY } = outline.nodes[node];
  const [x, y] = innerAt(outline, node, Math.max(0, zMm));
  return [x + outX * outline.wallMm, y + outY * outline.wallMm, zMm];
}

/** For each stretch, whether its wall is drawn for an eye there. */
export function keptFrom(outline: Outline, eye: Vec3): boolean[] {
  const { stretches, lean, heightMm } = outline;
  const facing = stretches.map(({ at, normal }) => {
    const [x, y, z] = innerAt(outline, at, heightMm / 2);
    return -(eye[0] - x) * normal[0] - (eye[1] - y) * normal[1] + lean * (eye[2] - z) > 0;
  });
  const count = stretches.length;
  return stretches.map(({ corner }, i) => (corner ? facing[wallBeside(stretches, i, count - 1)] && facing[wallBeside(stretches, i, 1)] : facing[i]));
}

/** The mold with its walls. */
export function moldBounds(outline: Outline): Bounds {
  const { heightMm, wallMm } = outline;
  const top = outline.nodes.map((_, i) => outerAt(outline, i, heightMm));
  const [xs, ys] = [top.map((p) => p[0]), top.map((p) => p[1])];
  return { min: [Math.min(...xs), Math.min(...ys), -wallMm], max: [Math.max(...xs), Math.max(...ys), heightMm] };
}

function wallBeside(stretches: readonly Stretch[], from: number, step: number): number {
  let i = from;
  do i = (i + step) % stretches.length;
  while (stretches[i].corner);
  return i;
}

function circle(radius: number): OutlineNode[] {
  return Array.from({ length: ROUND_STRETCHES }, (_, i) => {
    const angle = (2 * Math.PI * i) / ROUND_STRETCHES;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    return { x: radius * c, y: radius * s, leanX: c, leanY: s, outX: c, outY: s };
  });
}

function box(hx: number, hy: number, radius: number): OutlineNode[] {
  const round = Math.min(radius, hx, hy);
  const nodes: OutlineNode[] = [];
  for (let k = 0; k < 4; k++) {
    const [sx, sy] = [k === 0 || k === 3 ? 1 : -1, k < 2 ? 1 : -1];
    const steps = round > 0 ? CORNER_STRETCHES : 2;
    for (let i = 0; i <= steps; i++) {
      const angle = (Math.PI / 2) * (k + i / steps);
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      const sharp = round === 0 && i === 1; // the outer corner, where both walls' outer faces meet
      nodes.push({
        x: sx * (hx - round) + round * c, y: sy * (hy - round) + round * s, leanX: sx, leanY: sy,
        outX: sharp ? sx : c, outY: sharp ? sy : s,
      });
    }
  }
  return nodes;
}
