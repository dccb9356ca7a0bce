/**
 * The painted outlines of an SVG drawing, as numbers only: nothing that lives, loads or is written in it gets past
 * here. Shapes, paths, groups, `use`, nested drawings and style sheets are read; what is not (lettering, pictures
 * inside, clips and masks) is told. No DOM, so that it is the same in the command and in a worker.
 */
import type { ArtShape, PlaneArt } from '../core/sheet/template-art.ts';
import type { Fail } from './fail.ts';
import { quoted } from './fail.ts';
import { walkXml } from './mesh/xml.ts';
import type { Matrix } from './svg-matrix.ts';
import { after, numbersIn, scaleOf, transformOf, viewBoxTo } from './svg-matrix.ts';
import { Outline, drawPathData } from './svg-outline.ts';
import type { Paint, StyleRule } from './svg-style.ts';
import { FIRST_PAINT, declared, isPainted, isZero, paintOf, rulesOf } from './svg-style.ts';

/** Elements of a drawing, `use` counted each time. */
const MOST_ELEMENTS = 100_000;
const MOST_POINTS = 1_000_000;
/** Drawings, groups and uses inside each other. */
const MOST_DEEP = 60;
const MOST_BYTES = 60_000_000;
/** Widths of the drawing. Farther out nothing is seen of it, and joining outlines would run out of digits. */
const FARTHEST = 1_000;
/** Px. What a drawing without any size is shown at (CSS 2.1 §10.3.2). */
const DEFAULT_WIDE = 300;
const DEFAULT_HIGH = 150;

const ATTRIBUTES = [
  'id', 'class', 'style', 'transform', 'd', 'x', 'y', 'width', 'height', 'rx', 'ry', 'cx', 'cy', 'r', 'x1', 'y1', 'x2', 'y2', 'points', 'viewBox', 'preserveAspectRatio', 'href',
  'fill', 'stroke', 'stroke-width', 'fill-rule', 'display', 'visibility', 'opacity', 'color', 'fill-opacity', 'stroke-opacity', 'clip-path', 'mask',
] as const;
type Attribute = (typeof ATTRIBUTES)[number];

interface Element {
  readonly name: string;
  readonly has: ReadonlyMap<string, string>;
  readonly children: Element[];
}

/** Elements whose children are drawn where they stand. */
const GROUPS = new Set(['g', 'a', 'switch', 'svg']);
const SHAPES = new Set(['path', 'rect', 'circle', 'ellipse', 'line', 'polyline', 'polygon']);

/**
 * Reads a drawing. `toleranceShare`: how far a point may lie from a true curve, as a share of the drawing's width.
 * Throws SceneFileError (found, expected, what to do) for what is no drawing, too large or damaged.
 */
export function readSvgArt(bytes: Uint8Array, fail: Fail, toleranceShare: number): Extract<PlaneArt, { kind: 'drawing' }> {
  if (bytes.length > MOST_BYTES) throw fail(`${bytes.length} bytes`, `at most ${MOST_BYTES}`, 'Save a simpler drawing.');
  const { root, css } = treeOf(bytes, fail);
  const { width, height } = sizeOf(root);
  const reading = new Reading(root, rulesOf(css), { fail, toleranceShare });
  const base: Matrix = [1 / width, 0, 0, 1 / width, 0, 0];
  const inner = viewOf(root, width, height);
  if (inner) reading.children(root, { matrix: after(base, inner), paint: FIRST_PAINT, wide: width, high: height, deep: 0 });
  return { kind: 'drawing', highPerWide: height / width, shapes: reading.shapes, leftOut: [...reading.leftOut] };
}

function treeOf(bytes: Uint8Array, fail: Fail): { root: Element; css: string } {
  let css = '';
  const text = new TextDecoder()
    .decode(bytes)
    .replace(/<!DOCTYPE[^>[]*(?:\[[^\]]*\])?[^>]*>/gi, '')
    .replace(/<((?:\w+:)?style)\b[^>]*>([\s\S]*?)<\/\1\s*>/gi, (_, __, body: string) => {
      css += `${body.replace(/<!\[CDATA\[|\]\]>|<!--|-->/g, '')}\n`;
      return '';
    });
  const top: Element = { name: '', has: new Map(), children: [] };
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
      const element = { name: tag.name.replace(/^.*:/, ''), has, children: [] };
      open[open.length - 1].children.push(element);
      open.push(element);
    },
    close: () => void open.pop(),
  }, fail);
  const root = top.children.find(({ name }) => name === 'svg');
  if (!root) throw fail(top.children[0] ? `<${quoted(top.children[0].name)}> at its top` : 'no drawing in it', '<svg>', 'Save it again as SVG.');
  return { root, css };
}

/** Px to a unit; percent and font-relative units of the drawing itself count as none. */
const UNITS: Readonly<Record<string, number>> = { '': 1, px: 1, mm: 96 / 25.4, cm: 96 / 2.54, in: 96, pt: 96 / 72, pc: 16, q: 96 / 101.6 };

function absolute(text: string | undefined): number {
  const found = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*(px|mm|cm|in|pt|pc|q)?\s*$/i.exec(text ?? '');
  return found ? Number(found[1]) * UNITS[(found[2] ?? '').toLowerCase()] : NaN;
}

/** Natural size in px: its own, else the viewBox's proportions, as browsers show it. */
function sizeOf({ has }: Element): { width: number; height: number } {
  const [width, height] = [absolute(has.get('width')), absolute(has.get('height'))];
  const [, , w, h] = numbersIn(has.get('viewBox') ?? '');
  const boxed = w > 0 && h > 0;
  if (width > 0 && height > 0) return { width, height };
  if (width > 0) return { width, height: boxed ? (width * h) / w : DEFAULT_HIGH };
  if (height > 0) return { width: boxed ? (height * w) / h : DEFAULT_WIDE, height };
  return boxed ? { width: w, height: h } : { width: DEFAULT_WIDE, height: DEFAULT_HIGH };
}

/** From an element's own coordinates to its box of `width` × `height`; null: nothing is shown. */
function viewOf({ has }: Element, width: number, height: number): Matrix | null {
  const viewBox = numbersIn(has.get('viewBox') ?? '');
  return viewBox.length === 4 ? viewBoxTo(viewBox, width, height, has.get('preserveAspectRatio')) : [1, 0, 0, 1, 0, 0];
}

interface Place {
  readonly matrix: Matrix;
  readonly paint: Paint;
  /** The nearest drawing's own size, which percentages are of. */
  readonly wide: number;
  readonly high: number;
  readonly deep: number;
}

class Reading {
  readonly shapes: ArtShape[] = [];
  readonly leftOut = new Set<string>();
  readonly #rules: readonly StyleRule[];
  readonly #by: { readonly fail: Fail; readonly toleranceShare: number };
  readonly #named = new Map<string, Element>();
  #elements = 0;
  #points = 0;

  constructor(root: Element, rules: readonly StyleRule[], by: { readonly fail: Fail; readonly toleranceShare: number }) {
    this.#rules = rules;
    this.#by = by;
    const waiting = [root];
    for (let element = waiting.pop(); element; element = waiting.pop()) {
      const id = element.has.get('id');
      if (id !== undefined && !this.#named.has(id)) this.#named.set(id, element);
      for (const child of element.children) waiting.push(child);
    }
  }

  children(element: Element, place: Place): void {
    for (const child of element.children) this.#draw(child, place);
  }

  #draw(element: Element, place: Place): void {
    if (++this.#elements > MOST_ELEMENTS || place.deep > MOST_DEEP) throw this.#by.fail(`more than ${MOST_ELEMENTS} elements, uses of the same part counted, or ${MOST_DEEP} inside each other`, 'fewer', 'Save a simpler drawing.');
    const { name, has } = element;
    const own = declared({ name, id: has.get('id'), classes: has.get('class'), style: has.get('style'), attribute: (property) => has.get(property) }, this.#rules);
    if (own('display') === 'none' || isZero(own('opacity'))) return;
    const inside: Place = { ...place, matrix: after(place.matrix, transformOf(has.get('transform'))), paint: paintOf(own, place.paint), deep: place.deep + 1 };
    const before = this.shapes.length;
    if (name === 'svg') this.#drawing(element, inside);
    else if (GROUPS.has(name)) this.children(element, inside);
    else if (name === 'use') this.#use(element, inside);
    else if (SHAPES.has(name)) this.#shape(element, inside);
    else if (name === 'image') this.#frame(element, inside);
    else if (name === 'text' && inside.paint.visibility === 'visible') this.leftOut.add('Its lettering is not drawn: turn it into outlines for that.');
    const hides = [own('clip-path'), own('mask')].some((value) => value !== undefined && value !== 'none');
    if (hides && this.shapes.length > before) this.leftOut.add('What a clip or a mask hides in it is drawn too.');
  }

  /** A drawing or symbol in a drawing, at its own place and size. */
  #drawing(element: Element, place: Place, size: { width?: number; height?: number } = {}): void {
    const { has } = element;
    const width = size.width ?? this.#length(has.get('width') ?? '100%', place.wide);
    const height = size.height ?? this.#length(has.get('height') ?? '100%', place.high);
    const inner = viewOf(element, width, height);
    if (!inner || !(width > 0 && height > 0)) return;
    const shifted = element.name === 'svg' ? after(place.matrix, [1, 0, 0, 1, this.#length(has.get('x'), place.wide), this.#length(has.get('y'), place.high)]) : place.matrix;
    const viewBox = numbersIn(has.get('viewBox') ?? '');
    const [, , wide, high] = viewBox.length === 4 ? viewBox : [0, 0, width, height];
    this.children(element, { ...place, matrix: after(shifted, inner), wide, high });
  }

  #use({ has }: Element, place: Place): void {
    const found = /^\s*#(.+?)\s*$/.exec(has.get('href') ?? '');
    const target = found && this.#named.get(found[1]);
    if (!target) return;
    const at: Place = { ...place, matrix: after(place.matrix, [1, 0, 0, 1, this.#length(has.get('x'), place.wide), this.#length(has.get('y'), place.high)]) };
    const size = { width: has.has('width') ? this.#length(has.get('width'), place.wide) : undefined, height: has.has('height') ? this.#length(has.get('height'), place.high) : undefined };
    if (target.name === 'symbol') this.#drawing(target, at, { width: size.width ?? place.wide, height: size.height ?? place.high });
    else if (target.name === 'svg') this.#drawing(target, at, size);
    else this.#draw(target, at);
  }

  /** Its edge stands for a picture inside a drawing. */
  #frame(element: Element, place: Place): void {
    this.leftOut.add('Of a picture inside it only the frame is drawn.');
    const outline = new Outline(place.matrix, this.#by.toleranceShare);
    this.#box(element, place, outline);
    this.#keep(outline, null, 0);
  }

  #shape(element: Element, place: Place): void {
    const { paint, matrix } = place;
    if (paint.visibility !== 'visible') return;
    const filled = element.name !== 'line' && isPainted(paint.fill, paint.fillOpacity, paint.color);
    const width = this.#length(paint.strokeWidth, Math.hypot(place.wide, place.high) / Math.SQRT2);
    const stroke = isPainted(paint.stroke, paint.strokeOpacity, paint.color) && width > 0 ? width * scaleOf(matrix) : 0;
    if (!filled && stroke === 0) return;
    const outline = new Outline(matrix, this.#by.toleranceShare);
    this.#trace(element, place, outline);
    this.#keep(outline, filled ? (paint.fillRule === 'evenodd' ? 'evenodd' : 'nonzero') : null, stroke);
  }

  #trace(element: Element, place: Place, outline: Outline): void {
    const { name, has } = element;
    const { wide, high } = place;
    const along = (attribute: Attribute): number => this.#length(has.get(attribute), wide);
    const down = (attribute: Attribute): number => this.#length(has.get(attribute), high);
    if (name === 'path') drawPathData(outline, has.get('d') ?? '');
    else if (name === 'rect') this.#box(element, place, outline);
    else if (name === 'circle') {
      const r = this.#length(has.get('r'), Math.hypot(wide, high) / Math.SQRT2);
      if (r > 0) outline.ellipse(along('cx'), down('cy'), r, r);
    } else if (name === 'ellipse') {
      const [a, b] = [along('rx'), down('ry')];
      if (a > 0 && b > 0) outline.ellipse(along('cx'), down('cy'), a, b);
    } else if (name === 'line') {
      outline.move(along('x1'), down('y1'));
      outline.line(along('x2'), down('y2'));
    } else {
      const points = numbersIn(has.get('points') ?? '');
      for (let i = 0; i + 1 < points.length; i += 2) {
        if (i === 0) outline.move(points[0], points[1]);
        else outline.line(points[i], points[i + 1]);
      }
      if (name === 'polygon') outline.close();
    }
  }

  #box({ has }: Element, place: Place, outline: Outline): void {
    const [width, height] = [this.#length(has.get('width'), place.wide), this.#length(has.get('height'), place.high)];
    if (!(width > 0 && height > 0)) return;
    const round = (attribute: 'rx' | 'ry', of: number): number => (has.has(attribute) && has.get(attribute) !== 'auto' ? this.#length(has.get(attribute), of) : NaN);
    const [rx, ry] = [round('rx', place.wide), round('ry', place.high)];
    outline.rectangle(this.#length(has.get('x'), place.wide), this.#length(has.get('y'), place.high), width, height, firstNumber(rx, ry), firstNumber(ry, rx));
  }

  #keep({ rings }: Outline, fill: ArtShape['fill'], stroke: number): void {
    const drawn = rings.filter(({ points }) => points.length > 1 && points.every(([x, y]) => Number.isFinite(x) && Number.isFinite(y)));
    if (drawn.length === 0) return;
    this.#points += drawn.reduce((sum, { points }) => sum + points.length, 0);
    if (this.#points > MOST_POINTS) throw this.#by.fail(`more than ${MOST_POINTS} points`, 'fewer', 'Save a simpler drawing.');
    this.shapes.push({ rings: drawn.map(({ points, closed }) => ({ points: points.map(([x, y]) => [nearBy(x), nearBy(y)] as const), closed })), fill, stroke: Math.min(stroke, FARTHEST) });
  }

  /** A length in the current coordinates; percent of `of`; 0 of what is none. */
  #length(text: string | undefined, of: number): number {
    const percent = /^\s*([+-]?[\d.]+)%\s*$/.exec(text ?? '');
    const value = percent ? (Number(percent[1]) / 100) * of : absolute(text);
    return Number.isFinite(value) ? value : 0;
  }
}

const nearBy = (share: number): number => Math.min(FARTHEST, Math.max(-FARTHEST, share));

const firstNumber = (...values: readonly number[]): number => values.find((value) => !Number.isNaN(value)) ?? 0;
