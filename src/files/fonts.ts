/**
 * The sheet's typefaces: Alegreya and Alegreya Sans (SIL Open Font License), as the font package carries them:
 * one WOFF file per script. A PDF needs the font inside (sfnt), so the WOFF is unpacked here (W3C WOFF 1.0, §5).
 * A letter that none of the files has is drawn as a replacement mark, and the sheet says so.
 */
import type * as fontkit from 'fontkit';
import { unzlibSync } from 'fflate';
import type { Face, Measure } from '../core/sheet/document.ts';
import { MM_PER_POINT } from '../core/sheet/document.ts';

/** Figures as high as capitals and all of one width, so that columns of digits line up. */
export const FONT_FEATURES = { lnum: true, tnum: true };

/** Stands in print for a letter that the typefaces don't have. */
const REPLACEMENT = '[?]';

const SCRIPTS = ['latin', 'latin-ext', 'cyrillic', 'cyrillic-ext', 'greek', 'greek-ext', 'vietnamese'] as const;
export type Script = (typeof SCRIPTS)[number];

const FAMILIES: Readonly<Record<Face, { readonly package: string; readonly style: string }>> = {
  sans: { package: 'alegreya-sans', style: '400-normal' },
  bold: { package: 'alegreya-sans', style: '700-normal' },
  italic: { package: 'alegreya', style: '500-italic' },
};

/** `alegreya-sans/files/alegreya-sans-latin-400-normal.woff`, under the font packages' common folder `@fontsource`. */
export const fontFile = (face: Face, script: Script): string =>
  `${FAMILIES[face].package}/files/${FAMILIES[face].package}-${script}-${FAMILIES[face].style}.woff`;

export const FACES: readonly Face[] = ['sans', 'bold', 'italic'];

/** Reads one of `fontFile`'s files: from disk, or from where the page was served. */
export type FontReader = (file: string) => Promise<Uint8Array>;

/** A text cut where the file that has its letters changes. */
export interface FontRun {
  readonly script: Script;
  readonly text: string;
}

export interface SheetFonts {
  readonly measure: Measure;
  /** The same text with every letter that can't be printed replaced by the mark. */
  printable(text: string): string;
  runs(text: string, face: Face): readonly FontRun[];
  /** Glyphs of a run and how far each advances; kept, as most texts are measured and then drawn. */
  shaped(face: Face, run: FontRun): fontkit.GlyphRun;
  /** The unpacked font file. */
  sfnt(face: Face, script: Script): Uint8Array;
  font(face: Face, script: Script): fontkit.Font;
}

/**
 * Reads the Latin files, and of the other scripts those that `letters` (all names and texts to be printed) needs.
 * Throws what `read` throws, and an Error that names the file where it is not a WOFF font.
 */
export async function loadSheetFonts(read: FontReader, letters: string): Promise<SheetFonts> {
  const scripts = SCRIPTS.filter((script) => script === 'latin' || NEEDED[script].test(letters));
  // Fetched only now: who merely measures paper in points needs none of it.
  const { create } = await import('fontkit');
  const loaded = new Map<string, { bytes: Uint8Array; font: fontkit.Font }>();
  for (const face of FACES) {
    for (const script of scripts) {
      const file = fontFile(face, script);
      const bytes = unpackWoff(await read(file), file);
      loaded.set(`${face} ${script}`, { bytes, font: create(bytes) });
    }
  }
  const entry = (face: Face, script: Script) => loaded.get(`${face} ${script}`)!;
  const scriptOf = (codePoint: number): Script | undefined => scripts.find((script) => entry('sans', script).font.hasGlyphForCodePoint(codePoint) && entry('italic', script).font.hasGlyphForCodePoint(codePoint));
  const known = new Map<string, Script | undefined>();
  const scriptOfLetter = (letter: string): Script | undefined => {
    if (!known.has(letter)) known.set(letter, scriptOf(letter.codePointAt(0)!));
    return known.get(letter);
  };
  const printable = (text: string): string => {
    let out = '';
    for (const letter of text.normalize('NFC')) out += scriptOfLetter(letter) ? letter : /\s|\p{C}/u.test(letter) ? ' ' : REPLACEMENT;
    return out;
  };
  const runs = (text: string): FontRun[] => {
    const list: { script: Script; text: string }[] = [];
    for (const letter of printable(text)) {
      const script = scriptOfLetter(letter)!;
      const last = list.at(-1);
      if (last && (last.script === script || (/\s/.test(letter) && entry('sans', last.script).font.hasGlyphForCodePoint(letter.codePointAt(0)!)))) last.text += letter;
      else list.push({ script, text: letter });
    }
    return list;
  };
  const shapes = new Map<string, fontkit.GlyphRun>();
  const shaped = (face: Face, { script, text }: FontRun): fontkit.GlyphRun => {
    const key = `${face} ${script} ${text}`;
    const known = shapes.get(key);
    if (known) return known;
    const made = entry(face, script).font.layout(text, FONT_FEATURES);
    shapes.set(key, made);
    return made;
  };
  const widths = new Map<string, number>();
  const measure: Measure = (text, face, sizePt) => {
    const key = `${face} ${text}`;
    let em = widths.get(key);
    if (em === undefined) {
      em = 0;
      for (const run of runs(text)) em += widthEm(shaped(face, run), entry(face, run.script).font);
      widths.set(key, em);
    }
    return em * sizePt * MM_PER_POINT;
  };
  return { measure, printable, runs, shaped, sfnt: (face, script) => entry(face, script).bytes, font: (face, script) => entry(face, script).font };
}

function widthEm({ positions }: fontkit.GlyphRun, { unitsPerEm }: fontkit.Font): number {
  return positions.reduce((sum, { xAdvance }) => sum + xAdvance, 0) / unitsPerEm;
}

/** Letters that call for a script's file: the ranges in which the package's files differ (Unicode blocks). */
const NEEDED: Readonly<Record<Script, RegExp>> = {
  latin: /./,
  'latin-ext': /[\u0100-\u02af\u1d00-\u1dbf\u1e00-\u1eff\u20a0-\u20c0\u2c60-\u2c7f\ua720-\ua7ff]/,
  cyrillic: /[\u0301\u0400-\u045f\u0490\u0491\u04b0\u04b1\u2116]/,
  'cyrillic-ext': /[\u0460-\u052f\u1c80-\u1c88\u2de0-\u2dff\ua640-\ua69f]/,
  greek: /[\u0370-\u03ff]/,
  'greek-ext': /[\u1f00-\u1fff]/,
  vietnamese: /[\u0102\u0103\u0110\u0111\u0128\u0129\u0168\u0169\u01a0\u01a1\u01af\u01b0\u0300\u0301\u0303\u0309\u0323\u1ea0-\u1ef9\u20ab]/,
};

/** 'wOFF', W3C WOFF File Format 1.0 §4. */
const WOFF_SIGNATURE = 0x774f4646;
/** Bytes; the largest of the package's files unpacks to 0.2 MB. */
const MOST_FONT_BYTES = 8_000_000;

/** The sfnt that a WOFF 1.0 file packs: header, table directory, tables padded to four bytes. */
export function unpackWoff(woff: Uint8Array, file: string): Uint8Array {
  const view = new DataView(woff.buffer, woff.byteOffset, woff.byteLength);
  if (woff.length < 44 || view.getUint32(0) !== WOFF_SIGNATURE) throw new Error(`${file} is not a WOFF font file. Reinstall the project's packages.`);
  const count = view.getUint16(12);
  const tables = Array.from({ length: count }, (_, i) => {
    const at = 44 + 20 * i;
    return { tag: view.getUint32(at), offset: view.getUint32(at + 4), packed: view.getUint32(at + 8), length: view.getUint32(at + 12), checksum: view.getUint32(at + 16) };
  });
  const total = tables.reduce((sum, { length }) => sum + pad4(length), 12 + 16 * count);
  if (total > MOST_FONT_BYTES) throw new Error(`${file} would unpack to ${total} bytes; a font of ours has at most ${MOST_FONT_BYTES}. Reinstall the project's packages.`);
  const out = new Uint8Array(total);
  const sfnt = new DataView(out.buffer);
  const log2 = Math.floor(Math.log2(count));
  sfnt.setUint32(0, view.getUint32(4));
  sfnt.setUint16(4, count);
  sfnt.setUint16(6, 16 * 2 ** log2);
  sfnt.setUint16(8, log2);
  sfnt.setUint16(10, 16 * (count - 2 ** log2));
  let offset = 12 + 16 * count;
  tables.forEach((table, i) => {
    const bytes = woff.subarray(table.offset, table.offset + table.packed);
    out.set(table.packed < table.length ? unzlibSync(bytes, { out: new Uint8Array(table.length) }) : bytes, offset);
    const at = 12 + 16 * i;
    sfnt.setUint32(at, table.tag);
    sfnt.setUint32(at + 4, table.checksum);
    sfnt.setUint32(at + 8, offset);
    sfnt.setUint32(at + 12, table.length);
    offset += pad4(table.length);
  });
  return out;
}

const pad4 = (length: number): number => (length + 3) & ~3;
