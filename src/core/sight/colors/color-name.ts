/**
 * A color in one to three plain words, for prints without color: lightness, then hue by its angle in CIE L*a*b*. The words and how
 * they go together (pinkish white, pale, grayish, olive, greenish black) are those of the ISCC–NBS method of designating colors
 * (Kelly and Judd, 1955; from memory); the bounds are chosen by eye (no source).
 */
import type { Lab } from '../color.ts';

/** Chroma under which it is a gray. */
const GRAY = 9;
/** Chroma under which it is dull. */
const DULL = 28;
/** A dull color as light as this is white with a tinge, one as dark black with a tinge. */
const WHITE = { from: 92, chroma: 14 } as const;
const BLACK_TO = 12;
const DARK_TO = 30;
/** Chroma that no one calls dark. */
const VIVID = 100;
const LIGHT_FROM = 80;

const GRAYS: readonly { readonly upTo: number; readonly words: string }[] = [
  { upTo: BLACK_TO, words: 'black' },
  { upTo: 35, words: 'dark gray' },
  { upTo: 65, words: 'gray' },
  { upTo: 93, words: 'light gray' },
  { upTo: Infinity, words: 'white' },
];

/** Degrees of the hue angle up to which a name holds, and what a tinge of it is called. */
const HUES = [
  { upTo: 12, hue: 'rose', tinge: 'pinkish' },
  { upTo: 45, hue: 'red', tinge: 'pinkish' },
  { upTo: 79, hue: 'orange', tinge: 'yellowish' },
  { upTo: 107, hue: 'yellow', tinge: 'yellowish' },
  { upTo: 128, hue: 'yellow-green', tinge: 'greenish' },
  { upTo: 172, hue: 'green', tinge: 'greenish' },
  { upTo: 220, hue: 'blue-green', tinge: 'greenish' },
  { upTo: 308, hue: 'blue', tinge: 'bluish' },
  { upTo: 332, hue: 'violet', tinge: 'purplish' },
  { upTo: 360, hue: 'rose', tinge: 'pinkish' },
] as const;
type Hue = (typeof HUES)[number]['hue'];

/** Hue angles of what is called cream where it is pale. */
const CREAM = [48, 115] as const;
/** Degrees. Red past the first is brown where it is dull, and orange where it is light; yellow past the second is olive, not brown; dull yellow-green is olive up to the third. */
const [BROWNISH, OLIVE_FROM, OLIVE_TO] = [38, 92, 118];
const MAGENTA = { fromDeg: 325, chroma: 75, from: 38, upTo: 75 } as const;
/** Words that say how light it is and how dull by themselves. */
const WHOLE: readonly string[] = ['cream', 'beige', 'magenta', 'wine red'];

export function colorName([L, a, b]: Lab): string {
  const chroma = Math.hypot(a, b);
  if (chroma < GRAY) return GRAYS.find(({ upTo }) => L < upTo)!.words;
  const degrees = ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;
  const { hue, tinge } = HUES.find(({ upTo }) => degrees <= upTo)!;
  const dull = chroma < DULL;
  if (L < BLACK_TO && dull) return `${tinge === 'pinkish' ? 'reddish' : tinge === 'yellowish' ? 'brownish' : tinge} black`;
  if (L > 82 && dull && degrees > CREAM[0] && degrees < CREAM[1]) return 'cream';
  if (L > WHITE.from && chroma < WHITE.chroma) return `${tinge} white`;
  const name = namedBy(hue, { L, chroma, degrees, dull });
  if (WHOLE.includes(name)) return name;
  if (L > LIGHT_FROM) return `${dull ? 'pale ' : name === 'yellow' ? '' : 'light '}${name}`;
  return `${L < DARK_TO && chroma < VIVID ? 'dark ' : ''}${dull && name !== 'brown' && name !== 'olive green' ? 'grayish ' : ''}${name}`;
}

/** What a hue is called so light and so strong. */
function namedBy(hue: Hue, { L, chroma, degrees, dull }: { readonly L: number; readonly chroma: number; readonly degrees: number; readonly dull: boolean }): string {
  switch (hue) {
    case 'rose':
      if (degrees > 180 && isMagenta(L, chroma, degrees)) return 'magenta';
      return L > 60 ? 'pink' : L > 35 ? 'rose' : dull ? 'red' : 'wine red';
    case 'red':
      if (degrees > BROWNISH && dull) return L > 62 && L <= LIGHT_FROM ? 'beige' : L > 62 ? 'orange' : 'brown';
      return L <= 65 ? 'red' : degrees < BROWNISH ? 'pink' : 'orange';
    case 'orange':
      // Dark or dull orange is what everyone calls brown.
      return chroma >= 60 || (L >= 55 && chroma >= (L > 70 ? 38 : 45)) ? 'orange' : L > 70 ? 'beige' : 'brown';
    case 'yellow':
      if (L < 65) return degrees < OLIVE_FROM ? 'brown' : 'olive';
      return dull && L <= LIGHT_FROM ? 'beige' : 'yellow';
    case 'yellow-green':
      if (dull && degrees < OLIVE_TO) return L > LIGHT_FROM ? 'yellow' : 'olive';
      return L < 50 ? 'olive green' : 'yellow-green';
    case 'violet':
      return isMagenta(L, chroma, degrees) ? 'magenta' : 'violet';
    default:
      return hue;
  }
}

function isMagenta(L: number, chroma: number, degrees: number): boolean {
  return degrees >= MAGENTA.fromDeg && degrees < 350 && chroma >= MAGENTA.chroma && L > MAGENTA.from && L < MAGENTA.upTo;
}
