/**
 * A plane's art as a template draws it: outlines of a drawing, or the frame of a picture made of pixels. Places are
 * shares of the art's width, from its top left, right and down, so that one reading serves every size.
 */
import type { Ring } from './polygon.ts';

/** One painted thing, in drawing order: later ones cover earlier ones. */
export interface ArtShape {
  /** Where it has paint: closed rings that do not cross, of positive `ringArea` but for holes. */
  readonly rings: readonly Ring[];
  /** A `frame` stands for a picture inside the drawing: what is painted in it is not known. */
  readonly kind: 'fill' | 'stroke' | 'frame';
  /** Width of a stroke; else 0. */
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
