/**
 * Where a section falls on the page: its scale, what is cut out of it and which heights it shows.
 * 1:1 where it fits; too long is cut short at a long-break line; too tall is drawn smaller, or, for one pour, cut above and below.
 */
import { listed, plain } from '../units/format.ts';
import type { Polygon } from './polygon.ts';
import { boxOf, ringsOf } from './polygon.ts';
import type { Section } from './section.ts';

/** mm on paper. Walls are drawn no thicker: what matters is inside. */
const MOST_WALL_MM = 6;
const LEAST_WALL_MM = 2.5;
/** mm on paper between the two wavy lines where water is left out. */
export const BREAK_GAP_MM = 3;
/** mm of the section shown under and over a pour that is cut above and below. */
const AROUND_POUR_MM = 12;

const SCALES = [1, 1 / 2, 1 / 3, 1 / 4, 1 / 5, 1 / 8, 1 / 10, 1 / 20, 1 / 50, 1 / 100, 1 / 200, 1 / 500, 1 / 1000];

export interface SectionRoom {
  readonly x: number;
  readonly y: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

export interface SectionView {
  readonly scale: number;
  /** Thickness of walls and floor on paper. */
  readonly wallMm: number;
  /** Heights shown. */
  readonly fromMm: number;
  readonly toMm: number;
  /** Span of x (section mm) left out, or null. */
  readonly cut: { readonly fromMm: number; readonly toMm: number } | null;
  /** Page x of a section x; what lies in the cut falls on its edge. */
  readonly pageX: (xMm: number) => number;
  readonly pageY: (zMm: number) => number;
  /** Page x of the outer faces of the walls, page y of the lowest line. */
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** `Printed 1:1…`, `Cut short…`: what the drawing has to say about itself. */
  readonly statements: readonly string[];
}

/** `around`: show these heights where not all fit (one pour's); without it all are shown, smaller if need be. */
export function viewOf(section: Section, room: SectionRoom, around?: { readonly fromMm: number; readonly toMm: number }): SectionView {
  const innerMm = 2 * Math.max(section.halfRimMm, section.halfFloorMm);
  const floorMm = Math.min(Math.max(section.wallMm, LEAST_WALL_MM), MOST_WALL_MM);
  const heightRoom = room.heightMm - floorMm;
  const wanted = around ? Math.min(section.heightMm, around.toMm - around.fromMm + AROUND_POUR_MM) : section.heightMm;
  const scale = SCALES.find((s) => wanted * s <= heightRoom) ?? heightRoom / wanted;
  const shownMm = Math.min(section.heightMm, heightRoom / scale);
  const fromMm = around && shownMm < section.heightMm ? windowFrom(section.heightMm, shownMm, around) : 0;
  const wallMm = Math.min(floorMm, Math.max(LEAST_WALL_MM, (room.widthMm - innerMm * scale) / 2));
  const widthRoom = room.widthMm - 2 * wallMm;
  const cut = innerMm * scale > widthRoom ? cutOf(section, innerMm, (widthRoom - BREAK_GAP_MM) / scale) : null;
  const half = innerMm / 2;
  const innerLeft = room.x + wallMm;
  const pageX = (xMm: number): number => {
    if (!cut || xMm <= cut.fromMm) return innerLeft + (xMm + half) * scale;
    return innerLeft + (Math.max(xMm, cut.toMm) - cut.toMm + cut.fromMm + half) * scale + BREAK_GAP_MM;
  };
  const floorShown = fromMm === 0 ? floorMm : 0;
  const bottom = room.y + shownMm * scale + floorShown;
  const view = { scale, wallMm, fromMm, toMm: fromMm + shownMm, cut, pageX, left: room.x, right: pageX(half) + wallMm, top: room.y, bottom };
  return { ...view, pageY: (zMm) => room.y + (fromMm + shownMm - zMm) * scale, statements: statementsOf(section, view) };
}

function windowFrom(heightMm: number, shownMm: number, around: { fromMm: number; toMm: number }): number {
  const middle = (around.fromMm + around.toMm) / 2;
  return Math.min(Math.max(0, middle - shownMm / 2), heightMm - shownMm);
}

/** The span to leave out: where it hides least of the figures, of those the one farthest right. */
function cutOf(section: Section, innerMm: number, keepMm: number): { fromMm: number; toMm: number } {
  const half = innerMm / 2;
  const kept = Math.max(keepMm, 20);
  const lost = innerMm - kept;
  const figures = section.shapes.filter(({ kind }) => kind === 'figure').flatMap(({ outline }) => outline.map(extentOf));
  const hidden = (from: number): number => figures.reduce((sum, [a, b]) => sum + Math.max(0, Math.min(b, from + lost) - Math.max(a, from)), 0);
  // Either end keeps a tenth of what is shown, so that both walls are seen standing in water.
  const first = -half + kept * 0.1;
  const last = half - lost - kept * 0.1;
  const STEPS = 60;
  let best = last;
  for (let i = STEPS; i >= 0; i--) {
    const from = first + ((last - first) * i) / STEPS;
    if (hidden(from) < hidden(best)) best = from;
  }
  return { fromMm: best, toMm: best + lost };
}

function extentOf(polygon: Polygon): [number, number] {
  const box = boxOf(ringsOf(polygon));
  return [box.x0, box.x1];
}

function statementsOf(section: Section, { scale, cut, fromMm, toMm }: Pick<SectionView, 'scale' | 'cut' | 'fromMm' | 'toMm'>): string[] {
  const said = [scale === 1 ? 'Printed 1:1: hold the page against the mold.' : `Drawn 1:${plain(1 / scale)}.`];
  if (cut) {
    const lost = section.shapes.filter(({ kind, outline }) => kind === 'figure' && outline.map(extentOf).some(([a, b]) => b > cut.fromMm && a < cut.toMm)).map(({ name }) => name);
    const names = lost.length > 3 ? `${lost.length} figures` : listed(lost);
    said.push(`Cut short at the wavy lines: ${plain(cut.toMm - cut.fromMm)}\u00a0mm left out${lost.length > 0 ? `, with all or part of ${names}` : ''}.`);
  }
  if (toMm - fromMm < section.heightMm) said.push(`Cut above or below: shows ${plain(fromMm)} to ${plain(toMm)}\u00a0mm up.`);
  return said;
}
