/** Where reading a drawing stands: what it has come through to a part of it, and where the part's paint goes. */
import type { Point } from '../core/sheet/polygon.ts';
import type { ArtShape } from '../core/sheet/template-art.ts';
import type { Region } from '../core/sight/region.ts';
import type { Matrix } from './svg-matrix.ts';
import { after, transformOf } from './svg-matrix.ts';
import type { Measure } from './svg-shape.ts';
import type { Own, Paint } from './svg-style.ts';
import { lengthOf } from './svg-tree.ts';

/** What of a drawing is not drawn as it is. */
export const TOLD = {
  lettering: 'Its lettering is not drawn: turn it into outlines for that.',
  picture: 'Of a picture inside it only the frame is drawn.',
  clip: 'What a clip made of lettering or of a CSS shape hides in it is drawn too.',
  lost: 'A clip or a mask in it is named but is not there, or is made of itself: nothing is hidden by it.',
  mask: 'What a mask hides in it is drawn too, unless the mask is all black and white.',
  marker: 'Markers on its lines, such as arrowheads, are not drawn: turn them into outlines for that.',
  filter: 'What a filter makes of it, such as a blur, is not drawn.',
  dashes: 'A stroke whose dashes are too fine is drawn whole.',
} as const;

/** One painted thing in mm, y down. */
export interface Piece {
  readonly region: Region;
  readonly kind: ArtShape['kind'];
  readonly strokeMm: number;
  /** As written. */
  readonly paint: string;
  readonly color: string;
  readonly opaque: boolean;
}

/** Where what is drawn goes. */
export interface Into {
  /** Given: only the geometry is wanted, its points in the coordinates it is asked in. */
  readonly bounds: Point[] | null;
  readonly add: (piece: Piece) => void;
  /** Something that no piece stands for. */
  readonly tell: (what: keyof typeof TOLD) => void;
}

/** `wide`, `high`: of the nearest drawing. */
export interface Place extends Measure {
  /** From its coordinates to mm. */
  readonly matrix: Matrix;
  readonly paint: Paint;
  readonly deep: number;
  /** How far points may stray, in what the matrix leads to. */
  readonly stray: number;
  /** Nothing is seen outside; null: everything is. */
  readonly clip: Region | null;
  /** Nothing shines through what is around it. */
  readonly opaque: boolean;
  readonly into: Into;
}

/** From an element's coordinates to mm: its own transform, about its origin, then all that is around it (CSS Transforms Level 1 §4). */
export function movedBy(own: Own, { matrix, wide, high }: Pick<Place, 'matrix' | 'wide' | 'high'>): Matrix {
  const transform = own('transform');
  if (transform === undefined) return matrix;
  const [x, y] = (own('transform-origin') ?? '').split(/\s+/).map((part, i) => lengthOf(part, i === 0 ? wide : high));
  const about: Matrix = [1, 0, 0, 1, x, y ?? 0];
  return after(matrix, x || y ? after(about, after(transformOf(transform), [1, 0, 0, 1, -about[4], -about[5]])) : transformOf(transform));
}
