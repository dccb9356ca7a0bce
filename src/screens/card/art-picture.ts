/**
 * A picture as it comes from a person's disk: its kind told by its bytes, an SVG cleaned of everything that lives or
 * reaches out, its true width where it states one.
 */
import { MM_PER_INCH } from '../../core/units/quantity.ts';
import { rasterWidthMm } from './raster-width.ts';

export const PICTURES_ACCEPTED = '.png,.jpg,.jpeg,.webp,.svg,image/png,image/jpeg,image/webp,image/svg+xml';
/** A phone's photograph has 5 to 15 MB; more than this is no picture for a plane, bytes. */
const MOST_BYTES = 60_000_000;

export interface ReadPicture {
  readonly blob: Blob;
  /** As the file states it; null where it states none. */
  readonly widthMm: number | null;
}

/** Why a file can't be a picture, by its name and size alone; or null. */
export function artFileProblem(file: { readonly name: string; readonly size: number }): string | null {
  if (!/\.(png|jpe?g|webp|svg)$/i.test(file.name)) return `${file.name} is no picture this can show; expected PNG, JPEG, WebP or SVG.`;
  if (file.size === 0) return `${file.name} is empty; choose the picture again.`;
  return file.size > MOST_BYTES ? `${file.name} has ${Math.round(file.size / 1e6)} MB; expected ${MOST_BYTES / 1e6} MB at most. Save a smaller copy.` : null;
}

/** @throws {Error} with what was found, in words, if the bytes are no such picture. */
export async function readPicture(file: File): Promise<ReadPicture> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const kind = pictureKind(bytes);
  if (kind === null) throw new Error(`${file.name} does not hold a PNG, JPEG, WebP or SVG picture. Save it again as one of these.`);
  if (kind !== 'image/svg+xml') return { blob: new Blob([bytes], { type: kind }), widthMm: rasterWidthMm(bytes, kind) };
  const { cleanSvg } = await import('./svg-clean.ts');
  const clean = cleanSvg(new TextDecoder().decode(bytes));
  if (!/<svg[\s>]/i.test(clean)) throw new Error(`${file.name} holds no drawing after cleaning. Save it as plain SVG, or as PNG.`);
  return { blob: new Blob([clean], { type: kind }), widthMm: svgWidthMm(clean) };
}

/** The media type by the first bytes, or null. */
export function pictureKind(bytes: Uint8Array): 'image/png' | 'image/jpeg' | 'image/webp' | 'image/svg+xml' | null {
  const starts = (...head: number[]): boolean => head.every((byte, i) => bytes[i] === byte);
  if (starts(0x89, 0x50, 0x4e, 0x47)) return 'image/png';
  if (starts(0xff, 0xd8, 0xff)) return 'image/jpeg';
  if (starts(0x52, 0x49, 0x46, 0x46) && String.fromCharCode(...bytes.subarray(8, 12)) === 'WEBP') return 'image/webp';
  return /<svg[\s>]/i.test(new TextDecoder().decode(bytes.subarray(0, 4096))) ? 'image/svg+xml' : null;
}

/** `width="12cm"` in mm; null for pixels, percent or none: a screen's pixel has no true size. */
export function svgWidthMm(svg: string): number | null {
  const open = /<svg\b[^>]*>/i.exec(svg)?.[0] ?? '';
  const found = /\bwidth\s*=\s*["']\s*([\d.]+)\s*(mm|cm|in|pt|pc)\s*["']/i.exec(open);
  if (!found) return null;
  const perUnit = { mm: 1, cm: 10, in: MM_PER_INCH, pt: MM_PER_INCH / 72, pc: MM_PER_INCH / 6 }[found[2].toLowerCase() as 'mm' | 'cm' | 'in' | 'pt' | 'pc'];
  const width = Number(found[1]) * perUnit;
  return width > 0 && Number.isFinite(width) ? width : null;
}
