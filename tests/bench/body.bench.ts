/**
 * The heat of a whole casting in three dimensions: ten pours about a steel figure in a silicone mold on a table, one of
 * them deep enough to reach 72 °C, in 64 × 40 × 30 cells; CPU seconds of one thread. Its peaks are held against the same
 * cells at a tenth of the tolerance, which takes twice as long.
 */
import { RESIN } from '../../src/core/cure/body/cells.ts';
import type { Body, BodyHeat, BodyOptions } from '../../src/core/cure/body/body.ts';
import { boxGrid, linesThrough } from '../../src/core/cure/body/grid.ts';
import { runBody } from '../../src/core/cure/body/run.ts';
import { castInMaterial, TABLE_MATERIAL, wallMaterial } from '../../src/core/cure/body/thermal-materials.ts';
import { tabulated } from '../../src/core/cure/rate-table.ts';
import type { BenchRow } from './rows.ts';

/** Depth of each pour, mm, and how many cells it has: 27, with one of the floor and two of the table 30. */
const POURS = [[12, 2], [15, 3], [26, 5], [8, 2], [12, 2], [20, 4], [10, 2], [8, 2], [10, 2], [12, 3]] as const;
const GAP_S = 30 * 3600;
const ROOM_C = 23;
const MIX_C = 25;
const [WALL_MM, TABLE_MM] = [6, 20];
const [STEEL, WALL, TABLE] = [0, 1, 2];
const AIM = { seconds: 20, megabytes: 300, kelvin: 0.1, turnMs: 100, balance: 1e-3 };
const TIGHT: BodyOptions = { temperatureToleranceK: 0.005, conversionTolerance: 2e-4 };
const LAW = tabulated({
  heatJPerKg: 370_000, activationJPerMol: 52_000, k2PerS: 6.05e-5, atC: 23, k1OverK2: 0.03, m: 0.7, n: 1.7,
  brake: { c: 30, alpha0: 0.773, alphaPerK: 0.0045, atC: 25 }, gelAlpha: 0.58,
});

export async function bodyBench(): Promise<BenchRow[]> {
  const usual = measured({});
  const tight = measured(TIGHT);
  const error = Math.max(...usual.heat.pours.map(({ hottest }, p) => Math.abs(hottest.temperatureC - tight.heat.pours[p].hottest.temperatureC)));
  const figure = Math.abs(usual.heat.solids[0].hottest.temperatureC - tight.heat.solids[0].hottest.temperatureC);
  const row = (name: string, ours: number, baseline: number, unit: string): BenchRow => ({ name, ours, baseline, ratio: ours / baseline, aim: 1, unit });
  return [
    row('heat of 10 pours about a steel figure in 64 × 40 × 30 cells, CPU time of one thread against 20 s: times as long, at most', usual.seconds, AIM.seconds, 's'),
    row('the same, memory over what was in use before, against 300 MB: at most', usual.megabytes, AIM.megabytes, 'MB'),
    row('the same, largest error of ten peaks against a tenth of the tolerance: at most', error, AIM.kelvin, 'K'),
    row('the same, error of the figure’s hottest: at most', figure, AIM.kelvin, 'K'),
    row('the same, longest work between two looks at whether to stop, CPU time: at most', usual.longestTurnMs, AIM.turnMs, 'ms'),
    row('the same, unaccounted share of the heat: at most', usual.heat.energyBalance, AIM.balance, '1'),
  ];
}

function measured(options: BodyOptions): { heat: BodyHeat; seconds: number; megabytes: number; longestTurnMs: number } {
  const before = inUse();
  const from = cpuMs();
  let most = 0;
  let longestTurnMs = 0;
  let since = from;
  const run = runBody(casting(), options);
  for (;;) {
    const next = run.next();
    const now = cpuMs();
    longestTurnMs = Math.max(longestTurnMs, now - since);
    since = now;
    if (next.done) return { heat: next.value, seconds: (now - from) / 1e3, megabytes: most / 1e6, longestTurnMs };
    most = Math.max(most, inUse() - before);
  }
}

function casting(): Body {
  const x = linesThrough([-80, 80], 160 / 60);
  const y = linesThrough([-50, 50], 100 / 36);
  const walled = (lines: Float64Array, halfMm: number) => Float64Array.from([-halfMm - WALL_MM, -halfMm - WALL_MM / 2, ...lines, halfMm + WALL_MM / 2, halfMm + WALL_MM]);
  const z = [-WALL_MM - TABLE_MM, -WALL_MM - TABLE_MM / 2, -WALL_MM, 0];
  const pours = POURS.map(([depthMm, cells], p) => {
    const fromMm = z[z.length - 1];
    for (let c = 1; c <= cells; c++) z.push(fromMm + (depthMm * c) / cells);
    return { fromMm, toMm: fromMm + depthMm, atS: p * GAP_S, mixC: MIX_C, kinetics: LAW, material: { densityKgPerM3: 1150, heatCapacityJPerKgK: 1900, conductivityWPerMK: 0.2 } };
  });
  const topMm = z[z.length - 1];
  return {
    grid: boxGrid(walled(x, 80), walled(y, 50), Float64Array.from(z)),
    pours,
    solids: [{ material: castInMaterial('steel', 7.85) }, { material: wallMaterial('silicone') }, { material: TABLE_MATERIAL }],
    watched: [STEEL],
    sample: (xMm, yMm, zMm) => {
      if (zMm < -WALL_MM) return TABLE;
      if (zMm < 0 || Math.abs(xMm) > 80 || Math.abs(yMm) > 50) return WALL;
      return Math.hypot(xMm - 20, yMm - 5) < 10 && zMm > 6 && zMm < 60 ? STEEL : RESIN;
    },
    sidesClosed: TABLE,
    films: { up: { stillAirMm: 30 }, down: { stillAirMm: 30 }, aside: { stillAirMm: topMm + WALL_MM } },
    room: [{ fromS: 0, temperatureC: ROOM_C }],
    endS: POURS.length * GAP_S,
  };
}

/** Garbage that was not collected yet included. */
function inUse(): number {
  const { heapUsed, external } = process.memoryUsage();
  return heapUsed + external;
}

function cpuMs(): number {
  return process.cpuUsage().user / 1e3;
}
