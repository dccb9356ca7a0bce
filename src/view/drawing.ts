/**
 * The mold and its water as plain triangles and lines, for the walls kept at the moment. Pure arithmetic; the
 * arrays go to the renderer as they are (mold-model.ts).
 */

import type { Vec3 } from './eye.ts';
import { mixed, rgbOf, isDark, type Rgb } from './color.ts';
import { innerAt, outerAt, type Outline } from './outline.ts';
import type { ViewColors, ViewPour } from './props.ts';

/** Triangles: nine numbers each, and as many of color. */
export interface Faces {
  readonly positions: number[];
  readonly colors: number[];
}

/** Line pieces: six numbers each. */
export type Lines = number[];

export interface MoldDrawing {
  /** Walls, rim, floor: opaque paper. */
  readonly paper: Faces;
  /** Where a wall or the floor is cut: hatched. */
  readonly cut: Faces;
  /** Water seen through its cut side. */
  readonly veil: Faces;
  /** Water that must not be poured, at the cut side. */
  readonly barred: Faces;
  /** The water's surface from above. */
  readonly surface: Faces;
  readonly edges: Lines;
  readonly rim: Lines;
  readonly pourLines: Lines;
  /** The same on the water's cut side, lighter: one looks through them. */
  readonly frontLines: Lines;
  /** Not poured yet. */
  readonly dottedLines: Lines;
  readonly levelLine: Lines;
  readonly barLines: Lines;
}

export interface WaterBand {
  readonly fromMm: number;
  readonly toMm: number;
  readonly color: Rgb;
  readonly halted: boolean;
}

export interface MoldLook {
  readonly outline: Outline;
  readonly fillMm: number;
  /** Height of the water's surface now. */
  readonly levelMm: number;
  readonly bands: readonly WaterBand[];
  readonly colors: ViewColors;
}

/** How much of a tint the water takes on: a hint, the look-through shows the truth. */
const TINT_SHARE = 0.3;
/** Shade of a wall by where it faces: light comes from the left front. */
const WALL_SHADE = 0.07;

/** The pours as bands of water, the whole fill as one where there are none yet. */
export function waterBands(pours: readonly ViewPour[], fillMm: number, colors: ViewColors): WaterBand[] {
  const water = rgbOf(colors.water);
  if (pours.length === 0) return [{ fromMm: 0, toMm: fillMm, color: water, halted: false }];
  return pours.map(({ fromMm, toMm, tint, halted }) => ({ fromMm, toMm, color: tint ? mixed(water, rgbOf(tint), TINT_SHARE) : water, halted: halted ?? false }));
}

/** How high the water stands: at the top of a pour, or the whole fill. */
export function waterLevel(pours: readonly ViewPour[], poured: number | undefined, fillMm: number): number {
  if (poured === undefined) return fillMm;
  return pours.reduce((level, pour) => (pour.index <= poured ? Math.max(level, pour.toMm) : level), 0);
}

/** `below`: for an eye under the floor, which is left out like a wall between it and the inside. */
export function drawMold(look: MoldLook, kept: readonly boolean[], below = false): MoldDrawing {
  const drawing: MoldDrawing = {
    paper: faces(), cut: faces(), veil: faces(), barred: faces(), surface: faces(),
    edges: [], rim: [], pourLines: [], frontLines: [], dottedLines: [], levelLine: [], barLines: [],
  };
  const bottomMm = below ? 0 : -look.outline.wallMm;
  if (below) drawFloorLeftOut(drawing, look, kept);
  else drawFloor(drawing, look, kept);
  look.outline.stretches.forEach((_, i) => (kept[i] ? drawWall(drawing, look, { i, bottomMm }) : drawOpening(drawing, look, i)));
  drawEnds(drawing, look, { kept, bottomMm });
  drawSurface(drawing, look);
  return drawing;
}

/** The heights at which something changes along a wall, from the floor up to the rim. */
function heightsOf({ bands, levelMm, fillMm, outline }: MoldLook): number[] {
  const all = [0, levelMm, fillMm, outline.heightMm, ...bands.flatMap((band) => [band.fromMm, band.toMm])];
  return [...new Set(all)].filter((z) => z >= 0 && z <= outline.heightMm).sort((a, b) => a - b);
}

function bandAt(look: MoldLook, zMm: number): WaterBand | undefined {
  return zMm < look.levelMm ? look.bands.find((band) => zMm >= band.fromMm && zMm < band.toMm) ?? look.bands[0] : undefined;
}

/** Water is paler on a wall near the surface and full at the floor. */
function wallColor(look: MoldLook, zMm: number, normal: readonly [number, number]): Rgb {
  const sheet = rgbOf(look.colors.sheet);
  const shade = WALL_SHADE * (0.5 + 0.5 * (normal[0] * -0.8 + normal[1] * 0.6) * -1);
  const band = bandAt(look, zMm);
  const color = band ? mixed(sheet, band.color, 0.5 + 0.4 * (1 - zMm / Math.max(1, look.levelMm))) : sheet;
  return mixed(color, rgbOf(look.colors.ink), isDark(sheet) ? 0 : shade);
}

function drawFloor(drawing: MoldDrawing, look: MoldLook, kept: readonly boolean[]): void {
  const { outline, colors } = look;
  const color = bandAt(look, 0)?.color ?? rgbOf(colors.sheet);
  const center: Vec3 = [0, 0, 0];
  for (const { at, next } of outline.stretches) triangle(drawing.paper, center, innerAt(outline, at, 0), innerAt(outline, next, 0), color);
  // Where the wall is cut away the floor is cut at its inner face; elsewhere it goes on under the wall.
  outline.stretches.forEach(({ at, next, corner }, i) => {
    if (kept[i] || corner) return;
    quad(drawing.cut, [innerAt(outline, at, 0), innerAt(outline, next, 0), under(outline, next), under(outline, at)], rgbOf(colors.sheet));
    line(drawing.edges, under(outline, at), under(outline, next));
    line(drawing.edges, innerAt(outline, at, 0), innerAt(outline, next, 0));
  });
}

/** The water's own face at the floor, and the walls cut there. */
function drawFloorLeftOut(drawing: MoldDrawing, look: MoldLook, kept: readonly boolean[]): void {
  const { outline, colors } = look;
  const water = bandAt(look, 0);
  const center: Vec3 = [0, 0, 0];
  outline.stretches.forEach(({ at, next, corner }, i) => {
    if (water) triangle(drawing.surface, center, innerAt(outline, at, 0), innerAt(outline, next, 0), water.color);
    if (kept[i]) quad(drawing.cut, [innerAt(outline, at, 0), outerAt(outline, at, 0), outerAt(outline, next, 0), innerAt(outline, next, 0)], rgbOf(colors.sheet));
    else if (!corner) line(drawing.edges, innerAt(outline, at, 0), innerAt(outline, next, 0));
  });
}

function drawWall(drawing: MoldDrawing, look: MoldLook, { i, bottomMm: bottom }: { readonly i: number; readonly bottomMm: number }): void {
  const { outline, colors } = look;
  const { at, next, normal, corner } = outline.stretches[i];
  const top = outline.heightMm;
  const silt = rgbOf(colors.silt);
  const out: [number, number] = [outline.nodes[at].outX, outline.nodes[at].outY];
  const outerShade = mixed(silt, rgbOf(colors.ink), 0.06 + 0.05 * Math.max(0, out[0]));
  quad(drawing.paper, [outerAt(outline, at, bottom), outerAt(outline, next, bottom), outerAt(outline, next, top), outerAt(outline, at, top)], outerShade);
  quad(drawing.paper, [innerAt(outline, at, top), outerAt(outline, at, top), outerAt(outline, next, top), innerAt(outline, next, top)], silt);
  line(drawing.edges, outerAt(outline, at, bottom), outerAt(outline, next, bottom));
  line(drawing.rim, outerAt(outline, at, top), outerAt(outline, next, top));
  if (corner) return;
  line(drawing.rim, innerAt(outline, at, top), innerAt(outline, next, top));
  line(drawing.edges, innerAt(outline, at, 0), innerAt(outline, next, 0));
  const heights = heightsOf(look);
  for (let k = 0; k + 1 < heights.length; k++) {
    const [low, high] = [heights[k], heights[k + 1]];
    const ends = [innerAt(outline, at, low), innerAt(outline, next, low), innerAt(outline, next, high), innerAt(outline, at, high)] as const;
    const [from, to] = [wallColor(look, low, normal), wallColor(look, high - 1e-6 * outline.heightMm, normal)];
    quadOf(drawing.paper, ends, [from, from, to, to]);
  }
  drawWaterLines(drawing, look, { at, next, lines: drawing.pourLines });
}

/** A cut-away wall's place: the water's own side, with its pours. */
function drawOpening(drawing: MoldDrawing, look: MoldLook, i: number): void {
  const { outline, colors } = look;
  const { at, next, corner } = outline.stretches[i];
  if (corner) return;
  for (const band of look.bands) {
    const top = Math.min(band.toMm, look.levelMm);
    const bar = band.halted && look.levelMm >= band.fromMm;
    if (!(top > band.fromMm) && !bar) continue;
    const high = bar ? band.toMm : top;
    const side = [innerAt(outline, at, band.fromMm), innerAt(outline, next, band.fromMm), innerAt(outline, next, high), innerAt(outline, at, high)] as const;
    quad(bar ? drawing.barred : drawing.veil, side, bar ? rgbOf(colors.brickwash) : band.color);
    if (bar) {
      drawing.barLines.push(...side[0], ...side[2], ...side[1], ...side[3]);
      line(drawing.barLines, side[0], side[1]);
      line(drawing.barLines, side[3], side[2]);
    }
  }
  drawWaterLines(drawing, look, { at, next, lines: drawing.frontLines });
}

function drawWaterLines(drawing: MoldDrawing, look: MoldLook, { at, next, lines: poured }: { at: number; next: number; lines: Lines }): void {
  const { outline, levelMm, fillMm } = look;
  const along = (lines: Lines, z: number): void => line(lines, innerAt(outline, at, z), innerAt(outline, next, z));
  for (const { toMm } of look.bands) {
    if (toMm === levelMm) continue;
    along(toMm < levelMm ? poured : drawing.dottedLines, toMm);
  }
  if (levelMm > 0) along(drawing.levelLine, levelMm);
  if (levelMm < fillMm && !look.bands.some((band) => band.toMm === fillMm)) along(drawing.dottedLines, fillMm);
}

/** Where kept walls end: their hatched section, and the water's own upright edge. */
function drawEnds(drawing: MoldDrawing, look: MoldLook, { kept, bottomMm: bottom }: { readonly kept: readonly boolean[]; readonly bottomMm: number }): void {
  const { outline, colors } = look;
  const count = kept.length;
  for (let i = 0; i < count; i++) {
    const before = kept[(i + count - 1) % count];
    const { at } = outline.stretches[i];
    const top = outline.heightMm;
    const sharp = Math.hypot(outline.nodes[at].outX, outline.nodes[at].outY) > 1.01;
    if (before !== kept[i]) {
      const section = [innerAt(outline, at, top), outerAt(outline, at, top), outerAt(outline, at, bottom), bottom < 0 ? under(outline, at) : innerAt(outline, at, 0)] as const;
      quad(drawing.cut, section, rgbOf(colors.sheet));
      for (let k = 0; k < 4; k++) line(k === 0 ? drawing.rim : drawing.edges, section[k], section[(k + 1) % 4]);
    } else if (!kept[i] && !outline.stretches[i].corner && outline.stretches[(i + count - 1) % count].corner) {
      line(drawing.edges, bottom < 0 ? under(outline, at) : innerAt(outline, at, 0), innerAt(outline, at, Math.max(0, look.levelMm)));
    } else if (kept[i] && sharp) {
      line(drawing.edges, innerAt(outline, at, 0), innerAt(outline, at, top));
      line(drawing.edges, outerAt(outline, at, bottom), outerAt(outline, at, top));
    }
  }
}

function drawSurface(drawing: MoldDrawing, look: MoldLook): void {
  const { outline, levelMm } = look;
  if (!(levelMm > 0)) return;
  const color = bandAt(look, levelMm * (1 - 1e-9))?.color ?? rgbOf(look.colors.water);
  const center: Vec3 = [0, 0, levelMm];
  for (const { at, next } of outline.stretches) triangle(drawing.surface, center, innerAt(outline, at, levelMm), innerAt(outline, next, levelMm), color);
}

/** The floor slab's lower edge under the inner face. */
function under(outline: Outline, node: number): Vec3 {
  const [x, y] = innerAt(outline, node, 0);
  return [x, y, -outline.wallMm];
}

function faces(): Faces {
  return { positions: [], colors: [] };
}

function triangle(into: Faces, a: Vec3, b: Vec3, c: Vec3, color: Rgb): void {
  into.positions.push(...a, ...b, ...c);
  into.colors.push(...color, ...color, ...color);
}

function quad(into: Faces, corners: readonly [Vec3, Vec3, Vec3, Vec3], color: Rgb): void {
  quadOf(into, corners, [color, color, color, color]);
}

function quadOf(into: Faces, [a, b, c, d]: readonly [Vec3, Vec3, Vec3, Vec3], [ca, cb, cc, cd]: readonly [Rgb, Rgb, Rgb, Rgb]): void {
  into.positions.push(...a, ...b, ...c, ...a, ...c, ...d);
  into.colors.push(...ca, ...cb, ...cc, ...ca, ...cc, ...cd);
}

function line(into: Lines, a: Vec3, b: Vec3): void {
  into.push(...a, ...b);
}
