/** The mold's inside at one height, and the marks round it that lie at the same place on every template of a piece. */
import type { Mold, Scene } from '../scene/scene.ts';
import type { Box, Point, Ring } from './polygon.ts';

/** mm. No point of the line is farther than this from the true arc. */
const SAG_MM = 0.002;
/** mm. Register marks stand this far out from the widest outline's box; the drawing's edge follows, with the words over it. */
const MARK_OUT_MM = 6;
const EDGE_MM = 4;
const WORDS_MM = 6;
/** mm. Room for the words between the marks of a small mold. */
const LEAST_HALF_MM = 26;

/** The wall's line at a height, looking down into the mold; draft widens it, corners keep their radius. */
export function moldRing(mold: Mold, zMm: number): Ring {
  const growth = leanOut(mold, zMm);
  if (mold.shape === 'round') return arc(0, 0, mold.diameterMm / 2 + growth, 0, 2 * Math.PI).slice(0, -1);
  const [halfX, halfY] = [mold.lengthMm / 2 + growth, mold.widthMm / 2 + growth];
  const r = mold.cornerRadiusMm;
  if (r === 0) return [[-halfX, -halfY], [halfX, -halfY], [halfX, halfY], [-halfX, halfY]];
  const corners: readonly (readonly [number, number])[] = [[1, 1], [-1, 1], [-1, -1], [1, -1]];
  return corners.flatMap(([sx, sy], i) => arc(sx * (halfX - r), sy * (halfY - r), r, (i * Math.PI) / 2, Math.PI / 2));
}

/** How far half of the inside reaches at a height: along the length, along the width. */
export function halfInside(mold: Mold, zMm: number): Point {
  const growth = leanOut(mold, zMm);
  return mold.shape === 'round' ? [mold.diameterMm / 2 + growth, mold.diameterMm / 2 + growth] : [mold.lengthMm / 2 + growth, mold.widthMm / 2 + growth];
}

const leanOut = (mold: Mold, zMm: number): number => zMm * Math.tan((mold.draftDeg * Math.PI) / 180);

function arc(cx: number, cy: number, r: number, from: number, by: number): Point[] {
  const n = Math.max(2, Math.ceil(by / (2 * Math.acos(Math.max(-1, 1 - SAG_MM / Math.max(r, SAG_MM))))));
  return Array.from({ length: n + 1 }, (_, i) => [cx + r * Math.cos(from + (by * i) / n), cy + r * Math.sin(from + (by * i) / n)]);
}

export interface TemplateFrame {
  /** What every drawing of the piece takes up, down being positive: the middle of the mold is 0, 0. */
  readonly bounds: Box;
  /** Where its four register marks stand. */
  readonly marks: readonly Point[];
  /** Half of the widest inside. */
  readonly half: Point;
}

/** One for all planes of a piece, so that their pages lie on each other mark on mark. */
export function templateFrame({ mold, fillMm }: Pick<Scene, 'mold' | 'fillMm'>): TemplateFrame {
  const half = halfInside(mold, fillMm);
  const [x, y] = [Math.max(half[0] + MARK_OUT_MM, LEAST_HALF_MM), half[1] + MARK_OUT_MM];
  return {
    half,
    bounds: { x0: -x - EDGE_MM, y0: -y - EDGE_MM - WORDS_MM, x1: x + EDGE_MM, y1: y + EDGE_MM },
    marks: [[-x, -y], [x, -y], [x, y], [-x, y]],
  };
}
