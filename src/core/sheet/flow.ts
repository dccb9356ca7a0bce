/** Blocks that flow down columns and over pages: paragraphs, headings, lists, tables. */
import { LIVE_HEIGHT_MM } from './document.ts';
import type { Face } from './document.ts';
import type { OpenPage } from './frame.ts';
import type { Lettering, Line, Pen, Words } from './pen.ts';
import { BODY_PT, HEADING_PT, LINE, SMALL_PT, TICK_BOX_MM, leading, wrap, writeLines } from './pen.ts';
import { rectangle } from './polygon.ts';

export interface Block {
  readonly heightMm: number;
  /** Does not stand last in a column. */
  readonly keepWithNext?: boolean;
  /** Draws with its top left at x, y. */
  readonly draw: (pen: Pen, x: number, y: number) => void;
}

export interface Column {
  readonly pen: Pen;
  readonly x: number;
  readonly top: number;
  readonly bottom: number;
}

/** mm from a block's top to its first baseline. */
const FIRST_BASELINE_EM = 0.93;
const baselineOf = (pt: number): number => leading(pt) * FIRST_BASELINE_EM * 0.9;

/**
 * Sets blocks one under the other into the columns that `next` gives (0, 1, 2 …); returns where the last one ended.
 * A block that is taller than an empty column is drawn there all the same.
 */
export function flow(blocks: readonly Block[], next: (index: number) => Column): { columns: number; y: number } {
  let index = 0;
  let column = next(0);
  let y = column.top;
  blocks.forEach((block, i) => {
    let need = block.heightMm;
    for (let k = i; blocks[k].keepWithNext && k + 1 < blocks.length && k < i + 4; k++) need += blocks[k + 1].heightMm;
    if (y + Math.min(need, column.bottom - column.top) > column.bottom + 0.01 && y > column.top) {
      column = next(++index);
      y = column.top;
    }
    block.draw(column.pen, column.x, y);
    y += block.heightMm;
  });
  return { columns: index + 1, y };
}

/** Columns side by side on pages that `open` makes as they are needed. */
export function columnsOn(open: (page: number) => OpenPage, xs: readonly number[]): (index: number) => Column {
  const pages: OpenPage[] = [];
  return (index) => {
    const page = Math.floor(index / xs.length);
    pages[page] ??= open(page);
    return { pen: pages[page].pen, x: xs[index % xs.length], top: pages[page].top, bottom: LIVE_HEIGHT_MM };
  };
}

export function heightOf(blocks: readonly Block[]): number {
  return blocks.reduce((sum, { heightMm }) => sum + heightMm, 0);
}

/** Where columns should end so that blocks fill `count` of them about evenly; `bottom` where they need more. */
export function evenBottom(blocks: readonly Block[], count: number, top: number, bottom: number): number {
  const total = heightOf(blocks);
  const tallest = blocks.reduce((most, { heightMm }) => Math.max(most, heightMm), 0);
  return Math.min(bottom, top + total / count + tallest);
}

export const gap = (heightMm: number): Block => ({ heightMm, keepWithNext: true, draw: () => {} });

export function heading(text: string, widthMm: number, lettering: Lettering): Block {
  const lines = wrap([{ text, face: 'bold' }], widthMm, lettering, { pt: HEADING_PT, maxLines: 2 });
  return {
    heightMm: lines.length * leading(HEADING_PT) + 4.2,
    keepWithNext: true,
    draw(pen, x, y) {
      const end = writeLines(pen, x, y + baselineOf(HEADING_PT), lines, { pt: HEADING_PT });
      const rule = end - leading(HEADING_PT) + 2.2;
      pen.line([[x, rule], [x + widthMm, rule]], 0.45);
    },
  };
}

export interface ParagraphStyle {
  readonly pt?: number;
  readonly face?: Face;
  readonly indentMm?: number;
  readonly afterMm?: number;
  readonly maxLines?: number;
}

export function paragraph(words: readonly Words[], widthMm: number, lettering: Lettering, { pt = BODY_PT, face = 'sans', indentMm = 0, afterMm = 1.4, maxLines }: ParagraphStyle = {}): Block {
  const lines = wrap(words, widthMm - indentMm, lettering, { pt, face, maxLines });
  return { heightMm: lines.length * leading(pt) + afterMm, draw: (pen, x, y) => void writeLines(pen, x + indentMm, y + baselineOf(pt), lines, { pt }) };
}

/** A box to tick and what to do. */
export function tickItem(words: readonly Words[], widthMm: number, lettering: Lettering, { pt = BODY_PT, afterMm = 2.2 }: ParagraphStyle = {}): Block {
  const lines = wrap(words, widthMm - TICK_BOX_MM - 2.6, lettering, { pt });
  return {
    heightMm: lines.length * leading(pt) + afterMm,
    draw(pen, x, y) {
      pen.tick(x, y + baselineOf(pt));
      writeLines(pen, x + TICK_BOX_MM + 2.6, y + baselineOf(pt), lines, { pt });
    },
  };
}

/** A line to write on: the label, then a rule to the column's end. */
export function blank(label: string, widthMm: number, lettering: Lettering, pitchMm = 7.8): Block {
  const labelMm = lettering.measure(label, 'sans', SMALL_PT);
  return {
    heightMm: pitchMm,
    draw(pen, x, y) {
      const base = y + pitchMm - 2.4;
      pen.text(x, base, label, { pt: SMALL_PT });
      pen.line([[x + labelMm + 2, base + 0.9], [x + widthMm, base + 0.9]], LINE.rule);
    },
  };
}

/** A fact: what at the left, how much at the right of it. */
export function fact(label: string, value: readonly Words[], widthMm: number, lettering: Lettering, labelMm = 34): Block {
  const left = wrap([label], labelMm - 2, lettering, { pt: SMALL_PT });
  const right = wrap(value, widthMm - labelMm, lettering, { pt: SMALL_PT });
  return {
    heightMm: Math.max(left.length, right.length) * leading(SMALL_PT) + 0.15,
    draw(pen, x, y) {
      writeLines(pen, x, y + baselineOf(SMALL_PT), left, { pt: SMALL_PT, tone: 'soft' });
      writeLines(pen, x + labelMm, y + baselineOf(SMALL_PT), right, { pt: SMALL_PT });
    },
  };
}

/** An ink box with a thick left edge: a caution. Filled label: a halt. */
export function warning(label: string, words: readonly Words[], widthMm: number, lettering: Lettering, severe: boolean): Block {
  const pad = 3;
  const lines = wrap(words, widthMm - 2 * pad - 2.4, lettering, { pt: SMALL_PT });
  const labelMm = lettering.measure(label, 'bold', SMALL_PT);
  const heightMm = (lines.length + 1) * leading(SMALL_PT) + 4.6;
  return {
    heightMm: heightMm + 2.4,
    draw(pen, x, y) {
      pen.shape([rectangle(x, y, x + widthMm, y + heightMm)], { strokeMm: LINE.rule });
      pen.shape([rectangle(x, y, x + 2.2, y + heightMm)], { fill: 'ink' });
      const base = y + 1.6 + baselineOf(SMALL_PT);
      if (severe) pen.shape([rectangle(x + 2.2, y, x + 2.2 + labelMm + 2 * pad, y + leading(SMALL_PT) + 1.4)], { fill: 'ink' });
      pen.text(x + 2.2 + pad, base - (severe ? 0.7 : 0), label, { face: 'bold', pt: SMALL_PT, tone: severe ? 'paper' : 'ink' });
      writeLines(pen, x + 2.2 + pad, base + leading(SMALL_PT) + 0.4, lines, { pt: SMALL_PT });
    },
  };
}

export interface TableColumn {
  readonly title: string;
  readonly widthMm: number;
  readonly align?: 'left' | 'right';
}

/** A cell: wrapped words, or boxes to tick with a word each. */
export type Cell = readonly Words[] | { readonly ticks: readonly string[] };

/** mm between a table's columns. */
const GUTTER_MM = 4;

function tableHead(columns: readonly TableColumn[], lettering: Lettering): Block {
  return tableRow(columns, columns.map(({ title }) => [title]), lettering, { ruleMm: 0.45, keepWithNext: true, soft: true });
}

export function tableRow(
  columns: readonly TableColumn[], cells: readonly Cell[], lettering: Lettering,
  { ruleMm = LINE.hair as number, keepWithNext = false, soft = false } = {},
): Block {
  const set = cells.map((cell, i): { lines: Line[]; ticks: readonly string[] } =>
    'ticks' in cell ? { lines: [], ticks: cell.ticks } : { lines: wrap(cell, columns[i].widthMm - GUTTER_MM, lettering, { pt: SMALL_PT, maxLines: 12 }), ticks: [] });
  const tickMm = 5.6;
  const heightMm = Math.max(1.6 * leading(SMALL_PT) - 2.6, ...set.map(({ lines, ticks }) => Math.max(lines.length * leading(SMALL_PT), Math.ceil(ticks.length / 2) * tickMm))) + 3;
  return {
    heightMm,
    keepWithNext,
    draw(pen, left, y) {
      let x = left;
      set.forEach(({ lines, ticks }, i) => {
        const { widthMm, align } = columns[i];
        const base = y + 1 + baselineOf(SMALL_PT);
        lines.forEach((line, row) => {
          const start = align === 'right' ? x + widthMm - GUTTER_MM - line.widthMm : x;
          writeLines(pen, start, base + row * leading(SMALL_PT), [line], { pt: SMALL_PT, tone: soft ? 'soft' : 'ink' });
        });
        // Two boxes a row.
        ticks.forEach((word, k) => {
          const [left, low] = [x + (k % 2) * (widthMm / 2), base + Math.floor(k / 2) * tickMm];
          pen.tick(left, low);
          pen.text(left + TICK_BOX_MM + 1.6, low, word, { pt: SMALL_PT });
        });
        x += widthMm;
      });
      pen.line([[left, y + heightMm], [x, y + heightMm]], ruleMm);
    },
  };
}

/** Sets a table over as many pages as it takes, its head on each. */
export function flowTable(columns: readonly TableColumn[], rows: readonly Block[], lettering: Lettering, next: (index: number) => Column): { columns: number; y: number } {
  const head = tableHead(columns, lettering);
  return flow(rows, (index) => {
    const column = next(index);
    head.draw(column.pen, column.x, column.top);
    return { ...column, top: column.top + head.heightMm };
  });
}
