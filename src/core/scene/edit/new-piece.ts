/**
 * An empty scene from three questions: from where the piece is seen, whether it stays in its mold, and the mold's inside.
 *
 * Which way it is cast:
 * - seen from above, or all round: face-up. The surface is then the last pour, as water is, and every plane is
 *   painted and judged the right way round. A face-down casting mirrors left and right and turns the order about.
 * - seen from the front, and out of the mold: face-up too, lying on its back, so that pour lines are seen edge-on
 *   only from the narrow sides, and the front is leveled and polished after.
 * - seen from the front, and staying in a clear box: face-down. The pane one looks through is then the mold's floor,
 *   glassy from the start; lying on its back it would be seen through the open top instead.
 * So for a piece seen from the front the mold's height is the depth of the picture. The choice can be changed any time.
 */
import type { MoldMaterial } from '../scene.ts';
import { done, refused, type EditResult, type MoldFile } from './file.ts';
import { nameFlaw } from './names.ts';
import { tidy } from './things.ts';

export interface NewPiece {
  readonly seen: 'above' | 'front' | 'around';
  /** The piece stays in the mold. */
  readonly keep: boolean;
  /** Inside sizes, mm. */
  readonly mold:
    | { readonly shape: 'box'; readonly lengthMm: number; readonly widthMm: number; readonly heightMm: number; readonly material?: MoldMaterial }
    | { readonly shape: 'round'; readonly diameterMm: number; readonly heightMm: number; readonly material?: MoldMaterial };
  readonly name?: string;
}

/** Left free under the rim, mm: the trade's 3 to 5, the safe end. */
const FREE_MM = 5;
/** In a mold too low for that, the share of its height that is filled. */
const LOW_SHARE = 0.6;
/** Up to here one pour of a general resin will do, mm (its typical greatest depth); deeper, a low-viscosity one (common practice, no source). */
const GENERAL_TO_MM = 10;
/** The clear walls one can look through. */
const CLEAR: readonly MoldMaterial[] = ['acrylic', 'glass'];

/** A mold with one fill and nothing in it, or what is wrong with the sizes. */
export function newPiece({ seen, keep, mold: asked, name }: NewPiece): EditResult {
  const flaw = name === undefined ? null : nameFlaw(name);
  if (flaw) return refused(flaw);
  const material = asked.material ?? (keep ? 'acrylic' : undefined);
  const cast = seen === 'front' && keep && material && CLEAR.includes(material) ? 'face-down' : 'face-up';
  const mold: MoldFile = { ...asked, ...(material && { material }), ...(keep && { keep }) };
  const free = asked.heightMm - FREE_MM;
  const fillMm = tidy(free >= LOW_SHARE * asked.heightMm ? free : LOW_SHARE * asked.heightMm);
  const formula = fillMm <= GENERAL_TO_MM ? 'general' : 'low-viscosity';
  return done({ format: 'stillpool.scene', version: 1, name: name?.trim() ?? 'Untitled piece', mold, cast, fillMm, fills: [{ toMm: fillMm, formula }], placements: [] }, 'new piece', 'mold');
}
