/** A piece's pours at the times and from the cups that were found for it among others: judged again, pour by pour. */
import type { Scene } from '../../scene/scene.ts';
import { SLACK_MIN } from '../bench-calendar.ts';
import type { HeatJudge } from '../heat-judge.ts';
import { movesOf } from '../heat-of-pour.ts';
import { tooDeep } from '../hot.ts';
import type { Laid, LaidPour } from '../heat-rounds.ts';
import type { Mixed } from '../mix.ts';
import type { Moves, Route, SharedCups } from '../plan.ts';
import { emptyPile, pouredOn } from '../pile.ts';
import { finishedWith, type Pace, paceOf, pourAt, pouringFor, type ScheduledPour, type Surfacing } from '../schedule.ts';
import { nightOver } from '../sleep.ts';

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

/** The same pours at other times. They do not hold where heat closes a window before, makes a pour too deep that was not, or keeps one liquid into someone's sleep. */
function heldLaid(scene: Scene, laid: Laid, heat: HeatJudge | null, held: Held): Laid {
  const ownPace = paceOf(scene);
  const pours: LaidPour[] = [];
  const times: ScheduledPour[] = [];
  let pile = emptyPile(scene, heat, laid.pours[0].slice.fromMm);
  let holds = laid.pours.length === held.pours.length;
  for (const [i, { slice, stuck }] of laid.pours.slice(0, held.pours.length).entries()) {
    const { startsMin, pourMin, route, before } = held.pours[i];
    const pace = pouringFor(ownPace, pourMin);
    const byLabel = pourAt(pace, slice.formula, startsMin, { route, before, missedWindow: route === 'cure-scuff-wipe' && before.planes.length === 0 });
    const { scheduled, judged, then } = pouredOn(pile, pace, byLabel, { slice, cures: held.pours[i + 1]?.route !== 'wet-on-tacky' });
    const deep = tooDeep(slice, judged);
    holds &&= isJoined(pile.newest, scheduled, pace) && (!deep || stuck !== null) && nightOver(pace.nights, scheduled.starts, scheduled.opens) === null;
    pile = then;
    pours.push({ slice, judged, stuck: deep ? stuck : null });
    times.push(scheduled);
  }
  const last = times[times.length - 1];
  holds &&= held.after.scuff.every(({ from }) => from >= last.scuffable - SLACK_MIN) && held.after.paint.every(({ from }) => from >= last.paintable - SLACK_MIN);
  held.found(times.map(movesOf), holds);
  return { ...laid, pours, schedule: finishedWith(ownPace, times, held.after) };
}

/** Within the window below, or after what cure, scuff, paint and drying ask for. */
function isJoined(below: ScheduledPour | null, { starts, ends, route, before }: ScheduledPour, { leadMin }: Pace): boolean {
  if (!below) return true;
  if (route === 'wet-on-tacky') return starts >= below.opens - SLACK_MIN && ends <= below.closes + SLACK_MIN;
  const scuffed = before.scuff.length > 0 && before.scuff[0].from >= below.scuffable - SLACK_MIN && (before.planes.length > 0 || starts >= before.scuff[0].from + leadMin - SLACK_MIN);
  const painted = before.paint.every(({ from }) => from >= below.paintable - SLACK_MIN);
  return scuffed && painted && starts >= (before.dry?.to ?? -Infinity) - SLACK_MIN;
}
