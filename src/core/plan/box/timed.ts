/**
 * One pour timed and judged. A surface that is left to cure where there is a box is judged twice: in the room, until it is
 * tacky, and again as it goes on in the box. The stricter of the two counts.
 */
import { tightened } from '../../cure/windows.ts';
import type { BuildPour } from '../../cure/verdict-types.ts';
import { SLACK_MIN, type Span } from '../bench-calendar.ts';
import type { Judged } from '../heat-judge.ts';
import type { Pace, ScheduledPour } from '../schedule.ts';
import { boxedRoom } from './boxed-room.ts';
import { closesByLabel, curedTimes, curingRoom, movesIn } from './stays.ts';

export interface TimedRequest {
  /** Judges it in the room, or in what is given in its place. Null: the label alone. */
  readonly judge: ((room?: BuildPour['room']) => Judged) | null;
  /** Stays in the box before it. */
  readonly stays: readonly Span[];
  /** What follows asks for a cured surface; else only where no pour fits its window. */
  readonly cures: boolean;
}

export interface TimedPour {
  readonly scheduled: ScheduledPour;
  readonly judged: Judged | null;
}

export function timedPour(pace: Pace, byLabel: ScheduledPour, { judge, stays, cures }: TimedRequest): TimedPour {
  const { scene, box, calendar } = pace;
  const { formula } = byLabel;
  const outside = judge?.(box && stays.length > 0 ? boxedRoom(scene.room, box, stays) : undefined) ?? null;
  const open = outside ? { ...byLabel, ...tightened(byLabel.label, outside.verdict.windows) } : byLabel;
  if (!box || !formula) return { scheduled: open, judged: outside };
  // Where heat keeps it from being tacky for longer, it goes in later.
  const label = { ...byLabel.label, ...curedTimes(pace, formula, open) };
  const left = outside ? { ...open, ...tightened(label, outside.verdict.windows), label } : { ...open, label };
  if ((!cures && bondsInTime(pace, open)) || movesIn(calendar, open.opens) === null) return { scheduled: left, judged: outside };
  const around = curingRoom(pace, open.opens, stays);
  const closes = Math.min(open.closes, closesByLabel(around, formula, byLabel.starts));
  const inside = judge?.(around) ?? null;
  const warm = inside ? tightened({ ...label, closes }, inside.verdict.windows) : { ...label, closes };
  const scheduled = { ...left, scuffable: warm.scuffable, paintable: warm.paintable, demold: warm.demold, closesInBox: warm.closes };
  return { scheduled, judged: inside && outside && stricter(outside, inside) };
}

/** Whether a pour fits the window of a surface that is left in the room. */
function bondsInTime({ calendar, watchedMin, pourMin }: Pace, { opens, closes }: ScheduledPour): boolean {
  return calendar.fit(watchedMin, opens)! + pourMin <= closes + SLACK_MIN;
}

function stricter({ verdict: outside }: Judged, inside: Judged): Judged {
  const { verdict } = inside;
  const safeDepthMm = Math.min(outside.safeDepthMm, verdict.safeDepthMm);
  const least = outside.rangeC[1] > verdict.rangeC[1] ? outside : verdict;
  return { ...inside, verdict: { ...verdict, safeDepthMm, rangeC: least.rangeC, words: least.words, harsher: outside.harsher || verdict.harsher, inRoomC: outside.rangeC } };
}
