/** Cure alone and cure with heat: rates, isothermal and adiabatic runs, gel, and the published and synthetic exotherms. */
import { cureRate, type Kinetics } from '../../src/core/cure/kinetics.ts';
import { tabulated } from '../../src/core/cure/rate-table.ts';
import { advance, type StackState } from '../../src/core/cure/stack.ts';
import type { StackOptions } from '../../src/core/cure/stack-types.ts';
import { conversionAt, temperatureAt } from '../core/cure/at-height.ts';
import { bodyOf, EPOXY, EXACT, runTo } from '../core/cure/bodies.ts';
import { leeLoosSpringer, rateOf, textbookSlab } from '../core/cure/laws.ts';
import { odex } from '../core/cure/odex.ts';
import { printed, within, type EvidenceRow } from './evidence-row.ts';

const GAS = 8.314462618;
const ZERO_C = 273.15;
const H = 3600;

/** Johnston 1997: A e^(−E/RT) αᵐ(1−α)ⁿ/(1 + e^(C(α − α0 − αT T))), T in K, told as ours is: from 150 °C on. */
const JOHNSTON: Kinetics = {
  heatJPerKg: 540_000, activationJPerMol: 66_500, atC: 150, k2PerS: 1.528e5 * Math.exp(-66_500 / (GAS * (150 + ZERO_C))), k1OverK2: 0, m: 0.8129, n: 2.736,
  brake: { c: 43.09, alpha0: -1.684 + 5.475e-3 * (150 + ZERO_C), alphaPerK: 5.475e-3, atC: 150 }, gelAlpha: 0.31,
};
const JOHNSTON_SOURCE = 'Johnston 1997, Univ. British Columbia; Amini Niaki et al. 2021, doi 10.1016/j.cma.2021.113959; values recomputed in physics-tables §1.2';
const LLS_SOURCE = 'Lee, Loos & Springer 1982, J. Compos. Mater. 16:510; values recomputed in physics §4';

/** The synthetic cold-cast family: (0.03 + α)(1−α)², told by its gel time at 25 °C. */
function coldCast(gelH: 8 | 24 | 48, q = 0.03): Kinetics {
  const k = { 8: 1.7268246e-4, 24: 5.7560819e-5, 48: 2.8780409e-5 }[gelH];
  return { heatJPerKg: 400_000, activationJPerMol: 58_600, k2PerS: k, atC: 25, k1OverK2: q, m: 1, n: 2, gelAlpha: 0.57735027 };
}
const COLD_CAST_SOURCE = 'synthetic cold-cast family, recomputed by two schemes in physics-tables §3.5';
const COLD_CAST_RESIN = { densityKgPerM3: 1100, heatCapacityJPerKgK: 1900, conductivityWPerMK: 0.2 };

/** The invented shape of a bench resin, with a brake. */
const BENCH_RESIN: Kinetics = {
  heatJPerKg: 370_000, activationJPerMol: 52_000, k2PerS: 5.3e-5, atC: 23, k1OverK2: 0.03, m: 0.7, n: 1.7,
  brake: { c: 30, alpha0: 0.773, alphaPerK: 0.0045, atC: 25 }, gelAlpha: 0.58,
};

/** Conversion only: to a few parts in ten million. */
const CURE_ONLY: StackOptions = { ...EXACT, conversionTolerance: 1e-8, firstStepS: 1 };

/** A pour that gives no heat stays at its temperature: cure alone, α at the end. */
function isothermal(kinetics: Kinetics, temperatureC: number, seconds: number, conversion = 0): StackState {
  return runTo({ depthMm: 10, startC: temperatureC, roomC: temperatureC, topH: 0, bottomH: 0, law: { ...kinetics, heatJPerKg: 0 }, conversion, cells: 3 }, seconds, { ...CURE_ONLY, leastCells: 3 });
}

/** Its own run by odex, from the formula's powers rather than the table. */
function isothermalByOdex(kinetics: Kinetics, temperatureC: number, seconds: number, conversion = 0): number {
  return odex((_, [alpha]) => [cureRate(kinetics, alpha, temperatureC)], [0, seconds], { start: [conversion], tolerance: 1e-11 })[0];
}

function againstOdex(name: string, kinetics: Kinetics, { temperatureC, hours, conversion = 0 }: { temperatureC: number; hours: number; conversion?: number }): EvidenceRow {
  return {
    subject: `${name} at ${temperatureC} °C: conversion after ${hours} h`, source: 'odex (Hairer & Wanner’s extrapolation code) on the rate’s formula',
    expected: () => isothermalByOdex(kinetics, temperatureC, hours * H, conversion), tolerance: 1e-6,
    got: () => conversionAt(isothermal(kinetics, temperatureC, hours * H, conversion), 5),
  };
}

/** K₂t at which the exact integral of (q + α)(1−α)² reaches the gel point, against the recorded gel time. */
function exactGel(q: number, expected: number): EvidenceRow {
  const kinetics: Kinetics = { ...coldCast(24, q), k2PerS: 1e-4, gelAlpha: 0.5773502692 };
  return {
    subject: `(q + α)(1−α)² with q ${q} at one temperature: K₂t at gel`, source: 'exact integral, physics §4',
    expected, tolerance: 5e-6, got: () => isothermal(kinetics, 25, 7e4).records[0].midGelS! * 1e-4,
  };
}

/** From 25 °C without any loss, seconds to a conversion in the middle: the crossing is recorded as gel. */
function adiabaticS(alpha: number): number {
  return adiabatic({ ...coldCast(24), gelAlpha: alpha }).records[0].midGelS!;
}

function adiabatic(kinetics: Kinetics): StackState {
  return runTo({ depthMm: 10, startC: 25, roomC: 25, topH: 0, bottomH: 0, law: kinetics, material: COLD_CAST_RESIN, cells: 3 }, 6 * H, { ...EXACT, leastCells: 3 });
}

/** Cooled on top, insulated below: hottest at the floor. */
function coldCastSlab(depthMm: number, gelH: 24 | 48): StackState {
  return runTo({ depthMm, startC: 25, roomC: 25, topH: 10, bottomH: 0, law: tabulated(coldCast(gelH)), material: COLD_CAST_RESIN }, 60 * H, { ...EXACT, temperatureToleranceK: 1e-3, conversionTolerance: 1e-5 });
}

/** Only the center is told: where a body runs away, its last-reacting skin grows hotter than any resin would. */
function coldCastSphere(radiusMm: number, { expected, tolerance, fromS, toS }: { expected: number; tolerance: number; fromS: number; toS: number }): EvidenceRow {
  return {
    subject: `cold-cast sphere of radius ${radiusMm} mm, 24 h gel: hottest at its center, °C`, source: COLD_CAST_SOURCE, expected, tolerance,
    got: () => {
      const stack = bodyOf({ depthMm: radiusMm, startC: 25, roomC: 25, topH: 10, bottomH: 0, shape: 'sphere', law: coldCast(24), material: COLD_CAST_RESIN }, { ...EXACT, temperatureToleranceK: 1e-3, conversionTolerance: 1e-5 });
      let hottestC = -Infinity;
      for (let timeS = fromS; timeS <= toS; timeS += 10) {
        advance(stack, timeS);
        hottestC = Math.max(hottestC, temperatureAt(stack, 0));
      }
      return hottestC;
    },
  };
}

/** As thin as a film against how fast heat runs in it: the lumped balance, with surface per volume 1/L and film 10. */
function lumpedPeak(lengthMm: number, gelH: 24 | 48): { peakC: number; atS: number } {
  const loose = { ...COLD_CAST_RESIN, conductivityWPerMK: 1e5 };
  const { midPeakC, midPeakAtS } = runTo({ depthMm: lengthMm, startC: 25, roomC: 25, topH: 10, bottomH: 0, law: coldCast(gelH), material: loose, cells: 3 }, 60 * H, { ...EXACT, leastCells: 3, longestStepS: 600 }).records[0];
  return { peakC: midPeakC, atS: midPeakAtS };
}

/** The textbook's reacting slab, half of it: the floor is its middle. */
function reactingSlab(untilS: number): StackState {
  return runTo({ depthMm: 10, startC: 20, roomC: 120, topH: Infinity, bottomH: 0, material: { densityKgPerM3: 1, heatCapacityJPerKgK: 1.304e6, conductivityWPerMK: 0.3 }, law: textbookSlab(0.6 * 1200 * 280e3) }, untilS, { ...EXACT, temperatureToleranceK: 1e-3, longestStepS: 5 });
}

/** Both faces on the autoclave’s cycle; 52 % of the volume is fiber. */
function hotLaminate(thicknessMm: number): StackState {
  const risePerS = 2.5 / 60;
  const room = [{ fromS: 0, temperatureC: 25, risePerS }, { fromS: 36.4 * 60, temperatureC: 116 }, { fromS: 96.4 * 60, temperatureC: 116, risePerS }, { fromS: 120.8 * 60, temperatureC: 177 }];
  const law = leeLoosSpringer((0.48 * 1272 * 473.6e3) / 1578);
  const material = { densityKgPerM3: 1578, heatCapacityJPerKgK: 862, conductivityWPerMK: 0.4135 };
  return runTo({ depthMm: thicknessMm, startC: 25, room, topH: Infinity, bottomH: Infinity, material, law, conversion: 1e-6 }, 240 * 60, { ...EXACT, temperatureToleranceK: 5e-3, conversionTolerance: 1e-4, firstStepS: 5 });
}
const LAMINATE_SOURCE = 'set-up published (case A of physics §4, Lee, Loos & Springer’s resin); peaks recomputed by two independent schemes, physics-tables §3.1';
const SLAB_SOURCE = 'reacting slab, parameters of a textbook exercise (memory); recomputed with a stiff solver, physics §4';

/** The 25.4 mm laminate after some minutes, in its middle. */
function laminateC(minutes: number): number {
  const stack = bodyOf(
    { depthMm: 25.4, startC: 25, room: [{ fromS: 0, temperatureC: 25, risePerS: 2.5 / 60 }, { fromS: 36.4 * 60, temperatureC: 116 }], topH: Infinity, bottomH: Infinity, material: { densityKgPerM3: 1578, heatCapacityJPerKgK: 862, conductivityWPerMK: 0.4135 }, law: leeLoosSpringer((0.48 * 1272 * 473.6e3) / 1578), conversion: 1e-6 },
    { ...EXACT, temperatureToleranceK: 1e-3, conversionTolerance: 1e-5, firstStepS: 5 },
  );
  advance(stack, minutes * 60);
  return temperatureAt(stack, 12.7);
}

const PLAIN: Kinetics = { heatJPerKg: 1, activationJPerMol: 50_000, k2PerS: 2e-4, atC: 25, k1OverK2: 0.05, m: 0.5, n: 1.5, gelAlpha: 0.58 };
const braked = (alpha: number) => cureRate({ ...PLAIN, brake: { c: 30, alpha0: 0.8, alphaPerK: 0, atC: 25 } }, alpha, 25) / cureRate(PLAIN, alpha, 25);

export const rows: readonly EvidenceRow[] = [
  ...([[0, '1'], [0.2, '7.1155418'], [0.5, '5.3535534'], [0.8, '1.6894427']] as const).map(([alpha, value]): EvidenceRow => ({
    subject: `(1e-5 + 2e-4 √α)(1−α)^1.5 at α ${alpha}, 1e-5/s`, source: 'Kamal & Sourour’s form, physics-tables §1.2', ...within(1e-7, Number(value)), got: () => cureRate(PLAIN, alpha, 25) * 1e5,
  })),
  ...([[0.5, '0.999876605'], [0.7, '0.952574127'], [0.8, '0.5'], [0.9, '0.047425873']] as const).map(([alpha, value]): EvidenceRow => ({
    subject: `brake with c 30 at 0.8: share of the rate left at α ${alpha}`, source: 'Chern & Poehlein’s factor, physics-tables §1.2', ...within(1e-8, Number(value)), got: () => braked(alpha),
  })),
  ...([[110, 0.1, 1.5145964e-5], [150, 0.5, 8.0467131e-5], [180, 0.3, 4.676838e-4], [180, 0.8, 1.5761866e-5]] as const).map(([t, alpha, rate]): EvidenceRow => ({
    subject: `Johnston’s resin at ${t} °C, α ${alpha}: dα/dt, 1/s`, source: JOHNSTON_SOURCE, ...within(2e-7, rate), got: () => cureRate(JOHNSTON, alpha, t),
  })),
  ...([[180, 0.3, 4.676838e-4], [150, 0.5, 8.0467131e-5]] as const).map(([t, alpha, rate]): EvidenceRow => ({
    subject: `Johnston’s resin at ${t} °C, α ${alpha}, from the table that the solver reads: dα/dt, 1/s`, source: JOHNSTON_SOURCE, ...within(1e-5, rate), got: () => rateOf(tabulated(JOHNSTON), alpha, t),
  })),
  ...([[110, 240, '0.29196'], [140, 60, '0.32859'], [140, 240, '0.62270'], [160, 240, '0.74361']] as const).map(([t, minutes, alpha]): EvidenceRow => ({
    subject: `Johnston’s resin at ${t} °C from α 0.05: conversion after ${minutes} min`, source: JOHNSTON_SOURCE, ...printed(alpha), got: () => conversionAt(isothermal(JOHNSTON, t, minutes * 60, 0.05), 5),
  })),
  ...([[400, 0.1, 1.5618728e-2], [400, 0.5, 3.9826196e-3], [450, 0.1, 2.3785769e-1], [450, 0.5, 2.6387449e-2]] as const).map(([kelvin, alpha, perMin]): EvidenceRow => ({
    subject: `rates of the laminate below at ${kelvin} K, α ${alpha}, 1/min`, source: LLS_SOURCE, ...within(1e-7, perMin), got: () => 60 * rateOf(leeLoosSpringer(1), alpha, kelvin - ZERO_C),
  })),
  againstOdex('cold-cast resin, 24 h', coldCast(24), { temperatureC: 25, hours: 24 }),
  againstOdex('cold-cast resin, 24 h', coldCast(24), { temperatureC: 59.5, hours: 3 }),
  againstOdex('bench resin with its brake', BENCH_RESIN, { temperatureC: 18.4, hours: 20 }),
  againstOdex('bench resin with its brake', BENCH_RESIN, { temperatureC: 23, hours: 72 }),
  againstOdex('Johnston’s resin from α 0.05', JOHNSTON, { temperatureC: 160, hours: 1, conversion: 0.05 }),
  exactGel(0.01, 6.189523986),
  exactGel(0.03, 4.973254745),
  exactGel(0.1, 3.534593209),
  {
    subject: 'adiabatic rise of 360 kJ/kg in 1.8 kJ/kgK, K', source: 'H/c, by hand; physics §1', expected: 200, tolerance: 0.5,
    got: () => runTo({ depthMm: 10, startC: 25, topH: 0, bottomH: 0, law: { ...coldCast(8), heatJPerKg: 360_000 }, material: { ...EPOXY, heatCapacityJPerKgK: 1800 }, cells: 3 }, 48 * H, { ...EXACT, leastCells: 3 }).temperatureC[1] - 25,
  },
  ...([[0.1, 16017.8], [0.3, 17961.4], [0.57735, 18125.1], [0.9, 18164.5]] as const).map(([alpha, seconds]): EvidenceRow => ({
    subject: `cold-cast resin, 24 h, without any loss from 25 °C: seconds to α ${alpha}`, source: COLD_CAST_SOURCE, expected: seconds, tolerance: 1, got: () => adiabaticS(alpha),
  })),
  { subject: 'cold-cast slab 10 mm, 24 h gel: hottest at its insulated floor, °C', source: COLD_CAST_SOURCE, expected: 35.095, tolerance: 0.01, got: () => coldCastSlab(10, 24).records[0].peakC },
  { subject: 'cold-cast slab 20 mm, 48 h gel: hottest at its insulated floor, °C', source: COLD_CAST_SOURCE, expected: 40.657, tolerance: 0.01, got: () => coldCastSlab(20, 48).records[0].peakC },
  { subject: 'cold-cast slab 15 mm, 24 h gel: hottest at its insulated floor, °C', source: COLD_CAST_SOURCE, expected: 133.46, tolerance: 0.1, got: () => coldCastSlab(15, 24).records[0].peakC },
  { subject: 'cold-cast slab 10 mm, 24 h gel: seconds to its peak', source: COLD_CAST_SOURCE, expected: 45149, tolerance: 40, got: () => coldCastSlab(10, 24).records[0].hottestAtS },
  coldCastSphere(22.139, { expected: 32.392, tolerance: 0.01, fromS: 46_000, toS: 46_500 }),
  coldCastSphere(27.894, { expected: 38.761, tolerance: 0.01, fromS: 44_000, toS: 45_000 }),
  coldCastSphere(47.698, { expected: 164.25, tolerance: 0.1, fromS: 31_000, toS: 32_500 }),
  { subject: 'lumped cold-cast cup, 10 mm of volume per surface, 24 h gel: hottest, °C', source: COLD_CAST_SOURCE, expected: 31.811, tolerance: 2e-3, got: () => lumpedPeak(10, 24).peakC },
  { subject: 'lumped cold-cast cup, 20 mm of volume per surface, 48 h gel: hottest, °C', source: `peaks exactly like 10 mm with 24 h (scaling); ${COLD_CAST_SOURCE}`, expected: 31.811, tolerance: 2e-3, got: () => lumpedPeak(20, 48).peakC },
  { subject: 'lumped cold-cast cup: time to the peak of 20 mm, 48 h over that of 10 mm, 24 h', source: 'twice, by scaling of the lumped balance; physics-tables §3.5', expected: 2, tolerance: 1e-3, got: () => lumpedPeak(20, 48).atS / lumpedPeak(10, 24).atS },
  { subject: 'reacting slab, walls held at 120 °C: hottest in the middle, °C', source: SLAB_SOURCE, expected: 160.34, tolerance: 0.01, got: () => reactingSlab(150).records[0].peakC },
  { subject: 'reacting slab, walls held at 120 °C: seconds to its peak', source: SLAB_SOURCE, expected: 104.5, tolerance: 0.1, got: () => reactingSlab(150).records[0].hottestAtS },
  ...([[10, 66.463, 0.30053], [30, 120.511, 0.63978], [60, 151.599, 0.81583]] as const).flatMap(([seconds, temperatureC, alpha]): EvidenceRow[] => [
    { subject: `reacting slab, middle after ${seconds} s, °C`, source: SLAB_SOURCE, expected: temperatureC, tolerance: 5e-3, got: () => temperatureAt(reactingSlab(seconds), 0) },
    { subject: `reacting slab, middle after ${seconds} s, conversion`, source: SLAB_SOURCE, expected: alpha, tolerance: 2e-5, got: () => conversionAt(reactingSlab(seconds), 0) },
  ]),
  ...([[12.7, 182.4, 123.2], [25.4, 200.02, 126.4], [50.8, 215.34, 134.1]] as const).flatMap(([thicknessMm, peakC, minutes]): EvidenceRow[] => [
    { subject: `hot-cured laminate of ${thicknessMm} mm: hottest in the middle, °C`, source: LAMINATE_SOURCE, expected: peakC, tolerance: 0.05, got: () => hotLaminate(thicknessMm).records[0].midPeakC },
    { subject: `hot-cured laminate of ${thicknessMm} mm: minutes to its peak`, source: LAMINATE_SOURCE, expected: minutes, tolerance: 0.1, got: () => hotLaminate(thicknessMm).records[0].midPeakAtS / 60 },
  ]),
  ...([[40, 119.49], [60, 120.23], [90, 117.45]] as const).map(([minutes, expected]): EvidenceRow => ({
    subject: `hot-cured laminate of 25.4 mm, middle after ${minutes} min, °C`, source: LAMINATE_SOURCE, expected, tolerance: 0.02, got: () => laminateC(minutes),
  })),
];
