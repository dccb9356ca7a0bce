/**
 * Where the number of a stencil's opening stands: inside its line where there is room, else outside, at every part of it,
 * and never on a line that is to be cut.
 */
import type { Loop, Region } from '../sight/region.ts';
import { loopArea } from '../sight/region.ts';
import type { Point } from './polygon.ts';

/** mm. From the middle of a number to the nearest line, and to another number. */
export const CLEAR_OF_LINES_MM = 1.9;
const CLEAR_OF_NUMBERS_MM = 5;
/** mm. From its own line. */
const OFF_MM = 2.1;
/** Places along a loop that are tried. */
const TRIES = 16;
/** Parts of an opening that get a number, the largest. */
const MOST_PARTS = 24;

/** Middles of the numbers of one opening, in mold coordinates. `lines`: all that is cut on the sheet; `taken`: other numbers. */
export function numberSpots(opening: Region, { lines, taken, share }: { readonly lines: Region; readonly taken: readonly Point[]; readonly share: number }): Point[] {
  const parts = opening.filter((loop) => loopArea(loop) > 0).sort((a, b) => loopArea(b) - loopArea(a)).slice(0, MOST_PARTS);
  const spots: Point[] = [];
  parts.forEach((loop, n) => {
    const free = ([x, y]: Point): boolean => [...taken, ...spots].every(([a, b]) => Math.hypot(a - x, b - y) >= CLEAR_OF_NUMBERS_MM) && isClear([x, y], lines);
    const inside = beside(loop, share, OFF_MM);
    // A part with room for none goes without; the largest always has one.
    const spot = inside.find(free) ?? beside(loop, share, -OFF_MM).find(free) ?? (n === 0 ? inside[0] : undefined);
    if (spot) spots.push(spot);
  });
  return spots;
}

/** Places beside a counterclockwise loop, to its left by `off`, beginning at a share of its way round. */
function beside(loop: Loop, share: number, off: number): Point[] {
  const edges = loop.length / 2;
  const tries = Math.min(TRIES, edges);
  return Array.from({ length: tries }, (_, k): Point => {
    const i = 2 * (Math.floor((share + k / tries) * edges) % edges);
    const j = (i + 2) % loop.length;
    const [dx, dy] = [loop[j] - loop[i], loop[j + 1] - loop[i + 1]];
    const length = Math.hypot(dx, dy) || 1;
    return [(loop[i] + loop[j]) / 2 - (off * dy) / length, (loop[i + 1] + loop[j + 1]) / 2 + (off * dx) / length];
  });
}

function isClear([x, y]: Point, lines: Region): boolean {
  return lines.every((loop) => {
    for (let i = 0, j = loop.length - 2; i < loop.length; j = i, i += 2) {
      const [dx, dy] = [loop[i] - loop[j], loop[i + 1] - loop[j + 1]];
      const along = Math.min(1, Math.max(0, ((x - loop[j]) * dx + (y - loop[j + 1]) * dy) / (dx * dx + dy * dy || 1)));
      if (Math.hypot(loop[j] + along * dx - x, loop[j + 1] + along * dy - y) < CLEAR_OF_LINES_MM) return false;
    }
    return true;
  });
}
