/**
 * What a sketch paints as flat regions, for templates and for what it hides: each run of strokes of one ink, in painting
 * order, its edge in the middle of the soft one.
 */
import type { Stroke } from '../../scene/scene.ts';
import type { Loop, Region, Regions } from '../region.ts';
import { coveredHalfMm, stretchesOf, type Stretch } from './mark.ts';

/** mm. How far a side may cut into a round end: below the line a template is drawn with. */
const SAG_MM = 0.01;
const FEWEST_SIDES = 8;
const MOST_SIDES = 96;

export interface InkedRegion {
  readonly ink: string;
  readonly region: Region;
}

/** Neighbors of one ink are one region; later ones lie over earlier ones. */
export function inkedRegions(strokes: readonly Stroke[], regions: Regions): InkedRegion[] {
  const runs: { ink: string; strokes: Stroke[] }[] = [];
  for (const stroke of strokes) {
    const last = runs[runs.length - 1];
    if (last?.ink === stroke.ink) last.strokes.push(stroke);
    else runs.push({ ink: stroke.ink, strokes: [stroke] });
  }
  return runs.map((run) => ({ ink: run.ink, region: sketchRegion(run.strokes, regions) }));
}

/** All paint of these strokes as one region, mold coordinates looking down. */
export function sketchRegion(strokes: readonly Stroke[], regions: Regions): Region {
  const loops = paintLoops(strokes);
  return loops.length === 0 ? [] : regions.unite([loops]);
}

/** Counterclockwise loops that wind once or more over the paint and nowhere else; they cross, so that they are no Region yet. */
export function paintLoops(strokes: readonly Stroke[]): Loop[] {
  return strokes.flatMap((stroke) => stretchesOf(stroke, coveredHalfMm).flatMap(hullOf));
}

/** The hull of the two round marks, counterclockwise. */
function hullOf({ ax, ay, aHalf, bx, by, bHalf }: Stretch): Loop[] {
  const length = Math.hypot(bx - ax, by - ay);
  const lean = length === 0 ? 2 : (aHalf - bHalf) / length;
  // One mark lies within the other.
  if (Math.abs(lean) >= 1) return aHalf >= bHalf ? disc(ax, ay, aHalf) : disc(bx, by, bHalf);
  const along = Math.atan2(by - ay, bx - ax);
  const off = Math.acos(lean);
  return [Float64Array.from([...arc(bx, by, bHalf, along - off, 2 * off), ...arc(ax, ay, aHalf, along + off, 2 * (Math.PI - off))])];
}

const disc = (x: number, y: number, half: number): Loop[] => (half > 0 ? [Float64Array.from(arc(x, y, half, 0, 2 * Math.PI).slice(0, -2))] : []);

function arc(x: number, y: number, half: number, from: number, by: number): number[] {
  const whole = Math.PI / Math.acos(Math.max(0, 1 - SAG_MM / Math.max(half, SAG_MM)));
  const sides = Math.max(1, Math.ceil((Math.min(MOST_SIDES, Math.max(FEWEST_SIDES, whole)) * by) / (2 * Math.PI)));
  return Array.from({ length: sides + 1 }, (_, i) => from + (by * i) / sides).flatMap((at) => [x + half * Math.cos(at), y + half * Math.sin(at)]);
}
