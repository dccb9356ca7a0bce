/** One step: its order, which wrong coefficients, a wrong derivative or a forgotten room would take away. */
import { describe, expect, it } from 'vitest';
import type { RateLaw } from '../../../src/core/cure/stack-types.ts';
import { look, lostIn, tryStep, workFor } from '../../../src/core/cure/stack-step.ts';
import { bodyOf } from './bodies.ts';
import { lawOf } from './laws.ts';

/** (0.03 + α)(1−α)² with Arrhenius, smooth to every order, unlike a table. */
const SMOOTH: RateLaw = (() => {
  const k = (t: number) => 4e-4 * Math.exp(7000 * (1 / 298.15 - 1 / (t + 273.15)));
  const shape = (a: number) => (0.03 + a) * (1 - a) ** 2;
  return lawOf(
    {
      rate: (a, t) => k(t) * shape(a),
      byConversion: (a, t) => k(t) * ((1 - a) ** 2 - 2 * (0.03 + a) * (1 - a)),
      byKelvin: (a, t) => ((k(t) * 7000) / (t + 273.15) ** 2) * shape(a),
    },
    { heatJPerKg: 150_000 },
  );
})();
const ROOM = { temperatureC: 22, risePerS: 5e-4 };
const END_S = 6400;
/** Seven cells of 10 mm: heat needs minutes from one to the next, so that steps of 128 s are not stiff, where every order sinks. */
const DEPTH_MM = 70;
const TOLERANCES = { temperatureToleranceK: 1, conversionTolerance: 1 };

/** Where so many equal steps lead: temperatures, conversions, and the heat lost. */
function after(steps: number): { temperatureC: Float64Array; conversion: Float64Array; lostJ: number } {
  const { grid, temperatureC, conversion } = bodyOf({ depthMm: DEPTH_MM, startC: 24, roomC: 22, topH: 10, bottomH: 6, law: SMOOTH, sideWPerM3K: 400, cells: 7 });
  const work = workFor(7);
  work.now.temperatureC.set(temperatureC);
  work.now.conversion.set(conversion);
  const h = END_S / steps;
  let lostJ = 0;
  for (let k = 0; k < steps; k++) {
    const room = { temperatureC: ROOM.temperatureC + k * h * ROOM.risePerS, risePerS: ROOM.risePerS };
    look(work, grid!, room.temperatureC);
    expect(tryStep(work, grid!, { h, room, tolerances: TOLERANCES })).toBeLessThan(Infinity);
    work.now.temperatureC.set(work.stage.temperatureC);
    work.now.conversion.set(work.stage.conversion);
    lostJ += lostIn(work);
  }
  return { temperatureC: work.now.temperatureC, conversion: work.now.conversion, lostJ };
}

describe('a step', () => {
  it('is of order 4 while the cure runs, the room rises and the sides lose (Hairer & Wanner II, RODAS)', () => {
    const exact = after(1600);
    const orderOf = (error: (found: ReturnType<typeof after>) => number) => Math.log2(error(after(50)) / error(after(100)));
    expect(orderOf(({ temperatureC }) => Math.abs(temperatureC[3] - exact.temperatureC[3]))).toBeGreaterThan(3.6);
    expect(orderOf(({ conversion }) => Math.abs(conversion[3] - exact.conversion[3]))).toBeGreaterThan(3.6);
    expect(orderOf(({ lostJ }) => Math.abs(lostJ - exact.lostJ))).toBeGreaterThan(3.6);
  });

  it('estimates its error as one of order 3: a sixteenth at half the length', () => {
    const errorOf = (h: number) => {
      const { grid, temperatureC, conversion } = bodyOf({ depthMm: 12, startC: 24, roomC: 22, topH: 10, bottomH: 6, law: SMOOTH, cells: 7 });
      const work = workFor(7);
      work.now.temperatureC.set(temperatureC.map((t, i) => t + i * i * 0.1));
      work.now.conversion.set(conversion.fill(0.2));
      look(work, grid!, 22);
      return tryStep(work, grid!, { h, room: { temperatureC: 22, risePerS: 0 }, tolerances: TOLERANCES });
    };
    const ratio = errorOf(0.4) / errorOf(0.2);
    expect(ratio).toBeGreaterThan(13);
    expect(ratio).toBeLessThan(19);
  });

  it('is refused where the reaction leaves no pivot, and where what it starts from is no number', () => {
    const { grid } = bodyOf({ depthMm: 12, startC: 24, roomC: 22, topH: 10, bottomH: 6, law: SMOOTH, cells: 7 });
    const work = workFor(7);
    const step = { h: 1e5, room: { temperatureC: 22, risePerS: 0 }, tolerances: TOLERANCES };
    work.now.temperatureC.fill(80);
    work.now.conversion.fill(0.1);
    look(work, grid!, 22);
    expect(tryStep(work, grid!, step)).toBe(Infinity);
    work.now.temperatureC.fill(NaN);
    look(work, grid!, 22);
    expect(tryStep(work, grid!, { ...step, h: 1 })).toBe(Infinity);
  });
});
