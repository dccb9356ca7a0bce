/** The whole job as steps in time: what to do, on what, from when to when. */
import { formatLocalTime, MINUTES_PER_DAY } from '../units/time.ts';
import { bottleWords } from './air/bottle-words.ts';
import type { Span } from './bench-calendar.ts';
import { inBox, intoBox, NOT_YET } from './box/box-words.ts';
import { MOVE_MIN } from './box/stays.ts';
import type { Planned, PlannedPour, SolidAt } from './context.ts';
import { doNotPour } from './halts.ts';
import type { FinishStep } from './finishing/finishing.ts';
import type { Finding, Step, StepKind } from './plan.ts';
import type { Surfacing } from './schedule.ts';
import { firstTopAbove } from './split.ts';
import * as words from './step-words.ts';

/** Steps in order of time; those at one moment in the order they are done. A pour that is halted says so in place of its amounts. `finishing`: what a scene that plans its finish has in place of the last two steps. */
export function stepsOf(planned: Planned, findings: readonly Finding[], finishing: readonly FinishStep[] | null = null): Step[] {
  const { schedule, pours } = planned;
  const steps: Timed[] = [];
  const add = (kind: StepKind, pour: number | null, placements: readonly string[], span: Span, text: string) => steps.push({ kind, pour, placements, span, text });
  const first = schedule.pours[0];
  const begins = first.before.paint[0]?.from ?? first.starts;

  const testCup = first.starts - MINUTES_PER_DAY;
  add('prepare', null, [], at(testCup), words.testCup(planned));
  add('prepare', null, [], at(begins), words.mold(planned.scene.mold));
  const set = planned.solids.map((solid) => solid.placement.id);
  if (set.length > 0) add('prepare', null, set, at(begins), words.figures(planned.solids));
  addSurfacing(add, planned, null, first.before);
  for (const pour of pours) {
    const times = schedule.pours[pour.index - 1];
    if (pour.index > 1) addSurfacing(add, planned, pours[pour.index - 2], times.before);
    const placed = placedBefore(planned, pour);
    if (pour.index === 1) add('prepare', null, [], at(times.starts), words.level(planned.scene));
    if (placed.length > 0) add('place', pour.index, placed.map((solid) => solid.placement.id), at(times.starts), words.place(planned, placed));
    add('pour', pour.index, placed.map((solid) => solid.placement.id), { from: times.starts, to: times.ends }, doNotPour(findings, pour.index) ?? [words.pour(planned, pour), bottleWords(planned.scene, pour)].filter(Boolean).join(' '));
    const next = nextHands(planned, pour);
    if (times.box) {
      const { from } = times.box;
      if (from > times.ends) add('wait', pour.index, [], { from: times.ends, to: from }, NOT_YET);
      add('move', pour.index, [], { from, to: from + MOVE_MIN }, intoBox(planned, pour));
      add('wait', pour.index, [], { from: from + MOVE_MIN, to: next.from }, inBox(planned, pour, next.what));
    } else if (next.from > times.ends) add('wait', pour.index, [], { from: times.ends, to: next.from }, words.wait(planned, pour, next.what));
  }
  const last = pours[pours.length - 1];
  addSurfacing(add, planned, last, schedule.after);
  if (finishing) steps.push(...finishing.map((step) => ({ ...step, pour: last.index, placements: [] })));
  else {
    if (!planned.scene.mold.keep) add('demold', last.index, [], at(schedule.finish), words.demold(planned));
    add('finish', last.index, [], at(schedule.finish), words.finish(planned));
  }
  return steps
    .sort((a, b) => a.span.from - b.span.from)
    .map(({ span, kind, pour, placements, text, finishing: work }) => ({ kind, pour, placements, from: formatLocalTime(span.from), to: formatLocalTime(span.to), text, ...(work && { finishing: work }) }));
}

interface Timed {
  readonly kind: StepKind;
  readonly pour: number | null;
  readonly placements: readonly string[];
  readonly span: Span;
  readonly text: string;
  readonly finishing?: Step['finishing'];
}

type Add = (kind: StepKind, pour: number | null, placements: readonly string[], span: Span, text: string) => void;

/** Scuff, paint and dry on a surface; `below` is the pour whose surface it is, null for the mold's floor. */
function addSurfacing(add: Add, planned: Planned, below: PlannedPour | null, work: Surfacing): void {
  const pour = below?.index ?? null;
  const ids = work.planes.map((plane) => plane.id);
  work.scuff.forEach((span, i) => add('scuff', pour, [], span, i === 0 ? words.scuff(planned, below) : words.GOES_ON));
  work.paint.forEach((span, i) => add('paint', pour, ids, span, i === 0 ? words.paint(planned, work.planes) : words.GOES_ON));
  if (work.dry) add('dry', pour, ids, work.dry, words.dry(work.planes));
}

/** What is set down for a pour: what it is the first to reach; all that is fastened goes in before the first. */
function placedBefore({ solids, pours }: Planned, pour: PlannedPour): SolidAt[] {
  const tops = pours.map(({ toMm }) => toMm);
  return solids.filter(({ placement }) => {
    if (placement.hold === 'fixed') return pour.index === 1;
    return (firstTopAbove(placement.baseMm, tops) ?? tops[tops.length - 1]) === pour.toMm;
  });
}

/** The next moment with hands on the piece after a pour, and what it is. */
function nextHands({ schedule }: Planned, pour: PlannedPour): { from: number; what: 'pour' | 'scuff' | 'demold' } {
  const next = schedule.pours[pour.index];
  const work = next ? next.before : schedule.after;
  if (work.scuff.length > 0) return { from: work.scuff[0].from, what: 'scuff' };
  if (next) return { from: next.starts, what: 'pour' };
  return { from: schedule.finish, what: 'demold' };
}

function at(moment: number): Span {
  return { from: moment, to: moment };
}
