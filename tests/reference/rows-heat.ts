/** Heat alone through slab, cylinder and sphere, by the solver that judges pours, against tabulated series and closed forms. */
import { advance, pourOn, startStack } from '../../src/core/cure/stack.ts';
import type { StackShape } from '../../src/core/cure/stack-types.ts';
import { temperatureAt } from '../core/cure/at-height.ts';
import { bodyOf, diffusivity, EPOXY, EXACT, runTo, UNIT } from '../core/cure/bodies.ts';
import { INERT, selfHeating, steadyHeat } from '../core/cure/laws.ts';
import type { EvidenceRow } from './evidence-row.ts';

const SERIES = 'full series, Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, transient conduction; summed to 6 digits in physics §2';
const ONE_TERM = 'one-term root ζ and factor C of the table, Incropera & DeWitt; recomputed in physics §2';
const CARSLAW = 'Carslaw & Jaeger, Conduction of Heat in Solids; values in physics §2';
/** Of θ between 0 and 1: what 101 cells and short steps leave. */
const GRID = 3e-5;
/** K, in a body that cools by tens of kelvin. */
const GRID_K = 3e-3;

/** θ at the center (0) or the face (1) of a body of radius or half thickness 1 at a Biot and a Fourier number. */
function theta(shape: StackShape, { biot, fourier, at }: { biot: number; fourier: number; at: 0 | 1 }): number {
  const stack = runTo({ depthMm: 1000, startC: 1, topH: biot, bottomH: 0, shape, material: UNIT }, fourier, { ...EXACT, temperatureToleranceK: 1e-6, firstStepS: 1e-8 });
  return temperatureAt(stack, at * 1000);
}

function series(shape: StackShape, [biot, fourier]: readonly [number, number], center: number, face?: number): EvidenceRow[] {
  const name = biot === Infinity ? 'fixed face' : `Bi ${biot}`;
  const row = (expected: number, at: 0 | 1): EvidenceRow => ({
    subject: `${shape} cooling, ${name}, Fo ${fourier}: θ at the ${at === 0 ? 'center' : 'face'}`,
    source: SERIES, expected, tolerance: GRID, got: () => theta(shape, { biot, fourier, at }),
  });
  return face === undefined ? [row(center, 0)] : [row(center, 0), row(face, 1)];
}

/** At Fo 1 the later terms are under 1e-6 for these Biot numbers, as the second roots are over 3: C e^(−ζ²) at the center. */
function oneTerm(shape: StackShape, biot: number, [zeta, c]: readonly [number, number]): EvidenceRow {
  return {
    subject: `${shape} cooling, Bi ${biot}, Fo 1: θ at the center`, source: ONE_TERM,
    expected: c * Math.exp(-zeta * zeta), tolerance: GRID / 3, got: () => theta(shape, { biot, fourier: 1, at: 0 }),
  };
}

/** The worked slab: 50 mm, both faces in air. */
function workedSlab(seconds: number, center: number, face: number): EvidenceRow[] {
  const at = (heightMm: number) => () => temperatureAt(runTo({ depthMm: 50, startC: 80, roomC: 20, topH: 10, bottomH: 10 }, seconds), heightMm);
  const source = `worked slab 50 mm, 80 °C in air of 20 °C; ${SERIES}`;
  return [
    { subject: `50 mm of epoxy cooling in air, middle after ${seconds} s, °C`, source, expected: center, tolerance: GRID_K, got: at(25) },
    { subject: `50 mm of epoxy cooling in air, face after ${seconds} s, °C`, source, expected: face, tolerance: GRID_K, got: at(50) },
  ];
}

/** Thick enough that its far end knows nothing yet; fine enough that 10 mm are 40 cells. */
const DEEP = { depthMm: 120, startC: 0, bottomH: 0, cells: 481 };

/** Rise of a self-heated body of unit constants with held faces: does it settle (false) or run away? */
function runsAway(shape: StackShape, delta: number): boolean {
  // The steepest settled rises are 1.19, 1.39 and 1.61 (slab, cylinder, sphere): one of 4 will never settle.
  // Close over the critical value it lingers before it runs away: 200 of its own diffusion times are enough to see
  // 0.1 % over (a body that lingers longer would be called settled, and the value found come out too high).
  const stack = bodyOf({ depthMm: 1000, startC: 0, topH: Infinity, bottomH: 0, shape, material: UNIT, law: selfHeating(delta), cells: 61 }, { ...EXACT, temperatureToleranceK: 1e-3, firstStepS: 1e-4, longestStepS: Infinity });
  return advance(stack, 200, { until: ({ hottestC }) => hottestC > 4 }) !== 'reached';
}

function critical(shape: StackShape, expected: number): EvidenceRow {
  return {
    subject: `critical self-heating of a ${shape}: largest δ that settles`,
    source: 'Frank-Kamenetskii; recomputed by spectral solution in physics §3 (older tables 0.88, 2.00, 3.32)',
    expected, tolerance: 0.002 * expected, // asked for: 2 %
    got: () => {
      let [low, high] = [expected / 2, expected * 2];
      while (high - low > 2e-4 * low) {
        const middle = (low + high) / 2;
        if (runsAway(shape, middle)) high = middle;
        else low = middle;
      }
      return (low + high) / 2;
    },
  };
}

/** Largest rise that settles just below the critical value. */
function risesTo(shape: StackShape, { delta, expected }: { delta: number; expected: number }): EvidenceRow {
  return {
    subject: `steady rise at the center of a ${shape} that heats itself at δ ${delta}, dimensionless`,
    source: 'Frank-Kamenetskii, closed form: slab δ = 2 (sech⁻¹ e^(−θ/2))² e^(−θ), cylinder δ = 8β/(1+β)² with θ = 2 ln(1+β)',
    expected, tolerance: 5e-4,
    got: () => {
      const stack = bodyOf({ depthMm: 1000, startC: 0, topH: Infinity, bottomH: 0, shape, material: UNIT, law: selfHeating(delta) }, { ...EXACT, longestStepS: Infinity });
      advance(stack, 100);
      return temperatureAt(stack, 0);
    },
  };
}

/** Temperature where two thick bodies of 40 and 20 °C touch, a minute after. */
function contactC(): number {
  const stack = startStack({ room: [{ fromS: 0, temperatureC: 30 }], topHWPerM2K: 0, bottomHWPerM2K: 0 }, { ...EXACT, cellMm: 0.1 });
  const hardwood = { densityKgPerM3: 720, heatCapacityJPerKgK: 1255, conductivityWPerMK: 0.16 };
  pourOn(stack, { depthMm: 30, mixC: 20, material: hardwood, kinetics: INERT, sideWPerM3K: 0 }, 0);
  pourOn(stack, { depthMm: 30, mixC: 40, material: EPOXY, kinetics: INERT, sideWPerM3K: 0 }, 0);
  advance(stack, 60);
  return temperatureAt(stack, 30);
}

/** k (T − Ts)/(q L²) at the center of a slab with held faces that is heated steadily. */
function heatedSlab(fourier: number): number {
  return temperatureAt(runTo({ depthMm: 1000, startC: 0, topH: Infinity, bottomH: 0, material: UNIT, law: steadyHeat(1, 1) }, fourier, { ...EXACT, temperatureToleranceK: 1e-6, firstStepS: 1e-8 }), 0);
}

/** Both faces in air of 0 °C, until nothing moves. */
function heatedInAirC(heightMm: number): number {
  return temperatureAt(runTo({ depthMm: 50, startC: 0, topH: 10, bottomH: 10, law: steadyHeat(5000, EPOXY.densityKgPerM3) }, 50 * 24 * 3600), heightMm);
}

export const rows: readonly EvidenceRow[] = [
  ...series('slab', [1, 0.2], 0.950642, 0.643391),
  ...series('slab', [5, 0.5], 0.523109, 0.133032),
  ...series('slab', [0.5, 1], 0.698383, 0.554589),
  ...series('cylinder', [1, 0.2], 0.870174, 0.570228),
  ...series('cylinder', [5, 0.2], 0.671418, 0.158917),
  ...series('slab', [Infinity, 0.05], 0.996869),
  ...series('slab', [Infinity, 0.1], 0.949305),
  ...series('slab', [Infinity, 0.2], 0.772312),
  ...series('slab', [Infinity, 0.5], 0.370777),
  oneTerm('slab', 10, [1.42887, 1.261963]),
  oneTerm('cylinder', 0.5, [0.940771, 1.114255]),
  oneTerm('sphere', 0.1, [0.542281, 1.029798]),
  oneTerm('sphere', 0.5, [1.165561, 1.144106]),
  oneTerm('sphere', 1, [1.570796, 1.27324]),
  oneTerm('sphere', 5, [2.570432, 1.787001]),
  ...workedSlab(1800, 73.9004, 52.8565),
  ...workedSlab(3600, 63.2221, 45.8405),
  ...workedSlab(7200, 47.3855, 36.3554),
  {
    subject: 'semi-infinite epoxy, face held warmer, 10 mm deep after 600 s: share of the step', source: CARSLAW,
    expected: 0.340004, tolerance: 2 * GRID, got: () => temperatureAt(runTo({ ...DEEP, roomC: 100, topH: Infinity }, 600), 110) / 100,
  },
  {
    subject: 'semi-infinite epoxy, warm air with film 10, 10 mm deep after 600 s: share of the step', source: CARSLAW,
    expected: 0.076424, tolerance: GRID, got: () => temperatureAt(runTo({ ...DEEP, roomC: 100, topH: 10 }, 600), 110) / 100,
  },
  ...([['face', 120, 41.8109], ['depth of 10 mm', 110, 9.5211]] as const).map(([name, heightMm, expected]): EvidenceRow => ({
    subject: `semi-infinite epoxy under 1000 W/m², rise at the ${name} after 600 s, K`, source: CARSLAW,
    expected, tolerance: GRID_K,
    // A film so thin and a room so hot that the flow is 1000 W/m² within 1e-7.
    got: () => temperatureAt(runTo({ ...DEEP, roomC: 1e9, topH: 1e-6 }, 600), heightMm),
  })),
  { subject: 'slab of 50 mm heated by 5000 W/m³ in air with film 10, steady, middle over air, K', source: 'qL²/2k + qL/h, Bird, Stewart & Lightfoot; physics §2', expected: 20.3125, tolerance: GRID_K, got: () => heatedInAirC(25) },
  { subject: 'slab of 50 mm heated by 5000 W/m³ in air with film 10, steady, face over air, K', source: 'qL/h; physics §2', expected: 12.5, tolerance: GRID_K, got: () => heatedInAirC(50) },
  ...([[0.1, 0.098873], [0.5, 0.349727], [1, 0.456239]] as const).map(([fourier, expected]): EvidenceRow => ({
    subject: `slab with held faces heated from rest, Fo ${fourier}: k (T − Ts)/(qL²) at the middle`, source: CARSLAW, expected, tolerance: GRID, got: () => heatedSlab(fourier),
  })),
  { subject: 'warm epoxy (40 °C) on hardwood (20 °C): where they touch, °C', source: 'effusivities 661.06 and 380.23, Carslaw & Jaeger; physics §2', expected: 32.697, tolerance: 0.01, got: contactC },
  {
    subject: 'epoxy that loses heat through its sides alone, 500 W/m³K, from 60 °C in 20 °C after 2 h, °C', source: 'lumped balance, closed form 20 + 40 e^(−wt/ρc)',
    expected: 20 + 40 * Math.exp((-500 * 7200) / (1150 * 1900)), tolerance: GRID_K, got: () => temperatureAt(runTo({ depthMm: 20, startC: 60, roomC: 20, topH: 0, bottomH: 0, sideWPerM3K: 500 }, 7200), 10),
  },
  {
    subject: 'the same in a room that rises by 0.005 K/s from 20 °C, from 20 °C after 2 h, °C', source: 'lumped balance, closed form 20 + r (t − τ (1 − e^(−t/τ))), τ = ρc/w',
    expected: 20 + 0.005 * (7200 - 4370 * (1 - Math.exp(-7200 / 4370))), tolerance: GRID_K,
    got: () => temperatureAt(runTo({ depthMm: 20, startC: 20, room: [{ fromS: 0, temperatureC: 20, risePerS: 0.005 }], topH: 0, bottomH: 0, sideWPerM3K: 500 }, 7200), 10),
  },
  {
    subject: 'diffusivity of cast epoxy with k 0.2, ρ 1150, c 1900, m²/s', source: 'k/(ρc), physics §1', expected: 9.153e-8, tolerance: 0.5e-11, got: () => diffusivity(EPOXY),
  },
  critical('slab', 0.878458),
  critical('cylinder', 2),
  critical('sphere', 3.321992),
  // β 0.5: θ = 2 ln 1.5, δ = 4/2.25.
  risesTo('cylinder', { delta: 16 / 9, expected: 2 * Math.log(1.5) }),
  // θ = ln 2: sech⁻¹(1/√2) = ln(√2 + 1), δ = (ln(1 + √2))².
  risesTo('slab', { delta: Math.log(1 + Math.SQRT2) ** 2, expected: Math.LN2 }),
];
