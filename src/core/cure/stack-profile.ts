/** The stack along its height at the moment a run has reached: for charts. */
import type { StackProfile } from './stack-types.ts';
import type { StackState } from './stack.ts';
import { unaccountedShare } from './stack-balance.ts';

/** Middles of all cells, from the floor up. */
export function profileOf({ grid, temperatureC, conversion }: StackState): StackProfile {
  const count = temperatureC.length;
  const heightMm = Float64Array.from({ length: count }, (_, i) => (grid!.edgeMm[i] + grid!.edgeMm[i + 1]) / 2);
  const pour = new Uint16Array(count);
  for (const [k, { from, to }] of (grid?.pours ?? []).entries()) pour.fill(k, from, to);
  return { heightMm, temperatureC: temperatureC.slice(), conversion: conversion.slice(), pour };
}

/** Unaccounted share of the heat released by the run so far; see stack-balance.ts. */
export function energyBalanceOf({ balance, grid, temperatureC }: StackState): number {
  return unaccountedShare(balance, grid, temperatureC);
}
