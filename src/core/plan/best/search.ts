/**
 * The exact search. What can follow a pour depends only on the height it reaches, its formula, and the minute it started
 * (its window, cure and drying follow from that): never on what lies deeper. So for each height and formula the search
 * keeps one step function over starting minutes: the least value with which a pour that ends there can start then.
 *
 * (Where less may be poured onto a tacky surface than onto a cured one, also by the route, until the next pour is made.)
 *
 * An earlier start is not simply better: its window closes sooner and the bench may be shut. A way is dropped only where
 * another reaches the same height with the same formula at the same minute and no worse value, or, once room and calendar
 * repeat weekly, whole weeks earlier: all that follows it then follows the other too, as good and no later. Values are sums
 * of whole numbers compared in order, and adding the same to two of them keeps their order. So nothing that is dropped can
 * be part of a plan better than all that is kept, and the search is exact: over the lines and formulas given, and over
 * every wait of up to a week beyond what a joint asks for (clock.ts).
 *
 * With a curing box a pour's times are those of a piece that stays in it from then on. A pour below the last one may come
 * out of its mold later than that, where another resin on it makes the piece wait outside: the finish told is the plan's own.
 *
 * What is largest, not summed (the warmest pour, the last demold) would not keep its order; it comes in as a bound.
 */
import { roomAt } from '../../cure/equivalent-time.ts';
import type { Formula } from '../../scene/scene.ts';
import type { Span } from '../bench-calendar.ts';
import type { Route } from '../plan.ts';
import { finishOf, NOTHING, type PourTimes, type ScheduledPour } from '../schedule.ts';
import { aheadOf } from './ahead.ts';
import type { Clock } from './clock.ts';
import type { Choice, LinedLayer, Reach } from './lines.ts';
import { improved, NOTHING_YET, sum, withoutLaterWeeks, type Piece, type Value } from './pieces.ts';
import type { BestProblem } from './problem.ts';

/** Heights typed in decimals carry noise far below this. */
const ROUNDING_MM = 1e-9;

/** A surface that can be poured on. */
interface Ready {
  readonly below: Piece<Poured> | null;
  readonly route: Route | null;
}

/** A pour that starts within a stretch of minutes. */
export interface Poured {
  readonly ready: Piece<Ready>;
  readonly layer: number;
  readonly formula: Formula;
  readonly reach: Reach;
}

/** How ways are compared, and what they must keep. */
export interface Rules {
  pour(reach: Reach): Value;
  route(route: Route): Value;
  /** Most of what the coolest plan compares. */
  readonly mostWarmth?: number;
  /** Most of the first criterion, to the top. */
  readonly most?: number;
  /** Everything is done by then. */
  readonly deadlineMin?: number;
}

export interface Way {
  readonly value: Value;
  /** When the last pour's own work is done: cured to come out, planes on its top dry. */
  readonly doneMin: number;
  readonly pours: readonly { readonly poured: Poured; readonly starts: number }[];
}

export interface Search {
  /** Ways to the top, one for each stretch of the last pour's starting minutes, each begun as early as it allows. */
  readonly tops: readonly Piece<Poured>[];
}

export interface Ground {
  readonly problem: BestProblem;
  readonly clock: Clock;
  readonly layers: readonly LinedLayer[];
  /** Stretches of starts that a formula and the room's other uses allow; left out: all. */
  readonly allowed?: (formula: Formula, starts: Span) => readonly Span[];
}

/** Every way to the top that may be best. Empty: none keeps the rules. */
export function search(ground: Ground, rules: Rules): Search {
  const { problem, clock, layers } = ground;
  let ready: Piece<Ready>[] = clock.first(problem.floor, problem.startMin).map((span) => ({ ...span, value: NOTHING_YET, of: { below: null, route: null } }));
  let tops: Piece<Poured>[] = [];
  const ahead = rules.most === undefined ? null : aheadOf(layers, rules).least;
  layers.forEach(({ layer, choices }, i) => {
    const isLast = i === layers.length - 1;
    const next = new Fronts(layers);
    tops = [];
    choices.forEach((choice, c) => {
      const { formula } = choice.option;
      const poured = pourLayer(ground, rules, { choice, layer: i, isLast, ready, ahead: ahead?.[i][c] ?? null });
      if (isLast) for (const piece of poured) tops.push(piece);
      else for (const piece of joined(ground, rules, poured, formula, layer.planes)) next.add(piece);
    });
    ready = next.pieces(clock.settledMin);
  });
  return { tops };
}

interface Filling {
  readonly choice: Choice;
  readonly layer: number;
  readonly isLast: boolean;
  readonly ready: readonly Piece<Ready>[];
  /** By line: the least of the first criterion that is still to come. */
  readonly ahead: readonly number[] | null;
}

/** The pours that end at the layer's top, poured in one of its formulas throughout. */
function pourLayer(ground: Ground, rules: Rules, { choice, layer, isLast, ready, ahead }: Filling): Piece<Poured>[] {
  const { formula, wetMm: wettest = Infinity } = choice.option;
  const wetMm = wettest + ROUNDING_MM;
  const { clock } = ground;
  const top = choice.reaches.length - 1;
  const latest = latestStart(ground, rules, formula, false);
  const latestTop = isLast ? Math.min(latest, latestStart(ground, rules, formula, true)) : latest;
  const allowed = ready.flatMap((piece) => within(ground, formula, piece));
  const readyAt: (readonly Piece<Ready>[])[] = [allowed];
  let poured: Piece<Poured>[] = [];
  for (let k = 1; k <= top; k++) {
    poured = [];
    for (const reach of choice.reaches[k]) {
      if (rules.mostWarmth !== undefined && Math.min(reach.warmth, reach.tackyWarmth) > rules.mostWarmth) continue;
      const adds = rules.pour(reach);
      const most = ahead ? rules.most! - ahead[k] - adds[0] : Infinity;
      for (const piece of readyAt[reach.low]) {
        if (piece.value[0] > most || !mayLie(reach, piece.of.route, { wetMm, mostWarmth: rules.mostWarmth })) continue;
        const to = Math.min(piece.to, k === top ? latestTop : latest);
        if (to < piece.from) continue;
        const made = { value: sum(piece.value, adds), of: { ready: piece, layer, formula, reach } };
        for (const span of usable(ground, reach, { from: piece.from, to })) poured = improved(poured, { from: span.from, to: span.to, ...made });
      }
    }
    poured = withoutLaterWeeks(poured, clock.settledMin);
    if (k < top) readyAt.push(joined(ground, rules, poured, formula, []).flatMap((piece) => within(ground, formula, piece)));
  }
  return poured;
}

/** Whether a pour is shallow, and cool, enough for the surface it goes onto. */
function mayLie({ fromMm, toMm, warmth, tackyWarmth }: Reach, route: Route | null, { wetMm, mostWarmth = Infinity }: { readonly wetMm: number; readonly mostWarmth?: number }): boolean {
  return route === 'wet-on-tacky' ? toMm - fromMm <= wetMm && tackyWarmth <= mostWarmth : warmth <= mostWarmth;
}

/** When the next pour may start, by every route. */
function joined({ clock, layers }: Ground, rules: Rules, poured: readonly Piece<Poured>[], formula: Formula, planes: BestProblem['floor']): Piece<Ready>[] {
  const ready = new Fronts(layers);
  const add = (below: Piece<Poured>, route: Route, spans: readonly Span[]) => {
    const value = sum(below.value, rules.route(route));
    const of = { below, route };
    for (const { from, to } of spans) ready.add({ from, to, value, of });
  };
  for (const below of poured) {
    if (planes.length === 0) add(below, 'wet-on-tacky', clock.wet(formula, below));
  }
  for (const below of poured) add(below, 'cure-scuff-wipe', clock.cured(formula, below.from, planes));
  return ready.pieces(clock.settledMin);
}

/** Envelopes of ready surfaces. Where less may be poured onto a tacky surface than onto a cured one, the two are not compared. */
class Fronts {
  readonly #apart: boolean;
  #tacky: Piece<Ready>[] = [];
  #others: Piece<Ready>[] = [];

  constructor(layers: readonly LinedLayer[]) {
    this.#apart = layers.some(({ choices }) => choices.some(({ option }) => option.wetMm !== undefined || option.warmth !== undefined));
  }

  add(piece: Piece<Ready>): void {
    if (this.#apart && piece.of.route === 'wet-on-tacky') this.#tacky = improved(this.#tacky, piece);
    else this.#others = improved(this.#others, piece);
  }

  pieces(settledMin: number): Piece<Ready>[] {
    return [...withoutLaterWeeks(this.#tacky, settledMin), ...withoutLaterWeeks(this.#others, settledMin)];
  }
}

function within({ allowed }: Ground, formula: Formula, piece: Piece<Ready>): readonly Piece<Ready>[] {
  return allowed ? allowed(formula, piece).map(({ from, to }) => ({ ...piece, from, to })) : [piece];
}

/** The part of a stretch in which room and bottles are no warmer than a pour's cups allow. */
function usable({ problem }: Ground, { upToC }: Reach, span: Span): readonly Span[] {
  const { room, bench: { bottlesC = -Infinity } } = problem.pace.scene;
  if (upToC === Infinity) return [span];
  if (bottlesC > upToC) return [];
  const parts: Span[] = [];
  const changes = room.profile.map((entry) => Math.ceil(entry.fromMin)).filter((at) => at > span.from && at <= span.to);
  const begins = [span.from, ...changes];
  begins.forEach((from, i) => {
    const to = i + 1 < begins.length ? begins[i + 1] - 1 : span.to;
    if (to >= from && roomAt(room, from) <= upToC) parts.push({ from, to });
  });
  return parts;
}

/** The last start of a pour with which the deadline holds; of the last pour also for what follows it. */
function latestStart({ problem, clock }: Ground, { deadlineMin }: Rules, formula: Formula, isLast: boolean): number {
  if (deadlineMin === undefined || (problem.pace.scene.mold.keep && !isLast)) return Infinity;
  let low = Math.floor(problem.startMin) - 1;
  let high = Math.ceil(deadlineMin) + 1;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    const done = isLast ? doneMin(problem, formula, clock.times(formula, middle)) : clock.times(formula, middle).demold;
    if (done <= deadlineMin) low = middle;
    else high = middle;
  }
  return low;
}

/** When a last pour and the planes on its top are done. */
function doneMin({ pace, layers }: BestProblem, formula: Formula, last: PourTimes): number {
  const alone: ScheduledPour = { ...last, formula, route: null, before: NOTHING, missedWindow: false, label: last };
  return finishOf(pace, [alone], layers[layers.length - 1].planes).finish;
}

/** One way to a top, its last pour at the first minute of the stretch, each pour below it as early as what follows allows. */
export function wayTo({ problem, clock }: Ground, top: Piece<Poured>): Way {
  const pours: { poured: Poured; starts: number }[] = [];
  let starts = top.from;
  for (let piece: Piece<Poured> | null = top; piece !== null; piece = piece.of.ready.of.below) {
    if (pours.length > 0) {
      const above = pours[0].poured.ready.of;
      starts = above.route === 'wet-on-tacky' ? clock.earliestBelow(piece.of.formula, piece, starts) : piece.from;
    }
    pours.unshift({ poured: piece.of, starts });
  }
  return { value: top.value, doneMin: doneMin(problem, top.of.formula, clock.times(top.of.formula, top.from)), pours };
}
