/** The air around a pour: how damp it is, and whether it is likely to leave a greasy film on what cures in it. */
import { roomAt } from '../../cure/equivalent-time.ts';
import type { Room, Scene } from '../../scene/scene.ts';
import { parseLocalTime } from '../../units/time.ts';
import type { Pour } from '../plan.ts';

/** Over this a pour may cloud, percent (common practice, no source; advice ranges from 60 to 85). */
export const DAMP_HUMIDITY = 65;
/** From here on amine blush is likely: damper, percent, or colder, °C (published notes on amine blush, trade). */
export const BLUSH_HUMIDITY = 70;
export const BLUSH_BELOW_C = 20;

/** Relative humidity at a moment, percent: the latest entry that says one, else the room's; null: nobody measured it. */
export function humidityAt({ humidity, profile }: Room, minute: number): number | null {
  return profile.findLast((entry) => entry.fromMin <= minute && entry.humidity !== undefined)?.humidity ?? humidity ?? null;
}

export interface Blush {
  /** It is colder than it should be. */
  readonly cold: boolean;
  /** The dampest air, percent, where it is too damp; else null. */
  readonly damp: number | null;
}

/** What makes a greasy film likely while a pour goes from liquid to tacky; null: nothing known does. */
export function blushOn({ room }: Pick<Scene, 'room'>, { starts, opens }: Pick<Pour, 'starts' | 'opens'>): Blush | null {
  const [from, to] = [parseLocalTime(starts)!, parseLocalTime(opens)!];
  const moments = [from, ...room.profile.map(({ fromMin }) => fromMin).filter((at) => at > from && at < to)];
  const cold = moments.some((at) => roomAt(room, at) < BLUSH_BELOW_C);
  const dampest = Math.max(...moments.map((at) => humidityAt(room, at) ?? 0));
  const damp = dampest > BLUSH_HUMIDITY ? dampest : null;
  return cold || damp !== null ? { cold, damp } : null;
}
