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
  readonly plain: Omit<Member, 'cupRate'>;
  readonly factors: TimeFactors;
}

interface Watched extends Candidate {
  readonly member: Member;
  readonly seen: Seen;
}

/** Pure, and the same every time; about a tenth of a second, so remember it by formula. */
export function familyOf(formula: Formula, testCups: readonly TestCup[] = []): CureFamily {
  const cups = testCups.filter((cup) => cup.formula === formula.id);
  const lit = formula.family === 'uv';
  const groups = candidatesOf(formula);
  // A light-cured resin's clock starts with the lamp: its times say nothing of its heat in the dark.
  const byLabel = groups.map((group) => bestOf(group, ({ factors }) => (lit ? 0 : misfitOf(factors))));
  if (cups.length > 0 && !lit) return narrowedFamily(formula, groups, { cups, byLabel });
  const members = byLabel.map((candidate) => withCup(candidate, formula));
  const even = members.map(() => 1 / PLACES);
  const peaks = comparedPeaks(members, formula, 1);
  return {
    formulaId: formula.id,
    members,
    weights: even,
    meanIndex: peaks.indexOf(weightedQuantile(peaks, even, 0.5)),
    concernC: concernOf(formula),
    hastenedBy: 1,
    contradictions: lit ? [] : contradictionsOf(formula, byLabel.map(({ factors }) => factors)),
    narrowedBy: null,
  };
}

function narrowedFamily(formula: Formula, groups: readonly Candidate[][], { cups, byLabel }: { cups: readonly TestCup[]; byLabel: readonly Candidate[] }): CureFamily {
  const narrow = narrowing(cups);
  const chosen = groups.map((group) =>
    bestOf(
      group.map((candidate): Watched => {
        const member = withCup(candidate, formula);
        return { ...candidate, member, seen: narrow.see(member) };
      }),
      ({ factors, seen }) => misfitOf(factors) + seen.misfit,
    ),
  );
  const members = chosen.map(({ member }) => member);
  const told = narrow.tell(chosen.map(({ seen }) => seen));
  const peaks = comparedPeaks(members, formula, told.hastenedBy);
  const before = spread(comparedPeaks(byLabel.map(({ plain }) => plain), formula, 1), members.map(() => 1 / PLACES));
  return {
    formulaId: formula.id,
    members,
    weights: told.weights,
    meanIndex: peaks.indexOf(weightedQuantile(peaks, told.weights, 0.5)),
    concernC: concernOf(formula),
    hastenedBy: told.hastenedBy,
    contradictions: [...contradictionsOf(formula, chosen.map(({ factors }) => factors)), ...told.contradictions],
    narrowedBy: narrow.describe({ ...told, before, after: spread(peaks, told.weights) }),
  };
}

/** All drafts, anchored and held against the label's times, by place. */
function candidatesOf(formula: Formula): Candidate[][] {
  let near = 1;
  return draftsOf(PLACES, PER_PLACE).map((drafts) =>
    drafts.map((draft) => {
      const { member: plain, near: found } = anchored(draft, formula, near);
      near = found;
      return { plain, factors: timeFactors(plain, formula) };
    }),
  );
}

function bestOf<T>(group: readonly T[], misfit: (candidate: T) => number): T {
  return group.reduce((a, b) => (misfit(b) < misfit(a) ? b : a));
}

function withCup({ plain, factors }: Candidate, formula: Formula): Member {
  return { ...plain, cupRate: cupRateOf(plain, formula, factors) };
}

function comparedPeaks(members: readonly Omit<Member, 'cupRate'>[], formula: Formula, hastenedBy: number): number[] {
  return members.map((member) => labelPeakAtC(member, formula, { share: COMPARED_DEPTH, hastenedBy }));
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
