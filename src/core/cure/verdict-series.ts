/** What a pour's chart shows: the hottest point through time as a band over the family, and the middle member through the depth. */
import { pouredOn, type Trial } from './build-run.ts';
import { DEPTH_DOUBT } from './depth-doubt.ts';
import { weightedQuantile } from './family-types.ts';
import type { Ready } from './safe-depth.ts';
import { advance } from './stack.ts';
import { profileOf } from './stack-profile.ts';

/** Moments along the chart. */
const MOMENTS = 96;
/** The chart ends when the last of the family is through, or after this, s. */
const LONGEST_S = 14 * 86_400;
/** Within this of the room the heat is over, K. */
const OVER_K = 1.5;
const CURED = 0.5;

export interface HeatSeries {
  /** Since the pour. */
  readonly hours: readonly number[];
  /**
   * Hottest point of the pour at each moment, °C: half of the family, and its 5 and 95 %, each at as much less or more
   * depth as a verdict's range doubts. Members peak at their own moments, so a range may go beyond the band's top.
   */
  readonly lowC: readonly number[];
  readonly middleC: readonly number[];
  readonly highC: readonly number[];
  readonly roomC: readonly number[];
  /** The middle member when it is hottest, from the mold's floor up through all that is poured. */
  readonly depth: { readonly atH: number; readonly heightMm: readonly number[]; readonly temperatureC: readonly number[]; readonly pourFromMm: number };
}

/** Of the members as they stand ready to pour. */
export function seriesOf(all: readonly Ready[], { trial, weights }: { trial: Trial; weights: readonly number[] }): HeatSeries {
  const tracksAt = (depthShare: number) => all.map((ready) => trackOf(ready, { ...trial, depthMm: trial.depthMm * depthShare }));
  const [tracks, thinner, thicker] = [tracksAt(1), tracksAt(1 / DEPTH_DOUBT), tracksAt(DEPTH_DOUBT)];
  const endS = Math.min(LONGEST_S, Math.max(...thicker.map(({ overS }) => overS)));
  const seconds = Array.from({ length: MOMENTS }, (_, i) => (endS * i) / (MOMENTS - 1));
  const quantile = (of: readonly Track[], share: number) => seconds.map((s) => weightedQuantile(of.map((track) => along(track, s)), weights, share));
  const [low, high] = [quantile(tracks, 0.05), quantile(tracks, 0.95)];
  const peaks = tracks.map(({ hottestC }) => Math.max(...hottestC));
  const middle = peaks.indexOf(weightedQuantile(peaks, weights, 0.5));
  return {
    hours: seconds.map((s) => s / 3600),
    // What is thinner is not cooler at every moment, nor the other warmer.
    lowC: quantile(thinner, 0.05).map((c, i) => Math.min(c, low[i])),
    middleC: quantile(tracks, 0.5),
    highC: quantile(thicker, 0.95).map((c, i) => Math.max(c, high[i])),
    roomC: seconds.map((s) => roomOf(trial, s)),
    depth: depthOf(all[middle], trial, tracks[middle]),
  };
}

interface Track {
  readonly seconds: number[];
  readonly hottestC: number[];
  readonly overS: number;
}

function trackOf(ready: Ready, trial: Trial): Track {
  const stack = pouredOn(ready.ground, ready.pour, trial);
  const seconds = [0];
  const hottestC = [trial.mixC];
  advance(stack, trial.atS + LONGEST_S, {
    until: ({ sinceS, hottestC: hottest, roomC, meanConversion }) => {
      seconds.push(sinceS);
      hottestC.push(hottest);
      return meanConversion > CURED && hottest < roomC + OVER_K;
    },
  });
  return { seconds, hottestC, overS: seconds[seconds.length - 1] };
}

function depthOf(ready: Ready, trial: Trial, { seconds, hottestC }: Track): HeatSeries['depth'] {
  const atS = seconds[hottestC.indexOf(Math.max(...hottestC))];
  const stack = pouredOn(ready.ground, ready.pour, trial);
  advance(stack, trial.atS + atS);
  const { heightMm, temperatureC } = profileOf(stack);
  const edges = stack.grid!.edgeMm;
  return { atH: atS / 3600, heightMm: [...heightMm], temperatureC: [...temperatureC], pourFromMm: edges[edges.length - 1] - trial.depthMm };
}

/** Straight between steps; the last temperature after them. */
function along({ seconds, hottestC }: Track, atS: number): number {
  const k = seconds.findIndex((s) => s >= atS);
  if (k < 0) return hottestC[hottestC.length - 1];
  if (k === 0) return hottestC[0];
  const share = (atS - seconds[k - 1]) / (seconds[k] - seconds[k - 1]);
  return hottestC[k - 1] + share * (hottestC[k] - hottestC[k - 1]);
}

function roomOf({ room, atS }: Trial, sinceS: number): number {
  return room.reduce((c, span) => (span.fromS <= atS + sinceS ? span.temperatureC : c), room[0].temperatureC);
}
