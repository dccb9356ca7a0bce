/** An SVG file as a tree of the elements and attributes that drawing asks for, its style sheets, its size. */
import type { Fail } from './fail.ts';
import { quoted } from './fail.ts';
import { walkXml } from './mesh/xml.ts';
import type { Matrix } from './svg-matrix.ts';
import { IDENTITY, numbersIn, viewBoxTo } from './svg-matrix.ts';
import { STYLED } from './svg-style.ts';

/** Elements of a drawing, `use` counted each time. */
export const MOST_ELEMENTS = 100_000;
const MOST_BYTES = 60_000_000;
/** Px. What a drawing without any size is shown at (CSS 2.1 §10.3.2). */
const DEFAULT_WIDE = 300;
const DEFAULT_HIGH = 150;

const ATTRIBUTES = [
  'id', 'class', 'style', 'd', 'x', 'y', 'width', 'height', 'rx', 'ry', 'cx', 'cy', 'r', 'x1', 'y1', 'x2', 'y2', 'points', 'viewBox', 'preserveAspectRatio', 'href',
  'pathLength', 'clipPathUnits', 'maskUnits', 'maskContentUnits', 'requiredExtensions', 'systemLanguage',
  ...STYLED,
] as const;
export type Attribute = (typeof ATTRIBUTES)[number];

export interface Element {
  readonly name: string;
  readonly has: ReadonlyMap<string, string>;
  readonly children: Element[];
  readonly parent: Element | null;
}

/** Throws what `fail` makes for what is no drawing, too large or damaged. */
export function treeOf(bytes: Uint8Array, fail: Fail): { root: Element; css: string } {
  if (bytes.length > MOST_BYTES) throw fail(`${bytes.length} bytes`, `at most ${MOST_BYTES}`, 'Save a simpler drawing.');
  const { text, css } = withoutSheets(withoutType(new TextDecoder().decode(bytes)));
  const top: Element = { name: '', has: new Map(), children: [], parent: null };
  const open = [top];
  let count = 0;
  walkXml(new TextEncoder().encode(text), {
    open(tag) {
      if (++count > MOST_ELEMENTS) throw fail(`more than ${MOST_ELEMENTS} elements`, 'fewer', 'Save a simpler drawing.');
      const has = new Map<string, string>();
      for (const attribute of ATTRIBUTES) {
        const value = tag.text(attribute);
        if (value !== undefined) has.set(attribute, value);
      }
      const parent = open[open.length - 1];
      const element = { name: tag.name.replace(/^.*:/, ''), has, children: [], parent };
      parent.children.push(element);
      open.push(element);
    },
    close: () => void open.pop(),
  }, fail);
  const root = top.children.find(({ name }) => name === 'svg');
  if (!root) throw fail(top.children[0] ? `<${quoted(top.children[0].name)}> at its top` : 'no drawing in it', '<svg>', 'Save it again as SVG.');
  return { root, css };
}

/** Its first document type taken out; what it declares is not used. */
function withoutType(text: string): string {
  const from = text.search(/<!DOCTYPE/i);
  const type = /<!DOCTYPE[^>[]*(?:\[[^\]]*\])?[^>]*>/iy;
  type.lastIndex = Math.max(0, from);
  return from < 0 ? text : text.replace(type, '');
}

/** Style sheets taken out, each place looked at once. */
function withoutSheets(text: string): { text: string; css: string } {
  const opening = /<((?:\w{1,40}:)?style)\b/gi;
  const kept: string[] = [];
  let css = '';
  let from = 0;
  for (let found = opening.exec(text); found; found = opening.exec(text)) {
    const body = text.indexOf('>', opening.lastIndex) + 1;
    if (body === 0) break;
    opening.lastIndex = body;
    if (text[body - 2] === '/') continue;
    const close = new RegExp(`</${found[1]}\\s*>`, 'gi');
    close.lastIndex = body;
    const end = close.exec(text);
    if (!end) break;
    css += `${text.slice(body, end.index).replace(/<!\[CDATA\[|\]\]>|<!--|-->/g, '')}\n`;
    kept.push(text.slice(from, found.index));
    from = opening.lastIndex = close.lastIndex;
  }
  return { text: kept.join('') + text.slice(from), css };
}

/** Px to a unit; percent and font-relative units of the drawing itself count as none. */
const UNITS: Readonly<Record<string, number>> = { '': 1, px: 1, mm: 96 / 25.4, cm: 96 / 2.54, in: 96, pt: 96 / 72, pc: 16, q: 96 / 101.6 };

function absolute(text: string | undefined): number {
  const found = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*(px|mm|cm|in|pt|pc|q)?\s*$/i.exec(text ?? '');
  return found ? Number(found[1]) * UNITS[(found[2] ?? '').toLowerCase()] : NaN;
}

/** A length in the current coordinates; percent of `of`; 0 of what is none. */
export function lengthOf(text: string | undefined, of: number): number {
  const percent = /^\s*([+-]?[\d.]+)%\s*$/.exec(text ?? '');
  const value = percent ? (Number(percent[1]) / 100) * of : absolute(text);
  return Number.isFinite(value) ? value : 0;
}

/** Natural size in px: its own, else the viewBox's proportions, as browsers show it. */
export function sizeOf({ has }: Element): { width: number; height: number } {
  const [width, height] = [absolute(has.get('width')), absolute(has.get('height'))];
  const [, , w, h] = numbersIn(has.get('viewBox') ?? '');
  const boxed = w > 0 && h > 0;
  if (width > 0 && height > 0) return { width, height };
  if (width > 0) return { width, height: boxed ? (width * h) / w : DEFAULT_HIGH };
  if (height > 0) return { width: boxed ? (height * w) / h : DEFAULT_WIDE, height };
  return boxed ? { width: w, height: h } : { width: DEFAULT_WIDE, height: DEFAULT_HIGH };
}

/** From an element's own coordinates to its box of `width` × `height`, and the size that percentages inside are of; null: nothing is shown. */
export function viewOf({ has }: Element, width: number, height: number): { matrix: Matrix; wide: number; high: number } | null {
  const viewBox = numbersIn(has.get('viewBox') ?? '');
  if (viewBox.length !== 4) return { matrix: IDENTITY, wide: width, high: height };
  const matrix = viewBoxTo(viewBox, width, height, has.get('preserveAspectRatio'));
  return matrix && { matrix, wide: viewBox[2], high: viewBox[3] };
}
