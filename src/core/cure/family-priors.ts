/**
 * What a casting resin may be before its label is read: spreads of everything that heat and cure depend on, and points
 * drawn evenly over them. The points are a fixed sequence (R. Roberts 2018, the golden ratio in many dimensions):
 * the same label gives the same family, always.
 */
import { conversionAtGlass } from './softening.ts';

/** A resin that could be, but for how fast it is: that the label says. */
export interface Draft {
  readonly heatJPerKg: number;
  readonly activationJPerMol: number;
  readonly m: number;
  readonly n: number;
  readonly k1OverK2: number;
  readonly gelAlpha: number;
  readonly brakeC: number;
  readonly brakeAlpha0: number;
  readonly heatCapacityJPerKgK: number;
  readonly conductivityWPerMK: number;
  readonly topHWPerM2K: number;
  readonly underHWPerM2K: number;
}

type Span = readonly [low: number, high: number];

/** Undiluted epoxies, about 100 kJ per epoxide equivalent (from memory, standard literature range; physics §1). */
const HEAT_J_PER_KG: Span = [300e3, 450e3];
/** The bench's doubling per 10 °C is 51–52 kJ/mol; published sets near room temperature 44–60 (physics §4). */
const ACTIVATION_J_PER_MOL: Span = [51e3, 56e3];
/** m + n from 2.3 to 2.9: 2.5–3 in Barral et al. 1995, J. Appl. Polym. Sci. 56:1029, and a little more slack below. */
const ORDER_M: Span = [0.7, 1];
const ORDER_N: Span = [1.6, 1.9];
/** How much of the start needs no autocatalysis, spread by its logarithm: accelerated hardeners have much (from memory). */
const K1_OVER_K2: Span = [0.02, 0.5];
/** Gel of amine epoxies as measured, 0.5–0.6 (from memory); mean field 0.577 (Flory; Stockmayer). */
const GEL_ALPHA: Span = [0.55, 0.6];
const BRAKE_C: Span = [25, 35];
/** How far over the bench's temperature the glass transition may rise before the brake has halved the rate, K. */
const BRAKE_OVER_K: Span = [5, 15];
const HEAT_CAPACITY: Span = [1600, 2100];
const CONDUCTIVITY: Span = [0.17, 0.22];
/** Natural convection and radiation on a warm casting in still air, 9–12 W/m²K (film.ts; physics-tables §2.3). */
const TOP_FILM: Span = [9, 12];
/** Of that, what is left under a mold: a bench near its underside hinders the air (from memory). */
const UNDER_SHARE: Span = [0.8, 1];

/** Temperature the brake's conversion is given at, °C. */
export const BRAKE_AT_C = 25;
/** Rise of that conversion with the temperature: along DiBenedetto's curve from 20 to 40 °C (physics-tables §1.6). */
export const BRAKE_PER_K = 0.005;

const DIMENSIONS = 12;
/** The dimensions that belong to the bench and the piece, not to the resin: the same for every draft of one place. */
const PLACE_FROM = 8;

/**
 * Drafts in `places` groups of `perPlace`: within a group the air and the resin's thermal values are one, so that
 * members of two formulas with one place can be poured on one another.
 */
export function draftsOf(places: number, perPlace: number): Draft[][] {
  const steps = sequenceSteps(DIMENSIONS);
  return Array.from({ length: places }, (_, place) =>
    Array.from({ length: perPlace }, (_, k) => {
      const resin = place * perPlace + k + 1;
      return draft((dimension) => ((dimension < PLACE_FROM ? resin : place + 1) * steps[dimension] + 0.5) % 1);
    }),
  );
}

function draft(point: (dimension: number) => number): Draft {
  const even = (dimension: number, [low, high]: Span) => low + point(dimension) * (high - low);
  const topHWPerM2K = even(8, TOP_FILM);
  return {
    heatJPerKg: even(0, HEAT_J_PER_KG),
    activationJPerMol: even(1, ACTIVATION_J_PER_MOL),
    m: even(2, ORDER_M),
    n: even(3, ORDER_N),
    k1OverK2: Math.exp(even(4, [Math.log(K1_OVER_K2[0]), Math.log(K1_OVER_K2[1])])),
    gelAlpha: even(5, GEL_ALPHA),
    brakeC: even(6, BRAKE_C),
    brakeAlpha0: conversionAtGlass(BRAKE_AT_C + even(7, BRAKE_OVER_K)),
    topHWPerM2K,
    underHWPerM2K: topHWPerM2K * even(11, UNDER_SHARE),
    heatCapacityJPerKgK: even(9, HEAT_CAPACITY),
    conductivityWPerMK: even(10, CONDUCTIVITY),
  };
}

/** Steps of the sequence: powers of 1/φ, φ the root of φ^(d+1) = φ + 1. */
function sequenceSteps(dimensions: number): number[] {
  let phi = 2;
  for (let i = 0; i < 60; i++) phi = (1 + phi) ** (1 / (dimensions + 1));
  return Array.from({ length: dimensions }, (_, i) => (1 / phi) ** (i + 1) % 1);
}
