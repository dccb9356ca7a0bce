/** Heat in whole bodies, rings and boxes, by the solver of castings, against tabulated series, closed forms and criticality. */
import { AIR, RESIN } from '../../src/core/cure/body/cells.ts';
import { FACING_ASIDE, FACING_DOWN, FACING_UP, type OuterFaces } from '../../src/core/cure/body/faces.ts';
import { filmTables, takeLosses } from '../../src/core/cure/body/films.ts';
import { ringGrid, linesThrough } from '../../src/core/cure/body/grid.ts';
import { EPOXY, UNIT } from '../core/cure/bodies.ts';
import { steadyHeat, textbookSlab } from '../core/cure/laws.ts';
import { atEnd, block, criticalDelta, cylinder, HELD, plain, run, type Films } from '../core/cure/plain-bodies.ts';
import type { EvidenceRow } from './evidence-row.ts';
import stacks from './heat-stacks.json' with { type: 'json' };

const SHORT_CYLINDER = 'product of the slab and cylinder series (Incropera & DeWitt, multidimensional conduction); values of physics §2';
const PRODUCT = 'product of slab series (Incropera & DeWitt, multidimensional conduction) of the tabulated θ in physics §2';
const SLAB = 'worked slab of physics §2: series, Incropera & DeWitt';
const GENERATION = 'closed forms qL²/2k, qR²/4k, qR²/6k and qV/hS (Incropera & DeWitt, energy generation); physics-tables §5.4';
const CRITICAL = 'Frank-Kamenetskii; spectral solution in physics §3';
const STACKS = 'the stack solved by an independent stiff solver, grid-converged (heat-reference)';
const FILMS = 'Churchill & Chu 1975 and McAdams with air of physics-tables §2.3, plus gray radiation of ε 0.9; recomputed there';
/** Of θ: what 41 cells across leave; a quarter of it on twice as many (body-order.test.ts). */
const GRID = 5e-4;
/** A rim is two faces' extrapolation from its cell's middle. */
const RIM = 3e-4;
/** Share of a critical δ: what some fifteen cells across leave. */
const CELLS = 0.008;
const FINE = { temperatureToleranceK: 0.005 };

const EVEN: Films = { up: 10, down: 10, aside: 10 };
const UPRIGHT_ONLY: Films = { up: 0, down: 0, aside: HELD };
const LEVEL_ONLY: Films = { up: HELD, down: HELD, aside: 0 };
const ALL_HELD: Films = { up: HELD, down: HELD, aside: HELD };

/** θ of a casting R 50 × 80 mm from 80 °C in 20 °C air, in its middle and at its rim. */
function shortCylinder(untilS: number): { middle: number; rim: number } {
  const cells = 101;
  const [middle, rim] = atEnd(plain({ grid: cylinder(50, 80, [cells, cells]), films: EVEN, airC: 20, startC: 80, endS: untilS }), [[0, 0, 40], [50, 0, 0]], FINE);
  // From the rim cell's middle outward both ways: what a face has of its cell's excess, 1 / (1 + h half / k).
  const half = (mm: number) => 1 / (1 + (10 * (mm / 1000)) / 2 / EPOXY.conductivityWPerMK);
  return { middle: (middle - 20) / 60, rim: ((rim - 20) / 60) * half(50 / cells) * half(80 / cells) };
}
const afterAnHour = lazily(() => shortCylinder(3600));
const afterTwoHours = lazily(() => shortCylinder(7200));

/** θ in the middle of a block whose every half-side has this Biot number, after this Fourier number. */
function blockMiddle(biot: number, fourier: number): number {
  const cells = 41;
  const film = { up: biot, down: biot, aside: biot };
  return atEnd(plain({ grid: block([2000, 2000, 2000], [cells, cells, cells]), films: film, startC: 1, endS: fourier, material: UNIT }), [[0, 0, 1000]], { temperatureToleranceK: 1e-4 })[0];
}

function workedSlab(untilS: number): number {
  const grid = block([10, 10, 50], [1, 1, 101]);
  return atEnd(plain({ grid, films: { ...EVEN, aside: 0 }, airC: 20, startC: 80, endS: untilS }), [[0, 0, 25]], FINE)[0];
}

const STEADY_W_PER_M3 = 5000;
/** s. Twenty times the slowest body's own time. */
const STEADY_S = 2e6;

function steady(body: Pick<Parameters<typeof plain>[0], 'grid' | 'films' | 'sample' | 'squareness'>, middle: readonly [number, number, number]): number {
  return atEnd(plain({ ...body, airC: 20, startC: 20, endS: STEADY_S, law: steadyHeat(STEADY_W_PER_M3, EPOXY.densityKgPerM3) }), [middle], FINE)[0] - 20;
}

/** A ball of radius 50 mm in rings, its surface in steps. */
function ball(): number {
  const grid = ringGrid(linesThrough([0, 52], 1), linesThrough([-52, 52], 1));
  const squareness = (axis: 0 | 1 | 2, x: number, _y: number, z: number) => Math.abs(axis === 0 ? x : z) / Math.hypot(x, z);
  return steady({ grid, films: EVEN, squareness, sample: (x, y, z) => (Math.hypot(x, y, z) < 50 ? RESIN : AIR) }, [0, 0, 0]);
}

/** The reacting slab: faces at 120 °C, half the thickness 10 mm. */
const reactingSlab = lazily(() => {
  const material = { densityKgPerM3: 1304, heatCapacityJPerKgK: 1000, conductivityWPerMK: 0.3 };
  // 0.6 × 1200 kg/m³ × 280 kJ/kg, by the density above.
  const law = textbookSlab((0.6 * 1200 * 280e3) / material.densityKgPerM3);
  const body = plain({ grid: block([10, 10, 20], [1, 1, 81]), films: LEVEL_ONLY, airC: 120, startC: 20, endS: 300, material, law });
  const { temperatureC, atS } = run(body, { temperatureToleranceK: 0.005, conversionTolerance: 2e-4, probesMm: [[0, 0, 10]] }).probes[0];
  return { peakC: temperatureC, atS };
});

/** A stack of the reference as a body of one column, with a cell in the middle of each pour. */
function column({ name, case: build, expect }: (typeof stacks.cases)[number]): EvidenceRow[] {
  const S_PER_H = 3600;
  const once = lazily(() => {
    const lines = [0];
    const pours = build.pours.map(({ depthMm, atH, ...pour }) => {
      const fromMm = lines[lines.length - 1];
      const cells = 2 * Math.round(depthMm) + 1;
      for (let c = 1; c <= cells; c++) lines.push(fromMm + (depthMm * c) / cells);
      const mixC = 'mixC' in pour ? (pour.mixC as number) : undefined;
      return { fromMm, toMm: fromMm + depthMm, atS: atH * S_PER_H, mixC, kinetics: build.kinetics, material: build.material };
    });
    const grid = { ...block([10, 10, 1], [1, 1, 1]), zMm: Float64Array.from(lines), nz: lines.length - 1 };
    const body = {
      ...plain({ grid, films: { up: build.top.hWPerM2K, down: build.bottom.hWPerM2K, aside: 0 }, endS: build.endH * S_PER_H }),
      pours, room: build.room.map(({ fromH, temperatureC }) => ({ fromS: fromH * S_PER_H, temperatureC })),
    };
    const heat = run(body, { temperatureToleranceK: 0.002, conversionTolerance: 1e-4, probesMm: pours.map(({ fromMm, toMm }) => [0, 0, (fromMm + toMm) / 2] as const) });
    return pours.map(({ atS }, p) => {
      const until = pours[p + 1]?.atS ?? Infinity;
      return Math.max(...heat.course.probesC[p].filter((_, i) => heat.course.atS[i] > atS && heat.course.atS[i] <= until));
    });
  });
  return expect.pours.map(({ midPeakC }, p) => ({
    subject: `as a column of boxes, ${name}: pour ${p + 1}, its middle at its hottest, °C`,
    source: STACKS, expected: midPeakC, tolerance: 0.05, got: () => once()[p],
  }));
}

function lazily<T>(make: () => T): () => T {
  let made: { value: T } | undefined;
  return () => (made ??= { value: make() }).value;
}

/** What a face of 1 m² of 60 °C loses to air of 20 °C per kelvin, its film and radiation together. */
function film(facing: number, stillAirMm: number): number {
  const outer: OuterFaces = { count: 1, cell: Int32Array.of(0), areaM2: Float64Array.of(1), innerWPerM2K: Float64Array.of(HELD), facing: Uint8Array.of(facing) };
  const still = { stillAirMm };
  return takeLosses(outer, filmTables({ up: still, down: still, aside: still }, 20), Float64Array.of(60), new Float64Array(1), null) / 40;
}

const RADIATION_60_20 = 6.294183;

export const rows: readonly EvidenceRow[] = [
  { subject: 'cylinder R 50 × 80 mm in rings, 3600 s: θ in its middle', source: SHORT_CYLINDER, expected: 0.81941, tolerance: GRID, got: () => afterAnHour().middle },
  { subject: 'cylinder R 50 × 80 mm in rings, 3600 s: θ at its rim', source: SHORT_CYLINDER, expected: 0.17578, tolerance: RIM, got: () => afterAnHour().rim },
  { subject: 'cylinder R 50 × 80 mm in rings, 7200 s: θ in its middle', source: SHORT_CYLINDER, expected: 0.46625, tolerance: GRID, got: () => afterTwoHours().middle },
  { subject: 'cylinder R 50 × 80 mm in rings, 7200 s: θ at its rim', source: SHORT_CYLINDER, expected: 0.08847, tolerance: RIM, got: () => afterTwoHours().rim },
  { subject: 'cube in boxes, Bi 1, Fo 0.2: θ in its middle', source: PRODUCT, expected: 0.950642 ** 3, tolerance: GRID, got: () => blockMiddle(1, 0.2) },
  { subject: 'cube in boxes, Bi 5, Fo 0.5: θ in its middle', source: PRODUCT, expected: 0.523109 ** 3, tolerance: GRID, got: () => blockMiddle(5, 0.5) },
  { subject: 'slab of 50 mm as a column of boxes, 1800 s: middle, °C', source: SLAB, expected: 73.9004, tolerance: 0.02, got: () => workedSlab(1800) },
  { subject: 'slab of 50 mm as a column of boxes, 3600 s: middle, °C', source: SLAB, expected: 63.2221, tolerance: 0.02, got: () => workedSlab(3600) },
  { subject: 'slab of 50 mm as a column of boxes, 7200 s: middle, °C', source: SLAB, expected: 47.3855, tolerance: 0.02, got: () => workedSlab(7200) },
  {
    subject: 'even heat of 5000 W/m³ in a slab of 50 mm: middle over air, K', source: GENERATION, expected: 20.3125, tolerance: 0.02,
    got: () => steady({ grid: block([10, 10, 50], [1, 1, 41]), films: { ...EVEN, aside: 0 } }, [0, 0, 25]),
  },
  {
    subject: 'even heat in a long cylinder of R 50 mm in rings: axis over air, K', source: GENERATION, expected: 15.625 + 12.5, tolerance: 0.02,
    got: () => steady({ grid: cylinder(50, 1, [50, 1]), films: { up: 0, down: 0, aside: 10 } }, [0, 0, 0]),
  },
  // The surface goes in steps of 1 mm, a fiftieth of the radius.
  { subject: 'even heat in a ball of R 50 mm cut out of rings: middle over air, K', source: GENERATION, expected: 10.4167 + 8.3333, tolerance: 0.1, got: ball },
  ...critical(),
  { subject: 'reacting slab as a column of boxes: hottest in its middle, °C', source: 'textbook exercise, stiff solver (physics §4, case B)', expected: 160.34, tolerance: 0.05, got: () => reactingSlab().peakC },
  { subject: 'reacting slab as a column of boxes: when, s', source: 'textbook exercise, stiff solver (physics §4, case B)', expected: 104.5, tolerance: 0.5, got: () => reactingSlab().atS },
  ...stacks.cases.flatMap(column),
  { subject: 'upright face 0.1 m high, 60 in 20 °C: film and radiation, W/m²K', source: FILMS, expected: 6.04299 + RADIATION_60_20, tolerance: 2e-3, got: () => film(FACING_ASIDE, 100) },
  { subject: 'level face up, 0.2 m square, 60 in 20 °C: film and radiation, W/m²K', source: FILMS, expected: 7.25149 + RADIATION_60_20, tolerance: 2e-3, got: () => film(FACING_UP, 50) },
  { subject: 'level face down, 0.2 m square, 60 in 20 °C: film and radiation, W/m²K', source: FILMS, expected: 3.62574 + RADIATION_60_20, tolerance: 2e-3, got: () => film(FACING_DOWN, 50) },
];

function critical(): EvidenceRow[] {
  const shapes: readonly [string, number, () => number][] = [
    ['slab (half-thickness)', 0.878458, () => criticalDelta(block([1, 1, 2000], [1, 1, 25]), LEVEL_ONLY, [0.5, 1.5])],
    ['long cylinder in rings', 2, () => criticalDelta(cylinder(1000, 1, [16, 1]), UPRIGHT_ONLY, [1, 3])],
    ['long square rod (half-side)', 1.702031, () => criticalDelta(block([2000, 2000, 1], [17, 17, 1]), UPRIGHT_ONLY, [1, 3])],
    ['cube (half-side)', 2.475035, () => criticalDelta(block([2000, 2000, 2000], [15, 15, 15]), ALL_HELD, [1.5, 3.5])],
    ['cylinder as high as wide, in rings', 2.765795, () => criticalDelta(cylinder(1000, 2000, [12, 24]), ALL_HELD, [2, 4])],
  ];
  return shapes.map(([shape, expected, got]) => ({ subject: `critical self-heating of a ${shape}, found by running through time: δ`, source: CRITICAL, expected, tolerance: CELLS * expected, got }));
}
