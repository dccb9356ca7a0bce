/** A drawing at 1:1 cut into page-sized windows that overlap, and the marks on their seams. */
import type { SheetItem } from './document.ts';
import { LINE, TICK_PT, createPen } from './pen.ts';
import type { Lettering, Pen } from './pen.ts';
import type { Box, Point } from './polygon.ts';

/** mm. What two neighboring pages both show. */
export const OVERLAP_MM = 10;
/** mm. The finest line that is safe to print at 1:1. */
export const THIN_LINE_MM = 0.2;
/** mm. A page made for a drawing is as large as it but for rounding. */
const FITS_MM = 1e-6;
/** Pages of one drawing: a table-top of 1.5 × 1 m takes some 60. */
export const MOST_TILES = 150;

export interface Tiling {
  readonly columns: number;
  readonly rows: number;
  /** Row by row from the top left, all of one size. */
  readonly windows: readonly Box[];
}

/** The fewest windows of at most `wideMm` × `highMm` that cover the bounds, neighbors sharing the overlap. */
export function tilesOf(bounds: Box, wideMm: number, highMm: number): Tiling {
  const across = spans(bounds.x0, bounds.x1, wideMm);
  const down = spans(bounds.y0, bounds.y1, highMm);
  return { columns: across.length, rows: down.length, windows: down.flatMap(([y0, y1]) => across.map(([x0, x1]) => ({ x0, y0, x1, y1 }))) };
}

function spans(from: number, to: number, most: number): [number, number][] {
  const length = to - from;
  const count = length <= most + FITS_MM ? 1 : Math.ceil((length - OVERLAP_MM - FITS_MM) / (most - OVERLAP_MM));
  const each = (length + (count - 1) * OVERLAP_MM) / count;
  return Array.from({ length: count }, (_, i) => {
    const start = from + i * (each - OVERLAP_MM);
    return [start, i === count - 1 ? to : start + each];
  });
}

/** Shares of a seam's length where its register marks stand. */
const MARKED = [0.25, 0.75];
const CIRCLE_POINTS = 24;
const MARK_RADIUS_MM = 2;
const MARK_CROSS_MM = 3;

/** A circle with a cross, to be laid on its twin. */
export function drawRegister(pen: Pen, [x, y]: Point): void {
  pen.shape([Array.from({ length: CIRCLE_POINTS }, (_, i) => {
    const at = (2 * Math.PI * i) / CIRCLE_POINTS;
    return [x + MARK_RADIUS_MM * Math.cos(at), y + MARK_RADIUS_MM * Math.sin(at)] as const;
  })], { strokeMm: LINE.rule });
  pen.line([[x - MARK_CROSS_MM, y], [x + MARK_CROSS_MM, y]], LINE.rule);
  pen.line([[x, y - MARK_CROSS_MM], [x, y + MARK_CROSS_MM]], LINE.rule);
}

/** The seams of one part in the drawing's own place: dashed down the middle of each overlap, marks and the seam's number. */
export function seamItems({ columns, rows, windows }: Tiling, index: number, lettering: Lettering): SheetItem[] {
  const pen = createPen(lettering);
  const { x0, y0, x1, y1 } = windows[index];
  const [row, column] = [Math.floor(index / columns), index % columns];
  const marks = (low: number, high: number): number[] => MARKED.map((share) => low + share * (high - low));
  const upright = (x: number, seam: number, side: -1 | 1): void => {
    pen.line([[x, y0], [x, y1]], THIN_LINE_MM, { dash: [1.5, 1] });
    for (const y of marks(y0, y1)) {
      drawRegister(pen, [x, y]);
      pen.text(x + side * 3.8, y - 0.8, `join ${seam}`, { pt: TICK_PT, align: side < 0 ? 'right' : 'left' });
    }
  };
  const level = (y: number, seam: number, side: -1 | 1): void => {
    pen.line([[x0, y], [x1, y]], THIN_LINE_MM, { dash: [1.5, 1] });
    for (const x of marks(x0, x1)) {
      drawRegister(pen, [x, y]);
      pen.text(x + 3, y + (side < 0 ? -1.4 : 3.9), `join ${seam}`, { pt: TICK_PT });
    }
  };
  // Seams are numbered row by row: those to the right of each part, then those under each.
  const beside = (r: number, c: number): number => r * (columns - 1) + c + 1;
  const under = (r: number, c: number): number => rows * (columns - 1) + r * columns + c + 1;
  const middle = OVERLAP_MM / 2;
  if (column > 0) upright(x0 + middle, beside(row, column - 1), 1);
  if (column + 1 < columns) upright(x1 - middle, beside(row, column), -1);
  if (row > 0) level(y0 + middle, under(row - 1, column), 1);
  if (row + 1 < rows) level(y1 - middle, under(row, column), -1);
  return pen.items;
}

/** The same items elsewhere. */
export function shifted(items: readonly SheetItem[], dx: number, dy: number): SheetItem[] {
  const ring = <R extends readonly Point[]>(points: R): Point[] => points.map(([x, y]): Point => [x + dx, y + dy]);
  return items.map((item): SheetItem => {
    if (item.kind === 'text') return { ...item, x: item.x + dx, y: item.y + dy };
    if (item.kind === 'path') return { ...item, rings: item.rings.map(ring) };
    if (item.kind === 'picture') return { ...item, corners: ring(item.corners) as unknown as typeof item.corners };
    if (item.kind === 'hatch') return { ...item, region: item.region.map(({ outer, holes }) => ({ outer: ring(outer), holes: holes.map(ring) })) };
    return { ...item, clip: ring(item.clip), items: shifted(item.items, dx, dy) };
  });
}
