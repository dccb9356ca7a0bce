/** Words in a section, each in the first place free of other words and of figures. */
import { ASCENT_EM, DESCENT_EM, MM_PER_POINT } from './document.ts';
import type { LabelSpots } from './labels.ts';
import { labelSpots } from './labels.ts';
import type { Pen, TextStyle } from './pen.ts';
import { BODY_PT, fit } from './pen.ts';
import type { Box, Ring } from './polygon.ts';
import { boxOf } from './polygon.ts';
import type { SectionLook } from './section-look.ts';
import { placed } from './section-look.ts';
import { BREAK_GAP_MM } from './section-view.ts';

/** `belowMm`: only figures that start under it are drawn. */
export function spotsIn(look: SectionLook, taken: readonly Box[], belowMm: number): LabelSpots {
  const { section, view } = look;
  const half = Math.min(section.halfFloorMm, section.halfRimMm);
  const inside: Box = { x0: view.pageX(-half) + 1, x1: view.pageX(half) - 1, y0: view.top, y1: view.pageY(view.fromMm) };
  const figures = section.shapes.filter(({ kind, baseMm }) => kind === 'figure' && baseMm < belowMm - 0.05).flatMap((shape) => placed(look, shape).flatMap(({ outer }) => slices(outer)));
  const gaps = view.cuts.map((cut): Box => ({ x0: view.pageX(cut.fromMm) - 1, x1: view.pageX(cut.fromMm) + BREAK_GAP_MM + 1, y0: view.top, y1: view.bottom }));
  return labelSpots(inside, [...taken, ...gaps], figures);
}

/** Places along a baseline, from one side to the other. */
export function alongBaseline({ section, view }: SectionLook, baseline: number, side: 'left' | 'right', inset: number): { x: number; y: number; align: 'left' | 'right' }[] {
  const half = Math.min(section.halfFloorMm, section.halfRimMm);
  const [x0, x1] = [view.pageX(-half) + inset, view.pageX(half) - inset];
  const COUNT = 16;
  return Array.from({ length: COUNT }, (_, i) => {
    const t = i / (COUNT - 1);
    return side === 'left' ? { x: x0 + (x1 - x0) * t, y: baseline, align: 'left' as const } : { x: x1 - (x1 - x0) * t, y: baseline, align: 'right' as const };
  });
}

export function arrowSpots(arrow: Box): { x: number; y: number; align: 'right' }[] {
  const list: { x: number; y: number; align: 'right' }[] = [];
  const middle = (arrow.y0 + arrow.y1) / 2 + 1.4;
  for (let off = 0; off <= 14; off++) for (const way of [1, -1]) list.push({ x: arrow.x0 - 0.8, y: middle + way * off, align: 'right' });
  for (let off = 0; off < 8; off++) list.push({ x: arrow.x0 - 5 - off * 12, y: middle, align: 'right' });
  return list;
}

/** Writes a text in the first free place; where only a figure is in the way, shortened before it is written over the figure. */
export function writeFree(pen: Pen, look: SectionLook, spots: LabelSpots, text: string, style: TextStyle, places: readonly { x: number; y: number; align: 'left' | 'right' }[]): void {
  const { face = 'sans', pt = BODY_PT } = style;
  const { view, lettering } = look;
  const em = pt * MM_PER_POINT;
  for (const [share, clear] of [[0.6, true], [0.35, true], [0.2, true], [0.35, false]] as const) {
    const short = fit(text, face, pt, Math.max(20, (view.right - view.left) * share), lettering);
    const width = lettering.measure(short, face, pt);
    const at = spots.take(places.map(({ x, y, align }) => ({
      x0: align === 'left' ? x : x - width, x1: align === 'left' ? x + width : x, y0: y - ASCENT_EM * em, y1: y + DESCENT_EM * em,
    })), clear);
    if (at < 0) continue;
    pen.text(places[at].x, places[at].y, short, { ...style, align: places[at].align, halo: true });
    return;
  }
}

/** A plane's name under its line; above it where there is no room below. */
export function nameLine(pen: Pen, look: SectionLook, spots: LabelSpots, atMm: number, name: string): void {
  const { view } = look;
  if (atMm < view.fromMm || atMm > view.toMm) return;
  const y = view.pageY(atMm);
  writeFree(pen, look, spots, name, { face: 'italic' }, [...alongBaseline(look, y + 4, 'right', 6), ...alongBaseline(look, y - 1.5, 'right', 6)]);
}

export function nameBeds(pen: Pen, look: SectionLook, spots: LabelSpots): void {
  for (const shape of look.section.shapes.filter(({ kind }) => kind === 'bed')) {
    const boxes = placed(look, shape).map(({ outer }) => boxOf([outer]));
    if (boxes.length === 0) continue;
    const [box] = boxes;
    const y = Math.min(look.view.pageY(look.view.fromMm), box.y1) - 1.6;
    writeFree(pen, look, spots, shape.name, { face: 'italic' }, [
      ...[0.97, 0.9, 0.8, 0.7, 0.6, 0.5].map((t) => ({ x: box.x0 + (box.x1 - box.x0) * t - 2, y, align: 'right' as const })),
      ...[3, 6, 9].map((up) => ({ x: box.x1 - 3, y: y - up, align: 'right' as const })),
    ]);
  }
}

/** Boxes that cover a ring in upright slices: what a label should keep clear of, without the empty corners of one big box. */
function slices(ring: Ring): Box[] {
  const SLICE_MM = 4;
  const whole = boxOf([ring]);
  const count = Math.max(1, Math.ceil((whole.x1 - whole.x0) / SLICE_MM));
  const width = (whole.x1 - whole.x0) / count;
  const list = Array.from({ length: count }, (_, i) => ({ x0: whole.x0 + i * width, x1: whole.x0 + (i + 1) * width, y0: Infinity, y1: -Infinity }));
  ring.forEach(([ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length];
    const first = Math.max(0, Math.floor((Math.min(ax, bx) - whole.x0) / width));
    const last = Math.min(count - 1, Math.floor((Math.max(ax, bx) - whole.x0) / width));
    for (let k = first; k <= last; k++) {
      list[k].y0 = Math.min(list[k].y0, ay, by);
      list[k].y1 = Math.max(list[k].y1, ay, by);
    }
  });
  return list;
}
