/**
 * A build run for every member of its families side by side: what lies in the mold with the heat and cure left in it,
 * and what one more pour does there until it has cooled. Seconds count from the first pour; scene minutes outside.
 */
import type { Formula, Mold, Room } from '../scene/scene.ts';
import { thickening, viscosityFactor } from './bubbles.ts';
import { rateAt, roomAt } from './equivalent-time.ts';
import { FAMILY_STACK, hastened, labelBondS } from './family-anchor.ts';
import type { CureFamily } from './family-types.ts';
import { tabulated } from './rate-table.ts';
import { coolingIn, type Cooling } from './situation.ts';
import { advance, cloneStack, pourOn, startStack, type StackState } from './stack.ts';
import type { RateLaw, RoomSpan, Sighting } from './stack-types.ts';
import type { BuildPour } from './verdict-types.ts';
import { SETTLED_K } from './windows.ts';

/** By then a pour is through, or too cold to cure at all. */
const HORIZON_S = 60 * 86_400;
/** Half cured, and no warmer than this over the room: nothing warmer is to come. */
const PAST_ALPHA = 0.5;
const PAST_K = 3;
/** A stack carried into a warmer place has taken on its warmth and passed what peak it has there, s: some time constants of a deep one. */
const SHOWS_S = 12 * 3600;
/** Half cured and so far down from its peak, in a room that warms no more: it won't rise again, its rate was highest before. */
const FALLEN_K = 1;

/** What does not change while a build grows. */
export interface BuildContext {
  readonly mold: Mold;
  readonly room: Room;
  readonly members: 'all' | 'mean';
  /** Scene minutes of the first pour. */
  readonly originMin: number;
  readonly familyOf: (formula: Formula) => CureFamily;
  /** Made once for each member that is asked, by its place. */
  readonly laws: Map<CureFamily, Map<number, MemberLaw>>;
}

interface MemberLaw {
  readonly law: RateLaw;
  /** Equivalent seconds by which its bond is gone. */
  readonly bondS: number;
}

/** One member's build. */
export interface Slot {
  /** Place in its families. */
  readonly place: number;
  /** Just after the newest pour, and as far as it was run; nothing before the first pour. */
  readonly poured: StackState | null;
  readonly ended: StackState | null;
}

/** A pour to be tried: its own, or with something changed to see what it does. */
export interface Trial {
  readonly depthMm: number;
  readonly atS: number;
  readonly mixC: number;
  /** The room from then on. */
  readonly room: readonly RoomSpan[];
  /** All of it, before as well, where it is not the build's; and until when a run goes on at the least. */
  readonly around?: { readonly room: readonly RoomSpan[]; readonly untilS: number };
}

/** What one member makes of a pour. */
export interface MemberRun {
  /** Anywhere in the stack from the pour on. */
  readonly peakC: number;
  readonly peakAtS: number;
  /** Since the pour: when its surface has gone through what it does in the label's situation until the bond is gone; with the progress still missing where the run ended sooner. */
  readonly closesS: number | null;
  readonly closeHoursLeft: number;
  readonly endedS: number;
  /** Spans since the pour in which the surface is over the room by more than SETTLED_K, s. */
  readonly warmSpans: readonly (readonly [number, number])[];
  /** ∫ dt/η while it is liquid, 1/Pa. */
  readonly fluidityPerPa: number;
  readonly midConversion: number;
  readonly slot: Slot;
}

export function contextOf(given: Omit<BuildContext, 'laws'>): BuildContext {
  return { ...given, laws: new Map() };
}

export function firstSlots({ members }: BuildContext, family: CureFamily): Slot[] {
  const places = members === 'mean' ? [family.meanIndex] : family.members.map((_, i) => i);
  return places.map((place) => ({ place, poured: null, ended: null }));
}

function lawFor({ laws }: BuildContext, { family, formula, place }: { family: CureFamily; formula: Formula; place: number }): MemberLaw {
  const made = laws.get(family) ?? new Map<number, MemberLaw>();
  laws.set(family, made);
  const known = made.get(place);
  if (known) return known;
  const member = memberAt(family, place);
  const law = tabulated(member.kinetics);
  // The label's own law: a resin that a test cup found faster is gone sooner than its label says, at any temperature.
  const fresh = { law: hastened(law, family.hastenedBy), bondS: labelBondS(member, formula, law) / family.hastenedBy };
  made.set(place, fresh);
  return fresh;
}

export function memberAt(family: CureFamily, place: number) {
  return family.members[place % family.members.length];
}

export function trialOf({ room: ofBuild, originMin }: BuildContext, { depthMm, fromMin, mixC, room = ofBuild }: Pick<BuildPour, 'depthMm' | 'fromMin' | 'mixC' | 'room'>): Trial {
  const atS = (fromMin - originMin) * 60;
  const trial = { depthMm, atS, mixC: mixC ?? roomAt(room, fromMin), room: roomSpans(room, originMin, fromMin) };
  return room === ofBuild ? trial : { ...trial, around: { room: roomSpans(room, originMin, -Infinity), untilS: warmsUntilS(trial.room) } };
}

/** Half cured and cool is not yet past where a warmer place is to come; by then what it does there has shown. */
function warmsUntilS(room: readonly RoomSpan[]): number {
  const warmer = room.findIndex(({ temperatureC }, i) => i > 0 && temperatureC > room[i - 1].temperatureC);
  return warmer < 0 ? -Infinity : room[warmer].fromS + SHOWS_S;
}

/** The room from a moment on, in the run's seconds. */
function roomSpans(room: Room, originMin: number, fromMin: number): RoomSpan[] {
  const later = room.profile.filter((entry) => entry.fromMin > fromMin).map(({ fromMin: at, temperatureC }) => ({ fromS: (at - originMin) * 60, temperatureC }));
  return [{ fromS: fromMin === -Infinity ? fromMin : (fromMin - originMin) * 60, temperatureC: roomAt(room, fromMin) }, ...later];
}

/** What lies in the mold when the trial begins, in the trial's room and the given cooling; a value of its own. */
export function groundOf(slot: Slot, trial: Trial, cooling: Cooling): StackState {
  // What is around a piece in a box is known only when it comes out again: it is run anew from its last pour.
  const held = slot.ended && slot.ended.timeS <= trial.atS && !trial.around ? slot.ended : slot.poured;
  if (!held) return startStack(surroundingsOf(trial, cooling), FAMILY_STACK);
  const ground = trial.around ? inPlace(cloneStack(held), { ...trial, room: trial.around.room }, cooling) : cloneStack(held);
  advance(ground, trial.atS);
  return inPlace(ground, trial, cooling);
}

/** The same ground in another room, or cooled in another way, from the trial on; the ground itself is left alone. */
export function inPlace(ground: StackState, trial: Trial, cooling: Cooling): StackState {
  return { ...ground, surroundings: surroundingsOf(trial, cooling) };
}

function surroundingsOf({ room }: Trial, { topHWPerM2K, bottomHWPerM2K }: Cooling) {
  return { room, topHWPerM2K, bottomHWPerM2K };
}

export interface PourOfMember {
  readonly family: CureFamily;
  readonly place: number;
  readonly law: RateLaw;
  readonly bondS: number;
  readonly cooling: Cooling;
}

export function pourOfMember(context: BuildContext, { formula, family }: Pick<BuildPour, 'formula' | 'family'>, place: number): PourOfMember {
  return { family, place, ...lawFor(context, { family, formula, place }), cooling: coolingIn(context.mold, memberAt(family, place)) };
}

/** The stack below with the pour on it; `ground` stays as it is. */
export function pouredOn(ground: StackState, { family, place, law, cooling }: PourOfMember, trial: Trial): StackState {
  const stack = cloneStack(ground);
  pourOn(stack, { depthMm: trial.depthMm, mixC: trial.mixC, material: memberAt(family, place).material, kinetics: law, sideWPerM3K: cooling.sideWPerM3K }, trial.atS);
  return stack;
}

/** Hottest point of the whole stack from the pour on, °C; over `overC` it is only known to be that. */
export function peakOn(ground: StackState, pour: PourOfMember, { trial, overC }: { trial: Trial; overC: number }): number {
  const stack = pouredOn(ground, pour, trial);
  let peakC = Math.max(trial.mixC, ...ground.temperatureC);
  if (peakC > overC) return peakC;
  const warmsNoMore = trial.room.every(({ temperatureC }) => temperatureC <= trial.room[0].temperatureC);
  advance(stack, trial.atS + HORIZON_S, {
    until: (seen) => {
      if (seen.stackHottestC > peakC) peakC = seen.stackHottestC;
      return peakC > overC || (warmsNoMore && seen.meanConversion >= PAST_ALPHA && seen.stackHottestC < peakC - FALLEN_K) || isPast(seen, trial);
    },
  });
  return peakC;
}

function isPast({ stackHottestC, roomC, minConversion, sinceS }: Readonly<Sighting>, { atS, around }: Trial): boolean {
  return minConversion >= PAST_ALPHA && stackHottestC <= roomC + PAST_K && (!around || atS + sinceS >= around.untilS);
}

/** Everything that is told of one member's pour. */
export function runMember(ground: StackState, pour: PourOfMember, { trial, bench }: { trial: Trial; bench: Pick<BuildPour, 'formula'> }): MemberRun {
  const { atC, viscosityMPaS } = bench.formula;
  const poured = pouredOn(ground, pour, trial);
  const ended = cloneStack(poured);
  const { gelAlpha } = pour.law;
  const closeS = pour.bondS;
  let peakC = Math.max(trial.mixC, ...ground.temperatureC);
  let [peakAtS, beforeS, progressS, fluidityPerPa] = [0, 0, 0, 0];
  let closesS: number | null = null;
  let surfaceC = trial.mixC;
  let [midC, midConversion] = [trial.mixC, 0];
  const firstRoomC = trial.room[0].temperatureC;
  let overBefore = surfaceC - firstRoomC - SETTLED_K;
  let warmFromS: number | null = overBefore > 0 ? 0 : null;
  const warmSpans: [number, number][] = [];
  const thin = (c: number, alpha: number) => 1000 / (viscosityMPaS * viscosityFactor(c, atC) * thickening(alpha, gelAlpha));
  const stop = advance(ended, trial.atS + HORIZON_S, {
    until: (seen) => {
      const stepS = seen.sinceS - beforeS;
      if (seen.stackHottestC > peakC) [peakC, peakAtS] = [seen.stackHottestC, seen.sinceS];
      const rate = rateAt((surfaceC + seen.surfaceC) / 2, atC);
      if (closesS === null && progressS + rate * stepS >= closeS) closesS = beforeS + (closeS - progressS) / rate;
      progressS += rate * stepS;
      fluidityPerPa += thin((midC + seen.midC) / 2, (midConversion + seen.midConversion) / 2) * stepS;
      const over = seen.surfaceC - seen.roomC - SETTLED_K;
      if (over > 0 && warmFromS === null) warmFromS = beforeS;
      if (over <= 0 && warmFromS !== null) {
        // Straight between the ends of the step; at its end where the room itself has changed.
        const share = overBefore > 0 ? overBefore / (overBefore - over) : 1;
        warmSpans.push([warmFromS, beforeS + share * stepS]);
        warmFromS = null;
      }
      overBefore = over;
      [beforeS, surfaceC, midC, midConversion] = [seen.sinceS, seen.surfaceC, seen.midC, seen.midConversion];
      return isPast(seen, trial);
    },
  });
  if (warmFromS !== null) warmSpans.push([warmFromS, beforeS]);
  if (stop === 'stuck') peakC = Infinity;
  return { peakC, peakAtS, closesS, closeHoursLeft: Math.max(0, (closeS - progressS) / 3600), endedS: beforeS, warmSpans, fluidityPerPa, midConversion, slot: { place: pour.place, poured, ended } };
}
