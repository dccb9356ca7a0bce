/** The pictures that templates show of creatures' colors, as PNG. */
import { pictureName } from '../core/sheet/template-colors.ts';
import type { PlaneGuide } from '../core/sight/guide.ts';
import { pngOf } from './picture/png-write.ts';

/** By what the templates call them: each guide's own, and a pixel of each main color and of each of `hexes`. */
export function guidePictures(guides: readonly PlaneGuide[], hexes: readonly string[] = []): Map<string, Uint8Array> {
  const pictures = new Map<string, Uint8Array>(hexes.map((hex) => [hex, pixelOf(hex)]));
  for (const guide of guides) {
    if (!guide.colors) continue;
    const { picture: { width, height, rgba }, main } = guide.colors;
    pictures.set(pictureName(guide), pngOf(width, height, rgba));
    for (const { hex } of main) pictures.set(hex, pixelOf(hex));
  }
  return pictures;
}

function pixelOf(hex: string): Uint8Array {
  return pngOf(1, 1, Uint8Array.of(...[1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16)), 255));
}
