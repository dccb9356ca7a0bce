/**
 * What stands on a plane's template at 1:1, looking down into the mold: the art or the creature's section, the wall at
 * that height, the marks round it. Down is positive; 0, 0 is the middle of the mold.
 */
import { artInMold } from '../scene/art-place.ts';
import type { Art, Plane, Scene } from '../scene/scene.ts';
import type { PlaneGuide } from '../sight/guide.ts';
import { regionBounds, type Region } from '../sight/region.ts';
import type { SheetItem } from './document.ts';
import type { Lettering, Pen } from './pen.ts';
import { BODY_PT, LINE, SMALL_PT, createPen } from './pen.ts';
import type { Box, Point, Ring } from './polygon.ts';
import { boxOf } from './polygon.ts';
import type { PlaneArt } from './template-art.ts';
import { colorsOnPaper } from './template-colors.ts';
import type { LineHatch } from './template-hatch.ts';
import { hatchInside } from './template-hatch.ts';
import type { TemplateFrame } from './template-mold.ts';
import { halfInside, moldRing } from './template-mold.ts';
import { THIN_LINE_MM, drawRegister } from './template-tiles.ts';

/** Under a plane nearer the viewer: no paint is needed there. */
export const HIDDEN_HATCH: LineHatch = { angleDeg: 45, pitchMm: 3.5 };
/** Where paint fades out. */
export const FEATHER_HATCH: LineHatch = { angleDeg: -45, pitchMm: 1.2 };
/** mm. On either side of a line over colors. */
const RIM_MM = 0.25;
/** mm. A stroke of the art wider than this is drawn as its two edges. */
const TWO_EDGES_MM = 1;
/** mm. Ticks that show the middle of each wall. */
const MIDDLE_TICK_MM = 3;
/** mm. Dots of a shadow's outline, and the gaps between them. */
const DOTTED: readonly [number, number] = [0.5, 1.3];
/** mm. What rounding may put a picture over the wall that was made to reach it. */
const TOUCHING_MM = 1e-6;

export interface PlaneDrawing {
  readonly items: readonly SheetItem[];
  /** What the person must know of it, in sentences. */
  readonly notes: readonly string[];
}

export interface DrawnPlane {
  readonly plane: Plane;
  readonly art: PlaneArt | null;
  readonly guides: readonly PlaneGuide[];
  /** What was sketched on it, drawn already. */
  readonly sketch?: readonly SheetItem[];
  /** What falls on it under the lamp: dotted, each with its name. */
  readonly shadows?: readonly { readonly name: string; readonly region: Region }[];
}

export function drawPlane(scene: Pick<Scene, 'mold' | 'cast'>, frame: TemplateFrame, { plane, art, guides, sketch = [], shadows = [] }: DrawnPlane, lettering: Lettering): PlaneDrawing {
  const pen = createPen(lettering);
  const notes: string[] = [];
  const wall = moldRing(scene.mold, plane.atMm).map(onPaper);
  if (art?.kind === 'unseen') notes.push(art.why);
  else if (plane.art && art) drawArt(pen, { art, place: placedArt(plane.art, art.highPerWide, scene.cast), wall, notes });
  for (const guide of guides) drawGuide(pen, guide);
  pen.items.push(...sketch);
  if (!plane.art && guides.length === 0 && sketch.length === 0) notes.push('There is no picture on it yet: the line is the wall.');
  drawWall(pen, wall, halfInside(scene.mold, plane.atMm), frame);
  for (const shadow of shadows) drawShadow(pen, shadow);
  numberHints(pen, guides);
  return { items: pen.items, notes };
}

const onPaper = ([x, y]: Point): Point => [x, -y];

/** The wall at this height, the middle of each of its sides, register marks, and which side is the back. */
export function drawWall(pen: Pen, wall: Ring, [halfX, halfY]: Point, { marks, half }: TemplateFrame): void {
  pen.shape([wall], { strokeMm: LINE.mold });
  for (const side of [-1, 1]) {
    pen.line([[side * (halfX - MIDDLE_TICK_MM), 0], [side * (halfX + MIDDLE_TICK_MM), 0]], LINE.pour);
    pen.line([[0, side * (halfY - MIDDLE_TICK_MM)], [0, side * (halfY + MIDDLE_TICK_MM)]], LINE.pour);
  }
  for (const mark of marks) drawRegister(pen, mark);
  const top = -half[1] - 6.5;
  const wordsMm = pen.text(0, top, 'back of the mold', { face: 'bold', pt: BODY_PT, align: 'center' });
  // A rim over the words, its ends turned down like the wall's.
  const reach = wordsMm / 2 + 3;
  pen.line([[-reach, top + 1], [-reach, top - 4.6], [reach, top - 4.6], [reach, top + 1]], LINE.heavy);
}

type SeenArt = Exclude<PlaneArt, { kind: 'unseen' }>;

export type Placed = (share: Point) => Point;

/** From shares of the art's width to the paper; mirrored in a face-down casting. */
export function placedArt(art: Art, highPerWide: number, cast: Scene['cast']): Placed {
  const { xMm, yMm, turnDeg, mirror } = artInMold(art, cast);
  const [cos, sin] = [Math.cos((turnDeg * Math.PI) / 180), Math.sin((turnDeg * Math.PI) / 180)];
  return ([u, v]) => {
    const dx = (mirror ? -1 : 1) * art.widthMm * (u - 0.5);
    const dy = art.widthMm * (highPerWide / 2 - v);
    return onPaper([xMm + (cos * dx - sin * dy), yMm + (sin * dx + cos * dy)]);
  };
}

function drawArt(pen: Pen, { art, place, wall, notes }: { art: SeenArt; place: Placed; wall: Ring; notes: string[] }): void {
  const corners: Point[] = [[0, 0], [1, 0], [1, art.highPerWide], [0, art.highPerWide]];
  const edge = corners.map(place);
  if (!withinBox(edge, boxOf([wall]))) notes.push('The picture reaches over the wall; what lies outside is left off.');
  if (art.kind === 'picture') {
    notes.push(art.picture === null ? 'The picture can’t be printed here: only its edge and middle are drawn.' : 'The picture is printed lightly on the PDF, to be traced; true lines are its edge and middle.');
    const inside = createPen({ measure: () => 0, printable: (text) => text });
    inside.line([...edge, edge[0]], LINE.rule, { dash: [3, 1.5] });
    const middle = place([0.5, art.highPerWide / 2]);
    for (const toward of [place([0.5, 0]), place([1, art.highPerWide / 2])]) {
      const length = Math.hypot(toward[0] - middle[0], toward[1] - middle[1]);
      const step: Point = [(4 * (toward[0] - middle[0])) / length, (4 * (toward[1] - middle[1])) / length];
      inside.line([[middle[0] - step[0], middle[1] - step[1]], [middle[0] + step[0], middle[1] + step[1]]], LINE.rule);
    }
    const shown: SheetItem[] = art.picture === null ? [] : [{ kind: 'picture', picture: art.picture, corners: [edge[0], edge[1], edge[3]] }];
    pen.clip(wall, [...shown, ...inside.items]);
    return;
  }
  notes.push(...art.leftOut);
  const widthMm = Math.hypot(edge[1][0] - edge[0][0], edge[1][1] - edge[0][1]);
  const lineMm = LINE.pour;
  const inside = art.shapes.map(({ rings, kind, stroke }): SheetItem => {
    const strokeMm = stroke * widthMm;
    const solid = kind === 'stroke' && strokeMm <= TWO_EDGES_MM;
    // A solid one narrower than the line that is drawn is widened to it.
    return { kind: 'path', rings: rings.map((ring) => ring.map(place)), closed: true, strokeMm: solid ? Math.max(0, lineMm - strokeMm) : lineMm, fill: kind === 'frame' ? null : solid ? 'ink' : 'paper', tone: 'ink' };
  });
  // Like a picture's, what lies outside the drawing's own edge is not part of it.
  pen.clip(wall, [{ kind: 'group', clip: edge, items: inside }]);
}

function withinBox(points: readonly Point[], box: Box): boolean {
  return points.every(([x, y]) => x >= box.x0 - TOUCHING_MM && x <= box.x1 + TOUCHING_MM && y >= box.y0 - TOUCHING_MM && y <= box.y1 + TOUCHING_MM);
}

export function ringsOnPaper(region: Region): Ring[] {
  return region.map((loop) => Array.from({ length: loop.length >> 1 }, (_, i): Point => [loop[2 * i], -loop[2 * i + 1]]));
}

/** What to paint is left white in a strong line, or in the colors that the creature brings; what is hidden and what fades are hatched. */
function drawGuide(pen: Pen, guide: PlaneGuide): void {
  const { outline, fresh, hidden, feather } = guide;
  pen.items.push(...colorsOnPaper(guide));
  for (const [region, hatch] of [[hidden, HIDDEN_HATCH], [feather, FEATHER_HATCH]] as const) {
    pen.items.push({ kind: 'path', rings: hatchInside(ringsOnPaper(region), hatch), closed: false, strokeMm: THIN_LINE_MM, fill: null, tone: 'ink' });
  }
  if (hidden.length > 0) pen.shape(ringsOnPaper(hidden), { strokeMm: THIN_LINE_MM });
  pen.shape(ringsOnPaper(outline), { strokeMm: LINE.rule });
  // A rim of paper, so that the line is seen on dark colors.
  if (guide.colors) pen.shape(ringsOnPaper(fresh), { strokeMm: LINE.heavy + 2 * RIM_MM, tone: 'paper' });
  pen.shape(ringsOnPaper(fresh), { strokeMm: LINE.heavy });
}

/** Dotted, its name inside its front edge. */
function drawShadow(pen: Pen, { name, region }: NonNullable<DrawnPlane['shadows']>[number]): void {
  const bounds = regionBounds(region);
  if (!bounds) return;
  pen.items.push({ kind: 'path', rings: ringsOnPaper(region), closed: true, strokeMm: LINE.rule, fill: null, tone: 'ink', dash: DOTTED });
  const [x, y] = onPaper([(bounds.minX + bounds.maxX) / 2, bounds.minY]);
  pen.text(x, y - 2.6, `shadow of ${name}`, { pt: SMALL_PT, align: 'center', halo: true });
}

/** Numbers of what the notes tell, at their places. */
function numberHints(pen: Pen, guides: readonly PlaneGuide[]): void {
  guides.flatMap(({ hints }) => hints).forEach(({ atXMm, atYMm }, i) => {
    const [x, y] = onPaper([atXMm, atYMm]);
    pen.line([[x - 1, y - 1], [x + 1, y + 1]], LINE.rule);
    pen.line([[x - 1, y + 1], [x + 1, y - 1]], LINE.rule);
    pen.text(x + 1.8, y + 1.4, String(i + 1), { face: 'bold', pt: SMALL_PT, halo: true });
  });
}
