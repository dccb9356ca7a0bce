/** Writes a page: collects drawing primitives, measures and wraps text. Every text on the sheet passes through `text`. */
import type { Face, HatchName, Measure, SheetItem, TextItem, Tone } from './document.ts';
import { MM_PER_POINT } from './document.ts';
import type { Point, Polygon, Ring } from './polygon.ts';
import { rectangle } from './polygon.ts';

/** Points. Body text, its headings, figures that are read from across the bench. */
export const BODY_PT = 11.5;
export const SMALL_PT = 11;
export const HEADING_PT = 13.5;
export const TICK_PT = 9;
/** Baseline to baseline, of the size. */
const LEADING_EM = 1.24;

/** mm. Line weights, in print. */
export const LINE = { hair: 0.18, pour: 0.25, rule: 0.3, mold: 0.45, heavy: 0.6, now: 0.65 } as const;

export interface TextStyle {
  readonly face?: Face;
  readonly pt?: number;
  readonly align?: TextItem['align'];
  readonly tone?: Tone;
  readonly halo?: boolean;
}

/** A stretch of a paragraph in one face. */
export type Words = string | { readonly text: string; readonly face: Face };

export interface Lettering {
  readonly measure: Measure;
  /** Replaces letters that the typefaces lack. */
  readonly printable: (text: string) => string;
}

export interface Pen {
  readonly items: SheetItem[];
  text(x: number, y: number, text: string, style?: TextStyle): number;
  line(points: readonly Point[], strokeMm: number, more?: { tone?: Tone; dash?: readonly [number, number] }): void;
  shape(rings: readonly Ring[], look: { strokeMm?: number; fill?: Tone; tone?: Tone }): void;
  hatch(region: readonly Polygon[], hatch: HatchName): void;
  clip(ring: Ring, items: readonly SheetItem[]): void;
  /** A box to tick, its bottom on the baseline of body text. */
  tick(x: number, baseline: number): void;
}

/** mm. Side of a tick box. */
export const TICK_BOX_MM = 3.9;

export function createPen({ measure, printable }: Lettering): Pen {
  const items: SheetItem[] = [];
  return {
    items,
    text(x, y, raw, { face = 'sans', pt = BODY_PT, align = 'left', tone = 'ink', halo = false } = {}) {
      const text = printable(raw);
      if (text.trim() === '') return 0;
      const widthMm = measure(text, face, pt);
      items.push({ kind: 'text', text, x, y, face, sizePt: pt, align, tone, halo, widthMm });
      return widthMm;
    },
    line(points, strokeMm, { tone = 'ink', dash } = {}) {
      items.push({ kind: 'path', rings: [points], closed: false, strokeMm, fill: null, tone, dash });
    },
    shape(rings, { strokeMm = 0, fill, tone = 'ink' }) {
      items.push({ kind: 'path', rings, closed: true, strokeMm, fill: fill ?? null, tone });
    },
    hatch(region, hatch) {
      items.push({ kind: 'hatch', region, hatch });
    },
    clip(ring, inside) {
      items.push({ kind: 'group', clip: ring, items: inside });
    },
    tick(x, baseline) {
      items.push({ kind: 'path', rings: [rectangle(x, baseline - TICK_BOX_MM + 0.6, x + TICK_BOX_MM, baseline + 0.6)], closed: true, strokeMm: 0.35, fill: 'paper', tone: 'ink' });
    },
  };
}

export const leading = (pt: number): number => pt * MM_PER_POINT * LEADING_EM;

export interface Line {
  /** Stretches of the line with where each starts. */
  readonly parts: readonly { readonly x: number; readonly text: string; readonly face: Face }[];
  readonly widthMm: number;
}

/**
 * Breaks words into lines no wider than `widthMm`. A no-break space holds; a word wider than the line is cut.
 * Past `maxLines` the last line ends in an ellipsis.
 */
export function wrap(words: readonly Words[], widthMm: number, lettering: Lettering, { pt = BODY_PT, face = 'sans' as Face, maxLines = 30 } = {}): Line[] {
  const width = (text: string, of: Face): number => lettering.measure(text, of, pt);
  const pieces: { text: string; face: Face; glued: boolean }[] = [];
  let glued = true;
  for (const stretch of words) {
    const of = typeof stretch === 'string' ? face : stretch.face;
    const text = lettering.printable(typeof stretch === 'string' ? stretch : stretch.text);
    for (const token of text.split(/([ \n\t]+)/)) {
      if (token === '') continue;
      if (/^[ \n\t]+$/.test(token)) glued = false;
      else {
        for (const [i, part] of cut(token, widthMm, (t) => width(t, of)).entries()) {
          pieces.push({ text: part, face: of, glued: i === 0 && glued });
          glued = true;
        }
      }
    }
  }
  const lines: Line[] = [];
  let parts: { x: number; text: string; face: Face }[] = [];
  let end = 0;
  const close = (): void => {
    if (parts.length > 0) lines.push({ parts, widthMm: end });
    parts = [];
    end = 0;
  };
  for (const piece of pieces) {
    const last = parts.at(-1);
    const space = last && !piece.glued ? width(' ', piece.face) : 0;
    const same = last && last.face === piece.face;
    const joined = same ? `${last.text}${piece.glued ? '' : ' '}${piece.text}` : piece.text;
    const newEnd = same ? last.x + width(joined, piece.face) : end + space + width(piece.text, piece.face);
    // A glued piece that no longer fits would have to take its predecessor along; it is rare enough to be cut there.
    if (last && newEnd > widthMm) {
      close();
      parts.push({ x: 0, text: piece.text, face: piece.face });
      end = width(piece.text, piece.face);
    } else if (same) {
      last.text = joined;
      end = newEnd;
    } else {
      parts.push({ x: last ? end + space : 0, text: piece.text, face: piece.face });
      end = newEnd;
    }
  }
  close();
  if (lines.length <= maxLines) return lines;
  const kept = lines.slice(0, maxLines);
  const tail = kept[maxLines - 1].parts.at(-1)!;
  const short = fit(`${tail.text} …`, tail.face, pt, widthMm - tail.x, lettering);
  kept[maxLines - 1] = { parts: [...kept[maxLines - 1].parts.slice(0, -1), { ...tail, text: short }], widthMm: tail.x + width(short, tail.face) };
  return kept;
}

/** Draws wrapped lines from a first baseline; returns the baseline that would follow. */
export function writeLines(pen: Pen, x: number, baseline: number, lines: readonly Line[], { pt = BODY_PT, tone = 'ink' as Tone } = {}): number {
  lines.forEach((line, i) => {
    for (const part of line.parts) pen.text(x + part.x, baseline + i * leading(pt), part.text, { face: part.face, pt, tone });
  });
  return baseline + lines.length * leading(pt);
}

/** No line of the sheet holds more letters; what lies past them need not be measured. */
const MOST_LETTERS = 400;

/** The text, or as much of it as fits in one line with an ellipsis. */
export function fit(text: string, face: Face, pt: number, widthMm: number, { measure, printable }: Lettering): string {
  const whole = printable(text);
  const letters = [...whole];
  if (letters.length <= MOST_LETTERS && measure(whole, face, pt) <= widthMm) return whole;
  const short = (count: number): string => `${letters.slice(0, count).join('').trimEnd()}…`;
  const count = longest(Math.min(letters.length, MOST_LETTERS), (n) => measure(short(n), face, pt) <= widthMm);
  return count === 0 ? '' : short(count);
}

/** A token in parts that each fit, the last as long as it comes. */
function cut(token: string, widthMm: number, width: (text: string) => number): string[] {
  const letters = [...token];
  const parts: string[] = [];
  let from = 0;
  while (from < letters.length) {
    const rest = letters.slice(from, from + MOST_LETTERS);
    // A letter wider than the line stands alone.
    const count = Math.max(1, longest(rest.length, (n) => width(rest.slice(0, n).join('')) <= widthMm));
    parts.push(rest.slice(0, count).join(''));
    from += count;
  }
  return parts;
}

/** The greatest count up to `most` that fits, 0 if none does; `fits` holds up to some count and not past it. Looks near the start first. */
function longest(most: number, fits: (count: number) => boolean): number {
  let low = 0;
  let high = Math.min(most, 16);
  while (high < most && fits(high)) {
    low = high;
    high = Math.min(most, high * 2);
  }
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (fits(middle)) low = middle;
    else high = middle - 1;
  }
  return low;
}
