/** A pour's chart in words and as a short table. */
import type { HeatSeries } from '../../core/cure/verdict-series.ts';
import { warmest } from '../../core/plan/heat-words.ts';
import type { PourHeat } from '../../core/plan/plan.ts';
import { capital, span } from '../../core/units/format.ts';

/** Within this of the room nobody feels the difference, K: from then on it is cool again. */
const COOL_AGAIN_K = 3;
const ROWS = 8;

/** `Warm, 34 to 48 °C at its warmest, after about 6 h. Within 3 °C of the room again after about 1 d.` As the plan has it: each resin within the band peaks at its own hour. */
export function seriesWords(heat: Pick<PourHeat, 'words' | 'rangeC' | 'afterH'>, { hours, highC, roomC }: HeatSeries): string {
  const words = warmest(heat);
  const peak = `${capital(words)}.`;
  const warm = highC.findLastIndex((c, i) => c > roomC[i] + COOL_AGAIN_K);
  if (warm < 0) return `${peak} It stays within ${COOL_AGAIN_K}\u00a0°C of the room.`;
  if (warm === hours.length - 1) return peak;
  return `${peak} Within ${COOL_AGAIN_K}\u00a0°C of the room again after about ${span(hours[warm + 1] * 60)}.`;
}

/** Why the band's top may be lower than what is said. */
export const BAND_WORDS = 'The band is what the label leaves open at each hour; each resin within it peaks at an hour of its own.';

export function seriesTable({ hours, lowC, highC }: HeatSeries): readonly { readonly h: number; readonly lowC: number; readonly highC: number }[] {
  const last = hours.length - 1;
  const rows = Array.from({ length: ROWS + 1 }, (_, k) => Math.round((k * last) / ROWS));
  return rows.map((i) => ({ h: Number(hours[i].toFixed(1)), lowC: Math.floor(lowC[i]), highC: Math.ceil(highC[i]) }));
}
