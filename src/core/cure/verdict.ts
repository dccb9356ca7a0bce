/**
 * The heat of a whole build, one pour after the other, each on what is below it with what heat and cure are left, in
 * this mold, under the room's profile. Every verdict is the family's: a range, never one number alone.
 *
 * No published, complete case of an unfilled resin cured at room temperature exists to our knowledge. So nothing here
 * is more certain than the label it is anchored on, and nothing here allows more than the label.
 */
import type { Mold, Room } from '../scene/scene.ts';
import { bubblesOf, smallestBubbleMm } from './bubbles.ts';
import { contextOf, firstSlots, memberAt, trialOf, type BuildContext, type MemberRun } from './build-run.ts';
import { momentAfter } from './equivalent-time.ts';
import { familyOf } from './family.ts';
import { weightedQuantile } from './family-types.ts';
import { softensOf } from './softening-run.ts';
import { tooWarmRoom } from './too-warm-room.ts';
import { assess, HIGH, LOW, type Assessed, type Standing } from './verdict-assess.ts';
import { causeOf } from './verdict-cause.ts';
import { fixesOf } from './verdict-fixes.ts';
import { seriesOf, type HeatSeries } from './verdict-series.ts';
import type { BuildPour, Fix, JudgeOptions, PourVerdict, Windows } from './verdict-types.ts';

const MIDDLE = 0.5;

/** What is in the mold so far. A value: one may be poured on many times. */
export interface BuildSoFar {
  pour(pour: BuildPour): JudgedPour;
}

export interface JudgedPour {
  readonly verdict: PourVerdict;
  /** With this pour in the mold. */
  readonly then: BuildSoFar;
  /** What would help, each solved again: some tenths of a second. */
  fixes(): Fix[];
  /** For the chart: solved again, with what is seen kept. */
  series(): HeatSeries;
}

/** An empty mold in its room. */
export function beginBuild(mold: Mold, room: Room, { members = 'all', familyOf: remembered = familyOf }: JudgeOptions = {}): BuildSoFar {
  return {
    pour(pour) {
      const context = contextOf({ mold, room, members, originMin: pour.fromMin, familyOf: remembered });
      return judged({ context, slots: firstSlots(context, pour.family), families: [] }, pour);
    },
  };
}

function judged(standing: Standing, pour: BuildPour): JudgedPour {
  const { context, slots } = standing;
  const trial = trialOf(context, pour);
  const assessed = assess(standing, pour, trial);
  const { runs, ready, weights, asked, asLabel, found, rangeC, words, safeDepthMm } = assessed;
  const { family } = pour;
  const over = (value: (run: MemberRun) => number, share: number) => weightedQuantile(runs.map(value), weights, share);
  const { cautious } = found;
  const harsher = found.ratio < 1;
  const verdict: PourVerdict = {
    rangeC,
    words,
    afterH: over(({ peakAtS }) => peakAtS, MIDDLE) / 3600,
    safeDepthMm,
    harsher,
    cause: causeOf({ context, ready: ready[cautious], onPours: slots[cautious].ended !== null, pour, trial, asked, ratio: found.ratio, harsher, cool: words === 'cool' }),
    // The label itself says that its depth is borne in its room.
    tooWarmRoomC: Math.max(asLabel && pour.depthMm <= safeDepthMm ? trial.room[0].temperatureC : -Infinity, tooWarmRoom(ready, { trial, concernC: family.concernC, weights, peaksC: runs.map(({ peakC }) => peakC), mixFollows: pour.mixC === undefined })),
    windows: windowsOf(context, pour, assessed),
    bubbles: bubblesOf(smallestBubbleMm(pour.depthMm, over(({ fluidityPerPa }) => fluidityPerPa, MIDDLE), memberAt(family, 0).material.densityKgPerM3)),
    softens: softensOf(context.room, pour, runs.map(({ slot, midConversion }) => ({ kinetics: memberAt(family, slot.place).kinetics, alpha: midConversion })), weights),
  };
  const families = standing.families.includes(family) ? standing.families : [...standing.families, family];
  const then: Standing = { context, slots: runs.map(({ slot }) => slot), families };
  return {
    verdict,
    then: { pour: (next) => judged(then, next) },
    fixes: () => fixesOf(standing, pour, { trial, verdict }),
    series: () => seriesOf(ready, { trial, weights }),
  };
}

/** Moments by the simulated surface, at the cautious end: the bond gone the soonest, the surface cool the latest. */
function windowsOf({ room: ofBuild, originMin }: BuildContext, { formula, fromMin, room = ofBuild }: BuildPour, { runs, weights, asked }: Assessed): Windows {
  const moment = (sincePourS: number) => originMin + (asked.trial.atS + sincePourS) / 60;
  const closes = runs.map(({ closesS, closeHoursLeft, endedS }) => (closesS === null ? momentAfter(room, moment(endedS), closeHoursLeft, formula.atC) : moment(closesS)));
  const coolFrom = (hours: number): number | null => {
    const label = momentAfter(room, fromMin, hours, formula.atC);
    const since = (label - moment(0)) * 60;
    const from = runs.map(({ warmSpans }) => warmSpans.find(([begins, ends]) => since >= begins && since < ends)?.[1] ?? since);
    const latest = weightedQuantile(from, weights, HIGH);
    return latest > since ? moment(latest) : null;
  };
  return {
    closesMin: weightedQuantile(closes, weights, LOW),
    opensMin: coolFrom(formula.bondOpensH),
    scuffableMin: coolFrom(formula.scuffableH),
    paintableMin: coolFrom(formula.paintableH),
    demoldMin: coolFrom(formula.demoldH),
  };
}
