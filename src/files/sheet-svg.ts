/**
 * A laid-out page as an SVG file, true to the millimeter: lines as lines, its texts as texts. Every word that came from
 * a person is escaped; there is nothing in it that lives, loads or links. Of a person's pictures only the edges are lines;
 * pictures made here stand in it.
 */
import type { Face, PictureItem, SheetDocument, SheetItem, SheetPage, TextItem, Tone } from '../core/sheet/document.ts';
import { MM_PER_POINT } from '../core/sheet/document.ts';
import { ringsOf } from '../core/sheet/polygon.ts';
import { hatchPath, ringsPath, short } from '../core/sheet/svg-path.ts';

const INK: Readonly<Record<Tone, string>> = { ink: '#000', soft: '#595959', paper: '#fff' };
const FONT: Readonly<Record<Face, string>> = {
  sans: 'font-family="Alegreya Sans, sans-serif"',
  bold: 'font-family="Alegreya Sans, sans-serif" font-weight="700"',
  italic: 'font-family="Alegreya, serif" font-weight="500" font-style="italic"',
};
const ANCHOR = { left: 'start', center: 'middle', right: 'end' } as const;
const HALO_MM = 1.1;

/** `pictures`: PNGs made here, by what items call them; others are left out. */
export function sheetSvg({ title, widthMm, heightMm, originXMm, originYMm }: SheetDocument, { items }: SheetPage, pictures: ReadonlyMap<string, Uint8Array> = new Map()): string {
  const drawing: Drawing = { out: [], clips: 0, pictures };
  drawItems(drawing, items);
  const [width, height] = [widthMm, heightMm].map(short);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">`,
    `<title>${escaped(title)}</title>`,
    `<g transform="translate(${short(originXMm)} ${short(originYMm)})" stroke-linecap="round" stroke-linejoin="round">`,
    ...drawing.out,
    '</g>',
    '</svg>',
    '',
  ].join('\n');
}

interface Drawing {
  readonly out: string[];
  clips: number;
  readonly pictures: ReadonlyMap<string, Uint8Array>;
}

function drawItems(drawing: Drawing, items: readonly SheetItem[]): void {
  for (const item of items) {
    if (item.kind === 'text') drawing.out.push(textOf(item));
    else if (item.kind === 'path') {
      const stroke = item.strokeMm > 0 ? `stroke="${INK[item.tone]}" stroke-width="${short(item.strokeMm)}"` : '';
      drawing.out.push(`<path d="${ringsPath(item.rings, item.closed)}" fill="${item.fill ? INK[item.fill] : 'none'}" fill-rule="evenodd" ${stroke}${item.dash ? ` stroke-dasharray="${item.dash.join(' ')}"` : ''}/>`);
    } else if (item.kind === 'hatch') {
      const { path, strokeMm, dash } = hatchPath(item);
      clipped(drawing, ringsPath(item.region.flatMap(ringsOf), true), () => drawing.out.push(`<path d="${path}" fill="none" stroke="#333" stroke-width="${strokeMm}"${dash ? ` stroke-dasharray="${dash.join(' ')}"` : ''}/>`));
    } else if (item.kind === 'picture') drawPicture(drawing, item);
    else if (item.kind === 'group') clipped(drawing, ringsPath([item.clip], true), () => drawItems(drawing, item.items));
  }
}

/** The unit square, its top left at its first corner, laid where the corners are. */
function drawPicture({ out, pictures }: Drawing, { picture, corners: [tl, tr, bl] }: PictureItem): void {
  const bytes = pictures.get(picture);
  if (!bytes) return;
  const matrix = [tr[0] - tl[0], tr[1] - tl[1], bl[0] - tl[0], bl[1] - tl[1], tl[0], tl[1]].map((value) => value.toFixed(4)).join(' ');
  out.push(`<image width="1" height="1" preserveAspectRatio="none" transform="matrix(${matrix})" href="data:image/png;base64,${base64(bytes)}"/>`);
}

/** Bytes at once that a call takes as arguments. */
const AT_ONCE = 0x8000;

function base64(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += AT_ONCE) text += String.fromCharCode(...bytes.subarray(at, at + AT_ONCE));
  return btoa(text);
}

function clipped(drawing: Drawing, path: string, draw: () => void): void {
  const id = `c${++drawing.clips}`;
  drawing.out.push(`<clipPath id="${id}"><path d="${path}" clip-rule="evenodd"/></clipPath><g clip-path="url(#${id})">`);
  draw();
  drawing.out.push('</g>');
}

/** A program without the typefaces sets another in the room that was measured. */
function textOf({ text, x, y, face, sizePt, align, tone, halo, widthMm }: TextItem): string {
  const rim = halo ? ` stroke="#fff" stroke-width="${HALO_MM}" paint-order="stroke"` : '';
  return `<text x="${short(x)}" y="${short(y)}" ${FONT[face]} font-size="${short(sizePt * MM_PER_POINT)}" text-anchor="${ANCHOR[align]}" fill="${INK[tone]}"${rim} textLength="${short(widthMm)}" lengthAdjust="spacingAndGlyphs" xml:space="preserve">${escaped(text)}</text>`;
}

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** Fit for XML 1.0 §2.2: its special letters as references, what it does not allow as a replacement mark. */
function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (letter) => ENTITIES[letter]).replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '\ufffd');
}
