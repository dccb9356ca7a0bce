/** Small changes that buy days, each found by really planning again: quicker drying, one day at the bench that ends later or begins earlier, an earlier start. */
import type { BenchException, BenchHours, Scene } from '../../scene/scene.ts';
import { MINUTES_PER_DAY, weekdayOfDay } from '../../units/time.ts';
import { benchCalendar, type Span } from '../bench-calendar.ts';
import { paceOf } from '../schedule.ts';
import type { Change, Replan } from './replan.ts';

/** Drying that thin washes of acrylic can do with in moving dry air, hours (common practice, no source). */
const QUICK_DRY_H = 8;
/** How much longer a day may be, minutes. */
const LONGER_MIN: readonly number[] = [30, 60];
/** Days that are tried, from the start on. */
const DAYS_TRIED = 24;
/** Under half a day nobody stays longer, or comes earlier, for it, minutes. */
const WORTH_MIN = 720;
/** A longer stay, or a later day, has to save this much more, minutes: coming half an hour earlier saves that by itself. */
const MORE_MIN = 60;
/** Bench days that are tried for a later start, back from when the piece is wanted. */
const STARTS_TRIED = 120;

type Side = 'later' | 'earlier';

export interface LongerDay {
  /** When hands would leave the bench instead, or come to it. */
  readonly atMin: number;
  readonly side: Side;
  readonly savedMin: number;
  /** The day, counted from 2000-01-01, and its hours then. */
  readonly exception: BenchException;
}

export interface QuickDrying {
  readonly dryH: number;
  /** 0: only watching the pours within the bench hours eats it up. */
  readonly savedMin: number;
  /** Where it saves nothing: how much longer hands would have to be there every evening for it to save something; null: an hour would not do. */
  readonly withLonger: { readonly extraMin: number; readonly savedMin: number } | null;
}

/** Savings under this are not worth planning for, minutes. */
const DRYING_WORTH_MIN = 60;

/** What it would save if every plane dried after the quick time; null where there is nothing to gain. */
export function quickDrying(scene: Scene, replan: Replan): QuickDrying | null {
  const now = replan({});
  const savedWith = (change: Pick<Change, 'pace'>, from = replan(change)): number => {
    const sooner = replan({ ...change, dryH: QUICK_DRY_H });
    return from === null || sooner === null ? 0 : from - sooner;
  };
  const savedMin = savedWith({}, now);
  if (savedMin >= DRYING_WORTH_MIN) return { dryH: QUICK_DRY_H, savedMin, withLonger: null };
  const pace = paceOf(scene);
  if (savedWith({ pace: { ...pace, watchedMin: pace.pourMin } }) < DRYING_WORTH_MIN) return null;
  for (const extraMin of LONGER_MIN) {
    const saved = savedWith({ pace: { ...pace, calendar: benchCalendar(eachLonger(scene.bench.hours, extraMin), scene.bench.exceptions) } }, now);
    if (saved >= WORTH_MIN) return { dryH: QUICK_DRY_H, savedMin: 0, withLonger: { extraMin, savedMin: saved } };
  }
  return { dryH: QUICK_DRY_H, savedMin: 0, withLonger: null };
}

export interface LongerEvenings {
  readonly extraMin: number;
  readonly savedMin: number;
  /** The week's own hours then, where they are one stretch for all its days. */
  readonly hours: BenchHours | null;
}

/** What staying up to an hour longer every evening buys; null where it is under half a day, or hardly more than one longer day does. */
export function longerEvenings(scene: Scene, oneDayMin: number, replan: Replan): LongerEvenings | null {
  const { hours, exceptions } = scene.bench;
  const pace = paceOf(scene);
  const now = replan({});
  let best: LongerEvenings | null = null;
  for (const extraMin of LONGER_MIN) {
    const longer = eachLonger(hours, extraMin);
    const finish = replan({ pace: { ...pace, calendar: benchCalendar(longer, exceptions) } });
    if (now === null || finish === null) continue;
    const savedMin = now - finish;
    if (savedMin >= Math.max(oneDayMin + WORTH_MIN, (best?.savedMin ?? 0) + MORE_MIN)) best = { extraMin, savedMin, hours: longer.length === 1 ? longer[0] : null };
  }
  return best;
}

/** Every day’s hours end later. Those that would run into their own beginning stay. */
function eachLonger(hours: readonly BenchHours[], extraMin: number): BenchHours[] {
  return hours.map((entry) => ({ ...entry, ...(moved(entry, 'later', extraMin) ?? {}) }));
}

export function driesLonger(dryH: number): boolean {
  return dryH > QUICK_DRY_H;
}

/** The day on which staying up to an hour longer, or coming that much earlier, buys most; null where none buys half a day. */
export function longerDay(scene: Scene, { startMin, finishMin }: { readonly startMin: number; readonly finishMin: number }, replan: Replan): LongerDay | null {
  const pace = paceOf(scene);
  const now = replan({});
  if (now === null) return null;
  let best: LongerDay | null = null;
  let tried = 0;
  for (const open of pace.calendar.spans(startMin)) {
    if (open.from >= finishMin || open.to === Infinity || tried++ >= DAYS_TRIED) break;
    for (const [side, extraMin] of [...LONGER_MIN.map((min) => ['later', min] as const), ...LONGER_MIN.map((min) => ['earlier', min] as const)]) {
      const exceptions = withLonger(scene, open, side, extraMin);
      const finish = exceptions && replan({ pace: { ...pace, calendar: benchCalendar(scene.bench.hours, exceptions) } });
      if (exceptions === null || finish === null) continue;
      const savedMin = now - finish;
      if (savedMin >= Math.max(WORTH_MIN, (best?.savedMin ?? 0) + MORE_MIN)) best = { atMin: side === 'later' ? open.to + extraMin : open.from - extraMin, side, savedMin, exception: exceptions[exceptions.length - 1] };
    }
  }
  return best;
}

/** The exceptions with the day on which an interval ends, or begins, a little longer; null where it does so with no day’s own hours. */
function withLonger({ bench }: Scene, open: Span, side: Side, extraMin: number): BenchException[] | null {
  const edge = side === 'later' ? open.to : open.from;
  const edgeDay = Math.floor(edge / MINUTES_PER_DAY);
  for (const day of side === 'later' ? [edgeDay, edgeDay - 1] : [edgeDay]) {
    const hours = hoursOf(bench.hours, bench.exceptions, day);
    const at = hours.find(({ fromMin, toMin }) => day * MINUTES_PER_DAY + (side === 'earlier' ? fromMin : toMin + (toMin > fromMin ? 0 : MINUTES_PER_DAY)) === edge);
    if (!at) continue;
    const longer = moved(at, side, extraMin);
    return longer && [...bench.exceptions, { fromDay: day, toDay: day, hours: hours.map((entry) => (entry === at ? longer : entry)) }];
  }
  return null;
}

/** Hours that end later or begin earlier; null where they would begin the day before or run into their own beginning. */
function moved({ fromMin, toMin }: BenchException['hours'][number], side: Side, extraMin: number): BenchException['hours'][number] | null {
  const overnight = toMin <= fromMin;
  if (side === 'earlier') return fromMin < extraMin || (overnight && fromMin - extraMin < toMin) ? null : { fromMin: fromMin - extraMin, toMin };
  const longer = { fromMin, toMin: (toMin + extraMin) % MINUTES_PER_DAY };
  const wraps = !overnight && toMin + extraMin > MINUTES_PER_DAY && longer.toMin > fromMin;
  return wraps || (overnight && longer.toMin > fromMin) ? null : longer;
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
