/**
 * Every plan of a small stack, one after another: all lines on the half-millimeter grid, all formulas, both routes, every
 * start on a grid of minutes up to a week after the first that is possible. Written from the contract alone: it shares the
 * independent checker's clock (tests/plan/check-time.ts) and nothing with src/core.
 */
import { benchHours, firstFit, insideBench, minutesOf, placeWork, roomPieces, temperatureAt, whenProgressed, type BenchHours, type RoomPiece } from '../../../plan/check-time.ts';
import { formulaOf, type Stack, type StackFormula, type StackPlane } from './stacks.ts';

export type Goal = 'fewest' | 'soonest' | 'coolest' | 'cheapest';

export interface BrutePour {
  readonly layer: number;
  readonly fromMm: number;
  readonly toMm: number;
  readonly formula: string;
  /** Minutes since 1970. */
  readonly starts: number;
  readonly route: 'wet-on-tacky' | 'cure-scuff-wipe' | null;
}

/** What goals compare, each to be small. */
export interface Criteria {
  readonly pours: number;
  readonly finish: number;
  readonly fullest: number;
  readonly cost: number;
  readonly uneven: number;
  readonly shows: number;
}

const ORDER: Readonly<Record<Goal, readonly (keyof Criteria)[]>> = {
  fewest: ['pours', 'finish', 'shows', 'uneven'],
  soonest: ['finish', 'pours', 'shows', 'uneven'],
  coolest: ['fullest', 'finish', 'pours', 'shows', 'uneven'],
  cheapest: ['cost', 'pours', 'finish', 'shows', 'uneven'],
};

export function criteriaOf(goal: Goal, criteria: Criteria): number[] {
  return ORDER[goal].map((name) => criteria[name]);
}

function isBetter(goal: Goal, a: Criteria, b: Criteria): boolean {
  for (const name of ORDER[goal]) if (a[name] !== b[name]) return a[name] < b[name];
  return false;
}

const GRID_MM = 0.5;
const TINY = 1e-9;
const WEEK_MIN = 7 * 1440;
const STOP_MM = 0.05;
const FAR_MIN = 300 * 1440;

/** A stack with its clocks laid out. */
export interface Laid {
  readonly stack: Stack;
  readonly bench: BenchHours;
  readonly room: readonly RoomPiece[];
  readonly settled: number;
  readonly start: number;
  readonly pourMin: number;
  readonly watched: number;
  readonly scuffMin: number;
  /** Rules each layer's pours must keep: the first set that some lines keep. */
  readonly rungs: readonly Rung[];
}

interface Rung {
  readonly locks: boolean;
  readonly share: number;
}

export function laidOut(stack: Stack): Laid | null {
  const start = minutesOf(stack.start);
  const room = roomPieces(stack.room);
  const laid = {
    stack,
    bench: benchHours(stack.hours, start - WEEK_MIN, start + FAR_MIN),
    room,
    settled: room[room.length - 1].from,
    start,
    pourMin: stack.pourH * 60,
    watched: (stack.pourH + stack.watchH) * 60,
    scuffMin: stack.scuffH * 60,
    rungs: [] as Rung[],
  };
  for (let layer = 0; layer < stack.layers.length; layer++) {
    const rung = [
      { locks: true, share: 1 },
      { locks: true, share: 0.6 },
      { locks: false, share: 1 },
      { locks: false, share: 0.6 },
      { locks: false, share: 0 },
    ].find((candidate) => stack.layers[layer].options.some((id) => splits(laid, layer, formulaOf(stack, id), candidate).length > 0));
    if (!rung) return null;
    laid.rungs.push(rung);
  }
  return laid;
}

/** All ways to cut a layer, as tops. */
function splits(laid: Laid, layer: number, formula: StackFormula, rung: Rung): number[][] {
  const { fromMm, toMm } = laid.stack.layers[layer];
  const lines = [...heights(laid, fromMm, toMm), toMm];
  const found: number[][] = [];
  const go = (at: number, tops: number[]) => {
    if (at === toMm) return void found.push(tops);
    for (const top of lines) if (top > at + TINY && mayBe(laid, formula, at, top, rung)) go(top, [...tops, top]);
  };
  go(fromMm, []);
  return found;
}

/** As many pours as any of its plans has. */
export function mostPours(laid: Laid): number {
  return laid.stack.layers.reduce((sum, { options }, layer) => sum + Math.max(0, ...options.flatMap((id) => splits(laid, layer, formulaOf(laid.stack, id), laid.rungs[layer]).map((tops) => tops.length))), 0);
}

/** About as many plans as there are: ways to cut, times an hourly start of a week for each pour. */
export function plansRoughly(laid: Laid): number {
  const starts = laid.bench.intervals.filter(({ from }) => from >= laid.start && from < laid.start + WEEK_MIN).reduce((sum, { from, to }) => sum + Math.max(0, Math.floor((to - from - laid.watched) / 60) + 1), 0);
  return laid.stack.layers.reduce((all, { options }, layer) => all * options.flatMap((id) => splits(laid, layer, formulaOf(laid.stack, id), laid.rungs[layer])).reduce((sum, tops) => sum + starts ** tops.length, 0), 1);
}

function heights({ stack }: Laid, fromMm: number, toMm: number): number[] {
  const found: number[] = [];
  for (let i = 0; i * GRID_MM < toMm - TINY; i++) {
    const at = i * GRID_MM;
    const avoided = stack.avoid.some((span) => at >= span.fromMm && at <= span.toMm);
    if (at > fromMm + TINY && (!avoided || stack.pinsMm.includes(at))) found.push(at);
  }
  return found;
}

/** Whether a pour may reach from one height to another at all. */
function mayBe({ stack, pourMin }: Laid, formula: StackFormula, from: number, to: number, rung: Rung): boolean {
  const depth = to - from;
  if (depth > formula.limitMm + TINY || depth < rung.share * formula.minMm - TINY) return false;
  if (stack.pinsMm.some((pin) => pin > from + TINY && pin < to - TINY)) return false;
  if (stack.cupMin !== null && cupsOf(stack, formula, depth).count * stack.cupMin > pourMin + TINY) return false;
  if (!rung.locks) return true;
  return stack.floaters.every(({ baseMm, safeLockMm }) => from > baseMm + STOP_MM + TINY || to <= baseMm + STOP_MM + TINY || to - baseMm <= safeLockMm + TINY);
}

function cupsOf(stack: Stack, formula: StackFormula, depthMm: number): { mixMl: number; count: number; cupG: number } {
  const neededMl = ((stack.areaMm2 * depthMm) / 1000) * (1 + stack.allowance);
  let count = 1;
  while ((neededMl / count + stack.holdUpMl) * formula.density > formula.maxBatchG + 1e-6) count++;
  const mixMl = neededMl + count * stack.holdUpMl;
  return { mixMl, count, cupG: (mixMl * formula.density) / count };
}

/** Usable minutes by the contract's rule. */
function usable(formula: StackFormula, cupG: number, roomC: number): number {
  return 0.7 * formula.potLifeMin * 2 ** ((23 - roomC) / 10) * Math.min(1, 100 / cupG) ** (1 / 3);
}

interface Clocks {
  readonly opens: number;
  readonly closes: number;
  readonly scuffable: number;
  readonly paintable: number;
  readonly demold: number;
}

function clocksOf({ room, pourMin }: Laid, formula: StackFormula, starts: number): Clocks {
  const up = (hours: number) => Math.ceil(whenProgressed(room, 23, starts + pourMin, hours) - 1e-6);
  return {
    opens: up(formula.opensH),
    closes: Math.floor(whenProgressed(room, 23, starts, Math.max(0, formula.closesH)) + 1e-6),
    scuffable: up(formula.scuffableH),
    paintable: up(formula.paintableH),
    demold: up(formula.demoldH),
  };
}

/** From when on a pour over scuffed, painted planes may start, given from when the surface can be worked on. */
function painted({ bench, scuffMin }: Laid, from: number, planes: readonly StackPlane[], scuffs: boolean): number {
  const paintMin = planes.reduce((sum, plane) => sum + plane.paintH, 0) * 60;
  const dryMin = Math.max(...planes.map((plane) => plane.dryH)) * 60;
  if (!scuffs) return placeWork(bench, from, paintMin).to + dryMin;
  if (scuffMin + paintMin <= bench.longest + TINY) return firstFit(bench, from, scuffMin + paintMin) + scuffMin + paintMin + dryMin;
  return placeWork(bench, placeWork(bench, from, scuffMin).to, paintMin).to + dryMin;
}

/** Whether a pour may start over the one below by a route, and from when on that route is open at the earliest. */
function curedFrom(laid: Laid, below: Clocks, planes: readonly StackPlane[]): { from: number; before: number } {
  if (planes.length > 0) return { from: painted(laid, Math.max(below.scuffable, below.paintable), planes, true), before: 0 };
  if (laid.scuffMin + laid.watched <= laid.bench.longest + TINY) return { from: below.scuffable + laid.scuffMin, before: laid.scuffMin };
  return { from: placeWork(laid.bench, below.scuffable, laid.scuffMin).to, before: 0 };
}

function mayStart(laid: Laid, formula: StackFormula, depthMm: number, { at, route }: { readonly at: number; readonly route: BrutePour['route'] }): boolean {
  if (route === 'wet-on-tacky' && formula.wetMm !== null && depthMm > formula.wetMm + TINY) return false;
  if (!insideBench(laid.bench, at, at + laid.watched)) return false;
  const { cupMin } = laid.stack;
  return cupMin === null || usable(formula, cupsOf(laid.stack, formula, depthMm).cupG, temperatureAt(laid.room, at)) >= cupMin - 1e-9;
}

/** Checks a whole plan by the same rules; its criteria, or what is wrong with it. */
export function judged(laid: Laid, pours: readonly BrutePour[]): Criteria | string {
  const { stack } = laid;
  let at = stack.layers[0].fromMm;
  let layer = 0;
  let cost = 0;
  let demold = 0;
  for (let i = 0; i < pours.length; i++) {
    const pour = pours[i];
    const formula = formulaOf(stack, pour.formula);
    const span = stack.layers[layer];
    if (pour.layer !== layer || pour.fromMm !== at) return `pour ${i + 1} is in layer ${pour.layer} from ${pour.fromMm}; expected ${layer} from ${at}`;
    if (!span.options.includes(pour.formula)) return `pour ${i + 1} is of ${pour.formula}`;
    if (i > 0 && pours[i - 1].layer === layer && pours[i - 1].formula !== pour.formula) return `layer ${layer} is of two formulas`;
    if (pour.toMm !== span.toMm && !heights(laid, span.fromMm, span.toMm).includes(pour.toMm)) return `pour ${i + 1} ends at ${pour.toMm}`;
    if (!mayBe(laid, formula, pour.fromMm, pour.toMm, laid.rungs[layer])) return `pour ${i + 1} may not go from ${pour.fromMm} to ${pour.toMm}`;
    if (!mayStart(laid, formula, pour.toMm - pour.fromMm, { at: pour.starts, route: pour.route })) return `pour ${i + 1} may not start at ${pour.starts}`;
    const wrong = joint(laid, pours, i);
    if (wrong) return `pour ${i + 1}: ${wrong}`;
    cost += costOf(stack, formula, pour.toMm - pour.fromMm) + (i > 0 && pour.route === 'cure-scuff-wipe' && isPriced(stack) ? Math.round(stack.perScuff * 1e6) : 0);
    demold = Math.max(demold, clocksOf(laid, formula, pour.starts).demold);
    at = pour.toMm;
    if (at === span.toMm) at = stack.layers[++layer]?.fromMm ?? at;
  }
  if (layer !== stack.layers.length) return 'does not reach the top';
  const last = pours[pours.length - 1];
  const clocks = clocksOf(laid, formulaOf(stack, last.formula), last.starts);
  const { planes } = stack.layers[stack.layers.length - 1];
  const after = planes.length > 0 ? Math.ceil(painted(laid, Math.max(clocks.scuffable, clocks.paintable), planes, true) - 1e-6) : 0;
  return {
    pours: pours.length,
    finish: Math.max(stack.keep ? clocks.demold : demold, after),
    fullest: Math.max(...pours.map((pour) => warmthOf(formulaOf(stack, pour.formula), pour))),
    cost,
    uneven: pours.reduce((sum, { fromMm, toMm }) => sum + Math.round((toMm - fromMm) * 1000) ** 2, 0),
    shows: pours.reduce((sum, pour) => sum + showsAt(stack, pour), 0),
  };
}

function joint(laid: Laid, pours: readonly BrutePour[], i: number): string | null {
  const { stack } = laid;
  const pour = pours[i];
  if (i === 0) {
    const from = stack.floor.length > 0 ? painted(laid, laid.start, stack.floor, false) : laid.start;
    return pour.route === null && pour.starts >= from ? null : 'starts too early';
  }
  const below = pours[i - 1];
  const clocks = clocksOf(laid, formulaOf(stack, below.formula), below.starts);
  const planes = below.layer !== pour.layer ? stack.layers[below.layer].planes : [];
  if (pour.route === 'wet-on-tacky') return planes.length === 0 && pour.starts >= clocks.opens && pour.starts + laid.pourMin <= clocks.closes + 1e-6 ? null : 'is not in the window below';
  const { from, before } = curedFrom(laid, clocks, planes);
  return pour.starts >= from - 1e-6 && (before === 0 || insideBench(laid.bench, pour.starts - before, pour.starts)) ? null : 'is not cured and scuffed';
}

/** By the table of heat where there is one, else depth over limit in billionths. */
function warmthOf({ limitMm, steps }: StackFormula, { fromMm, toMm, route }: BrutePour): number {
  return steps ? steps[route === 'wet-on-tacky' ? 'tacky' : 'cured'][Math.ceil((toMm - fromMm) * 2 - TINY) - 1] : Math.round(((toMm - fromMm) / limitMm) * 1e9);
}

function isPriced(stack: Stack): boolean {
  return [...new Set(stack.layers.flatMap(({ options }) => options))].every((id) => formulaOf(stack, id).pricePerMl !== null);
}

function costOf(stack: Stack, formula: StackFormula, depthMm: number): number {
  const { mixMl } = cupsOf(stack, formula, depthMm);
  return Math.round((isPriced(stack) ? mixMl * formula.pricePerMl! + stack.perPour : mixMl * formula.density) * 1e6);
}

function showsAt(stack: Stack, { layer, toMm }: BrutePour): number {
  if (toMm === stack.layers[layer].toMm || stack.edgesMm.includes(toMm)) return 0;
  return stack.figures.some((figure) => toMm > figure.fromMm && toMm < figure.toMm) ? 2 : 1;
}

export interface BruteRequest {
  /** Starts are tried every so many minutes, counted from 1970. */
  readonly stepMin: number;
  /** Only the first start of the last pour on each route: the rest only finish later. */
  readonly lastFirst?: boolean;
}

/** The best of all plans for each goal; null when there is none. Counts how many it looked at. */
export function bruteForce(laid: Laid, { stepMin, lastFirst = false }: BruteRequest): { best: Partial<Record<Goal, Criteria>>; looked: number } {
  const best: Partial<Record<Goal, Criteria>> = {};
  let looked = 0;
  const { stack } = laid;
  const goals = Object.keys(ORDER) as Goal[];
  const finished = (pours: readonly BrutePour[]) => {
    const criteria = judged(laid, pours);
    if (typeof criteria === 'string') throw new Error(`brute force made a plan of its own that it finds wrong: ${criteria}`);
    looked++;
    for (const goal of goals) if (!best[goal] || isBetter(goal, criteria, best[goal])) best[goal] = criteria;
  };
  /** Starts from a moment on for a week, or in a window. */
  const starts = (from: number, before: number, to: number | null): number[] => {
    const found: number[] = [];
    let until = to ?? Infinity;
    for (const open of laid.bench.intervals) {
      if (open.to < from || open.from > until) continue;
      const earliest = Math.max(from, open.from + before);
      for (let at = Math.ceil(earliest / stepMin - TINY) * stepMin; at + laid.watched <= open.to + 1e-6 && at <= until; at += stepMin) {
        if (until === Infinity) until = Math.max(at, Math.min(laid.settled, at + 4 * WEEK_MIN)) + WEEK_MIN - 1;
        found.push(at);
      }
    }
    return found;
  };
  const layerFrom = (layer: number, done: readonly BrutePour[]) => {
    if (layer === stack.layers.length) return finished(done);
    for (const id of stack.layers[layer].options) {
      const formula = formulaOf(stack, id);
      for (const tops of splits(laid, layer, formula, laid.rungs[layer])) pourFrom(layer, formula, tops, 0, done);
    }
  };
  const pourFrom = (layer: number, formula: StackFormula, tops: readonly number[], k: number, done: readonly BrutePour[]): void => {
    if (k === tops.length) return layerFrom(layer + 1, done);
    const fromMm = k === 0 ? stack.layers[layer].fromMm : tops[k - 1];
    const below = done[done.length - 1];
    const isLast = layer === stack.layers.length - 1 && k === tops.length - 1;
    const go = (route: BrutePour['route'], list: readonly number[]) => {
      for (const at of list) {
        if (!mayStart(laid, formula, tops[k] - fromMm, { at, route })) continue;
        pourFrom(layer, formula, tops, k + 1, [...done, { layer, fromMm, toMm: tops[k], formula: formula.id, starts: at, route }]);
        if (isLast && lastFirst) break;
      }
    };
    if (!below) return go(null, starts(stack.floor.length > 0 ? painted(laid, laid.start, stack.floor, false) : laid.start, 0, null));
    const clocks = clocksOf(laid, formulaOf(stack, below.formula), below.starts);
    const planes = below.layer !== layer ? stack.layers[below.layer].planes : [];
    if (planes.length === 0) go('wet-on-tacky', starts(clocks.opens, 0, clocks.closes - laid.pourMin + 1e-6));
    const { from, before } = curedFrom(laid, clocks, planes);
    go('cure-scuff-wipe', starts(from, before, null));
  };
  layerFrom(0, []);
  return { best, looked };
}
