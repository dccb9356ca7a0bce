/**
 * When each pour is made: joints by the window or by cure, scuff and wipe, painting and drying, all by the
 * room's equivalent time and within bench hours. Moments are minutes since 2000-01-01T00:00.
 */
import { momentAfter } from '../cure/equivalent-time.ts';
import type { Formula, Plane, Scene } from '../scene/scene.ts';
import { downToMinute, upToMinute } from '../units/time.ts';
import { benchCalendar, type BenchCalendar, type Span } from './bench-calendar.ts';
import type { Route } from './plan.ts';

const MINUTES = 60;

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
  readonly route: Route | null;
  /** Work on the surface below it; for the first pour, on the mold's floor. */
  readonly before: Surfacing;
  /** The window was there and no pour fitted it. */
  readonly missedWindow: boolean;
}

export interface Schedule {
  readonly pours: readonly ScheduledPour[];
  /** Planes on the cured top. */
  readonly after: Surfacing;
  readonly finish: number;
}

const NOTHING: Surfacing = { planes: [], scuff: [], paint: [], dry: null };

/** The schedule, or null when a pour with its watching time fits no bench interval. At least one pour. */
export function scheduleOf(scene: Scene, jobs: readonly PourJob[], floor: readonly Plane[], startMin: number): Schedule | null {
  const { bench, mold } = scene;
  const calendar = benchCalendar(bench.hours);
  const pourMin = bench.pourH * MINUTES;
  const watchedMin = pourMin + bench.watchH * MINUTES;
  const pours: ScheduledPour[] = [];
  const pourAt = (job: PourJob, starts: number, rest: Pick<ScheduledPour, 'route' | 'before' | 'missedWindow'>) =>
    pours.push({ ...timesOf(scene, job.formula, starts, starts + pourMin), ...rest });

  const floorWork = floor.length > 0 ? paintAndDry(calendar, floor, startMin) : NOTHING;
  const firstStart = calendar.fit(watchedMin, floorWork.dry?.to ?? startMin);
  if (firstStart === null) return null;
  pourAt(jobs[0], firstStart, { route: null, before: floorWork, missedWindow: false });

  for (let i = 1; i < jobs.length; i++) {
    const below = pours[i - 1];
    const planes = jobs[i - 1].planesAbove;
    if (planes.length > 0) {
      const before = scuffPaintDry(calendar, planes, Math.max(below.paintable, below.scuffable), bench.scuffH * MINUTES);
      pourAt(jobs[i], calendar.fit(watchedMin, before.dry!.to)!, { route: 'cure-scuff-wipe', before, missedWindow: false });
      continue;
    }
    const tacky = calendar.fit(watchedMin, below.opens)!;
    if (tacky + pourMin <= below.closes + SLACK_MIN) pourAt(jobs[i], tacky, { route: 'wet-on-tacky', before: NOTHING, missedWindow: false });
    else {
      const { scuff, starts } = scuffThenPour(calendar, below.scuffable, bench.scuffH * MINUTES, watchedMin);
      pourAt(jobs[i], starts, { route: 'cure-scuff-wipe', before: { ...NOTHING, scuff }, missedWindow: true });
    }
  }

  const last = pours[pours.length - 1];
  const topPlanes = jobs[jobs.length - 1].planesAbove;
  const after = topPlanes.length > 0 ? scuffPaintDry(calendar, topPlanes, Math.max(last.paintable, last.scuffable), bench.scuffH * MINUTES) : NOTHING;
  const released = mold.keep ? last.demold : Math.max(...pours.map((pour) => pour.demold));
  return { pours, after, finish: Math.max(released, after.dry ? upToMinute(after.dry.to) : released) };
}

/** Sums of hours leave noise far below this. */
const SLACK_MIN = 1e-6;

/** A pour's clock: `closes` counts from its start, every other label time from its end. */
export function timesOf(scene: Scene, formula: Formula, starts: number, ends: number): PourTimes {
  const after = (from: number, hours: number) => momentAfter(scene.room, from, hours, formula.atC);
  return {
    starts,
    ends,
    opens: upToMinute(after(ends, formula.bondOpensH)),
    closes: downToMinute(after(starts, formula.bondClosesH)),
    scuffable: upToMinute(after(ends, formula.scuffableH)),
    paintable: upToMinute(after(ends, formula.paintableH)),
    demold: upToMinute(after(ends, formula.demoldH)),
  };
}

/** Scuffing and the pour stand together or wait together; where no interval holds both, scuff, then pour at the next. */
function scuffThenPour(calendar: BenchCalendar, from: number, scuffMin: number, watchedMin: number): { scuff: Span[]; starts: number } {
  const together = calendar.fit(scuffMin + watchedMin, from);
  if (together !== null) return { scuff: [{ from: together, to: together + scuffMin }], starts: together + scuffMin };
  const scuff = calendar.place(scuffMin, from);
  return { scuff, starts: calendar.fit(watchedMin, endOf(scuff))! };
}

function scuffPaintDry(calendar: BenchCalendar, planes: readonly Plane[], from: number, scuffMin: number): Surfacing {
  const together = calendar.fit(scuffMin + paintMinutes(planes), from);
  const scuff = together === null ? calendar.place(scuffMin, from) : [{ from: together, to: together + scuffMin }];
  return { ...paintAndDry(calendar, planes, endOf(scuff)), scuff };
}

/** Painting times add, drying is the longest. Drying goes on round the clock. */
function paintAndDry(calendar: BenchCalendar, planes: readonly Plane[], from: number): Surfacing {
  const paint = calendar.place(paintMinutes(planes), from);
  const painted = endOf(paint);
  const dryMin = Math.max(...planes.map((plane) => plane.dryH)) * MINUTES;
  return { planes, scuff: [], paint, dry: { from: painted, to: painted + dryMin } };
}

function paintMinutes(planes: readonly Plane[]): number {
  return planes.reduce((sum, plane) => sum + plane.paintH, 0) * MINUTES;
}

function endOf(spans: readonly Span[]): number {
  return spans[spans.length - 1].to;
}
