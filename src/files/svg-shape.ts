/** The shapes of SVG as outlines. Source: SVG 2 §9 (path data), §10 (basic shapes). */
import type { Outline } from './svg-outline.ts';
import { drawPathData } from './svg-outline.ts';
import { numbersIn } from './svg-matrix.ts';
import type { Attribute, Element } from './svg-tree.ts';
import { lengthOf } from './svg-tree.ts';

/** What percentages are of. */
export interface Measure {
  readonly wide: number;
  readonly high: number;
}

const SHAPES = new Set(['path', 'rect', 'circle', 'ellipse', 'line', 'polyline', 'polygon']);

export const isShape = ({ name }: Element): boolean => SHAPES.has(name);

/** What a percentage is of that runs neither across nor down (SVG 2 §8.9). */
export const diagonal = ({ wide, high }: Measure): number => Math.hypot(wide, high) / Math.SQRT2;

export function traceShape(element: Element, measure: Measure, outline: Outline): void {
  const { name, has } = element;
  const along = (attribute: Attribute): number => lengthOf(has.get(attribute), measure.wide);
  const down = (attribute: Attribute): number => lengthOf(has.get(attribute), measure.high);
  if (name === 'path') drawPathData(outline, has.get('d') ?? '');
  else if (name === 'rect') traceBox(element, measure, outline);
  else if (name === 'circle') {
    const r = lengthOf(has.get('r'), diagonal(measure));
    if (r > 0) outline.ellipse(along('cx'), down('cy'), r, r);
  } else if (name === 'ellipse') {
    // A radius that is left out is as long as the other.
    const a = has.has('rx') && has.get('rx') !== 'auto' ? along('rx') : down('ry');
    const b = has.has('ry') && has.get('ry') !== 'auto' ? down('ry') : along('rx');
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

/** A rectangle, of an element `rect` or `image`. */
export function traceBox({ has }: Element, { wide, high }: Measure, outline: Outline): void {
  const [width, height] = [lengthOf(has.get('width'), wide), lengthOf(has.get('height'), high)];
  if (!(width > 0 && height > 0)) return;
  const round = (attribute: 'rx' | 'ry', of: number): number => (has.has(attribute) && has.get(attribute) !== 'auto' ? lengthOf(has.get(attribute), of) : NaN);
  const [rx, ry] = [round('rx', wide), round('ry', high)];
  outline.rectangle(lengthOf(has.get('x'), wide), lengthOf(has.get('y'), high), width, height, firstNumber(rx, ry), firstNumber(ry, rx));
}

const firstNumber = (...values: readonly number[]): number => values.find((value) => !Number.isNaN(value)) ?? 0;
