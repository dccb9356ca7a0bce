/** What lies in the mold while a plan is laid out: each pour is timed and judged on it, and lies on top of it then. */
import { warmedMixC } from '../cure/mixed-at.ts';
import type { Plane, Room, Scene } from '../scene/scene.ts';
import type { Span } from './bench-calendar.ts';
import { stayUntil } from './box/stays.ts';
import { timedPour, type TimedPour } from './box/timed.ts';
import type { HeatJudge, HeatSoFar } from './heat-judge.ts';
import { tooDeep } from './hot.ts';
import type { Pace, ScheduledPour } from './schedule.ts';
import { nightOver } from './sleep.ts';
import { planesOn, type Slice } from './slices.ts';
import { floorPlanes } from './stops.ts';

/** A value: one may be poured on many times. */
export interface Pile {
  /** Null: the label alone. */
  readonly heat: HeatJudge | null;
  readonly soFar: HeatSoFar | null;
  /** Null: nothing is poured yet. */
  readonly newest: ScheduledPour | null;
  /** Painted on the newest pour's top, or on the floor. */
  readonly planes: readonly Plane[];
  /** In the curing box, before the newest pour. */
  readonly stays: readonly Span[];
}

export interface PiledPour extends TimedPour {
  readonly then: Pile;
}

export interface PiledAs {
  readonly slice: Slice;
  /** What follows asks for a cured surface. */
  readonly cures: boolean;
  /** One that is too deep need not wait: it is not poured so. */
  readonly untilDeep?: boolean;
}

export function emptyPile(scene: Scene, heat: HeatJudge | null, floorMm: number): Pile {
  return { heat, soFar: heat?.begin(scene.mold, scene.room) ?? null, newest: null, planes: floorPlanes(scene, floorMm), stays: [] };
}

/** A pour at its time, with what its heat moves. */
export function pouredOn(pile: Pile, pace: Pace, byLabel: ScheduledPour, { slice, cures }: PiledAs): PiledPour {
  const { heat, soFar } = pile;
  const { formula, fromMm, toMm } = slice;
  const stays = staysBefore(pile, pace, byLabel);
  const judge = heat && soFar && ((room?: Room) => soFar.pour({ fromMin: byLabel.starts, depthMm: toMm - fromMm, formula, family: heat.familyOf(formula), mixC: warmedMixC(pace.scene, byLabel.starts), room }));
  const timed = timedPour(pace, byLabel, { judge, stays, cures });
  return { ...timed, then: { heat, soFar: timed.judged?.then ?? null, newest: timed.scheduled, planes: planesOn(pace.scene, slice), stays } };
}

/** The same of the first start from which it is tacky before someone sleeps there, its heat counted: what warmth keeps liquid for longer begins after that night. Null: there is none. */
export function pouredAwake(pile: Pile, pace: Pace, startingFrom: (notBefore: number | undefined) => ScheduledPour | null, as: PiledAs): PiledPour | null {
  let notBefore: number | undefined;
  for (;;) {
    const byLabel = startingFrom(notBefore);
    if (!byLabel) return null;
    const made = pouredOn(pile, pace, byLabel, as);
    const night = nightOver(pace.nights, made.scheduled.starts, made.scheduled.opens);
    if (!night || (as.untilDeep && tooDeep(as.slice, made.judged))) return made;
    notBefore = night.to;
  }
}

function staysBefore({ newest, stays }: Pile, pace: Pace, { before }: ScheduledPour): readonly Span[] {
  const stay = newest && before.scuff.length > 0 ? stayUntil(pace, newest, before.scuff[0].from) : null;
  return stay ? [...stays, stay] : stays;
}
