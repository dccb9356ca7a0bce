/**
 * The stagger: in which order pieces have their turns at one bench, and when each begins, so that as many pours as can fall
 * together do. Every order is grown turn by turn, each turn as early as it can be; only a piece that has not begun may also
 * wait, to any whole hour at the bench, so that its later pours meet others'. Best is, in this order: no wanted day missed,
 * fewest pours at the bench, the earliest end, fewest cups, the earliest ends of all. States of one length are cut to the
 * most promising where there are too many; `whole` says that none was. Of over 120 later hours every second or so is tried.
 */
import type { Piece } from './piece.ts';
import { after, begun, finishedMin, paintTurn, pourTurn, type Progress, type Turn } from './turns.ts';
import type { Member, SharedMix } from './visit.ts';

/** States that are kept in all; a small bench is searched wholly, a large one in about a second. */
const MOST_STATES = 40_000;
const LEAST_STATES = 150;
const MOST_STATES_A_LEVEL = 4_000;
/** Pieces that are ready at once of which every group is tried; of more, the earliest few. */
const WHOLE_GROUPS = 4;
/** Later starts that are tried of one piece. */
const MOST_STARTS = 120;
const HOUR_MIN = 60;

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
}

/** Deterministic. Null where no order ends in time. */
export function stagger(pieces: readonly Piece[], request: StaggerRequest): Staggered | null {
  const tasks = pieces.reduce((sum, piece) => sum + piece.tasks.length, 0);
  const kept = Math.min(MOST_STATES_A_LEVEL, Math.max(LEAST_STATES, Math.floor(MOST_STATES / tasks)));
  const levels: State[][] = Array.from({ length: tasks + 1 }, () => []);
  levels[0].push({ pieces: pieces.map(begun), freeMin: Math.min(...pieces.map(({ startMin }) => startMin)), pours: 0, cups: 0, turn: null, before: null });
  let whole = true;
  for (let level = 0; level < tasks; level++) {
    const states = unlike(levels[level]);
    whole &&= states.length <= kept && pieces.length <= WHOLE_GROUPS;
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

/** Late pieces, pours, the end, cups, all ends. */
export function worth({ late, pours, finishMin, cups }: { readonly late: number; readonly pours: number; readonly finishMin: readonly number[]; readonly cups: number }): number[] {
  return [late, pours, Math.max(...finishMin), cups, finishMin.reduce((sum, end) => sum + end, 0)];
}

export function compareWorth(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((value, i) => value !== b[i]);
  return at < 0 ? 0 : a[at] - b[at];
}

interface End {
  readonly state: State;
  readonly finishMin: readonly number[];
}

function compareEnds(pieces: readonly Piece[], a: End, b: End): number {
  const of = ({ state, finishMin }: End) => worth({ ...state, finishMin, late: lateOf(pieces, finishMin) });
  return compareWorth(of(a), of(b));
}

/** Pieces finished after the day that they are wanted. */
export function lateOf(pieces: readonly Pick<Piece, 'mustBeByMin'>[], finishMin: readonly number[]): number {
  return pieces.filter(({ mustBeByMin }, i) => finishMin[i] > mustBeByMin).length;
}

function promising(a: State, b: State): number {
  return a.pours - b.pours || a.freeMin - b.freeMin || a.cups - b.cups;
}

/** Of states that are the same but for what was counted, the best. */
function unlike(states: readonly State[]): State[] {
  const best = new Map<string, State>();
  for (const state of states) {
    const key = JSON.stringify([state.freeMin, state.pieces.map(({ done, times, readyMin, releasedMin }) => [done, times?.starts, times?.ends, readyMin, releasedMin])]);
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
    if (turn.to > request.latestMin || isLate) return;
    next.push({ pieces: progress, freeMin: turn.to, pours: state.pours + (cups > 0 ? 1 : 0), cups: state.cups + cups, turn, before: state });
  };
  const pourers = state.pieces.flatMap((progress, piece) => {
    const task = pieces[piece].tasks[progress.done];
    if (task && task.kind !== 'pour') add(paintTurn(pieces, piece, progress, state.freeMin), 0);
    return task?.kind === 'pour' ? [{ piece, progress, pour: task.pour, job: pieces[piece].jobs[task.pour] }] : [];
  });
  for (const pourer of pourers) {
    const { cupsAlone } = pourer.job;
    const soonest = pourTurn(pieces, [pourer], { freeMin: state.freeMin, shared: null });
    add(soonest, cupsAlone);
    const meets = pieces.some(({ jobs }, i) => i !== pourer.piece && jobs.some(({ cupKey }) => pieces[pourer.piece].jobs.some((own) => own.cupKey === cupKey)));
    if (pourer.progress.times || !soonest || !meets) continue;
    for (const hour of openHours(pieces[pourer.piece], soonest.startsMin, request.latestMin)) add(pourTurn(pieces, [pourer], { freeMin: hour, shared: null }), cupsAlone);
  }
  for (const group of groupsOf(pourers)) {
    const members = group.map(({ piece, pour }) => ({ piece, pour }));
    const byNow = request.shared(members, state.freeMin);
    if (!byNow) continue;
    const turn = pourTurn(pieces, group, { freeMin: state.freeMin, shared: byNow });
    // Cups are usable for as long as the room's warmth then allows.
    const shared = turn && request.shared(members, turn.startsMin);
    if (shared && shared.pourMin === byNow.pourMin) add(turn, shared.mixed.batches.length);
  }
  return next;
}

/** Whole hours at the bench after a moment; of too many, some. */
function openHours({ pace: { calendar, watchedMin } }: Piece, fromMin: number, toMin: number): number[] {
  const hours: number[] = [];
  for (const span of calendar.spans(fromMin)) {
    if (span.from > toMin) break;
    const first = Math.ceil((Math.max(span.from, fromMin + 1)) / HOUR_MIN) * HOUR_MIN;
    for (let hour = first; hour + watchedMin <= Math.min(span.to, toMin); hour += HOUR_MIN) hours.push(hour);
  }
  const every = Math.ceil(hours.length / MOST_STARTS);
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
