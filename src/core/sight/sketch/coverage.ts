/**
 * How much of a plane a sketch covers: level lines close together, on each the exact stretches that lie under paint.
 * Needs no polygon library, so that the page can tell it at once; checked against one.
 */
import type { Stroke } from '../../scene/scene.ts';
import { coveredHalfMm, stretchesOf, type Stretch } from './mark.ts';

/** mm between level lines: a stroke of 1 mm is crossed by eight. */
const LINE_MM = 0.125;
/** Lines at the most; a taller sketch gets them farther apart. */
const MOST_LINES = 4_000;

/** Area under paint, mm², counted to the middle of soft edges, overlaps once. By the midpoint rule: about right to a thousandth of a sketch over 1 cm². */
export function sketchArea(strokes: readonly Stroke[]): number {
  const stretches = strokes.flatMap((stroke) => stretchesOf(stroke, coveredHalfMm));
  const low = stretches.reduce((least, stretch) => Math.min(least, levels(stretch)[0]), Infinity);
  const high = stretches.reduce((most, stretch) => Math.max(most, levels(stretch)[1]), -Infinity);
  if (!(high > low)) return 0;
  const n = Math.min(MOST_LINES, Math.ceil((high - low) / LINE_MM));
  const step = (high - low) / n;
  const lines = Array.from({ length: n }, (): number[] => []);
  for (const stretch of stretches) {
    const [from, to] = levels(stretch);
    for (let i = Math.max(0, Math.ceil((from - low) / step - 0.5)); i < n && low + (i + 0.5) * step <= to; i++) {
      const span = spanAt(stretch, low + (i + 0.5) * step);
      if (span) lines[i].push(span[0], span[1]);
    }
  }
  return lines.reduce((sum, line) => sum + step * covered(line), 0);
}

const levels = ({ ay, aHalf, by, bHalf }: Stretch): [number, number] => [Math.min(ay - aHalf, by - bHalf), Math.max(ay + aHalf, by + bHalf)];

/** From where to where a level line lies in the hull of the two round marks: in either of them or in the four-sided piece between. */
function spanAt({ ax, ay, aHalf, bx, by, bHalf }: Stretch, y: number): [number, number] | null {
  let [low, high] = [Infinity, -Infinity];
  const take = (x: number): void => {
    low = Math.min(low, x);
    high = Math.max(high, x);
  };
  for (const [cx, cy, half] of [[ax, ay, aHalf], [bx, by, bHalf]]) {
    const square = half * half - (y - cy) * (y - cy);
    if (square < 0) continue;
    take(cx - Math.sqrt(square));
    take(cx + Math.sqrt(square));
  }
  const length = Math.hypot(bx - ax, by - ay);
  const lean = length === 0 ? 1 : (aHalf - bHalf) / length;
  if (Math.abs(lean) < 1) {
    // Where a straight edge touches both circles: its normal leans toward the smaller.
    const [ux, uy] = [(bx - ax) / length, (by - ay) / length];
    const up = Math.sqrt(1 - lean * lean);
    for (const side of [-1, 1]) {
      const [nx, ny] = [lean * ux - side * up * uy, lean * uy + side * up * ux];
      crossing(ax + aHalf * nx, ay + aHalf * ny, bx + bHalf * nx, by + bHalf * ny, y, take);
    }
  }
  return low <= high ? [low, high] : null;
}

function crossing(ax: number, ay: number, bx: number, by: number, y: number, take: (x: number) => void): void {
  if (ay === by || y < Math.min(ay, by) || y > Math.max(ay, by)) return;
  take(ax + ((y - ay) / (by - ay)) * (bx - ax));
}

/** Length of the union of spans, given as from, to, from, to … */
function covered(line: number[]): number {
  const spans: [number, number][] = [];
  for (let i = 0; i < line.length; i += 2) spans.push([line[i], line[i + 1]]);
  spans.sort((p, q) => p[0] - q[0]);
  let sum = 0;
  let reached = -Infinity;
  for (const [from, to] of spans) {
    if (to <= reached) continue;
    sum += to - Math.max(from, reached);
    reached = to;
  }
  return sum;
}
