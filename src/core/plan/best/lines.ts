/**
 * Where pour lines may be and which pours may lie between two of them, before anything is timed: the half-millimeter grid,
 * the stops, pins and the even plan's lines, less what is avoided; depths within limits; floaters locked.
 *
 * Where no set of lines keeps everything, the least important rule gives way, for that layer only: first pours may be as
 * thin as 0.6 of the least depth, then floaters may stay loose, then pours may be thinner still. Pins, avoided heights and
 * depth limits never give way.
 */
import { rateAt } from '../../cure/equivalent-time.ts';
import { mixOf } from '../../resin/formula.ts';
import { STOP_TOLERANCE_MM } from '../../scene/tolerance.ts';
import { fewestBatches, usableMinutes } from '../mix.ts';
import { LEVELS_SHARE } from '../thinnest.ts';
import type { BestLayer, BestProblem, Option } from './problem.ts';

/** Lines are drawn on this grid, counted from the floor, mm; twice, three times as coarse in castings too tall for it. */
const GRID_MM = 0.5;
const MOST_HEIGHTS = 1200;
/** Heights typed in decimals carry noise far below this. */
const ROUNDING_MM = 1e-9;
/** Lines this near to each other are one. */
const SAME_LINE_MM = 1e-6;
/** Money and masses are compared in millionths, ratios in billionths, depths in micrometers: whole numbers, so that ties are ties. */
const MILLION = 1e6;
const RATIO_DIGITS = 1e9;

export interface Reach {
  /** Index of its bottom among the layer's lines. */
  readonly low: number;
  readonly fromMm: number;
  readonly toMm: number;
  /** What the coolest plan compares, onto a cured surface and onto a tacky one: steps of warmth, else depth over limit in billionths. */
  readonly warmth: number;
  readonly tackyWarmth: number;
  /** What it costs, in millionths of the money or of a gram. */
  readonly cost: number;
  /** Depth squared, µm²: the smaller their sum, the more even the pours. */
  readonly uneven: number;
  readonly shows: number;
  /** Its cups stay usable while the room is no warmer, °C. */
  readonly upToC: number;
}

export interface Choice {
  readonly option: Option;
  /** By line, from the second up: the pours that may end there, the deepest first. */
  readonly reaches: readonly (readonly Reach[])[];
}

export interface LinedLayer {
  readonly layer: BestLayer;
  readonly linesMm: readonly number[];
  /** The formulas with which it can be poured. */
  readonly choices: readonly Choice[];
  readonly loosened: Rung;
}

/** What a layer's pours must keep, from the strictest down. */
interface Rung {
  readonly locks: boolean;
  readonly leastShare: number;
}

const RUNGS: readonly Rung[] = [
  { locks: true, leastShare: 1 },
  { locks: true, leastShare: LEVELS_SHARE },
  { locks: false, leastShare: 1 },
  { locks: false, leastShare: LEVELS_SHARE },
  { locks: false, leastShare: 0 },
];

/** Null: within its pins and what it avoids a layer can't be poured in any of its formulas. */
export function linesOf(problem: BestProblem, layer: BestLayer): LinedLayer | null {
  const linesMm = heightsOf(problem, layer);
  const netMl = linesMm.map((atMm) => problem.netBelowMl(atMm));
  const pinned = linesMm.map((atMm) => problem.pinsMm.some((pin) => Math.abs(pin - atMm) <= SAME_LINE_MM));
  const all = layer.options.map((option) => reachesOf(problem, option, { linesMm, netMl, pinned }));
  for (const loosened of RUNGS) {
    const choices = layer.options.flatMap((option, i): Choice[] => {
      const reaches = all[i].map((ending) => ending.filter((reach) => keeps(problem, option, reach, loosened)));
      return isReachable(reaches) ? [{ option, reaches }] : [];
    });
    if (choices.length > 0) return { layer, linesMm, choices, loosened };
  }
  return null;
}

function heightsOf({ layers, pinsMm, avoid, alsoMm }: BestProblem, { fromMm, toMm }: BestLayer): number[] {
  const fillMm = layers[layers.length - 1].toMm;
  const stepMm = GRID_MM * Math.ceil(fillMm / GRID_MM / MOST_HEIGHTS);
  const inside = (atMm: number) => atMm > fromMm + SAME_LINE_MM && atMm < toMm - SAME_LINE_MM;
  const free = (atMm: number) => !avoid.some((span) => atMm >= span.fromMm - ROUNDING_MM && atMm <= span.toMm + ROUNDING_MM);
  const grid = Array.from({ length: Math.max(0, Math.ceil((toMm - fromMm) / stepMm) + 1) }, (_, i) => (Math.floor(fromMm / stepMm) + i) * stepMm);
  const lines = [...pinsMm.filter(inside), ...[...grid, ...alsoMm].filter((atMm) => inside(atMm) && free(atMm))];
  const sorted = [fromMm, ...lines.sort((a, b) => a - b), toMm];
  return sorted.filter((atMm, i) => i === 0 || atMm - sorted[i - 1] > SAME_LINE_MM);
}

interface Lines {
  readonly linesMm: readonly number[];
  readonly netMl: readonly number[];
  readonly pinned: readonly boolean[];
}

function reachesOf(problem: BestProblem, option: Option, { linesMm, netMl, pinned }: Lines): Reach[][] {
  const costOf = costing(problem, option);
  return linesMm.map((toMm, k) => {
    const ending: Reach[] = [];
    for (let low = k - 1; low >= 0; low--) {
      const fromMm = linesMm[low];
      const depthMm = toMm - fromMm;
      if (depthMm > option.limitMm + ROUNDING_MM) break;
      const cups = costOf(netMl[k] - netMl[low]);
      if (cups) {
        ending.push({
          low,
          fromMm,
          toMm,
          ...warmthOf(option, depthMm),
          cost: cups.cost,
          uneven: Math.round(depthMm * 1000) ** 2,
          shows: k === linesMm.length - 1 ? 0 : problem.shows(toMm),
          upToC: cups.upToC,
        });
      }
      // No pour goes through a pin.
      if (pinned[low]) break;
    }
    return ending.reverse();
  });
}

function warmthOf({ limitMm, warmth }: Option, depthMm: number): Pick<Reach, 'warmth' | 'tackyWarmth'> {
  if (warmth) return { warmth: warmth(depthMm, false), tackyWarmth: warmth(depthMm, true) };
  const ratio = Math.round((depthMm / limitMm) * RATIO_DIGITS);
  return { warmth: ratio, tackyWarmth: ratio };
}

/** What a pour of so much resin costs, and up to which room its cups stay usable; null when so many cups can't be poured in time. */
function costing({ pace, expenses, cupMin }: BestProblem, { formula }: Option): (netMl: number) => { cost: number; upToC: number } | null {
  const { holdUpMl, allowanceFraction } = pace.scene.bench;
  const { densityGPerMl } = mixOf(formula);
  const each = expenses.perMl ? (expenses.perMl.get(formula.id) ?? NaN) : densityGPerMl;
  const perPour = expenses.perMl ? expenses.perPour : 0;
  return (netMl) => {
    const neededMl = (Math.max(0, netMl) / (1 - formula.shrinkageFraction)) * (1 + allowanceFraction);
    const count = fewestBatches(neededMl, holdUpMl, densityGPerMl, formula.maxBatchG);
    const mixMl = neededMl + count * holdUpMl;
    const cost = Math.round((mixMl * each + perPour) * MILLION);
    if (cupMin === null) return { cost, upToC: Infinity };
    if (count * cupMin > pace.pourMin + ROUNDING_MM) return null;
    // Usable minutes halve for every 10 °C: solved for the room's temperature.
    const atLabel = usableMinutes(formula, (mixMl * densityGPerMl) / count, formula.atC);
    const upToC = formula.atC + Math.log2(atLabel / cupMin) / Math.log2(rateAt(1, 0));
    return { cost, upToC };
  };
}

/** Money where every price is known, else null, and grams of mix, of pours with their routes. */
export function spent(problem: BestProblem, pours: readonly { readonly fromMm: number; readonly toMm: number; readonly formula: Option['formula']; readonly route: string | null }[]): { money: number | null; grams: number } {
  const { expenses, netBelowMl } = problem;
  const total = (counted: BestProblem) => pours.reduce((sum, { fromMm, toMm, formula }) => sum + costing({ ...counted, cupMin: null }, { formula, limitMm: 0 })(netBelowMl(toMm) - netBelowMl(fromMm))!.cost, 0) / MILLION;
  const scuffs = pours.filter(({ route }) => route === 'cure-scuff-wipe').length;
  return { money: expenses.perMl ? total(problem) + scuffs * expenses.perScuff : null, grams: total({ ...problem, expenses: { ...expenses, perMl: null } }) };
}

function keeps({ floaters }: BestProblem, { formula }: Option, { fromMm, toMm }: Reach, rung: Rung): boolean {
  if (toMm - fromMm < rung.leastShare * formula.minDepthMm - ROUNDING_MM) return false;
  if (!rung.locks) return true;
  return floaters.every(({ baseMm, safeLockMm }) => {
    const covered = baseMm + STOP_TOLERANCE_MM + ROUNDING_MM;
    return fromMm > covered || toMm <= covered || toMm - baseMm <= safeLockMm + ROUNDING_MM;
  });
}

function isReachable(reaches: readonly (readonly Reach[])[]): boolean {
  const reached = [true];
  for (let k = 1; k < reaches.length; k++) reached.push(reaches[k].some(({ low }) => reached[low]));
  return reached[reached.length - 1];
}
