/** The picture of a guide's own colors as the page can show it, made once for each. */
import type { PlacedPicture } from '../../core/sight/colors/picture.ts';

const CANVASES = new WeakMap<PlacedPicture, HTMLCanvasElement>();
const URLS = new WeakMap<PlacedPicture, string>();

export function colorsCanvas(picture: PlacedPicture): HTMLCanvasElement {
  let canvas = CANVASES.get(picture);
  if (!canvas) {
    canvas = document.createElement('canvas');
    canvas.width = picture.width;
    canvas.height = picture.height;
    canvas.getContext('2d')?.putImageData(new ImageData(picture.rgba, picture.width, picture.height), 0, 0);
    CANVASES.set(picture, canvas);
  }
  return canvas;
}

/** A `data:` address of a PNG. */
export function colorsUrl(picture: PlacedPicture): string {
  const url = URLS.get(picture) ?? colorsCanvas(picture).toDataURL();
  URLS.set(picture, url);
  return url;
}

/** Where it lies in a drawing, turned round with it where left and right are. */
export function colorsPlace({ leftMm, topMm, width, height, pixelMm }: PlacedPicture, xOf: (mm: number) => number, yOf: (mm: number) => number): { readonly x: number; readonly y: number; readonly width: number; readonly height: number; readonly transform?: string } {
  const [from, to] = [xOf(leftMm), xOf(leftMm + width * pixelMm)];
  const [top, low] = [yOf(topMm), yOf(topMm - height * pixelMm)];
  const place = { x: Math.min(from, to), y: top, width: Math.abs(to - from), height: low - top };
  return to < from ? { ...place, transform: `translate(${from + to} 0) scale(-1 1)` } : place;
}
