/** A pour's chart in words and as a short table. */
import type { HeatSeries } from '../../core/cure/verdict-series.ts';
import { span } from '../../core/units/format.ts';

/** Within this of the room nobody feels the difference, K: from then on it is cool again. */
const COOL_AGAIN_K = 3;
const ROWS = 8;

/** `Warmest after about 6 h, 34 to 48 °C. Within 3 °C of the room again after about 1 d.` */
export function seriesWords({ hours, lowC, highC, roomC, middleC }: HeatSeries): string {
  const hottest = middleC.indexOf(Math.max(...middleC));
  const degrees = (low: number, high: number): string => (Math.floor(low) === Math.ceil(high) ? `${Math.floor(low)}\u00a0°C` : `${Math.floor(low)} to ${Math.ceil(high)}\u00a0°C`);
  const warm = highC.findLastIndex((c, i) => c > roomC[i] + COOL_AGAIN_K);
  const peak = `Warmest after about ${span(hours[hottest] * 60)}, ${degrees(lowC[hottest], highC[hottest])}.`;
  if (warm < 0) return `${peak} It stays within ${COOL_AGAIN_K}\u00a0°C of the room.`;
  if (warm === hours.length - 1) return peak;
  return `${peak} Within ${COOL_AGAIN_K}\u00a0°C of the room again after about ${span(hours[warm + 1] * 60)}.`;
}

export function seriesTable({ hours, lowC, highC }: HeatSeries): readonly { readonly h: number; readonly lowC: number; readonly highC: number }[] {
  const last = hours.length - 1;
  const rows = Array.from({ length: ROWS + 1 }, (_, k) => Math.round((k * last) / ROWS));
  return rows.map((i) => ({ h: Number(hours[i].toFixed(1)), lowC: Math.floor(lowC[i]), highC: Math.ceil(highC[i]) }));
}
