/** What the plan says of a pour's heat, from its verdict and its times. */
import type { Fix } from '../cure/verdict-types.ts';
import { downToMinute, upToMinute } from '../units/time.ts';
import type { Judged } from './heat-judge.ts';
import { isHot, isNear } from './hot.ts';
import type { Moves, PourHeat } from './plan.ts';
import type { PourTimes, ScheduledPour } from './schedule.ts';

/** A fix that gives back less depth than this is none. */
const WORTH = 1.02;

export interface PourSituation {
  readonly depthMm: number;
  readonly times: ScheduledPour;
  /** When it is poured. */
  readonly roomC: number;
  /** Its cups would be too hot with another resin. */
  readonly hotCups: (formulaId: string) => boolean;
  /** How it was judged. */
  readonly model: string;
}

export function pourHeat(judged: Judged, { depthMm, times, roomC, hotCups, model }: PourSituation): PourHeat {
  const { rangeC, words, afterH, safeDepthMm, cause, harsher, tooWarmRoomC, bubbles, softens, inRoomC } = judged.verdict;
  const heat = { rangeC, words, afterH, safeDepthMm, cause, model, harsher, tooWarmRoomC, roomC, movedMin: movesOf(times), bubbles, softens, ...(inRoomC && { inRoomC }) };
  const wanted = isHot(heat, depthMm) || isNear(heat, depthMm);
  const helps = ({ kind, amount, after }: Fix) => kind === 'split' || (after.safeDepthMm >= WORTH * safeDepthMm && !(kind === 'formula' && hotCups(String(amount))));
  return { ...heat, fixes: wanted ? judged.fixes().filter(helps) : [] };
}

/** How far a pour's moments lie from its label's. */
export function movesOf({ label, ...times }: ScheduledPour): Moves {
  return {
    opens: times.opens - label.opens,
    closes: times.closes - label.closes,
    scuffable: times.scuffable - label.scuffable,
    paintable: times.paintable - label.paintable,
    demold: times.demold - label.demold,
  };
}

/** Label times with the same moves; whole minutes, on the safe side. */
export function movedBy(label: PourTimes, moves: Moves): PourTimes {
  return {
    ...label,
    opens: upToMinute(label.opens + moves.opens),
    closes: downToMinute(label.closes + moves.closes),
    scuffable: upToMinute(label.scuffable + moves.scuffable),
    paintable: upToMinute(label.paintable + moves.paintable),
    demold: upToMinute(label.demold + moves.demold),
  };
}
