/** A stack at a chosen height, mm up from the floor, at the moment a run has reached. */
import type { StackState } from '../../../src/core/cure/stack.ts';

/** On the parabola through the three nearest cells of the pour that a height lies in; up to its faces. */
export function temperatureAt(state: StackState, heightMm: number): number {
  return along(state, state.temperatureC, heightMm);
}

export function conversionAt(state: StackState, heightMm: number): number {
  return along(state, state.conversion, heightMm);
}

function along({ grid }: StackState, values: Float64Array, heightMm: number): number {
  if (!grid) throw new Error('Found no pour in the stack; expected one. Pour first.');
  const { edgeMm, pours } = grid;
  const { from, to } = pours.find((pour) => heightMm <= edgeMm[pour.to]) ?? pours[pours.length - 1];
  let cell = from;
  while (cell < to - 1 && edgeMm[cell + 1] < heightMm) cell++;
  const middle = Math.min(Math.max(cell, from + 1), to - 2);
  if (to - from < 3) return values[cell];
  let sum = 0;
  for (let i = middle - 1; i <= middle + 1; i++) {
    let weight = 1;
    for (let j = middle - 1; j <= middle + 1; j++) {
      if (j !== i) weight *= (heightMm - height(edgeMm, j)) / (height(edgeMm, i) - height(edgeMm, j));
    }
    sum += weight * values[i];
  }
  return sum;
}

function height(edgeMm: Float64Array, cell: number): number {
  return (edgeMm[cell] + edgeMm[cell + 1]) / 2;
}
