/**
 * The laid-out build sheet: pages of drawing primitives in mm, drawn as vector PDF (files/pdf) and as SVG (screens/sheet).
 * Coordinates run right and down from the top left of the live area, which is the same on both papers.
 */
import type { Box, Point, Polygon, Ring } from './polygon.ts';

export type Paper = 'a4' | 'letter';

/** mm. Landscape. ISO 216 A4; US Letter 11 × 8½ in. */
export const PAPER_MM: Readonly<Record<Paper, readonly [number, number]>> = { a4: [297, 210], letter: [279.4, 215.9] };

/** mm. Fits both papers at 1:1 with at least 10 mm round it. */
export const LIVE_WIDTH_MM = 259;
export const LIVE_HEIGHT_MM = 185;

export const MM_PER_POINT = 25.4 / 72;

/** `sans` and `bold` are Alegreya Sans, `italic` is Alegreya Medium Italic; figures are lining and tabular in all. */
export type Face = 'sans' | 'bold' | 'italic';

/** Width of a text in mm as it will be drawn. */
export type Measure = (text: string, face: Face, sizePt: number) => number;

/** Pour hatches 1 … 8, the mold's wall, a bed. */
export type HatchName = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 'wall' | 'bed';

export type Tone = 'ink' | 'soft' | 'paper';

export interface TextItem {
  readonly kind: 'text';
  readonly text: string;
  /** Where the baseline starts, is centered or ends, by `align`. */
  readonly x: number;
  readonly y: number;
  readonly face: Face;
  readonly sizePt: number;
  readonly align: 'left' | 'center' | 'right';
  readonly tone: Tone;
  /** A paper-colored rim, so that it reads on a hatch. */
  readonly halo: boolean;
  /** As measured when it was laid out, mm. */
  readonly widthMm: number;
}

export interface PathItem {
  readonly kind: 'path';
  readonly rings: readonly Ring[];
  /** Rings join their last point to their first. */
  readonly closed: boolean;
  /** mm; 0 draws no line. */
  readonly strokeMm: number;
  readonly fill: Tone | null;
  readonly tone: Tone;
  /** Dash and gap, mm. */
  readonly dash?: readonly [number, number];
}

export interface HatchItem {
  readonly kind: 'hatch';
  readonly region: readonly Polygon[];
  readonly hatch: HatchName;
}

export interface GroupItem {
  readonly kind: 'group';
  readonly clip: Ring;
  readonly items: readonly SheetItem[];
}

/** A picture made of pixels. Its bytes travel beside the document. */
export interface PictureItem {
  readonly kind: 'picture';
  readonly picture: string;
  /** In its own colors; else printed lightly, to be traced. */
  readonly full?: boolean;
  /** Where its top left, top right and bottom left lie as it is looked at. */
  readonly corners: readonly [Point, Point, Point];
}

export type SheetItem = TextItem | PathItem | HatchItem | GroupItem | PictureItem;

export type PageKind = 'cover' | 'section' | 'prepare' | 'pour' | 'figures' | 'shopping' | 'calendar' | 'strip' | 'finish' | 'template' | 'stencil';

export interface SheetPage {
  readonly kind: PageKind;
  /** For people and for screen readers: `Pour 2, locks the newt`. */
  readonly title: string;
  /** The pour a pour page is about. */
  readonly pour?: number;
  /** A part of a drawing larger than a page: which, counted from 1 from the top left, and its window in the drawing's own mm. */
  readonly part?: { readonly row: number; readonly column: number; readonly window: Box; readonly atMm: Point };
  /** The page says DO NOT POUR. */
  readonly halted: boolean;
  readonly items: readonly SheetItem[];
}

export interface SheetDocument {
  readonly title: string;
  readonly paper: Paper;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Where the live area's top left lies on the paper. */
  readonly originXMm: number;
  readonly originYMm: number;
  /** By how much everything is drawn larger across and down, so that it is true on a printer that draws it smaller; 1 where left out. */
  readonly scale?: readonly [number, number];
  /** `YYYY-MM-DDTHH:MM` of the plan's first step; the sheet carries no other time. */
  readonly created: string | null;
  readonly pages: readonly SheetPage[];
}

/** Share of the em that stands above and below the baseline in the boxes that keep texts apart. */
export const ASCENT_EM = 0.72;
export const DESCENT_EM = 0.22;

/** The box a text takes up, mm. */
export function textBox(item: TextItem): { x0: number; y0: number; x1: number; y1: number } {
  const em = item.sizePt * MM_PER_POINT;
  const x0 = item.align === 'left' ? item.x : item.align === 'right' ? item.x - item.widthMm : item.x - item.widthMm / 2;
  return { x0, y0: item.y - ASCENT_EM * em, x1: x0 + item.widthMm, y1: item.y + DESCENT_EM * em };
}

/** Every item of a page with those inside its groups, in drawing order. */
export function flatItems(items: readonly SheetItem[]): SheetItem[] {
  return items.flatMap((item) => (item.kind === 'group' ? flatItems(item.items) : [item]));
}
