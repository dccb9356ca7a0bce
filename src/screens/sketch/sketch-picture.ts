/** A plane's sketch as a picture with its box, in mold coordinates looking down. */
import type { Stroke } from '../../core/scene/scene.ts';
import { markBounds } from '../../core/sight/sketch/mark.ts';
import { paintStrokes } from './paint-strokes.ts';

/** Finer is not seen in the mold view. */
const PX_PER_MM = 10;
const MOST_PX = 2048;

export interface SketchPicture {
  readonly blob: Blob;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly xMm: number;
  readonly yMm: number;
}

/** null of no strokes, and where the browser gives no canvas. */
export async function sketchPicture(strokes: readonly Stroke[]): Promise<SketchPicture | null> {
  if (strokes.length === 0) return null;
  const boxes = strokes.map(markBounds);
  const minX = boxes.reduce((least, box) => Math.min(least, box.minX), Infinity);
  const minY = boxes.reduce((least, box) => Math.min(least, box.minY), Infinity);
  const maxX = boxes.reduce((most, box) => Math.max(most, box.maxX), -Infinity);
  const maxY = boxes.reduce((most, box) => Math.max(most, box.maxY), -Infinity);
  const [widthMm, heightMm] = [maxX - minX, maxY - minY];
  const pxPerMm = Math.min(PX_PER_MM, MOST_PX / Math.max(widthMm, heightMm));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.ceil(widthMm * pxPerMm));
  canvas.height = Math.max(1, Math.ceil(heightMm * pxPerMm));
  const pen = canvas.getContext('2d');
  if (!pen) return null;
  pen.setTransform(canvas.width / widthMm, 0, 0, -canvas.height / heightMm, (-minX * canvas.width) / widthMm, (maxY * canvas.height) / heightMm);
  paintStrokes(pen, strokes, pxPerMm);
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
  return blob && { blob, widthMm, heightMm, xMm: (minX + maxX) / 2, yMm: (minY + maxY) / 2 };
}
