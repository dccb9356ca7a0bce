/**
 * The build sheet as a vector PDF, true to the millimeter: text as text, hatches as lines, nothing as a picture.
 * The same document gives the same bytes: the only time in it is the plan's, and nothing is random.
 */
import { PDFDocument, PDFName, PrintScaling } from '@cantoo/pdf-lib';
import type { PDFFont, PDFImage } from '@cantoo/pdf-lib';
import * as fontkit from 'fontkit';
import type { HatchItem, PathItem, PictureItem, SheetDocument, SheetItem, SheetPage, TextItem, Tone } from '../core/sheet/document.ts';
import { MM_PER_POINT } from '../core/sheet/document.ts';
import { hatchMarks } from '../core/sheet/hatch.ts';
import type { Point, Ring } from '../core/sheet/polygon.ts';
import { boxOf, ringsOf } from '../core/sheet/polygon.ts';
import { FACES, FONT_FEATURES } from './fonts.ts';
import type { FontRun, SheetFonts } from './fonts.ts';
import { LIGHT, embedPicture, imageMatrix } from './pdf-picture.ts';

/** mm. Width of the paper-colored rim round a text that stands on a hatch. */
const HALO_MM = 1.1;
/** Decimals of a coordinate in points: 0.002 mm at most are rounded away. */
const DECIMALS = 2;
/** Gray of each tone, 0 black to 1 white: the sheet is made for a black-and-white printer. */
const GRAY: Readonly<Record<Tone, number>> = { ink: 0, soft: 0.35, paper: 1 };

/**
 * Bytes of the PDF, one page of `doc.paper`'s size for each page of the document.
 * `fonts` must hold the scripts of all its texts (loadSheetFonts), `pictures` the bytes of its pictures, all of which
 * `canBePrinted`; one that is not given is left out.
 */
export async function sheetPdf(doc: SheetDocument, fonts: SheetFonts, pictures: ReadonlyMap<string, Uint8Array> = new Map()): Promise<Uint8Array> {
  const pdf = await PDFDocument.create({ updateMetadata: false });
  pdf.registerFontkit(fontkit as unknown as Parameters<PDFDocument['registerFontkit']>[0]);
  describe(pdf, doc);
  const embedded = new Map<string, { name: string; font: PDFFont }>();
  const fontOf = async (item: TextItem, run: FontRun): Promise<{ name: string; font: PDFFont }> => {
    const key = `${item.face}-${run.script}`;
    let entry = embedded.get(key);
    if (!entry) {
      const customName = `SHEET${String.fromCharCode(65 + FACES.indexOf(item.face))}+${fonts.font(item.face, run.script).postscriptName}-${run.script}`;
      const font = await pdf.embedFont(fonts.sfnt(item.face, run.script), { subset: true, features: FONT_FEATURES, customName });
      entry = { name: `F${embedded.size + 1}`, font };
      embedded.set(key, entry);
    }
    return entry;
  };
  const images = new Map<string, Image>();
  for (const [name, bytes] of pictures) images.set(name, { key: `P${images.size + 1}`, image: await embedPicture(pdf, bytes), bytes });
  for (const sheetPage of doc.pages) await drawPage(pdf, doc, sheetPage, { fonts, fontOf, images });
  return pdf.save({ addDefaultPage: false, updateFieldAppearances: false });
}

function describe(pdf: PDFDocument, doc: SheetDocument): void {
  pdf.setTitle(doc.title);
  pdf.setCreator('Stillpool');
  pdf.setLanguage('en-US');
  if (doc.created) {
    const created = new Date(`${doc.created}:00Z`);
    pdf.setCreationDate(created);
    pdf.setModificationDate(created);
  }
  const preferences = pdf.catalog.getOrCreateViewerPreferences();
  preferences.setPrintScaling(PrintScaling.None);
  preferences.setDisplayDocTitle(true);
}

interface Image {
  readonly key: string;
  readonly image: PDFImage;
  readonly bytes: Uint8Array;
}

interface Drawing {
  /** Content stream so far. */
  readonly out: string[];
  /** Live-area mm to points from the paper's bottom left. */
  readonly at: (point: Point) => string;
  readonly fonts: SheetFonts;
  readonly fontOf: (item: TextItem, run: FontRun) => Promise<{ name: string; font: PDFFont }>;
  readonly used: Map<string, PDFFont>;
  readonly images: ReadonlyMap<string, Image>;
  readonly shown: Set<Image>;
}

async function drawPage(pdf: PDFDocument, doc: SheetDocument, sheetPage: SheetPage, by: Pick<Drawing, 'fonts' | 'fontOf' | 'images'>): Promise<void> {
  const page = pdf.addPage([doc.widthMm / MM_PER_POINT, doc.heightMm / MM_PER_POINT]);
  const at = ([x, y]: Point): string => `${number((doc.originXMm + x) / MM_PER_POINT)} ${number((doc.heightMm - doc.originYMm - y) / MM_PER_POINT)}`;
  const drawing: Drawing = { out: [stretched(doc), '1 J 1 j'], at, ...by, used: new Map(), shown: new Set() };
  await drawItems(drawing, sheetPage.items);
  for (const [name, font] of drawing.used) page.node.setFontDictionary(PDFName.of(name), font.ref);
  for (const { key, image } of drawing.shown) page.node.setXObject(PDFName.of(key), image.ref);
  if (drawing.shown.size > 0) page.node.setExtGState(PDFName.of('Light'), pdf.context.obj({ Type: 'ExtGState', ca: LIGHT }));
  page.node.set(PDFName.of('Contents'), pdf.context.register(pdf.context.flateStream(drawing.out.join('\n'))));
}

/** A matrix that leaves the live area's corner where it is. Its digits keep a page's far edge within 0.001 mm. */
function stretched({ scale, originXMm, originYMm, heightMm }: SheetDocument): string {
  if (!scale) return '';
  const [x, y] = [originXMm / MM_PER_POINT, (heightMm - originYMm) / MM_PER_POINT];
  return `${[scale[0], 0, 0, scale[1], x * (1 - scale[0]), y * (1 - scale[1])].map((value) => value.toFixed(6)).join(' ')} cm`;
}

async function drawItems(drawing: Drawing, items: readonly SheetItem[]): Promise<void> {
  for (const item of items) {
    if (item.kind === 'path') drawPath(drawing, item);
    else if (item.kind === 'hatch') drawHatch(drawing, item);
    else if (item.kind === 'text') await drawText(drawing, item);
    else if (item.kind === 'picture') drawPicture(drawing, item);
    else {
      drawing.out.push('q', outline(drawing, [item.clip], true), 'W* n');
      await drawItems(drawing, item.items);
      drawing.out.push('Q');
    }
  }
}

function drawPath(drawing: Drawing, item: PathItem): void {
  const paint = item.fill ? (item.strokeMm > 0 ? 'B*' : 'f*') : 'S';
  if (!item.fill && item.strokeMm <= 0) return;
  drawing.out.push(
    'q',
    `${number(item.strokeMm / MM_PER_POINT)} w ${gray(item.tone)} G ${item.fill ? `${gray(item.fill)} g` : ''}`,
    dashed(item.dash ?? null),
    outline(drawing, item.rings, item.closed),
    paint,
    'Q',
  );
}

function drawHatch(drawing: Drawing, { region, hatch }: HatchItem): void {
  const rings = region.flatMap(ringsOf);
  if (rings.length === 0) return;
  const marks = hatchMarks(hatch, boxOf(rings));
  drawing.out.push('q', outline(drawing, rings, true), 'W* n', '0.2 G');
  drawing.out.push(`${number(marks.strokeMm / MM_PER_POINT)} w`, dashed(marks.dash), outline(drawing, marks.lines, false), 'S');
  drawing.out.push('Q');
}

function drawPicture({ images, shown, out, at }: Drawing, { picture, corners, full }: PictureItem): void {
  const found = images.get(picture);
  if (!found) return;
  shown.add(found);
  const points = corners.map((corner) => at(corner).split(' ').map(Number) as unknown as Point) as unknown as PictureItem['corners'];
  out.push('q', full ? '' : '/Light gs', `${imageMatrix(found.bytes, points).map(number).join(' ')} cm`, `/${found.key} Do`, 'Q');
}

function outline({ at }: Drawing, rings: readonly Ring[], closed: boolean): string {
  return rings
    .filter((ring) => ring.length > 1)
    .map((ring) => ring.map((point, i) => `${at(point)} ${i === 0 ? 'm' : 'l'}`).join('\n') + (closed ? '\nh' : ''))
    .join('\n');
}

async function drawText(drawing: Drawing, item: TextItem): Promise<void> {
  const { fonts, out, at } = drawing;
  const x = item.align === 'left' ? item.x : item.align === 'right' ? item.x - item.widthMm : item.x - item.widthMm / 2;
  const runs = fonts.runs(item.text, item.face);
  if (item.halo) drawHalo(drawing, item, x, runs);
  out.push(`BT ${gray(item.tone)} g ${at([x, item.y])} Td`);
  for (const run of runs) {
    const { name, font } = await drawing.fontOf(item, run);
    drawing.used.set(name, font);
    // The embedder encodes glyph by glyph in the order of this same layout, four hexadecimal digits each.
    const codes = font.encodeText(run.text).asString();
    const face = fonts.font(item.face, run.script);
    const { glyphs, positions } = fonts.shaped(item.face, run);
    const shown = glyphs.map((glyph, i) => {
      const kern = ((glyph.advanceWidth - positions[i].xAdvance) * 1000) / face.unitsPerEm;
      return `<${codes.slice(4 * i, 4 * i + 4)}>${kern === 0 ? '' : number(kern)}`;
    });
    out.push(`/${name} ${number(item.sizePt)} Tf [${shown.join('').replaceAll('><', '')}] TJ`);
  }
  out.push('ET');
}

/** The halo is drawn as outlines: as text it would be found and copied twice. */
function drawHalo({ fonts, out, at }: Drawing, item: TextItem, left: number, runs: readonly FontRun[]): void {
  out.push('q', `${number(HALO_MM / MM_PER_POINT)} w 1 G`);
  let x = left;
  for (const run of runs) {
    const face = fonts.font(item.face, run.script);
    const mmPerUnit = (item.sizePt * MM_PER_POINT) / face.unitsPerEm;
    const { glyphs, positions } = fonts.shaped(item.face, run);
    glyphs.forEach((glyph, i) => {
      const spot = (u: number, v: number): string => at([x + u * mmPerUnit, item.y - v * mmPerUnit]);
      let px = 0;
      let py = 0;
      for (const { command, args } of glyph.path.commands) {
        if (command === 'moveTo') out.push(`${spot(args[0], args[1])} m`);
        else if (command === 'lineTo') out.push(`${spot(args[0], args[1])} l`);
        else if (command === 'bezierCurveTo') out.push(`${spot(args[0], args[1])} ${spot(args[2], args[3])} ${spot(args[4], args[5])} c`);
        else if (command === 'quadraticCurveTo') {
          // A quadratic curve as a cubic one: its control points lie two thirds of the way to the old one.
          const [cx, cy, ex, ey] = args;
          out.push(`${spot(px + (2 / 3) * (cx - px), py + (2 / 3) * (cy - py))} ${spot(ex + (2 / 3) * (cx - ex), ey + (2 / 3) * (cy - ey))} ${spot(ex, ey)} c`);
        } else out.push('h');
        if (args.length >= 2) [px, py] = [args[args.length - 2], args[args.length - 1]];
      }
      x += positions[i].xAdvance * mmPerUnit;
    });
  }
  out.push('S', 'Q');
}

/** Dashes add up along a line, so their lengths take more decimals than a place on the page. */
const dashed = (dash: readonly [number, number] | null): string => (dash ? `[${dash.map((mm) => (mm / MM_PER_POINT).toFixed(5)).join(' ')}] 0 d` : '');

const gray = (tone: Tone): string => number(GRAY[tone]);

/** Shortest decimal of a number, rounded; PDF knows no exponents. */
function number(value: number): string {
  const text = value.toFixed(DECIMALS).replace(/\.?0+$/, '');
  return text === '-0' || text === '' ? '0' : text;
}
