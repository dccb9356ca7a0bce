/** A painted creature's form as level outlines: each stands for a slab about its height, as far as half way to the next. Plain arithmetic, mm. */

import type { ViewContour } from './props.ts';
import type { Ray } from './ray.ts';

/** Lines along all of them, six numbers a piece. */
export function contourPieces(contours: readonly ViewContour[]): Float32Array {
  return Float32Array.from(contours.flatMap(({ atMm, loops }) => loops.flatMap((loop) => {
    const n = loop.length;
    return Array.from({ length: n / 2 }, (_, i) => [loop[2 * i], loop[2 * i + 1], atMm, loop[(2 * i + 2) % n], loop[(2 * i + 3) % n], atMm]).flat();
  })));
}

/** Distance along the sight, in its direction's lengths, to where it enters the first slab; null: it passes by. */
export function hitContours(contours: readonly ViewContour[], { origin, direction }: Ray): number | null {
  let nearest = Infinity;
  contours.forEach(({ loops }, k) => {
    const [from, to] = within(origin[2], direction[2], slabOf(contours, k));
    if (from >= Math.min(to, nearest)) return;
    if (isInside(loops, origin[0] + from * direction[0], origin[1] + from * direction[1])) nearest = from;
    else nearest = Math.min(nearest, firstCrossing(loops, { origin, direction }, from, to));
  });
  return nearest === Infinity ? null : nearest;
}

/** From where to where its slab reaches. */
export function slabOf(contours: readonly ViewContour[], k: number): readonly [number, number] {
  const at = contours[k].atMm;
  const [below, above] = [k > 0 ? at - contours[k - 1].atMm : null, k + 1 < contours.length ? contours[k + 1].atMm - at : null];
  return [at - (below ?? above ?? 0) / 2, at + (above ?? below ?? 0) / 2];
}

/** The part of the sight, from its origin on, that is between two heights. */
function within(z: number, dz: number, [low, high]: readonly [number, number]): readonly [number, number] {
  if (dz === 0) return z >= low && z <= high ? [0, Infinity] : [Infinity, 0];
  const [a, b] = [(low - z) / dz, (high - z) / dz];
  return [Math.max(0, Math.min(a, b)), Math.max(a, b)];
}

/** Even and odd crossings of a ray to the right. */
function isInside(loops: ViewContour['loops'], x: number, y: number): boolean {
  let inside = false;
  for (const loop of loops) {
    for (let i = 0, j = loop.length - 2; i < loop.length; j = i, i += 2) {
      if (loop[i + 1] > y !== loop[j + 1] > y && x < loop[i] + ((y - loop[i + 1]) / (loop[j + 1] - loop[i + 1])) * (loop[j] - loop[i])) inside = !inside;
    }
  }
  return inside;
}

/** Where the sight first crosses a side between two distances; Infinity: nowhere. */
function firstCrossing(loops: ViewContour['loops'], { origin: [ox, oy], direction: [dx, dy] }: Ray, from: number, to: number): number {
  let first = Infinity;
  for (const loop of loops) {
    for (let i = 0, j = loop.length - 2; i < loop.length; j = i, i += 2) {
      const [ex, ey] = [loop[i] - loop[j], loop[i + 1] - loop[j + 1]];
      const [px, py] = [loop[j] - ox, loop[j + 1] - oy];
      const across = dx * ey - dy * ex;
      const t = (px * ey - py * ex) / across; // seen along a side neither is finite: no crossing
      const s = (px * dy - py * dx) / across;
      if (s >= 0 && s <= 1 && t >= from && t <= to && t < first) first = t;
    }
  }
  return first;
}
