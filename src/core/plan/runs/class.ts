/**
 * A class in a piece's plan. Everything up to the meeting is poured and painted as without one, by the teacher, for every
 * student's piece; the meeting takes the latest work that students may do and that is ready by then; what follows is done
 * after it. Students work side by side, each on their own piece, so their hours are those of one.
 */
import type { Plane, Scene, SolidPlacement } from '../../scene/scene.ts';
import { LEAST_AGE } from '../../scene/read-class.ts';
import { MINUTES_PER_HOUR, formatLocalTime, upToMinute } from '../../units/time.ts';
import { listed, span } from '../../units/format.ts';
import { dayAndTime } from '../../units/when.ts';
import type { Span } from '../bench-calendar.ts';
import type { HeatJudge } from '../heat-judge.ts';
import { isNear, tooDeep } from '../hot.ts';
import type { Laid, LaidPour } from '../heat-rounds.ts';
import type { LayerAt } from '../layers.ts';
import type { Mixed } from '../mix.ts';
import type { ClassPlan } from '../plan.ts';
import { emptyPile, pouredAwake, pouredOn, type Pile } from '../pile.ts';
import { finishedWith, finishOf, fitOf, NOTHING, type Pace, paceOf, pourAt, pouringFor, pourOn, type ScheduledPour, type Surfacing } from '../schedule.ts';
import { nightOver } from '../sleep.ts';
import { planesOn } from '../slices.ts';
import { firstTopAbove } from '../split.ts';
import { floorPlanes } from '../stops.ts';

/** A scuff for a class is done at most so long before it, hours; the surface is fresh then, and nobody is in the way. */
const SCUFF_BEFORE_H = 72;

export interface ClassRequest {
  readonly layers: readonly LayerAt[];
  readonly heat: HeatJudge | null;
  readonly startMin: number;
}

export interface ClassHeld {
  readonly laid: Laid;
  readonly told: ClassPlan;
  /** A pour, from 0, that every student mixes for one piece; null: the teacher’s. */
  readonly cups: (pour: number, own: (copies: number) => Mixed) => Mixed | null;
}

/** Between two pours, or before the first or after the last: what students could do there. */
interface Gap {
  /** Of the pour that follows, from 0. */
  readonly index: number;
  readonly planes: readonly Plane[];
  readonly figures: readonly SolidPlacement[];
  readonly pours: boolean;
}

/** Null: the scene has no class. */
export function classHeld(scene: Scene, laid: Laid, request: ClassRequest): ClassHeld | null {
  const meeting = scene.class;
  if (!meeting) return null;
  const pace = paceOf(scene);
  const toMin = meeting.fromMin + meeting.hours * MINUTES_PER_HOUR;
  const whyNot: string[] = [];
  for (let index = laid.pours.length; index >= 0; index--) {
    const gap = gapOf(scene, laid, request, index);
    const work = inMeeting(scene, gap, laid, whyNot);
    if (!work) continue;
    const ready = readyFor(pace, laid, work, request.startMin);
    if (ready === null) continue;
    const placing = { ...request, scuff: ready, toMin };
    const made = withClass(pace, laid, { ...placing, work });
    if (!made) continue;
    const why = work.pours ? notByStudents(pace, made, work.index) : null;
    if (why !== null) {
      whyNot.push(why);
      const calm = { ...work, pours: false };
      const taught = calm.figures.length > 0 ? withClass(pace, laid, { ...placing, work: calm }) : null;
      if (!taught) continue;
      return { laid: taught, told: toldOf(scene, laid, calm, whyNot), cups: () => null };
    }
    const own = ({ students }: typeof meeting, mixed: Mixed): Mixed => ({
      mixMl: mixed.mixMl * students, mixG: mixed.mixG * students,
      partA: { ml: mixed.partA.ml * students, g: mixed.partA.g * students },
      partB: { ml: mixed.partB.ml * students, g: mixed.partB.g * students },
      batches: Array.from({ length: students }, () => mixed.batches).flat(),
    });
    return { laid: made, told: toldOf(scene, laid, work, whyNot), cups: (pour, mixOne) => (work.pours && pour === work.index ? own(meeting, mixOne(1)) : null) };
  }
  return { laid, told: { ...toldOf(scene, laid, null, whyNot), firstReady: firstReady(scene, pace, laid, request) }, cups: () => null };
}

function gapOf(scene: Scene, laid: Laid, { layers }: ClassRequest, index: number): Gap {
  const below = laid.pours[index - 1];
  const tops = laid.pours.map(({ slice }) => slice.toMm);
  const isSet = (placement: SolidPlacement) => (placement.hold === 'fixed' ? index === 0 : index < tops.length && (firstTopAbove(placement.baseMm, tops) ?? tops[tops.length - 1]) === tops[index]);
  return {
    index,
    planes: below ? planesOn(scene, below.slice) : floorPlanes(scene, layers[0].fromMm),
    figures: scene.placements.filter((placement): placement is SolidPlacement => placement.kind === 'figure' && isSet(placement)),
    pours: index < tops.length,
  };
}

/** What of a gap students do; null: nothing. What is theirs and does not fit is told. */
function inMeeting(scene: Scene, { index, planes, figures, pours }: Gap, laid: Laid, whyNot: string[]): Gap | null {
  const { paint, set, pour, hours, pourH } = scene.class!;
  const theirs = (ids: readonly string[] | null, id: string) => ids === null || ids.includes(id);
  const hoursMin = hours * MINUTES_PER_HOUR;
  if (planes.length > 0) {
    if (!planes.some(({ id }) => theirs(paint, id))) return null;
    const minutes = paintMinutes(scene, planes);
    if (minutes <= hoursMin) return { index, planes, figures: [], pours: false };
    whyNot.push(`${listed(planes.map(({ name }) => name))} takes ${span(minutes)} to paint and the class is ${span(hoursMin)} long: the teacher paints it.`);
    return null;
  }
  const own = figures.filter(({ id }) => theirs(set, id));
  const pourMin = (pourH + scene.bench.watchH) * MINUTES_PER_HOUR;
  const fits = pourMin <= hoursMin;
  if (pours && pour && !fits) whyNot.push(`Pour ${index + 1} takes ${span(pourMin)} with its watch and the class is ${span(hoursMin)} long: the teacher pours it.`);
  const may = pours && pour && fits && laid.pours[index] !== undefined;
  return own.length > 0 || may ? { index, planes: [], figures: own, pours: may } : null;
}

function paintMinutes({ run }: Scene, planes: readonly Plane[]): number {
  return (planes.reduce((sum, { paintH }) => sum + paintH, 0) / run.copies) * MINUTES_PER_HOUR;
}

/** When the teacher scuffs for the class, as late as hours allow; empty where nothing is scuffed; null: not ready by then. */
function readyFor({ calendar, scuffMin, scene }: Pace, laid: Laid, { index, planes }: Gap, startMin: number): readonly Span[] | null {
  const { fromMin } = scene.class!;
  if (index === 0) return startMin <= fromMin ? [] : null;
  const below = laid.schedule.pours[index - 1];
  const from = planes.length > 0 ? Math.max(below.paintable, below.scuffable) : below.scuffable;
  for (let before = Math.ceil(scuffMin / MINUTES_PER_HOUR); before <= SCUFF_BEFORE_H; before++) {
    const scuff = calendar.place(scuffMin, Math.max(from, fromMin - before * MINUTES_PER_HOUR));
    if (scuff[scuff.length - 1].to <= fromMin) return scuff;
    if (fromMin - before * MINUTES_PER_HOUR < from) return null;
  }
  return null;
}

interface Placing extends ClassRequest {
  readonly work: Gap;
  readonly scuff: readonly Span[];
  readonly toMin: number;
}

/** Why a pour is not for the class, by the plan that has it there; null: it is. */
function notByStudents({ nights }: Pace, { pours, schedule }: Laid, index: number): string | null {
  const { slice, judged } = pours[index];
  const { starts, opens } = schedule.pours[index];
  if (nightOver(nights, starts, opens)) return `Pour ${index + 1} would still be liquid when someone sleeps in the room: the teacher pours it at another hour.`;
  const isWarm = judged !== null && (tooDeep(slice, judged) || isNear(judged.verdict, slice.toMm - slice.fromMm));
  return isWarm ? `Pour ${index + 1} is near to too much heat: the teacher pours it, with nobody else in the room.` : null;
}

/** The plan with the class in it: pours before stay, those after are timed and judged again. Null: one of them has no hours in which it is tacky before someone sleeps there. */
function withClass(pace: Pace, laid: Laid, { work, scuff, toMin, heat }: Placing): Laid | null {
  const { scene } = pace;
  const { fromMin, pourH } = scene.class!;
  const times: ScheduledPour[] = laid.schedule.pours.slice(0, work.index);
  const pours: LaidPour[] = laid.pours.slice(0, work.index);
  let pile = pileBefore(scene, laid, work.index, heat);
  const painted = fromMin + paintMinutes(scene, work.planes);
  const surface: Surfacing = work.planes.length > 0
    ? { planes: work.planes, scuff, paint: [{ from: fromMin, to: painted }], dry: { from: painted, to: painted + Math.max(...work.planes.map(({ dryH }) => dryH)) * MINUTES_PER_HOUR } }
    : { ...NOTHING, scuff };
  const owned = pouringFor(pace, pourH * MINUTES_PER_HOUR);
  for (const { slice, stuck } of laid.pours.slice(work.index)) {
    const { formula } = slice;
    const { newest, planes } = pile;
    const i = times.length;
    const joint = { route: i === 0 ? null : 'cure-scuff-wipe', before: surface } as const;
    const afterClass = (notBefore?: number) => {
      const starts = fitOf(pace, { formula, notBefore })(pace.watchedMin, upToMinute(surface.dry?.to ?? toMin));
      return starts === null ? null : pourAt(pace, formula, starts, joint);
    };
    const as = { slice, cures: i + 1 === laid.pours.length || planesOn(scene, slice).length > 0 };
    const made = i === work.index && work.pours
      ? pouredOn(pile, owned, pourAt(owned, formula, fromMin, joint), as)
      : pouredAwake(pile, pace, (notBefore) => (i === work.index ? afterClass(notBefore) : pourOn(pace, newest!, { formula, planes, notBefore })), as);
    if (!made) return null;
    pile = made.then;
    times.push(made.scheduled);
    pours.push({ slice, judged: made.judged, stuck: tooDeep(slice, made.judged) ? (stuck ?? 'thinner would not do') : null });
  }
  const schedule = work.index < laid.pours.length ? finishOf(pace, times, pile.planes) : finishedWith(pace, times, surface);
  return { ...laid, pours, schedule };
}

/** What lies in the mold before the class's own work. */
function pileBefore(scene: Scene, { pours, schedule }: Laid, index: number, heat: HeatJudge | null): Pile {
  if (index === 0) return emptyPile(scene, heat, pours[0].slice.fromMm);
  const { slice, judged } = pours[index - 1];
  const stays = schedule.pours.slice(0, index - 1).flatMap(({ box }) => box ?? []);
  return { heat, soFar: judged?.then ?? null, newest: schedule.pours[index - 1], planes: planesOn(scene, slice), stays };
}

function toldOf(scene: Scene, laid: Laid, work: Gap | null, whyNot: readonly string[]): ClassPlan {
  const { fromMin, hours, students, youngest, pour } = scene.class!;
  const all = laid.pours.map((_pour, i) => i + 1);
  const index = work?.index ?? 0;
  const why = [...whyNot];
  const planes = scene.placements.filter(({ kind, id }) => kind === 'plane' && (scene.class!.paint === null || scene.class!.paint.includes(id)) && !work?.planes.some((one) => one.id === id));
  if (work && planes.length > 0) why.push(`${listed(planes.map(({ name }) => name))}: painted by the teacher. One class holds one surface: what is painted has to dry, and what is poured has to cure, before the next.`);
  if (!pour) why.push(youngest < LEAST_AGE ? `All resin is mixed and poured by the teacher: nobody under ${LEAST_AGE} mixes it or touches it before it has cured.` : 'All resin is mixed and poured by the teacher.');
  return {
    at: formatLocalTime(fromMin),
    to: formatLocalTime(fromMin + hours * MINUTES_PER_HOUR),
    students,
    paints: work?.planes.map(({ id }) => id) ?? [],
    sets: work?.figures.map(({ id }) => id) ?? [],
    pours: work?.pours ? work.index + 1 : null,
    pouredBefore: work ? all.slice(0, index) : [],
    pouredAfter: work ? all.slice(index + (work.pours ? 1 : 0)) : [],
    why: [...new Set(why)],
    firstReady: null,
  };
}

/** When the first surface that students could work on is ready; null: there is none. */
function firstReady(scene: Scene, { calendar, scuffMin }: Pace, laid: Laid, request: ClassRequest): string | null {
  for (let index = 0; index <= laid.pours.length; index++) {
    const gap = inMeeting(scene, gapOf(scene, laid, request, index), laid, []);
    if (!gap) continue;
    const below = laid.schedule.pours[index - 1];
    if (!below) return formatLocalTime(request.startMin);
    const scuff = calendar.place(scuffMin, Math.max(below.scuffable, gap.planes.length > 0 ? below.paintable : -Infinity));
    return formatLocalTime(upToMinute(scuff[scuff.length - 1].to));
  }
  return null;
}

/** `Sat 9 May, 10:00`, for findings. */
export function meetingWords({ at, to }: Pick<ClassPlan, 'at' | 'to'>): string {
  return `${dayAndTime(at)} to ${to.slice(11, 16)}`;
}
