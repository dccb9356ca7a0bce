/** The painted part of a drawing as one flat region. */
import type { Region, Regions } from '../sight/region.ts';
import type { Point, Ring } from './polygon.ts';
import { ringArea } from './polygon.ts';
import type { ArtShape } from './template-art.ts';

const TURNING_AS_OUTER: Ring = [[0, 0], [1, 0], [0, 1]];

/** Shapes placed by `place`, which may turn and mirror. */
export function paintedRegion(shapes: readonly ArtShape[], { place, regions }: { place: (share: Point) => Point; regions: Regions }): Region {
  const mirrors = ringArea(TURNING_AS_OUTER.map(place)) < 0;
  const painted = shapes.filter(({ kind }) => kind !== 'frame');
  return regions.unite(painted.map(({ rings }) => rings.map((ring) => Float64Array.from((mirrors ? [...ring].reverse() : ring).flatMap(place)))));
}
