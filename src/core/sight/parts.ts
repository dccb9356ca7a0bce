/** The separate parts of a region, and what one part looks like. */
import { insideRegion, loopArea, loopLength, regionArea, regionBounds, regionPerimeter, type Loop, type Region, type Regions } from './region.ts';

/** Each outer loop with the holes in it, largest first. */
export function partsOf(region: Region): Region[] {
  const outers = region.filter((loop) => loopArea(loop) > 0).sort((a, b) => loopArea(a) - loopArea(b));
  const parts = outers.map((outer): Loop[] => [outer]);
  for (const loop of region) {
    if (loopArea(loop) >= 0) continue;
    // The smallest outer loop round it: outers are in order of size.
    const host = parts.find(([outer]) => insideRegion([outer], loop[0], loop[1]));
    host?.push(loop);
  }
  return parts.reverse();
}

/** Center of its area, mm (polygon centroid, mensuration). */
export function centerOf(part: Region): { readonly xMm: number; readonly yMm: number } {
  const [x0, y0] = part[0];
  let twice = 0;
  let x = 0;
  let y = 0;
  for (const loop of part) {
    for (let i = 0, j = loop.length - 2; i < loop.length; j = i, i += 2) {
      const cross = (loop[j] - x0) * (loop[i + 1] - y0) - (loop[i] - x0) * (loop[j + 1] - y0);
      twice += cross;
      x += cross * (loop[j] + loop[i] - 2 * x0);
      y += cross * (loop[j + 1] + loop[i + 1] - 2 * y0);
    }
  }
  return twice === 0 ? { xMm: x0, yMm: y0 } : { xMm: x0 + x / (3 * twice), yMm: y0 + y / (3 * twice) };
}

/** mm². Regions that share less only touch. */
const TOUCH_MM2 = 0.1;
/** Corners of each that are tried before the regions are cut: nearly always one of them tells. */
const CORNERS_TRIED = 16;

/** Whether two regions lie over each other, if only in part. */
export function overlap(a: Region, b: Region, regions: Regions): boolean {
  const [boxA, boxB] = [regionBounds(a), regionBounds(b)];
  if (!boxA || !boxB || boxA.minX > boxB.maxX || boxB.minX > boxA.maxX || boxA.minY > boxB.maxY || boxB.minY > boxA.maxY) return false;
  return cornerInside(a, b) || cornerInside(b, a) || regionArea(regions.meet(a, b)) > TOUCH_MM2;
}

function cornerInside(a: Region, b: Region): boolean {
  const [loop] = a;
  const step = 2 * Math.ceil(loop.length / 2 / CORNERS_TRIED);
  for (let i = 0; i < loop.length; i += step) if (insideRegion(b, loop[i], loop[i + 1])) return true;
  return false;
}

/** 4πA/P²: 1 of a circle, near 0 of a thread. */
export function roundness(part: Region): number {
  const perimeter = regionPerimeter(part);
  return perimeter > 0 ? (4 * Math.PI * regionArea(part)) / perimeter ** 2 : 0;
}

/** A circle's diameter of the same area, mm. */
export function acrossMm(part: Region): number {
  return 2 * Math.sqrt(Math.max(0, regionArea(part)) / Math.PI);
}

/** Half the outline's length: how long a thin part is, mm. */
export function lengthMm(part: Region): number {
  return loopLength(part[0]) / 2;
}
