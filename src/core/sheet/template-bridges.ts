/** Islands of a stencil: paper that an opening surrounds and that would fall out, and the bridges that hold it. */
import type { Loop, Region, Regions } from '../sight/region.ts';
import { insideRegion, loopArea, loopLength } from '../sight/region.ts';
import type { Point } from './polygon.ts';

/** mm. Narrower tears (common practice, no source). */
export const BRIDGE_MM = 3;
/** mm. An island with a longer edge swings on one bridge. */
const TWO_BRIDGES_MM = 40;
/** mm. How far a bridge reaches into the paper at both ends. */
const INTO_MM = 1;
/** Points along an edge among which the nearest are looked for. */
const MOST_POINTS = 400;
/** Islands that get bridges; what has more is no stencil. */
export const MOST_ISLANDS = 60;

export interface Bridged {
  /** What to cut: the opening without its bridges. */
  readonly cut: Region;
  /** Middle of each bridge. */
  readonly bridges: readonly Point[];
  readonly islands: number;
}

/** Every island is joined to paper that holds, by the shortest way; larger ones by a second bridge from their far side. */
export function bridged(opening: Region, regions: Regions): Bridged {
  const outers = opening.filter((loop) => loopArea(loop) > 0);
  const holes = opening.filter((loop) => loopArea(loop) < 0);
  const strips: Loop[] = [];
  const bridges: Point[] = [];
  for (const outer of outers) {
    const waiting = holes.filter((hole) => ownerOf(hole, outers) === outer).slice(0, MOST_ISLANDS).map((loop) => ({ loop, points: along(loop) }));
    const held = [along(outer)];
    while (waiting.length > 0) {
      const best = waiting.map((island, i) => ({ i, island, way: nearest(island.points, held) })).reduce((a, b) => (b.way.length < a.way.length ? b : a));
      const ways = [best.way];
      if (loopLength(best.island.loop) > TWO_BRIDGES_MM) ways.push(nearest(farSide(best.island.points, best.way.from), held));
      for (const { from, to } of ways) {
        strips.push(strip(from, to));
        bridges.push([(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]);
      }
      held.push(best.island.points);
      waiting.splice(best.i, 1);
    }
  }
  return { cut: strips.length === 0 ? opening : regions.minus(opening, regions.unite(strips.map((loop) => [loop]))), bridges, islands: holes.length };
}

/** The smallest outer loop round a hole. */
function ownerOf(hole: Loop, outers: readonly Loop[]): Loop | undefined {
  return outers.filter((outer) => insideRegion([outer], hole[0], hole[1])).sort((a, b) => loopArea(a) - loopArea(b))[0];
}

/** Points along a loop, evenly. */
function along(loop: Loop): Point[] {
  const stepMm = Math.max(0.5, loopLength(loop) / MOST_POINTS);
  const points: Point[] = [];
  for (let i = 0, j = loop.length - 2; i < loop.length; j = i, i += 2) {
    const [dx, dy] = [loop[i] - loop[j], loop[i + 1] - loop[j + 1]];
    const pieces = Math.max(1, Math.ceil(Math.hypot(dx, dy) / stepMm));
    for (let k = 1; k <= pieces; k++) points.push([loop[j] + (dx * k) / pieces, loop[j + 1] + (dy * k) / pieces]);
  }
  const every = Math.max(1, Math.floor(points.length / MOST_POINTS));
  return points.filter((_, i) => i % every === 0);
}

interface Way {
  readonly from: Point;
  readonly to: Point;
  readonly length: number;
}

function nearest(points: readonly Point[], held: readonly (readonly Point[])[]): Way {
  let best: Way = { from: points[0], to: held[0][0], length: Infinity };
  for (const from of points) {
    for (const edge of held) {
      for (const to of edge) {
        const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
        if (length < best.length) best = { from, to, length };
      }
    }
  }
  return best;
}

/** The points of an island that lie beyond its middle, seen from its first bridge. */
function farSide(points: readonly Point[], from: Point): Point[] {
  const [mx, my] = points.reduce(([x, y], [px, py]) => [x + px / points.length, y + py / points.length], [0, 0]);
  const far = points.filter(([x, y]) => (x - mx) * (from[0] - mx) + (y - my) * (from[1] - my) < 0);
  return far.length > 0 ? far : [...points];
}

function strip([ax, ay]: Point, [bx, by]: Point): Loop {
  const length = Math.hypot(bx - ax, by - ay) || 1;
  const [ux, uy] = [(bx - ax) / length, (by - ay) / length];
  const [nx, ny] = [(-uy * BRIDGE_MM) / 2, (ux * BRIDGE_MM) / 2];
  const [sx, sy, ex, ey] = [ax - INTO_MM * ux, ay - INTO_MM * uy, bx + INTO_MM * ux, by + INTO_MM * uy];
  return Float64Array.of(sx - nx, sy - ny, ex - nx, ey - ny, ex + nx, ey + ny, sx + nx, sy + ny);
}
