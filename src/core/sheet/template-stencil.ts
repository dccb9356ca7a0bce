/**
 * All planes as stencils: openings that lie within each other, with rings between them that hold, share one sheet, to be cut
 * along every line and used with the rings outside a plane's own line; the others get sheets of their own. Nothing is left
 * away unsaid.
 */
import type { Plane, Scene } from '../scene/scene.ts';
import type { Region, Regions } from '../sight/region.ts';
import { loopArea, regionArea } from '../sight/region.ts';
import type { SheetItem } from './document.ts';
import { textBox } from './document.ts';
import { labelSpots } from './labels.ts';
import type { Lettering } from './pen.ts';
import { LINE, SMALL_PT, createPen } from './pen.ts';
import type { Point } from './polygon.ts';
import { BRIDGE_MM, MOST_ISLANDS, bridged } from './template-bridges.ts';
import { drawWall, ringsOnPaper } from './template-drawing.ts';
import type { TemplateFrame } from './template-mold.ts';
import { halfInside, moldRing } from './template-mold.ts';
import { numberSpots } from './template-numbers.ts';

/** mm². Openings that differ by less are one, or lie within each other. */
const WITHIN_MM2 = 0.5;
/** mm. A ring between two lines has room for a number, and holds as a bridge does. */
const RING_MM = BRIDGE_MM + 1;

export interface Opening {
  readonly plane: Plane;
  /** Its number among the planes, in the order they are painted. */
  readonly number: number;
  readonly region: Region;
}

export interface StencilSheet {
  readonly openings: readonly Opening[];
  readonly items: readonly SheetItem[];
  readonly notes: readonly string[];
}

/** Sheets in the order they are needed. An opening with islands stands alone: its bridges would cross the others. */
export function stencilSheets(scene: Pick<Scene, 'mold'>, openings: readonly Opening[], by: { frame: TemplateFrame; regions: Regions; lettering: Lettering }): StencilSheet[] {
  const groups: Opening[][] = [];
  for (const opening of openings) {
    const alone = hasIslands(opening);
    const group = alone ? undefined : groups.find((members) => members.every((member) => !hasIslands(member) && nested(member.region, opening.region, by.regions)));
    if (group) group.push(opening);
    else groups.push([opening]);
  }
  return groups.map((members) => drawStencil(scene, members, by));
}

const hasIslands = ({ region }: Opening): boolean => region.some((loop) => loopArea(loop) < 0);

function nested(a: Region, b: Region, regions: Regions): boolean {
  const over = (inner: Region, outer: Region): number => regionArea(regions.minus(inner, outer));
  // One opening for both, or a ring between them all round.
  if (over(a, b) < WITHIN_MM2 && over(b, a) < WITHIN_MM2) return true;
  const [inner, outer] = regionArea(a) < regionArea(b) ? [a, b] : [b, a];
  return over(inner, regions.grow(outer, -RING_MM)) < WITHIN_MM2;
}

function drawStencil({ mold }: Pick<Scene, 'mold'>, openings: readonly Opening[], { frame, regions, lettering }: { frame: TemplateFrame; regions: Regions; lettering: Lettering }): StencilSheet {
  const pen = createPen(lettering);
  const notes: string[] = [];
  // The stencil must go into the mold: where walls lean, past the narrowest of its heights.
  const low = Math.min(...openings.map(({ plane }) => plane.atMm));
  drawWall(pen, moldRing(mold, low), halfInside(mold, low), frame);
  const cuts = openings.map(({ region }) => bridged(region, regions));
  const lines = cuts.flatMap(({ cut }) => cut);
  const taken: Point[] = [];
  openings.forEach(({ number, plane }, i) => {
    const { cut, bridges, islands } = cuts[i];
    pen.shape(ringsOnPaper(cut), { strokeMm: LINE.mold });
    const numbered = numberSpots(cut, { lines, taken, share: i / openings.length });
    taken.push(...numbered);
    for (const [x, y] of numbered) pen.text(x, 1.3 - y, String(number), { face: 'bold', pt: SMALL_PT, align: 'center' });
    const spots = labelSpots({ x0: -Infinity, y0: -Infinity, x1: Infinity, y1: Infinity }, pen.items.filter((item) => item.kind === 'text').map(textBox), []);
    for (const [bx, by] of bridges) {
      // Beside the bridge where there is room; one that is told elsewhere is seen by its gap in the line.
      const tries = [[2.2, 1.4, 'left'], [-2.2, 1.4, 'right'], [0, 5.5, 'center'], [0, -2.5, 'center']] as const;
      const widthMm = lettering.measure('bridge', 'sans', SMALL_PT);
      // Without a halo: a line to be cut is never broken.
      const made = tries.map(([dx, dy, align]) => ({ kind: 'text', text: 'bridge', x: bx + dx, y: dy - by, face: 'sans', sizePt: SMALL_PT, align, tone: 'ink', halo: false, widthMm }) as const);
      const at = spots.take(made.map(textBox), false);
      if (at >= 0) pen.items.push(made[at]);
    }
    if (islands > 0) notes.push(`${plane.name}: ${islands === 1 ? 'an island' : `${islands} islands`} would fall out: the sheet keeps bridges to ${islands === 1 ? 'it' : 'them'}; close their gaps with the brush.`);
    if (islands > MOST_ISLANDS) notes.push(`${plane.name}: only ${MOST_ISLANDS} islands of each opening have bridges; mind the others.`);
  });
  return { openings, items: pen.items, notes };
}
