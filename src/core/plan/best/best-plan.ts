/**
 * The best plan for a goal, in rounds of the exact search: what is largest is settled first and becomes a bound, then the
 * time, then the rest. Ties go on to the next criterion of the list, and at last to the lines found first from the floor up.
 *
 * fewest: pours, finish. soonest: finish, pours. coolest: the warmest pour (by a table of heat, else the largest depth over
 * limit), finish, pours. cheapest: cost, pours, finish. Then always: how much the lines show, and how even the pours are.
 */
import type { Formula } from '../../scene/scene.ts';
import type { Span } from '../bench-calendar.ts';
import type { Route } from '../plan.ts';
import { opensAt } from '../schedule.ts';
import { awakeStarts } from '../sleep.ts';
import { aheadOf } from './ahead.ts';
import { clockOf, type Clock } from './clock.ts';
import { linesOf, type LinedLayer } from './lines.ts';
import { compare, NOTHING_YET, type Value } from './pieces.ts';
import type { BestProblem, Goal } from './problem.ts';
import { search, wayTo, type Ground, type Rules, type Way } from './search.ts';

const MILLION = 1e6;

export interface BestPour {
  /** Index of its layer among the problem's. */
  readonly layer: number;
  readonly fromMm: number;
  readonly toMm: number;
  readonly formula: Formula;
  readonly starts: number;
  readonly route: Route | null;
}

export interface BestPlan {
  readonly goal: Goal;
  readonly pours: readonly BestPour[];
  readonly finishMin: number;
  /** Money where every price is known, else grams of mix. */
  readonly cost: number;
  /** Layers, by index, in which a rule had to give way. */
  readonly loosened: readonly { readonly layer: number; readonly locks: boolean; readonly leastShare: number }[];
}

/** Why there is no plan: a layer within its lines, or nothing that keeps the cups and the hours. */
export type NoPlan = { readonly layer: number } | 'times';

/** A problem made ready: lines, pours between them, times. Used for every goal. */
export interface Prepared extends Ground {
  readonly problem: BestProblem;
  readonly clock: Clock;
  readonly layers: readonly LinedLayer[];
}

export type Found<T> = { readonly ok: true; readonly found: T } | { readonly ok: false; readonly why: NoPlan };

export function prepare(problem: BestProblem): Found<Prepared> {
  const layers: LinedLayer[] = [];
  for (const [index, layer] of problem.layers.entries()) {
    const lined = linesOf(problem, layer);
    if (!lined) return { ok: false, why: { layer: index } };
    layers.push(lined);
  }
  const { scene, nights, pourMin } = problem.pace;
  const allowed = nights ? (formula: Formula, starts: Span) => awakeStarts(nights, (at) => opensAt(scene, formula, at + pourMin), starts) : undefined;
  return { ok: true, found: { problem, clock: clockOf(problem.pace), layers, allowed } };
}

/** Deterministic. Time grows with the number of pours that may be and with the days they may start on. */
export function bestPlan(prepared: Prepared, goal: Goal): Found<BestPlan> {
  const mostWarmth = goal === 'coolest' ? leastWarmth(prepared) : undefined;
  if (mostWarmth === null) return { ok: false, why: 'times' };
  const byValue = { ...rulesOf(prepared, goal), mostWarmth };
  // Curing every joint always leads on, unless cups or hours forbid it: then nothing is bounded.
  const bounded = { ...byValue, most: aheadOf(prepared.layers, byValue).whenCured };
  const first = earliest(prepared, bounded) ?? earliest(prepared, byValue);
  if (!first) return { ok: false, why: 'times' };
  const { finishMin, way } = earliestFinish(prepared, { ...byValue, most: first.value[0] }, first);
  const pour = withTies(byValue, goal);
  const most = way.pours.reduce((sum, { poured }) => sum + pour(poured.reach)[0] + (poured.ready.of.route ? byValue.route(poured.ready.of.route)[0] : 0), 0);
  const { tops } = search(prepared, { ...byValue, pour, most, deadlineMin: finishMin });
  const best = tops.reduce((a, b) => (compare(b.value, a.value) || b.from - a.from) < 0 ? b : a);
  return { ok: true, found: planOf(prepared, goal, wayTo(prepared, best)) };
}

/** What comes before the time. */
function rulesOf(prepared: Prepared, goal: Goal): Rules {
  const free: Rules = { pour: () => NOTHING_YET, route: () => NOTHING_YET };
  const one: Value = [1, 0, 0, 0];
  if (goal === 'fewest') return { ...free, pour: () => one };
  if (goal !== 'cheapest') return free;
  return { pour: ({ cost }) => [cost, 1, 0, 0], route: scuffing(prepared) };
}

function scuffing({ problem: { expenses } }: Prepared): Rules['route'] {
  const scuff: Value = [expenses.perMl ? Math.round(expenses.perScuff * MILLION) : 0, 0, 0, 0];
  return (route) => (route === 'wet-on-tacky' ? NOTHING_YET : scuff);
}

/** The same, the number of pours where the time came before it, then how much lines show, then evenness. */
function withTies({ pour }: Rules, goal: Goal): Rules['pour'] {
  const timeFirst = goal === 'soonest' || goal === 'coolest';
  return (reach) => {
    const [first, second] = pour(reach);
    return [timeFirst ? 1 : first, second, reach.shows, reach.uneven];
  };
}

/** The least that the warmest pour can be: by lines alone, unless cups, hours or surfaces ask for more. */
function leastWarmth(prepared: Prepared): number | null {
  const rules = rulesOf(prepared, 'coolest');
  const fits = (mostWarmth: number) => search(prepared, { ...rules, mostWarmth }).tops.length > 0;
  const byLines = Math.max(...prepared.layers.map(({ choices }) => Math.min(...choices.map(leastByLines))));
  if (fits(byLines)) return byLines;
  const steps = [...new Set(prepared.layers.flatMap(({ choices }) => choices.flatMap(({ reaches }) => reaches.flat().flatMap(({ warmth, tackyWarmth }) => [warmth, tackyWarmth]))))].filter((step) => step > byLines).sort((a, b) => a - b);
  if (steps.length === 0 || !fits(steps[steps.length - 1])) return null;
  let low = -1;
  let high = steps.length - 1;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (fits(steps[middle])) high = middle;
    else low = middle;
  }
  return steps[high];
}

function leastByLines({ reaches }: LinedLayer['choices'][number]): number {
  const least = [0];
  for (let k = 1; k < reaches.length; k++) least.push(Math.min(Infinity, ...reaches[k].map(({ low, warmth, tackyWarmth }) => Math.max(least[low], Math.min(warmth, tackyWarmth)))));
  return least[least.length - 1];
}

interface Earliest {
  readonly value: Value;
  readonly way: Way;
}

/** Among the ways of the least value the one whose last pour is done first. */
function earliest(prepared: Prepared, rules: Rules): Earliest | null {
  let best: Earliest | null = null;
  for (const top of search(prepared, rules).tops) {
    const order = best ? compare(top.value, best.value) : -1;
    if (order > 0) continue;
    const way = wayTo(prepared, top);
    if (order < 0 || way.doneMin < best!.way.doneMin) best = { value: top.value, way };
  }
  return best;
}

/** The earliest finish of all ways of that value, and one that has it: the last pour's own, unless one below it cures for longer. */
function earliestFinish(prepared: Prepared, rules: Rules, first: Earliest): { finishMin: number; way: Way } {
  let best = { finishMin: finishOfWay(prepared, first.way), way: first.way };
  let low = first.way.doneMin - 1;
  while (best.finishMin - low > 1) {
    // The least that can be is tried first: it mostly holds.
    const tried = low < first.way.doneMin ? first.way.doneMin : Math.floor((low + best.finishMin) / 2);
    const found = earliest(prepared, { ...rules, deadlineMin: tried });
    if (found && compare(found.value, first.value) === 0) best = { finishMin: finishOfWay(prepared, found.way), way: found.way };
    else low = tried;
  }
  return best;
}

function finishOfWay({ problem, clock }: Prepared, { pours, doneMin }: Way): number {
  if (problem.pace.scene.mold.keep) return doneMin;
  return Math.max(doneMin, ...pours.map(({ poured, starts }) => clock.times(poured.formula, starts).demold));
}

function planOf(prepared: Prepared, goal: Goal, way: Way): BestPlan {
  const { problem } = prepared;
  const pours = way.pours.map(({ poured, starts }): BestPour => ({
    layer: poured.layer,
    fromMm: poured.reach.fromMm,
    toMm: poured.reach.toMm,
    formula: poured.formula,
    starts,
    route: poured.ready.of.route,
  }));
  const scuffs = problem.expenses.perMl ? problem.expenses.perScuff * pours.filter(({ route }) => route === 'cure-scuff-wipe').length : 0;
  return {
    goal,
    pours,
    finishMin: finishOfWay(prepared, way),
    cost: way.pours.reduce((total, { poured }) => total + poured.reach.cost, 0) / MILLION + scuffs,
    loosened: prepared.layers.flatMap(({ loosened }, layer) => (loosened.locks && loosened.leastShare === 1 ? [] : [{ layer, locks: loosened.locks, leastShare: loosened.leastShare }])),
  };
}
