/** What can still become of pieces at best: how many pours at the least, and how early one may be finished, with the bench to itself and always open. */
import { MINUTES_PER_HOUR, upToMinute } from '../../units/time.ts';
import { pourTimes, type Piece } from './piece.ts';
import type { Progress } from './turns.ts';

/** At the least so many pours at the bench: of every key, as many as the piece has left that has most of them. */
export function poursLeft(pieces: readonly Piece[], progress: readonly Progress[]): number {
  const most = new Map<string, number>();
  for (const [i, { jobs, tasks }] of pieces.entries()) {
    const own = new Map<string, number>();
    for (const task of tasks.slice(progress[i].done)) if (task.kind === 'pour') own.set(jobs[task.pour].cupKey, (own.get(jobs[task.pour].cupKey) ?? 0) + 1);
    for (const [key, count] of own) most.set(key, Math.max(most.get(key) ?? 0, count));
  }
  return [...most.values()].reduce((sum, count) => sum + count, 0);
}

/** No end of the piece is earlier. Later starts never give earlier moments, so the earliest of each task is a bound of the next. */
export function soonestMin(piece: Piece, { done, times, readyMin, surface, releasedMin }: Progress, freeMin: number): number {
  const { pace, floor, jobs, tasks, scene: { mold } } = piece;
  let at = freeMin;
  let last = times;
  let ready = times && !surface.dry ? Math.min(times.opens, times.scuffable) : readyMin;
  let released = releasedMin;
  let dry = surface.dry ? upToMinute(surface.dry.to) : -Infinity;
  for (const task of tasks.slice(done)) {
    if (task.kind === 'pour') {
      const starts = Math.max(at, ready);
      last = pourTimes(piece, task.pour, Math.floor(starts), pace.pourMin);
      at = starts + pace.pourMin;
      ready = Math.min(last.opens, last.scuffable);
      released = mold.keep ? last.demold : Math.max(released, last.demold);
      dry = -Infinity;
      continue;
    }
    const planes = task.kind === 'floor' ? floor : jobs[task.pour].planesAbove;
    const paintH = planes.reduce((sum, plane) => sum + plane.paintH, 0);
    const begins = task.kind === 'floor' ? Math.max(at, ready) : Math.max(at, last!.paintable, last!.scuffable) + pace.scuffMin;
    at = begins + paintH * MINUTES_PER_HOUR;
    ready = at + Math.max(...planes.map(({ dryH }) => dryH)) * MINUTES_PER_HOUR;
    dry = ready;
  }
  return Math.max(released, dry);
}
