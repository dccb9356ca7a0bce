/** Amounts as they are written down: mL to a tenth, grams as they are read off the scale, so that columns add up. */
import type { Plan, Pour } from '../core/plan/plan.ts';

export interface LedgerRow {
  readonly pour: number;
  readonly netMl: number;
  readonly mixMl: number;
  readonly partAG: number;
  /** null: a one-part formula. */
  readonly partBG: number | null;
  readonly cups: number;
  /** Cumulative readings of one cup; the cups of a pour are equal. */
  readonly stopsG: readonly number[];
  readonly tintG: number;
}

export interface Ledger {
  /** Without the pours that must not be poured. */
  readonly rows: ReadonlyMap<number, LedgerRow>;
  readonly total: { readonly netMl: number; readonly mixMl: number; readonly partAG: number; readonly partBG: number };
}

/** `halted`: pours that get no amounts. */
export function ledgerOf(plan: Plan, halted: ReadonlySet<number>): Ledger {
  const rows = new Map(plan.pours.filter(({ index }) => !halted.has(index)).map((pour) => [pour.index, rowOf(pour)]));
  const sum = (pick: (row: LedgerRow) => number): number => [...rows.values()].reduce((total, row) => total + pick(row), 0);
  return { rows, total: { netMl: sum((row) => row.netMl), mixMl: sum((row) => row.mixMl), partAG: sum((row) => row.partAG), partBG: sum((row) => row.partBG ?? 0) } };
}

function rowOf(pour: Pour): LedgerRow {
  const [first, second] = pour.batches[0].scaleStopsG;
  const cups = pour.batches.length;
  return {
    pour: pour.index,
    netMl: tenth(pour.netMl),
    mixMl: tenth(pour.mixMl),
    partAG: first * cups,
    partBG: second === undefined ? null : (second - first) * cups,
    cups,
    stopsG: pour.batches[0].scaleStopsG,
    tintG: pour.batches[0].tintG,
  };
}

const tenth = (value: number): number => Math.round(value * 10) / 10;
