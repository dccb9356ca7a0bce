import { execFileSync } from 'node:child_process';
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import type { SheetDocument } from '../../src/core/sheet/document.ts';
import { MM_PER_POINT } from '../../src/core/sheet/document.ts';
import { layoutSheet } from '../../src/core/sheet/layout.ts';
import { fontsOnDisk } from '../../src/files/fonts-disk.ts';
import { FONT_FEATURES, fontFile, loadSheetFonts, unpackWoff } from '../../src/files/fonts.ts';
import type { SheetFonts } from '../../src/files/fonts.ts';
import { sheetPdf } from '../../src/files/pdf.ts';
import { HARD_SCENES, make, sceneDocument } from '../core/sheet/made-scenes.ts';
import type { Made } from '../core/sheet/made-scenes.ts';

const ROOT = new URL('../..', import.meta.url).pathname;
const read = fontsOnDisk(ROOT);
/** mm. Coordinates are written with three decimals of a point. */
const DRAWN_MM = 0.01;

async function sheet(made: Made, paper: 'a4' | 'letter' = 'a4', letters = ''): Promise<{ document: SheetDocument; bytes: Uint8Array; fonts: SheetFonts }> {
  const fonts = await loadSheetFonts(read, letters);
  const document = layoutSheet({ ...made, measure: fonts.measure, printable: fonts.printable }, paper);
  return { document, bytes: await sheetPdf(document, fonts), fonts };
}

const open = (bytes: Uint8Array) => getDocument({ data: bytes.slice(), verbosity: 0 }).promise;

async function textOf(bytes: Uint8Array, page: number): Promise<string> {
  const content = await (await (await open(bytes)).getPage(page)).getTextContent();
  return content.items.map((item) => ('str' in item ? item.str : '')).join(' ').replaceAll(/\s+/g, ' ');
}

describe('the sheet as PDF', async () => {
  const made = make(sceneDocument());
  const { document, bytes, fonts } = await sheet(made);

  it.each([['a4', 297, 210], ['letter', 279.4, 215.9]] as const)('has pages of %s size, landscape (ISO 216; 8½ × 11 in)', async (paper, widthMm, heightMm) => {
    const pdf = await open((await sheet(made, paper)).bytes);
    expect(pdf.numPages).toBe(document.pages.length);
    for (let i = 1; i <= pdf.numPages; i++) {
      const [x0, y0, x1, y1] = (await pdf.getPage(i)).view;
      expect(Math.abs((x1 - x0) * MM_PER_POINT - widthMm)).toBeLessThan(DRAWN_MM);
      expect(Math.abs((y1 - y0) * MM_PER_POINT - heightMm)).toBeLessThan(DRAWN_MM);
    }
  });

  it('gives the same bytes for the same plan', async () => {
    expect(Buffer.compare(Buffer.from((await sheet(made)).bytes), Buffer.from(bytes))).toBe(0);
  });

  it('carries no other time than the plan’s', async () => {
    const { info } = (await (await open(bytes)).getMetadata()) as { info: { CreationDate?: string; Title?: string } };
    expect(info.CreationDate).toBe(`D:${made.plan.steps[0].from.replace(/\D/g, '')}00Z`);
    expect(info.Title).toBe('Test pond: build sheet');
  });

  it('has every laid-out text to be selected and found, each once', async () => {
    for (const [i, page] of document.pages.entries()) {
      const drawn = await textOf(bytes, i + 1);
      const flat = (items: typeof page.items): string[] => items.flatMap((item) => (item.kind === 'group' ? flat(item.items) : item.kind === 'text' ? [item.text.replaceAll(/\s+/g, ' ').trim()] : []));
      for (const text of flat(page.items)) expect(drawn.replaceAll(' ', ''), `page ${i + 1}`).toContain(text.replaceAll(' ', ''));
      const tag = `page ${i + 1} of ${document.pages.length}`;
      expect(drawn.split(tag)).toHaveLength(2);
    }
  });

  it('draws lining figures of one width under their own characters', () => {
    const { glyphs } = fonts.font('sans', 'latin').layout('0123456789', FONT_FEATURES);
    const plain = fonts.font('sans', 'latin').layout('0123456789', { lnum: false, tnum: false }).glyphs;
    expect(new Set(glyphs.map(({ advanceWidth }) => advanceWidth)).size).toBe(1);
    glyphs.forEach(({ codePoints }, i) => expect(codePoints).toEqual([48 + i]));
    // Old-style threes hang below the line; the drawn ones may not be those.
    expect(glyphs[3].id).not.toBe(plain[3].id);
  });

  it('holds no picture: pages are text and lines', async () => {
    const pdf = await open(bytes);
    for (let i = 1; i <= pdf.numPages; i++) {
      const { fnArray } = await (await pdf.getPage(i)).getOperatorList();
      for (const picture of [OPS.paintImageXObject, OPS.paintInlineImageXObject, OPS.paintImageMaskXObject]) expect(fnArray).not.toContain(picture);
    }
  });

  it('draws 100 mm check bars both ways and every fill mark at its height, within 0.01 mm', async () => {
    const number = document.pages.findIndex(({ kind }) => kind === 'strip') + 1;
    const lines = await linesOf(bytes, number);
    const lengths = (along: 'x' | 'y'): number[] => lines.filter((line) => (along === 'x' ? line.y0 === line.y1 : line.x0 === line.x1)).map((line) => Math.hypot(line.x1 - line.x0, line.y1 - line.y0));
    expect(lengths('x').some((length) => Math.abs(length - 100) < DRAWN_MM)).toBe(true);
    expect(lengths('y').some((length) => Math.abs(length - 100) < DRAWN_MM)).toBe(true);
    // Level lines are the 14 mm long ones; the lowest is the floor.
    const levels = lines.filter((line) => line.y0 === line.y1 && Math.abs(line.x1 - line.x0 - 14) < DRAWN_MM).map(({ y0 }) => y0);
    const floor = Math.min(...levels);
    for (const pour of made.plan.pours) {
      const height = made.scene.mold.heightMm - pour.fillMarkFromRimMm;
      expect(levels.some((y) => Math.abs(y - floor - height) < DRAWN_MM), `pour ${pour.index} at ${height}`).toBe(true);
    }
    expect(levels.some((y) => Math.abs(y - floor - made.scene.mold.heightMm) < DRAWN_MM)).toBe(true);
    // A ruler: a tick of 2 mm at every millimeter that no longer one marks, 48 of 61, on each of the two copies.
    expect(lines.filter((line) => line.y0 === line.y1 && Math.abs(line.x1 - line.x0 - 2) < DRAWN_MM)).toHaveLength(2 * 48);
  });

  it('reads the same in poppler, where it is installed', () => {
    const text = poppler(bytes);
    if (text === null) return;
    expect(text).toContain('Pour 2');
    expect(text).toContain('part B (hardener)');
    expect(text).toContain(made.plan.pours[0].batches[0].scaleStopsG[1].toFixed(1));
  });
});

describe('a halt in the PDF', () => {
  it('stands on every page', async () => {
    const { bytes, document } = await sheet(HARD_SCENES['a halt of every pour']());
    for (let i = 1; i <= document.pages.length; i++) {
      const text = await textOf(bytes, i);
      expect(text).toContain('DO NOT POUR');
      expect(text).toContain('differ by 18.6 % in hardener'.replaceAll('\u00a0', ' '));
    }
  });
});

describe('the fill-mark strip on leaning walls', () => {
  it('is stretched along the wall by 1/cos(draft)', async () => {
    const made = HARD_SCENES['face down, leaning walls']();
    const { bytes, document } = await sheet(made);
    const lines = await linesOf(bytes, document.pages.findIndex(({ kind }) => kind === 'strip') + 1);
    const levels = lines.filter((line) => line.y0 === line.y1 && Math.abs(line.x1 - line.x0 - 14) < DRAWN_MM).map(({ y0 }) => y0);
    expect(Math.abs(Math.max(...levels) - Math.min(...levels) - 60 / Math.cos((8 * Math.PI) / 180))).toBeLessThan(DRAWN_MM);
  });
});

describe('names beyond Latin', () => {
  const name = 'Пруд вечером, λίμνη, źródło';

  it('are drawn from the script’s own file and can be found', async () => {
    const { bytes } = await sheet(make(sceneDocument({ name })), 'a4', name);
    expect((await textOf(bytes, 1)).replaceAll(' ', '')).toContain(name.replaceAll(' ', ''));
  });

  it('get a mark where no typeface has them, and never stop the sheet', async () => {
    const strange = '池の夕べ \u{1f438} \u0000\u202e';
    const { bytes } = await sheet(make(sceneDocument({ name: strange })), 'a4', strange);
    expect(await textOf(bytes, 1)).toContain('[?][?][?][?]');
  });
});

describe('unpackWoff', () => {
  it('gives tables whose checksums are those of their directory (OpenType 1.9, calculating checksums)', async () => {
    const file = fontFile('sans', 'latin');
    const sfnt = unpackWoff(await read(file), file);
    const view = new DataView(sfnt.buffer);
    const count = view.getUint16(4);
    expect(count).toBeGreaterThan(8);
    for (let i = 0; i < count; i++) {
      const at = 12 + 16 * i;
      const tag = String.fromCharCode(...sfnt.subarray(at, at + 4));
      if (tag === 'head') continue; // holds the whole file's adjustment, which is not part of its own sum
      let sum = 0;
      const [offset, length] = [view.getUint32(at + 8), view.getUint32(at + 12)];
      for (let k = 0; k < length; k += 4) sum = (sum + view.getUint32(offset + k)) >>> 0;
      expect(sum, tag).toBe(view.getUint32(at + 4));
    }
  });

  it('refuses what is not a WOFF font, by name', () => {
    expect(() => unpackWoff(new Uint8Array(100), 'some.woff')).toThrow('some.woff is not a WOFF font file');
  });
});

interface DrawnLine { x0: number; y0: number; x1: number; y1: number }

/** Straight lines of two points that a page strokes, mm from the paper's bottom left. */
async function linesOf(bytes: Uint8Array, number: number): Promise<DrawnLine[]> {
  const { fnArray, argsArray } = await (await (await open(bytes)).getPage(number)).getOperatorList();
  const lines: DrawnLine[] = [];
  fnArray.forEach((fn, i) => {
    if (fn !== OPS.constructPath) return;
    const data = argsArray[i][1][0] as Float32Array | null;
    // 0 moves, 1 draws a line: a path of one line is 0 x y 1 x y.
    if (data && data.length === 6 && data[0] === 0 && data[3] === 1) lines.push({ x0: data[1] * MM_PER_POINT, y0: data[2] * MM_PER_POINT, x1: data[4] * MM_PER_POINT, y1: data[5] * MM_PER_POINT });
  });
  return lines;
}

function poppler(bytes: Uint8Array): string | null {
  try {
    return execFileSync('pdftotext', ['-layout', '-', '-'], { input: bytes, encoding: 'utf8' });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
}
