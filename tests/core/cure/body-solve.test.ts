/** The linear solver under it all, against elimination by hand. */
import { describe, expect, it } from 'vitest';
import { factorize, solve, solvingFor, type BandMatrix } from '../../../src/core/cure/body/conjugate-gradients.ts';
import { seeded } from '../../view/seeded.ts';

const [NX, NY, NZ] = [4, 3, 3];
const LAYER = NX * NY;
const CELLS = LAYER * NZ;
const LENGTH = LAYER * (NZ + 2);

/** Conductances over six decades, as metal in foam has; `shift` is what is on the diagonal beside them. */
function matrixFor(random: () => number, shift: number): BandMatrix {
  const [gx, gy, gz, diagonal] = [0, 1, 2, 3].map(() => new Float64Array(LENGTH));
  const any = () => 10 ** (6 * random() - 3);
  for (let k = 0; k < NZ; k++) {
    for (let j = 0; j < NY; j++) {
      for (let i = 0; i < NX; i++) {
        const cell = (k + 1) * LAYER + j * NX + i;
        if (i + 1 < NX) gx[cell] = any();
        if (j + 1 < NY) gy[cell] = any();
        if (k + 1 < NZ) gz[cell] = any();
      }
    }
  }
  for (let c = LAYER; c < LAYER + CELLS; c++) diagonal[c] = shift + gx[c] + gx[c - 1] + gy[c] + gy[c - NX] + gz[c] + gz[c - LAYER];
  return { from: LAYER, to: LAYER + CELLS, stepY: NX, stepZ: LAYER, diagonal, gx, gy, gz };
}

/** Gauss elimination with pivoting on the full matrix. */
function eliminated({ diagonal, gx, gy, gz }: BandMatrix, b: Float64Array): number[] {
  const rows = Array.from({ length: CELLS }, () => new Array<number>(CELLS + 1).fill(0));
  for (let r = 0; r < CELLS; r++) {
    const cell = r + LAYER;
    rows[r][r] = diagonal[cell];
    rows[r][CELLS] = b[cell];
    for (const [band, on] of [[gx, 1], [gy, NX], [gz, LAYER]] as const) {
      if (r + on < CELLS) [rows[r][r + on], rows[r + on][r]] = [-band[cell], -band[cell]];
    }
  }
  for (let c = 0; c < CELLS; c++) {
    const best = rows.slice(c).reduce((at, row, i) => (Math.abs(row[c]) > Math.abs(rows[at][c]) ? c + i : at), c);
    [rows[c], rows[best]] = [rows[best], rows[c]];
    for (let r = 0; r < CELLS; r++) {
      if (r === c) continue;
      const share = rows[r][c] / rows[c][c];
      for (let k = c; k <= CELLS; k++) rows[r][k] -= share * rows[c][k];
    }
  }
  return rows.map((row, r) => row[CELLS] / row[r]);
}

describe('conjugate gradients', () => {
  it.each([1, 2, 3, 4, 5])('gives what elimination gives, seed %i', (seed) => {
    const random = seeded(seed);
    const matrix = matrixFor(random, 0.5);
    const b = new Float64Array(LENGTH);
    for (let c = LAYER; c < LAYER + CELLS; c++) b[c] = random() - 0.5;
    const x = new Float64Array(LENGTH);
    for (let c = LAYER; c < LAYER + CELLS; c++) x[c] = random(); // any first guess
    const work = solvingFor(LENGTH);
    expect(factorize(matrix, work)).toBe(true);
    expect(solve(matrix, work, b, { x, limit: 1e-24, mostRounds: 500 })).toBeGreaterThan(0);
    // The right side is near 1 and the matrix at least 0.5: an energy of 1e-24 is an error of some 1e-12.
    eliminated(matrix, b).forEach((value, r) => expect(Math.abs(x[r + LAYER] - value)).toBeLessThan(1e-10));
  });

  it('says so where the matrix is not positive', () => {
    const work = solvingFor(LENGTH);
    const bad = matrixFor(seeded(6), -1e9);
    expect(factorize(bad, work)).toBe(false);
    // Every diagonal is positive here, the whole is not: its rows sum to less than nothing.
    const sly = matrixFor(seeded(6), -1e-4);
    expect(factorize(sly, work)).toBe(true);
    const b = new Float64Array(LENGTH).fill(1);
    expect(solve(sly, work, b, { x: new Float64Array(LENGTH), limit: 1e-24, mostRounds: 500 })).toBe(-1);
  });

  it('stops where rounds run out, and begins afresh after a solve that left the numbers', () => {
    const work = solvingFor(LENGTH);
    const matrix = matrixFor(seeded(7), 1e-6);
    const b = new Float64Array(LENGTH).fill(1);
    factorize(matrix, work);
    expect(solve(matrix, work, b, { x: new Float64Array(LENGTH), limit: 1e-30, mostRounds: 2 })).toBe(-1);
    expect(solve(matrix, work, new Float64Array(LENGTH).fill(NaN), { x: new Float64Array(LENGTH), limit: 1e-12, mostRounds: 50 })).toBe(-1);
    expect(solve(matrix, work, b, { x: new Float64Array(LENGTH), limit: 1e-12, mostRounds: 500 })).toBeGreaterThan(0);
  });
});
