/**
 * The stagger: in which order pieces have their turns at one bench, and when each begins, so that as many pours as can fall
 * together do. Every order is grown turn by turn, each turn as early as it can be; only pieces that have not begun may also
 * wait, to any whole hour at the bench, so that their later pours meet others'. Best is, in this order: no wanted day missed,
 * fewest pours at the bench, the earliest end, fewest cups, the earliest ends of all. States of one length are cut to the
 * most promising where there are too many; `whole` says that none was. Of over 120 later hours every second or so is tried.
 */
import { MINUTES_PER_HOUR } from '../../units/time.ts';
import { compareInOrder } from '../in-order.ts';
import { poursLeft, soonestMin } from './bounds.ts';
import type { Piece } from './piece.ts';
import { after, begun, finishedMin, isLost, paintTurn, pourTurn, type Progress, type Turn } from './turns.ts';
import type { Member, SharedMix } from './visit.ts';

/** States that are kept in all; a small bench is searched wholly, a large one in about a second. */
const MOST_STATES = 12_000;
const LEAST_STATES = 100;
const QUICK_STATES = 40;
const MOST_STATES_A_LEVEL = 1_500;
/** Pieces that are ready at once of which every group is tried; of more, the earliest few. */
const WHOLE_GROUPS = 4;
/** Later starts that are tried of one of two pieces; of more, fewer. */
const MOST_STARTS = 120;

export interface StaggerRequest {
  /** Not to be finished later. */
  readonly latestMin: number;
  /** What pours of one key share when they start then; null where they can't. */
  readonly shared: (members: readonly Member[], startsMin: number) => SharedMix | null;
}

export interface Staggered {
  /** In the order of the bench. */
  readonly turns: readonly Turn[];
  /** Of each piece. */
  readonly finishMin: readonly number[];
  readonly pours: number;
  readonly cups: number;
  /** Every order was tried. */
  readonly whole: boolean;
}

interface State {
  readonly pieces: readonly Progress[];
  readonly freeMin: number;
  readonly pours: number;
  readonly cups: number;
  readonly turn: Turn | null;
  readonly before: State | null;
  /** Late pieces, pours and the end that it can come to at best. */
  readonly atBest: readonly [late: number, pours: number, finishMin: number];
}

/** Deterministic. Null where no order ends in time. A quick search first: what can't become as good is then left out. */
export function stagger(pieces: readonly Piece[], request: StaggerRequest): Staggered | null {
  const quick = grown(pieces, request, { kept: QUICK_STATES, best: null });
  const tasks = pieces.reduce((sum, piece) => sum + piece.tasks.length, 0);
  const kept = Math.min(MOST_STATES_A_LEVEL, Math.max(LEAST_STATES, Math.floor(MOST_STATES / tasks)));
  return quick?.whole ? quick : (grown(pieces, request, { kept, best: quick }) ?? quick);
}

function grown(pieces: readonly Piece[], request: StaggerRequest, { kept, best }: { readonly kept: number; readonly best: Staggered | null }): Staggered | null {
  const tasks = pieces.reduce((sum, piece) => sum + piece.tasks.length, 0);
  const levels: State[][] = Array.from({ length: tasks + 1 }, () => []);
  levels[0].push({ pieces: pieces.map(begun), freeMin: Math.min(...pieces.map(({ startMin }) => startMin)), pours: 0, cups: 0, turn: null, before: null, atBest: [0, 0, 0] });
  let whole = pieces.length <= WHOLE_GROUPS;
  for (let level = 0; level < tasks; level++) {
    const states = unlike(levels[level]).filter((state) => mayBeBest(pieces, state, best));
    whole &&= states.length <= kept;
    for (const state of states.sort(promising).slice(0, kept)) {
      for (const next of followers(pieces, state, request)) levels[next.pieces.reduce((sum, { done }) => sum + done, 0)].push(next);
    }
    levels[level] = [];
  }
  const ends = levels[tasks].map((state) => ({ state, finishMin: state.pieces.map(finishedMin) }));
  if (ends.length === 0) return null;
  const { state, finishMin } = ends.reduce((a, b) => (compareEnds(pieces, b, a) < 0 ? b : a));
  const turns: Turn[] = [];
  for (let at: State | null = state; at?.turn; at = at.before) turns.unshift(at.turn);
  return { turns, finishMin, pours: state.pours, cups: state.cups, whole };
}

function mayBeBest(pieces: readonly Piece[], { atBest }: State, best: Staggered | null): boolean {
  return !best || compareInOrder(atBest, [lateOf(pieces, best.finishMin), best.pours, Math.max(...best.finishMin)]) <= 0;
}

function atBest(pieces: readonly Piece[], progress: readonly Progress[], { freeMin, pours }: Pick<State, 'freeMin' | 'pours'>): State['atBest'] {
  const soonest = progress.map((one, i) => soonestMin(pieces[i], one, freeMin));
  return [lateOf(pieces, soonest), pours + poursLeft(pieces, progress), Math.max(...soonest)];
}

/** Late pieces, pours, the end, cups, all ends. */
export function worth({ late, pours, finishMin, cups }: { readonly late: number; readonly pours: number; readonly finishMin: readonly number[]; readonly cups: number }): number[] {
  return [late, pours, Math.max(...finishMin), cups, finishMin.reduce((sum, end) => sum + end, 0)];
}

interface End {
  readonly state: State;
  readonly finishMin: readonly number[];
}

function compareEnds(pieces: readonly Piece[], a: End, b: End): number {
  const of = ({ state, finishMin }: End) => worth({ ...state, finishMin, late: lateOf(pieces, finishMin) });
  return compareInOrder(of(a), of(b));
}

/** Pieces finished after the day that they are wanted. */
export function lateOf(pieces: readonly Pick<Piece, 'mustBeByMin'>[], finishMin: readonly number[]): number {
  return pieces.filter(({ mustBeByMin }, i) => finishMin[i] > mustBeByMin).length;
}

function promising(a: State, b: State): number {
  return compareInOrder(a.atBest, b.atBest) || a.freeMin - b.freeMin || a.cups - b.cups;
}

/** Of states that are the same but for what was counted, the best. */
function unlike(states: readonly State[]): State[] {
  const best = new Map<string, State>();
  for (const state of states) {
    const key = `${state.freeMin} ${state.pieces.map(({ done, times, readyMin, releasedMin }) => `${done} ${times?.starts} ${times?.ends} ${readyMin} ${releasedMin}`).join(' | ')}`;
    const known = best.get(key);
    if (!known || promising(state, known) < 0) best.set(key, state);
  }
  return [...best.values()];
}

function followers(pieces: readonly Piece[], state: State, request: StaggerRequest): State[] {
  const next: State[] = [];
  const add = (turn: Turn | null, cups: number) => {
    if (!turn) return;
    const progress = state.pieces.map((one, i) => {
      const part = turn.parts.find(({ piece }) => piece === i);
      return part ? after(pieces[i], one, part) : one;
    });
    const isLate = progress.some((one, i) => one.done === pieces[i].tasks.length && finishedMin(one) > request.latestMin);
    if (turn.to > request.latestMin || isLate || progress.some((one, i) => isLost(pieces[i], one, turn.to))) return;
    const pours = state.pours + (cups > 0 ? 1 : 0);
    const bound = atBest(pieces, progress, { freeMin: turn.to, pours });
    if (bound[2] > request.latestMin) return;
    next.push({ pieces: progress, freeMin: turn.to, pours, cups: state.cups + cups, turn, before: state, atBest: bound });
  };
  const pourers = state.pieces.flatMap((progress, piece) => {
    const task = pieces[piece].tasks[progress.done];
    if (task && task.kind !== 'pour') add(paintTurn(pieces, piece, progress, state.freeMin), 0);
    return task?.kind === 'pour' ? [{ piece, progress, pour: task.pour, job: pieces[piece].jobs[task.pour] }] : [];
  });
  const pourAt = (group: typeof pourers, freeMin: number): { turn: Turn; cups: number } | null => {
    if (group.length === 1) {
      const turn = pourTurn(pieces, group, { freeMin, shared: null });
      return turn && { turn, cups: group[0].job.cupsAlone };
    }
    const members = group.map(({ piece, pour }) => ({ piece, pour }));
    const byNow = request.shared(members, freeMin);
    const turn = byNow && pourTurn(pieces, group, { freeMin, shared: byNow });
    // Cups are usable for as long as the room's warmth then allows.
    const shared = turn && request.shared(members, turn.startsMin);
    return turn && shared && shared.pourMin === byNow.pourMin ? { turn, cups: shared.mixed.batches.length } : null;
  };
  const groups = [...pourers.map((pourer) => [pourer]), ...groupsOf(pourers)];
  for (const group of groups) {
    const soonest = pourAt(group, state.freeMin);
    if (!soonest) continue;
    add(soonest.turn, soonest.cups);
    if (!group.every(({ piece, progress }) => progress.times === null && mayMeet(pieces, piece))) continue;
    for (const hour of openHours(pieces[group[0].piece], { fromMin: soonest.turn.startsMin, toMin: request.latestMin, most: Math.ceil((4 * MOST_STARTS) / pieces.length ** 2) })) {
      const later = pourAt(group, hour);
      if (later) add(later.turn, later.cups);
    }
  }
  return next;
}

/** Whether a piece has a formula in common with another. */
function mayMeet(pieces: readonly Piece[], piece: number): boolean {
  return pieces.some(({ jobs }, i) => i !== piece && jobs.some(({ cupKey }) => pieces[piece].jobs.some((own) => own.cupKey === cupKey)));
}

/** Whole hours at the bench after a moment; of too many, some. */
function openHours({ pace: { calendar, watchedMin } }: Piece, { fromMin, toMin, most }: { readonly fromMin: number; readonly toMin: number; readonly most: number }): number[] {
  const hours: number[] = [];
  for (const span of calendar.spans(fromMin)) {
    if (span.from > toMin) break;
    const first = Math.ceil((Math.max(span.from, fromMin + 1)) / MINUTES_PER_HOUR) * MINUTES_PER_HOUR;
    for (let hour = first; hour + watchedMin <= Math.min(span.to, toMin); hour += MINUTES_PER_HOUR) hours.push(hour);
  }
  const every = Math.ceil(hours.length / most);
  return hours.filter((_hour, i) => i % every === 0);
}

/** Groups of two and more that may share cups. */
function groupsOf<T extends { readonly job: { readonly cupKey: string } }>(pourers: readonly T[]): T[][] {
  const keys = [...new Set(pourers.map(({ job }) => job.cupKey))];
  return keys.flatMap((key) => {
    const alike = pourers.filter(({ job }) => job.cupKey === key);
    if (alike.length > WHOLE_GROUPS) return alike.slice(1).map((_one, i) => alike.slice(0, i + 2));
    return Array.from({ length: 2 ** alike.length }, (_none, set) => alike.filter((_one, i) => (set >> i) & 1)).filter(({ length }) => length > 1);
  });
}
