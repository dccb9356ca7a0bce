/** A pour's temperatures as the lines of its chart, in px. */
import type { HeatSeries } from '../../core/cure/verdict-series.ts';

export interface ChartBox {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface ChartShape {
  /** The band between both ends of what the label leaves open. */
  readonly band: string;
  readonly middle: string;
  readonly room: string;
  readonly hours: readonly { readonly x: number; readonly label: string }[];
  readonly degrees: readonly { readonly y: number; readonly label: string }[];
}

/** Hours and degrees that are written, from the finest; the first with at most so many marks is taken. */
const HOUR_STEPS = [1, 2, 4, 6, 12, 24, 48, 96];
const DEGREE_STEPS = [5, 10, 20, 50];
const MOST_HOURS = 6;
const MOST_DEGREES = 6;
/** K that a chart spans at least, so that a cool pour looks cool. */
const LEAST_SPAN_K = 20;

export function chartShape({ hours, lowC, middleC, highC, roomC }: HeatSeries, { left, right, top, bottom }: ChartBox): ChartShape {
  const lastH = hours[hours.length - 1];
  const coldest = Math.min(...lowC, ...roomC);
  const fromC = Math.floor(coldest / 5) * 5;
  const toC = Math.max(...highC, fromC + LEAST_SPAN_K);
  const xOf = (h: number): number => left + (h / lastH) * (right - left);
  const yOf = (c: number): number => bottom - ((c - fromC) / (toC - fromC)) * (bottom - top);
  const at = (i: number, c: readonly number[]): string => `${xOf(hours[i]).toFixed(1)} ${yOf(c[i]).toFixed(1)}`;
  const forth = hours.map((_, i) => i);
  const line = (c: readonly number[]): string => `M${forth.map((i) => at(i, c)).join('L')}`;
  const hourStep = HOUR_STEPS.find((step) => lastH / step <= MOST_HOURS) ?? HOUR_STEPS[HOUR_STEPS.length - 1];
  const degreeStep = DEGREE_STEPS.find((step) => (toC - fromC) / step <= MOST_DEGREES) ?? DEGREE_STEPS[DEGREE_STEPS.length - 1];
  return {
    band: `${line(highC)}L${[...forth].reverse().map((i) => at(i, lowC)).join('L')}Z`,
    middle: line(middleC),
    room: line(roomC),
    hours: marks(0, lastH, hourStep).map((h) => ({ x: xOf(h), label: String(h) })),
    degrees: marks(fromC, toC, degreeStep).map((c) => ({ y: yOf(c), label: String(c) })),
  };
}

export interface DepthStrip {
  /** Of a slab of the pour and what lies below it, px from the strip's top. */
  readonly y: number;
  readonly height: number;
  readonly temperatureC: number;
  /** Between two lines of its hatch: the warmer, the closer. */
  readonly gapPx: number;
}

/** Cool and hot ends of the hatch, °C, and its gaps there, px. Above 60 °C the trade speaks of too hot: no closer. */
const COOL_C = 20;
const HOT_C = 60;
const COOL_GAP_PX = 22;
const HOT_GAP_PX = 2.2;

export function gapOf(temperatureC: number): number {
  const share = Math.min(1, Math.max(0, (temperatureC - COOL_C) / (HOT_C - COOL_C)));
  return COOL_GAP_PX * (HOT_GAP_PX / COOL_GAP_PX) ** share;
}

/** From the floor up through all that is poured, in slabs of equal height. */
export function depthStrips({ heightMm, temperatureC }: HeatSeries['depth'], heightPx: number, slabs: number): readonly DepthStrip[] {
  const [from, to] = [heightMm[0], heightMm[heightMm.length - 1]];
  return Array.from({ length: slabs }, (_, k) => {
    const middle = to - ((k + 0.5) / slabs) * (to - from);
    const above = Math.max(1, heightMm.findIndex((mm) => mm >= middle));
    const share = (middle - heightMm[above - 1]) / Math.max(heightMm[above] - heightMm[above - 1], 1e-9);
    const c = temperatureC[above - 1] + share * (temperatureC[above] - temperatureC[above - 1]);
    return { y: (k / slabs) * heightPx, height: heightPx / slabs, temperatureC: c, gapPx: gapOf(c) };
  });
}

/** Multiples of a step within a span. */
function marks(from: number, to: number, step: number): number[] {
  const first = Math.ceil(from / step - 1e-9);
  return Array.from({ length: Math.max(0, Math.floor(to / step + 1e-9) - first + 1) }, (_, i) => (first + i) * step);
}
