/** What can be set in a mold without asking: simple shapes and beds in sizes that suit it, and where they come to stand. */
import type { SceneFile } from '../../core/scene/edit/file.ts';
import type { Shape } from '../../core/scene/scene.ts';
import { halfSizes } from '../card/place-words.ts';

export interface Offer {
  readonly words: string;
  readonly shape: Shape;
  readonly name?: string;
}

/** A new simple shape is this share of the mold's smaller inside size. */
const SHAPE_SHARE = 0.25;
/** And no higher than this share of the resin. */
const HEIGHT_SHARE = 0.5;
/** A new slope rises to this share of the resin, a level bed to half of that. */
const BED_SHARE = 0.3;
/** Sizes are offered in whole steps, mm. */
const STEP_MM = 1;

/** Simple shapes, sized to the mold. */
export function shapeOffers(file: SceneFile): readonly Offer[] {
  const { xMm, yMm } = halfSizes(file);
  const size = whole(Math.min(2 * Math.min(xMm, yMm) * SHAPE_SHARE, file.fillMm * HEIGHT_SHARE));
  const radius = size / 2;
  return [
    { words: 'ball', shape: { type: 'sphere', radiusMm: radius } },
    { words: 'egg', shape: { type: 'ellipsoid', lengthMm: size * 1.5, widthMm: size, heightMm: size } },
    { words: 'block', shape: { type: 'box', lengthMm: size, widthMm: size, heightMm: size } },
    { words: 'cylinder', shape: { type: 'cylinder', radiusMm: radius, heightMm: size } },
    { words: 'cone', shape: { type: 'cone', radiusMm: radius, heightMm: size } },
    { words: 'dome', shape: { type: 'cap', sphereRadiusMm: size, rimRadiusMm: size * 0.8 } },
  ];
}

/** Beds that reach from wall to wall. */
export function bedOffers(file: SceneFile): readonly Offer[] {
  const { xMm, yMm } = halfSizes(file);
  const high = whole(file.fillMm * BED_SHARE);
  const across = { lengthMm: 2 * xMm, widthMm: 2 * yMm };
  return [
    { words: 'a slope, rising to the right', name: 'Slope', shape: { type: 'wedge', ...across, heightMm: high } },
    { words: 'a level ground', name: 'Ground', shape: levelBed(file) },
    { words: 'a rock', name: 'Rock', shape: { type: 'library', name: 'rock' } },
  ];
}

/** From wall to wall, as loose gravel lies too. */
export function levelBed(file: SceneFile): Shape {
  const { xMm, yMm } = halfSizes(file);
  return { type: 'box', lengthMm: 2 * xMm, widthMm: 2 * yMm, heightMm: Math.max(STEP_MM, whole((file.fillMm * BED_SHARE) / 2)) };
}

function whole(mm: number): number {
  return Math.max(STEP_MM, Math.round(mm / STEP_MM) * STEP_MM);
}
