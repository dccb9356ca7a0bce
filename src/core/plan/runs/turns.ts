/**
 * Turns at one bench: where the next piece of work lies, after all that was done there before. The bench does one thing at
 * a time, and a pour's watch belongs to it; waiting and drying of other pieces go on meanwhile. Joints are the even plan's:
 * a surface that can be poured on while it is tacky, by hours alone, is; so no window is given up for company.
 */
import { upToMinute } from '../../units/time.ts';
import { SLACK_MIN, type Span } from '../bench-calendar.ts';
import type { Route } from '../plan.ts';
import { NOTHING, paintAndDry, scuffPaintDry, scuffThenPour, type PourTimes, type Surfacing } from '../schedule.ts';
import { awakeFit, type PourFit } from '../sleep.ts';
import { pourTimes, type Piece } from './piece.ts';
import type { SharedMix } from './visit.ts';

/** How far a piece is. */
export interface Progress {
  /** Tasks done. */
  readonly done: number;
  /** The last pour’s; null before the first. */
  readonly times: PourTimes | null;
  /** What was painted is dry, or its start. */
  readonly readyMin: number;
  /** Work done on the surface since the last pour. */
  readonly surface: Surfacing;
  /** When all its pours so far are out of the mold; of a piece that stays in, the last. */
  readonly releasedMin: number;
}

/** What a turn does to one piece. */
export interface PieceTurn {
  readonly piece: number;
  /** From 0; null: it is painted. */
  readonly pour: number | null;
  readonly route: Route | null;
  readonly surface: Surfacing;
  readonly times: PourTimes | null;
}

export interface Turn {
  readonly from: number;
  /** Hands and eyes are bound until then. */
  readonly to: number;
  /** Of a pour: when it starts, and how long it takes; else 0. */
  readonly startsMin: number;
  readonly pourMin: number;
  readonly parts: readonly PieceTurn[];
}

export function begun({ startMin }: Piece): Progress {
  return { done: 0, times: null, readyMin: startMin, surface: NOTHING, releasedMin: -Infinity };
}

/** Painting, with its scuff, as soon as the bench and the surface are free. */
export function paintTurn(pieces: readonly Piece[], index: number, progress: Progress, freeMin: number): Turn {
  const { pace, floor, jobs, tasks } = pieces[index];
  const task = tasks[progress.done];
  const surface = task.kind === 'floor'
    ? paintAndDry(pace.calendar, floor, Math.max(freeMin, progress.readyMin))
    : scuffPaintDry(pace.calendar, jobs[(task as { pour: number }).pour].planesAbove, Math.max(freeMin, progress.times!.paintable, progress.times!.scuffable), pace.scuffMin);
  const spans = [...surface.scuff, ...surface.paint];
  return { from: spans[0].from, to: upToMinute(spans[spans.length - 1].to), startsMin: 0, pourMin: 0, parts: [{ piece: index, pour: null, route: null, surface, times: null }] };
}

export interface Pourer {
  readonly piece: number;
  readonly progress: Progress;
}

/** One pour, or several at once from shared cups, as early as all of them can; null where a window or the hours forbid it. */
export function pourTurn(pieces: readonly Piece[], pourers: readonly Pourer[], { freeMin, shared }: { readonly freeMin: number; readonly shared: SharedMix | null }): Turn | null {
  const needs = pourers.map((pourer) => needOf(pieces[pourer.piece], pourer.progress));
  const paces = pourers.map(({ piece }) => pieces[piece].pace);
  const pourMin = shared?.pourMin ?? paces[0].pourMin;
  const watchMin = Math.max(...paces.map((pace) => pace.watchedMin - pace.pourMin));
  const fit = awakeTurn(pieces, pourers, pourMin);
  const placed = pourers.length === 1 && needs[0].kind === 'scuff'
    ? scuffThenPour({ ...paces[0], watchedMin: pourMin + watchMin }, Math.max(freeMin, needs[0].from), fit)
    : scuffsThenPour();
  if (!placed) return null;
  const { starts } = placed;
  const spans = [...placed.scuff];
  const parts = pourers.map(({ piece, progress }, i): PieceTurn => {
    const need = needs[i];
    const pour = nextPour(pieces[piece], progress);
    const times = pourTimes(pieces[piece], pour, starts, pourMin);
    if (need.kind !== 'scuff') return { piece, pour, route: need.route, surface: progress.surface, times };
    const scuff = pourers.length === 1 ? placed.scuff : spans.splice(0, 1);
    return { piece, pour, route: 'cure-scuff-wipe', surface: { ...NOTHING, scuff }, times };
  });
  const misses = needs.some((need) => need.kind === 'wet' && starts + pourMin > need.last + SLACK_MIN);
  return misses ? null : { from: placed.scuff[0]?.from ?? starts, to: upToMinute(starts + pourMin + watchMin), startsMin: starts, pourMin, parts };

  function scuffsThenPour(): { scuff: Span[]; starts: number } | null {
    const scuffed = paces.filter((_pace, i) => needs[i].kind === 'scuff');
    // One scuff after the other, then the pour, not before what comes out of a box has cooled.
    let leadMin = 0;
    let offMin = 0;
    const offsets = scuffed.map((pace) => {
      leadMin = Math.max(leadMin, offMin + pace.leadMin);
      return { from: offMin, to: (offMin += pace.scuffMin) };
    });
    leadMin = Math.max(leadMin, offMin);
    const from = Math.max(freeMin, ...needs.map((need) => (need.kind === 'scuff' ? need.from : need.from - leadMin)));
    const begins = fit(leadMin + pourMin + watchMin, upToMinute(from), leadMin);
    if (begins === null) return null;
    return { scuff: offsets.map((span) => ({ from: begins + span.from, to: begins + span.to })), starts: begins + leadMin };
  }
}

/** A piece after a turn. */
export function after({ scene: { mold } }: Piece, progress: Progress, turn: PieceTurn): Progress {
  const done = progress.done + 1;
  if (!turn.times) return { ...progress, done, readyMin: turn.surface.dry!.to, surface: turn.surface };
  const { demold } = turn.times;
  return { done, times: turn.times, readyMin: -Infinity, surface: NOTHING, releasedMin: mold.keep ? demold : Math.max(progress.releasedMin, demold) };
}

/** When a piece that has had all its turns is finished. */
export function finishedMin({ releasedMin, surface }: Progress): number {
  return surface.dry ? Math.max(releasedMin, upToMinute(surface.dry.to)) : releasedMin;
}

type Need =
  | { readonly kind: 'free'; readonly from: number; readonly route: Route | null }
  | { readonly kind: 'wet'; readonly from: number; readonly last: number; readonly route: Route }
  | { readonly kind: 'scuff'; readonly from: number };

/** Its window closes before the bench is free again. */
export function isLost(piece: Piece, progress: Progress, freeMin: number): boolean {
  if (piece.tasks[progress.done]?.kind !== 'pour') return false;
  const need = needOf(piece, progress);
  return need.kind === 'wet' && freeMin + piece.pace.pourMin > need.last + SLACK_MIN;
}

/** What a piece’s next pour waits for. */
function needOf(piece: Piece, progress: Progress): Need {
  const { pace } = piece;
  const { times, readyMin, surface } = progress;
  if (!times) return { kind: 'free', from: readyMin, route: null };
  if (surface.dry) return { kind: 'free', from: readyMin, route: 'cure-scuff-wipe' };
  const tacky = awakeTurn([piece], [{ piece: 0, progress }], pace.pourMin)(pace.watchedMin, times.opens);
  if (tacky !== null && tacky + pace.pourMin <= times.closes + SLACK_MIN) return { kind: 'wet', from: times.opens, last: times.closes, route: 'wet-on-tacky' };
  return { kind: 'scuff', from: times.scuffable };
}

/** Where pours made at once may start: where the last of them is tacky before someone sleeps there. */
function awakeTurn(pieces: readonly Piece[], pourers: readonly Pourer[], pourMin: number): PourFit {
  const opens = (starts: number) => Math.max(...pourers.map(({ piece, progress }) => pourTimes(pieces[piece], nextPour(pieces[piece], progress), starts, pourMin).opens));
  return awakeFit(pieces[pourers[0].piece].pace, opens);
}

function nextPour({ tasks }: Piece, { done }: Progress): number {
  return (tasks[done] as { pour: number }).pour;
}
