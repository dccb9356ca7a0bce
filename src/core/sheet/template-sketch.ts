/**
 * A plane's sketch on its template: every run of one ink as the outline of what of it is seen, in the middle of its soft edge,
 * where it lies as one looks down into the mold; inks are told by numbers, for prints without color.
 */
import type { Stroke } from '../scene/scene.ts';
import { colorName } from '../sight/colors/color-name.ts';
import { labOf, lightOf } from '../sight/color.ts';
import { loopArea, type Loop, type Region, type Regions } from '../sight/region.ts';
import { inkedRegions, sketchRegion } from '../sight/sketch/regions.ts';
import { listed } from '../units/format.ts';
import type { SheetItem } from './document.ts';
import type { Lettering } from './pen.ts';
import { LINE, SMALL_PT, createPen } from './pen.ts';
import type { Point, Ring } from './polygon.ts';

/** Changes of ink that are told apart; more are drawn as one outline. */
const MOST_RUNS = 200;

export interface SketchOnPaper {
  readonly items: readonly SheetItem[];
  /** In sentences. */
  readonly notes: readonly string[];
}

/** Nothing without strokes. `wall`: the mold's inside at that height, counterclockwise; paint past it is left off. */
export function drawSketch(strokes: readonly Stroke[], { wall, regions, lettering }: { wall: Loop; regions: Regions; lettering: Lettering }): SketchOnPaper {
  if (strokes.length === 0) return { items: [], notes: [] };
  const pen = createPen(lettering);
  const runs = strokes.filter(({ ink }, i) => ink !== strokes[i - 1]?.ink).length;
  const inks = [...new Set(strokes.map(({ ink }) => ink))];
  const numbered = runs <= MOST_RUNS && inks.length > 1;
  const painted = numbered ? inkedRegions(strokes, regions) : [{ ink: inks[0], region: sketchRegion(strokes, regions) }];
  const seen: { ink: string; region: Region }[] = [];
  let over: Region = [];
  for (const { ink, region } of [...painted].reverse()) {
    const within = regions.meet(region, [wall]);
    seen.unshift({ ink, region: regions.minus(within, over) });
    if (numbered) over = regions.unite([over, within]);
  }
  for (const { region } of seen) pen.shape(region.map(ringOnPaper), { strokeMm: LINE.pour });
  if (numbered) {
    inks.forEach((ink, i) => {
      const spot = largestSpot(seen.filter((run) => run.ink === ink).flatMap(({ region }) => region));
      if (spot) pen.text(spot[0], spot[1], String(i + 1), { face: 'bold', pt: SMALL_PT, halo: true, align: 'center' });
    });
  }
  const names = inks.map((ink, i) => `${numbered ? `${i + 1}\u00a0` : ''}${colorName(labOf(lightOf(ink)))}`);
  return {
    items: pen.items,
    notes: ['The thin lines are your sketch; each runs in the middle of a soft edge.', ...(numbered ? [`Its inks: ${listed(names)}.`] : inks.length === 1 ? [`It is all in ${names[0]}.`] : [])],
  };
}

const ringOnPaper = (loop: Loop): Ring => Array.from({ length: loop.length >> 1 }, (_, i): Point => [loop[2 * i], -loop[2 * i + 1]]);

/** A place on the edge of the largest loop, on paper. */
function largestSpot(loops: readonly Loop[]): Point | null {
  const [largest] = [...loops].sort((a, b) => loopArea(b) - loopArea(a));
  return largest ? [largest[0], 1.4 - largest[1]] : null;
}
