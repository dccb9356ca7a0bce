/** Draws a section with a pen: walls, bands, beds, painted planes, figures; the whole piece, or one pour of it. */
import type { HatchName } from './document.ts';
import type { Pen } from './pen.ts';
import { LINE, SMALL_PT, createPen } from './pen.ts';
import type { Box, Point, Polygon, Ring } from './polygon.ts';
import { ringsOf } from './polygon.ts';
import type { SectionBand } from './section.ts';
import { depthAt } from '../scene/depth.ts';
import { halfWidthAt } from './section.ts';
import { drawBreaks, splitAtBreaks } from './section-breaks.ts';
import { alongBaseline, arrowSpots, nameBeds, nameLine, spotsIn, writeFree } from './section-labels.ts';
import type { SectionLook } from './section-look.ts';
import { bandRing, placed } from './section-look.ts';
import { drawDepths, drawStaff, staffBox } from './section-staff.ts';

/** mm. Paper-colored rim of a figure, so that it stands out of its hatch. */
const FIGURE_RIM_MM = 0.9;
const CREATURE_DASH_MM = [1.2, 0.8] as const;
/** mm on paper. In a narrower section the words to the mark stand outside. */
const NARROW_MM = 90;

/** Every pour hatched, heights on a staff inside the wall, depths outside it, names of planes and beds. */
export function drawWholeSection(pen: Pen, look: SectionLook): void {
  const { section } = look;
  drawWalls(pen, look);
  drawInside(pen, look, (inside) => {
    for (const band of section.bands) hatchBand(inside, look, band, band.hatch as HatchName);
    drawBeds(inside, look);
    for (const band of section.bands) levelLine(inside, look, band.toMm, LINE.pour);
    drawPlanes(inside, look, Infinity);
    drawFigures(inside, look, Infinity);
    drawCreatures(inside, look, section.heightMm);
    for (const band of section.bands) if (look.halted.has(band.pour)) crossBand(inside, look, band);
  });
  drawBreaks(pen, look);
  for (const band of section.bands) if (look.halted.has(band.pour)) drawBoards(pen, look, band);
  drawStaff(pen, look);
  drawDepths(pen, look);
  const spots = spotsIn(look, [staffBox(look)], Infinity);
  for (const plane of section.planes) nameLine(pen, look, spots, plane.atMm, plane.name);
  nameBeds(pen, look, spots);
}

/** One pour in heavy line on what lies under it, the levels to come dotted, the way down from the rim. */
export function drawPourSection(pen: Pen, look: SectionLook, pour: { index: number; fromMm: number; toMm: number; fillMarkFromRimMm: number }): void {
  const { section, view, words } = look;
  const band = section.bands.find((one) => one.pour === pour.index)!;
  const markMm = section.heightMm - pour.fillMarkFromRimMm;
  drawWalls(pen, look);
  drawInside(pen, look, (inside) => {
    for (const under of section.bands) if (under.pour <= band.pour) hatchBand(inside, look, under, under.hatch as HatchName);
    drawBeds(inside, look);
    for (const under of section.bands) if (under.pour < band.pour) levelLine(inside, look, under.toMm, LINE.pour);
    for (const later of section.bands) if (later.pour > band.pour) levelLine(inside, look, later.toMm, LINE.pour, [0.3, 1.4]);
    drawPlanes(inside, look, band.fromMm);
    drawFigures(inside, look, band.toMm);
    drawCreatures(inside, look, band.fromMm);
    if (look.halted.has(band.pour)) crossBand(inside, look, band);
  });
  drawBreaks(pen, look);
  pen.shape([bandRing(look, band.fromMm, band.toMm)], { strokeMm: LINE.now });
  if (look.halted.has(band.pour)) drawBoards(pen, look, band);

  // The arrow from the rim to the mark, near the right wall; what is written keeps clear of it.
  const arrowX = view.pageX(halfWidthAt(section, Math.min(markMm, section.heightMm))) - 4.5;
  const arrow: Box = { x0: arrowX - 1.4, x1: arrowX + 1.4, y0: view.top, y1: view.pageY(markMm) };
  if (arrow.y1 - arrow.y0 > 2) drawArrow(pen, arrowX, arrow.y0, arrow.y1, view.toMm >= section.heightMm);
  const spots = spotsIn(look, [arrow], band.toMm);
  const markY = view.pageY(markMm);
  const word = look.halted.has(band.pour) ? 'do not fill to' : 'fill to here:';
  const sinks = Math.abs(markMm - pour.toMm) > 0.05 ? `cures to ${words.bare(pour.toMm)}, ` : '';
  const fillWords = `${word} ${words.mark(markMm)} up, ${sinks}${words.bare(depthAt(section, pour.toMm))} deep`;
  const rimWords = `${words.fromRim(pour.fillMarkFromRimMm)}${words.unit === 'mm' ? '\u00a0mm' : ''} from the rim${words.beside(pour.fillMarkFromRimMm)}`;
  if (view.right - view.left < NARROW_MM) {
    // No room inside: the words stand beside the wall, on a line from the mark.
    pen.line([[view.pageX(halfWidthAt(section, Math.min(markMm, section.heightMm))), markY], [view.right + 4, markY]], LINE.rule);
    pen.text(view.right + 5, markY + 1.3, fillWords, { face: 'bold' });
    pen.text(view.right + 5, markY + 6.4, rimWords, { face: 'bold' });
  } else {
    writeFree(pen, look, spots, rimWords, { face: 'bold' }, arrowSpots(arrow));
    writeFree(pen, look, spots, fillWords, { face: 'bold' }, [...alongBaseline(look, markY - 1.1, 'right', 9), ...arrowSpots(arrow)]);
  }
  for (const later of section.bands) {
    if (later.pour <= band.pour || later.toMm > view.toMm) continue;
    const face = Math.abs(later.toMm - section.fillMm) < 0.05 && section.cast === 'face-up' ? ', show face' : '';
    writeFree(pen, look, spots, `${words.bare(later.toMm)}${face}`, { pt: SMALL_PT }, alongBaseline(look, view.pageY(later.toMm) - 0.9, 'left', 3).slice(0, 2));
  }
  for (const plane of section.planes) {
    if (plane.atMm <= band.fromMm + 0.05) nameLine(pen, look, spots, plane.atMm, `${plane.name}, painted at ${words.bare(plane.atMm)}`);
  }
  nameBeds(pen, look, spots);
  for (const under of section.bands) {
    if (under.pour >= band.pour || under.toMm <= view.fromMm) continue;
    const middle = (view.pageY(Math.max(under.fromMm, view.fromMm)) + view.pageY(under.toMm)) / 2;
    writeFree(pen, look, spots, `Pour ${under.pour}`, { face: 'bold', pt: SMALL_PT }, alongBaseline(look, middle + 1.3, 'left', 3).slice(0, 8));
  }
}

function drawInside(pen: Pen, look: SectionLook, draw: (inside: Pen) => void): void {
  const { section, view } = look;
  const inner = bandRing(look, view.fromMm, view.toMm);
  pen.shape([inner], { fill: 'paper' });
  const parts: Ring[] = view.cuts.length > 0 ? splitAtBreaks(look, inner) : [inner];
  for (const part of parts) {
    const inside = createPen(look.lettering);
    draw(inside);
    pen.clip(part, inside.items);
  }
  // Walls and floor again over the hatches' ends; the rim stays open.
  const outline: Point[] = [view.toMm, view.fromMm].map((z): Point => [view.pageX(-halfWidthAt(section, z)), view.pageY(z)]);
  const mirrored: Point[] = [view.fromMm, view.toMm].map((z): Point => [view.pageX(halfWidthAt(section, z)), view.pageY(z)]);
  if (view.fromMm === 0) pen.line([...outline, ...mirrored], LINE.mold);
  else {
    pen.line(outline, LINE.mold);
    pen.line(mirrored, LINE.mold);
  }
}

function drawWalls(pen: Pen, look: SectionLook): void {
  const { view } = look;
  const { wallMm, bottom, top } = view;
  const inner = bandRing(look, view.fromMm, view.toMm);
  const [bottomLeft, bottomRight, topRight, topLeft] = inner;
  const outer: Ring = [
    [topLeft[0] - wallMm, top], [bottomLeft[0] - wallMm, bottom], [bottomRight[0] + wallMm, bottom], [topRight[0] + wallMm, top],
    topRight, bottomRight, bottomLeft, topLeft,
  ];
  const wall: Polygon = { outer, holes: [] };
  pen.hatch([wall], 'wall');
  pen.line([outer[7], ...outer.slice(0, 5)], LINE.pour);
}

function hatchBand(pen: Pen, look: SectionLook, band: SectionBand, hatch: HatchName): void {
  if (band.toMm <= look.view.fromMm || band.fromMm >= look.view.toMm) return;
  pen.hatch([{ outer: bandRing(look, band.fromMm, band.toMm), holes: [] }], hatch);
}

function levelLine(pen: Pen, { section, view }: SectionLook, zMm: number, strokeMm: number, dash?: readonly [number, number]): void {
  if (zMm < view.fromMm || zMm > view.toMm) return;
  const half = halfWidthAt(section, zMm);
  pen.line([[view.pageX(-half), view.pageY(zMm)], [view.pageX(half), view.pageY(zMm)]], strokeMm, { dash });
}

/** A brush line, thick and thin. */
function drawPlanes(pen: Pen, { section, view }: SectionLook, upToMm: number): void {
  for (const { atMm } of section.planes) {
    if (atMm > upToMm + 0.05 || atMm < view.fromMm || atMm > view.toMm) continue;
    const half = halfWidthAt(section, atMm);
    const [x0, x1, y] = [view.pageX(-half), view.pageX(half), view.pageY(atMm)];
    const STEPS = 24;
    const upper: Point[] = [];
    const lower: Point[] = [];
    for (let i = 0; i <= STEPS; i++) {
      const t = i / STEPS;
      const swell = 0.2 + 0.5 * Math.sin(Math.PI * t) ** 2 * (0.7 + 0.3 * Math.sin(9 * t));
      const x = x0 + (x1 - x0) * t;
      upper.push([x, y - swell]);
      lower.push([x, y + swell * 0.55]);
    }
    pen.shape([[...upper, ...lower.reverse()]], { fill: 'ink' });
  }
}

function drawBeds(pen: Pen, look: SectionLook): void {
  for (const shape of look.section.shapes.filter(({ kind }) => kind === 'bed')) {
    const region = placed(look, shape);
    const fill = createPen(look.lettering);
    fill.shape(region.flatMap(ringsOf), { fill: 'paper' });
    fill.hatch(region, 'bed');
    fill.shape(region.flatMap(ringsOf), { strokeMm: LINE.rule });
    pen.clip(bandRing(look, 0, look.section.heightMm), fill.items);
  }
}

function drawFigures(pen: Pen, look: SectionLook, belowMm: number): void {
  for (const shape of look.section.shapes) {
    if (shape.kind !== 'figure' || shape.baseMm >= belowMm - 0.05) continue;
    const rings = placed(look, shape).flatMap(ringsOf);
    if (rings.length === 0) continue;
    pen.shape(rings, { strokeMm: FIGURE_RIM_MM, tone: 'paper', fill: 'paper' });
    pen.shape(rings, { fill: 'ink' });
  }
}

/** Dashed, as far up as planes are painted: nothing of it is in the resin. */
function drawCreatures(pen: Pen, look: SectionLook, paintedToMm: number): void {
  const outlines = createPen(look.lettering);
  for (const shape of look.section.shapes) {
    if (shape.kind !== 'creature') continue;
    for (const ring of placed(look, shape).flatMap(ringsOf)) {
      const line = [...ring, ring[0]];
      outlines.line(line, FIGURE_RIM_MM, { tone: 'paper' });
      outlines.line(line, LINE.pour, { dash: CREATURE_DASH_MM });
    }
  }
  if (paintedToMm > look.view.fromMm) pen.clip(bandRing(look, 0, paintedToMm), outlines.items);
}

/** A pour that must not be: crossed out. */
function crossBand(pen: Pen, look: SectionLook, band: SectionBand): void {
  const [a, b, c, d] = bandRing(look, band.fromMm, band.toMm);
  pen.line([a, c], LINE.heavy);
  pen.line([b, d], LINE.heavy);
}

/** Sluice boards on both walls. */
function drawBoards(pen: Pen, look: SectionLook, band: SectionBand): void {
  const [a, b, c, d] = bandRing(look, band.fromMm, band.toMm);
  const wide = Math.min(look.view.wallMm, 5);
  pen.shape([[a, d, [d[0] - wide, d[1]], [a[0] - wide, a[1]]], [b, c, [c[0] + wide, c[1]], [b[0] + wide, b[1]]]], { fill: 'ink' });
}

function drawArrow(pen: Pen, x: number, top: number, bottom: number, fromRim: boolean): void {
  pen.line([[x, top], [x, bottom]], LINE.rule);
  pen.line([[x - 1.1, bottom - 2], [x, bottom], [x + 1.1, bottom - 2]], LINE.rule);
  if (fromRim) pen.line([[x - 1.1, top + 2], [x, top], [x + 1.1, top + 2]], LINE.rule);
}
