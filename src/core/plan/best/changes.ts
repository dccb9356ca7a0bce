/** Small changes that buy days, each found by really planning again: quicker drying, one longer day at the bench, an earlier start. */
import type { BenchException, BenchHours, Scene } from '../../scene/scene.ts';
import { MINUTES_PER_DAY, weekdayOfDay } from '../../units/time.ts';
import { benchCalendar, type Span } from '../bench-calendar.ts';
import { paceOf } from '../schedule.ts';
import type { Change, Replan } from './replan.ts';

/** Drying that thin washes of acrylic can do with in moving dry air, hours (common practice, no source). */
const QUICK_DRY_H = 8;
/** How much longer one day may be, minutes. */
const LONGER_MIN: readonly number[] = [30, 60];
/** Days that are tried, from the start on. */
const DAYS_TRIED = 24;
/** Under half a day nobody stays longer for it, minutes. */
const WORTH_MIN = 720;
/** Bench days that are tried for a later start, back from when the piece is wanted. */
const STARTS_TRIED = 120;

export interface LongerDay {
  /** When hands would leave the bench instead. */
  readonly untilMin: number;
  readonly savedMin: number;
}

/** Savings under this are not worth planning for, minutes. */
const DRYING_WORTH_MIN = 60;

/** What it would save if every plane dried after the quick time; 0 where only watching the pours within the bench hours eats it up, null where there is nothing to gain. */
export function quickDrying(scene: Scene, replan: Replan): { readonly dryH: number; readonly savedMin: number } | null {
  const savedWith = (change: Pick<Change, 'pace'>): number => {
    const now = replan(change);
    const sooner = replan({ ...change, dryH: QUICK_DRY_H });
    return now === null || sooner === null ? 0 : now - sooner;
  };
  const savedMin = savedWith({});
  if (savedMin >= DRYING_WORTH_MIN) return { dryH: QUICK_DRY_H, savedMin };
  const pace = paceOf(scene);
  return savedWith({ pace: { ...pace, watchedMin: pace.pourMin } }) >= DRYING_WORTH_MIN ? { dryH: QUICK_DRY_H, savedMin: 0 } : null;
}

export function driesLonger(dryH: number): boolean {
  return dryH > QUICK_DRY_H;
}

/** The day on which staying up to an hour longer buys most; null where none buys half a day. */
export function longerDay(scene: Scene, { startMin, finishMin }: { readonly startMin: number; readonly finishMin: number }, replan: Replan): LongerDay | null {
  const pace = paceOf(scene);
  const now = replan({});
  if (now === null) return null;
  let best: LongerDay | null = null;
  let tried = 0;
  for (const open of pace.calendar.spans(startMin)) {
    if (open.from >= finishMin || open.to === Infinity || tried++ >= DAYS_TRIED) break;
    for (const extraMin of LONGER_MIN) {
      const exceptions = withLonger(scene, open, extraMin);
      const finish = exceptions && replan({ pace: { ...pace, calendar: benchCalendar(scene.bench.hours, exceptions) } });
      if (finish === null) continue;
      const savedMin = now - finish;
      if (savedMin >= WORTH_MIN && savedMin > (best?.savedMin ?? 0)) best = { untilMin: open.to + extraMin, savedMin };
    }
  }
  return best;
}

/** The exceptions with the day on which an interval ends a little longer; null where it ends with no day’s own hours. */
function withLonger({ bench }: Scene, open: Span, extraMin: number): BenchException[] | null {
  for (const day of [Math.floor(open.to / MINUTES_PER_DAY), Math.floor(open.to / MINUTES_PER_DAY) - 1]) {
    const hours = hoursOf(bench.hours, bench.exceptions, day);
    const last = hours.find(({ fromMin, toMin }) => day * MINUTES_PER_DAY + toMin + (toMin > fromMin ? 0 : MINUTES_PER_DAY) === open.to);
    if (!last) continue;
    const longer = { fromMin: last.fromMin, toMin: (last.toMin + extraMin) % MINUTES_PER_DAY };
    const wraps = last.toMin > last.fromMin && last.toMin + extraMin > MINUTES_PER_DAY && longer.toMin > last.fromMin;
    return wraps ? null : [...bench.exceptions, { fromDay: day, toDay: day, hours: hours.map((entry) => (entry === last ? longer : entry)) }];
  }
  return null;
}

function hoursOf(hours: readonly BenchHours[], exceptions: readonly BenchException[], day: number): BenchException['hours'] {
  const other = exceptions.findLast(({ fromDay, toDay }) => fromDay <= day && day <= toDay);
  return other ? other.hours : hours.filter(({ days }) => days.includes(weekdayOfDay(day)));
}

/** The latest bench moment at which one may begin and still be done in time; null where even the start is too late. */
export function latestStart(scene: Scene, { startMin, readyByMin }: { readonly startMin: number; readonly readyByMin: number }, replan: Replan): number | null {
  const { calendar, watchedMin } = paceOf(scene);
  const inTime = (from: number) => {
    const finish = replan({ startMin: from });
    return finish !== null && finish <= readyByMin;
  };
  if (!inTime(startMin)) return null;
  const opens: Span[] = [];
  for (const span of calendar.spans(startMin)) {
    if (span.from >= readyByMin) break;
    const from = Math.max(startMin, Math.ceil(span.from));
    const to = Math.floor(Math.min(span.to - watchedMin, readyByMin));
    if (to >= from) opens.push({ from, to });
    if (span.to === Infinity) break;
  }
  const open = opens.slice(-STARTS_TRIED).findLast(({ from }) => inTime(from));
  if (!open) return startMin;
  let low = open.from;
  let high = open.to + 1;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (inTime(middle)) low = middle;
    else high = middle;
  }
  return low;
}
