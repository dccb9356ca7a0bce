/**
 * The painted outlines of an SVG drawing, as numbers only: nothing that lives, loads or is written in it gets past
 * here. Shapes, paths, groups, `use`, nested drawings, strokes, clips, masks of black and white and style sheets are read;
 * what is not (lettering, pictures inside, other masks, markers, filters) is told. No DOM, so that it is the same in the
 * command and in a worker. Sources: SVG 2; CSS Masking Level 1 for clips and masks.
 */
import type { ArtShape, PlaneArt } from '../core/sheet/template-art.ts';
import type { Point } from '../core/sheet/polygon.ts';
import type { Loop, Region, Regions } from '../core/sight/region.ts';
import type { Fail } from './fail.ts';
import type { Clipping } from './svg-clip.ts';
import { clippedBy, clipRegion, maskRegion } from './svg-clip.ts';
import type { Matrix } from './svg-matrix.ts';
import { IDENTITY, after, mapped, scaleOf, stretchOf } from './svg-matrix.ts';
import type { Flat } from './svg-outline.ts';
import { Outline } from './svg-outline.ts';
import type { Into, Place } from './svg-place.ts';
import { TOLD, movedBy } from './svg-place.ts';
import type { Measure } from './svg-shape.ts';
import { diagonal, isShape, traceBox, traceShape } from './svg-shape.ts';
import type { Stroke } from './svg-stroke.ts';
import { lineLength, strokeLoops } from './svg-stroke.ts';
import type { Own, Paint, StyleRules } from './svg-style.ts';
import { FIRST_PAINT, declared, isOpaque, isPainted, isWhole, isZero, paintOf, rulesOf } from './svg-style.ts';
import type { Element } from './svg-tree.ts';
import { MOST_ELEMENTS, lengthOf, sizeOf, treeOf, viewOf } from './svg-tree.ts';
import { boundedRegions } from './svg-work.ts';

const MOST_POINTS = 2_000_000;
/** Drawings, groups and uses inside each other. */
const MOST_DEEP = 60;
/** Widths of the drawing. Farther out nothing is seen of it, and joining outlines would run out of digits. */
const FARTHEST = 1_000;

/** Elements whose children are drawn where they stand. */
const GROUPS = new Set(['g', 'a', 'switch', 'svg', 'symbol']);

/** Shapes that have markers. */
const MARKED = new Set(['path', 'line', 'polyline', 'polygon']);

export interface ArtOptions {
  /** How wide the drawing will be. */
  readonly widthMm: number;
  /** mm. How far a point may lie from a true curve. */
  readonly strayMm: number;
  readonly regions: Regions;
}

/** Reads a drawing. Throws SceneFileError (found, expected, what to do) for what is no drawing, too large or damaged. */
export function readSvgArt(bytes: Uint8Array, fail: Fail, options: ArtOptions): Extract<PlaneArt, { kind: 'drawing' }> {
  const { root, css } = treeOf(bytes, fail);
  const { width, height } = sizeOf(root);
  const shapes: ArtShape[] = [];
  const leftOut = new Set<string>();
  const { widthMm } = options;
  const ringOf = (loop: Loop): Point[] => Array.from({ length: loop.length >> 1 }, (_, i) => [loop[2 * i] / widthMm, loop[2 * i + 1] / widthMm] as const);
  const into: Into = {
    bounds: null,
    add: ({ region, kind, strokeMm }) => void shapes.push({ rings: region.map(ringOf), kind, stroke: Math.min(strokeMm / widthMm, FARTHEST) }),
    tell: (what) => void leftOut.add(TOLD[what]),
  };
  new Reading(root, rulesOf(css), { ...options, fail, pxMm: widthMm / width }).root(root, { wide: width, high: height }, into);
  return { kind: 'drawing', highPerWide: height / width, shapes, leftOut: [...leftOut] };
}

class Reading implements Clipping {
  readonly regions: Regions;
  readonly busy = new Set<Element>();
  readonly #rules: StyleRules;
  readonly #by: ArtOptions & { readonly fail: Fail; readonly pxMm: number };
  readonly #named = new Map<string, Element>();
  readonly #inherited = new Map<Element, Paint>();
  #elements = 0;
  #points = 0;

  constructor(root: Element, rules: StyleRules, by: ArtOptions & { readonly fail: Fail; readonly pxMm: number }) {
    this.regions = boundedRegions(by.regions, by.fail);
    this.#rules = rules;
    this.#by = by;
    const waiting = [root];
    for (let element = waiting.pop(); element; element = waiting.pop()) {
      const id = element.has.get('id');
      if (id !== undefined && !this.#named.has(id)) this.#named.set(id, element);
      for (let i = element.children.length - 1; i >= 0; i--) waiting.push(element.children[i]);
    }
  }

  root(root: Element, size: Measure, into: Into): void {
    const { pxMm, strayMm } = this.#by;
    const own = this.own(root);
    if (own('display') === 'none' || isZero(own('opacity'))) return;
    const place: Place = { ...size, matrix: [pxMm, 0, 0, pxMm, 0, 0], paint: paintOf(own, FIRST_PAINT), deep: 0, stray: strayMm, clip: null, opaque: true, into };
    const inner = viewOf(root, size.wide, size.high);
    const clip = this.#hidden(root, place, own);
    if (inner) this.children(root, { ...place, ...inner, matrix: after(place.matrix, inner.matrix), clip });
  }

  own({ name, has }: Element): Own {
    return declared({ name, id: has.get('id'), classes: has.get('class'), style: has.get('style'), attribute: (property) => has.get(property) }, this.#rules);
  }

  named(id: string): Element | undefined {
    return this.#named.get(id);
  }

  /** What an element's children inherit where it stands in the file. */
  inherited(element: Element): Paint {
    const known = this.#inherited.get(element);
    if (known) return known;
    const paint = paintOf(this.own(element), element.parent ? this.inherited(element.parent) : FIRST_PAINT);
    this.#inherited.set(element, paint);
    return paint;
  }

  children(element: Element, place: Place): void {
    for (const child of element.children) this.#draw(child, place);
  }

  /** Counts an element that is drawn or clips. Throws where there are too many. */
  count(deep: number): void {
    if (++this.#elements > MOST_ELEMENTS || deep > MOST_DEEP) throw this.#by.fail(`more than ${MOST_ELEMENTS} elements, uses of the same part counted, or ${MOST_DEEP} inside each other`, 'fewer', 'Save a simpler drawing.');
  }

  /** Outlines of a shape in its own coordinates. */
  outline(element: Element, place: Place, trace = traceShape): Flat[] {
    const outline = new Outline(place.matrix, place.stray);
    trace(element, place, outline);
    const drawn = outline.rings.filter(({ points }) => points.every(([x, y]) => Number.isFinite(x) && Number.isFinite(y)));
    this.#tally(drawn.reduce((sum, { points }) => sum + points.length, 0));
    return drawn;
  }

  /** The inside of rings that a matrix leads to mm. */
  inside(rings: readonly (readonly Point[])[], matrix: Matrix, rule: 'evenodd' | 'nonzero'): Region {
    const most = FARTHEST * this.#by.widthMm;
    const near = (mm: number): number => Math.min(most, Math.max(-most, mm));
    const loops = rings.filter((ring) => ring.length > 2).map((ring) => Float64Array.from(ring.flatMap((point) => mapped(matrix, point).map(near))));
    return this.regions.filled(loops.filter((loop) => loop.every(Number.isFinite)), rule);
  }

  /** The box round an element's geometry in its own coordinates: x, y, width, height; null: it has none (SVG 2 §8.10). */
  bounds(element: Element, place: Place): readonly [number, number, number, number] | null {
    const points: Point[] = [];
    const into: Into = { bounds: points, add: () => {}, tell: () => {} };
    this.#content(element, { ...place, matrix: IDENTITY, stray: place.stray / Math.max(stretchOf(place.matrix), Number.MIN_VALUE), clip: null, into }, this.own(element));
    if (points.length === 0) return null;
    let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
    for (const [x, y] of points) [x0, y0, x1, y1] = [Math.min(x0, x), Math.min(y0, y), Math.max(x1, x), Math.max(y1, y)];
    return [x0, y0, x1 - x0, y1 - y0];
  }

  #tally(points: number): void {
    this.#points += points;
    if (this.#points > MOST_POINTS) throw this.#by.fail(`more than ${MOST_POINTS} points`, 'fewer', 'Save a simpler drawing.');
  }

  #draw(element: Element, place: Place, size?: Partial<Measure>): void {
    this.count(place.deep);
    const own = this.own(element);
    const measuring = place.into.bounds !== null;
    if ((own('display') === 'none' && element.name !== 'symbol') || (!measuring && isZero(own('opacity')))) return;
    if (element.name === 'symbol' && !size) return;
    const moved: Place = { ...place, matrix: movedBy(own, place), paint: paintOf(own, place.paint), deep: place.deep + 1, opaque: place.opaque && isWhole(own('opacity')) };
    const inside = measuring ? moved : { ...moved, clip: this.#hidden(element, moved, own) };
    if (inside.clip?.length === 0) return;
    this.#content(element, inside, own, size);
    if (own('filter') !== undefined && own('filter') !== 'none') place.into.tell('filter');
  }

  /** What is left to be seen of an element after its own clip and mask. */
  #hidden(element: Element, place: Place, own: Own): Region | null {
    let { clip } = place;
    for (const [property, regionOf] of [['clip-path', clipRegion], ['mask', maskRegion]] as const) {
      const value = own(property);
      if (value === undefined || value === 'none' || clip?.length === 0) continue;
      const region = regionOf(this, value, element, place);
      if (typeof region === 'string') place.into.tell(region);
      else clip = clippedBy(region, clip, this.regions);
    }
    return clip;
  }

  #content(element: Element, place: Place, own: Own, size?: Partial<Measure>): void {
    const { name } = element;
    if (name === 'svg' || name === 'symbol') this.#viewport(element, place, { ...size, overflow: own('overflow') });
    else if (name === 'switch') element.children.filter(isMeant).slice(0, 1).forEach((child) => this.#draw(child, place));
    else if (GROUPS.has(name)) this.children(element, place);
    else if (name === 'use') this.#use(element, place);
    else if (isShape(element)) this.#shape(element, place, own('vector-effect') === 'non-scaling-stroke');
    else if (name === 'image') this.#frame(element, place);
    else if (name === 'text' && place.paint.visibility === 'visible') place.into.tell('lettering');
  }

  /** A drawing or symbol in a drawing, at its own place and size; what is over its edge is hidden (SVG 2 §3.11). */
  #viewport(element: Element, place: Place, { overflow, ...size }: Partial<Measure> & { overflow?: string }): void {
    const { has } = element;
    const width = size.wide ?? lengthOf(has.get('width') ?? '100%', place.wide);
    const height = size.high ?? lengthOf(has.get('height') ?? '100%', place.high);
    const inner = viewOf(element, width, height);
    if (!inner || !(width > 0 && height > 0)) return;
    const matrix = after(place.matrix, [1, 0, 0, 1, lengthOf(has.get('x'), place.wide), lengthOf(has.get('y'), place.high)]);
    const open = place.into.bounds !== null || overflow === 'visible' || overflow === 'auto';
    const clip = open ? place.clip : clippedBy(this.inside([[[0, 0], [width, 0], [width, height], [0, height]]], matrix, 'nonzero'), place.clip, this.regions);
    this.children(element, { ...place, ...inner, matrix: after(matrix, inner.matrix), clip });
  }

  #use({ has }: Element, place: Place): void {
    const link = (has.get('href') ?? '').trim();
    const target = link.startsWith('#') ? this.#named.get(link.slice(1)) : undefined;
    if (!target) return;
    const at: Place = { ...place, matrix: after(place.matrix, [1, 0, 0, 1, lengthOf(has.get('x'), place.wide), lengthOf(has.get('y'), place.high)]) };
    const size = { wide: has.has('width') ? lengthOf(has.get('width'), place.wide) : undefined, high: has.has('height') ? lengthOf(has.get('height'), place.high) : undefined };
    this.#draw(target, at, size);
  }

  /** Its edge stands for a picture inside a drawing. */
  #frame(element: Element, place: Place): void {
    const { into, matrix, clip, paint } = place;
    const rings = this.outline(element, place, traceBox).map(({ points }) => points);
    if (into.bounds) return this.#measure(rings, place);
    if (paint.visibility !== 'visible' || rings.length === 0) return;
    into.tell('picture');
    const region = clippedBy(this.inside(rings, matrix, 'nonzero'), clip, this.regions);
    if (region.length > 0) into.add({ region, kind: 'frame', strokeMm: 0, paint: 'none', color: 'black', opaque: false });
  }

  #measure(rings: readonly (readonly Point[])[], { matrix, into }: Place): void {
    for (const ring of rings) for (const point of ring) into.bounds!.push(mapped(matrix, point));
  }

  #shape(element: Element, place: Place, fixed: boolean): void {
    const { paint, matrix, into } = place;
    const lines = this.outline(element, place);
    const rings = lines.map(({ points }) => points);
    if (into.bounds) return this.#measure(rings, place);
    if (paint.visibility !== 'visible') return;
    const { color } = paint;
    const by = { color, exists: (id: string) => this.#named.has(id) };
    const add = (kind: 'fill' | 'stroke', strokeMm: number, whole: Region): void => {
      const region = clippedBy(whole, place.clip, this.regions);
      const opaque = place.opaque && isOpaque(paint[kind], paint[`${kind}-opacity`], color);
      if (region.length > 0) into.add({ region, kind, strokeMm, paint: paint[kind], color, opaque });
    };
    const fill = (): void => {
      if (isPainted(paint.fill, paint['fill-opacity'], by)) add('fill', 0, this.inside(rings, matrix, paint['fill-rule'] === 'evenodd' ? 'evenodd' : 'nonzero'));
    };
    const stroke = (): void => {
      const width = lengthOf(paint['stroke-width'], diagonal(place));
      if (!isPainted(paint.stroke, paint['stroke-opacity'], by) || !(width > 0)) return;
      add('stroke', width * (fixed ? this.#by.pxMm : scaleOf(matrix)), this.#stroked(lines, { element, place, width, fixed }));
    };
    // SVG 2 §13.8: what is named first is painted first.
    const strokeFirst = /^(?:markers\s+)?stroke/.test(paint['paint-order']);
    for (const paintIt of strokeFirst ? [stroke, fill] : [fill, stroke]) paintIt();
    if (MARKED.has(element.name) && [paint['marker-start'], paint['marker-mid'], paint['marker-end']].some((marker) => marker !== 'none')) into.tell('marker');
  }

  /** `fixed`: as wide as in the drawing's own pixels, whatever stretches it. */
  #stroked(lines: readonly Flat[], { element, place, width, fixed }: { element: Element; place: Place; width: number; fixed: boolean }): Region {
    const { matrix, paint, stray } = place;
    const px = fixed ? this.#by.pxMm : 1;
    const along = fixed ? lines.map((line) => ({ ...line, points: line.points.map((point) => mapped(matrix, point)) })) : lines;
    const measured = lengthOf(element.has.get('pathLength'), 0);
    const perLength = measured > 0 ? along.reduce((sum, line) => sum + lineLength(line), 0) / measured : px;
    const dashes = dashesOf(paint['stroke-dasharray'], diagonal(place)).map((length) => length * perLength);
    const limit = Number(paint['stroke-miterlimit']);
    const style: Stroke = {
      half: (width * px) / 2,
      join: oneOf(['round', 'bevel'], paint['stroke-linejoin']) ?? 'miter',
      cap: oneOf(['round', 'square'], paint['stroke-linecap']) ?? 'butt',
      miterLimit: limit >= 0 ? limit : 4,
      dashes,
      dashOffset: lengthOf(paint['stroke-dashoffset'], diagonal(place)) * perLength,
      stray: fixed ? stray : stray / stretchOf(matrix),
    };
    const loops = along.flatMap((line) => {
      const whole = strokeLoops(line, style);
      if (!whole) place.into.tell('dashes');
      return whole ?? strokeLoops(line, { ...style, dashes: [] }) ?? [];
    });
    this.#tally(loops.reduce((sum, loop) => sum + loop.length / 2, 0));
    return this.inside(loops.map(pairs), fixed ? IDENTITY : matrix, 'nonzero');
  }
}

/** Whether a `switch` takes it (SVG 2 §5.7.2): no extension is known here, and words are English. */
const isMeant = ({ has }: Element): boolean => !has.get('requiredExtensions')?.trim() && (!has.has('systemLanguage') || /(?:^|[\s,])en\b/i.test(has.get('systemLanguage')!));

/** An even number of lengths; none for a whole line (SVG 2 §13.5.6). */
function dashesOf(value: string, of: number): number[] {
  const parts = value.split(/[\s,]+/).filter(Boolean);
  const lengths = parts.map((part) => lengthOf(part, of));
  const wrong = parts.some((part, i) => !/\d/.test(part) || lengths[i] < 0) || !lengths.some((length) => length > 0);
  if (wrong) return [];
  return lengths.length % 2 === 0 ? lengths : [...lengths, ...lengths];
}

const oneOf = <T extends string>(known: readonly T[], value: string): T | undefined => known.find((one) => one === value);

function pairs(flat: readonly number[]): Point[] {
  const points: Point[] = [];
  for (let i = 0; i < flat.length; i += 2) points.push([flat[i], flat[i + 1]]);
  return points;
}
