/** A piece's pours at the times and from the cups that were found for it among others: judged again, pour by pour. */
import { warmedMixC } from '../../cure/mixed-at.ts';
import type { Room, Scene } from '../../scene/scene.ts';
import { upToMinute } from '../../units/time.ts';
import type { Span } from '../bench-calendar.ts';
import { stayUntil, withStays } from '../box/stays.ts';
import { timedPour, type TimedPour } from '../box/timed.ts';
import type { HeatJudge, HeatSoFar } from '../heat-judge.ts';
import { movesOf } from '../heat-of-pour.ts';
import { isHot } from '../hot.ts';
import type { Laid, LaidPour } from '../heat-rounds.ts';
import type { Mixed } from '../mix.ts';
import type { Moves, Route, SharedCups } from '../plan.ts';
import type { Slice } from '../slices.ts';
import { paceOf, timesAt, type Pace, type ScheduledPour, type Surfacing } from '../schedule.ts';

/** Sums of hours leave noise far below this, minutes. */
const SLACK_MIN = 1e-6;

export interface HeldPour {
  readonly startsMin: number;
  readonly pourMin: number;
  readonly route: Route | null;
  readonly before: Surfacing;
  /** Its part of shared cups; null: cups of its own. */
  readonly cups: (Mixed & { readonly shared: SharedCups }) | null;
}

/** What planning takes of them. */
export interface HeldPlan {
  readonly laid: (scene: Scene, laid: Laid, heat: HeatJudge | null) => Laid;
  /** Of a pour, from 0; `own` mixes what it takes by itself, for so many pieces. Null: as it takes by itself. */
  readonly cups: (pour: number, own: (copies: number) => Mixed) => (Mixed & { readonly shared?: SharedCups }) | null;
}

export interface Held {
  readonly pours: readonly HeldPour[];
  /** On the cured top. */
  readonly after: Surfacing;
  /** Told what the heat of the pours moves at these times, and whether they can be held. */
  readonly found: (moves: readonly Moves[], holds: boolean) => void;
}

export function heldPlan(held: Held): HeldPlan {
  return { laid: (scene, laid, heat) => heldLaid(scene, laid, heat, held), cups: (pour) => held.pours[pour]?.cups ?? null };
}

/** The same pours at other times. They do not hold where heat closes a window before, or makes a pour too deep that was not. */
function heldLaid(scene: Scene, laid: Laid, heat: HeatJudge | null, held: Held): Laid {
  const ownPace = paceOf(scene);
  const pours: LaidPour[] = [];
  const times: ScheduledPour[] = [];
  let stays: readonly Span[] = [];
  let soFar: HeatSoFar | null = heat?.begin(scene.mold, scene.room) ?? null;
  let holds = laid.pours.length === held.pours.length;
  for (const [i, { slice, stuck }] of laid.pours.slice(0, held.pours.length).entries()) {
    const { startsMin, pourMin, route, before } = held.pours[i];
    const pace = { ...ownPace, pourMin, watchedMin: ownPace.watchedMin - ownPace.pourMin + pourMin };
    const { formula } = slice;
    const below = times[i - 1];
    const label = timesAt(pace, formula, startsMin);
    const byLabel: ScheduledPour = { ...label, route, before, missedWindow: route === 'cure-scuff-wipe' && before.planes.length === 0, formula, label };
    const stay = below && before.scuff.length > 0 ? stayUntil(pace, below, before.scuff[0].from) : null;
    if (stay) stays = [...stays, stay];
    const { scheduled, judged } = judgedPour(pace, byLabel, { slice, soFar, heat, stays, cures: held.pours[i + 1]?.route !== 'wet-on-tacky' });
    if (judged) soFar = judged.then;
    const depthMm = slice.toMm - slice.fromMm;
    const tooDeep = judged !== null && isHot(judged.verdict, depthMm);
    holds &&= isJoined(below, scheduled, pace) && (!tooDeep || stuck !== null);
    pours.push({ slice, judged, stuck: tooDeep ? stuck : null });
    times.push(scheduled);
  }
  const last = times[times.length - 1];
  holds &&= held.after.scuff.every(({ from }) => from >= last.scuffable - SLACK_MIN) && held.after.paint.every(({ from }) => from >= last.paintable - SLACK_MIN);
  held.found(times.map(movesOf), holds);
  const placed = ownPace.box ? withStays(ownPace, times, held.after) : times;
  const released = scene.mold.keep ? placed[placed.length - 1].demold : Math.max(...placed.map(({ demold }) => demold));
  const finish = Math.max(released, held.after.dry ? upToMinute(held.after.dry.to) : released);
  return { ...laid, pours, schedule: { pours: placed, after: held.after, finish } };
}

export interface JudgedRequest {
  readonly slice: Slice;
  /** Null: the label alone. */
  readonly soFar: HeatSoFar | null;
  readonly heat: HeatJudge | null;
  readonly stays: readonly Span[];
  readonly cures: boolean;
}

/** A pour at its time with what its heat moves. */
export function judgedPour(pace: Pace, byLabel: ScheduledPour, { slice: { fromMm, toMm, formula }, soFar, heat, stays, cures }: JudgedRequest): TimedPour {
  const judge = soFar && ((room?: Room) => soFar.pour({ fromMin: byLabel.starts, depthMm: toMm - fromMm, formula, family: heat!.familyOf(formula), mixC: warmedMixC(pace.scene, byLabel.starts), room }));
  return timedPour(pace, byLabel, { judge, stays, cures });
}

/** Within the window below, or after what cure, scuff, paint and drying ask for. */
function isJoined(below: ScheduledPour | undefined, { starts, ends, route, before }: ScheduledPour, { leadMin }: Pace): boolean {
  if (!below) return true;
  if (route === 'wet-on-tacky') return starts >= below.opens - SLACK_MIN && ends <= below.closes + SLACK_MIN;
  const scuffed = before.scuff.length > 0 && before.scuff[0].from >= below.scuffable - SLACK_MIN && (before.planes.length > 0 || starts >= before.scuff[0].from + leadMin - SLACK_MIN);
  const painted = before.paint.every(({ from }) => from >= below.paintable - SLACK_MIN);
  return scuffed && painted && starts >= (before.dry?.to ?? -Infinity) - SLACK_MIN;
}
