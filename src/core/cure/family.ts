/**
 * From a label, and test cups of the resin if there are any, to its family: drafts over all that a resin may be, each
 * anchored on the label's greatest depth, and of each place the draft that bears out the label's times best.
 */
import type { Formula } from '../scene/scene.ts';
import { anchored, concernOf, labelPeakAtC } from './family-anchor.ts';
import { hasteOf, hotCupOf } from './family-haste.ts';
import { seenBy, toldBy } from './family-narrow.ts';
import { draftsOf } from './family-priors.ts';
import { weightedQuantile, type Contradiction, type CureFamily, type Member, type Narrowed } from './family-types.ts';
import { contradictionsOf, cupThickS, misfitOf, TIME_SPREAD, timeFactors, type TimeFactors } from './label-times.ts';
import type { TestCup } from './test-cup.ts';

/** Members. More change no verdict by more than the label is rounded by (a test holds it). */
const PLACES = 32;
/** Drafts of which a place takes the best. */
const PER_PLACE = 3;
/** Where peaks are compared: there a family still differs, at the label's depth it is one temperature by its making. */
const COMPARED_DEPTH = 0.75;
const LOW = 0.05;
const HIGH = 0.95;
/** A pot life that the cup's rate meets this well is met, as a logarithm. */
const POT_LIFE_TOLERANCE = 1e-4;
const MOST_TRIES = 30;
/** A pot life and what the depth says of it are each known to a spread: slower than both together allow, the depth counts. */
const SLOWEST_CUP = Math.exp(-Math.SQRT2 * TIME_SPREAD);
/** Bounds of how differently a cup may go from what the depth says, as logarithms: labels in a decade of error, and another. */
const RATE_BOUND = Math.log(100);

interface Candidate {
  readonly plain: Omit<Member, 'cupRate'>;
  readonly factors: TimeFactors;
}

interface InCup extends Candidate {
  readonly member: Member;
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
    hotCups: [],
    contradictions: lit ? [] : contradictionsOf(formula, byLabel.map(({ factors }) => factors)),
    narrowedBy: null,
  };
}

/** Of several cups the strictest counts: the one that went fastest, or where none was fast the one with the hottest end. */
function narrowedFamily(formula: Formula, groups: readonly Candidate[][], { cups, byLabel }: { cups: readonly TestCup[]; byLabel: readonly Candidate[] }): CureFamily {
  const even = byLabel.map(() => 1 / PLACES);
  const labelMembers = byLabel.map((candidate) => withCup(candidate, formula));
  const before = spread(comparedPeaks(labelMembers, formula, 1), even);
  const hastenedBy = Math.max(...cups.map((cup) => hasteOf(cup, labelMembers)));
  const inCup = groups.map((group) => group.map((candidate): InCup => ({ ...candidate, member: withCup(candidate, formula) })));
  const fits = cups.map((cup) => fittedTo(cup, inCup, formula));
  // One faster than its label may be any resin of it, that much faster: what a fit prefers of them must loosen nothing.
  const plain = { chosen: byLabel, members: labelMembers, weights: even, leftFraction: 1, peaks: hastenedBy > 1 ? comparedPeaks(labelMembers, formula, hastenedBy) : [] };
  const kept = hastenedBy > 1 ? plain : fits.reduce((a, b) => (spread(b.peaks, b.weights)[1] > spread(a.peaks, a.weights)[1] ? b : a));
  const { members, weights, peaks } = kept;
  return {
    formulaId: formula.id,
    members,
    weights,
    meanIndex: peaks.indexOf(weightedQuantile(peaks, weights, 0.5)),
    concernC: concernOf(formula),
    hastenedBy,
    hotCups: cups.flatMap((cup) => hotCupOf(cup, formula) ?? []),
    contradictions: [...contradictionsOf(formula, kept.chosen.map(({ factors }) => factors)), ...againstLabel(hastenedBy, fits)],
    narrowedBy: narrowedTo(cups, { before, after: spread(peaks, weights), leftFraction: kept.leftFraction }),
  };
}

/** The family as one cup alone would have it, no faster than its label. */
function fittedTo(cup: TestCup, groups: readonly InCup[][], formula: Formula) {
  const watched = groups.map((group) => bestOf(group.map((candidate) => ({ ...candidate, seen: seenBy(candidate.member, cup) })), ({ factors, seen }) => misfitOf(factors) + seen.misfit));
  const members = watched.map(({ member }) => member);
  return { chosen: watched as readonly Candidate[], members, ...toldBy(watched.map(({ seen }) => seen)), peaks: comparedPeaks(members, formula, 1) };
}

function againstLabel(hastenedBy: number, fits: readonly { readonly speed: number; readonly unexplained: boolean }[]): Contradiction[] {
  const told: Contradiction[] = [];
  const slowest = Math.min(...fits.map(({ speed }) => speed));
  const times = (factor: number) => `${Number(factor.toPrecision(2))} times`;
  if (hastenedBy > 1) {
    told.push({ field: 'testCup', factor: hastenedBy, words: `A test cup went ${times(hastenedBy)} faster than the label’s pot life says. Safe depth, usable minutes and the time to bond are less by that. Check the mixing ratio and the room’s temperature.` });
  } else if (slowest < Math.exp(-TIME_SPREAD)) {
    told.push({ field: 'testCup', factor: slowest, words: `A test cup went ${times(1 / slowest)} slower than the label’s pot life says. The label’s depth stands. Check the mixing ratio and the room’s temperature.` });
  }
  if (fits.some(({ unexplained }) => unexplained)) {
    told.push({ field: 'testCup', factor: 1, words: 'The readings of a test cup fit no resin with this label. Check grams, cup, room and the times typed; until then whatever they show to be faster counts.' });
  }
  return told;
}

function narrowedTo(cups: readonly TestCup[], { before, after, leftFraction }: { before: readonly [number, number]; after: readonly [number, number]; leftFraction: number }): Narrowed {
  const span = ([low, high]: readonly [number, number]) => `${Math.round(low)} to ${Math.round(high)} °C`;
  return {
    cups: cups.length,
    readings: cups.reduce((sum, { readings }) => sum + readings.length, 0),
    beforeC: before,
    afterC: after,
    leftFraction,
    words: `At three quarters of the label’s depth the peak was expected at ${span(before)}; with the test cup at ${span(after)}.`,
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
  return { ...plain, cupRate: Math.max(SLOWEST_CUP, cupRateOf(plain, formula, factors)) };
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
