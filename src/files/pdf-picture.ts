/** Pictures of pixels in a PDF: PNG and JPEG, lightly, turned as their Exif says, any way round and mirrored. */
import { PDFDocument } from '@cantoo/pdf-lib';
import type { PDFImage } from '@cantoo/pdf-lib';
import type { Point } from '../core/sheet/polygon.ts';
import { isJpeg, isPng, pictureLook } from './picture-size.ts';

/** Share of a picture's own strength that is printed: lines drawn over it are still seen. */
export const LIGHT = 0.4;
/** A photograph has 5 to 15 MB; what is larger is not put into a PDF. */
const MOST_BYTES = 30_000_000;

/** Whether `embedPicture` takes it. */
export async function canBePrinted(bytes: Uint8Array): Promise<boolean> {
  if (bytes.length > MOST_BYTES || !(isPng(bytes) || isJpeg(bytes))) return false;
  try {
    await (await embedPicture(await PDFDocument.create({ updateMetadata: false }), bytes)).embed();
    return true;
  } catch {
    // The library's reasons are its own; the template says that only the edge is drawn.
    return false;
  }
}

export const embedPicture = (pdf: PDFDocument, bytes: Uint8Array): Promise<PDFImage> => (isPng(bytes) ? pdf.embedPng(bytes) : pdf.embedJpg(bytes));

/**
 * The matrix that puts a PDF's unit square of an image (its first row at the top) where its corners are looked at.
 * `corners`: top left, top right, bottom left as it is looked at. Orientations: Exif 2.3 §4.6.4.
 */
export function imageMatrix(bytes: Uint8Array, [tl, tr, bl]: readonly [Point, Point, Point]): readonly number[] {
  const br: Point = [tr[0] + bl[0] - tl[0], tr[1] + bl[1] - tl[1]];
  // Where the stored top left, top right and bottom left are seen.
  const seen: Readonly<Record<number, readonly [Point, Point, Point]>> = {
    1: [tl, tr, bl], 2: [tr, tl, br], 3: [br, bl, tr], 4: [bl, br, tl], 5: [tl, bl, tr], 6: [tr, br, tl], 7: [br, tr, bl], 8: [bl, tl, br],
  };
  const [a, b, c] = seen[pictureLook(bytes)?.turn ?? 1];
  return [b[0] - a[0], b[1] - a[1], a[0] - c[0], a[1] - c[1], c[0], c[1]];
}
