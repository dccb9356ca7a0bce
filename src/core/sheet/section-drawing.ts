/** Draws a section with a pen: walls, bands, beds, painted planes, figures; the whole piece, or one pour of it. */
import { plain } from '../units/format.ts';
import type { HatchName } from './document.ts';
import { ASCENT_EM, DESCENT_EM, MM_PER_POINT } from './document.ts';
import type { LabelSpots } from './labels.ts';
import { labelSpots } from './labels.ts';
import type { Lettering, Pen, TextStyle } from './pen.ts';
import { BODY_PT, LINE, SMALL_PT, TICK_PT, createPen, fit } from './pen.ts';
import type { Box, Point, Polygon, Ring } from './polygon.ts';
import { boxOf, ringsOf } from './polygon.ts';
import type { Section, SectionBand, SectionShape } from './section.ts';
import { depthAt, halfWidthAt } from './section.ts';
import type { Cut, SectionView } from './section-view.ts';
import { BREAK_GAP_MM } from './section-view.ts';


/** mm. Paper-colored rim of a figure, so that it stands out of its hatch. */
const FIGURE_RIM_MM = 0.9;
/** mm on paper. In a narrower section the words to the mark stand outside. */
const NARROW_MM = 90;
/** mm. Width of the staff of 5 mm blocks inside the wall. */
const STAFF_MM = 2.2;

export interface SectionLook {
  readonly section: Section;
  readonly view: SectionView;
  readonly lettering: Lettering;
  /** Pours that must not be poured. */
  readonly halted: ReadonlySet<number>;
}

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
  const { section, view } = look;
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
  const sinks = Math.abs(markMm - pour.toMm) > 0.05 ? `cures to ${plain(pour.toMm)}, ` : '';
  const fillWords = `${word} ${plain(markMm)} up, ${sinks}${plain(depthAt(section, pour.toMm))} deep`;
  const rimWords = `${plain(pour.fillMarkFromRimMm)}\u00a0mm from the rim`;
  if (view.right - view.left < NARROW_MM) {
    // No room inside: the words stand beside the wall, on a line from the mark.
    pen.line([[view.pageX(halfWidthAt(section, Math.min(markMm, section.heightMm))), markY], [view.right + 4, markY]], LINE.rule);
    pen.text(view.right + 5, markY + 1.3, fillWords, { face: 'bold' });
    pen.text(view.right + 5, markY + 6.4, rimWords, { face: 'bold' });
  } else {
    writeFree(pen, look, spots, rimWords, { face: 'bold' }, arrowSpots(arrow));
    writeFree(pen, look, spots, fillWords, { face: 'bold' }, [...candidates(look, markY - 1.1, 'right', 9), ...arrowSpots(arrow)]);
  }
  for (const later of section.bands) {
    if (later.pour <= band.pour || later.toMm > view.toMm) continue;
    const face = Math.abs(later.toMm - section.fillMm) < 0.05 && section.cast === 'face-up' ? ', show face' : '';
    writeFree(pen, look, spots, `${plain(later.toMm)}${face}`, { pt: SMALL_PT }, candidates(look, view.pageY(later.toMm) - 0.9, 'left', 3).slice(0, 2));
  }
  for (const plane of section.planes) {
    if (plane.atMm <= band.fromMm + 0.05) nameLine(pen, look, spots, plane.atMm, `${plane.name}, painted at ${plain(plane.atMm)}`);
  }
  nameBeds(pen, look, spots);
  for (const under of section.bands) {
    if (under.pour >= band.pour || under.toMm <= view.fromMm) continue;
    const middle = (view.pageY(Math.max(under.fromMm, view.fromMm)) + view.pageY(under.toMm)) / 2;
    writeFree(pen, look, spots, `Pour ${under.pour}`, { face: 'bold', pt: SMALL_PT }, candidates(look, middle + 1.3, 'left', 3).slice(0, 8));
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

/** Region of a span of heights, inside the walls, in page coordinates: bottom left, bottom right, top right, top left. */
function bandRing({ section, view }: SectionLook, fromMm: number, toMm: number): Ring {
  const from = Math.max(fromMm, view.fromMm);
  const to = Math.max(from, Math.min(toMm, view.toMm));
  const [low, high] = [halfWidthAt(section, from), halfWidthAt(section, to)];
  return [
    [view.pageX(-low), view.pageY(from)], [view.pageX(low), view.pageY(from)],
    [view.pageX(high), view.pageY(to)], [view.pageX(-high), view.pageY(to)],
  ];
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

/** A shape's outline on the page. What of it lies in a cut is drawn together at the cut's edge, where the clip hides it. */
function placed({ view }: SectionLook, shape: SectionShape): Polygon[] {
  const onPage = (ring: Ring): Ring => ring.map(([x, z]): Point => [view.pageX(x), view.pageY(z)]);
  return shape.outline.map(({ outer, holes }) => ({ outer: onPage(outer), holes: holes.map(onPage) }));
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

/** Two wavy lines where water is left out, from rim to floor; one where the section is cut above or below. */
function drawBreaks(pen: Pen, look: SectionLook): void {
  const { section, view } = look;
  for (const cut of view.cuts) {
    const [left, right] = breakEdges(view, cut);
    pen.shape([[...left, ...[...right].reverse()]], { fill: 'paper' });
    pen.line(left, LINE.rule);
    pen.line(right, LINE.rule);
  }
  for (const [zMm, isCut] of [[view.toMm, view.toMm < section.heightMm - 0.05], [view.fromMm, view.fromMm > 0]] as const) {
    if (!isCut) continue;
    const STEPS = 60;
    const x0 = view.pageX(-halfWidthAt(section, zMm)) - view.wallMm - 2;
    const x1 = view.pageX(halfWidthAt(section, zMm)) + view.wallMm + 2;
    pen.line(Array.from({ length: STEPS + 1 }, (_, i): Point => [x0 + ((x1 - x0) * i) / STEPS, view.pageY(zMm) + 0.6 * Math.sin(i / 1.6)]), LINE.rule);
  }
}

function breakEdges(view: SectionView, cut: Cut): [Point[], Point[]] {
  const x = view.pageX(cut.fromMm);
  const edge = (offset: number): Point[] => {
    const points: Point[] = [];
    const STEPS = 40;
    for (let i = 0; i <= STEPS; i++) {
      const y = view.top - 1 + ((view.bottom + 2 - view.top) * i) / STEPS;
      points.push([x + offset + 0.8 * Math.sin((y - view.top) / 4.5), y]);
    }
    return points;
  };
  return [edge(0), edge(BREAK_GAP_MM)];
}

/** What is inside the walls, in the parts between the cuts. */
function splitAtBreaks({ view }: SectionLook, inner: Ring): Ring[] {
  const box = boxOf([inner]);
  const far = 5;
  const column = (x: number): Point[] => [[x, view.top - 2], [x, view.bottom + 3]];
  const edges = view.cuts.map((cut) => breakEdges(view, cut));
  const lefts = [column(box.x0 - far), ...edges.map(([, right]) => right)];
  const rights = [...edges.map(([left]) => left), column(box.x1 + far)];
  return lefts.map((left, i) => clipRing([...left, ...[...rights[i]].reverse()], inner));
}

/** Sutherland–Hodgman: what of `ring` lies in a convex ring. */
function clipRing(ring: Ring, convex: Ring): Ring {
  const sign = Math.sign(convex.reduce((sum, [x, y], i) => sum + x * convex[(i + 1) % convex.length][1] - y * convex[(i + 1) % convex.length][0], 0));
  let points: Point[] = [...ring];
  convex.forEach((a, i) => {
    const b = convex[(i + 1) % convex.length];
    const off = ([x, y]: Point): number => sign * ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]));
    const kept: Point[] = [];
    points.forEach((p, k) => {
      const q = points[(k + 1) % points.length];
      const [dp, dq] = [off(p), off(q)];
      if (dp >= 0) kept.push(p);
      if ((dp > 0 && dq < 0) || (dp < 0 && dq > 0)) kept.push([p[0] + ((q[0] - p[0]) * dp) / (dp - dq), p[1] + ((q[1] - p[1]) * dp) / (dp - dq)]);
    });
    points = kept;
  });
  return points;
}

/** Blocks of 5 mm inside the left wall with heights every 10 mm; coarser on a small scale. */
function drawStaff(pen: Pen, look: SectionLook): void {
  const { section, view } = look;
  const block = view.scale >= 0.5 ? 5 : labelStep(view.scale) / 2;
  for (let z = 0, dark = true; z < section.heightMm; z += block, dark = !dark) {
    const top = Math.min(z + block, section.heightMm);
    const [x0, x1] = [view.pageX(-halfWidthAt(section, z)), view.pageX(-halfWidthAt(section, top))];
    const ring: Ring = [[x0, view.pageY(z)], [x0 + STAFF_MM, view.pageY(z)], [x1 + STAFF_MM, view.pageY(top)], [x1, view.pageY(top)]];
    pen.shape([ring], { strokeMm: LINE.hair, fill: dark ? 'ink' : 'paper' });
  }
  for (const { atMm, value, rank } of section.heightTicks) {
    const x = view.pageX(-halfWidthAt(section, atMm)) + STAFF_MM;
    if (rank !== 'minor' || view.scale >= 0.9) pen.line([[x, view.pageY(atMm)], [x + (rank === 'minor' ? 0.8 : 1.5), view.pageY(atMm)]], LINE.hair);
    if (value % labelStep(view.scale) === 0 && atMm < section.heightMm - 2 / view.scale) {
      const y = value === 0 ? view.pageY(0) - 0.7 : view.pageY(atMm) + 1.1;
      pen.text(x + 2, y, plain(value), { pt: TICK_PT, halo: true });
    }
  }
}

/** Ticks and depths outside the left wall. */
function drawDepths(pen: Pen, { section, view }: SectionLook): void {
  for (const { atMm, value, rank } of section.depthTicks) {
    const x = view.pageX(-halfWidthAt(section, atMm)) - view.wallMm;
    const y = view.pageY(atMm);
    const long = rank === 'ten' ? 2.2 : rank === 'five' ? 1.5 : 0.9;
    if (rank !== 'minor' || view.scale >= 0.9) pen.line([[x - long, y], [x, y]], LINE.hair);
    if (value % labelStep(view.scale) === 0) pen.text(x - 3, y + 1.1, plain(value), { pt: TICK_PT, align: 'right' });
  }
}

/** mm of height between two written ticks: at least 4.5 mm on paper. */
function labelStep(scale: number): number {
  return [10, 20, 50, 100, 200, 500, 1000].find((step) => step * scale >= 4.5) ?? 5000;
}

function drawArrow(pen: Pen, x: number, top: number, bottom: number, fromRim: boolean): void {
  pen.line([[x, top], [x, bottom]], LINE.rule);
  pen.line([[x - 1.1, bottom - 2], [x, bottom], [x + 1.1, bottom - 2]], LINE.rule);
  if (fromRim) pen.line([[x - 1.1, top + 2], [x, top], [x + 1.1, top + 2]], LINE.rule);
}

const staffBox = ({ section, view }: SectionLook): Box => {
  const x = Math.min(view.pageX(-section.halfFloorMm), view.pageX(-section.halfRimMm));
  return { x0: x, x1: view.pageX(-section.halfFloorMm) + STAFF_MM + 7, y0: view.top, y1: view.bottom };
};

/** `belowMm`: only figures that start under it are drawn. */
function spotsIn(look: SectionLook, taken: readonly Box[], belowMm: number): LabelSpots {
  const { section, view } = look;
  const half = Math.min(section.halfFloorMm, section.halfRimMm);
  const inside: Box = { x0: view.pageX(-half) + 1, x1: view.pageX(half) - 1, y0: view.top, y1: view.pageY(view.fromMm) };
  const figures = section.shapes.filter(({ kind, baseMm }) => kind === 'figure' && baseMm < belowMm - 0.05).flatMap((shape) => placed(look, shape).flatMap(({ outer }) => slices(outer)));
  const gaps = view.cuts.map((cut): Box => ({ x0: view.pageX(cut.fromMm) - 1, x1: view.pageX(cut.fromMm) + BREAK_GAP_MM + 1, y0: view.top, y1: view.bottom }));
  return labelSpots(inside, [...taken, ...gaps], figures);
}

/** Boxes that cover a ring in upright slices: what a label should keep clear of, without the empty corners of one big box. */
function slices(ring: Ring): Box[] {
  const SLICE_MM = 4;
  const whole = boxOf([ring]);
  const count = Math.max(1, Math.ceil((whole.x1 - whole.x0) / SLICE_MM));
  const width = (whole.x1 - whole.x0) / count;
  const list = Array.from({ length: count }, (_, i) => ({ x0: whole.x0 + i * width, x1: whole.x0 + (i + 1) * width, y0: Infinity, y1: -Infinity }));
  ring.forEach(([ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length];
    const first = Math.max(0, Math.floor((Math.min(ax, bx) - whole.x0) / width));
    const last = Math.min(count - 1, Math.floor((Math.max(ax, bx) - whole.x0) / width));
    for (let k = first; k <= last; k++) {
      list[k].y0 = Math.min(list[k].y0, ay, by);
      list[k].y1 = Math.max(list[k].y1, ay, by);
    }
  });
  return list;
}

/** Places along a baseline, from one side to the other. */
function candidates({ section, view }: SectionLook, baseline: number, side: 'left' | 'right', inset: number): { x: number; y: number; align: 'left' | 'right' }[] {
  const half = Math.min(section.halfFloorMm, section.halfRimMm);
  const [x0, x1] = [view.pageX(-half) + inset, view.pageX(half) - inset];
  const COUNT = 16;
  return Array.from({ length: COUNT }, (_, i) => {
    const t = i / (COUNT - 1);
    return side === 'left' ? { x: x0 + (x1 - x0) * t, y: baseline, align: 'left' as const } : { x: x1 - (x1 - x0) * t, y: baseline, align: 'right' as const };
  });
}

function arrowSpots(arrow: Box): { x: number; y: number; align: 'right' }[] {
  const list: { x: number; y: number; align: 'right' }[] = [];
  const middle = (arrow.y0 + arrow.y1) / 2 + 1.4;
  for (let off = 0; off <= 14; off++) for (const way of [1, -1]) list.push({ x: arrow.x0 - 0.8, y: middle + way * off, align: 'right' });
  for (let off = 0; off < 8; off++) list.push({ x: arrow.x0 - 5 - off * 12, y: middle, align: 'right' });
  return list;
}

/** Writes a text in the first free place; where only a figure is in the way, shortened before it is written over the figure. */
function writeFree(pen: Pen, look: SectionLook, spots: LabelSpots, text: string, style: TextStyle, places: readonly { x: number; y: number; align: 'left' | 'right' }[]): void {
  const { face = 'sans', pt = BODY_PT } = style;
  const { view, lettering } = look;
  const em = pt * MM_PER_POINT;
  for (const [share, clear] of [[0.6, true], [0.35, true], [0.2, true], [0.35, false]] as const) {
    const short = fit(text, face, pt, Math.max(20, (view.right - view.left) * share), lettering);
    const width = lettering.measure(short, face, pt);
    const at = spots.take(places.map(({ x, y, align }) => ({
      x0: align === 'left' ? x : x - width, x1: align === 'left' ? x + width : x, y0: y - ASCENT_EM * em, y1: y + DESCENT_EM * em,
    })), clear);
    if (at < 0) continue;
    pen.text(places[at].x, places[at].y, short, { ...style, align: places[at].align, halo: true });
    return;
  }
}

/** A plane's name under its line; above it where there is no room below. */
function nameLine(pen: Pen, look: SectionLook, spots: LabelSpots, atMm: number, name: string): void {
  const { view } = look;
  if (atMm < view.fromMm || atMm > view.toMm) return;
  const y = view.pageY(atMm);
  writeFree(pen, look, spots, name, { face: 'italic' }, [...candidates(look, y + 4, 'right', 6), ...candidates(look, y - 1.5, 'right', 6)]);
}

function nameBeds(pen: Pen, look: SectionLook, spots: LabelSpots): void {
  for (const shape of look.section.shapes.filter(({ kind }) => kind === 'bed')) {
    const boxes = placed(look, shape).map(({ outer }) => boxOf([outer]));
    if (boxes.length === 0) continue;
    const [box] = boxes;
    const y = Math.min(look.view.pageY(look.view.fromMm), box.y1) - 1.6;
    writeFree(pen, look, spots, shape.name, { face: 'italic' }, [
      ...[0.97, 0.9, 0.8, 0.7, 0.6, 0.5].map((t) => ({ x: box.x0 + (box.x1 - box.x0) * t - 2, y, align: 'right' as const })),
      ...[3, 6, 9].map((up) => ({ x: box.x1 - 3, y: y - up, align: 'right' as const })),
    ]);
  }
}
