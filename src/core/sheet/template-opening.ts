/** The painted part of a drawing as one flat region: fills by their own rule, strokes with their width, round ends. */
import type { Loop, Region, Regions } from '../sight/region.ts';
import type { Box, Point, Ring } from './polygon.ts';
import { boxOf } from './polygon.ts';
import type { ArtShape } from './template-art.ts';

/** Sides of the circle at a stroke's end. */
const END_SIDES = 16;
/** Windings past this are no drawing's. */
const MOST_WINDINGS = 32;

const loopOf = (ring: Ring): Loop => Float64Array.from(ring.flat());
const turned = (ring: Ring): Ring => [...ring].reverse();

/** Shapes placed by `place`, which may turn and mirror; the stroke's width is a share of `widthMm`. */
export function paintedRegion(shapes: readonly ArtShape[], { place, widthMm, regions }: { place: (share: Point) => Point; widthMm: number; regions: Regions }): Region {
  const parts = shapes.flatMap(({ rings, fill, stroke }): Region[] => {
    const placed = rings.map(({ points, closed }) => ({ ring: points.map(place), closed }));
    const filled = placed.map(({ ring }) => ring).filter((ring) => ring.length > 2);
    return [
      ...(fill === 'nonzero' ? nonzero(filled, regions) : fill === 'evenodd' ? evenOdd(filled, regions) : []),
      ...(stroke > 0 ? [regions.unite([placed.flatMap(({ ring, closed }) => strokeLoops(ring, closed, (stroke * widthMm) / 2))])] : []),
    ];
  });
  return regions.unite(parts);
}

/** Where rings wind at all, either way round. */
function nonzero(rings: readonly Ring[], regions: Regions): Region[] {
  return [regions.unite([rings.map(loopOf)]), regions.unite([rings.map((ring) => loopOf(turned(ring)))])];
}

/** Where they wind an odd number of times: once and not twice, three times and not four, either way round. */
function evenOdd(rings: readonly Ring[], regions: Regions): Region[] {
  const { x0, y0, x1, y1 }: Box = boxOf(rings);
  // A frame that winds backward takes one winding off everything within it.
  const frame: Loop = Float64Array.of(x0 - 1, y0 - 1, x0 - 1, y1 + 1, x1 + 1, y1 + 1, x1 + 1, y0 - 1);
  const parts: Region[] = [];
  for (const way of [rings, rings.map(turned)]) {
    const over = (windings: number): Region => regions.unite([[...way.map(loopOf), ...Array<Loop>(windings).fill(frame)]]);
    for (let k = 0; k < MOST_WINDINGS; k += 2) {
      const odd = over(k);
      if (odd.length === 0) break;
      parts.push(regions.minus(odd, over(k + 1)));
    }
  }
  return parts;
}

/** Every stretch of a line with round ends, counterclockwise; together they wind once or more over the stroke. */
function strokeLoops(line: Ring, closed: boolean, half: number): Loop[] {
  const ends: [Point, Point][] = line.slice(1).map((point, i) => [line[i], point]);
  if (closed && line.length > 2) ends.push([line[line.length - 1], line[0]]);
  return ends.map(([[ax, ay], [bx, by]]) => {
    const along = Math.atan2(by - ay, bx - ax);
    const round = (x: number, y: number, from: number): number[] =>
      Array.from({ length: END_SIDES / 2 + 1 }, (_, i) => from + (Math.PI * i) / (END_SIDES / 2)).flatMap((at) => [x + half * Math.cos(at), y + half * Math.sin(at)]);
    return Float64Array.from([...round(bx, by, along - Math.PI / 2), ...round(ax, ay, along + Math.PI / 2)]);
  });
}
