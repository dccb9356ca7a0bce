/** What a judged pour teaches of its formula in its layer: less depth, later moments. Lessons only tighten. */
import { curingRoom } from '../box/stays.ts';
import type { Judged } from '../heat-judge.ts';
import { tooDeep } from '../hot.ts';
import type { Pace, ScheduledPour } from '../schedule.ts';
import type { Slice } from '../slices.ts';
import { thinnestForHeatMm } from '../thinnest.ts';
import { labelHours, type Lesson } from './from-scene.ts';

export function lessonOf(pace: Pace, slice: Slice, judged: Judged, times: ScheduledPour): Lesson {
  const { formula } = slice;
  const { scene: { room } } = pace;
  const curing = curingRoom(pace, times.opens);
  const moved = (name: 'opens' | 'scuffable' | 'paintable' | 'demold', labelH: number) => (times[name] > times.label[name] ? labelHours(name === 'opens' ? room : curing, formula, times.ends, times[name]) : labelH);
  const safeMm = tooDeep(slice, judged) ? Math.max(judged.verdict.safeDepthMm, thinnestForHeatMm(formula)) : Infinity;
  const isWet = times.route === 'wet-on-tacky';
  return {
    limitMm: isWet ? Infinity : safeMm,
    wetMm: isWet ? safeMm : Infinity,
    hours: {
      bondOpensH: moved('opens', formula.bondOpensH),
      bondClosesH: times.closes < times.label.closes ? labelHours(room, formula, times.starts, times.closes) : formula.bondClosesH,
      scuffableH: moved('scuffable', formula.scuffableH),
      paintableH: moved('paintable', formula.paintableH),
      demoldH: moved('demold', formula.demoldH),
    },
  };
}

export function stricter(known: Lesson | undefined, learned: Lesson): Lesson {
  if (!known) return learned;
  const { hours: a } = known;
  const { hours: b } = learned;
  return {
    limitMm: Math.min(known.limitMm, learned.limitMm),
    wetMm: Math.min(known.wetMm, learned.wetMm),
    hours: {
      bondOpensH: Math.max(a.bondOpensH!, b.bondOpensH!),
      bondClosesH: Math.min(a.bondClosesH!, b.bondClosesH!),
      scuffableH: Math.max(a.scuffableH!, b.scuffableH!),
      paintableH: Math.max(a.paintableH!, b.paintableH!),
      demoldH: Math.max(a.demoldH!, b.demoldH!),
    },
  };
}
