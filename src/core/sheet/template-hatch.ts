/** A hatch as the very lines that lie inside an outline, so that it is the same in every part of a drawing and needs no clip. */
import type { Point, Ring } from './polygon.ts';

export interface LineHatch {
  /** Degrees, up to the right on paper. */
  readonly angleDeg: number;
  readonly pitchMm: number;
}

/** Lines an outline may get; a wider pitch takes their place. */
const MOST_LINES = 4_000;

/**
 * Parallel lines inside rings (even-odd), each from edge to edge; y runs down. They run through the same places
 * whatever the outline, so that neighbors line up.
 */
export function hatchInside(rings: readonly Ring[], { angleDeg, pitchMm }: LineHatch): [Point, Point][] {
  const angle = (angleDeg * Math.PI) / 180;
  const [along, normal]: Point[] = [[Math.cos(angle), -Math.sin(angle)], [Math.sin(angle), Math.cos(angle)]];
  const across = (point: Point): number => point[0] * normal[0] + point[1] * normal[1];
  let [low, high] = [Infinity, -Infinity];
  for (const ring of rings) {
    for (const point of ring) {
      low = Math.min(low, across(point));
      high = Math.max(high, across(point));
    }
  }
  if (!(low < high)) return [];
  const pitch = pitchMm * Math.max(1, Math.ceil((high - low) / pitchMm / MOST_LINES));
  const first = Math.ceil(low / pitch);
  const cuts = Array.from({ length: Math.max(0, Math.floor(high / pitch) - first + 1) }, (): number[] => []);
  for (const ring of rings) {
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
      const [a, b] = [across(ring[j]), across(ring[i])];
      // A line that runs through a corner counts it with the edge above it only, so that cuts come in pairs.
      const from = Math.ceil(Math.min(a, b) / pitch);
      for (let k = from; k * pitch < Math.max(a, b); k++) {
        const share = (k * pitch - a) / (b - a);
        const x = ring[j][0] + share * (ring[i][0] - ring[j][0]);
        const y = ring[j][1] + share * (ring[i][1] - ring[j][1]);
        cuts[k - first]?.push(x * along[0] + y * along[1]);
      }
    }
  }
  return cuts.flatMap((line, i) => {
    line.sort((p, q) => p - q);
    const at = (t: number): Point => [along[0] * t + normal[0] * (i + first) * pitch, along[1] * t + normal[1] * (i + first) * pitch];
    return Array.from({ length: line.length >> 1 }, (_, pair): [Point, Point] => [at(line[2 * pair]), at(line[2 * pair + 1])]);
  });
}
