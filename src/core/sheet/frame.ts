/** The frame that every page shares: title, running head, page number, and what a `halt` puts on it. */
import type { Finding } from '../plan/plan.ts';
import type { PageKind, SheetPage } from './document.ts';
import { LIVE_WIDTH_MM } from './document.ts';
import type { Lettering, Pen } from './pen.ts';
import { BODY_PT, HEADING_PT, LINE, SMALL_PT, createPen, fit, leading, wrap, writeLines } from './pen.ts';
import { rectangle } from './polygon.ts';

const TITLE_PT = 30;
const SUBTITLE_PT = 20;
/** mm. Baseline of the title, the rule under it, where a page's own drawing starts. */
const TITLE_Y = 9.5;
const RULE_Y = 13.6;
const TOP_Y = 18.5;
/** mm. Kept free at the right of the title for the running head. */
const HEAD_MM = 100;
/** Reasons that a page's banner spells out; the cover has all of them. */
const MOST_REASONS = 3;

export interface PageFrame {
  readonly kind: PageKind;
  readonly title: string;
  readonly subtitle?: string;
  readonly pour?: number;
  /** Second line of the running head; its last stretch is bold. */
  readonly head: readonly string[];
  /** Halts that concern this page. */
  readonly halts: readonly Finding[];
}

export interface OpenPage {
  readonly pen: Pen;
  /** First free y. */
  readonly top: number;
}

export interface Book {
  open(frame: PageFrame): OpenPage;
  /** All pages, numbered. */
  close(): SheetPage[];
}

export function createBook(lettering: Lettering, name: string): Book {
  const pages: { frame: PageFrame; pen: Pen }[] = [];
  return {
    open(frame) {
      const pen = createPen(lettering);
      pages.push({ frame, pen });
      writeTitle(pen, frame, lettering);
      return { pen, top: frame.halts.length > 0 ? writeBanner(pen, frame.halts, { lettering }) : TOP_Y };
    },
    close() {
      return pages.map(({ frame, pen }, i) => {
        writeHead(pen, frame, { name, number: i + 1, of: pages.length, lettering });
        const title = [frame.title, frame.subtitle].filter(Boolean).join(', ');
        return { kind: frame.kind, title, pour: frame.pour, halted: frame.halts.length > 0, items: pen.items };
      });
    },
  };
}

function writeTitle(pen: Pen, { title, subtitle }: PageFrame, lettering: Lettering): void {
  const room = LIVE_WIDTH_MM - HEAD_MM;
  const width = pen.text(0, TITLE_Y, fit(title, 'bold', TITLE_PT, room, lettering), { face: 'bold', pt: TITLE_PT });
  if (subtitle && room - width > 25) {
    pen.text(width + 4, TITLE_Y, fit(subtitle, 'italic', SUBTITLE_PT, room - width - 6, lettering), { face: 'italic', pt: SUBTITLE_PT });
  }
  pen.line([[0, RULE_Y], [LIVE_WIDTH_MM, RULE_Y]], LINE.heavy);
}

function writeHead(pen: Pen, { head }: PageFrame, { name, number, of, lettering }: { name: string; number: number; of: number; lettering: Lettering }): void {
  const pageWords = `page ${number} of ${of}`;
  const width = pen.text(LIVE_WIDTH_MM, 4.4, pageWords, { align: 'right' });
  pen.text(LIVE_WIDTH_MM - width - 4, 4.4, fit(name, 'italic', 13, HEAD_MM - width - 8, lettering), { face: 'italic', pt: 13, align: 'right' });
  let x = LIVE_WIDTH_MM;
  [...head].reverse().forEach((words, i) => {
    const face = i === 0 ? 'bold' : 'sans';
    x -= pen.text(x, 10.2, fit(words, face, BODY_PT, Math.max(0, x - (LIVE_WIDTH_MM - HEAD_MM) - 4), lettering), { face, align: 'right' }) + 4;
  });
}

interface Banner {
  readonly lettering: Lettering;
  readonly widthMm?: number;
  readonly topMm?: number;
  /** Where the reasons stand that it has no room for. */
  readonly rest?: string;
  /** Reasons that are told; the others are counted. */
  readonly most?: number;
}

/** A black board with the words, and beside it why. Returns the first free y. */
export function writeBanner(pen: Pen, halts: readonly Finding[], { lettering, widthMm = LIVE_WIDTH_MM, topMm: top = RULE_Y + 2.6, rest = 'see page 1', most = MOST_REASONS }: Banner): number {
  const boardMm = 52;
  const textWidth = widthMm - boardMm - 7;
  const reasons = halts.slice(0, most).flatMap(({ message }) => wrap([message], textWidth, lettering, { pt: SMALL_PT, maxLines: most === MOST_REASONS ? 2 : 1 }));
  if (halts.length > most) reasons.push(...wrap([`And ${halts.length - most} more: ${rest}.`], textWidth, lettering, { pt: SMALL_PT }));
  const height = Math.max(10, reasons.length * leading(SMALL_PT) + 3.4);
  pen.shape([rectangle(0, top, widthMm, top + height)], { strokeMm: LINE.heavy });
  pen.shape([rectangle(0, top, boardMm, top + height)], { fill: 'ink' });
  pen.text(boardMm / 2, top + height / 2 + 2, 'DO NOT POUR', { face: 'bold', pt: HEADING_PT + 4.5, align: 'center', tone: 'paper' });
  writeLines(pen, boardMm + 4, top + 5.2, reasons, { pt: SMALL_PT });
  return top + height + 4;
}
