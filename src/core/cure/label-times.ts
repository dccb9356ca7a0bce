/**
 * When a member of a family would be thick in its cup, carry the next pour and be hard, to hold against what the label
 * says of them. The depth and the times of a label are measured by different people in different cups: that they
 * contradict one another, for a textbook shape, is the rule (a prototype: pot life twice, demold 0.4 times).
 */
import type { Formula } from '../scene/scene.ts';
import { thickening } from './bubbles.ts';
import { runInCup } from './cup-run.ts';
import type { Contradiction, Member } from './family-types.ts';
import { cureRate, type Kinetics } from './kinetics.ts';

/** A pot life ends when the mix is this many times as thick as it was (from memory: the usual doubling). */
const POT_LIFE_THICKER = 2;
/** Conversion from which a thin piece comes out of the mold without a dent: its glass transition is some 10 K over the room (from memory). */
const HARD_ALPHA = 0.77;
/** How well a label's time is known, either way (a prototype narrowed the time scale to ±35 %), as a logarithm. */
export const TIME_SPREAD = Math.log(1.35);
/** Steps of conversion in an isothermal time; halving them changes it by under 0.1 %. */
const STEPS = 64;
/** Longer than any label says, s. */
const FOREVER_S = 3e8;

export interface TimeFactors {
  /** Expected over the label's, each. */
  readonly potLifeMin: number;
  readonly bondOpensH: number;
  readonly demoldH: number;
}

/** Conversion at which the mix is as thick as at the end of its pot life. */
export function thickAlpha(gelAlpha: number): number {
  let [low, high] = [0, gelAlpha];
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (thickening(middle, gelAlpha) < POT_LIFE_THICKER) low = middle;
    else high = middle;
  }
  return low;
}

/** Seconds to a conversion at one temperature: ∫ dα/rate. Where the brake all but stops it, very long. */
function isothermalS(kinetics: Kinetics, alpha: number, temperatureC: number): number {
  let sum = 0;
  for (let i = 0; i < STEPS; i++) sum += alpha / STEPS / cureRate(kinetics, ((i + 0.5) * alpha) / STEPS, temperatureC);
  return Math.min(sum, FOREVER_S);
}

/** In the label's own cup at its own temperature, seconds to thick; `rate` times as fast as the kinetics. */
export function cupThickS(member: Omit<Member, 'cupRate'>, { atC, potLifeMassG }: Formula, rate: number): number {
  const thick = thickAlpha(member.kinetics.gelAlpha);
  let thickS = FOREVER_S;
  let [beforeS, before] = [0, 0];
  runInCup(member, { massG: potLifeMassG, kind: 'plastic', roomC: atC, mixC: atC, rate, untilS: FOREVER_S }, (timeS, _middleC, alpha) => {
    if (alpha >= thick) thickS = beforeS + ((timeS - beforeS) * (thick - before)) / (alpha - before);
    [beforeS, before] = [timeS, alpha];
    return alpha >= thick;
  });
  return thickS;
}

/** A thin piece, that does not warm itself: the slowest that a label's hours have to hold for. */
export function timeFactors(member: Omit<Member, 'cupRate'>, formula: Formula): TimeFactors {
  const { kinetics } = member;
  return {
    potLifeMin: cupThickS(member, formula, 1) / 60 / formula.potLifeMin,
    bondOpensH: isothermalS(kinetics, kinetics.gelAlpha, formula.atC) / 3600 / Math.max(formula.bondOpensH, 1e-3),
    demoldH: isothermalS(kinetics, HARD_ALPHA, formula.atC) / 3600 / Math.max(formula.demoldH, 1e-3),
  };
}

/** Sum of squares, in spreads. */
export function misfitOf(factors: TimeFactors): number {
  return Object.values(factors).reduce((sum: number, factor: number) => sum + (Math.log(factor) / TIME_SPREAD) ** 2, 0);
}

const NAMES: Readonly<Record<keyof TimeFactors, { says: string; unit: string }>> = {
  potLifeMin: { says: 'a pot life', unit: 'min' },
  bondOpensH: { says: 'a wait before the next pour', unit: 'h' },
  demoldH: { says: 'a time to demold', unit: 'h' },
};

/** The label's times that no member bears out within their spread. */
export function contradictionsOf(formula: Formula, all: readonly TimeFactors[]): Contradiction[] {
  const middle = (field: keyof TimeFactors) => [...all].map((factors) => factors[field]).sort((a, b) => a - b)[Math.floor(all.length / 2)];
  return (Object.keys(NAMES) as (keyof TimeFactors)[]).flatMap((field) => {
    const beyond = (sign: 1 | -1) => all.every((factors) => sign * Math.log(factors[field]) > TIME_SPREAD);
    if (!beyond(1) && !beyond(-1)) return [];
    const { says, unit } = NAMES[field];
    const factor = middle(field);
    const expected = `${Number((formula[field] * factor).toPrecision(2))}\u00a0${unit}`;
    return [{ field, factor, words: `The label says ${says} of ${Number(formula[field].toPrecision(3))}\u00a0${unit}; ${formula.typical.includes('maxDepthMm') ? 'the greatest depth typical of its class' : 'its greatest depth'} makes one expect about ${expected}.` }];
  });
}
