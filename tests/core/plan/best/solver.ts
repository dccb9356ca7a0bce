/**
 * A stack as a mixed-integer program for a general-purpose solver (HiGHS, University of Edinburgh): which pours, in which
 * formula, in which bench interval, by which route, when. Written from the contract; it shares the independent checker's
 * clock with brute force and nothing with src/core. Times are hours after the start.
 */
import type { LegacyHighs } from 'highs';
import { benchHours, minutesOf } from '../../../plan/check-time.ts';
import { formulaOf, type Stack } from './stacks.ts';

export interface SolvedGoal {
  readonly pours: number;
  readonly finishH: number;
  readonly cost: number;
  readonly fullest: number;
}

const GRID_MM = 0.5;
/** Weeks of bench hours that the program may use: plans that end later are not among its. */
const WEEKS = 6;
export const HORIZON_H = WEEKS * 168;
/** What is settled in one round may be off by this in the next: the solver's own tolerance on whole numbers. */
const SLACK = 1e-5;
const SECONDS = 30;

interface Arc {
  readonly name: string;
  readonly layer: number;
  readonly option: string;
  readonly low: number;
  readonly high: number;
  readonly depthMm: number;
  readonly cost: number;
}

interface Program {
  readonly rows: string[];
  readonly binaries: string[];
  readonly arcs: readonly Arc[];
  readonly cured: readonly string[];
}

/** Each goal's criteria in order, each settled before the next; null where the solver ran out of time. */
export function solveStack(highs: LegacyHighs, stack: Stack, goal: 'fewest' | 'soonest' | 'coolest' | 'cheapest'): number[] | null {
  const program = programOf(stack);
  const scuffCost = isPriced(stack) ? stack.perScuff : 0;
  const pours = program.arcs.map(({ name }) => name).join(' + ');
  const cost = [...program.arcs.map(({ name, cost: c }) => `${c.toFixed(6)} ${name}`), ...(scuffCost > 0 ? program.cured.map((c) => `${scuffCost} ${c}`) : [])].join(' + ');
  const orders = { fewest: [pours, 'F'], soonest: ['F', pours], coolest: ['R', 'F', pours], cheapest: [cost, pours, 'F'] };
  const settled: string[] = [];
  const values: number[] = [];
  for (const objective of orders[goal]) {
    const text = ['Minimize', ` obj: ${objective}`, 'Subject To', ...program.rows, ...settled, 'Bounds', ' F free', 'Binary', ` ${program.binaries.join(' ')}`, 'End'].join('\n');
    const solution = highs.solve(text, { time_limit: SECONDS, mip_rel_gap: 0, mip_abs_gap: 1e-7 });
    if (solution.Status !== 'Optimal') return null;
    values.push(solution.ObjectiveValue);
    settled.push(` settled${settled.length}: ${objective} <= ${(solution.ObjectiveValue + SLACK).toFixed(7)}`);
  }
  return values;
}

function programOf(stack: Stack): Program {
  const start = minutesOf(stack.start);
  const spans = benchHours(stack.hours, start - 7 * 1440, start + WEEKS * 7 * 1440).intervals.map(({ from, to }) => ({ from: Math.max(0, (from - start) / 60), to: (to - start) / 60 })).filter(({ from, to }) => to > from && from < WEEKS * 168);
  const M = WEEKS * 168 + 400;
  const rows: string[] = [];
  const binaries: string[] = [];
  const arcs: Arc[] = [];
  const cured: string[] = [];
  const { pourH, scuffH, watchH } = stack;
  let row = 0;
  const add = (left: string, sign: string, right: number) => rows.push(` r${row++}: ${left} ${sign} ${right}`);
  /** A start of some length within one bench interval; zero while unused. */
  const placed = (name: string, lengthH: number, used: string) => {
    const fits = spans.map((span, t) => ({ ...span, name: `${name}t${t}` })).filter(({ from, to }) => to - from >= lengthH);
    binaries.push(...fits.map((fit) => fit.name));
    add(`${fits.map((fit) => fit.name).join(' + ')} - ${used}`, '=', 0);
    add(`${name} - ${fits.map((fit) => `${fit.from} ${fit.name}`).join(' - ')}`, '>=', 0);
    add(`${name} - ${fits.map((fit) => `${fit.to - lengthH} ${fit.name}`).join(' - ')}`, '<=', 0);
    return fits;
  };
  const lines = stack.layers.map(({ fromMm, toMm }) => {
    const inner: number[] = [];
    for (let at = fromMm + GRID_MM; at < toMm - 1e-9; at += GRID_MM) inner.push(at);
    return [fromMm, ...inner, toMm];
  });
  stack.layers.forEach(({ options }, L) => {
    for (const option of options) {
      const formula = formulaOf(stack, option);
      for (let low = 0; low < lines[L].length; low++) {
        for (let high = low + 1; high < lines[L].length; high++) {
          const depthMm = lines[L][high] - lines[L][low];
          if (depthMm > formula.limitMm + 1e-9 || depthMm < formula.minMm - 1e-9) continue;
          arcs.push({ name: `a_${L}_${option}_${low}_${high}`, layer: L, option, low, high, depthMm, cost: costOf(stack, option, depthMm) });
        }
      }
    }
  });
  binaries.push(...arcs.map(({ name }) => name));
  const named = (list: readonly Arc[]) => list.map(({ name }) => name);
  const joinedBy = (names: readonly string[]) => names.join(' + ');
  stack.layers.forEach(({ options, planes }, L) => {
    const top = lines[L].length - 1;
    for (const option of options) {
      const own = arcs.filter((arc) => arc.layer === L && arc.option === option);
      const u = `u_${L}_${option}`;
      binaries.push(u);
      for (let k = 0; k <= top; k++) {
        const into = named(own.filter(({ high }) => high === k));
        const out = named(own.filter(({ low }) => low === k));
        if (k === 0) add([...out, `0 ${u}`].join(' + ') + ` - ${u}`, '=', 0);
        else if (k === top) add([...into, `0 ${u}`].join(' + ') + ` - ${u}`, '=', 0);
        else if (into.length + out.length > 0) add([...into, `0 ${u}`].join(' + ') + out.map((name) => ` - ${name}`).join(''), '=', 0);
      }
    }
    add(joinedBy(options.map((option) => `u_${L}_${option}`)), '=', 1);
    for (let k = 1; k <= top; k++) {
      const ending = arcs.filter((arc) => arc.layer === L && arc.high === k);
      if (ending.length === 0) continue;
      const s = `s_${L}_${k}`;
      const fits = placed(s, pourH + watchH, named(ending).join(' - '));
      const [w, c] = [`w_${L}_${k}`, `c_${L}_${k}`];
      const later = named(ending.filter(({ low }) => L > 0 || low > 0));
      binaries.push(w, c);
      cured.push(c);
      add(`${w} + ${c}${later.map((name) => ` - ${name}`).join('')}`, '=', 0);
      // The scuff stands right before the pour, in the same interval.
      if (scuffH > 0) add(`${s} - ${fits.map((fit) => `${fit.from} ${fit.name}`).join(' - ')} - ${M} ${c}`, '>=', scuffH - M);
      for (const arc of ending) {
        const formula = formulaOf(stack, arc.option);
        if (formula.wetMm !== null && arc.depthMm > formula.wetMm + 1e-9) add(`${arc.name} + ${w}`, '<=', 1);
        add(`R - ${(arc.depthMm / formula.limitMm).toFixed(9)} ${arc.name}`, '>=', 0);
        const demolds = !stack.keep || (L === stack.layers.length - 1 && k === top);
        if (demolds) add(`F - ${s} - ${M} ${arc.name}`, '>=', pourH + formula.demoldH - M);
        if (arc.low > 0) joint(`s_${L}_${arc.low}`, s, { formula: arc.option, when: [arc.name], w, c });
        else if (L > 0) {
          const below = stack.layers[L - 1];
          const s0 = `s_${L - 1}_${lines[L - 1].length - 1}`;
          if (below.planes.length > 0) {
            add(`${s} - q_${L - 1} - ${M} ${arc.name}`, '>=', scuffH + paintH(below.planes) + dryH(below.planes) - M);
            add(`${arc.name} + ${w}`, '<=', 1);
          } else for (const option of below.options) joint(s0, s, { formula: option, when: [arc.name, `u_${L - 1}_${option}`], w, c });
        }
      }
    }
    if (planes.length > 0) {
      const one = `one_${L}`;
      binaries.push(one);
      add(one, '=', 1);
      placed(`q_${L}`, scuffH + paintH(planes), one);
      for (const option of options) {
        const { scuffableH, paintableH } = formulaOf(stack, option);
        add(`q_${L} - s_${L}_${top} - ${M} u_${L}_${option}`, '>=', pourH + Math.max(scuffableH, paintableH) - M);
      }
      if (L === stack.layers.length - 1) add(`F - q_${L}`, '>=', scuffH + paintH(planes) + dryH(planes));
    }
  });
  return { rows, binaries, arcs, cured };

  /** Either in the window below, or after it can be scuffed. */
  function joint(s0: string, s: string, { formula, when, w, c }: { readonly formula: string; readonly when: readonly string[]; readonly w: string; readonly c: string }): void {
    const { opensH, closesH, scuffableH } = formulaOf(stack, formula);
    const off = (sign: string, route: string) => [...when, route].map((name) => ` ${sign} ${M} ${name}`).join('');
    const slack = M * (when.length + 1);
    add(`${s} - ${s0}${off('-', w)}`, '>=', pourH + opensH - slack);
    add(`${s} - ${s0}${off('+', w)}`, '<=', Math.max(0, closesH) - pourH + slack);
    add(`${s} - ${s0}${off('-', c)}`, '>=', pourH + scuffableH + scuffH - slack);
  }
}

function paintH(planes: Stack['floor']): number {
  return planes.reduce((sum, plane) => sum + plane.paintH, 0);
}

function dryH(planes: Stack['floor']): number {
  return Math.max(...planes.map((plane) => plane.dryH));
}

function isPriced(stack: Stack): boolean {
  return stack.layers.flatMap(({ options }) => options).every((id) => formulaOf(stack, id).pricePerMl !== null);
}

function costOf(stack: Stack, option: string, depthMm: number): number {
  const formula = formulaOf(stack, option);
  const neededMl = ((stack.areaMm2 * depthMm) / 1000) * (1 + stack.allowance);
  let count = 1;
  while ((neededMl / count + stack.holdUpMl) * formula.density > formula.maxBatchG + 1e-6) count++;
  const mixMl = neededMl + count * stack.holdUpMl;
  return isPriced(stack) ? mixMl * formula.pricePerMl! + stack.perPour : mixMl * formula.density;
}
