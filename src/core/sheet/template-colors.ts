/** The colors that a creature brings, on a plane's template: the picture of what newly shows, and a patch of each main color. */
import type { PlaneGuide } from '../sight/guide.ts';
import { percent } from '../units/format.ts';
import type { PictureItem } from './document.ts';
import type { Block } from './flow.ts';
import { gap, paragraph } from './flow.ts';
import type { Lettering } from './pen.ts';
import { LINE } from './pen.ts';
import type { Point } from './polygon.ts';
import { rectangle } from './polygon.ts';

/** What the pictures of guides are known by; a patch is a picture of one pixel and known by its color. */
export const pictureName = ({ planeId, creatureId }: PlaneGuide): string => `colors ${creatureId} ${planeId}`;

/** In the mold's own coordinates, down positive. */
export function colorsOnPaper(guide: PlaneGuide): PictureItem[] {
  if (!guide.colors) return [];
  const { leftMm, topMm, width, height, pixelMm } = guide.colors.picture;
  const [right, bottom] = [leftMm + width * pixelMm, topMm - height * pixelMm];
  const corners: readonly [Point, Point, Point] = [[leftMm, -topMm], [right, -topMm], [leftMm, -bottom]];
  return [{ kind: 'picture', picture: pictureName(guide), full: true, corners }];
}

/** mm. */
const PATCH_WIDE = 16;
const PATCH_HIGH = 7;

/** What to mix, the most first. */
export function colorBlocks({ colors }: PlaneGuide, widthMm: number, lettering: Lettering): Block[] {
  if (!colors) return [];
  return [
    gap(1),
    paragraph(['Its colors here, as they are to look, and how much of what shows is in each:'], widthMm, lettering, { afterMm: 1 }),
    ...colors.main.map(({ hex, words, share }) => patch(hex, `${percent(share, 0)}  ${words}, ${hex}`, widthMm, lettering)),
  ];
}

/** A color as printed, and words on it. */
export function patch(hex: string, words: string, widthMm: number, lettering: Lettering): Block {
  const text = paragraph([words], widthMm - PATCH_WIDE - 4, lettering);
  return {
    heightMm: Math.max(text.heightMm, PATCH_HIGH) + 1.6,
    draw(pen, x, y) {
      const [right, low] = [x + PATCH_WIDE, y + PATCH_HIGH];
      pen.items.push({ kind: 'picture', picture: hex, full: true, corners: [[x, y], [right, y], [x, low]] });
      pen.shape([rectangle(x, y, right, low)], { strokeMm: LINE.hair });
      text.draw(pen, right + 4, y);
    },
  };
}
