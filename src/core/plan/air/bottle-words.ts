/** What bottles warmer than the room do to a mix, in a sentence. */
import { viscosityFactor } from '../../cure/bubbles.ts';
import { rateAt, roomAt } from '../../cure/equivalent-time.ts';
import type { Scene } from '../../scene/scene.ts';
import { percent, plain } from '../../units/format.ts';
import { parseLocalTime } from '../../units/time.ts';
import type { Pour } from '../plan.ts';

const NBSP = '\u00a0';

/** For a pour's step and its mix card; empty where the bottles are no warmer than the room. */
export function bottleWords({ room }: Pick<Scene, 'room'>, { mixC, starts }: Pick<Pour, 'mixC' | 'starts'>): string {
  if (mixC === undefined) return '';
  const roomC = roomAt(room, parseLocalTime(starts)!);
  return `Bottles at ${plain(mixC)}${NBSP}°C: the mix runs ${percent(viscosityFactor(mixC, roomC), 0)} as thick as at ${plain(roomC)}${NBSP}°C and keeps ${percent(rateAt(roomC, mixC), 0)} of its minutes.`;
}
