/**
 * From a label, and test cups of the resin if there are any, to its family: drafts over all that a resin may be, each
 * anchored on the label's greatest depth, and of each place the draft that bears out the label's times best.
 */
import type { Formula } from '../scene/scene.ts';
import { anchored, concernOf, labelPeakAtC } from './family-anchor.ts';
import { narrowing, type Seen } from './family-narrow.ts';
import { draftsOf } from './family-priors.ts';
import { weightedQuantile, type CureFamily, type Member } from './family-types.ts';
import { contradictionsOf, cupThickS, misfitOf, timeFactors, type TimeFactors } from './label-times.ts';
import type { TestCup } from './test-cup.ts';

/** Members. More change no verdict by more than the label is rounded by (a test holds it). */
export const PLACES = 32;
/** Drafts of which a place takes the best. */
const PER_PLACE = 3;
/** Where peaks are compared: there a family still differs, at the label's depth it is one temperature by its making. */
const COMPARED_DEPTH = 0.75;
const LOW = 0.05;
const HIGH = 0.95;
/** A pot life that the cup's rate meets this well is met, as a logarithm. */
const POT_LIFE_TOLERANCE = 1e-4;
const MOST_TRIES = 30;
/** Bounds of how differently a cup may go from what the depth says, as logarithms: labels in a decade of error, and another. */
const RATE_BOUND = Math.log(100);

interface Candidate {
  readonly member: Member;
  readonly factors: TimeFactors;
  readonly seen: Seen | null;
}

/** Pure, and the same every time; some tens of milliseconds, so remember it by formula. */
export function familyOf(formula: Formula, testCups: readonly TestCup[] = []): CureFamily {
  const cups = testCups.filter((cup) => cup.formula === formula.id);
  const lit = formula.family === 'uv';
  const narrow = cups.length > 0 && !lit ? narrowing(cups) : null;
  let near = 1;
  const drafted = draftsOf(PLACES, PER_PLACE).map((drafts) =>
    drafts.map((draft): Candidate => {
      const { member: plain, near: found } = anchored(draft, formula, near);
      near = found;
      const factors = timeFactors(plain, formula);
      const member = { ...plain, cupRate: cupRateOf(plain, formula, factors) };
      return { member, factors, seen: narrow?.see(member) ?? null };
    }),
  );
  // A light-cured resin's clock starts with the lamp: its times say nothing of its heat in the dark.
  const best = (misfit: (candidate: Candidate) => number) => drafted.map((group) => group.reduce((a, b) => (misfit(b) < misfit(a) ? b : a)));
  const byLabel = best(({ factors }) => (lit ? 0 : misfitOf(factors)));
  const chosen = narrow ? best(({ factors, seen }) => misfitOf(factors) + seen!.misfit) : byLabel;
  const members = chosen.map(({ member }) => member);
  const even = members.map(() => 1 / PLACES);
  const told = narrow?.tell(chosen.map(({ seen }) => seen!)) ?? { weights: even, hastenedBy: 1, leftFraction: 1, contradictions: [] };
  const peaks = members.map((member) => labelPeakAtC(member, formula, { share: COMPARED_DEPTH, hastenedBy: told.hastenedBy }));
  return {
    formulaId: formula.id,
    members,
    weights: told.weights,
    meanIndex: peaks.indexOf(weightedQuantile(peaks, told.weights, 0.5)),
    concernC: concernOf(formula),
    hastenedBy: told.hastenedBy,
    contradictions: lit ? [] : [...contradictionsOf(formula, chosen.map(({ factors }) => factors)), ...told.contradictions],
    narrowedBy: narrow && narrow.describe({ before: spread(byLabel.map(({ member }) => labelPeakAtC(member, formula, { share: COMPARED_DEPTH, hastenedBy: 1 })), even), after: spread(peaks, told.weights), ...told }),
  };
}

function spread(values: readonly number[], weights: readonly number[]): [number, number] {
  return [weightedQuantile(values, weights, LOW), weightedQuantile(values, weights, HIGH)];
}

/** How many times faster than the depth makes it go it has to go in the label's own cup, to be thick at the pot life. */
function cupRateOf(member: Omit<Member, 'cupRate'>, formula: Formula, { potLifeMin }: TimeFactors): number {
  const target = Math.log(formula.potLifeMin * 60);
  let [x0, y0] = [0, Math.log(potLifeMin)];
  let x1 = clamp(y0);
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const y1 = Math.log(cupThickS(member, formula, Math.exp(x1))) - target;
    if (Math.abs(y1) < POT_LIFE_TOLERANCE || y1 === y0) break;
    // Twice as fast is thick in half the time or sooner: a secant that is flatter than that or the wrong way is noise.
    const slope = Math.min(-0.5, (y1 - y0) / (x1 - x0));
    [x0, y0, x1] = [x1, y1, clamp(x1 - y1 / slope)];
    if (x1 === x0) break;
  }
  return Math.exp(x1);
}

function clamp(x: number): number {
  return Math.min(RATE_BOUND, Math.max(-RATE_BOUND, x));
}
