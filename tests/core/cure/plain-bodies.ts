/** Plain bodies to hold the solver of whole castings against: slabs, blocks, cylinders, balls, of any material and law. */
import type { Body, BodyHeat, BodyOptions } from '../../../src/core/cure/body/body.ts';
import { RESIN, type BodySampler } from '../../../src/core/cure/body/cells.ts';
import type { Squareness } from '../../../src/core/cure/body/faces.ts';
import { boxGrid, linesThrough, ringGrid, type BodyGrid } from '../../../src/core/cure/body/grid.ts';
import { runBody } from '../../../src/core/cure/body/run.ts';
import type { Kinetics, ThermalMaterial } from '../../../src/core/cure/kinetics.ts';
import type { RateLaw } from '../../../src/core/cure/stack-types.ts';
import { EPOXY, UNIT } from './bodies.ts';
import { INERT, selfHeating } from './laws.ts';

/** A film so thin that the face has the air's temperature, W/m²K. */
export const HELD = 1e9;

/** W/m²K. */
export interface Films {
  readonly up: number;
  readonly down: number;
  readonly aside: number;
}

export interface PlainBody {
  readonly grid: BodyGrid;
  readonly films: Films;
  readonly airC?: number;
  readonly startC?: number;
  readonly endS: number;
  readonly material?: ThermalMaterial;
  readonly law?: Kinetics | RateLaw;
  readonly sample?: BodySampler;
  readonly squareness?: Squareness;
}

/** One pour that fills the grid. */
export function plain({ grid, films, airC = 0, startC = 0, endS, material = EPOXY, law = INERT, sample = () => RESIN, squareness }: PlainBody): Body {
  const { zMm } = grid;
  return {
    grid, endS, sample, squareness,
    pours: [{ fromMm: zMm[0], toMm: zMm[zMm.length - 1], atS: 0, mixC: startC, kinetics: law, material }],
    solids: [], watched: [],
    films: { up: { hWPerM2K: films.up }, down: { hWPerM2K: films.down }, aside: { hWPerM2K: films.aside } },
    room: [{ fromS: 0, temperatureC: airC }],
  };
}

/** What work that gives others a turn comes to. */
export function endOf<T>(work: Generator<unknown, T>): T {
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
  }
}

/** Every run closes its balance to 0.1 %, or the case fails. */
export function run(body: Body, options: BodyOptions = {}): BodyHeat {
  const heat = endOf(runBody(body, options));
  if (heat.stuckAtS !== null) throw new Error(`stuck at ${heat.stuckAtS} s`);
  if (!(heat.energyBalance <= 1e-3)) throw new Error(`${heat.energyBalance} of the heat is not accounted for`);
  return heat;
}

/** Temperatures of the probes at the end. */
export function atEnd(body: Body, probesMm: readonly (readonly [number, number, number])[], options: BodyOptions = {}): number[] {
  return run(body, { ...options, probesMm }).course.probesC.map((course) => course[course.length - 1]);
}

/** A block of equal cells, its middle at the origin in x and y, its foot at height 0. */
export function block(sidesMm: readonly [number, number, number], cells: readonly [number, number, number]): BodyGrid {
  const [x, y, z] = sidesMm;
  return boxGrid(linesThrough([-x / 2, x / 2], x / cells[0]), linesThrough([-y / 2, y / 2], y / cells[1]), linesThrough([0, z], z / cells[2]));
}

export function cylinder(radiusMm: number, heightMm: number, cells: readonly [number, number]): BodyGrid {
  return ringGrid(linesThrough([0, radiusMm], radiusMm / cells[0]), linesThrough([0, heightMm], heightMm / cells[1]));
}

/** Diffusion times in which a body with any steady state has reached it, but for one within 0.1 % of the last. */
const LONG = 200;
const HALVINGS = 9;

/**
 * The largest Frank-Kamenetskii number δ with a steady state, by halving between `low` and `high`. The body, of half
 * thickness or radius 1 m and unit constants, heats itself with δ e^θ, and is run on: it settles, or its heat outruns
 * every step, which is what `stuckAtS` tells.
 */
export function criticalDelta(grid: BodyGrid, films: Films, [low, high]: readonly [number, number]): number {
  let settled = low;
  let ranAway = high;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (settled + ranAway) / 2;
    const heat = endOf(runBody(plain({ grid, films, endS: LONG, material: UNIT, law: selfHeating(middle) }), { temperatureToleranceK: 0.005 }));
    if (heat.stuckAtS === null) settled = middle;
    else ranAway = middle;
  }
  return (settled + ranAway) / 2;
}
