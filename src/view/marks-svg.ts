/** Puts the marks into an SVG over the picture. Rebuilt with each drawn frame: some fifty elements. */

import type { GripMark } from './mold-grips.ts';
import type { HandleMarks, Point, PourNumber, SheetName } from './marks.ts';
import type { MoldSize, ViewColors } from './props.ts';

export interface Marks {
  readonly numbers: readonly PourNumber[];
  readonly names: readonly SheetName[];
  readonly handles: HandleMarks | null;
  /** The handle in hand. */
  readonly held: 'float' | 'bead' | 'body' | MoldSize | null;
  readonly grips: readonly GripMark[];
  /** Size of the handles: smaller in a small picture. */
  readonly size: number;
}

const SVG = 'http://www.w3.org/2000/svg';
/** Halo of a word over the picture. */
const HALO = 5;

export function showMarks(svg: SVGSVGElement, marks: Marks, colors: ViewColors): void {
  const all = document.createDocumentFragment();
  for (const { text, at } of marks.names) all.append(words(text, at, { fill: colors.ink2, halo: colors.ground, italic: true }));
  for (const number of marks.numbers) {
    const fill = number.kind === 'halted' ? colors.brick : number.kind === 'now' ? colors.teal : number.kind === 'planned' ? colors.ink2 : colors.ink;
    if (number.from) all.append(path(open([number.from, [number.at[0] - 4, number.at[1]]]), { stroke: colors.ink2, width: 0.8 }));
    all.append(words(number.text, [number.at[0], number.at[1] + 5], { fill, halo: colors.ground, bold: true, className: 'pour-number' }));
  }
  if (marks.handles) all.append(handles(marks.handles, marks, colors));
  for (const grip of marks.grips) all.append(gripShape(grip, marks, colors));
  svg.replaceChildren(all);
}

/** A short bar across the line it is dragged along. */
function gripShape({ size: which, bar, line, words: text, wordsAt, wordsLeft }: GripMark, { held, size }: Marks, colors: ViewColors): SVGGElement {
  const group = document.createElementNS(SVG, 'g');
  group.dataset.grip = which;
  const wide = size * (held === which ? 9 : 7);
  group.append(path(open(line), { stroke: colors.ground, width: 4.5, opacity: 0.7 }), path(open(line), { stroke: colors.teal, width: 1.8 }));
  group.append(path(open(bar), { stroke: colors.ground, width: wide + 4 }), path(open(bar), { stroke: colors.teal, width: wide }));
  if (text) group.append(words(text, wordsAt, { fill: colors.teal, halo: colors.ground, bold: true, ends: wordsLeft, className: 'grip-words' }));
  return group;
}

function handles({ float, ring, footprint }: HandleMarks, { held, size }: Marks, colors: ViewColors): SVGGElement {
  const group = document.createElementNS(SVG, 'g');
  if (footprint.length > 2) group.append(path(`${open(footprint)}Z`, { stroke: colors.teal, width: 1.4, dash: '5 4' }));
  if (ring) {
    group.append(path(open(ring.line), { stroke: colors.ground, width: 4.5, opacity: 0.45 }), path(open(ring.line), { stroke: colors.teal, width: held === 'bead' ? 2.6 : 1.8 }));
    group.append(path(ring.ticks.map((tick) => open(tick)).join(''), { stroke: colors.teal, width: 1.2 }));
  }
  if (float) {
    if (float.surface) group.append(path(open(float.surface), { stroke: colors.teal, width: 1.2 }));
    group.append(path(open([float.foot, float.at]), { stroke: colors.teal, width: 1.8 }), disc(float.foot, 3.2, { fill: colors.teal }));
    group.append(floatShape(float.at, size * (held === 'float' ? 1.18 : 1), colors));
    const side = float.wordsLeft ? -1 : 1;
    group.append(words(float.words, [float.at[0] + side * 17 * size, float.at[1] + 1], { fill: colors.teal, halo: colors.ground, bold: true, ends: float.wordsLeft }));
  }
  if (ring) {
    const bead = disc(ring.bead, size * (held === 'bead' ? 10.5 : 9), { fill: colors.onteal, stroke: colors.teal, width: 3 });
    bead.dataset.handle = 'bead';
    group.append(bead, disc(ring.bead, 3 * size, { fill: colors.teal }));
    group.append(words(ring.words, ring.wordsAt, { fill: colors.teal, halo: colors.ground, bold: true }));
  }
  return group;
}

/** A small fishing float: two colors, parted at its waterline. */
function floatShape([x, y]: Point, scale: number, colors: ViewColors): SVGGElement {
  const group = document.createElementNS(SVG, 'g');
  group.setAttribute('transform', `translate(${x.toFixed(1)} ${y.toFixed(1)}) scale(${scale.toFixed(2)})`);
  group.dataset.handle = 'float';
  const body = 'M0-17C6-11 8-5 8 0C8 6 5 11 0 17C-5 11-8 6-8 0C-8-5-6-11 0-17Z';
  group.append(path(body, { stroke: colors.ground, width: 5, opacity: 0.7 }), path(body, { fill: colors.teal, stroke: colors.teal, width: 1.2 }));
  group.append(path('M-7.6-2.5H7.6V2H-7.6Z', { fill: colors.onteal }));
  return group;
}

function open(points: readonly Point[]): string {
  return points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join('');
}

interface Stroke {
  readonly fill?: string;
  readonly stroke?: string;
  readonly width?: number;
  readonly opacity?: number;
  readonly dash?: string;
}

function path(d: string, look: Stroke): SVGPathElement {
  const element = document.createElementNS(SVG, 'path');
  element.setAttribute('d', d);
  return looking(element, look);
}

function disc([x, y]: Point, radius: number, look: Stroke): SVGCircleElement {
  const element = document.createElementNS(SVG, 'circle');
  element.setAttribute('cx', x.toFixed(1));
  element.setAttribute('cy', y.toFixed(1));
  element.setAttribute('r', String(radius));
  return looking(element, look);
}

function looking<E extends SVGElement>(element: E, { fill = 'none', stroke = 'none', width = 1, opacity = 1, dash }: Stroke): E {
  element.setAttribute('fill', fill);
  element.setAttribute('stroke', stroke);
  element.setAttribute('stroke-width', String(width));
  element.setAttribute('stroke-linejoin', 'round');
  element.setAttribute('stroke-linecap', 'round');
  if (opacity < 1) element.setAttribute('opacity', String(opacity));
  if (dash) element.setAttribute('stroke-dasharray', dash);
  return element;
}

function words(text: string, [x, y]: Point, look: { fill: string; halo: string; bold?: boolean; italic?: boolean; ends?: boolean; className?: string }): SVGTextElement {
  const element = document.createElementNS(SVG, 'text');
  element.textContent = text;
  element.setAttribute('x', x.toFixed(1));
  element.setAttribute('y', y.toFixed(1));
  element.setAttribute('fill', look.fill);
  element.setAttribute('stroke', look.halo);
  element.setAttribute('stroke-width', String(HALO));
  element.setAttribute('stroke-linejoin', 'round');
  element.setAttribute('paint-order', 'stroke');
  element.style.font = `${look.italic ? 'italic ' : ''}${look.bold ? '700 ' : ''}15px ${look.italic ? 'Alegreya, serif' : '"Alegreya Sans", sans-serif'}`;
  element.style.fontVariantNumeric = 'lining-nums tabular-nums'; // the font shorthand drops it
  if (look.ends) element.setAttribute('text-anchor', 'end');
  if (look.className) element.setAttribute('class', look.className);
  return element;
}
