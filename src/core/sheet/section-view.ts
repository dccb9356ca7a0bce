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

export interface Cut {
  readonly fromMm: number;
  readonly toMm: number;
}

export interface SectionView {
  readonly scale: number;
  /** Thickness of walls and floor on paper. */
  readonly wallMm: number;
  /** Heights shown. */
  readonly fromMm: number;
  readonly toMm: number;
  /** Spans of x (section mm) left out, from left to right: none, one or two. */
  readonly cuts: readonly Cut[];
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
  const cuts = innerMm * scale > widthRoom ? cutsOf(section, innerMm, (gaps) => (widthRoom - gaps * BREAK_GAP_MM) / scale) : [];
  const half = innerMm / 2;
  const innerLeft = room.x + wallMm;
  const pageX = (xMm: number): number => {
    let x = innerLeft + (xMm + half) * scale;
    for (const { fromMm: from, toMm: to } of cuts) if (xMm > from) x += BREAK_GAP_MM - (Math.min(xMm, to) - from) * scale;
    return x;
  };
  const floorShown = fromMm === 0 ? floorMm : 0;
  const bottom = room.y + shownMm * scale + floorShown;
  const view = { scale, wallMm, fromMm, toMm: fromMm + shownMm, cuts, pageX, left: room.x, right: pageX(half) + wallMm, top: room.y, bottom };
  return { ...view, pageY: (zMm) => room.y + (fromMm + shownMm - zMm) * scale, statements: statementsOf(section, view, around?.fromMm ?? section.heightMm) };
}

function windowFrom(heightMm: number, shownMm: number, around: { fromMm: number; toMm: number }): number {
  const middle = (around.fromMm + around.toMm) / 2;
  return Math.min(Math.max(0, middle - shownMm / 2), heightMm - shownMm);
}

/**
 * What to leave out: one span where that hides no figure, else two, so that the middle can be shown between both walls;
 * of all spans the one that hides least, of those the farthest right. `keepMm` says what is left to show with so many gaps.
 */
function cutsOf(section: Section, innerMm: number, keepMm: (gaps: number) => number): Cut[] {
  const half = innerMm / 2;
  const figures = section.shapes.filter(({ kind }) => kind !== 'bed').flatMap(({ outline }) => outline.map(extentOf));
  const hidden = (cuts: readonly Cut[]): number =>
    cuts.reduce((sum, { fromMm, toMm }) => sum + figures.reduce((part, [a, b]) => part + Math.max(0, Math.min(b, toMm) - Math.max(a, fromMm)), 0), 0);
  const one = Math.max(keepMm(1), LEAST_KEPT_MM);
  const single = best((t) => {
    const from = -half + one * WALL_SHARE + (one * (1 - 2 * WALL_SHARE)) * t;
    return [{ fromMm: from, toMm: from + innerMm - one }];
  }, hidden);
  if (hidden(single) === 0) return single;
  const two = Math.max(keepMm(2), LEAST_KEPT_MM);
  const wall = two * WALL_SHARE;
  const window = two - 2 * wall;
  const double = best((t) => {
    const from = -half + wall + (innerMm - 2 * wall - window) * t;
    return [{ fromMm: -half + wall, toMm: from }, { fromMm: from + window, toMm: half - wall }].filter(({ fromMm, toMm }) => toMm - fromMm > 1e-6);
  }, hidden);
  return hidden(double) < hidden(single) ? double : single;
}

/** Of what is shown, the share that stays at each wall. */
const WALL_SHARE = 0.1;
const LEAST_KEPT_MM = 20;

/** Of 61 places from left to right, the one that hides least; the farthest right of those. */
function best(at: (t: number) => Cut[], hidden: (cuts: readonly Cut[]) => number): Cut[] {
  const STEPS = 60;
  let found = at(1);
  for (let i = STEPS - 1; i >= 0; i--) {
    const cuts = at(i / STEPS);
    if (hidden(cuts) < hidden(found)) found = cuts;
  }
  return found;
}

function extentOf(polygon: Polygon): [number, number] {
  const box = boxOf(ringsOf(polygon));
  return [box.x0, box.x1];
}

function statementsOf(section: Section, { scale, cuts, fromMm, toMm }: Pick<SectionView, 'scale' | 'cuts' | 'fromMm' | 'toMm'>, paintedToMm: number): string[] {
  const said = [scale === 1 ? 'Printed 1:1: hold the page against the mold.' : `Drawn 1:${plain(1 / scale)}.`];
  if (cuts.length > 0) {
    const isLost = ([a, b]: readonly [number, number]): boolean => cuts.some((cut) => b > cut.fromMm && a < cut.toMm);
    const lost = section.shapes.filter(({ kind, outline }) => kind !== 'bed' && outline.map(extentOf).some(isLost)).map(({ name }) => name);
    const outMm = cuts.reduce((sum, cut) => sum + cut.toMm - cut.fromMm, 0);
    const names = lost.length > 3 ? `${lost.length} figures` : listed(lost);
    said.push(`Cut short at the wavy lines by ${plain(outMm)}\u00a0mm${lost.length > 0 ? `, with all or part of ${names}` : ''}.`);
  }
  const creatures = section.shapes.filter(({ kind, baseMm }) => kind === 'creature' && baseMm < paintedToMm).map(({ name }) => name);
  if (creatures.length > 0) said.push(`Dashed: ${listed(creatures)}, painted on planes.`);
  if (toMm - fromMm < section.heightMm) said.push(`Cut above or below: shows it from ${plain(fromMm)} to ${plain(toMm)}\u00a0mm up.`);
  return said;
}
