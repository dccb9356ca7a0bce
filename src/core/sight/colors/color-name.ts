/** A color in one to three plain words, for prints without color: lightness, then hue by its angle in CIE L*a*b*. Bounds chosen by eye over the basic color terms (no source). */
import type { Lab } from '../color.ts';

/** Chroma under which it is a gray. */
const GRAY = 9;
/** Hue angles of what is called cream where it is pale. */
const CREAM = [48, 115] as const;
/** Under which it is dull. */
const DULL = 28;
/** Degrees. Light red past this is an orange, not a pink. */
const CORAL = 38;

const GRAYS: readonly { readonly upTo: number; readonly words: string }[] = [
  { upTo: 12, words: 'black' },
  { upTo: 35, words: 'dark gray' },
  { upTo: 65, words: 'gray' },
  { upTo: 93, words: 'light gray' },
  { upTo: Infinity, words: 'white' },
];

/** Degrees of the hue angle up to which a name holds. */
const HUES: readonly { readonly upTo: number; readonly words: string }[] = [
  { upTo: 12, words: 'rose' },
  { upTo: 48, words: 'red' },
  { upTo: 79, words: 'orange' },
  { upTo: 107, words: 'yellow' },
  { upTo: 128, words: 'yellow-green' },
  { upTo: 172, words: 'green' },
  { upTo: 220, words: 'blue-green' },
  { upTo: 308, words: 'blue' },
  { upTo: 332, words: 'violet' },
  { upTo: 360, words: 'rose' },
];

export function colorName([L, a, b]: Lab): string {
  const chroma = Math.hypot(a, b);
  if (chroma < GRAY) return GRAYS.find(({ upTo }) => L < upTo)!.words;
  const degrees = ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;
  const hue = HUES.find(({ upTo }) => degrees <= upTo)!.words;
  if (L > 82 && chroma < DULL && degrees > CREAM[0] && degrees < CREAM[1]) return 'cream';
  // Dark or dull orange is what everyone calls brown.
  const name = hue === 'orange' && (L < 55 || chroma < 45) ? (L > 70 ? 'beige' : 'brown') : hue === 'red' && L > 65 ? (degrees < CORAL ? 'pink' : 'orange') : hue;
  const lightness = L < 30 ? 'dark ' : L > 80 && name !== 'yellow' && name !== 'beige' ? 'light ' : '';
  return `${lightness}${chroma < DULL && name !== 'beige' && name !== 'brown' ? 'grayish ' : ''}${name}`;
}
