/** What a painter is told of one plane: how light it is, and what comes first. After the trade's way of building a creature by slices (common practice, no source). */
import type { Scene } from '../scene/scene.ts';

/** Light, color and edge by how far behind the creature's nearest plane one lies: 0 the nearest, 1 the farthest. */
const SHADES: readonly { readonly upTo: number; readonly words: string }[] = [
  { upTo: 0.15, words: 'Nearest the eye: the lightest and sharpest, with the last glints.' },
  { upTo: 0.45, words: 'Full color, crisp edges.' },
  { upTo: 0.8, words: 'A little darker and cooler, softer edges.' },
  { upTo: 1, words: 'Farthest from the eye: the darkest and coolest, little contrast, soft edges.' },
];

/** The strokes of one plane, from the ones farthest from the eye to the nearest. */
const BACK_TO_FRONT = ['the shadow side and the soft edge', 'the body’s color', 'marks and scales', 'glints, the one in the eye last'] as const;
const FRONT_TO_BACK = ['glints, the one in the eye first', 'marks and scales', 'the body’s color', 'the shadow side and the soft edge'] as const;

/** `place` counts the creature's planes from the viewer's, 0 first; `reaches`: it is cut there at all; `shows`: something new shows there. */
export function shadingWords(place: number, { planes, reaches, shows }: { readonly planes: number; readonly reaches: boolean; readonly shows: boolean }): string {
  if (!reaches) return 'It does not reach this height: nothing to paint here. Move the plane, or take it off.';
  if (!shows) return 'Nothing new shows here, looked at straight. Leave it out, or paint its rim dark for a look from the side.';
  if (planes === 1) return 'The whole creature on one plane: light where it is nearest the eye, darker to the sides.';
  const share = place / (planes - 1);
  return SHADES.find(({ upTo }) => share <= upTo)!.words;
}

/** Face-up the last stroke is nearest the eye; face-down it is seen through the floor, so the first one is. */
export function withinPlane(cast: Scene['cast']): readonly string[] {
  return cast === 'face-down' ? FRONT_TO_BACK : BACK_TO_FRONT;
}
