/** What happens between one pour and the next, as spans that follow each other without a gap. Minutes since 2000-01-01T00:00. */
import type { Plan, Pour, Step } from '../core/plan/plan.ts';
import { MINUTES_PER_DAY, parseLocalTime, weekdayOf } from '../core/units/time.ts';

export type WaitKind = 'cures' | 'bench closed' | 'scuff' | 'paint' | 'dries';

export interface WaitSpan {
  readonly kind: WaitKind;
  readonly fromMin: number;
  readonly toMin: number;
}

export interface Wait {
  readonly fromMin: number;
  readonly toMin: number;
  readonly spans: readonly WaitSpan[];
  /** When the surface is tacky, where the next pour goes onto it so. */
  readonly tacky: { readonly fromMin: number; readonly toMin: number } | null;
  /** Midnights within, each the start of a weekday (0 Monday … 6 Sunday). */
  readonly midnights: readonly { readonly atMin: number; readonly weekday: number }[];
  /** What comes after. */
  readonly then: 'pour' | 'finish';
}

const HANDS: Partial<Record<Step['kind'], WaitKind>> = { scuff: 'scuff', paint: 'paint', dry: 'dries' };

/** From each pour's end to the next one's start, the last to the finish. In the order of the pours. */
export function waitsOf(plan: Plan): Wait[] {
  return plan.pours.map((pour, i) => waitAfter(plan, pour, plan.pours[i + 1]));
}

function waitAfter(plan: Plan, pour: Pour, next: Pour | undefined): Wait {
  const fromMin = minutes(pour.ends);
  const toMin = Math.max(fromMin, minutes(next ? next.starts : plan.finish));
  const work = plan.steps.flatMap((step) => {
    const kind = HANDS[step.kind];
    return kind && step.pour === pour.index ? [{ kind, fromMin: minutes(step.from), toMin: minutes(step.to) }] : [];
  });
  const tacky = next?.route === 'wet-on-tacky' ? { fromMin: minutes(pour.opens), toMin: minutes(pour.closes) } : null;
  const readyMin = readyAt(pour, next, work);
  const spans: WaitSpan[] = [];
  let at = fromMin;
  for (const span of [...work, { kind: 'end' as const, fromMin: toMin, toMin }]) {
    // Out of its box and scuffed, it cools before it is poured on.
    addGap(spans, at, Math.min(span.fromMin, toMin), pour.box && spans.at(-1)?.kind === 'scuff' ? Infinity : readyMin);
    if (span.kind !== 'end') spans.push(span);
    at = Math.max(at, span.toMin);
  }
  const last = tacky ? Math.max(toMin, tacky.toMin) : toMin;
  return { fromMin, toMin, spans, tacky, midnights: midnightsBetween(fromMin, last), then: next ? 'pour' : 'finish' };
}

/** From when the surface could take what comes next. */
function readyAt(pour: Pour, next: Pour | undefined, work: readonly WaitSpan[]): number {
  if (next?.route === 'wet-on-tacky') return minutes(pour.opens);
  const paint = work.find(({ kind }) => kind === 'paint');
  const scuff = work.find(({ kind }) => kind === 'scuff');
  // Scuffing and painting stand together, so the scuff waits until its paint can follow.
  if (paint && scuff) return Math.max(minutes(pour.scuffable), minutes(pour.paintable) - (scuff.toMin - scuff.fromMin));
  if (scuff || next) return minutes(pour.scuffable);
  return minutes(pour.demold);
}

/** Waiting is curing until the surface is ready; what is left of it, the bench is closed. */
function addGap(spans: WaitSpan[], fromMin: number, toMin: number, readyMin: number): void {
  const curedMin = Math.min(Math.max(readyMin, fromMin), toMin);
  if (curedMin > fromMin) spans.push({ kind: 'cures', fromMin, toMin: curedMin });
  if (toMin > curedMin) spans.push({ kind: 'bench closed', fromMin: curedMin, toMin });
}

function midnightsBetween(fromMin: number, toMin: number): { atMin: number; weekday: number }[] {
  const list: { atMin: number; weekday: number }[] = [];
  for (let atMin = Math.ceil(fromMin / MINUTES_PER_DAY) * MINUTES_PER_DAY; atMin <= toMin; atMin += MINUTES_PER_DAY) {
    list.push({ atMin, weekday: weekdayOf(atMin) });
  }
  return list;
}

const minutes = (time: string): number => parseLocalTime(time) ?? 0;
