/**
 * The eight pour hatches, the wall's and the bed's, as lines in mm that cover a box; the drawing clips them to its region.
 * They are laid out from the page's origin, so that neighboring regions of one pour line up, and are never scaled.
 */
import type { HatchName } from './document.ts';
import type { Box, Point } from './polygon.ts';

/** mm on paper of one px in the gauge's drawing. */
const PX = 0.22;
const STROKE_MM = 0.2;
/** Wall and bed are drawn finer than pours. */
const FINE_MM = 0.13;
/** mm. Lines reach this far past the box; the clip cuts them off. */
const OVER_MM = 0.5;
/** A page-sized box with the densest hatch has about 12,000 marks; past this the pitch is not what it should be. */
const MOST_MARKS = 60_000;

export interface HatchMarks {
  readonly strokeMm: number;
  readonly lines: readonly (readonly Point[])[];
  /** Dash and gap of the lines, mm, from their first point; a dash of 0 is a dot, as all line ends are round. */
  readonly dash: readonly [number, number] | null;
}

export function hatchMarks(name: HatchName, box: Box): HatchMarks {
  const grown = { x0: box.x0 - OVER_MM, y0: box.y0 - OVER_MM, x1: box.x1 + OVER_MM, y1: box.y1 + OVER_MM };
  const lines = (list: readonly (readonly Point[])[], strokeMm = STROKE_MM, dash: HatchMarks['dash'] = null): HatchMarks => ({ strokeMm, lines: list, dash });
  switch (name) {
    case 1:
      return lines([...rows(grown, 12 * PX, 12 * PX, [3 * PX, 3 * PX]), ...rows(grown, 12 * PX, 12 * PX, [9 * PX, 9 * PX])], 2.3 * PX, [0, 12 * PX]);
    case 2:
      return lines(parallels(grown, 45, 7 * PX, [0]));
    case 3:
      return lines([...rows(grown, 26 * PX, 14 * PX, [2 * PX, 3.5 * PX]), ...rows(grown, 26 * PX, 14 * PX, [15 * PX, 10.5 * PX])], STROKE_MM, [13 * PX, 13 * PX]);
    case 4:
      return lines(parallels(grown, 90, 9 * PX, [0]));
    case 5:
      return lines(ripples(grown, 22 * PX, 10 * PX, 2.4 * PX));
    case 6:
      return lines([...parallels(grown, 45, 10 * PX * Math.SQRT1_2, [0]), ...parallels(grown, -45, 10 * PX * Math.SQRT1_2, [0])], 0.17);
    case 7:
      return lines(parallels(grown, -52, 14 * PX, [0, 3.6 * PX]));
    case 8:
      return lines(tiles(grown, 18 * PX, 16 * PX, PLUSES));
    case 'wall':
      return lines(parallels(grown, -45, 6 * PX, [0]), FINE_MM);
    case 'bed':
      return lines(tiles(grown, 17 * PX, 13 * PX, GRAINS), FINE_MM);
  }
}

const PLUSES: readonly (readonly Point[])[] = [
  [[4.5, 1.5], [4.5, 7.5]], [[1.5, 4.5], [7.5, 4.5]], [[13.5, 9.5], [13.5, 15.5]], [[10.5, 12.5], [16.5, 12.5]],
];

/** Two small humps and two specks: sand. */
const GRAINS: readonly (readonly Point[])[] = [
  [[2, 4.5], [3, 3.2], [4.4, 2.7], [5.6, 3.1], [6.5, 4.1]],
  [[10, 10.5], [11.2, 9.4], [12.5, 9.1], [13.9, 9.5], [15, 10.3]],
  [[11.5, 3], [12.5, 3]], [[4, 10], [5.2, 10]],
];

/** Level lines over the box, each starting on the grid, so that dashes of neighboring regions line up. */
function rows(box: Box, pitchX: number, pitchY: number, [offX, offY]: Point): Point[][] {
  const list: Point[][] = [];
  const start = (Math.floor((box.x0 - offX) / pitchX)) * pitchX + offX;
  for (let y = Math.floor((box.y0 - offY) / pitchY) * pitchY + offY; y < box.y1; y += pitchY) {
    if (y > box.y0) list.push([[start, y], [box.x1, y]]);
  }
  return list;
}

function* cells(box: Box, pitchX: number, pitchY: number): Generator<Point> {
  const count = ((box.x1 - box.x0) / pitchX + 2) * ((box.y1 - box.y0) / pitchY + 2);
  const stretch = count > MOST_MARKS ? Math.sqrt(count / MOST_MARKS) : 1;
  for (let y = Math.floor(box.y0 / pitchY) * pitchY; y < box.y1; y += pitchY * stretch) {
    for (let x = Math.floor(box.x0 / pitchX) * pitchX; x < box.x1; x += pitchX * stretch) yield [x, y];
  }
}

function tiles(box: Box, pitchX: number, pitchY: number, motif: readonly (readonly Point[])[]): Point[][] {
  const list: Point[][] = [];
  for (const [x, y] of cells({ ...box, x0: box.x0 - pitchX }, pitchX, pitchY)) {
    for (const line of motif) {
      const placed = line.map(([u, v]): Point => [x + u * PX, y + v * PX]);
      if (placed.some(([px, py]) => px > box.x0 && px < box.x1 && py > box.y0 && py < box.y1)) list.push(placed);
    }
  }
  return list;
}

/** Lines at an angle (degrees, up to the right), `pitch` apart, each repeated at the offsets; cut to the box. */
function parallels(box: Box, angleDeg: number, pitch: number, offsets: readonly number[]): Point[][] {
  const angle = (angleDeg * Math.PI) / 180;
  // Down is +y on the page, so a line up to the right runs along (cos, −sin); its normal is (sin, cos).
  const direction: Point = [Math.cos(angle), -Math.sin(angle)];
  const normal: Point = [Math.sin(angle), Math.cos(angle)];
  const corners: Point[] = [[box.x0, box.y0], [box.x1, box.y0], [box.x1, box.y1], [box.x0, box.y1]];
  const reach = corners.map(([x, y]) => x * normal[0] + y * normal[1]);
  const first = Math.floor(Math.min(...reach) / pitch) - 1;
  const last = Math.ceil(Math.max(...reach) / pitch);
  const list: Point[][] = [];
  for (let k = first; k <= last; k += Math.max(1, Math.ceil((last - first) / MOST_MARKS))) {
    for (const offset of offsets) {
      const cut = cutLine(box, [normal[0] * (k * pitch + offset), normal[1] * (k * pitch + offset)], direction);
      if (cut) list.push(cut);
    }
  }
  return list;
}

/** The part of an endless line inside a box (slab method), or null. */
function cutLine(box: Box, through: Point, direction: Point): Point[] | null {
  let from = -Infinity, to = Infinity;
  for (const axis of [0, 1] as const) {
    const low = axis === 0 ? box.x0 : box.y0;
    const high = axis === 0 ? box.x1 : box.y1;
    // Sine and cosine of a right angle leave 6e-17 where 0 is meant.
    if (Math.abs(direction[axis]) < 1e-12) {
      if (through[axis] < low || through[axis] > high) return null;
      continue;
    }
    const a = (low - through[axis]) / direction[axis];
    const b = (high - through[axis]) / direction[axis];
    from = Math.max(from, Math.min(a, b));
    to = Math.min(to, Math.max(a, b));
  }
  if (from >= to) return null;
  return [from, to].map((t): Point => [through[0] + direction[0] * t, through[1] + direction[1] * t]);
}

function ripples(box: Box, wave: number, pitch: number, rise: number): Point[][] {
  const list: Point[][] = [];
  const STEPS = 10;
  for (let k = Math.floor(box.y0 / pitch); k * pitch < box.y1 + rise; k++) {
    const line: Point[] = [];
    const start = Math.floor(box.x0 / wave) * wave;
    for (let i = 0; start + (i * wave) / STEPS <= box.x1 + wave / STEPS; i++) {
      line.push([start + (i * wave) / STEPS, (k + 0.55) * pitch - rise * Math.sin((2 * Math.PI * i) / STEPS)]);
    }
    list.push(line);
  }
  return list;
}
