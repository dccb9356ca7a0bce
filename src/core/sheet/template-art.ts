/**
 * A plane's art as a template draws it: outlines of a drawing, or the frame of a picture made of pixels. Places are
 * shares of the art's width, from its top left, right and down, so that one reading serves every size.
 */
import type { Ring } from './polygon.ts';

export interface ArtRing {
  readonly points: Ring;
  /** Its last point joins its first. A fill closes every ring. */
  readonly closed: boolean;
}

/** One painted thing, in drawing order: later ones cover earlier ones. */
export interface ArtShape {
  readonly rings: readonly ArtRing[];
  /** How overlapping rings fill; null: not filled. */
  readonly fill: 'nonzero' | 'evenodd' | null;
  /** Width of its stroke; 0: none. Neither filled nor stroked: the frame of a picture inside the drawing. */
  readonly stroke: number;
}

export type PlaneArt =
  | {
      readonly kind: 'drawing';
      readonly highPerWide: number;
      readonly shapes: readonly ArtShape[];
      /** What of it is not drawn as it is, in sentences. */
      readonly leftOut: readonly string[];
    }
  /** `picture`: what its bytes are known by; null: they can't be printed, only its edge is drawn. */
  | { readonly kind: 'picture'; readonly highPerWide: number; readonly picture: string | null }
  /** `why` is a sentence that names the file. */
  | { readonly kind: 'unseen'; readonly why: string };
