/**
 * Pages of one template: a head that says what it is, the drawing at 1:1 in as many parts as it takes, a bar of 100 mm
 * both ways on each, and where each part belongs.
 */
import type { Finding } from '../plan/plan.ts';
import type { PrintBars } from '../scene/scene.ts';
import { plain } from '../units/format.ts';
import type { PageKind, Paper, SheetItem, SheetPage } from './document.ts';
import { PAPER_MM } from './document.ts';
import { writeBanner } from './frame.ts';
import type { Lettering, Pen, Words } from './pen.ts';
import { BODY_PT, LINE, SMALL_PT, TICK_PT, createPen, fit, leading, wrap, writeLines } from './pen.ts';
import type { Box } from './polygon.ts';
import { rectangle } from './polygon.ts';
import { CHECK_BAR_MM } from './strip-page.ts';
import type { Tiling } from './template-tiles.ts';
import { THIN_LINE_MM, MOST_TILES, seamItems, shifted, tilesOf } from './template-tiles.ts';

/** A drawing that no one would join: found, expected, what to do. */
export class TemplateError extends Error {
  override readonly name = 'TemplateError';
}

/** A page to lay out on: its paper, where the live area's corner is, and how large that is in true mm. */
export interface PageFormat {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly originMm: number;
  readonly liveWidthMm: number;
  readonly liveHeightMm: number;
  readonly scale?: readonly [number, number];
}

export interface TemplateSheet {
  readonly kind: Extract<PageKind, 'template' | 'stencil'>;
  readonly title: string;
  readonly subtitle: string;
  /** The piece's name, for the corner. */
  readonly piece: string;
  readonly facts: readonly Words[];
  /** After them: how to print it. */
  readonly printFacts: readonly Words[];
  readonly halts: readonly Finding[];
  readonly bounds: Box;
  readonly items: readonly SheetItem[];
}

/** mm. Round the live area on every side, and below. */
const MARGIN_MM = 10;
const FOOT_MM = 15;
/** mm. Round a drawing that has no paper. */
const BARE_MARGIN_MM = 5;
/** mm. Kept for the upright bar at the right and the level one at the foot. */
const RIGHT_MM = 9;
const BELOW_MM = 10;
const TITLE_PT = 24;
const SUBTITLE_PT = 16;
const TITLE_Y = 8;
const RULE_Y = 11.4;
const MOST_FACT_LINES = 8;
/** mm. The board in the head. */
const BOARD_MM = 46;
const BOARD_PT = 16;
/** Where the other reasons not to pour stand. */
const REST = 'see the build sheet';
/** mm. From the right, what the words of the upright bar take. */
const BAR_WORDS_MM = 18;
const JOINING = ' To join: cut one page along the dashed line and lay it on the line of the other, circle on circle.';
/** mm. Low enough that the upright bar fits beside the smallest drawing. */
const LEAST_DRAWING_MM = CHECK_BAR_MM + 12;

/** Both ways of laying the paper, by what the printer's bars measured: what it draws smaller is drawn larger. */
export function paperFormats(paper: Paper, bars: PrintBars | undefined): PageFormat[] {
  const scale: readonly [number, number] | undefined = bars && (bars.xMm !== CHECK_BAR_MM || bars.yMm !== CHECK_BAR_MM) ? [CHECK_BAR_MM / bars.xMm, CHECK_BAR_MM / bars.yMm] : undefined;
  const [long, short] = PAPER_MM[paper];
  return [[long, short], [short, long]].map(([widthMm, heightMm]) => ({
    widthMm,
    heightMm,
    originMm: MARGIN_MM,
    liveWidthMm: (widthMm - 2 * MARGIN_MM) / (scale?.[0] ?? 1),
    liveHeightMm: (heightMm - MARGIN_MM - FOOT_MM) / (scale?.[1] ?? 1),
    scale,
  }));
}

/** The format that takes fewer pages, the first of those that take as many.  */
export function bestFormat(sheets: readonly TemplateSheet[], formats: readonly PageFormat[], lettering: Lettering): PageFormat {
  const counts = formats.map((format) => sheets.reduce((sum, sheet) => sum + tilingOf(sheet, format, lettering).windows.length, 0));
  return formats[counts.indexOf(Math.min(...counts))];
}

/** A page of the drawing's own size: nothing is cut. */
export function bareFormat(sheet: TemplateSheet, lettering: Lettering): PageFormat {
  const liveWidthMm = Math.max(sheet.bounds.x1 - sheet.bounds.x0, 1.6 * CHECK_BAR_MM) + RIGHT_MM;
  const top = writeHead(createPen(lettering), sheet, { liveWidthMm, words: '', lettering });
  const liveHeightMm = top + Math.max(sheet.bounds.y1 - sheet.bounds.y0, LEAST_DRAWING_MM) + BELOW_MM;
  return { widthMm: liveWidthMm + 2 * BARE_MARGIN_MM, heightMm: liveHeightMm + 2 * BARE_MARGIN_MM, originMm: BARE_MARGIN_MM, liveWidthMm, liveHeightMm };
}

/**
 * How a page tells reasons not to pour: on a board under its head as many as there is room for, there the first alone, or
 * the board in the head and the first at the foot, which takes nothing from the drawing: none falls into parts for them.
 */
type Telling = 'all' | 'first' | 'aside';

interface Laid extends Tiling {
  readonly top: number;
  readonly telling: Telling;
}

function tilingOf(sheet: TemplateSheet, { liveWidthMm, liveHeightMm }: PageFormat, lettering: Lettering): Laid {
  const laid = (parts: boolean, telling: Telling): Laid => {
    const top = writeHead(createPen(lettering), sheet, { liveWidthMm, words: '', lettering, parts, telling });
    return { ...tilesOf(sheet.bounds, liveWidthMm - RIGHT_MM, liveHeightMm - BELOW_MM - top), top, telling };
  };
  return (['all', 'first', 'aside'] as const).map((telling) => laid(false, telling)).find(({ windows }) => windows.length === 1) ?? laid(true, 'all');
}

/** `before`: pages of the same file that come first; `of`: all of them. */
export function layTemplatePages(sheet: TemplateSheet, format: PageFormat, { lettering, before, of }: { lettering: Lettering; before: number; of: number }): SheetPage[] {
  const { columns, rows, windows, top, telling } = tilingOf(sheet, format, lettering);
  if (windows.length > MOST_TILES) throw new TemplateError(tooMany(sheet, windows.length));
  return windows.map((window, i) => {
    const pen = createPen(lettering);
    const part = windows.length === 1 ? '' : `row ${Math.floor(i / columns) + 1}, column ${(i % columns) + 1}`;
    writeHead(pen, sheet, { liveWidthMm: format.liveWidthMm, words: `page ${before + i + 1} of ${of}`, lettering, parts: windows.length > 1, telling });
    if (telling === 'aside') writeReasonAtFoot(pen, sheet.halts, format, lettering);
    const x = (format.liveWidthMm - RIGHT_MM - (window.x1 - window.x0)) / 2;
    const [dx, dy] = [x - window.x0, top - window.y0];
    const inside = [...sheet.items, ...seamItems({ columns, rows, windows }, i, lettering)];
    if (windows.length === 1) pen.items.push(...shifted(inside, dx, dy));
    else pen.clip(rectangle(x, top, x + window.x1 - window.x0, top + window.y1 - window.y0), shifted(inside, dx, dy));
    drawCheckBars(pen, format);
    if (part) drawMap(pen, { columns, rows, index: i, words: part }, format);
    return {
      kind: sheet.kind,
      title: [sheet.title, part].filter(Boolean).join(', '),
      part: { row: Math.floor(i / columns) + 1, column: (i % columns) + 1, window, atMm: [x, top] },
      halted: sheet.halts.length > 0,
      items: pen.items,
    };
  });
}

/** How many pages a sheet takes; what `layTemplatePages` gives. */
export function pagesOf(sheet: TemplateSheet, format: PageFormat, lettering: Lettering): number {
  return tilingOf(sheet, format, lettering).windows.length;
}

const tooMany = ({ title }: TemplateSheet, count: number): string =>
  `${title} at 1:1 takes ${plain(count, 0)} pages; expected at most ${MOST_TILES}. Check the mold’s size, or print the SVG on a wide printer.`;

/** Title, running head, facts, and what a halt puts on it; returns the first free y. */
export function writeHead(
  pen: Pen, { title, subtitle, piece, facts, printFacts, halts }: TemplateSheet,
  { liveWidthMm, words, lettering, parts = false, telling = 'all' }: { liveWidthMm: number; words: string; lettering: Lettering; parts?: boolean; telling?: Telling },
): number {
  const cornerMm = Math.min(92, liveWidthMm * 0.4);
  const pageMm = pen.text(liveWidthMm, 4.4, words, { align: 'right' });
  pen.text(liveWidthMm, 9.4, fit(piece, 'italic', BODY_PT, cornerMm - 4, lettering), { face: 'italic', align: 'right' });
  const aside = halts.length > 0 && telling === 'aside';
  const room = liveWidthMm - Math.max(cornerMm, pageMm) - (aside ? BOARD_MM + 4 : 0);
  const width = pen.text(0, TITLE_Y, fit(title, 'bold', TITLE_PT, room, lettering), { face: 'bold', pt: TITLE_PT });
  if (aside) writeBoard(pen, room + 2);
  if (room - width > 25) pen.text(width + 4, TITLE_Y, fit(subtitle, 'italic', SUBTITLE_PT, room - width - 6, lettering), { face: 'italic', pt: SUBTITLE_PT });
  pen.line([[0, RULE_Y], [liveWidthMm, RULE_Y]], LINE.heavy);
  const lines = wrap([...facts, ...printFacts, parts ? JOINING : ''], liveWidthMm, lettering, { pt: SMALL_PT, maxLines: MOST_FACT_LINES });
  const top = writeLines(pen, 0, RULE_Y + 5, lines, { pt: SMALL_PT }) - leading(SMALL_PT) + 2.6;
  return halts.length > 0 && !aside ? writeBanner(pen, halts, { lettering, widthMm: liveWidthMm, topMm: top + 0.6, rest: REST, ...(telling === 'first' && { most: 1 }) }) - 1 : top;
}

/** In the head, over its rule. */
function writeBoard(pen: Pen, left: number): void {
  pen.shape([rectangle(left, 0.4, left + BOARD_MM, RULE_Y - 1)], { fill: 'ink' });
  pen.text(left + BOARD_MM / 2, TITLE_Y - 0.6, 'DO NOT POUR', { face: 'bold', pt: BOARD_PT, align: 'center', tone: 'paper' });
}

/** One line over the level bar, beside the foot of the upright one. */
function writeReasonAtFoot(pen: Pen, halts: readonly Finding[], { liveWidthMm, liveHeightMm }: PageFormat, lettering: Lettering): void {
  const y = liveHeightMm - 5.4;
  const why = 'Why: ';
  const room = liveWidthMm - BAR_WORDS_MM;
  const more = halts.length > 1 ? ` And ${halts.length - 1} more: ${REST}.` : '';
  // Smaller where that tells more of it.
  const pt = lettering.measure(`${why}${halts[0].message}${more}`, 'bold', SMALL_PT) <= room ? SMALL_PT : TICK_PT;
  const x = pen.text(0, y, why, { face: 'bold', pt }) + 1;
  pen.text(x, y, `${fit(halts[0].message, 'sans', pt, room - x - lettering.measure(more, 'sans', pt), lettering)}${more}`, { pt });
}

/** 100 mm along the foot and up the right edge. */
function drawCheckBars(pen: Pen, { liveWidthMm, liveHeightMm }: PageFormat): void {
  const y = liveHeightMm - 2.4;
  pen.line([[0, y], [CHECK_BAR_MM, y]], LINE.rule);
  for (const x of [0, CHECK_BAR_MM]) pen.line([[x, y - 1.4], [x, y + 1.4]], LINE.rule);
  pen.text(CHECK_BAR_MM + 2.5, y + 1.3, '100\u00a0mm', { pt: SMALL_PT });
  const x = liveWidthMm - 1.5;
  const low = liveHeightMm - 8;
  pen.line([[x, low], [x, low - CHECK_BAR_MM]], LINE.rule);
  for (const at of [low, low - CHECK_BAR_MM]) pen.line([[x - 1.4, at], [x + 1.4, at]], LINE.rule);
  pen.text(x + 1.5, low + 5.6, '100\u00a0mm', { pt: SMALL_PT, align: 'right' });
}

/** mm. A cell of the little map, and the most it may be high. */
const CELL_MM = 3.6;
const MAP_HIGH_MM = 8;

/** All parts as little boxes, this one filled, and its place in words. */
function drawMap(pen: Pen, { columns, rows, index, words }: { columns: number; rows: number; index: number; words: string }, { liveWidthMm, liveHeightMm }: PageFormat): void {
  const right = liveWidthMm - 20;
  const wordsMm = pen.text(right, liveHeightMm - 1.1, words, { pt: SMALL_PT, face: 'bold', align: 'right' });
  const cell = Math.min(CELL_MM, MAP_HIGH_MM / rows, 24 / columns);
  const [x, y] = [right - wordsMm - 3 - columns * cell, liveHeightMm - rows * cell];
  for (let i = 0; i < columns * rows; i++) {
    const [left, top] = [x + (i % columns) * cell, y + Math.floor(i / columns) * cell];
    pen.shape([rectangle(left, top, left + cell, top + cell)], { strokeMm: THIN_LINE_MM, fill: i === index ? 'ink' : 'paper' });
  }
}
