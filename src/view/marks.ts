/** What is written and drawn over the picture: pour numbers up the corner, names of sheets, the three handles. CSS px. */

import { mm } from '../core/units/format.ts';
import { mmPerPx, seenAt, type Eye, type Frame } from './eye.ts';
import { innerAt, outerAt, type Outline } from './outline.ts';
import type { Place, ViewPour } from './props.ts';

export type Point = readonly [x: number, y: number];

export interface PourNumber {
  readonly text: string;
  readonly at: Point;
  /** Where the pour itself is, when the number had to move away from it. */
  readonly from?: Point;
  readonly kind: 'poured' | 'now' | 'planned' | 'halted';
}

export interface SheetName {
  readonly text: string;
  readonly at: Point;
}

export interface HandleMarks {
  readonly float?: { readonly foot: Point; readonly at: Point; readonly words: string; readonly wordsLeft: boolean; readonly surface?: readonly Point[] };
  readonly ring?: { readonly line: readonly Point[]; readonly ticks: readonly (readonly [Point, Point])[]; readonly bead: Point; readonly words: string; readonly wordsAt: Point };
  readonly footprint: readonly Point[];
}

/** The thing that carries the handles. */
export interface Handled {
  readonly place: Place;
  readonly heightMm: number;
  readonly reachMm: number;
  readonly turns: boolean;
  /** x and y in turn. */
  readonly footprint: readonly number[];
}

/** Numbers nearer than this would touch. */
const NUMBER_STEP = 16;
/** Less of the corner than this for each number (px), and they would stand far from their pours: the gauge has them. */
const LEAST_SHARE = 9;
/** The float stands this far above its thing. */
const FLOAT_LIFT = 52;
/** Room for a float's words. */
const WORDS_PX = 140;
const RING_AWAY = 12;
const SMALLEST_RING = 40;
const RING_PIECES = 72;
/** Over this slope (cosine of the elevation) heights can still be told apart. */
const FLOAT_COSINE = 0.22;

/** Pour numbers beside the cut edge farthest to the right; none where no wall is cut or the corner is seen too short. */
export function pourNumbers(input: { outline: Outline; kept: readonly boolean[]; pours: readonly ViewPour[]; poured?: number; eye: Eye; frame: Frame }): PourNumber[] {
  const { outline, kept, pours, poured, eye, frame } = input;
  const ends = kept.flatMap((_, i) => (kept[i] !== kept[(i + kept.length - 1) % kept.length] ? [outline.stretches[i].at] : []));
  if (ends.length === 0 || pours.length === 0) return [];
  const seen = (node: number, z: number): Point => {
    const { x, y } = seenAt(eye, outerAt(outline, node, z), frame);
    return [x, y];
  };
  const node = ends.reduce((best, end) => (seen(end, 0)[0] > seen(best, 0)[0] ? end : best));
  const span = seen(node, pours[0].fromMm)[1] - seen(node, pours[pours.length - 1].toMm)[1];
  if (span < LEAST_SHARE * pours.length) return [];
  const wanted = pours.map((pour) => seen(node, (pour.fromMm + pour.toMm) / 2));
  const ys = spread(wanted.map(([, y]) => -y), NUMBER_STEP).map((y) => -y);
  const crowded = ys.some((y, i) => Math.abs(y - wanted[i][1]) > 4);
  return pours.map((pour, i): PourNumber => {
    const moved = Math.abs(ys[i] - wanted[i][1]) > 4;
    const kind = pour.halted ? 'halted' : poured === undefined || pour.index < poured ? 'poured' : pour.index === poured ? 'now' : 'planned';
    return { text: String(pour.index), at: [wanted[i][0] + (crowded ? 20 : 12), ys[i]], from: moved ? [wanted[i][0] + 3, wanted[i][1]] : undefined, kind };
  });
}

/** Names of sheets that have no picture yet, at the left end of the sheet. */
export function sheetNames(input: { outline: Outline; sheets: readonly { readonly name: string; readonly atMm: number }[]; eye: Eye; frame: Frame }): SheetName[] {
  const { outline, sheets, eye, frame } = input;
  const wanted = sheets.map(({ name, atMm }) => {
    const points = outline.nodes.map((_, i) => seenAt(eye, innerAt(outline, i, atMm), frame));
    const left = points.reduce((best, point) => (point.x < best.x ? point : best));
    return { text: name, x: left.x + 14, y: left.y - 7 };
  });
  const order = wanted.map((_, i) => i).sort((a, b) => wanted[a].y - wanted[b].y);
  const ys = spread(order.map((i) => wanted[i].y), 18);
  return order.map((i, k) => ({ text: wanted[i].text, at: [wanted[i].x, ys[k]] }));
}

export function handleMarks(thing: Handled, around: { fillMm: number; levelMm: number; faceDown: boolean; largestRingMm: number; eye: Eye; frame: Frame; heightWords?: typeof heightWords }): HandleMarks {
  const { place, heightMm, footprint } = thing;
  const { eye, frame, levelMm } = around;
  const px = mmPerPx(eye, frame);
  const seen = (x: number, y: number, z: number): Point => {
    const point = seenAt(eye, [x, y, z], frame);
    return [point.x, point.y];
  };
  const at = (z: number): Point => seen(place.xMm, place.yMm, z);
  const top = place.baseMm + heightMm;
  const floatMm = top + (FLOAT_LIFT * px) / Math.max(0.5, Math.cos(eye.elevation));
  const circle = (radius: number, z: number): Point[] => Array.from({ length: RING_PIECES + 1 }, (_, i) => aroundPlace(place, radius, (2 * Math.PI * i) / RING_PIECES, z, seen));
  const float = Math.cos(eye.elevation) < FLOAT_COSINE ? undefined : {
    foot: at(place.baseMm + heightMm / 2), at: at(floatMm), words: (around.heightWords ?? heightWords)(place.baseMm, around.faceDown ? place.baseMm : around.fillMm - place.baseMm),
    wordsLeft: at(floatMm)[0] > frame.width - WORDS_PX,
    surface: levelMm > top && levelMm < floatMm ? circle(8 * px, levelMm) : undefined,
  };
  return { float, ring: thing.turns ? ringMarks(thing, around, px, { circle, seen }) : undefined, footprint: pairs(footprint, place.baseMm, seen) };
}

/** `20 mm up, 35 mm deep`, as short as beside a float. */
export function heightWords(upMm: number, deepMm: number): string {
  return `${mm(upMm)} up, ${mm(deepMm)} deep`.replaceAll('\u00a0mm', '');
}

function ringMarks(thing: Handled, around: { largestRingMm: number; frame: Frame }, px: number, draw: { circle: (r: number, z: number) => Point[]; seen: (x: number, y: number, z: number) => Point }): HandleMarks['ring'] {
  const { place, reachMm } = thing;
  const radius = Math.max(SMALLEST_RING * px, Math.min(around.largestRingMm, reachMm + RING_AWAY * px));
  const angle = (place.turnZDeg * Math.PI) / 180;
  const on = (turn: number, r: number): Point => aroundPlace(place, r, turn, place.baseMm, draw.seen);
  const ticks = Array.from({ length: 24 }, (_, i): readonly [Point, Point] => {
    const turn = (Math.PI / 12) * i;
    return [on(turn, radius), on(turn, radius + (i % 6 === 0 ? 8 : 5) * px)];
  });
  const bead = on(angle, radius);
  return { line: draw.circle(radius, place.baseMm), ticks, bead, words: `${Math.round(place.turnZDeg)}°`.replace('-', '−'), wordsAt: bead[0] > around.frame.width - 0.45 * WORDS_PX ? [bead[0] - 44, bead[1] - 12] : [bead[0] + 15, bead[1] - 10] };
}

function aroundPlace(place: Place, radius: number, angle: number, z: number, seen: (x: number, y: number, z: number) => Point): Point {
  return seen(place.xMm + radius * Math.cos(angle), place.yMm + radius * Math.sin(angle), z);
}

function pairs(outline: readonly number[], z: number, seen: (x: number, y: number, z: number) => Point): Point[] {
  const points: Point[] = [];
  for (let i = 0; i + 1 < outline.length; i += 2) points.push(seen(outline[i], outline[i + 1], z));
  return points;
}

/** Rising values at least `step` apart, moved as little as their neighbors allow: clusters share the shift. */
export function spread(values: readonly number[], step: number): number[] {
  const groups: { sum: number; count: number; first: number }[] = [];
  values.forEach((value, i) => {
    groups.push({ sum: value, count: 1, first: i });
    for (;;) {
      const [a, b] = groups.slice(-2);
      if (!b || startOf(b) - startOf(a) >= a.count * step) break;
      groups.splice(-2, 2, { sum: a.sum + b.sum, count: a.count + b.count, first: a.first });
    }
  });
  return groups.flatMap((group) => Array.from({ length: group.count }, (_, k) => startOf(group) + k * step));

  function startOf({ sum, count }: { sum: number; count: number }): number {
    return sum / count - (step * (count - 1)) / 2;
  }
}

