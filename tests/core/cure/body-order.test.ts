/** How fast the error of a whole body's heat falls: with its cells, and with its steps. The other numbers are in rows-body.ts. */
import { describe, expect, it } from 'vitest';
import { facesOf } from '../../../src/core/cure/body/faces.ts';
import { cellsByLayer, RESIN } from '../../../src/core/cure/body/cells.ts';
import { filmTables } from '../../../src/core/cure/body/films.ts';
import { paddedLength } from '../../../src/core/cure/body/grid.ts';
import { accept, lookAtStart, prepare, runStage, stepperFor, type BodyState } from '../../../src/core/cure/body/stepper.ts';
import { tabulated } from '../../../src/core/cure/rate-table.ts';
import type { Kinetics } from '../../../src/core/cure/kinetics.ts';
import { EPOXY } from './bodies.ts';
import { atEnd, block, cylinder, endOf, plain } from './plain-bodies.ts';

/** Smooth: what is to be seen is the method, not a kink of the law. */
const RESIN_KINETICS: Kinetics = { heatJPerKg: 370_000, activationJPerMol: 52_000, k2PerS: 1.2e-4, atC: 23, k1OverK2: 0.1, m: 1, n: 2, gelAlpha: 0.58 };
const S_PER_H = 3600;

describe('order in the cells', () => {
  it('is at least 1.7 in the middle of a cooling cylinder, rings against the series of physics §2', () => {
    const error = (cells: number): number => {
      const body = plain({ grid: cylinder(50, 80, [cells, cells + 1]), films: { up: 10, down: 10, aside: 10 }, airC: 20, startC: 80, endS: 3600 });
      // The series to more digits: 0.9127269 of the slab times 0.8977616 of the cylinder.
      return Math.abs((atEnd(body, [[0, 0, 40]], { temperatureToleranceK: 0.001 })[0] - 20) / 60 - 0.8194112);
    };
    expect(Math.log2(error(10) / error(20))).toBeGreaterThan(1.7);
    expect(Math.log2(error(20) / error(40))).toBeGreaterThan(1.7);
  });

  it('is at least 1.7 in the middle of a curing block, boxes against each other', () => {
    const middle = (cells: number): number => {
      const body = plain({ grid: block([30, 30, 15], [cells, cells, cells]), films: { up: 10, down: 8, aside: 6 }, airC: 23, startC: 25, endS: 4 * S_PER_H, law: RESIN_KINETICS });
      return atEnd(body, [[0, 0, 7.5]], { temperatureToleranceK: 5e-4, conversionTolerance: 1e-5 })[0];
    };
    const [coarse, fine, finest] = [middle(3), middle(9), middle(27)];
    expect(Math.log((coarse - fine) / (fine - finest)) / Math.log(3)).toBeGreaterThan(1.7);
  });
});

describe('order in the steps', () => {
  it.each([
    ['3 for one cell, where heat and cure are not stiff', 1, 2.7],
    // As for every method of its kind: the embedded error sees it, so steps are chosen by what they really give.
    ['at least 2 for nine cells, where conduction is stiff', 9, 1.9],
  ])('is %s', (_, cells, order) => {
    const ends = [12, 24, 48, 768].map((steps) => curedColumn(cells, steps));
    for (const told of ['middleC', 'conversion'] as const) {
      const errors = ends.slice(0, 3).map((end) => Math.abs(end[told] - ends[3][told]));
      expect(Math.log2(errors[0] / errors[1]), told).toBeGreaterThan(order);
      expect(Math.log2(errors[1] / errors[2]), told).toBeGreaterThan(order);
    }
  });
});

/** A pour of 12 mm after 3 h, in so many equal steps. */
function curedColumn(count: number, steps: number): { middleC: number; conversion: number } {
  const grid = block([10, 10, 12], [1, 1, count]);
  const cells = endOf(cellsByLayer(grid, [], () => RESIN, () => EPOXY));
  const length = paddedLength(grid);
  const film = { hWPerM2K: 10 };
  const law = tabulated(RESIN_KINETICS);
  const state: BodyState = {
    temperatureC: new Float64Array(length).fill(25), // Begun: over √α, the table has no slope at α = 0, which costs the first step its order.
    conversion: new Float64Array(count).fill(0.01),
    capacityJPerK: cells.capacityJPerK, curingCell: cells.resinCell,
    cureJ: cells.resinM3.map((m3) => m3 * EPOXY.densityKgPerM3 * law.heatJPerKg),
    spans: [{ from: 0, to: count, law }],
    faces: facesOf(grid, cells, { layers: grid.nz }),
    films: filmTables({ up: film, down: film, aside: { hWPerM2K: 0 } }, 23),
    from: grid.layer, to: grid.layer * (grid.nz + 1), curing: count, lostJ: 0,
  };
  // So tight that the solves add nothing.
  const stepper = stepperFor(state, { temperatureToleranceK: 1e-9, conversionTolerance: 1 });
  const h = (3 * S_PER_H) / steps;
  for (let step = 0; step < steps; step++) {
    lookAtStart(stepper);
    expect(prepare(stepper, h)).toBe(true);
    for (let s = 0; s < 4; s++) expect(runStage(stepper, s, h)).toBe(true);
    accept(stepper);
  }
  const middle = (count - 1) / 2;
  return { middleC: state.temperatureC[grid.layer * (1 + middle)], conversion: state.conversion[middle] };
}
