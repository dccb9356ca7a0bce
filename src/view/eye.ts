/**
 * Where the piece is seen from: the five named looks, the closed-form distance at which it just fits, turning,
 * moving along and coming nearer, all clamped so that it can't be lost. Mold frame, mm, radians.
 */

import type { Bounds } from '../core/solid/solid.ts';
import type { SeenFrom } from './props.ts';

export type Vec3 = readonly [number, number, number];

export interface Eye {
  /** Direction from the target to the eye: counter-clockwise from +x, and up from the level. */
  readonly azimuth: number;
  readonly elevation: number;
  readonly target: Vec3;
  readonly distanceMm: number;
  /** The distance at which the whole piece fits the picture; the clamps are measured in it. */
  readonly fitMm: number;
}

/** The picture, CSS px. The margins stay free of the piece: pour numbers stand in the right one. */
export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly margin: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
}

export interface EyeBasis {
  readonly right: Vec3;
  readonly up: Vec3;
  /** From the target towards the eye. */
  readonly back: Vec3;
}

const DEG = Math.PI / 180;
/** Vertical angle of view. Narrow: a drawn box hardly runs together. */
export const VIEW_ANGLE = 22 * DEG;
const LOOKS: Record<SeenFrom, readonly [azimuth: number, elevation: number]> = {
  corner: [-64 * DEG, 34 * DEG],
  front: [-90 * DEG, 12 * DEG],
  end: [0, 12 * DEG],
  above: [-90 * DEG, 90 * DEG],
  below: [-90 * DEG, -90 * DEG],
};
/** Never level with the floor, from either side: it would hide the piece. By hand the eye stays on its side. */
const LOWEST = 4 * DEG;
const NEAREST = 0.12;
const FARTHEST = 1.7;
/** How far the target may leave the piece, as a share of its longest side. */
const STRAY = 0.15;
/** A margin never takes more than this share of a side. */
const MARGIN_SHARE = 0.3;

export function basisOf(azimuth: number, elevation: number): EyeBasis {
  const [ca, sa, ce, se] = [Math.cos(azimuth), Math.sin(azimuth), Math.cos(elevation), Math.sin(elevation)];
  return { right: [-sa, ca, 0], up: [-se * ca, -se * sa, ce], back: [ce * ca, ce * sa, se] };
}

export function positionOf(eye: Eye): Vec3 {
  const { back } = basisOf(eye.azimuth, eye.elevation);
  return [0, 1, 2].map((k) => eye.target[k] + eye.distanceMm * back[k]) as unknown as Vec3;
}

/** The eye for a named look, the whole piece inside the margins and as large as they allow. */
export function lookFrom(seen: SeenFrom, bounds: Bounds, frame: Frame): Eye {
  return fitted(LOOKS[seen][0], LOOKS[seen][1], bounds, frame);
}

/**
 * A corner with offsets x, y and nearness d from the target is seen at x/(D − d). Asking that to lie between −a
 * and b for every corner after sliding the target along by s is linear in D and s, so the least D is a maximum
 * over pairs of corners: D = (max(x + b·d) + max(−x + a·d)) / (a + b).
 */
export function fitted(azimuth: number, elevation: number, bounds: Bounds, frame: Frame): Eye {
  const basis = basisOf(azimuth, elevation);
  const middle = middleOf(bounds);
  const corners = cornersOf(bounds).map((corner) => {
    const from: Vec3 = [corner[0] - middle[0], corner[1] - middle[1], corner[2] - middle[2]];
    return { x: dot(from, basis.right), y: dot(from, basis.up), d: dot(from, basis.back) };
  });
  const perPx = (2 * Math.tan(VIEW_ANGLE / 2)) / frame.height;
  const { left, right, top, bottom } = frame.margin;
  const [a, b] = [half(frame.width, left), half(frame.width, right)].map((px) => px * perPx);
  const [low, high] = [half(frame.height, bottom), half(frame.height, top)].map((px) => px * perPx);
  const fit = Math.max(leastDistance(corners.map(({ x, d }) => [x, d]), a, b), leastDistance(corners.map(({ y, d }) => [y, d]), low, high));
  const slideX = slide(corners.map(({ x, d }) => [x, d]), [a, b], fit);
  const slideY = slide(corners.map(({ y, d }) => [y, d]), [low, high], fit);
  const target = [0, 1, 2].map((k) => middle[k] + slideX * basis.right[k] + slideY * basis.up[k]) as unknown as Vec3;
  return { azimuth, elevation, target, distanceMm: fit, fitMm: fit };
}

/** Turned by hand: `right` and `up` in radians. */
export function turned(eye: Eye, right: number, up: number): Eye {
  const [low, high] = eye.elevation < 0 ? [-Math.PI / 2, -LOWEST] : [LOWEST, Math.PI / 2];
  return { ...eye, azimuth: eye.azimuth + right, elevation: clamp(eye.elevation + up, low, high) };
}

/** The piece slid by px of the picture; the target stays at the piece. */
export function panned(eye: Eye, [dx, dy]: readonly [number, number], bounds: Bounds, frame: Frame): Eye {
  const { right, up } = basisOf(eye.azimuth, eye.elevation);
  const perPx = mmPerPx(eye, frame);
  return { ...eye, target: nearPiece([0, 1, 2].map((k) => eye.target[k] - perPx * (dx * right[k] - dy * up[k])) as unknown as Vec3, bounds) };
}

/** Nearer by a factor (over 1: larger), keeping what lies under the given px offset from the picture's middle there. */
export function zoomed(eye: Eye, factor: number, around: readonly [number, number], bounds: Bounds, frame: Frame): Eye {
  const distanceMm = clamp(eye.distanceMm / factor, NEAREST * eye.fitMm, FARTHEST * eye.fitMm);
  const share = 1 - distanceMm / eye.distanceMm;
  const moved = panned(eye, [-around[0] * share, -around[1] * share], bounds, frame);
  return { ...moved, distanceMm };
}

/** Between two eyes, t from 0 to 1, the shorter way round, eased out. */
export function between(from: Eye, to: Eye, t: number): Eye {
  const s = 1 - (1 - clamp(t, 0, 1)) ** 3;
  const round = to.azimuth - from.azimuth;
  const shorter = round - 2 * Math.PI * Math.round(round / (2 * Math.PI));
  return {
    azimuth: from.azimuth + s * shorter,
    elevation: mix(from.elevation, to.elevation, s),
    target: [0, 1, 2].map((k) => mix(from.target[k], to.target[k], s)) as unknown as Vec3,
    distanceMm: Math.exp(mix(Math.log(from.distanceMm), Math.log(to.distanceMm), s)),
    fitMm: mix(from.fitMm, to.fitMm, s),
  };
}

/** Size of a px at the target. */
export function mmPerPx(eye: Eye, frame: Frame): number {
  return (2 * Math.tan(VIEW_ANGLE / 2) * eye.distanceMm) / frame.height;
}

/** Where a point is seen, CSS px from the picture's top left, and how far in front of the eye (mm; ≤ 0: behind it). */
export function seenAt(eye: Eye, point: Vec3, frame: Frame): { readonly x: number; readonly y: number; readonly ahead: number } {
  const { right, up, back } = basisOf(eye.azimuth, eye.elevation);
  const from: Vec3 = [point[0] - eye.target[0], point[1] - eye.target[1], point[2] - eye.target[2]];
  const ahead = eye.distanceMm - dot(from, back);
  const scale = frame.height / (2 * Math.tan(VIEW_ANGLE / 2) * ahead);
  return { x: frame.width / 2 + dot(from, right) * scale, y: frame.height / 2 - dot(from, up) * scale, ahead };
}

/** The line of sight through a px of the picture. */
export function sightThrough(eye: Eye, [px, py]: readonly [number, number], frame: Frame): { origin: Vec3; direction: Vec3 } {
  const { right, up, back } = basisOf(eye.azimuth, eye.elevation);
  const perPx = (2 * Math.tan(VIEW_ANGLE / 2)) / frame.height;
  const [x, y] = [(px - frame.width / 2) * perPx, (frame.height / 2 - py) * perPx];
  const along = [0, 1, 2].map((k) => x * right[k] + y * up[k] - back[k]);
  const length = Math.hypot(...along);
  return { origin: positionOf(eye), direction: along.map((v) => v / length) as unknown as Vec3 };
}

function leastDistance(seen: readonly (readonly [number, number])[], a: number, b: number): number {
  const far = Math.max(...seen.map(([x, d]) => x + b * d)) + Math.max(...seen.map(([x, d]) => a * d - x));
  return far / (a + b);
}

/** The middle of the slides that keep every corner inside. */
function slide(seen: readonly (readonly [number, number])[], [a, b]: readonly number[], distance: number): number {
  const least = Math.max(...seen.map(([x, d]) => x - b * (distance - d)));
  const most = Math.min(...seen.map(([x, d]) => x + a * (distance - d)));
  return (least + most) / 2;
}

function half(side: number, margin: number): number {
  return side / 2 - Math.min(margin, MARGIN_SHARE * side);
}

function nearPiece(target: Vec3, { min, max }: Bounds): Vec3 {
  const stray = STRAY * Math.max(max[0] - min[0], max[1] - min[1], max[2] - min[2]);
  return [0, 1, 2].map((k) => clamp(target[k], min[k] - stray, max[k] + stray)) as unknown as Vec3;
}

function middleOf({ min, max }: Bounds): Vec3 {
  return [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2];
}

function cornersOf({ min, max }: Bounds): Vec3[] {
  return [0, 1, 2, 3, 4, 5, 6, 7].map((c) => [c & 1 ? max[0] : min[0], c & 2 ? max[1] : min[1], c & 4 ? max[2] : min[2]] as Vec3);
}

function dot(a: Vec3, b: Vec3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function mix(a: number, b: number, t: number): number {
  return a + (b - a) * t;
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}
