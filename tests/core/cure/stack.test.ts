/** The run through a stack: invariants, faults planted in its inputs, and an independent integrator on the same cells. */
import { describe, expect, it } from 'vitest';
import { cureRate, type Kinetics } from '../../../src/core/cure/kinetics.ts';
import { tabulated } from '../../../src/core/cure/rate-table.ts';
import { energyBalanceOf, profileOf } from '../../../src/core/cure/stack-profile.ts';
import type { Sighting, StackOptions, StackSurroundings } from '../../../src/core/cure/stack-types.ts';
import { advance, cloneStack, pourOn, startStack, type StackState } from '../../../src/core/cure/stack.ts';
import { conversionAt, temperatureAt } from './at-height.ts';
import { bodyOf, EPOXY, EXACT, runTo } from './bodies.ts';
import { lawOf, steadyHeat } from './laws.ts';
import { odex } from './odex.ts';

const H = 3600;
const RESIN: Kinetics = {
  heatJPerKg: 370_000, activationJPerMol: 52_000, k2PerS: 6e-5, atC: 23, k1OverK2: 0.03, m: 0.7, n: 1.7,
  brake: { c: 30, alpha0: 0.773, alphaPerK: 0.0045, atC: 25 }, gelAlpha: 0.58,
};
const LAW = tabulated(RESIN);
const ROOM: StackSurroundings = { room: [{ fromS: 0, temperatureC: 23 }], topHWPerM2K: 10, bottomHWPerM2K: 8 };

interface Pours {
  readonly depthsMm: readonly number[];
  readonly gapH?: number;
  readonly mixC?: number;
  readonly sideWPerM3K?: number;
  readonly conductivityWPerMK?: number;
  readonly options?: StackOptions;
}

function poured({ depthsMm, gapH = 30, mixC = 23, sideWPerM3K = 0, conductivityWPerMK = 0.2, options }: Pours): StackState {
  const stack = startStack(ROOM, options);
  depthsMm.forEach((depthMm, k) => pourOn(stack, { depthMm, mixC, material: { ...EPOXY, conductivityWPerMK }, kinetics: LAW, sideWPerM3K }, k * gapH * H));
  advance(stack, depthsMm.length * gapH * H);
  return stack;
}

describe('against an independent integrator on the same cells', () => {
  it('agrees with odex on two pours within 0.01 K and 0.02 % of the gel time', () => {
    const options: StackOptions = { cellMm: 1, leastCells: 3, temperatureToleranceK: 1e-3, conversionTolerance: 1e-5, mergeAfterPours: Infinity };
    const ours = poured({ depthsMm: [9, 13], gapH: 24, mixC: 26, options });
    const first = byOdex({ cells: 9, state: start(9, 26), fromS: 0, toS: 24 * H, record: [0, 9] });
    const second = byOdex({ cells: 22, state: stacked(first.state, 9, 13, 26), fromS: 24 * H, toS: 48 * H, record: [9, 22] });
    for (const [k, theirs] of [first, second].entries()) {
      expect(Math.abs(ours.records[k].midPeakC - theirs.peakC), `pour ${k + 1}`).toBeLessThan(0.01);
      expect(Math.abs(ours.records[k].midGelS! / theirs.gelS - 1), `pour ${k + 1}`).toBeLessThan(2e-4);
    }
    for (let i = 0; i < 22; i++) {
      expect(Math.abs(ours.temperatureC[i] - second.state[i])).toBeLessThan(0.01);
      expect(Math.abs(ours.conversion[i] - second.state[22 + i])).toBeLessThan(1e-4);
    }
  });
});

/** Temperatures, then conversions. */
function start(cells: number, mixC: number): number[] {
  return [...Array<number>(cells).fill(mixC), ...Array<number>(cells).fill(0)];
}

function stacked(state: number[], below: number, above: number, mixC: number): number[] {
  return [...state.slice(0, below), ...Array<number>(above).fill(mixC), ...state.slice(below), ...Array<number>(above).fill(0)];
}

/** Cells of 1 mm between films, written out once more, with the rate from its powers. */
function byOdex({ cells, state, fromS, toS, record }: { cells: number; state: number[]; fromS: number; toS: number; record: readonly [number, number] }) {
  const capacity = 1150 * 1900 * 1e-3;
  const [inner, top, bottom] = [0.2 / 1e-3, 1 / (1 / 10 + 0.5e-3 / 0.2), 1 / (1 / 8 + 0.5e-3 / 0.2)];
  const change = (_: number, y: number[]): number[] => {
    const rates = Array.from({ length: cells }, (__, i) => cureRate(RESIN, y[cells + i], y[i]));
    const warming = rates.map((rate, i) => {
      const below = i === 0 ? bottom * (23 - y[0]) : inner * (y[i - 1] - y[i]);
      const above = i === cells - 1 ? top * (23 - y[i]) : inner * (y[i + 1] - y[i]);
      return (below + above + 1150 * 370_000 * 1e-3 * rate) / capacity;
    });
    return [...warming, ...rates];
  };
  const middle = (record[0] + record[1] - 1) / 2;
  let [peakC, gelS] = [-Infinity, NaN];
  const end = odex(change, [fromS, toS], {
    start: state, tolerance: 1e-7, longestS: 600,
    out: (n, before, after, _, interpolate) => {
      if (n === 1) return; // the start, before any step
      for (let k = 1; k <= 20; k++) {
        const t = before + ((after - before) * k) / 20;
        peakC = Math.max(peakC, interpolate(middle, t));
        if (Number.isNaN(gelS) && interpolate(cells + middle, t) >= RESIN.gelAlpha) gelS = t - fromS;
      }
    },
  });
  return { state: end, peakC, gelS };
}

describe('heat is kept', () => {
  it.each<[string, Pours]>([
    ['one mild pour', { depthsMm: [10] }],
    ['one that runs away', { depthsMm: [30] }],
    ['ten pours, older ones merged', { depthsMm: Array<number>(10).fill(12) }],
    ['warm mix and losing sides', { depthsMm: [12, 12], mixC: 35, sideWPerM3K: 2000 }],
    ['a film', { depthsMm: [0.3] }],
    ['the moment after a warm pour', { depthsMm: [20], mixC: 40, gapH: 0.01 }],
  ])('to 0.1 %: %s', (_, pours) => {
    const share = energyBalanceOf(poured(pours));
    expect(share).toBeLessThan(1e-3);
  });

  it('and heat that comes from nowhere is seen', () => {
    const stack = poured({ depthsMm: [20] });
    expect(energyBalanceOf(stack)).toBeLessThan(1e-9);
    for (let i = 0; i < stack.temperatureC.length; i++) stack.temperatureC[i] += 1;
    // 1 K of the 370/1.9 K that the cure could have raised it by, most of which it has given.
    expect(energyBalanceOf(stack)).toBeGreaterThan(0.004);
  });

  it('is 0 where nothing moves, and before any pour', () => {
    expect(energyBalanceOf(startStack(ROOM))).toBe(0);
    expect(energyBalanceOf(runTo({ depthMm: 10, startC: 20, roomC: 20, topH: 10, bottomH: 10 }, H))).toBe(0);
  });
});

describe('faults planted in what goes in are seen', () => {
  const record = (pours: Pours) => poured(pours).records[0];
  const sound = record({ depthsMm: [18] });

  it('halving the conductivity makes the middle hotter, doubling it cooler', () => {
    expect(record({ depthsMm: [18], conductivityWPerMK: 0.1 }).midPeakC).toBeGreaterThan(sound.midPeakC + 2);
    expect(record({ depthsMm: [18], conductivityWPerMK: 0.4 }).midPeakC).toBeLessThan(sound.midPeakC - 1);
  });

  it('sides that lose heat cool; with the wrong sign they would warm', () => {
    expect(record({ depthsMm: [18], sideWPerM3K: 300 }).midPeakC).toBeLessThan(sound.midPeakC - 1);
    expect(record({ depthsMm: [18], sideWPerM3K: -300 }).midPeakC).toBeGreaterThan(sound.midPeakC + 1);
  });

  it('side loss alone cools at e^(−w t / ρc) (lumped balance, closed form)', () => {
    const stack = runTo({ depthMm: 20, startC: 60, roomC: 20, topH: 0, bottomH: 0, sideWPerM3K: 500 }, 2 * H);
    expect(temperatureAt(stack, 10)).toBeCloseTo(20 + 40 * Math.exp((-500 * 2 * H) / (1150 * 1900)), 3);
  });

  it('a check of cooling fails with half the conductivity', () => {
    const middleC = (conductivityWPerMK: number) => temperatureAt(runTo({ depthMm: 50, startC: 80, roomC: 20, topH: 10, bottomH: 10, material: { ...EPOXY, conductivityWPerMK } }, 3600), 25);
    expect(Math.abs(middleC(0.2) - 63.2221)).toBeLessThan(0.003); // physics §2
    expect(Math.abs(middleC(0.1) - 63.2221)).toBeGreaterThan(1);
  });

  it('a pour on a layer that is still warm runs hotter', () => {
    const soon = poured({ depthsMm: [15, 15], gapH: 7 }).records[1];
    const later = poured({ depthsMm: [15, 15], gapH: 60 }).records[1];
    expect(soon.midPeakC).toBeGreaterThan(later.midPeakC + 1);
  });
});

describe('a run', () => {
  it('is the same whether it is held on the way or not, to the tolerance of its steps', () => {
    const whole = poured({ depthsMm: [15] });
    const halting = startStack(ROOM);
    pourOn(halting, { depthMm: 15, mixC: 23, material: EPOXY, kinetics: RESIN, sideWPerM3K: 0 }, 0);
    for (let hour = 1; hour <= 30; hour++) advance(halting, hour * H);
    expect(Math.abs(halting.records[0].midPeakC - whole.records[0].midPeakC)).toBeLessThan(0.05);
    expect(Math.abs(halting.records[0].midGelS! / whole.records[0].midGelS! - 1)).toBeLessThan(1e-3);
  });

  it('goes on from a copy without touching the original', () => {
    const base = poured({ depthsMm: [12] });
    const before = { temperatureC: base.temperatureC.slice(), records: structuredClone(base.records), timeS: base.timeS, balance: { ...base.balance } };
    const peaks = [8, 14, 20].map((depthMm) => {
      const copy = cloneStack(base);
      pourOn(copy, { depthMm, mixC: 23, material: EPOXY, kinetics: LAW, sideWPerM3K: 0 }, 30 * H);
      advance(copy, 60 * H);
      return copy.records[1].midPeakC;
    });
    expect(peaks[0]).toBeLessThan(peaks[1]);
    expect(peaks[1]).toBeLessThan(peaks[2]);
    expect({ temperatureC: base.temperatureC, records: base.records, timeS: base.timeS, balance: base.balance }).toEqual(before);
  });

  it('stops early when asked to, and says so', () => {
    const stack = startStack(ROOM);
    pourOn(stack, { depthMm: 30, mixC: 23, material: EPOXY, kinetics: LAW, sideWPerM3K: 0 }, 0);
    expect(advance(stack, 36 * H, { until: ({ peakC }) => peakC > 60 })).toBe('stopped');
    expect(stack.records[0].peakC).toBeGreaterThan(60);
    expect(stack.timeS).toBeLessThan(8 * H);
    expect(advance(stack, 36 * H)).toBe('reached');
    expect(stack.records[0].peakC).toBeGreaterThan(120);
  });

  it('tells every step of the newest pour, in order', () => {
    const stack = startStack({ ...ROOM, room: [{ fromS: 0, temperatureC: 23 }, { fromS: 10 * H, temperatureC: 18 }] });
    const seen: Sighting[] = [];
    pourOn(stack, { depthMm: 15, mixC: 28, material: EPOXY, kinetics: LAW, sideWPerM3K: 0 }, 2 * H);
    advance(stack, 30 * H, { watch: (sighting) => seen.push({ ...sighting }) });
    expect(seen.length).toBe(stack.steps);
    seen.forEach(({ timeS, sinceS, hottestC, surfaceC, minConversion, meanConversion, stackHottestC, peakC }, k) => {
      expect(timeS).toBeGreaterThan(k === 0 ? 2 * H : seen[k - 1].timeS);
      expect(sinceS).toBe(timeS - 2 * H);
      expect(surfaceC).toBeLessThanOrEqual(hottestC);
      expect(minConversion).toBeLessThanOrEqual(meanConversion);
      expect(stackHottestC).toBe(hottestC);
      expect(peakC).toBeGreaterThanOrEqual(hottestC);
    });
    expect(seen.at(-1)).toMatchObject({ timeS: 30 * H, roomC: 18 });
    expect(Math.max(...seen.map(({ peakC }) => peakC))).toBe(stack.records[0].peakC);
  });

  it('follows a room that rises steadily as one that rises in small steps', () => {
    const [rising, stepped] = [
      [{ fromS: 0, temperatureC: 20, risePerS: 10 / (10 * H) }, { fromS: 10 * H, temperatureC: 30 }],
      Array.from({ length: 101 }, (_, k) => ({ fromS: k === 0 ? 0 : (k - 0.5) * 360, temperatureC: 20 + k * 0.1 })),
    ].map((room) => runTo({ depthMm: 20, startC: 20, room, topH: 10, bottomH: 8, law: LAW, cells: 21 }, 24 * H, {}));
    expect(Math.abs(rising.records[0].midPeakC - stepped.records[0].midPeakC)).toBeLessThan(0.05);
  });

  it('says when a reaction without end outruns every step', () => {
    const endless = lawOf({ rate: (_, t) => Math.exp(t), byConversion: () => 0, byKelvin: (_, t) => Math.exp(t) }, { heatJPerKg: 1e4 });
    const stack = bodyOf({ depthMm: 10, startC: 0, topH: 0, bottomH: 0, law: endless, cells: 5 });
    expect(advance(stack, 1e9)).toBe('stuck');
    for (const value of [...stack.temperatureC, ...stack.conversion]) expect(value).toSatisfy(Number.isFinite);
    expect(pourOn(stack, { depthMm: 5, mixC: 23, material: EPOXY, kinetics: LAW, sideWPerM3K: 0 }, 2e9)).toBe('stuck');
    expect(stack.records).toHaveLength(1);
  });

  it('takes pours in order of time only', () => {
    const stack = poured({ depthsMm: [10] });
    expect(() => pourOn(stack, { depthMm: 5, mixC: 23, material: EPOXY, kinetics: LAW, sideWPerM3K: 0 }, H)).toThrow('Pour in order of time.');
  });

  it('records the mix itself as the hottest where it only cools', () => {
    const { records } = runTo({ depthMm: 10, startC: 40, roomC: 20, topH: 10, bottomH: 10, law: { ...RESIN, heatJPerKg: 0 } }, 3 * H);
    expect(records[0].midPeakC).toBeCloseTo(40, 6);
    expect(records[0].peakC).toBeCloseTo(40, 6);
    expect(records[0].midPeakAtS).toBeLessThan(10);
    expect(records[0].midGelS).toBeNull();
  });

  it('tells the floor and the open face, not the middles of their cells (steady parabola, qL²/2k + qL/h)', () => {
    const stack = bodyOf({ depthMm: 25, startC: 0, topH: 10, bottomH: 0, law: steadyHeat(5000, 1150), cells: 7 });
    let surfaceC = NaN;
    advance(stack, 30 * 24 * H, { watch: (sighting) => (surfaceC = sighting.surfaceC) });
    const halfCellM = 0.025 / 14;
    expect(stack.records[0].peakC - stack.temperatureC[0]).toBeCloseTo((5000 * halfCellM ** 2) / (2 * 0.2), 4);
    expect(stack.records[0].hottestHeightMm).toBe(0);
    // The grid itself is q dx²/8k, 0.04 K, too warm throughout.
    expect(Math.abs(surfaceC - 12.5)).toBeLessThan(0.05);
    expect(Math.abs(stack.records[0].peakC - 20.3125)).toBeLessThan(0.05);
  });

  it('finds gel and peak inside its steps: shorter steps move them little', () => {
    const [long, short] = [{}, { longestStepS: 60 }].map((options) => poured({ depthsMm: [14], options }).records[0]);
    expect(Math.abs(long.midPeakC - short.midPeakC)).toBeLessThan(0.02);
    expect(Math.abs(long.midPeakAtS - short.midPeakAtS)).toBeLessThan(60);
    expect(Math.abs(long.midGelS! - short.midGelS!)).toBeLessThan(30);
  });
});

describe('the cells', () => {
  it('lie on the surfaces of pours, an odd number in each, merged four to one below', () => {
    const { grid } = poured({ depthsMm: [12, 3, 20, 10] });
    expect(grid!.pours.map(({ from, to, merged }) => [to - from, merged])).toEqual([[4, true], [2, true], [21, false], [11, false]]);
    const tops = grid!.pours.map(({ to }) => grid!.edgeMm[to]);
    [12, 15, 35, 45].forEach((top, k) => expect(tops[k]).toBeCloseTo(top, 10));
  });

  it('may be merged at a cost under 0.05 K', () => {
    const depthsMm = Array<number>(6).fill(15);
    const [merged, whole] = [2, Infinity].map((mergeAfterPours) => poured({ depthsMm, options: { mergeAfterPours } }));
    merged.records.forEach(({ midPeakC, peakC }, k) => {
      expect(Math.abs(midPeakC - whole.records[k].midPeakC)).toBeLessThan(0.05);
      expect(Math.abs(peakC - whole.records[k].peakC)).toBeLessThan(0.05);
    });
  });

  it('of 1 mm are within 0.2 K of ones of ¼ mm, from a mild pour to one that runs away', () => {
    for (const depthMm of [5, 10, 16, 30]) {
      const [coarse, fine] = [1, 0.25].map((cellMm) => poured({ depthsMm: [depthMm], options: { cellMm, temperatureToleranceK: 2e-3, conversionTolerance: 1e-4 } }).records[0]);
      expect(Math.abs(coarse.midPeakC - fine.midPeakC), `${depthMm} mm`).toBeLessThan(0.2);
    }
  });

  it('give a profile from the floor up, whose parabola meets the cells', () => {
    const stack = poured({ depthsMm: [10, 10] });
    const { heightMm, temperatureC, conversion, pour } = profileOf(stack);
    expect(heightMm.length).toBe(stack.temperatureC.length);
    expect(pour[0]).toBe(0);
    expect(pour.at(-1)).toBe(1);
    heightMm.forEach((height, i) => {
      if (i > 0) expect(height).toBeGreaterThan(heightMm[i - 1]);
      expect(temperatureAt(stack, height)).toBeCloseTo(temperatureC[i], 9);
      expect(conversionAt(stack, height)).toBeCloseTo(conversion[i], 9);
    });
    expect(() => temperatureAt(startStack(ROOM), 1)).toThrow('no pour');
  });

  it('of a sphere and a cylinder hold the volume of one', () => {
    for (const [shape, whole] of [['slab', 0.03], ['cylinder', 0.03 ** 2 / 2], ['sphere', 0.03 ** 3 / 3]] as const) {
      const { grid } = bodyOf({ depthMm: 30, startC: 20, topH: 10, bottomH: 0, shape, cells: 31 }, EXACT);
      expect(grid!.capacity.reduce((sum, one) => sum + one, 0)).toBeCloseTo(whole * 1150 * 1900, 9);
    }
  });
});
