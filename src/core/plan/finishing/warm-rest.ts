/**
 * A rest in gentle warmth, in the mold, after which the piece softens later: up slowly, first at 40 °C, then as warm as
 * asked, and slowly down (trade: common practice, from memory). Never warmer than label, figures and mold bear.
 */
import { roomAt } from '../../cure/equivalent-time.ts';
import type { Room, Scene, WarmRest } from '../../scene/scene.ts';
import { MINUTES_PER_HOUR } from '../../units/time.ts';
import { limitOf, MOLD_LIMIT_C } from '../findings-heat.ts';
import { wholeMinutes } from './hours.ts';

/** Without a label that allows more, °C. */
const USUAL_LIMIT_C = 50;
/** Under this a rest in a box does no more than one in the room, °C. */
const WORTH_C = 35;
/** Most that it may warm or cool in an hour, °C. */
const RAMP_C_PER_H = 10;
/** Where it stays a while on its way up. */
const FIRST = { temperatureC: 40, hours: 4 } as const;
/** Soften so near to it that no warm rest is good for them, unless their own limit is known. */
const NOT_WARMED: readonly string[] = ['pla', 'wax'];

export interface WarmLimit {
  readonly limitC: number;
  /** A placement's id, or what else sets it; `unsaid`: no label allows more. */
  readonly by: 'label' | 'unsaid' | 'mold' | { readonly placement: string };
}

/** A stretch of it: from one temperature to another, or staying. */
export interface WarmStage {
  readonly fromMin: number;
  readonly toMin: number;
  readonly fromC: number;
  readonly toC: number;
}

/** The strictest limit. */
export function warmLimit({ placements, mold }: Pick<Scene, 'placements' | 'mold'>, { labelC }: WarmRest): WarmLimit {
  const limits: WarmLimit[] = [{ limitC: labelC ?? USUAL_LIMIT_C, by: labelC === undefined ? 'unsaid' : 'label' }];
  const moldC = MOLD_LIMIT_C[mold.material];
  if (moldC !== undefined) limits.push({ limitC: moldC, by: 'mold' });
  for (const placement of placements) {
    if (placement.kind === 'plane') continue;
    const never = placement.limitC === undefined && placement.material !== undefined && NOT_WARMED.includes(placement.material);
    const limitC = never ? -Infinity : limitOf(placement);
    if (limitC !== undefined) limits.push({ limitC, by: { placement: placement.id } });
  }
  return limits.reduce((least, each) => (each.limitC < least.limitC ? each : least));
}

/** As warm as asked and borne; null where that is no warmer than a room. */
export function warmthOf(rest: WarmRest, { limitC }: WarmLimit): number | null {
  const warmC = Math.min(rest.temperatureC, limitC);
  return warmC >= WORTH_C ? warmC : null;
}

/** Its stages from a moment on, out of the room and back. */
export function warmStages(room: Room, fromMin: number, { temperatureC, hours }: Pick<WarmRest, 'temperatureC' | 'hours'>): WarmStage[] {
  const stages: WarmStage[] = [];
  let at = fromMin;
  let nowC = roomAt(room, fromMin);
  const go = (toC: number, minutes: number) => {
    if (minutes > 0) stages.push({ fromMin: at, toMin: at + minutes, fromC: nowC, toC });
    at += minutes;
    nowC = toC;
  };
  const ramp = (toC: number) => go(toC, wholeMinutes((Math.abs(toC - nowC) / RAMP_C_PER_H) * MINUTES_PER_HOUR));
  if (temperatureC > FIRST.temperatureC && nowC < FIRST.temperatureC) {
    ramp(FIRST.temperatureC);
    go(FIRST.temperatureC, FIRST.hours * MINUTES_PER_HOUR);
  }
  ramp(temperatureC);
  go(temperatureC, wholeMinutes(hours * MINUTES_PER_HOUR));
  // Down to the room as it is by then: cooling takes hours, so it is looked at where it would end.
  ramp(roomAt(room, at + wholeMinutes((Math.abs(nowC - roomAt(room, at)) / RAMP_C_PER_H) * MINUTES_PER_HOUR)));
  return stages;
}

/** The room as the piece has it: in a ramp only the cooler end of each hour counts. */
export function roomWith(room: Room, stages: readonly WarmStage[]): Room {
  if (stages.length === 0) return room;
  const [fromMin, toMin] = [stages[0].fromMin, stages[stages.length - 1].toMin];
  const warm = stages.flatMap((stage) => {
    if (stage.fromC === stage.toC) return [{ fromMin: stage.fromMin, temperatureC: stage.toC }];
    const hours = Math.ceil((stage.toMin - stage.fromMin) / MINUTES_PER_HOUR);
    const rising = stage.toC > stage.fromC;
    return Array.from({ length: hours }, (_, i) => {
      const share = Math.min(1, ((i + (rising ? 0 : 1)) * MINUTES_PER_HOUR) / (stage.toMin - stage.fromMin));
      return { fromMin: stage.fromMin + i * MINUTES_PER_HOUR, temperatureC: stage.fromC + (stage.toC - stage.fromC) * share };
    });
  });
  const before = room.profile.filter((entry) => entry.fromMin < fromMin);
  const after = room.profile.filter((entry) => entry.fromMin > toMin);
  return { ...room, profile: [...before, ...warm, { fromMin: toMin, temperatureC: roomAt(room, toMin) }, ...after] };
}
