/** A creature's guides with the colors that its mesh brings: what is newly visible on each plane, and the paints for it. */
import type { Scene } from '../../scene/scene.ts';
import type { PlaneGuide } from '../guide.ts';
import { nearestFirst } from '../parallax.ts';
import { regionBounds } from '../region.ts';
import type { Bend } from './bend.ts';
import type { ColoredMesh } from './colored-mesh.ts';
import { mainColors, type MainColor } from './main-colors.ts';
import type { PlacedPicture } from './picture.ts';
import { slabColors } from './slab.ts';

export interface PlaneColors {
  readonly picture: PlacedPicture;
  /** The largest share first. */
  readonly main: readonly MainColor[];
}

/** mm. A guide's pixel: a small creature's are smaller, down to what printers resolve. */
const PIXEL_MM = 0.25;
/** 300 to the inch. */
const FINEST_MM = 25.4 / 300;
/** Pixels that a creature is worth from end to end, where they need not be smaller than the finest. */
const ACROSS = 1000;
/** Pixels of one plane: what is larger has larger ones. Some 24 MB while it is drawn, 8 MB after. */
const MOST_PIXELS = 2e6;

export interface ColoringOptions {
  readonly cast: Scene['cast'];
  /** Of a creature drawn for an eye point; null: looked at straight. */
  readonly bend?: Bend | null;
}

/**
 * The guides of one creature, in their order; those where nothing with a color newly shows stay as they are.
 * `posed`: its colors where it stands (`posedColors`). @throws {SolidError} as `slabColors`
 */
export function withColors(guides: readonly PlaneGuide[], posed: ColoredMesh, { cast, bend = null }: ColoringOptions): PlaneGuide[] {
  if (guides.length === 0) return [];
  const fromAbove = cast !== 'face-down';
  const mesh = bend ? posed.map((part) => ({ ...part, positions: part.positions.map((at, i) => (i % 3 === 2 ? bend.builtMm(at) : at)) })) : posed;
  const stack = nearestFirst(guides, guides[0].creatureId);
  const pixelMm = pixelFor(guides);
  return guides.map((guide): PlaneGuide => {
    const nearer = stack[stack.indexOf(guide) - 1]?.atMm ?? (fromAbove ? Infinity : -Infinity);
    const colors = slabColors(mesh, { fresh: guide.fresh, fromMm: Math.min(guide.atMm, nearer), toMm: Math.max(guide.atMm, nearer), fromAbove, pixelMm, move: bend?.painted(guide.atMm) });
    return colors ? { ...guide, colors: { picture: colors.picture, main: mainColors(colors.light) } } : guide;
  });
}

/** One size for all planes of a creature. */
function pixelFor(guides: readonly PlaneGuide[]): number {
  const boxes = guides.flatMap(({ fresh }) => regionBounds(fresh) ?? []);
  const wide = boxes.map(({ minX, maxX }) => maxX - minX);
  const high = boxes.map(({ minY, maxY }) => maxY - minY);
  const wanted = Math.min(PIXEL_MM, Math.max(FINEST_MM, Math.max(0, ...wide, ...high) / ACROSS));
  const largestMm2 = Math.max(0, ...boxes.map((_, i) => wide[i] * high[i]));
  return Math.max(wanted, Math.sqrt(largestMm2 / MOST_PIXELS));
}
