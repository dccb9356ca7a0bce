/**
 * Stretches of whole minutes at which something may start, each with what it has cost to get there: a step function
 * over time, kept as disjoint stretches in order, and its lower envelope.
 */
import { WEEK_MIN } from '../bench-calendar.ts';

/** Criteria in order of weight, each a whole number, each to be small. */
export type Value = readonly [number, number, number, number];

export interface Piece<T> {
  /** First and last whole minute. */
  readonly from: number;
  readonly to: number;
  readonly value: Value;
  /** How one gets there. */
  readonly of: T;
}

export const NOTHING_YET: Value = [0, 0, 0, 0];

/** Below 0 when the first is better, 0 when they are equal. */
export function compare(a: Value, b: Value): number {
  return a[0] - b[0] || a[1] - b[1] || a[2] - b[2] || a[3] - b[3];
}

export function sum(a: Value, b: Value): Value {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2], a[3] + b[3]];
}

/** The envelope with one more stretch: at each minute the better of the two, at a tie the one that was there. */
export function improved<T>(pieces: Piece<T>[], next: Piece<T>): Piece<T>[] {
  if (isCovered(pieces, next)) return pieces;
  const out: Piece<T>[] = [];
  let at = next.from;
  const take = (to: number) => {
    if (to < at) return;
    out.push(at === next.from && to === next.to ? next : { ...next, from: at, to });
    at = to + 1;
  };
  for (const piece of pieces) {
    if (piece.to < at || piece.from > next.to) {
      if (piece.from > next.to) take(next.to);
      out.push(piece);
      continue;
    }
    take(piece.from - 1);
    const end = Math.min(piece.to, next.to);
    if (compare(next.value, piece.value) < 0) {
      if (piece.from < at) out.push({ ...piece, to: at - 1 });
      take(end);
      if (piece.to > end) out.push({ ...piece, from: end + 1 });
    } else {
      out.push(piece);
      at = end + 1;
    }
  }
  take(next.to);
  return out;
}

function isCovered<T>(pieces: readonly Piece<T>[], next: Piece<T>): boolean {
  let at = next.from;
  for (const piece of pieces) {
    if (piece.to < at) continue;
    if (piece.from > at || compare(piece.value, next.value) > 0) return false;
    at = piece.to + 1;
    if (at > next.to) return true;
  }
  return false;
}

/**
 * Drops from the stretches after `settledMin` what is no better than the same time of an earlier week. From then on
 * weeks are alike: whatever follows a start can follow the same start whole weeks earlier, only sooner.
 */
export function withoutLaterWeeks<T>(pieces: Piece<T>[], settledMin: number): Piece<T>[] {
  if (pieces.length === 0 || pieces[pieces.length - 1].to - Math.max(settledMin, pieces[0].from) < WEEK_MIN) return pieces;
  const out: Piece<T>[] = [];
  /** By minute of the week: the best so far, as an envelope. */
  let week: Piece<null>[] = [];
  for (const piece of pieces) {
    if (piece.from < settledMin) {
      const end = Math.min(piece.to, settledMin - 1);
      out.push({ ...piece, to: end });
    }
    for (let from = Math.max(piece.from, settledMin); from <= piece.to; ) {
      const monday = Math.floor(from / WEEK_MIN) * WEEK_MIN;
      const to = Math.min(piece.to, monday + WEEK_MIN - 1);
      const before = week;
      const residue = { from: from - monday, to: to - monday, value: piece.value, of: null };
      week = improved(week, residue);
      if (week !== before) for (const part of better(before, residue)) out.push({ ...piece, from: monday + part.from, to: monday + part.to });
      from = to + 1;
    }
  }
  return joined(out);
}

/** The parts of a stretch that are better than an envelope. */
function better(pieces: readonly Piece<null>[], next: Piece<null>): { from: number; to: number }[] {
  const parts: { from: number; to: number }[] = [];
  let at = next.from;
  for (const piece of pieces) {
    if (piece.to < at || compare(piece.value, next.value) > 0) continue;
    if (piece.from > next.to) break;
    if (piece.from > at) parts.push({ from: at, to: piece.from - 1 });
    at = piece.to + 1;
  }
  if (at <= next.to) parts.push({ from: at, to: next.to });
  return parts;
}

/** Neighbors that were one stretch are one again. */
function joined<T>(pieces: Piece<T>[]): Piece<T>[] {
  const out: Piece<T>[] = [];
  for (const piece of pieces) {
    const last = out[out.length - 1];
    if (last && last.to + 1 === piece.from && last.of === piece.of && last.value === piece.value) out[out.length - 1] = { ...last, to: piece.to };
    else out.push(piece);
  }
  return out;
}
