/**
 * When each pour is made: joints by the window or by cure, scuff and wipe, painting and drying, all by the
 * room's equivalent time and within bench hours. Moments are minutes since 2000-01-01T00:00.
 */
import { momentAfter } from '../cure/equivalent-time.ts';
import type { CuringBox, Formula, Plane, Scene } from '../scene/scene.ts';
import { downToMinute, MINUTES_PER_HOUR, upToMinute } from '../units/time.ts';
import { benchCalendar, SLACK_MIN, type BenchCalendar, type Span } from './bench-calendar.ts';
import { boxOf } from './box/boxed-room.ts';
import { curedTimes, leadMinutes, withStays } from './box/stays.ts';
import type { Route } from './plan.ts';
import { awakeFit, nightsOf, type PourFit } from './sleep.ts';

export interface PourJob {
  readonly formula: Formula;
  /** Planes painted on its top before what follows. */
  readonly planesAbove: readonly Plane[];
}

/** A pour's own moments. */
export interface PourTimes {
  readonly starts: number;
  readonly ends: number;
  readonly opens: number;
  readonly closes: number;
  readonly scuffable: number;
  readonly paintable: number;
  readonly demold: number;
}

/** What is done on a surface before the next pour, or on the last before the finish. */
export interface Surfacing {
  readonly planes: readonly Plane[];
  readonly scuff: readonly Span[];
  readonly paint: readonly Span[];
  readonly dry: Span | null;
}

export interface ScheduledPour extends PourTimes {
  /** Asked for where there is a curing box. */
  readonly formula?: Formula;
  readonly route: Route | null;
  /** Work on the surface below it; for the first pour, on the mold's floor. */
  readonly before: Surfacing;
  /** The window was there and no pour fitted it. */
  readonly missedWindow: boolean;
  /** Its moments by the label alone; heat may have moved the others away from them. */
  readonly label: PourTimes;
  /** In the curing box, from when it is carried in to the work that follows, the last to Infinity; null or left out: it stays in the room. */
  readonly box?: Span | null;
  /** When it no longer bonds once it is in the box. */
  readonly closesInBox?: number;
}

export interface Schedule {
  readonly pours: readonly ScheduledPour[];
  /** Planes on the cured top. */
  readonly after: Surfacing;
  readonly finish: number;
}

/** A bench with its hours and how long each piece of work takes. */
export interface Pace {
  readonly scene: Scene;
  readonly calendar: BenchCalendar;
  readonly pourMin: number;
  readonly watchedMin: number;
  readonly scuffMin: number;
  /** From the start of a scuff to the pour on it: the scuff, and the cooling of what comes out of a warmer box. */
  readonly leadMin: number;
  /** Null: none, or never warmer than the room. */
  readonly box: CuringBox | null;
  /** Hours in which someone sleeps there; null: nobody does. */
  readonly nights: BenchCalendar | null;
}

/** The same bench where pouring takes so long, with the same watch after it. */
export function pouringFor(pace: Pace, pourMin: number): Pace {
  return { ...pace, pourMin, watchedMin: pace.watchedMin - pace.pourMin + pourMin };
}

/** A pour to be placed. */
export interface NextPour {
  readonly formula: Formula;
  /** Painted on what lies below it. */
  readonly planes: readonly Plane[];
  /** When it is tacky, by its start, where that is not the label's moment. Asked for where someone sleeps there. */
  readonly opens?: (startsMin: number) => number;
  /** It would be liquid in someone's sleep if it started sooner. */
  readonly notBefore?: number;
}

export const NOTHING: Surfacing = { planes: [], scuff: [], paint: [], dry: null };

export function paceOf(scene: Scene): Pace {
  const { bench } = scene;
  const pourMin = bench.pourH * MINUTES_PER_HOUR;
  const box = boxOf(scene.room);
  return { scene, calendar: benchCalendar(bench.hours, bench.exceptions), pourMin, watchedMin: pourMin + bench.watchH * MINUTES_PER_HOUR, scuffMin: bench.scuffH * MINUTES_PER_HOUR, leadMin: leadMinutes(scene, box), box, nights: nightsOf(scene.room) };
}

/** The first pour, after planes on the floor are dry, or null when a pour with its watching time fits no bench interval, or none in which it is tacky before someone sleeps there. */
export function firstPour(pace: Pace, next: NextPour, startMin: number): ScheduledPour | null {
  const before = next.planes.length > 0 ? paintAndDry(pace.calendar, next.planes, startMin) : NOTHING;
  const starts = fitOf(pace, next)(pace.watchedMin, before.dry?.to ?? startMin);
  return starts === null ? null : pourAt(pace, next.formula, starts, { route: null, before });
}

/** The pour on top of another, joined as early as that one allows, or null where it can't be tacky before someone sleeps there. */
export function pourOn(pace: Pace, below: PourTimes, next: NextPour): ScheduledPour | null {
  const { calendar, watchedMin, scuffMin } = pace;
  const { formula, planes } = next;
  const fit = fitOf(pace, next);
  if (planes.length > 0) {
    const before = scuffPaintDry(calendar, planes, Math.max(below.paintable, below.scuffable), scuffMin);
    const starts = fit(watchedMin, before.dry!.to);
    return starts === null ? null : pourAt(pace, formula, starts, { route: 'cure-scuff-wipe', before });
  }
  const tacky = fit(watchedMin, below.opens);
  if (tacky !== null && tacky + pace.pourMin <= below.closes + SLACK_MIN) return pourAt(pace, formula, tacky, { route: 'wet-on-tacky' });
  const scuffed = scuffThenPour(pace, below.scuffable, fit);
  return scuffed && pourAt(pace, formula, scuffed.starts, { route: 'cure-scuff-wipe', before: { ...NOTHING, scuff: scuffed.scuff }, missedWindow: true });
}

/** Where such a pour may start. */
export function fitOf(pace: Pace, { formula, opens = (starts) => opensAt(pace.scene, formula, starts + pace.pourMin), notBefore }: Omit<NextPour, 'planes'>): PourFit {
  return awakeFit(pace, opens, notBefore);
}

/** What follows the last pour. At least one pour. */
export function finishOf(pace: Pace, pours: readonly ScheduledPour[], topPlanes: readonly Plane[]): Schedule {
  const last = pours[pours.length - 1];
  const after = topPlanes.length > 0 ? scuffPaintDry(pace.calendar, topPlanes, Math.max(last.paintable, last.scuffable), pace.scuffMin) : NOTHING;
  return finishedWith(pace, pours, after);
}

/** The same where the work on the top is known. */
export function finishedWith(pace: Pace, pours: readonly ScheduledPour[], after: Surfacing): Schedule {
  const placed = pace.box ? withStays(pace, pours, after) : pours;
  const released = pace.scene.mold.keep ? placed[placed.length - 1].demold : Math.max(...placed.map((pour) => pour.demold));
  const finish = Math.max(released, after.dry ? upToMinute(after.dry.to) : released);
  return { pours: placed, after, finish };
}

/** The schedule of jobs whose heat is known: `moved` puts the i-th pour's label times where they belong. Null as in `firstPour`. */
export function scheduleOf(pace: Pace, jobs: readonly PourJob[], floor: readonly Plane[], { startMin, moved }: { readonly startMin: number; readonly moved: (label: PourTimes, i: number) => PourTimes }): Schedule | null {
  const pours: ScheduledPour[] = [];
  for (const [i, { formula }] of jobs.entries()) {
    const opens = (starts: number) => moved(timesAt(pace, formula, starts), i).opens;
    const pour = i === 0 ? firstPour(pace, { formula, planes: floor, opens }, startMin) : pourOn(pace, pours[i - 1], { formula, planes: jobs[i - 1].planesAbove, opens });
    if (!pour) return null;
    pours.push({ ...pour, ...moved(pour, i) });
  }
  return finishOf(pace, pours, jobs[jobs.length - 1].planesAbove);
}

/** A pour by its label, at a start that is known. */
export function pourAt(pace: Pace, formula: Formula, starts: number, { route, before = NOTHING, missedWindow = false }: Pick<ScheduledPour, 'route'> & Partial<Pick<ScheduledPour, 'before' | 'missedWindow'>>): ScheduledPour {
  const label = timesAt(pace, formula, starts);
  return { ...label, route, before, missedWindow, formula, label };
}

/** When a pour that ends then can be poured on. */
export function opensAt({ room }: Pick<Scene, 'room'>, formula: Formula, ends: number): number {
  return upToMinute(momentAfter(room, ends, formula.bondOpensH, formula.atC));
}

/** A pour's clock in the room: `closes` counts from its start, every other label time from its end. */
function timesOf(scene: Pick<Scene, 'room'>, formula: Formula, starts: number, ends: number): PourTimes {
  const after = (from: number, hours: number) => momentAfter(scene.room, from, hours, formula.atC);
  return {
    starts,
    ends,
    opens: opensAt(scene, formula, ends),
    closes: downToMinute(after(starts, formula.bondClosesH)),
    scuffable: upToMinute(after(ends, formula.scuffableH)),
    paintable: upToMinute(after(ends, formula.paintableH)),
    demold: upToMinute(after(ends, formula.demoldH)),
  };
}

/** The same where there may be a curing box: until it is tacky, and for a pour onto it then, a piece stays in the room; what is left to cure does so in the box. */
export function timesAt(pace: Pace, formula: Formula, starts: number): PourTimes {
  const times = timesOf(pace.scene, formula, starts, starts + pace.pourMin);
  return pace.box ? { ...times, ...curedTimes(pace, formula, times) } : times;
}

/** Scuffing and the pour stand together or wait together; where nothing holds both, scuff, then pour as soon as may be. Null: no pour fits after it. */
export function scuffThenPour({ calendar, scuffMin, watchedMin, leadMin }: Pick<Pace, 'calendar' | 'scuffMin' | 'watchedMin' | 'leadMin'>, from: number, fit: PourFit): { scuff: Span[]; starts: number } | null {
  const together = fit(leadMin + watchedMin, from, leadMin);
  if (together !== null) return { scuff: [{ from: together, to: together + scuffMin }], starts: together + leadMin };
  const scuff = calendar.place(scuffMin, from);
  const starts = fit(watchedMin, Math.max(endOf(scuff), scuff[0].from + leadMin));
  return starts === null ? null : { scuff, starts };
}

export function scuffPaintDry(calendar: BenchCalendar, planes: readonly Plane[], from: number, scuffMin: number): Surfacing {
  const together = calendar.fit(scuffMin + paintMinutes(planes), from);
  const scuff = together === null ? calendar.place(scuffMin, from) : [{ from: together, to: together + scuffMin }];
  return { ...paintAndDry(calendar, planes, endOf(scuff)), scuff };
}

/** Painting times add, drying is the longest. Drying goes on round the clock. */
export function paintAndDry(calendar: BenchCalendar, planes: readonly Plane[], from: number): Surfacing {
  const paint = calendar.place(paintMinutes(planes), from);
  const painted = endOf(paint);
  const dryMin = Math.max(...planes.map((plane) => plane.dryH)) * MINUTES_PER_HOUR;
  return { planes, scuff: [], paint, dry: { from: painted, to: painted + dryMin } };
}

function paintMinutes(planes: readonly Plane[]): number {
  return planes.reduce((sum, plane) => sum + plane.paintH, 0) * MINUTES_PER_HOUR;
}

function endOf(spans: readonly Span[]): number {
  return spans[spans.length - 1].to;
}
