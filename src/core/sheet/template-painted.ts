/** Where a plane's drawing has paint, in mold coordinates: its shapes where they lie, within the drawing's own edge. */
import type { Plane, Scene } from '../scene/scene.ts';
import type { Loop, Region, Regions } from '../sight/region.ts';
import type { Point } from './polygon.ts';
import type { PlaneArt } from './template-art.ts';
import { placedArt } from './template-drawing.ts';
import { paintedRegion } from './template-opening.ts';

/** Empty of a plane without a drawing, and of a picture made of pixels: what is on it is not known. */
export function paintedArt({ cast }: Pick<Scene, 'cast'>, { art }: Plane, drawn: PlaneArt | undefined, regions: Regions): Region {
  if (!art || drawn?.kind !== 'drawing') return [];
  const onPaper = placedArt(art, drawn.highPerWide, cast);
  const place = (share: Point): Point => {
    const [x, y] = onPaper(share);
    return [x, -y];
  };
  const edge = turnedRight([[0, 0], [1, 0], [1, drawn.highPerWide], [0, drawn.highPerWide]].map(([u, v]) => place([u, v])));
  return regions.meet(paintedRegion(drawn.shapes, { place, regions }), [edge]);
}

/** Counterclockwise, as regions are. */
export function turnedRight(ring: readonly Point[]): Loop {
  const twice = ring.reduce((sum, [x, y], i) => {
    const [px, py] = ring[(i + ring.length - 1) % ring.length];
    return sum + px * y - x * py;
  }, 0);
  return Float64Array.from((twice < 0 ? [...ring].reverse() : ring).flat());
}
